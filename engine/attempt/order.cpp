// What can follow what: the refusals, in plain words.
#include "engine/attempt/attempt.h"

#include "engine/attempt/event_table.h"

#include <algorithm>
#include <cassert>

namespace engine {

namespace {

bool allows_horn(sim::Position p) {
    return p == sim::Position::flat || p == sim::Position::half_sitting || p == sim::Position::left_side ||
           p == sim::Position::right_side || p == sim::Position::standing;
}

std::string spoken(std::string_view id) {
    std::string s(id);
    std::replace(s.begin(), s.end(), '_', ' ');
    return s;
}

std::string_view spoken(sim::Instrument i) {
    switch (i) {
        case sim::Instrument::none: return "nothing";
        case sim::Instrument::horn: return "horn";
        case sim::Instrument::bell: return "cup side of the stethoscope";
        case sim::Instrument::diaphragm: return "flat side of the stethoscope";
        case sim::Instrument::doppler: return "Doppler";
    }
    return "";
}

std::string_view spoken(sim::Hand hand) { return hand == sim::Hand::left ? "left" : "right"; }

constexpr std::string_view nothing_placed = "nothing is placed on the abdomen";

}  // namespace

Order::Order(const Scenario& scenario, const Protocol& protocol)
    : instruments_(scenario.place.instruments),
      skips_(scenario, protocol),
      watch_(scenario.place.watch),
      length_(sim::labour_time(scenario.length)) {
    hold_.position = scenario.middle.mother.position;
    acts_.reserve(protocol.acts.size());
    for (const ActWords& act : protocol.acts) acts_.push_back({act.id, act.kind == ActKind::seen});
}

bool Order::busy(sim::Hand hand) const {
    if (carrying_ == hand) return true;
    return (hand == sim::Hand::left ? hold_.left : hold_.right) != sim::On::none;
}

std::optional<sim::Hand> Order::free_hand() const {
    // A hand already on the instrument is the one that will carry it.
    if (hold_.right == sim::On::instrument) return sim::Hand::right;
    if (hold_.left == sim::On::instrument) return sim::Hand::left;
    if (!busy(sim::Hand::right)) return sim::Hand::right;
    if (!busy(sim::Hand::left)) return sim::Hand::left;
    return std::nullopt;
}

std::string Order::refuses_hold(const Event& e) const {
    const bool horn = hold_.instrument == sim::Instrument::horn;
    switch (e.what) {
        case Do::take:
            if (hold_.placed)
                return "the " + std::string(spoken(hold_.instrument)) +
                       " is placed on the abdomen: lift it first";
            if (e.instrument == sim::Instrument::none) return "";
            if (std::find(instruments_.begin(), instruments_.end(), e.instrument) == instruments_.end())
                return "there is no " + std::string(spoken(e.instrument)) + " at this place";
            if (!carrying_ && !free_hand()) return "both hands are busy: a person has two";
            return "";
        case Do::place:
            if (hold_.instrument == sim::Instrument::none) return "no instrument is taken";
            if (horn && !allows_horn(hold_.position))
                return "a horn cannot be used with her " + spoken(name_of(hold_.position));
            return "";
        case Do::lift:
            if (!hold_.placed) return std::string(nothing_placed);
            if (!carrying_ && !free_hand()) return "both hands are busy: none is free to lift the horn";
            return "";
        case Do::move:
        case Do::press:
        case Do::tilt: return hold_.placed ? "" : std::string(nothing_placed);
        case Do::cover_display:
            return hold_.instrument == sim::Instrument::doppler
                       ? ""
                       : "only a Doppler that is taken has a number to cover";
        case Do::position:
        case Do::act: {
            sim::Hold after = hold_;
            if (const auto change = change_of(e)) sim::apply(*change, after);
            if (horn && hold_.placed && !allows_horn(after.position))
                return "the horn is placed and cannot stay with her " + spoken(name_of(after.position)) +
                       ": lift it first";
            return "";
        }
        default: return "";
    }
}

std::string Order::refuses_hand(const Event& e) const {
    if (e.on == sim::On::none) return "";
    if (e.on == sim::On::instrument) {
        if (hold_.instrument == sim::Instrument::none) return "no instrument is taken";
        return "";
    }
    if (carrying_ == e.hand)
        return "the " + std::string(spoken(e.hand)) + " hand holds the " +
               std::string(spoken(hold_.instrument)) + ": a person has two hands";
    return "";
}

std::string Order::refuses_count(const Event& e) const {
    switch (e.what) {
        case Do::start_window:
            if (!hold_.placed) return std::string(nothing_placed);
            if (window_open_) return "a count is already running";
            if (e.plan_s && !watch_) return "there is no watch here: count without a planned length";
            return "";
        case Do::stop_window: return window_open_ ? "" : "no count is running";
        case Do::tap:
            if (!hold_.placed) return std::string(nothing_placed);
            return window_open_ ? "" : "no count is running";
        case Do::report:
            if (window_open_) return "a count is running: stop it first";
            return window_closed_ ? "" : "no count has been made";
        default: return "";
    }
}

std::string Order::refuses(const Event& e) const {
    if (finished_) return "the attempt is finished";
    if (e.t < last_)
        return skipped_ ? "the skip goes on until " + decimal(last_.us, 6) + " s"
                        : "it comes before the event at " + decimal(last_.us, 6) + " s";
    if (e.t > length_) return "the labour can be listened to for " + decimal(length_.us, 6) + " s only";
    if (e.what == Do::skip) {
        const sim::LabourTime to = sim::labour_time({e.skip_to_s});
        if (hold_.placed) return "an instrument is placed: lift it first";
        if (to <= e.t) return "a skip goes ahead only";
        if (to > length_) return "the labour can be listened to for " + decimal(length_.us, 6) + " s only";
        return "";
    }
    if (e.what == Do::act) {
        const auto known =
            std::find_if(acts_.begin(), acts_.end(), [&](const KnownAct& a) { return a.id == e.act; });
        if (known == acts_.end()) return "the protocol has no act `" + e.act + "`";
        if (known->seen) return "`" + e.act + "` is seen from hands, ears and clock, never chosen";
    }
    if (e.what == Do::hand) return refuses_hand(e);
    std::string why = refuses_hold(e);
    return why.empty() ? refuses_count(e) : why;
}

void Order::take_hold(const Event& e) {
    const bool was_placed = hold_.placed;
    if (const auto change = change_of(e)) sim::apply(*change, hold_);
    switch (e.what) {
        case Do::take:
            if (e.instrument == sim::Instrument::none)
                carrying_.reset();
            else if (!carrying_)
                carrying_ = free_hand();
            break;
        case Do::place:
            if (hold_.instrument == sim::Instrument::horn) carrying_.reset();
            if (!was_placed) placed_at_ = e.t;
            break;
        case Do::lift:
            if (!carrying_) carrying_ = free_hand();
            if (skips_.is_listening(placed_at_, e.t)) listened_until_ = e.t;
            break;
        case Do::hand:
            if (e.on == sim::On::instrument && carrying_) carrying_ = e.hand;
            break;
        default: break;
    }
}

void Order::take(const Event& e) {
    assert(refuses(e).empty());
    last_ = e.t;
    skipped_ = false;
    take_hold(e);
    switch (e.what) {
        case Do::start_window:
            window_open_ = true;
            window_closed_ = false;
            break;
        case Do::stop_window:
        case Do::lift:
            window_closed_ = window_closed_ || window_open_;
            window_open_ = false;
            break;
        case Do::finish:
            window_open_ = false;
            finished_ = true;
            break;
        case Do::skip:
            last_ = skip_stop(e.t, sim::labour_time({e.skip_to_s})).to;
            skipped_ = true;
            break;
        default: break;
    }
}

SkipDone Order::skip_stop(sim::LabourTime from, sim::LabourTime asked) const {
    return skips_.stop(from, asked, listened_until_);
}

std::optional<Fault> check_order(const Scenario& scenario, const Protocol& protocol,
                                 const std::vector<Event>& events, const std::string& file) {
    Order order(scenario, protocol);
    for (std::size_t i = 0; i < events.size(); ++i) {
        const std::string why = order.refuses(events[i]);
        if (!why.empty())
            return Fault{file, 0,
                         "events[" + std::to_string(i) + "] (" + std::string(name_of(events[i].what)) +
                             " at " + decimal(events[i].t.us, 6) + " s) cannot be: " + why,
                         "", ""};
        order.take(events[i]);
    }
    return std::nullopt;
}

}  // namespace engine
