// How soon: every row of the ladder RED, ORANGE, YELLOW, GREEN, as a practising midwife's review has it
// [practice, WHO 2018, MCPC, WHO labour care guide]: level, call by, plan by. RED at once (60 s) and the plan
// by 3 min; ORANGE called by 5 min and the senior there or leaving by 30 min; YELLOW called by 15 min and
// listened to over the next three contractions.
#include "made_labours.h"

using namespace perfect;

namespace {

void is_red(const Key& k, const char* situation) {
    INFO(to_json(k));
    CHECK(has_situation(k, situation));
    CHECK(name_of(k.level) == "red");
    CHECK(asked_by(k, "call_for_help", 60));
    CHECK(asked_by(k, "start_plan", 180));
    CHECK(is_unsafe(k, "wait_and_see"));
}

void is_orange(const Key& k, const char* situation) {
    INFO(to_json(k));
    CHECK(has_situation(k, situation));
    CHECK(name_of(k.level) == "orange");
    CHECK(asked_by(k, "inform_senior", 300));
    CHECK((asked_by(k, "start_plan", 1800) || asked_by(k, "arrange_transfer", 1800)));
    CHECK(asked(k, "call_for_help") == nullptr);
}

void is_yellow(const Key& k, const char* situation) {
    INFO(to_json(k));
    CHECK(has_situation(k, situation));
    CHECK(name_of(k.level) == "yellow");
    CHECK(asked_by(k, "inform_senior", 900));
    CHECK((asked(k, "listen_three_contractions") || asked(k, "listen_more_often")));
    CHECK(asked(k, "call_for_help") == nullptr);
    CHECK(asked(k, "start_plan") == nullptr);
}

// 4 min with a contraction felt and over at most once: nothing can have held.
Scenario brief(double bpm) {
    Scenario s = plain_labour(4, bpm);
    s.middle.labour.contractions_per_10min = 2;
    return s;
}

}  // namespace

TEST_CASE("RED: the cord seen", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour();
        found(s, "look_for_cord", "A loop of cord.", "cord_prolapse");
        is_red(key_of_made(s, id), "cord_prolapse");
    }
}

TEST_CASE("RED: not the mother's, and 97.6 is below 100", "[ladder]") {
    for (const char* id : four_protocols) is_red(key_of_made(plain_labour(6, 97.6), id), "slow");
}

TEST_CASE("RED: a fall by 25, to 113.4, not back after 3 min", "[ladder]") {
    Scenario s = plain_labour(10);
    s.middle.cause.trouble = sim::Trouble::unknown;
    s.middle.cause.at = sim::Seconds{120};
    s.middle.cause.falls_to = sim::Bpm{113.4};
    s.middle.cause.answer = 0;
    for (const char* id : four_protocols) is_red(key_of_made(s, id), "stays_down");
}

TEST_CASE("RED: bleeding more than a show", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour();
        found(s, "check_bleeding", "Bright blood, a hard sore womb.", "bleeding");
        is_red(key_of_made(s, id), "bleeding");
    }
}

TEST_CASE("RED: a scar, sudden pain, contractions stop, the heart drops by 20 and is still 118", "[ladder]") {
    Scenario s = plain_labour(12);
    s.labour.scar = true;
    s.middle.labour.contractions_stop = sim::Seconds{290};
    s.middle.cause.trouble = sim::Trouble::scar_gives_way;
    s.middle.cause.at = sim::Seconds{300};
    s.middle.cause.falls_to = sim::Bpm{118};
    s.middle.cause.answer = 0;
    CallOut call;
    call.at = sim::Seconds{290};
    call.says = "Something tore.";
    s.call_outs.push_back(call);
    for (const char* id : four_protocols) is_red(key_of_made(s, id), "scar_gives_way");
    // The three together: with no pain, or contractions going on, it is a fall like another.
    Scenario no_pain = s, goes_on = s;
    no_pain.call_outs.clear();
    goes_on.middle.labour.contractions_stop = sim::Seconds{1e6};
    CHECK_FALSE(has_situation(key_of_made(no_pain), "scar_gives_way"));
    CHECK_FALSE(has_situation(key_of_made(goes_on), "scar_gives_way"));
}

TEST_CASE("RED: a heart that was there, 141 on the chart, cannot be found: help at once, not by 5 min",
          "[ladder]") {
    Scenario s = plain_labour(10);
    s.middle.babies[0].heart_beats = false;
    const Key first_time = key_of_made(s);
    CHECK(name_of(first_time.level) == "red");
    CHECK(asked_by(first_time, "call_for_help", 300));
    CHECK_FALSE(asked_by(first_time, "call_for_help", 60));
    s.chart.push_back({60, 141, 80, ""});
    for (const char* id : four_protocols) is_red(key_of_made(s, id), "not_found");
}

TEST_CASE("RED: the mother has a fit", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour();
        found(s, "take_blood_pressure", "She stiffens and shakes; 178 over 116.", "mother_collapses");
        is_red(key_of_made(s, id), "mother_collapses");
    }
}

TEST_CASE("ORANGE: slow after more than half of three contractions", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour();
        slow_after(s);
        is_orange(key_of_made(s, id), "slow_after_contraction");
    }
}

TEST_CASE("ORANGE: 171 and 104 through ten minutes without contractions, YELLOW for nine", "[ladder]") {
    struct Row {
        double bpm;
        const char* situation;
    };
    for (const Row& row : {Row{171.3, "fast"}, Row{104.6, "slow_steady"}}) {
        Scenario ten = plain_labour(11, row.bpm), nine = plain_labour(9, row.bpm);
        ten.middle.labour.contractions_per_10min = nine.middle.labour.contractions_per_10min = 0;
        for (const char* id : four_protocols) {
            is_orange(key_of_made(ten, id), row.situation);
            is_yellow(key_of_made(nine, id), row.situation);
        }
    }
}

TEST_CASE("ORANGE: 171 and 104 through three contractions in eight minutes, YELLOW through two", "[ladder]") {
    struct Row {
        double bpm;
        const char* situation;
    };
    for (const Row& row : {Row{171.3, "fast"}, Row{104.6, "slow_steady"}}) {
        Scenario three = plain_labour(8.7, row.bpm),
                 two = plain_labour(6, row.bpm);  // peaks at 1, 3.9, 6.7 min
        for (const char* id : four_protocols) {
            is_orange(key_of_made(three, id), row.situation);
            is_yellow(key_of_made(two, id), row.situation);
        }
    }
}

TEST_CASE("ORANGE: fast with fever, and fast with foul waters", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario fever = brief(171.3), foul = brief(171.3);
        found(fever, "take_temperature", "38.4 degrees.", "fever");
        foul.labour.waters = Waters::foul;
        is_orange(key_of_made(fever, id), "fever");
        is_orange(key_of_made(foul, id), "fever");
    }
}

TEST_CASE("ORANGE: one slowing after a contraction, with thick green waters", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour(10);
        slow_after(s, 100);
        s.labour.waters = Waters::thick_green;
        is_orange(key_of_made(s, id), "thick_green_waters");
    }
}

TEST_CASE("ORANGE: too many contractions with any slowing, also one that is over when they end", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario after = plain_labour(), in = plain_labour();
        for (Scenario* s : {&after, &in}) {
            s->middle.labour.contractions_per_10min = 6.5;
            s->middle.labour.contraction_length = sim::Seconds{50};
        }
        slow_after(after, 1e6, 30, 20);
        slow_in(in);
        const Key worse = key_of_made(after, id), k = key_of_made(in, id);
        INFO(to_json(k));
        CHECK(has_situation(worse, "too_many_contractions"));
        CHECK(name_of(worse.level) == "orange");
        CHECK(has_situation(k, "too_many_contractions"));
        CHECK(name_of(k.level) == "orange");
        CHECK(asked_by(k, "inform_senior", 300));
    }
}

TEST_CASE("YELLOW: one slowing after a contraction, of three", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour(10);
        slow_after(s, 100);
        is_yellow(key_of_made(s, id), "slow_after_contraction");
    }
}

TEST_CASE("YELLOW: a rise of 20 since 125", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour(6, 145.4);
        s.chart.push_back({240, 125, 80, ""});
        is_yellow(key_of_made(s, id), "rising");
    }
}

TEST_CASE("YELLOW: irregular, extra beats six in a hundred", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour(8);
        s.middle.babies[0].rhythm.early_beat = 0.06;
        is_yellow(key_of_made(s, id), "irregular");
    }
}

TEST_CASE("YELLOW: her own pulse 127, and 54; 113 and 66 are none", "[ladder]") {
    for (const char* id : four_protocols) {
        const auto with_pulse = [&](double bpm) {
            Scenario s = plain_labour(12);
            s.middle.mother.pulse = sim::Bpm{bpm};
            return key_of_made(s, id);
        };
        is_yellow(with_pulse(127), "her_pulse_fast");
        is_yellow(with_pulse(54), "her_pulse_slow");
        for (double usual : {113.0, 66.0}) {
            CHECK_FALSE(has_situation(with_pulse(usual), "her_pulse_fast"));
            CHECK_FALSE(has_situation(with_pulse(usual), "her_pulse_slow"));
        }
    }
}

TEST_CASE("YELLOW: 37.6 degrees is warm, 38.4 fever, both with a normal heart; 37.4 is neither", "[ladder]") {
    for (const char* id : four_protocols) {
        const auto at = [&](double celsius) {
            Scenario s = plain_labour(12);
            s.middle.mother.temperature_c = celsius;
            found(s, "take_temperature", "As felt.", "");
            return key_of_made(s, id);
        };
        is_yellow(at(37.6), "temperature_raised");
        CHECK_FALSE(has_situation(at(37.6), "fever"));
        is_yellow(at(38.4), "fever");
        CHECK_FALSE(has_situation(at(38.4), "temperature_raised"));
        CHECK(at(37.4).level == Level::green);
    }
}

TEST_CASE("YELLOW: more than 5 contractions in 10 min, the heart normal", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour();
        s.middle.labour.contractions_per_10min = 6.5;
        s.middle.labour.contraction_length = sim::Seconds{50};
        is_yellow(key_of_made(s, id), "too_many_contractions");
    }
}

TEST_CASE("YELLOW: the baby at 92 or 116 beside a mother within 5 of it is not told apart", "[ladder]") {
    for (const char* id : four_protocols) {
        Scenario s = plain_labour(6, 124.4);
        s.middle.mother.pulse = sim::Bpm{117};
        s.middle.mother.with_contraction = sim::Bpm{0};
        s.middle.babies[0].baseline = sim::Bpm{id == std::string("community-120-160") ? 121.4 : 117.4};
        is_yellow(key_of_made(s, id), "source_doubtful");
    }
}

TEST_CASE("GREEN: within the limits, no slowing, source sure: the next listening when due, nobody called",
          "[ladder]") {
    for (const char* id : four_protocols) {
        const Key k = key_of_made(plain_labour(), id);
        INFO(to_json(k));
        CHECK(k.level == Level::green);
        CHECK(k.situations == std::vector<std::string>{"always", "normal"});
        CHECK(asked(k, "continue_routine") != nullptr);
        for (const char* act : {"call_for_help", "inform_senior", "start_plan", "arrange_transfer"})
            CHECK(asked(k, act) == nullptr);
    }
}
