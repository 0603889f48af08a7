#include "engine/scenario/quantity.h"

#include <catch2/catch.hpp>

using engine::in_words;
using engine::read_quantity;
using engine::Unit;

TEST_CASE("138.4 bpm reads as 138.4, 39 wk 4 d as 39 4/7 weeks, 1 h 30 min as 5400 s", "[quantity]") {
    CHECK(read_quantity("138.4 bpm", Unit::bpm)->from == 138.4);
    CHECK(read_quantity("39 wk 4 d", Unit::weeks)->from == Approx(39.0 + 4.0 / 7.0).margin(1e-12));
    CHECK(read_quantity("1 h 30 min", Unit::seconds)->from == 5400.0);
    CHECK(read_quantity("-2 cm", Unit::centimetres)->from == -2.0);
    CHECK(read_quantity("6 dB", Unit::decibels)->from == 6.0);
    CHECK(read_quantity("45 mmHg", Unit::mmhg)->from == 45.0);
    CHECK(read_quantity("38.6 C", Unit::celsius)->from == 38.6);
    CHECK(read_quantity("3.5 per 10 min", Unit::per_10min)->from == 3.5);
    CHECK(read_quantity("1 fifth", Unit::fifths)->from == 1.0);
    CHECK(read_quantity("  10   min ", Unit::seconds)->from == 600.0);
}

TEST_CASE("132 to 148 bpm is a range, its unit may stand once or twice", "[quantity]") {
    const auto range = read_quantity("132 to 148 bpm", Unit::bpm);
    REQUIRE(range.has_value());
    CHECK(range->range);
    CHECK(range->from == 132.0);
    CHECK(range->to == 148.0);
    CHECK(range->middle() == 140.0);
    CHECK(read_quantity("132 bpm to 148 bpm", Unit::bpm)->to == 148.0);
    CHECK(read_quantity("15 to 30 min", Unit::seconds)->from == 900.0);
    CHECK(read_quantity("90 s to 3 min", Unit::seconds)->to == 180.0);
    CHECK(read_quantity("-8 to -5 cm", Unit::centimetres)->from == -8.0);
    CHECK_FALSE(read_quantity("140 bpm", Unit::bpm)->range);
}

TEST_CASE("A number without its unit, with another unit or with more behind it is no quantity",
          "[quantity]") {
    for (const char* text :
         {"138", "", " ", "bpm", "138 mmHg", "138 BPM", "138bpmx", "138 bpm or so", "fast", "nan bpm",
          "inf bpm", "1e2 bpm", "138 bpm 2 bpm", "132 to bpm", "132 to 148", "to 148 bpm", "138,4 bpm"}) {
        INFO(text);
        CHECK_FALSE(read_quantity(text, Unit::bpm).has_value());
    }
    CHECK_FALSE(read_quantity("4 d 39 wk", Unit::weeks).has_value());
    CHECK_FALSE(read_quantity("30 min 1 h", Unit::seconds).has_value());
    CHECK_FALSE(read_quantity("1 h -30 min", Unit::seconds).has_value());
}

TEST_CASE("5400 s are written as 90 min, 7200 s as 2 h, 90 s as 90 s, 39 4/7 weeks as 39 wk 4 d",
          "[quantity]") {
    CHECK(in_words(5400, Unit::seconds) == "90 min");
    CHECK(in_words(7200, Unit::seconds) == "2 h");
    CHECK(in_words(90, Unit::seconds) == "90 s");
    CHECK(in_words(39.0 + 4.0 / 7.0, Unit::weeks) == "39 wk 4 d");
    CHECK(in_words(40, Unit::weeks) == "40 wk");
    CHECK(in_words(138.4, Unit::bpm) == "138.4 bpm");
    CHECK(in_words(-2, Unit::centimetres) == "-2 cm");
    CHECK(in_words(-0.0, Unit::decibels) == "0 dB");
}
