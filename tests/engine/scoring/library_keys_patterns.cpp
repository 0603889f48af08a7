// The library's scenarios of contractions and its whole labours against its table of expected readings,
// written by a practising midwife's review [practice]: what is there, how soon to act, what to do and what
// never, at five seeds each; and a listener who does what the table says gets a sheet without a miss.
#include "library_listeners.h"

#include "engine/scoring/heard.h"

using namespace perfect;

namespace {

LibraryRow row(const std::string& id) {
    LibraryRow r;
    r.id = id;
    return r;
}

LibraryRow slow_after(const std::string& id, Level level) {
    LibraryRow r = row(id);
    r.around = Around::slow_after_contraction;
    r.level = level;
    r.acts = {"off_her_back", "look_for_cord", "check_waters", "listen_three_contractions", "inform_senior"};
    r.unsafe = {"continue_routine", "raise_oxytocin"};
    return r;
}

}  // namespace

TEST_CASE("p01: nothing in or after two contractions at 136.2: no slowing, carry on", "[library]") {
    LibraryRow r = row("p01");
    r.acts = {"continue_routine"};
    key_reads(r);
    nothing_missed_at_seeds(listener_p01);
}

TEST_CASE("p04: 19 below 153.6 after every contraction, thick green waters: ORANGE", "[library]") {
    LibraryRow r = slow_after("p04", Level::orange);
    r.acts.insert(r.acts.end(),
                  {"prepare_newborn_help", "listen_more_often", "get_scan_or_monitor|arrange_transfer"});
    key_reads(r);
    nothing_missed_at_seeds(listener_p04);
}

TEST_CASE("p05: to 85 and longer than the contraction, waters just gone: look, turn, senior", "[library]") {
    key_reads(slow_after("p05", Level::orange));
    nothing_missed_at_seeds(listener_p05);
}

TEST_CASE("p06: 18 above 131.3 before each contraction: normal, no slowing", "[library]") {
    LibraryRow r = row("p06");
    r.acts = {"continue_routine"};
    key_reads(r);
    nothing_missed_at_seeds(listener_p06);
}

TEST_CASE("p07: after one contraction in three: YELLOW, senior, three more", "[library]") {
    key_reads(slow_after("p07", Level::yellow));
    nothing_missed_at_seeds(listener_p07);
}

TEST_CASE("p08: back 45 s after the end: seen by who is there at the end", "[library]") {
    key_reads(slow_after("p08", Level::orange));
    nothing_missed_at_seeds(listener_p08);
}

TEST_CASE("p08: from 60 s after each end on, nothing around the contraction was listened to", "[library]") {
    const Scenario scenario = scenario_named(library_stem("p08"));
    for (std::uint64_t seed = 1; seed <= 5; ++seed) {
        const Played played = untouched(scenario, {seed});
        for (std::size_t c = 0; c + 1 < played.contractions.size(); ++c) {
            const sim::LabourTime from{played.contractions[c].to.us + 60'000'000};
            const sim::LabourTime to = played.contractions[c + 1].from;
            if (to.us - from.us < 60'000'000) continue;
            const Key key = key_of_spell(scenario, protocol_named("who-2018"), sim::Seed{seed}, from, to);
            INFO("seed " << seed << ", contraction " << c << ": " << to_json(key));
            CHECK(name_of(key.decision.around) == "not_listened");
            CHECK(name_of(key.decision.baseline) == "normal");
            CHECK_FALSE(asks_for(key, "off_her_back"));
        }
    }
}

TEST_CASE("p08: a listening begun 60 s late carries neither answer", "[library]") {
    const auto late = [](Around said) {
        Listener l = first_touch(library_stem("p08"), Instrument::doppler);
        for (int c = 0; c < 2; ++c) {
            l.until(l.contraction_end(c) + 60).place_best().wrist().wait(16).report_pulse().count().lift();
        }
        l.decide(SourceIs::baby, BaselineIs::normal, said).explain().record("between", "no").finish();
        return verdict(l.sheet(), Aspect::decision);
    };
    CHECK(name_of(late(Around::slow_after_contraction)) == "partly");  // right, and luck
    CHECK(name_of(late(Around::no_slowing)) == "missed");
}

TEST_CASE("p09: every fourth beat missed, 124.1 of 165.4 heard: irregular, senior, monitor", "[library]") {
    LibraryRow r = row("p09");
    r.rhythm = RhythmIs::irregular;
    r.level = Level::yellow;
    r.acts = {"inform_senior", "get_scan_or_monitor", "listen_three_contractions"};
    key_reads(r);
    const Key key = key_of(scenario_named(library_stem("p09")), protocol_named("who-2018"), {1});
    // three beats of four [arithmetic]; wander 1.5
    CHECK(key.baseline_bpm == Approx(165.4 * 3 / 4).margin(1.5));
    nothing_missed_at_seeds(listener_p09);
}

TEST_CASE("p10: back later each time while the rate climbs: RED, the birth is close", "[library]") {
    LibraryRow r = slow_after("p10", Level::red);
    r.baseline = BaselineIs::rising;
    r.acts.insert(r.acts.end(), {"call_for_help", "prepare_newborn_help", "push_with_contractions",
                                 "assist_birth_now", "upright_to_push|off_her_back"});
    r.unsafe.insert(r.unsafe.end(), {"arrange_transfer", "push_on_fundus"});
    key_reads(r);
    nothing_missed_at_seeds(listener_p10);
}

TEST_CASE("l01: three listenings in 45 min at 133 to 139: GREEN", "[library]") {
    LibraryRow r = row("l01");
    r.acts = {"continue_routine"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l01);
}

TEST_CASE("l02: pushing, dips gone at the end: GREEN, listened to every 5 min", "[library]") {
    LibraryRow r = row("l02");
    r.around = Around::slows_in_contraction;
    r.acts = {"continue_routine"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l02);
}

TEST_CASE("l04: 7 in 10 on the drip, slow after each: stop it, turn her, senior, not again", "[library]") {
    LibraryRow r = slow_after("l04", Level::orange);
    r.acts.insert(r.acts.end(), {"stop_oxytocin", "listen_more_often", "count_contractions"});
    key_reads(r);
    nothing_missed_at_seeds(listener_l04);
}

TEST_CASE("l07: head showing, 88 and stays: RED, birth now, newborn ready, nobody drives", "[library]") {
    LibraryRow r = row("l07");
    r.baseline = BaselineIs::slow;
    r.around = Around::stays_down;
    r.level = Level::red;
    r.acts = {"call_for_help", "push_with_contractions", "assist_birth_now", "prepare_newborn_help"};
    r.unsafe = {"arrange_transfer", "wait_and_see", "continue_routine", "push_on_fundus"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l07);
}

TEST_CASE("l08: fully open, head high, green, slow after each: pause, turn, ring, go with her", "[library]") {
    LibraryRow r = slow_after("l08", Level::orange);
    r.acts.insert(r.acts.end(), {"pause_pushing", "start_plan|arrange_transfer", "go_with_her",
                                 "write_referral_note", "prepare_newborn_help"});
    r.unsafe.insert(r.unsafe.end(), {"push_with_contractions", "assist_birth_now", "send_alone"});
    key_reads(r);
    nothing_missed_at_seeds(listener_l08);
}

TEST_CASE("l09: hard womb, blood, 92 over 58, heart 98.7: RED, and no fingers inside", "[library]") {
    LibraryRow r = row("l09");
    r.baseline = BaselineIs::slow;
    r.level = Level::red;
    r.acts = {"call_for_help", "off_her_back", "check_bleeding",   "feel_pulse", "take_blood_pressure",
              "start_drip",    "start_plan",   "arrange_transfer", "go_with_her"};
    r.unsafe = {"examine_inside", "offer_drink", "break_waters", "wait_and_see"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l09);
}

TEST_CASE("l10: twins at 137.2 and 169.1: two rates, the second fast, senior and monitor", "[library]") {
    LibraryRow r = row("l10");
    r.source = SourceIs::two_babies;
    r.baseline = BaselineIs::fast;
    r.level = Level::orange;
    r.acts = {"second_listener", "inform_senior", "get_scan_or_monitor|arrange_transfer", "take_temperature"};
    r.unsafe = {"continue_routine", "break_waters"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l10);
}

TEST_CASE("l11: 174.5, tablets held and still fast: temperature again, senior, transfer", "[library]") {
    LibraryRow r = row("l11");
    r.baseline = BaselineIs::fast;
    r.level = Level::orange;
    r.acts = {"ask_what_was_given",
              "hold_and_ask_prescriber",
              "take_temperature",
              "inform_senior",
              "arrange_transfer|get_scan_or_monitor",
              "go_with_her"};
    r.unsafe = {"continue_routine"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l11);
}

TEST_CASE("l12: scar, sudden pain, contractions gone, 62.3: RED, theatre, drip", "[library]") {
    LibraryRow r = row("l12");
    r.baseline = BaselineIs::slow;
    r.around = Around::stays_down;
    r.level = Level::red;
    r.acts = {"call_for_help", "feel_pulse", "off_her_back", "start_plan", "start_drip"};
    r.unsafe = {"wait_and_see", "continue_routine", "examine_inside"};
    key_reads(r);
    nothing_missed_at_seeds(listener_l12);
}

// Else practice teaches that something always helps: measures would become a slot machine (review
// [practice]).
TEST_CASE("Rule 19: of all troubles that slow a heart at least a third answer to nothing", "[library]") {
    int moves = 0, answers_to_nothing = 0;
    std::string silent;
    for (const auto& file : std::filesystem::directory_iterator(FULLMINUTE_SOURCE_DIR "/scenarios/library")) {
        if (file.path().extension() != ".toml") continue;
        const Scenario s = scenario_named(file.path().stem().string());
        const sim::Cause& cause = s.middle.cause;
        bool slows = cause.falls_to.value > 0;
        for (const sim::Baby& baby : s.middle.babies)
            for (const sim::BabyEvent& e : baby.events)
                slows = slows || e.kind == sim::BabyEvent::Kind::late ||
                        e.kind == sim::BabyEvent::Kind::variable || e.kind == sim::BabyEvent::Kind::prolonged;
        if (!slows) continue;
        ++moves;
        // Late slowings without a cause, or of no known one, answer to nothing by the course's own rules.
        if (cause.answer == 0 || cause.trouble == sim::Trouble::none ||
            cause.trouble == sim::Trouble::unknown || cause.trouble == sim::Trouble::scar_gives_way) {
            ++answers_to_nothing;
            silent += s.id + " ";
            // Such a labour must have a way on: help, a plan, a transfer or the birth.
            const Key key = key_of(s, protocol_named("who-2018"), {1});
            INFO(to_json(key));
            CHECK((asks_for(key, "inform_senior") || asks_for(key, "call_for_help")));
        }
    }
    INFO(answers_to_nothing << " of " << moves << ": " << silent);
    CHECK(moves >= 12);
    CHECK(answers_to_nothing * 3 >= moves);
    CHECK(answers_to_nothing < moves);  // and some do answer
}
