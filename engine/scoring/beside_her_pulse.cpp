#include "engine/scoring/beside_her_pulse.h"

#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr double just_put_down_s =
    60;  // said this soon after lifting, it is about what was just heard [practice]
constexpr double twice_least = 1.75, twice_most = 2.25;  // "about twice" by ear [practice]

// Where instrument and fingers were on her together, in time order.
std::vector<std::pair<sim::LabourTime, sim::LabourTime>> together(const Played& played, sim::LabourTime from,
                                                                  sim::LabourTime to) {
    std::vector<std::pair<sim::LabourTime, sim::LabourTime>> all;
    for (const PulseFelt& p : played.pulses)
        if (p.while_listening && p.from < to && p.to > from)
            all.emplace_back(std::max(p.from, from), std::min(p.to, to));
    return all;
}

std::string_view spoken(ToPulse said) {
    switch (said) {
        case ToPulse::same: return "the same as her pulse";
        case ToPulse::about_twice: return "about twice her pulse";
        case ToPulse::less: return "slower than her pulse";
        case ToPulse::more: return "faster than her pulse";
    }
    return "";
}

bool is_true(ToPulse said, const BesideHerPulse& c) {
    const bool hers = c.heard == HeardWhat::mother;
    switch (said) {
        case ToPulse::same: return hers;
        case ToPulse::about_twice: return !hers && c.ratio() >= twice_least && c.ratio() <= twice_most;
        case ToPulse::less: return !hers && c.heard_bpm < c.her_bpm;
        case ToPulse::more: return !hers && c.heard_bpm > c.her_bpm;
    }
    return false;
}

const Spell* spell_of(const Played& played, sim::LabourTime at) {
    const Spell* last = nullptr;
    for (const Spell& spell : played.spells)
        if (spell.from <= at && static_cast<double>(at.us - spell.to.us) / 1e6 <= just_put_down_s)
            last = &spell;
    return last;
}

// The heart that was there for most of the time both were felt and heard.
void hear(const Evidence& e, const Spell& spell, sim::LabourTime at, BesideHerPulse& c) {
    const sim::LabourTime to = std::min(at, spell.to);
    const auto both = together(e.played, spell.from, to);
    sim::LabourTime first = spell.from, last = to;
    if (!both.empty()) {
        first = both.front().first;
        last = both.back().second;
    }
    double by_what[4] = {}, second_s = 0;
    for (const HeardPiece& h : e.listened.heard) {
        const std::int64_t us = std::min(h.to.us, last.us) - std::max(h.from.us, first.us);
        if (us <= 0) continue;
        by_what[static_cast<int>(h.what)] += static_cast<double>(us);
        if (has_baby(h.what) && h.baby == 1) second_s += static_cast<double>(us) / 1e6;
    }
    c.heard = static_cast<HeardWhat>(std::max_element(std::begin(by_what), std::end(by_what)) -
                                     std::begin(by_what));
    if (by_what[static_cast<int>(c.heard)] <= 0) c.heard = HeardWhat::nothing;
    const double baby_us =
        by_what[static_cast<int>(HeardWhat::baby)] + by_what[static_cast<int>(HeardWhat::unclear)];
    c.her_bpm = to_tenth(sim::rate_between(e.played.maternal, first, last).value);
    const auto heart = heart_of(e.played, second_s * 2e6 > baby_us ? 1 : 0);
    if (c.heard == HeardWhat::mother)
        c.heard_bpm = c.her_bpm;
    else if (c.heard != HeardWhat::nothing)
        c.heard_bpm = to_tenth(sim::rate_between(heart, first, last).value);
    for (const auto& [a, z] : both)
        for (const HeardPiece& h : e.listened.heard)
            if (h.what != HeardWhat::nothing)
                c.together_s += std::max(
                    0.0, static_cast<double>(std::min(h.to.us, z.us) - std::max(h.from.us, a.us)) / 1e6);
    c.together_s = to_tenth(c.together_s);
    c.needed_s = to_tenth(
        pulse_needed_s(e.protocol, c.heard == HeardWhat::mother ? 1e3 : std::fabs(c.heard_bpm - c.her_bpm)));
}

constexpr double near_by_ear_bpm = 10;  // within it "the same" is an honest mistake [practice]

void weigh(BesideHerPulse& c) {
    const std::string said = fmt::format("You said the beat was {}", spoken(c.said));
    if (c.heard == HeardWhat::nothing) {
        c.verdict = Verdict::partly;
        c.why = said + "; at that place there was no beat to be heard.";
        return;
    }
    c.fits = is_true(c.said, c);
    const bool hers = c.heard == HeardWhat::mother;
    const std::string truth =
        hers ? fmt::format("it was her own, {:.0f} a minute", c.her_bpm)
             : fmt::format("it was {:.0f} to her {:.0f}, {:.2f} times", c.heard_bpm, c.her_bpm, c.ratio());
    if (!c.fits) {
        // Hers taken for another heart is the dangerous way round; a baby taken for hers is listened to
        // again.
        c.verdict = hers ? Verdict::missed : Verdict::partly;
        c.why = fmt::format("{}; {}.", said, truth);
        if (c.said == ToPulse::same && !hers && std::fabs(c.heard_bpm - c.her_bpm) <= near_by_ear_bpm)
            c.why += fmt::format(
                " So near, they slip past each other once in {:.0f} s, and you had both together for "
                "{:.0f} s.",
                60 / std::max(1.0, std::fabs(c.heard_bpm - c.her_bpm)), c.together_s);
        if (c.said == ToPulse::about_twice && !hers)
            c.why +=
                " A baby's heart need not be twice hers: out of step for long enough is what tells them "
                "apart.";
        return;
    }
    if (!c.supported()) {
        c.verdict = Verdict::partly;
        c.why =
            c.together_s <= 0
                ? fmt::format("{}, and {}; but her pulse was not under your fingers while you listened.",
                              said, truth)
                : fmt::format(
                      "{}, and {}; but you had both together for {:.0f} s, and {:.0f} s are needed to tell.",
                      said, truth, c.together_s, c.needed_s);
        return;
    }
    c.verdict = Verdict::met;
    c.why = hers ? fmt::format("{}, and so it was: {}.", said, truth)
                 : fmt::format("{}: {}, so it is not hers.", said, truth);
    if (c.said == ToPulse::about_twice)
        c.why += " Whether it is normal, that does not say: it takes a clock.";
}

}  // namespace

double pulse_felt_s(const Played& played, sim::LabourTime from, sim::LabourTime to) {
    std::int64_t us = 0;
    for (const PulseFelt& p : played.pulses)
        us += std::max<std::int64_t>(0, std::min(p.to.us, to.us) - std::max(p.from.us, from.us));
    return static_cast<double>(us) / 1e6;
}

double pulse_felt_listening_s(const Played& played, sim::LabourTime from, sim::LabourTime to) {
    double s = 0;
    for (const auto& [a, z] : together(played, from, to)) s += static_cast<double>(z.us - a.us) / 1e6;
    return s;
}

double pulse_needed_s(const Protocol& protocol, double apart_bpm) {
    const double least = protocol.pulse_felt_for.value;
    if (apart_bpm > protocol.near_pulse.value) return least;
    return std::max(least, std::min(60.0, 60.0 / std::max(apart_bpm, 1.0)));
}

std::vector<BesideHerPulse> compared(const Evidence& e) {
    std::vector<BesideHerPulse> all;
    const Spell* before = nullptr;
    for (const Event& note : e.played.notes) {
        if (note.what != Do::compare) continue;
        BesideHerPulse c;
        c.at_s = note.t.seconds();
        c.said = note.to_pulse;
        const Spell* spell = spell_of(e.played, note.t);
        if (spell) hear(e, *spell, note.t, c);
        weigh(c);
        if (spell && spell == before && !all.empty())
            all.back() = std::move(c);
        else
            all.push_back(std::move(c));
        before = spell;
    }
    return all;
}

}  // namespace engine
