#include "ui/terminal/table_text.h"

#include "ui/terminal/input_output.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/stat.h>
#include <unistd.h>

namespace ui {

TableText::TableText(const std::string& path) {
    const int file = open(path.c_str(), O_RDONLY | O_CLOEXEC);
    struct stat about {};
    if (file >= 0 && fstat(file, &about) == 0 && S_ISREG(about.st_mode) && about.st_size > 1 << 21) {
        constexpr std::size_t page = 1 << 21;
        const auto size = static_cast<std::size_t>(about.st_size);
        bytes_.reset(static_cast<char*>(std::aligned_alloc(page, (size + page - 1) / page * page)));
        if (bytes_ != nullptr) madvise(bytes_.get(), size, MADV_HUGEPAGE);
        while (bytes_ != nullptr && size_ < size) {
            const ssize_t got = read(file, bytes_.get() + size_, size - size_);
            if (got <= 0) break;
            size_ += static_cast<std::size_t>(got);
        }
        if (size_ < size) bytes_.reset();
    }
    if (file >= 0) close(file);
    if (bytes_ == nullptr) small_ = read_file(path);
}

}  // namespace ui
