// Well-formed and other bytes: the table of RFC 3629 and the Unicode Standard's table 3-7.
#include "engine/competency/utf8.h"

#include <catch2/catch.hpp>

#include <string>

using namespace engine;

TEST_CASE("the first and last characters of one to four bytes are text; the bytes beside them are not",
          "[competency]") {
    for (const char* text : {"", "A-014", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xed\x9f\xbf",
                             "\xee\x80\x80", "\xef\xbf\xbf", "\xf0\x90\x80\x80", "\xf4\x8f\xbf\xbf"}) {
        INFO(text);
        CHECK(first_not_utf8(text) == std::string_view::npos);
        CHECK(with_bytes_named(text) == text);
    }
    for (const char* text :
         {"\x80", "\xbf", "\xc0\x80", "\xc1\xbf", "\xc2", "\xc2\x41", "\xe0\x9f\xbf", "\xed\xa0\x80",
          "\xe2\x82", "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80", "\xff"})
        CHECK(first_not_utf8(text) == 0);
    CHECK(first_not_utf8("B\xe9la") == 1);
    CHECK(with_bytes_named("B\xe9la, \xc3\xa9, \xff") == "B\\xE9la, \xc3\xa9, \\xFF");
}
