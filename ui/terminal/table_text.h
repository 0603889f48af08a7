// The text of a table of millions of rows: read whole, in large pages where the system has them.
#pragma once

#include <cstddef>
#include <cstdlib>
#include <memory>
#include <string>
#include <string_view>

namespace ui {

class TableText {
public:
    explicit TableText(const std::string& path);
    std::string_view text() const {
        return bytes_ != nullptr ? std::string_view(bytes_.get(), size_) : std::string_view(small_);
    }

private:
    struct Free {
        void operator()(char* bytes) const { std::free(bytes); }
    };
    std::unique_ptr<char, Free> bytes_;
    std::size_t size_ = 0;
    std::string small_;
};

}  // namespace ui
