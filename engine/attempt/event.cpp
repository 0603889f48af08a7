#include "engine/attempt/event.h"

#include "engine/attempt/event_table.h"
#include "engine/attempt/event_words.h"
#include "sim/course/course.h"

namespace engine {

namespace {
template <typename Enum, std::size_t n>
std::string_view nth(const std::array<std::string_view, n>& list, Enum e) {
    return list.at(static_cast<std::size_t>(e));
}
}  // namespace

std::string_view name_of(Do what) { return do_word(what).name; }
std::optional<Do> do_named(std::string_view name) {
    for (const DoWord& w : do_words())
        if (w.name == name) return w.what;
    return std::nullopt;
}
std::string_view name_of(SourceIs s) { return nth(words::source, s); }
std::string_view name_of(BaselineIs b) { return nth(words::baseline, b); }
std::string_view name_of(Around a) { return nth(words::around, a); }
std::string_view name_of(RhythmIs r) { return nth(words::rhythm, r); }
std::string_view name_of(ToPulse p) { return nth(words::to_pulse, p); }
std::string_view name_of(sim::Instrument i) { return nth(words::instrument, i); }
std::string_view name_of(sim::Position p) { return nth(words::position, p); }
std::string_view name_of(sim::On on) { return nth(words::on, on); }

std::optional<sim::Change> change_of(const Event& e) {
    using Kind = sim::Change::Kind;
    sim::Change c;
    c.at_us = e.t.us;
    switch (e.what) {
        case Do::take:
            c.kind = Kind::take;
            c.instrument = e.instrument;
            return c;
        case Do::place:
            c.kind = Kind::place;
            c.x_cm = e.x_cm;
            c.y_cm = e.y_cm;
            c.press_n = static_cast<float>(e.press_n.value_or(6.0));
            return c;
        case Do::move:
            c.kind = Kind::move;
            c.x_cm = e.x_cm;
            c.y_cm = e.y_cm;
            return c;
        case Do::press:
            c.kind = Kind::press;
            c.press_n = static_cast<float>(e.press_n.value_or(6.0));
            return c;
        case Do::tilt:
            c.kind = Kind::tilt;
            c.tilt_deg = static_cast<float>(e.tilt_deg);
            c.tilt_towards_deg = static_cast<float>(e.tilt_towards_deg);
            return c;
        case Do::gel:
            c.kind = Kind::gel;
            c.gel = true;
            return c;
        case Do::lift: c.kind = Kind::lift; return c;
        case Do::hand:
            c.kind = Kind::hand;
            c.hand = e.hand;
            c.on = e.on;
            return c;
        case Do::position:
            c.kind = Kind::position;
            c.position = e.position;
            return c;
        case Do::act:
            c.kind = Kind::act;
            c.act = sim::act_named(e.act);
            if (c.act == sim::Act::none) return std::nullopt;
            return c;
        case Do::skip:
            c.kind = Kind::skip;
            c.skip_to_us = sim::labour_time({e.skip_to_s}).us;
            return c;
        default: return std::nullopt;
    }
}

}  // namespace engine
