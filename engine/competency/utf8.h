// Whether a text from outside is UTF-8, and the same text when it is not: everything printed must be.
#pragma once

#include <string>
#include <string_view>

namespace engine {

// Where the first byte stands that belongs to no character of UTF-8; npos when there is none.
std::string_view::size_type first_not_utf8(std::string_view text);
// Such bytes as \xE9, all else as it is.
std::string with_bytes_named(std::string_view text);

}  // namespace engine
