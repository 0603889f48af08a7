#include "ui/terminal/table_text.h"

#include "ui/terminal/input_output.h"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <iterator>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace ui {
namespace {

constexpr std::size_t part_bytes = 1 << 18;

}  // namespace

TableText::TableText(const std::string& path) : path_(path) {
    file_ = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat about {};
    if (file_ < 0 || fstat(file_, &about) != 0 || S_ISDIR(about.st_mode)) {
        if (file_ >= 0) close(std::exchange(file_, -1));
        const std::string text = read_file(path);  // which refuses it in words
        held_.assign(text.begin(), text.end());
        filled_ = bytes_ = held_.size();
        return;
    }
    if (S_ISREG(about.st_mode)) bytes_ = static_cast<std::size_t>(about.st_size);
    held_.resize(part_bytes);
}

TableText::~TableText() {
    if (file_ >= 0) close(file_);
}

bool TableText::read_more() {
    while (file_ >= 0) {
        const ssize_t got = read(file_, held_.data() + filled_, held_.size() - filled_);
        if (got < 0 && errno == EINTR) continue;
        if (got < 0) refuse("table", path_, "a file that can be read to its end");
        filled_ += static_cast<std::size_t>(got);
        if (got > 0) return true;
        close(std::exchange(file_, -1));
    }
    return false;
}

std::string_view TableText::next() {
    std::copy(held_.begin() + static_cast<std::ptrdiff_t>(given_),
              held_.begin() + static_cast<std::ptrdiff_t>(filled_), held_.begin());
    filled_ -= std::exchange(given_, 0);
    bool to_the_end = false;
    std::size_t looked_at = 0;
    for (;;) {
        to_the_end = to_the_end || std::memchr(held_.data() + looked_at, '"', filled_ - looked_at) != nullptr;
        looked_at = filled_;
        const auto from_back =
            std::make_reverse_iterator(held_.begin() + static_cast<std::ptrdiff_t>(filled_));
        if (!to_the_end && filled_ == held_.size()) {
            const auto line_end = std::find(from_back, held_.rend(), '\n');
            if (line_end != held_.rend()) {
                given_ = static_cast<std::size_t>(held_.rend() - line_end);
                return {held_.data(), given_};
            }
        }
        if (filled_ == held_.size()) held_.resize(std::max(2 * held_.size(), part_bytes));
        if (!read_more()) break;
    }
    given_ = filled_;
    return {held_.data(), given_};
}

}  // namespace ui
