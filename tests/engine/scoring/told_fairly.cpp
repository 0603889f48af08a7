// What the sheet says of what it took into account, and of what it cannot know. Rules: the project's own
// rules of judging [practice].
#include "library_row.h"
#include "made_labours.h"

#include "engine/scoring/breakdown.h"
#include "engine/scoring/situations.h"

#include <nlohmann/json.hpp>

using namespace perfect;

namespace {

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

Scenario counting() {
    Scenario s = plain_labour(10);
    s.task = Task::count;
    return s;
}
nlohmann::json first_window(const Listener& l) {
    return nlohmann::json::parse(to_json(l.sheet()))["windows"][0];
}
// A window of 60 s, then what was given as its number.
Listener gave(std::optional<int> beats, std::optional<int> bpm) {
    Listener l = at_made(counting());
    l.add(Do::start_window).plan_s = 60;
    l.wait(60);
    l.add(Do::stop_window);
    l.wait(2);
    if (beats || bpm) {
        Event& e = l.add(Do::report);
        e.beats = beats;
        e.bpm = bpm;
    }
    l.wait(1).lift().decide(SourceIs::baby, BaselineIs::normal).explain();
    l.record("between", "").act("continue_routine").finish();
    return l;
}

}  // namespace

TEST_CASE(
    "A count without a number: every term is absent with its reason, and no watch is said to have moved one",
    "[told]") {
    const Listener silent = gave(std::nullopt, std::nullopt);
    const auto w = first_window(silent);
    REQUIRE(w["terms"].size() == terms_in_order.size());
    for (const auto& [name, value] : w["terms"].items()) {
        CAPTURE(name);
        CHECK(value.is_null());
        CHECK(w["terms_absent"][name] == "no number was given");
    }
    const ScoreSheet sheet = silent.sheet();
    INFO(told(sheet));
    CHECK_FALSE(holds(aspect(sheet, Aspect::window).why, "moved the rate"));
    CHECK(aspect(sheet, Aspect::window).figures.count("watch_bpm") == 0);
    CHECK(aspect(sheet, Aspect::count).why == "You counted but gave no number.");
    CHECK(sheet.primary == std::optional<Aspect>(Aspect::count));
    REQUIRE_FALSE(sheet.next_time.empty());
    CHECK(holds(sheet.next_time[0].says, "gave no number"));
}

TEST_CASE(
    "Beats without a rate have no arithmetic; a rate without beats has no ear, tally or arithmetic; the rest "
    "sums",
    "[told]") {
    const auto beats = first_window(gave(138, std::nullopt)), rate = first_window(gave(std::nullopt, 138));
    CHECK(beats["terms"]["arithmetic"].is_null());
    CHECK(beats["terms_absent"]["arithmetic"] == "no rate was written");
    CHECK(beats["terms"]["ear"].is_number());
    for (const char* name : {"ear", "tally", "arithmetic"}) {
        CAPTURE(name);
        CHECK(rate["terms"][name].is_null());
        CHECK(rate["terms_absent"][name] == "no beats were written");
    }
    CHECK(rate["terms"]["unexplained"].is_number());
    CHECK(beats["terms_absent"]["tally"] == "without taps it cannot be told from the ear");
    double sum = 0;
    for (const auto& term : rate["terms"]) sum += term.is_null() ? 0 : term.get<double>();
    CHECK(sum == Approx(138 - rate["true_bpm"].get<double>()).margin(1e-9));
}

TEST_CASE(
    "Acts taken from what hands did are told with their moment, and one answered by another is told by it",
    "[told]") {
    // l03: off her back and her pulse; our plan begins with the senior (trade rules [practice]).
    Listener l(library_stem("l03"));
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse();
    l.until(180).count().until(330).decide(SourceIs::baby, BaselineIs::slow);
    l.act("upright_to_push")
        .act("call_for_help")
        .act("look_for_cord")
        .act("check_bleeding")
        .act("start_plan");
    l.act("listen_more_often").until(420).count().until(780).count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::no_slowing).explain();
    l.record("between", "yes", "off her back, plan").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    const ActScore* senior = line_for(sheet, "inform_senior");
    REQUIRE(senior != nullptr);
    CHECK(senior->by == "call_for_help");  // the first that answers it, where somebody can come
    const ActScore* pulse = line_for(sheet, "feel_pulse");
    REQUIRE(pulse != nullptr);
    CHECK(pulse->by == "seen");
    const ActScore* turned = line_for(sheet, "off_her_back");
    REQUIRE(turned != nullptr);
    CHECK(turned->by == "upright_to_push");
    Listener none(library_stem("f10"));
    none.greet().wait(5).take(sim::Instrument::doppler).place(0, -8).wrist().wait(16).report_pulse().lift();
    none.place(-6, -7)
        .wait(20)
        .lift()
        .take(sim::Instrument::none)
        .take(sim::Instrument::horn)
        .place(6, -7)
        .wait(20);
    none.lift().decide(SourceIs::not_found).act("call_for_help").act("get_scan_or_monitor").explain();
    none.record("", "").finish();
    const ScoreSheet searched = none.sheet();
    INFO(told(searched));
    REQUIRE(verdict(searched, Aspect::action) == Verdict::met);
    const std::string why = aspect(searched, Aspect::action).why;
    CHECK(holds(why,
                "Taken from what you did: \"Her wrist pulse under your fingers while you listen\" at 00:10"));
    CHECK(holds(why, "\"Feel for the back again, try another place\" at 00:30"));
}

TEST_CASE("Gel forgotten under the Doppler is named as the fault of the place, and is the advice", "[told]") {
    Listener l("c01-own-minute");
    l.scenario = counting();
    l.greet().wait(5);
    l.add(Do::take).instrument = sim::Instrument::doppler;
    l.wait(1).place(6, -7).wrist().wait(17).report_pulse().count().lift();
    l.decide(SourceIs::baby, BaselineIs::normal)
        .explain()
        .record("between", "")
        .act("continue_routine")
        .finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(verdict(sheet, Aspect::site) != Verdict::met);
    CHECK(holds(aspect(sheet, Aspect::site).why, "no gel under the Doppler"));
    CHECK(std::any_of(sheet.next_time.begin(), sheet.next_time.end(),
                      [](const NextTime& n) { return holds(n.says, "Gel first"); }));
    CHECK_FALSE(holds(aspect(gave(138, 138).sheet(), Aspect::site).why, "gel"));
}

TEST_CASE("l10: of the twins key, decision and why speak of the same one, the second, at 169", "[told]") {
    const Scenario s = scenario_named(library_stem("l10"));
    const Key k = key_of(s, protocol_named("who-2018"), sim::Seed{1});
    CHECK(k.twin == 2);
    CHECK(k.baseline_bpm == Approx(169.1).margin(3));
    CHECK(k.decision.baseline == BaselineIs::fast);
    CHECK(std::any_of(k.why.begin(), k.why.end(),
                      [](const std::string& w) { return holds(w, "rate of the second baby is 1"); }));
    Listener l(library_stem("l10"));
    l.greet().wait(10).take(sim::Instrument::doppler).place_best().wrist().wait(16).report_pulse().count();
    l.lift().place_best(1).wait(2).wrist().wait(16).count().lift();
    l.decide(SourceIs::two_babies, BaselineIs::normal).explain().record("between", "").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(holds(aspect(sheet, Aspect::decision).why, "the settled rate of the second baby 1"));
    CHECK(std::any_of(sheet.next_time.begin(), sheet.next_time.end(), [](const NextTime& n) {
        return holds(n.says, "You called this heart normal; it ran at 1");
    }));
    CHECK(nlohmann::json::parse(to_json(k))["twin"] == 2);
}

TEST_CASE("Key and decision name one settled rate: what was last heard, in each labour of the library",
          "[told]") {
    const Protocol who = protocol_named("who-2018");
    for (const char* id : {"c01", "c10", "p10", "l02", "l03", "l12", "f08"}) {
        const Scenario s = scenario_named(library_stem(id));
        const Played run = untouched(s, sim::Seed{1});
        const Picture whole = picture_of(s, who, run, everything(s, run), {0}, {run.end.us + 1});
        const Picture last =
            picture_of(s, who, run, everything(s, run), {run.end.us - 60'000'000}, {run.end.us + 1});
        CAPTURE(id);
        for (std::size_t b = 0; b < 2; ++b)
            CHECK(whole.settled_bpm[b] == Approx(last.settled_bpm[b]).margin(0.1));
        const Key k = key_of(s, who, sim::Seed{1});
        CHECK((k.baseline_bpm == whole.settled_bpm[0] || k.baseline_bpm == whole.settled_bpm[1]));
    }
}
