#include "engine/competency/utf8.h"

#include <cstddef>

namespace engine {
namespace {

// Letters of the character at the start of `text`; 0 = none of UTF-8 (RFC 3629).
std::size_t character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char lead = byte(0);
    if (lead < 0x80) return 1;
    const std::size_t length = lead >= 0xC2 && lead <= 0xDF   ? 2
                               : lead >= 0xE0 && lead <= 0xEF ? 3
                               : lead >= 0xF0 && lead <= 0xF4 ? 4
                                                              : 0;
    if (length == 0 || length > text.size()) return 0;
    // longer than needed, half of a pair of UTF-16, or past the last character there is
    const unsigned char from = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
    const unsigned char to = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;
    if (byte(1) < from || byte(1) > to) return 0;
    for (std::size_t i = 2; i < length; ++i)
        if (byte(i) < 0x80 || byte(i) > 0xBF) return 0;
    return length;
}

}  // namespace

std::string_view::size_type first_not_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = character(text.substr(at));
        if (length == 0) return at;
        at += length;
    }
    return std::string_view::npos;
}

std::string with_bytes_named(std::string_view text) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string named;
    for (std::size_t at = first_not_utf8(text); at != text.npos; at = first_not_utf8(text)) {
        const auto byte = static_cast<unsigned char>(text[at]);
        named += text.substr(0, at);
        named += "\\x";
        named += digits[byte / 16u];
        named += digits[byte % 16u];
        text.remove_prefix(at + 1);
    }
    return named += text;
}

}  // namespace engine
