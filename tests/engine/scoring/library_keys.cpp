// The library's counting, quick, finding and telling-apart scenarios against its table of expected readings,
// written by a practising midwife's review [practice]: what is there, how soon to act, what to do; at five
// seeds each.
#include "library_row.h"

using namespace perfect;

namespace {

using Is = BaselineIs;
using Acts = std::vector<std::string>;
const Acts routine = {"count_full_minute", "feel_pulse", "continue_routine", "record_findings"};
const Acts fast_acts = {"feel_pulse", "take_temperature", "check_waters", "inform_senior"};
const Acts slow_acts = {"call_for_help", "feel_pulse", "off_her_back", "look_for_cord", "start_plan"};

// A baby heard with no slowing and an even beat, as most of these are.
LibraryRow heard(const std::string& id, Is baseline, Level level, Acts acts, Acts unsafe = {}) {
    return {id, SourceIs::baby, baseline, Around::no_slowing, RhythmIs::regular, level, acts, unsafe};
}
LibraryRow normal(const std::string& id) { return heard(id, Is::normal, Level::green, routine); }
LibraryRow fast(const std::string& id, Level level = Level::yellow, Acts more = {}) {
    more.insert(more.end(), fast_acts.begin(), fast_acts.end());
    return heard(id, Is::fast, level, more, {"continue_routine", "wait_and_see"});
}

}  // namespace

TEST_CASE("Counting, the normal five (126.7 to 152.4): baby, normal, green, carry on", "[library]") {
    for (const char* id : {"c01", "c02", "c05", "c06", "c07"}) key_reads(normal(id));
}
TEST_CASE("c03: 171.3 at 37.1 degrees is fast: pulse, temperature, senior", "[library]") {
    key_reads(fast("c03"));
}
TEST_CASE("c04: 97.6 is slow and under 100: red; call, turn, look, plan; waiting is unsafe", "[library]") {
    key_reads(heard("c04", Is::slow, Level::red, slow_acts, {"wait_and_see", "continue_routine"}));
}
TEST_CASE("c08: 184.6 with 38.7 degrees is fast with fever: orange, cooled, senior, monitor or transfer",
          "[library]") {
    key_reads(
        fast("c08", Level::orange, {"cool_her", "offer_drink", "get_scan_or_monitor|arrange_transfer"}));
}
TEST_CASE("c09: 114.3 is normal by WHO 2018 and slow by the older 120 to 160", "[library]") {
    key_reads(normal("c09"));
    LibraryRow older = heard("c09", Is::slow, Level::yellow, {"feel_pulse", "off_her_back", "inform_senior"});
    key_reads(older, "community-120-160");
}
TEST_CASE("c10: 148.3 is 24 above the first line of her chart: rising, yellow; temperature, waters, senior",
          "[library]") {
    key_reads(heard("c10", Is::rising, Level::yellow, {"take_temperature", "check_waters", "inform_senior"},
                    {"continue_routine"}));
}

TEST_CASE("Quick looks, normal: 136.3 to be counted a minute, 141.7 through a contraction without slowing",
          "[library]") {
    for (const char* id : {"q01", "q04"}) key_reads(normal(id));
}
TEST_CASE("q02: 107.2 is on the slow side: yellow; pulse, turn, look, senior", "[library]") {
    key_reads(heard("q02", Is::slow, Level::yellow,
                    {"feel_pulse", "off_her_back", "look_for_cord", "inform_senior"}, {"wait_and_see"}));
}
TEST_CASE("q03 and q08: 163.8 and 187.6 are on the fast side", "[library]") {
    for (const char* id : {"q03", "q08"}) key_reads(fast(id));
}
TEST_CASE("q05: 139.6 to 96 and back 55 s after the end: slow after, orange; turn, look, senior",
          "[library]") {
    key_reads(
        {"q05",
         SourceIs::baby,
         Is::normal,
         Around::slow_after_contraction,
         RhythmIs::regular,
         Level::orange,
         {"off_her_back", "look_for_cord", "check_waters", "inform_senior", "listen_three_contractions"},
         {"continue_routine", "raise_oxytocin"}});
}
TEST_CASE("q06: extra beats, six in a hundred: irregular, settled rate normal; senior, monitor",
          "[library]") {
    key_reads({"q06",
               SourceIs::baby,
               Is::normal,
               Around::no_slowing,
               RhythmIs::irregular,
               Level::yellow,
               {"inform_senior", "get_scan_or_monitor"},
               {}});
}
TEST_CASE("q07: without a watch the heart is the baby's, and no minute and no routine is asked for",
          "[library]") {
    key_reads(heard("q07", Is::normal, Level::green, {"feel_pulse"}));
    const Key key = key_of(scenario_named(library_stem("q07")), protocol_named("who-2018"), sim::Seed{1});
    CHECK_FALSE(asks_for(key, "count_full_minute"));
    CHECK_FALSE(asks_for(key, "continue_routine"));
}

TEST_CASE("Finding, a normal heart in a head-down baby: five places, all green", "[library]") {
    for (const char* id : {"f01", "f02", "f04", "f07", "f09"}) key_reads(normal(id));
}
TEST_CASE("f03 and f06: bottom down and across, heart normal: yellow, the senior told, not carried on with",
          "[library]") {
    for (const char* id : {"f03", "f06"}) {
        key_reads(
            heard(id, Is::normal, Level::yellow, {"inform_senior", "count_full_minute"}, {"break_waters"}));
        const Key key = key_of(scenario_named(library_stem(id)), protocol_named("who-2018"), sim::Seed{1});
        CHECK_FALSE(asks_for(key, "continue_routine"));
    }
}
TEST_CASE("f05: 168.4 far out on the left is fast", "[library]") { key_reads(fast("f05")); }
TEST_CASE(
    "f06: lying across goes where it can be born before the waters break; f03: bottom down, the senior "
    "decides",
    "[library]") {
    const auto key = [](const char* id) {
        return key_of(scenario_named(library_stem(id)), protocol_named("who-2018"), sim::Seed{1});
    };
    CHECK(asks_for(key("f06"), "arrange_transfer"));
    CHECK_FALSE(asks_for(key("f03"), "arrange_transfer"));
    CHECK(key("f06").situations != key("f03").situations);
}
TEST_CASE("f08: twins at 136.4 and 151.7: two babies, both normal, yellow; second listener, senior, monitor",
          "[library]") {
    key_reads({"f08",
               SourceIs::two_babies,
               Is::normal,
               Around::no_slowing,
               RhythmIs::regular,
               Level::yellow,
               {"second_listener", "inform_senior", "get_scan_or_monitor|arrange_transfer"},
               {"break_waters"}});
}
TEST_CASE("f10: no heart to be found: red; called by 300 s, a scan asked for, nobody says it has died",
          "[library]") {
    key_reads({"f10",
               SourceIs::not_found,
               Is::not_checked,
               Around::not_listened,
               RhythmIs::not_said,
               Level::red,
               {"feel_pulse", "move_and_search", "change_instrument|second_listener", "call_for_help",
                "get_scan_or_monitor"},
               {"say_baby_has_died", "continue_routine", "wait_and_see"}});
}

TEST_CASE("Whose heart, normal babies at 133.5 to 147.4: baby, green, also while she pushes", "[library]") {
    for (const char* id : {"t01", "t02", "t03", "t07"}) key_reads(normal(id));
}
TEST_CASE("t04: 139.8 high above, bottom down: yellow, the senior told", "[library]") {
    key_reads(heard("t04", Is::normal, Level::yellow, {"inform_senior", "feel_pulse"}));
}
TEST_CASE("t05: 71.8 is the baby and red, whatever the display says; writing the display is unsafe",
          "[library]") {
    key_reads(heard("t05", Is::slow, Level::red, slow_acts, {"write_display_number", "continue_routine"}));
}
TEST_CASE("t06 and t09: 211.4 and 172.8 are fast; after a spray she is asked what she was given as well",
          "[library]") {
    key_reads(fast("t06"));
    key_reads(fast("t09", Level::yellow, {"ask_what_was_given", "hold_and_ask_prescriber"}));
}
TEST_CASE("t08: 124.9 and 121.6 cannot be told by number: doubtful, yellow; second listener, senior",
          "[library]") {
    key_reads({"t08",
               SourceIs::doubtful,
               Is::normal,
               Around::no_slowing,
               RhythmIs::regular,
               Level::yellow,
               {"feel_pulse", "second_listener|move_and_search", "inform_senior"},
               {}});
}
TEST_CASE("t10: no heart, a hard sore womb, 128.4 everywhere: red; nobody examines inside or gives a drink",
          "[library]") {
    key_reads({"t10",
               SourceIs::not_found,
               Is::not_checked,
               Around::not_listened,
               RhythmIs::not_said,
               Level::red,
               {"call_for_help", "off_her_back", "check_bleeding", "feel_pulse", "start_plan",
                "get_scan_or_monitor"},
               {"examine_inside", "offer_drink", "say_baby_has_died", "break_waters"}});
}

TEST_CASE("75 s from the first minute: the same rate, and nothing said around contractions", "[library]") {
    const auto heard_early = [](const std::string& id, Is baseline, Level level,
                                RhythmIs rhythm = RhythmIs::regular) {
        key_reads({id, SourceIs::baby, baseline, Around::not_listened, rhythm, level, {}, {}, 20, 75});
    };
    for (const char* id : {"c01", "c02", "c05", "c06", "c07", "c09", "f01", "f02", "f04", "f07", "f09", "q01",
                           "q04", "q07", "t01", "t02", "t03", "t07"})
        heard_early(id, Is::normal, Level::green);
    heard_early("q05", Is::normal, Level::green);  // one good number, and the fall not heard yet
    heard_early("q06", Is::normal, Level::yellow, RhythmIs::irregular);
    for (const char* id : {"c03", "c08", "f05", "q03", "q08", "t06", "t09"})
        heard_early(id, Is::fast, Level::yellow);  // c08: her fever not found yet
    for (const char* id : {"c04", "t05"}) heard_early(id, Is::slow, Level::red);
    heard_early("q02", Is::slow, Level::yellow);
    heard_early("c10", Is::rising, Level::yellow);
}

TEST_CASE("Of 34 counting, quick, finding and telling-apart scenarios off the limits, 21 are normal hearts",
          "[library]") {
    int scenarios = 0, normal_hearts = 0;
    const Protocol who = protocol_named("who-2018");
    for (const auto& file : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/library")) {
        const std::string stem = file.path().stem().string();
        if (std::string("cqft").find(stem[0]) == std::string::npos) continue;
        const Scenario scenario = scenario_named(stem);
        if (scenario.boundary) continue;
        ++scenarios;
        const Decision d = key_of(scenario, who, sim::Seed{1}).decision;
        normal_hearts += d.baseline == Is::normal && d.around == Around::no_slowing &&
                         d.rhythm == RhythmIs::regular &&
                         (d.source == SourceIs::baby || d.source == SourceIs::two_babies);
    }
    CHECK(scenarios == 34);
    CHECK(normal_hearts == 21);
}
