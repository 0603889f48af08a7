#include "engine/scoring/trouble_began.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>

namespace engine {

namespace {

constexpr std::int64_t a_look_us = 6'000'000;  // the shortest count there is [practice]

template <std::size_t n>
bool listed(const std::array<std::string_view, n>& list, std::string_view word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

constexpr std::array<std::string_view, 14> heard_troubles = {"normal",         "fast",
                                                             "slow",           "slow_steady",
                                                             "rising",         "slow_after_contraction",
                                                             "stays_down",     "lying_flat",
                                                             "irregular",      "mothers_pulse",
                                                             "not_found",      "source_doubtful",
                                                             "close_to_birth", "not_close_to_birth"};
// Seen on the woman herself, before any hand is laid on her.
constexpr std::array<std::string_view, 4> seen_on_her = {"bleeding", "mother_collapses", "short_of_oxygen",
                                                         "scar_gives_way"};

sim::LabourTime first_look(const Played& played) {
    for (const Spell& spell : played.spells)
        if (spell.to.us - spell.from.us >= a_look_us) return {spell.from.us + a_look_us};
    return played.spells.empty() ? played.end : played.spells.front().from;
}

sim::LabourTime first_touch(const Played& played) {
    sim::LabourTime first = played.spells.empty() ? played.end : played.spells.front().from;
    if (!played.womb_felt.empty()) first = std::min(first, played.womb_felt.front().first);
    if (!played.pulses.empty()) first = std::min(first, played.pulses.front().from);
    return first;
}

// The lasting fall of a cause, or else nothing.
std::optional<sim::LabourTime> lasting_fall(const Evidence& e) {
    const auto& cause = e.played.patient.cause;
    if (cause.falls_to.value <= 0) return std::nullopt;
    return sim::labour_time(cause.at);
}

template <typename Wanted>
std::optional<sim::LabourTime> first_fall(const Evidence& e, Wanted wanted) {
    std::optional<sim::LabourTime> first;
    for (const HeartRun& baby : e.run.babies)
        for (const Slowing& s : baby.falls)
            if (wanted(s) && (!first || s.from < *first)) first = s.from;
    return first;
}

std::optional<sim::LabourTime> first_of_kind(const Evidence& e, BaselineClass kind) {
    std::optional<sim::LabourTime> first;
    for (const HeartRun& baby : e.run.babies)
        for (std::size_t k = 0; k < baby.ticks.size(); ++k)
            if (baby.ticks[k].kind == kind) {
                if (!first || time_of_tick(k) < *first) first = time_of_tick(k);
                break;
            }
    return first;
}

std::optional<sim::LabourTime> earlier_of(std::optional<sim::LabourTime> a,
                                          std::optional<sim::LabourTime> b) {
    return a && b ? std::optional(std::min(*a, *b)) : a ? a : b;
}

sim::LabourTime rate_began(const Evidence& e, BaselineClass kind) {
    const auto out = first_of_kind(e, kind);
    const auto fall = lasting_fall(e);
    if (kind == BaselineClass::slow && out && fall && *fall <= *out) return *fall;
    return out.value_or(sim::LabourTime{0});
}

sim::LabourTime odd_beat(const Evidence& e) {
    sim::LabourTime first{std::numeric_limits<std::int64_t>::max()};
    for (int b = 0; b < e.played.patient.babies.size && b < 2; ++b)
        for (const sim::Beat& beat : heart_of(e.played, b))
            if (beat.kind != sim::BeatKind::normal) {
                first = std::min(first, sim::LabourTime{beat.at_us});
                break;
            }
    return first.us == std::numeric_limits<std::int64_t>::max() ? sim::LabourTime{0} : first;
}

// How close the birth is asks for something only once a trouble does.
sim::LabourTime serious_began(const Evidence& e) {
    std::optional<sim::LabourTime> first;
    for (const Known& k : e.picture.known) {
        if (k.situation == "close_to_birth" || k.situation == "not_close_to_birth") continue;
        if (level_of(e.protocol, k.situation) >= Level::orange || k.worse_from)
            first = earlier_of(first, trouble_began(e, k.situation));
    }
    return first.value_or(sim::LabourTime{0});
}

}  // namespace

bool told_by_story(const Evidence& e, std::string_view situation) {
    const sim::Patient& p = e.played.patient;
    const auto hidden = [&] {
        return std::any_of(e.scenario.findings.begin(), e.scenario.findings.end(),
                           [&](const Finding& f) { return f.situation == situation; });
    };
    if (situation == "always" || situation == "twins") return true;
    if (situation == "listening_alone_not_enough")
        return p.gestation_weeks < 37 || p.gestation_weeks > 41 + 3.0 / 7 + 1e-9 || p.babies.size > 1 ||
               e.scenario.labour.scar || p.labour.oxytocin_drip;
    if (situation == "thick_green_waters")
        return e.scenario.labour.waters == Waters::thick_green && !hidden();
    if (situation == "fever") return e.scenario.labour.waters == Waters::foul && !hidden();
    return false;
}

sim::LabourTime trouble_began(const Evidence& e, std::string_view situation) {
    const auto any = [](const Slowing&) { return true; };
    if (situation == "fast") return rate_began(e, BaselineClass::fast);
    if (situation == "slow" || situation == "slow_steady") return rate_began(e, BaselineClass::slow);
    if (situation == "slow_after_contraction")
        return first_fall(e, [](const Slowing& s) { return s.after; }).value_or(sim::LabourTime{0});
    if (situation == "stays_down") {
        const std::int64_t long_enough = sim::labour_time(e.protocol.stays_down).us;
        const auto stays =
            first_fall(e, [&](const Slowing& s) { return s.to.us - s.from.us >= long_enough; });
        return earlier_of(lasting_fall(e), stays ? stays : first_fall(e, any)).value_or(sim::LabourTime{0});
    }
    if (situation == "lying_flat" || situation == "scar_gives_way") {
        std::optional<sim::LabourTime> first = earlier_of(lasting_fall(e), first_fall(e, any));
        if (situation == "scar_gives_way")
            for (const CallOut& call : e.scenario.call_outs)
                first = earlier_of(first, sim::labour_time(call.at));
        return first.value_or(sim::LabourTime{0});
    }
    if (situation == "irregular") return odd_beat(e);
    if (situation == "mothers_pulse") {
        for (const HeardPiece& h : e.listened.heard)
            if (h.what == HeardWhat::mother) return h.from;
        return {0};
    }
    if (situation == "close_to_birth" || situation == "not_close_to_birth") return serious_began(e);
    std::optional<sim::LabourTime> found;
    for (const Finding& f : e.scenario.findings)
        if (f.situation == situation) found = earlier_of(found, sim::labour_time(f.from));
    // What she cries out about is there, whatever a hand finds later.
    if (found && found->us > 0)
        for (const CallOut& call : e.scenario.call_outs)
            if (call.kind != CallOut::Kind::interrupted) found = earlier_of(found, sim::labour_time(call.at));
    return found.value_or(sim::LabourTime{0});
}

sim::LabourTime answerable_from(const Evidence& e, const Known& known) {
    if (told_by_story(e, known.situation)) return {0};
    sim::LabourTime from = trouble_began(e, known.situation);
    if (listed(heard_troubles, known.situation))
        from = std::max(from, first_look(e.played));
    else if (!listed(seen_on_her, known.situation))
        from = std::max(from, first_touch(e.played));
    // A decision said before anything was heard moves known-from, and shows nothing.
    const bool only_said = std::any_of(e.decisions.begin(), e.decisions.end(),
                                       [&](const StandingDecision& d) { return d.said.at == known.from; });
    return only_said ? from : std::min(from, known.from);
}

}  // namespace engine
