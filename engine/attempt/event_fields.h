// How each key of an event is bound to the member of Event that holds it: the building stones of the table.
#pragma once

#include "engine/attempt/event_table.h"
#include "engine/attempt/event_words.h"

#include <array>
#include <type_traits>
#include <utility>

namespace engine::fields {

using std::int64_t;
using std::string_view;

inline constexpr int64_t longest_text = 4000;
inline constexpr std::array<int64_t, 5> plans{60, 30, 15, 10, 6};

inline double unstepped(int64_t steps, int decimals) {
    double scale = 1;
    for (int i = 0; i < decimals; ++i) scale *= 10;
    return static_cast<double>(steps) / scale;
}

template <typename T>
struct IsOptional : std::false_type {};
template <typename T>
struct IsOptional<std::optional<T>> : std::true_type {};

// A number held in `member`, a double or an int, optional or not.
template <auto member, int decimals>
constexpr EventField number(string_view key, bool required, double least, double most, string_view unit,
                            string_view means) {
    using Member = std::remove_cvref_t<decltype(std::declval<Event>().*member)>;
    double scale = 1;
    for (int i = 0; i < decimals; ++i) scale *= 10;
    EventField f;
    f.key = key;
    f.required = required;
    f.decimals = decimals;
    f.least = static_cast<int64_t>(least * scale);
    f.most = static_cast<int64_t>(most * scale);
    f.unit = unit;
    f.means = means;
    f.has = [](const Event& e) {
        if constexpr (IsOptional<Member>::value)
            return (e.*member).has_value();
        else
            return true;
    };
    f.get = [](const Event& e) -> int64_t {
        if constexpr (IsOptional<Member>::value)
            return nearest_step(static_cast<double>(*(e.*member)), decimals);
        else
            return nearest_step(static_cast<double>(e.*member), decimals);
    };
    f.set = [](Event& e, int64_t steps) {
        if constexpr (IsOptional<Member>::value)
            e.*member = static_cast<typename Member::value_type>(unstepped(steps, decimals));
        else
            e.*member = static_cast<Member>(unstepped(steps, decimals));
    };
    return f;
}

template <auto member>
constexpr EventField flag(string_view key, string_view means) {
    EventField f;
    f.key = key;
    f.kind = EventFieldKind::flag;
    f.most = 1;
    f.means = means;
    f.has = [](const Event&) { return true; };
    f.get = [](const Event& e) -> int64_t { return e.*member ? 1 : 0; };
    f.set = [](Event& e, int64_t v) { e.*member = v != 0; };
    return f;
}

template <auto member>
constexpr EventField word(string_view key, std::span<const string_view> words, string_view means) {
    using Member = std::remove_cvref_t<decltype(std::declval<Event>().*member)>;
    EventField f;
    f.key = key;
    f.kind = EventFieldKind::word;
    f.required = true;
    f.words = words;
    f.means = means;
    f.has = [](const Event&) { return true; };
    f.get = [](const Event& e) { return static_cast<int64_t>(e.*member); };
    f.set = [](Event& e, int64_t v) { e.*member = static_cast<Member>(v); };
    return f;
}

// A part of the decision: written when it was said.
template <auto member>
constexpr EventField part(string_view key, std::span<const string_view> words, string_view means) {
    using Member = std::remove_cvref_t<decltype(std::declval<Decision>().*member)>;
    EventField f;
    f.key = key;
    f.kind = EventFieldKind::word;
    f.words = words;
    f.words_from = 1;
    f.means = means;
    f.has = [](const Event& e) { return e.decision.*member != Member::not_said; };
    f.get = [](const Event& e) { return static_cast<int64_t>(e.decision.*member); };
    f.set = [](Event& e, int64_t v) { e.decision.*member = static_cast<Member>(v); };
    return f;
}

constexpr EventField text(string_view key, std::string Event::*member, string_view means,
                          bool required = false) {
    EventField f;
    f.key = key;
    f.kind = EventFieldKind::text;
    f.required = required;
    f.most = longest_text;
    f.means = means;
    f.text = member;
    return f;
}

constexpr EventField text_of(string_view key, std::string Event::*member, std::span<const string_view> words,
                             string_view means) {
    EventField f = text(key, member, means);
    f.words = words;
    return f;
}

constexpr EventField act_id() {
    EventField f = text("what", &Event::act, "the act's id in the protocol", true);
    f.kind = EventFieldKind::act_id;
    f.most = 48;
    return f;
}

constexpr EventField planned() {
    EventField f = number<&Event::plan_s, 0>("plan_s", false, 6, 60, "s", "the length meant; needs a watch");
    f.only = plans;
    return f;
}

constexpr EventField contraction_edge() {
    EventField f;
    f.key = "edge";
    f.kind = EventFieldKind::word;
    f.required = true;
    f.words = words::edge;
    f.means = "the hand feels it harden or let go";
    f.has = [](const Event&) { return true; };
    f.get = [](const Event& e) -> int64_t { return e.contraction_starts ? 0 : 1; };
    f.set = [](Event& e, int64_t v) { e.contraction_starts = v == 0; };
    return f;
}

constexpr EventField unsure() {
    EventField f;
    f.key = "unsure";
    f.kind = EventFieldKind::flag;
    f.most = 1;
    f.means = "said so: a safe answer when a safe step follows";
    f.has = [](const Event& e) { return e.decision.unsure; };
    f.get = [](const Event& e) -> int64_t { return e.decision.unsure ? 1 : 0; };
    f.set = [](Event& e, int64_t v) { e.decision.unsure = v != 0; };
    return f;
}

inline void fill_part(Event& e, int64_t v) {
    Decision& d = e.decision;
    if (v < 4)
        d.baseline = static_cast<BaselineIs>(v + 1);
    else if (v < 8)
        d.source = static_cast<SourceIs>(v - 4 + static_cast<int64_t>(SourceIs::mother));
    else if (v < 12)
        d.around = static_cast<Around>(v - 8 + static_cast<int64_t>(Around::no_slowing));
    else
        d.rhythm = RhythmIs::irregular;
}

constexpr EventField one_word() {
    EventField f;
    f.key = "what";
    f.kind = EventFieldKind::word;
    f.words = words::one_word;
    f.means = "one word that fills the part it belongs to";
    f.has = [](const Event&) { return false; };
    f.get = [](const Event&) -> int64_t { return 0; };
    f.set = &fill_part;
    return f;
}

constexpr EventField time_of_event() {
    EventField f;
    f.key = "t";
    f.required = true;
    f.decimals = 6;
    f.most = int64_t{14'400} * 1'000'000;
    f.unit = "s";
    f.means = "since the start of the attempt; never less than the event before";
    f.has = [](const Event&) { return true; };
    f.get = [](const Event& e) { return e.t.us; };
    f.set = [](Event& e, int64_t us) { e.t.us = us; };
    return f;
}
inline constexpr EventField time_key = time_of_event();

}  // namespace engine::fields
