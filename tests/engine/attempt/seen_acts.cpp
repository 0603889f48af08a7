#include <catch2/catch.hpp>

#include "engine/attempt/played_hands.h"
#include "small_labour.h"

#include <algorithm>

using namespace engine;

namespace {

constexpr std::int64_t s = 1'000'000;

// A labour with contractions at given seconds, so that the times below can be followed on paper.
struct ByHand {
    Scenario scenario = small::labour();
    Protocol protocol = small::protocol();
    Played played;
    Hands hands;
    ByHand() { played.end = {3600 * s}; }
    void contraction(double from, double to) {
        played.contractions.push_back({{static_cast<std::int64_t>(from * 1e6)},
                                       {static_cast<std::int64_t>((from + to) * 5e5)},
                                       {static_cast<std::int64_t>(to * 1e6)},
                                       true});
    }
    void listened(double from, double to) {
        Spell spell;
        spell.from.us = static_cast<std::int64_t>(from * 1e6);
        spell.to.us = static_cast<std::int64_t>(to * 1e6);
        played.spells.push_back(spell);
    }
    std::vector<TimedAct> seen(const std::string& id) const {
        std::vector<TimedAct> some;
        for (const TimedAct& a : seen_acts(scenario, protocol, played, hands))
            if (a.id == id) some.push_back(a);
        return some;
    }
};

Played play_of(const std::string& json) {
    const auto events = small::events(json);
    REQUIRE_FALSE(check_order(small::labour(), small::protocol(), events, "e"));
    return play(small::labour(), small::protocol(), {1}, events);
}

const std::string horn_on =
    R"([{"t": 1, "do": "take", "what": "horn"}, {"t": 2, "do": "place", "x": 6, "y": -7},)";

}  // namespace

TEST_CASE("a pulse is felt after 15 s at the wrist while listening, not after 14.9 s, not without listening",
          "[seen]") {
    const auto felt = [](const std::string& off) {
        return small::times_seen(
            play_of(horn_on + R"({"t": 10, "do": "hand", "hand": "left", "on": "wrist"}, {"t": )" + off +
                    R"(, "do": "hand", "hand": "left", "on": "none"}, {"t": 60, "do": "finish"}])"),
            "feel_pulse");
    };
    CHECK(felt("25") == 1);
    CHECK(felt("24.9") == 0);
    const Played p = play_of(
        horn_on + R"({"t": 10, "do": "hand", "hand": "left", "on": "wrist"}, {"t": 60, "do": "finish"}])");
    const TimedAct* act = small::seen(p, "feel_pulse");
    REQUIRE(act);
    CHECK(act->at.us == 10 * s);
    CHECK(act->done_at.us == 25 * s);
    CHECK(
        small::times_seen(
            play_of(R"([{"t": 10, "do": "hand", "hand": "left", "on": "wrist"}, {"t": 60, "do": "finish"}])"),
            "feel_pulse") == 0);
}

TEST_CASE("a full minute is a closed count of 58 s or more", "[seen]") {
    const auto full = [](const std::string& stop) {
        return small::times_seen(play_of(horn_on + R"({"t": 10, "do": "start_window"}, {"t": )" + stop +
                                         R"(, "do": "stop_window"}])"),
                                 "count_full_minute");
    };
    CHECK(full("68") == 1);
    CHECK(full("67.999999") == 0);
    CHECK(full("55") == 0);
}

TEST_CASE("W54: listening through a contraction and stopping 20 s after is too short, 30 s is enough",
          "[seen]") {
    // Clinical standards, worked example W54, from memory there: WHO 2018, FIGO 2015 "30 s after".
    ByHand h;
    h.contraction(100, 160);
    h.listened(90, 180);
    CHECK(h.seen("listen_through").empty());
    h.played.spells[0].to.us = 190 * s;
    REQUIRE(h.seen("listen_through").size() == 1);
    CHECK(h.seen("listen_through")[0].at.us == 100 * s);
    CHECK(h.seen("listen_through")[0].done_at.us == 190 * s);
}

TEST_CASE("listening begun at the very end of a contraction covers it, 1 s later does not", "[seen]") {
    ByHand h;
    h.contraction(100, 160);
    h.listened(160, 200);
    CHECK(h.seen("listen_through").size() == 1);
    h.played.spells[0].from.us = 161 * s;
    CHECK(h.seen("listen_through").empty());
}

TEST_CASE("a protocol that asks for 60 s after the contraction gets 60 s", "[seen]") {
    ByHand h;
    for (ListeningRule& rule : h.protocol.listening) rule.after_end = {60};
    h.contraction(100, 160);
    h.listened(90, 219);
    CHECK(h.seen("listen_through").empty());
    h.played.spells[0].to.us = 220 * s;
    CHECK(h.seen("listen_through").size() == 1);
}

TEST_CASE("three contractions one after the other count, with one missed between them they do not",
          "[seen]") {
    // WHO 2018: prolong over at least 3 contractions.
    ByHand h;
    for (double from : {100, 300, 500, 700, 900}) h.contraction(from, from + 60);
    h.listened(90, 200);
    h.listened(310, 400);
    h.listened(700, 800);
    CHECK(h.seen("listen_three_contractions").empty());
    h.listened(500, 590);
    std::sort(h.played.spells.begin(), h.played.spells.end(),
              [](const Spell& a, const Spell& b) { return a.from < b.from; });
    const auto three = h.seen("listen_three_contractions");
    REQUIRE(three.size() == 2);  // 1 to 3, and 2 to 4
    CHECK(three[0].at.us == 100 * s);
    CHECK(three[0].done_at.us == 590 * s);
    CHECK(three[1].at.us == 310 * s);
    CHECK(three[1].done_at.us == 790 * s);
}

TEST_CASE("a contraction still running when the course ends was heard by nobody to its end", "[seen]") {
    ByHand h;
    h.contraction(100, 160);
    h.played.contractions[0].ended = false;
    h.listened(90, 300);
    CHECK(h.seen("listen_through").empty());
}

TEST_CASE("another place is 3 cm away or more, slid or placed again; 2.9 cm is the same place", "[seen]") {
    CHECK(small::times_seen(play_of(horn_on + R"({"t": 5, "do": "move", "x": 3.1, "y": -7}])"),
                            "move_and_search") == 0);
    CHECK(small::times_seen(play_of(horn_on + R"({"t": 5, "do": "move", "x": 3, "y": -7}])"),
                            "move_and_search") == 1);
    CHECK(small::times_seen(
              play_of(horn_on + R"({"t": 5, "do": "lift"}, {"t": 6, "do": "place", "x": -6, "y": -7}])"),
              "move_and_search") == 1);
    // A slide of 1 cm steps over 6 cm is two new places, at 3 and at 6 cm.
    std::string slide = horn_on;
    for (int i = 1; i <= 6; ++i)
        slide += (i > 1 ? "," : "") + std::string(R"({"t": )") + std::to_string(4 + i) +
                 R"(, "do": "move", "x": )" + std::to_string(6 - i) + R"(, "y": -7})";
    CHECK(small::times_seen(play_of(slide + "]"), "move_and_search") == 2);
}

TEST_CASE("the other instrument counts when it is placed, not when it is taken", "[seen]") {
    const std::string taken =
        horn_on + R"({"t": 5, "do": "lift"}, {"t": 6, "do": "take", "what": "doppler"})";
    CHECK(small::times_seen(play_of(taken + "]"), "change_instrument") == 0);
    const Played p = play_of(taken + R"(, {"t": 8, "do": "place", "x": 6, "y": -7}])");
    REQUIRE(small::seen(p, "change_instrument"));
    CHECK(small::seen(p, "change_instrument")->at.us == 8 * s);
    CHECK(small::times_seen(
              play_of(horn_on + R"({"t": 5, "do": "lift"}, {"t": 6, "do": "place", "x": 6, "y": -7}])"),
              "change_instrument") == 0);
}

TEST_CASE("contractions are counted by a hand on the belly for 10 min in all", "[seen]") {
    // WHO labour care guide 2020 [second-hand]: palpate over 10 min.
    ByHand h;
    h.hands.belly = {{{100 * s}, {400 * s}}, {{500 * s}, {799 * s}}};
    CHECK(h.seen("count_contractions").empty());
    h.hands.belly[1].to.us = 850 * s;
    const auto counted = h.seen("count_contractions");
    REQUIRE(counted.size() == 1);
    CHECK(counted[0].at.us == 100 * s);
    CHECK(counted[0].done_at.us == 800 * s);
}

TEST_CASE("or over three whole contractions; half of one under the hand is none", "[seen]") {
    ByHand h;
    for (double from : {100, 300, 500}) h.contraction(from, from + 60);
    h.hands.belly = {{{110 * s}, {600 * s}}};
    CHECK(h.seen("count_contractions").empty());
    h.hands.belly[0].from.us = 90 * s;
    const auto counted = h.seen("count_contractions");
    REQUIRE(counted.size() == 1);
    CHECK(counted[0].done_at.us == 560 * s);
}

TEST_CASE("a chart line and a referral note are acts seen", "[seen]") {
    const Played p =
        play_of(R"([{"t": 1, "do": "record", "bpm": 139}, {"t": 2, "do": "handover", "request": "come"}])");
    REQUIRE(small::seen(p, "record_findings"));
    CHECK(small::seen(p, "record_findings")->done_at.us == 1 * s);
    REQUIRE(small::seen(p, "write_referral_note"));
    CHECK(small::seen(p, "write_referral_note")->at.us == 2 * s);
}

TEST_CASE("hands feel nothing while time is skipped", "[seen]") {
    const Played p = play_of(
        R"([{"t": 0, "do": "hand", "hand": "left", "on": "belly"}, {"t": 10, "do": "skip", "to": 1500},
                                 {"t": 1510, "do": "finish"}])");
    CHECK(small::times_seen(p, "count_contractions") == 0);
    CHECK(p.end.us == 1510 * s);
}
