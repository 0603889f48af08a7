// Every kind of fault: its line, what was found, what is allowed.
#include "sim/random.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <algorithm>

using Lines = std::vector<std::string>;

TEST_CASE("The file that the other cases spoil has no fault", "[reader]") {
    CHECK(scenario_faults(right_scenario).empty());
}

TEST_CASE("A bare number where a unit is needed: line 15, the range and the unit", "[reader]") {
    CHECK(scenario_faults(with(right_scenario, "\"138.4 bpm\"", "138.4")) ==
          Lines{"a-test.toml:15: baby.baseline, found 138.4, a number without its unit, allowed: 50 bpm to "
                "240 bpm, in "
                "quotes and with its unit"});
    CHECK(scenario_faults(with(right_scenario, "\"138.4 bpm\"", "138")) ==
          Lines{"a-test.toml:15: baby.baseline, found 138, a number without its unit, allowed: 50 bpm to 240 "
                "bpm, in "
                "quotes and with its unit"});
}

TEST_CASE("Another unit, no unit, no number: line 15 and the unit that is meant", "[reader]") {
    for (const char* wrong : {"\"138.4 mmHg\"", "\"138.4\"", "\"fast\"", "\"\""}) {
        CHECK(scenario_faults(with(right_scenario, "\"138.4 bpm\"", wrong)) ==
              Lines{std::string("a-test.toml:15: baby.baseline, found ") + wrong +
                    ", allowed: 50 bpm to 240 bpm, in bpm"});
    }
}

TEST_CASE("Out of range: 300 bpm is refused, 240 bpm and 50 bpm are the last ones read", "[reader]") {
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "300 bpm")) ==
          Lines{"a-test.toml:15: baby.baseline, found \"300 bpm\", allowed: 50 bpm to 240 bpm"});
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "240 bpm")).empty());
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "50 bpm")).empty());
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "49.9 bpm")).size() == 1);
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "200 to 260 bpm")) ==
          Lines{"a-test.toml:15: baby.baseline, found \"200 to 260 bpm\", allowed: 50 bpm to 240 bpm"});
}

TEST_CASE("A head that goes up, shoulders of a late slowing, a pulse that moves with no trouble: refused",
          "[reader]") {
    CHECK(scenario_faults(right_scenario + "above_brim = \"2 fifths\"\ncomes_down_to = \"3 fifths\"\n") ==
          Lines{"a-test.toml:18: baby.comes_down_to, found 3 fifths, allowed: no more than above_brim = 2 "
                "fifths"});
    CHECK(scenario_faults(right_scenario + "[[baby.event]]\nkind = \"late\"\nshoulders = \"10 bpm\"\n") ==
          Lines{"a-test.toml:19: baby.event[1].shoulders, found \"10 bpm\", allowed: only with kind = "
                "\"variable\""});
    CHECK(scenario_faults(right_scenario + "[cause]\npulse_to = \"130 bpm\"\n") ==
          Lines{"a-test.toml:18: cause.pulse_to, found 130 bpm, allowed: only with a trouble and the time it "
                "starts "
                "(at)"});
}

TEST_CASE("Every beat missed is no rhythm: every first is refused, every second is not", "[reader]") {
    CHECK(scenario_faults(right_scenario + "drop_every = 1\n") ==
          Lines{"a-test.toml:17: baby.drop_every, found 1, allowed: 0 (never), or 2 to 50"});
    CHECK(scenario_faults(right_scenario + "early_every = 1\n") ==
          Lines{"a-test.toml:17: baby.early_every, found 1, allowed: 0 (never), or 2 to 50"});
    CHECK(scenario_faults(right_scenario + "drop_every = 2\n").empty());
}

TEST_CASE("An unknown key names the nearest right one, also in another section", "[reader]") {
    const Lines found = scenario_faults(with(right_scenario, "baseline", "basline"));
    REQUIRE(found.size() == 1);
    CHECK(found[0] ==
          "a-test.toml:15: baby.basline, found an unknown key, allowed: did you mean `baseline`?");
    CHECK(scenario_faults(right_scenario + "pulse = \"80 bpm\"\n") ==
          Lines{"a-test.toml:17: baby.pulse, found an unknown key, allowed: did you mean `mother.pulse`?"});
    const Lines far = scenario_faults(right_scenario + "favourite_colour = \"blue\"\n");
    REQUIRE(far.size() == 1);
    CHECK(far[0].find(
              "a-test.toml:17: baby.favourite_colour, found an unknown key, allowed: one of: event, heart, "
              "baseline") == 0);
    CHECK(scenario_faults(with(right_scenario, "[mother]", "[mohter]")) ==
          Lines{"a-test.toml:12: mohter, found an unknown key, allowed: did you mean `mother`?"});
}

TEST_CASE("A wrong word lists the right ones and the nearest", "[reader]") {
    const Lines found = scenario_faults(with(right_scenario, "\"LOA\"", "\"LAO\""));
    REQUIRE(found.size() == 1);
    CHECK(found[0].find("a-test.toml:16: baby.position, found \"LAO\", allowed: one of: LOA, LOT, LOP, ") ==
          0);
    CHECK(found[0].find("; did you mean `LOA`?") != std::string::npos);
    const Lines task = scenario_faults(with(right_scenario, "\"count\"", "\"counting\""));
    CHECK(task ==
          Lines{"a-test.toml:4: task, found \"counting\", allowed: one of: count, quick, find, tell_apart, "
                "pattern, labour"});
    CHECK(scenario_faults(with(right_scenario, "\"doppler\"", "\"dopler\"")) ==
          Lines{"a-test.toml:10: place.instruments, found \"dopler\", allowed: one of: horn, bell, "
                "diaphragm, doppler; "
                "did you mean `doppler`?"});
}

TEST_CASE("A later format is named as such, another kind is refused", "[reader]") {
    CHECK(
        scenario_faults(with(right_scenario, "scenario/1", "scenario/2")) ==
        Lines{"a-test.toml:1: format, found \"fullminute-scenario/2\", written by a newer program, allowed: "
              "\"fullminute-scenario/1\""});
    CHECK(
        scenario_faults(with(right_scenario, "scenario/1", "protocol/1")) ==
        Lines{"a-test.toml:1: format, found \"fullminute-protocol/1\", allowed: \"fullminute-scenario/1\""});
    CHECK(scenario_faults(with(right_scenario, "scenario/1", "scenario/0")).size() == 1);
    CHECK(scenario_faults(with(right_scenario, "scenario/1", "scenario/")).size() == 1);
}

TEST_CASE("The id is the stem of the file, 3 to 48 of a-z, 0-9 and -", "[reader]") {
    CHECK(scenario_faults(with(right_scenario, "\"a-test\"", "\"another\"")) ==
          Lines{"a-test.toml:2: id, found \"another\", allowed: the name of the file: \"a-test\""});
    CHECK(scenario_faults(with(right_scenario, "\"a-test\"", "\"A_Test\"")) ==
          Lines{"a-test.toml:2: id, found \"A_Test\", allowed: 3 to 48 of a-z, 0-9 and -"});
    CHECK(scenario_faults(with(right_scenario, "\"a-test\"", "\"ab\"")).size() == 1);
    const std::string long_id(49, 'a');
    CHECK(engine::read_scenario(with(right_scenario, "\"a-test\"", "\"" + long_id + "\""), long_id + ".toml")
              .faults()
              .size() == 1);
}

TEST_CASE("Three faults in one file come in one go, by line", "[reader]") {
    std::string text = with(right_scenario, "138.4 bpm", "300 bpm");
    text = with(text, "79 bpm", "79 cm");
    text = with(text, "length = \"6 min\"", "length = 6");
    const Lines found = scenario_faults(text);
    REQUIRE(found.size() == 3);
    CHECK(found[0].find("a-test.toml:5: length, found 6, a number without its unit") == 0);
    CHECK(found[1].find("a-test.toml:13: mother.pulse, found \"79 cm\"") == 0);
    CHECK(found[2].find("a-test.toml:15: baby.baseline, found \"300 bpm\"") == 0);
}

TEST_CASE("A syntax fault is told alone, with its line", "[reader]") {
    const Lines found = scenario_faults(with(right_scenario, "pulse = \"79 bpm\"", "pulse = "));
    REQUIRE(found.size() == 1);
    CHECK(found[0].find("a-test.toml:13: this is not TOML") == 0);
    CHECK(scenario_faults(right_scenario + "position = \"LOT\"\n").size() == 1);  // a key twice
}

TEST_CASE("What is needed and missing is named with the line of its section", "[reader]") {
    CHECK(scenario_faults(with(right_scenario, "story = \"A-001 is in labour.\"\n", "\n")) ==
          Lines{"a-test.toml:1: story, found nothing, allowed: needed: what the trainee is told before the "
                "first touch "
                "(text of up to 2000 bytes, not empty)"});
    CHECK(scenario_faults("").size() >= 7);
    CHECK(scenario_faults(with(right_scenario, "story = \"A-001 is in labour.\"", "story = \"\"")) ==
          Lines{"a-test.toml:6: story, found \"\", allowed: text of up to 2000 bytes, not empty"});
}

TEST_CASE("A range is read only where it is drawn, and from the smaller to the larger value", "[reader]") {
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "132 to 148 bpm")).empty());
    CHECK(scenario_faults(with(right_scenario, "138.4 bpm", "148 to 132 bpm")) ==
          Lines{"a-test.toml:15: baby.baseline, found \"148 to 132 bpm\", allowed: a range from the smaller "
                "to the "
                "larger value"});
    CHECK(scenario_faults(with(right_scenario, "6 min", "5 to 6 min")) ==
          Lines{"a-test.toml:5: length, found \"5 to 6 min\", allowed: one value, not a range: 60 s to 4 h"});
}

TEST_CASE("Sections, lists and plain values are not taken for one another", "[reader]") {
    CHECK(scenario_faults(right_scenario + "[baby.event]\nkind = \"late\"\n") ==
          Lines{"a-test.toml:17: baby.event, found [baby.event], one section, allowed: a list of sections: "
                "[[baby.event]]"});
    CHECK(scenario_faults(with(right_scenario, "[mother]\npulse = \"79 bpm\"\n", "\n[[mother]]\n")) ==
          Lines{"a-test.toml:13: mother, found a value, allowed: a section: [mother]"});
    CHECK(scenario_faults(with(right_scenario, "\"A test\"", "[\"A test\"]")) ==
          Lines{"a-test.toml:3: title, found a list, allowed: text of up to 80 bytes, not empty"});
    CHECK(scenario_faults(right_scenario + "drop_every = 4.5\n") ==
          Lines{"a-test.toml:17: baby.drop_every, found 4.5, allowed: a whole number, 0 to 50"});
}

TEST_CASE("Facts that contradict each other are refused", "[reader]") {
    const auto one = [](const std::string& text, const std::string& start) {
        const Lines found = scenario_faults(text);
        INFO(text);
        REQUIRE(found.size() == 1);
        CHECK(found[0] == start);
    };
    one(right_scenario + "spot_x = \"6 cm\"\n",
        "a-test.toml:14: baby, found one of spot_x, spot_y, allowed: both or neither");
    one(with(right_scenario, "baseline = \"138.4 bpm\"", "heart = \"absent\""),
        "a-test.toml:14: baby.heart, found \"absent\", allowed: a content_note at the top of the file");
    one(with(with(right_scenario, "baseline = \"138.4 bpm\"", "heart = \"absent\""),
             "story = ", "content_note = \"A loss may be met.\"\nstory = ") +
            "[[baby.event]]\nkind = \"late\"\n",
        "a-test.toml:18: baby.event[1], found an event of a heart that is absent, allowed: no events where "
        "heart = "
        "\"absent\"");
    one(right_scenario +
            "[[baby.event]]\nkind = \"variable\"\ndepth = \"100 bpm\"\n[[baby.event]]\nkind = "
            "\"late\"\nlength = \"40 s\"\n",
        "a-test.toml:22: baby.event[2].length, found \"40 s\", allowed: only with kind = \"acceleration\", "
        "\"variable\" "
        "or \"prolonged\": the contraction gives it");
    one(with(right_scenario, "138.4", "120.4") + "[[baby.event]]\nkind = \"variable\"\ndepth = \"100 bpm\"\n",
        "a-test.toml:17: baby.event[1].depth, found 100 bpm, allowed: at least 30 bpm must be left of the "
        "baseline of "
        "120.4 bpm");
    one(with(right_scenario, "138.4 bpm", "100 to 160 bpm") +
            "[[baby.event]]\nkind = \"variable\"\ndepth = \"40 to 80 bpm\"\n",
        "a-test.toml:17: baby.event[1].depth, found 80 bpm, allowed: at least 30 bpm must be left of the "
        "baseline of "
        "100 bpm");
    one(right_scenario + "[[baby.event]]\nkind = \"prolonged\"\nby = \"time\"\n",
        "a-test.toml:17: baby.event[1].at, found nothing, allowed: needed with by = \"time\": when it "
        "starts");
    one(right_scenario + "[[baby.event]]\nkind = \"early\"\nfrom = \"3 min\"\nuntil = \"2 min\"\n",
        "a-test.toml:17: baby.event[1].until, found 2 min, allowed: later than from = 3 min");
    one(right_scenario + "[labour]\nstage = \"second\"\nopen = \"8 cm\"\n",
        "a-test.toml:18: labour.stage, found \"second\" with open = 8 cm, allowed: open = \"10 cm\" in the "
        "second stage");
    one(right_scenario + "[labour]\nwaters = \"whole\"\nwaters_gone = \"3 h\"\n",
        "a-test.toml:19: labour.waters_gone, found 3 h, allowed: only where the waters are not whole");
    one(right_scenario + "[labour]\nwithout_drip = \"3 per 10 min\"\n",
        "a-test.toml:18: labour.without_drip, found \"3 per 10 min\", allowed: only with drip = true");
    one(right_scenario + "[[labour.call]]\nkind = \"waters_break\"\nat = \"7 min\"\nsays = \"Oh!\"\n",
        "a-test.toml:17: labour.call[1].at, found 7 min, allowed: within the length of 6 min");
    one(right_scenario + "[cause]\ntrouble = \"cord_pressure\"\nat = \"60 s\"\nfalls_to = \"150 bpm\"\n",
        "a-test.toml:20: cause.falls_to, found 150 bpm, allowed: below the baseline of 138.4 bpm");
    one(right_scenario + "[cause]\nfalls_to = \"90 bpm\"\nat = \"60 s\"\n",
        "a-test.toml:17: cause.trouble, found none, with a fall, allowed: what is wrong, since the rate "
        "falls");
    one(right_scenario + "[[finding]]\nact = \"check_waters\"\nsays = \"Clear.\"\nsituation = \"fevr\"\n",
        "a-test.toml:20: finding[1].situation, found \"fevr\", allowed: one of: always, normal, fast, "
        "slow_steady, slow, "
        "slow_after_contraction, stays_down, mothers_pulse, cord_prolapse, too_many_contractions, fever, "
        "bleeding, "
        "lying_flat, mothers_medicine, close_to_birth, not_close_to_birth, twins, not_found, irregular, "
        "rising, "
        "thick_green_waters, breech, lying_across, listening_alone_not_enough, source_doubtful, "
        "her_pulse_fast, her_pulse_slow, temperature_raised, high_pressure, low_pressure, short_of_oxygen, "
        "scar_gives_way, mother_collapses; did you mean `fever`?");
}

TEST_CASE(
    "A finding of an act nobody has, and a place with nothing to listen with, are refused with their lines",
    "[reader]") {
    const auto one = [](const std::string& text, const std::string& wanted) {
        const Lines found = scenario_faults(text);
        INFO(text);
        REQUIRE(found.size() == 1);
        CHECK(found[0] == wanted);
    };
    one(right_scenario + "[[finding]]\nact = \"take_temprature\"\nsays = \"38.2.\"\n",
        "a-test.toml:18: finding[1].act, found \"take_temprature\", allowed: one of: take_temperature, "
        "take_blood_pressure, ask_what_was_given, check_waters, check_bleeding, look_for_cord, "
        "examine_inside, "
        "count_contractions; did you mean `take_temperature`?");
    std::string deaf = right_scenario;
    const std::size_t at = deaf.find("instruments = ");
    REQUIRE(at != std::string::npos);
    deaf.replace(at, deaf.find('\n', at) - at, "instruments = []");
    const int line =
        1 + static_cast<int>(std::count(deaf.begin(), deaf.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
    one(deaf, "a-test.toml:" + std::to_string(line) +
                  ": place.instruments, found an empty list, allowed: a list of: horn, bell, diaphragm, "
                  "doppler, at "
                  "least one");
}

TEST_CASE("Thirteen events are one too many", "[reader]") {
    std::string text = right_scenario;
    for (int i = 0; i < 12; ++i) text += "[[baby.event]]\nkind = \"early\"\n";
    CHECK(scenario_faults(text).empty());
    CHECK(scenario_faults(text + "[[baby.event]]\nkind = \"early\"\n") ==
          Lines{"a-test.toml:41: baby.event[13], found one event more, allowed: at most 12 events"});
}

TEST_CASE("A file that is not there is a fault that names it", "[reader]") {
    const auto none = engine::read_scenario_file("/nowhere/c99-none.toml");
    REQUIRE_FALSE(none.ok());
    CHECK(lines_of(none.faults()) ==
          Lines{"/nowhere/c99-none.toml: the file cannot be read, allowed: a readable file"});
}

TEST_CASE("4000 spoiled copies of a file: always read or refused, each fault with a line of the file",
          "[reader]") {
    const std::string whole = bytes_at("scenarios/library/l06-when-waters-break.toml");
    const std::string letters = "\"[]=\n .-0123456789abcdefghijklmnopqrstuvwxyz\\\xff";
    const int lines = static_cast<int>(std::count(whole.begin(), whole.end(), '\n')) + 1;
    int refused = 0;
    for (std::uint64_t i = 0; i < 4000; ++i) {
        const auto draw = sim::words({7}, sim::Stream::scenario, i);
        std::string text = whole;
        const std::size_t at = draw[0] % text.size();
        if (draw[1] % 3 == 0)
            text.erase(at, 1 + draw[2] % 40);
        else if (draw[1] % 3 == 1)
            text[at] = letters[draw[2] % letters.size()];
        else
            text.insert(at, text.substr(draw[2] % text.size(), draw[3] % 60));
        const auto read = engine::read_scenario(text, "l06-when-waters-break.toml");
        if (read.ok()) continue;
        ++refused;
        for (const engine::Fault& fault : read.faults()) {
            INFO(engine::in_one_line(fault));
            REQUIRE(fault.line >= 1);
            REQUIRE(fault.line <= lines + 60);
            REQUIRE_FALSE(fault.what.empty());
            REQUIRE_FALSE(fault.allowed.empty());
        }
    }
    CHECK(refused > 1000);
}
