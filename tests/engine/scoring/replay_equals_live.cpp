// Any list of events that can be, taken one by one as at the bedside: kept, read back and computed again, it
// is the same attempt. Events are drawn at random; what Order refuses is not done.
#include "perfect_listener.h"

#include <rapidcheck.h>

#include <algorithm>

using namespace perfect;

namespace {

Event any_event(const Protocol& protocol) {
    Event e;
    e.what = *rc::gen::weightedElement<Do>({{4, Do::take},
                                            {6, Do::place},
                                            {3, Do::move},
                                            {1, Do::press},
                                            {1, Do::tilt},
                                            {1, Do::gel},
                                            {3, Do::lift},
                                            {4, Do::hand},
                                            {1, Do::position},
                                            {6, Do::start_window},
                                            {5, Do::stop_window},
                                            {3, Do::tap},
                                            {4, Do::report},
                                            {2, Do::report_pulse},
                                            {1, Do::compare},
                                            {1, Do::mark_contraction},
                                            {1, Do::report_contractions},
                                            {2, Do::record},
                                            {3, Do::decide},
                                            {3, Do::act},
                                            {1, Do::note},
                                            {1, Do::handover},
                                            {2, Do::skip},
                                            {1, Do::cover_display}});
    const auto hundredths = [](int from, int to) {
        return *rc::gen::inRange(from * 100, to * 100 + 1) / 100.0;
    };
    const auto maybe = [](int from, int to) {
        return *rc::gen::arbitrary<bool>() ? std::optional<int>(*rc::gen::inRange(from, to)) : std::nullopt;
    };
    switch (e.what) {
        case Do::take:
            e.instrument =
                *rc::gen::element(sim::Instrument::none, sim::Instrument::horn, sim::Instrument::bell,
                                  sim::Instrument::diaphragm, sim::Instrument::doppler);
            break;
        case Do::place:
        case Do::move:
            e.x_cm = hundredths(-16, 16);
            e.y_cm = hundredths(-18, 20);
            if (e.what == Do::place && *rc::gen::arbitrary<bool>()) e.press_n = hundredths(0, 30);
            break;
        case Do::press: e.press_n = hundredths(0, 30); break;
        case Do::tilt:
            e.tilt_deg = *rc::gen::inRange(0, 601) / 10.0;
            e.tilt_towards_deg = *rc::gen::inRange(0, 3600) / 10.0;
            break;
        case Do::hand:
            e.hand = *rc::gen::element(sim::Hand::left, sim::Hand::right);
            e.on = *rc::gen::element(sim::On::none, sim::On::wrist, sim::On::belly, sim::On::instrument);
            break;
        case Do::position:
            e.position =
                *rc::gen::element(sim::Position::flat, sim::Position::half_sitting, sim::Position::left_side,
                                  sim::Position::right_side, sim::Position::standing);
            break;
        case Do::start_window:
            if (*rc::gen::arbitrary<bool>()) e.plan_s = *rc::gen::element(60.0, 30.0, 15.0, 10.0, 6.0);
            break;
        case Do::report:
            e.beats = maybe(0, 200);
            e.bpm = e.beats ? maybe(0, 220) : std::optional<int>(*rc::gen::inRange(0, 220));
            break;
        case Do::report_pulse: e.bpm = *rc::gen::inRange(0, 200); break;
        case Do::compare:
            e.to_pulse = *rc::gen::element(ToPulse::same, ToPulse::about_twice, ToPulse::less, ToPulse::more);
            break;
        case Do::mark_contraction: e.contraction_starts = *rc::gen::arbitrary<bool>(); break;
        case Do::report_contractions: e.per_10min = *rc::gen::inRange(0, 8); break;
        case Do::record:
            e.bpm = maybe(60, 220);
            e.pulse_bpm = maybe(50, 140);
            e.when = *rc::gen::element<std::string>("between", "during", "after");
            e.slowing = *rc::gen::element<std::string>("yes", "no", "not_listened");
            break;
        case Do::decide:
            e.decision.source = *rc::gen::element(SourceIs::baby, SourceIs::mother, SourceIs::doubtful,
                                                  SourceIs::not_found, SourceIs::two_babies);
            e.decision.baseline =
                *rc::gen::element(BaselineIs::not_said, BaselineIs::normal, BaselineIs::fast,
                                  BaselineIs::slow, BaselineIs::not_checked);
            e.decision.around = *rc::gen::element(Around::not_said, Around::no_slowing,
                                                  Around::slow_after_contraction, Around::not_listened);
            e.decision.unsure = *rc::gen::arbitrary<bool>();
            break;
        case Do::act:
            e.act = protocol.acts[*rc::gen::inRange<std::size_t>(0, protocol.acts.size())].id;
            break;
        case Do::note: e.text = "seen at the door"; break;
        case Do::handover: e.situation = "A-014, slow after contractions"; break;
        case Do::skip: e.skip_to_s = *rc::gen::inRange(1, 1200); break;
        default: break;
    }
    return e;
}

// As at the bedside: each event asked of Order, done when it can be. A refused one is kept apart with its
// place.
struct Lived {
    std::vector<Event> events;
    std::optional<std::pair<std::size_t, Event>> refused;
};

Lived lived(const Scenario& scenario, const Protocol& protocol) {
    Lived l;
    Order order(scenario, protocol);
    std::int64_t t_us = 0;
    for (int n = *rc::gen::inRange(5, 60); n > 0; --n) {
        t_us = std::max(t_us, order.last().us) + *rc::gen::inRange(0, 20'000'000);
        Event e = any_event(protocol);
        e.t.us = t_us;
        if (!order.refuses(e).empty()) {
            l.refused = {l.events.size(), e};
            continue;
        }
        order.take(e);
        l.events.push_back(e);
    }
    if (*rc::gen::arbitrary<bool>()) {
        Event e;
        e.what = Do::finish;
        e.t = std::max(sim::LabourTime{t_us}, order.last());
        if (order.refuses(e).empty()) l.events.push_back(e);
    }
    return l;
}

std::vector<std::int64_t> times_before(const std::vector<sim::Beat>& beats, sim::LabourTime end) {
    std::vector<std::int64_t> times;
    for (const sim::Beat& b : beats)
        if (b.at_us < end.us) times.push_back(b.at_us);
    return times;
}

const char* const labours[] = {"c01-own-minute",   "t05-the-number-says",   "f08-two-probes",
                               "p01-two-in-a-row", "q07-the-stopped-watch", "l03-a-long-night"};

}  // namespace

TEST_CASE("any events that can be: written, read and computed again, no figure differs", "[attempt file]") {
    const Protocol protocol = protocol_named("who-2018");
    CHECK(rc::check([&] {
        const Scenario scenario =
            scenario_named(labours[*rc::gen::inRange<std::size_t>(0, std::size(labours))]);
        const Lived l = lived(scenario, protocol);
        RC_ASSERT(!check_order(scenario, protocol, l.events, "x"));

        Attempt attempt;
        attempt.header.id = "0123456789abcdef0123456789abcdef";
        attempt.header.person = "A-014";
        attempt.header.program = "test";
        attempt.header.seed = *rc::gen::inRange<std::uint64_t>(0, sim::Seed::largest);
        attempt.scenario_text = scenario.text;
        attempt.protocol_text = protocol.text;
        attempt.events = l.events;
        const auto judged = judge_attempt(attempt, "x");
        RC_ASSERT(judged.ok());
        const std::string text = write_attempt(*judged);
        const auto differ = replay(text, "x");
        RC_ASSERT(differ.ok());
        RC_ASSERT(differ->empty());
        const auto read = read_attempt(text, "x");
        RC_ASSERT(read.ok());
        RC_ASSERT(read->attempt.events == l.events);
        RC_ASSERT(write_attempt(judge_attempt(read->attempt, "x").value()) == text);
    }));
}

TEST_CASE("any event that cannot be is refused with its index, wherever it stands among those that can",
          "[attempt file]") {
    const Protocol protocol = protocol_named("who-2018");
    const Scenario scenario = scenario_named("c01-own-minute");
    CHECK(rc::check([&] {
        const Lived l = lived(scenario, protocol);
        RC_PRE(l.refused.has_value());
        std::vector<Event> events = l.events;
        events.insert(events.begin() + static_cast<std::ptrdiff_t>(l.refused->first), l.refused->second);
        const auto fault = check_order(scenario, protocol, events, "x");
        RC_ASSERT(fault.has_value());
        RC_ASSERT(fault->what.rfind("events[" + std::to_string(l.refused->first) + "]", 0) == 0);
    }));
}

TEST_CASE("what was heard before any event stays as it was, whatever is done later: beats, windows, spells",
          "[attempt file]") {
    const Protocol protocol = protocol_named("who-2018");
    CHECK(rc::check([&] {
        const Scenario scenario =
            scenario_named(labours[*rc::gen::inRange<std::size_t>(0, std::size(labours))]);
        const Lived l = lived(scenario, protocol);
        RC_PRE(l.events.size() > 2);
        const auto cut = *rc::gen::inRange<std::size_t>(1, l.events.size());
        const std::vector<Event> before(l.events.begin(),
                                        l.events.begin() + static_cast<std::ptrdiff_t>(cut));
        const Played then = play(scenario, protocol, {7}, before),
                     whole = play(scenario, protocol, {7}, l.events);
        const sim::LabourTime end = before.back().t;
        RC_ASSERT(times_before(then.fetal, end) == times_before(whole.fetal, end));
        RC_ASSERT(times_before(then.fetal2, end) == times_before(whole.fetal2, end));
        RC_ASSERT(times_before(then.maternal, end) == times_before(whole.maternal, end));
        for (std::size_t w = 0; w < then.windows.size(); ++w) {
            if (then.windows[w].cut) continue;  // still open then
            RC_ASSERT(then.windows[w].from == whole.windows.at(w).from);
            RC_ASSERT(then.windows[w].to == whole.windows.at(w).to);
        }
        RC_ASSERT(then.spells.size() <= whole.spells.size());
    }));
}
