// SHA-256 through libsodium, as 64 lower-case hex digits.
#pragma once

#include <string>
#include <string_view>

namespace engine {

std::string sha256_hex(std::string_view bytes);

}  // namespace engine
