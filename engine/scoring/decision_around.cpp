// Whether what the heart does around contractions was named as this listening could show it.
#include "engine/scoring/decision_judge.h"

#include "engine/scoring/slowing.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

// As a midwife says it.
std::string in_words(Around a) {
    switch (a) {
        case Around::no_slowing: return "no slowing";
        case Around::slows_in_contraction: return "slows in the contraction, back when it ends";
        case Around::slow_after_contraction: return "still slow after the contraction";
        case Around::stays_down: return "stays down";
        default: return "not listened";
    }
}

}  // namespace

// Any fall of this baby while it was listened to.
bool DecisionJudge::fall_heard() const {
    const std::vector<Slowing>& falls = e_.run.babies[baby_].falls;
    for (const HeardPiece& h : e_.listened.heard) {
        if (!has_baby(h.what) || h.baby != static_cast<int>(baby_)) continue;
        const std::int64_t to = std::min(h.to.us, d_.said.at.us);
        for (std::int64_t t = std::max(h.from.us, d_.from.us); t < to; t += sim::course_tick_us)
            if (fallen_at(e_.protocol, e_.played, falls, static_cast<int>(baby_), {t})) return true;
    }
    return false;
}

// The last that was heard of this baby was a fall.
bool DecisionJudge::down_when_left() const {
    std::optional<std::int64_t> last;
    for (const HeardPiece& h : e_.listened.heard)
        if (has_baby(h.what) && h.baby == static_cast<int>(baby_) && h.from.us < d_.said.at.us)
            last = std::max(last.value_or(0), std::min(h.to.us, d_.said.at.us) - sim::course_tick_us);
    return last &&
           fallen_at(e_.protocol, e_.played, e_.run.babies[baby_].falls, static_cast<int>(baby_), {*last});
}

DecisionJudge::Part DecisionJudge::around() const {
    if (!heart_beats(e_.played) || said_.source == SourceIs::mother || said_.source == SourceIs::not_found)
        return {};
    const AroundHeard& heard = d_.heard.around[baby_];
    const AroundHeard& truth = d_.truth.around[baby_];
    const bool asked = e_.scenario.task == Task::pattern || e_.scenario.task == Task::labour;
    const bool through = heard.listened_through > 0;
    const auto is = [](const AroundHeard& a) {
        if (a.stays_down) return Around::stays_down;
        if (a.slow_after > 0) return Around::slow_after_contraction;
        return a.slow_in > 0 ? Around::slows_in_contraction : Around::no_slowing;
    };
    const Around there = through || heard.stays_down ? is(heard) : is(truth);
    const std::string count =
        fmt::format("{} contraction{} listened through to the end and after, slowing after {}",
                    heard.listened_through, heard.listened_through == 1 ? "" : "s", heard.slow_after);
    const bool more_came = d_.said.at < e_.decisions.back().said.at;
    if (said_.around == Around::not_said || said_.around == Around::not_listened) {
        if (said_.baseline == BaselineIs::normal && !said_.unsure && !more_came && down_when_left())
            return {Verdict::partly,
                    "It was still down when you stopped listening: nobody heard whether it came back.",
                    {}};
        if (!asked) {
            if (said_.baseline == BaselineIs::normal && heard.slow_after > 0 && !said_.unsure)
                return {Verdict::partly,
                        fmt::format("A minute's number hides what it did inside: {}.", count),
                        {}};
            return {};
        }
        // one trouble at a time
        if (d_.heard.down_at_end[baby_] && said_.baseline == BaselineIs::slow) return {};
        if (heard.stays_down || heard.slow_after > 0)
            return {Verdict::missed, fmt::format("You did not say that it slows: {}.", count), {}};
        if (said_.around == Around::not_said && (said_.unsure || (!through && more_came))) return {};
        if (through && said_.around == Around::not_said)
            return {Verdict::partly,
                    fmt::format("You did not say what it does around contractions: {}.", count),
                    {}};
        if (said_.around == Around::not_listened && !through && e_.scenario.task == Task::pattern &&
            !more_came)
            return {Verdict::partly, "Here a contraction is to be heard to its end and on; none was.", {}};
        if (said_.around == Around::not_listened && !through)
            return {Verdict::met, "You said that you had not listened around a contraction.", {}};
        // there was none to listen through
        if (!through && d_.truth.around[baby_].listened_through == 0) return {};
        if (through)
            return {
                Verdict::partly,
                fmt::format("You said that you had not listened around a contraction, and had: {}.", count),
                {}};
        return {Verdict::partly, "What it does around contractions is still to be said.", {}};
    }
    const bool whole = through || heard.stays_down;
    if (!whole && truth.listened_through == 0 && !truth.stays_down && said_.around != Around::stays_down)
        return {Verdict::partly,
                fmt::format("\"{}\": no contraction had come to its end and gone on; nobody could "
                            "know yet.",
                            in_words(said_.around)),
                {}};
    if (said_.around == there) {
        if (!whole) {
            std::optional<Aspect> cause;
            if (faulty(sheet_, Aspect::site)) cause = Aspect::site;
            return {Verdict::partly,
                    fmt::format("\"{}\" is right, but no contraction was heard through its end and "
                                "on: this listening could not show it.",
                                in_words(said_.around)),
                    cause};
        }
        return {Verdict::met, fmt::format("\"{}\" fits: {}.", in_words(said_.around), count), {}};
    }
    if (said_.around == Around::stays_down) {
        // Named while it was down, before three minutes had passed: nobody could know yet, and to act then is
        // right.
        if (d_.heard.down_at_end[baby_])
            return {Verdict::met,
                    fmt::format("It was down, and you said so before {:.0f} minutes had passed.",
                                e_.protocol.stays_down.value / 60),
                    {}};
        if (fall_heard())
            return {Verdict::partly,
                    fmt::format("It fell and came back within {:.0f} minutes; it did not stay down.",
                                e_.protocol.stays_down.value / 60),
                    {}};
    }
    if (there == Around::stays_down && said_.around == Around::slow_after_contraction)
        return {Verdict::partly, "It was down for more than three minutes, not only after contractions.", {}};
    if (said_.around == Around::slows_in_contraction && there == Around::no_slowing)
        return {Verdict::partly, fmt::format("No slowing was there: {}.", count), {}};
    if (said_.around == Around::no_slowing && there == Around::slows_in_contraction)
        return {Verdict::partly, "It slowed in the contraction and was back at its end.", {}};
    std::optional<Aspect> cause;
    if (!through && faulty(sheet_, Aspect::site)) cause = Aspect::site;
    return {
        Verdict::missed,
        fmt::format("You decided \"{}\"; it was \"{}\": {}.", in_words(said_.around), in_words(there), count),
        cause};
}

}  // namespace engine
