// What to do next time about whose heart it was.
#include "engine/scoring/advice.h"

#include "engine/scoring/pulse_asked.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

namespace engine {

namespace {

double counted_from_s(const Evidence& e) {
    const CountedWindow* w = e.last_judged();
    return w ? w->score.from_s : first_heard_s(e);
}

}  // namespace

NextTime advice_on_whose(const Evidence& e) {
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.score.followed == "mother" && heart_beats(e.played))
            return {of_count(e, w) +
                        "these beats were the mother's: keep your fingers on her wrist while you listen "
                        "and, if they beat together, move on and search.",
                    w.score.from_s};
    if (!heart_beats(e.played))
        return {
            "What keeps step with her wrist is her own, wherever you hear it: when no place gives another "
            "heart, say so, call, and ask for a scan.",
            counted_from_s(e)};
    for (const PulseAsked& p : pulse_asked(e)) {
        if (p.reason == PulseAsked::nothing || p.enough()) continue;
        switch (p.reason) {
            case PulseAsked::near:
                return {
                    fmt::format(
                        "Two hearts {:.0f} apart fall in step and out again: keep both together for {:.0f} s "
                        "before you say whose it is.",
                        p.apart_bpm, p.need_s),
                    p.from_s};
            case PulseAsked::another_place:
                return {"After every change of place feel her wrist again: a beat found anew may be hers.",
                        p.from_s};
            case PulseAsked::outside:
                return {
                    "Too fast or too slow: her wrist first, while you listen, so that you know it is the "
                    "baby's "
                    "and can act on it.",
                    p.from_s};
            case PulseAsked::pushing:
                return {
                    "While she pushes keep her wrist in hand: with each push her own beat can climb to where "
                    "a baby's is.",
                    p.from_s};
            default: break;
        }
        return {
            "Keep your fingers on her wrist while you listen, until you can say that the two hearts differ.",
            p.from_s};
    }
    for (const PulseReport& r : e.played.pulse_reports)
        if (pulse_misread(e, r))
            return {fmt::format("Count her pulse for 15 s by the clock, four times that is it: you wrote {}, "
                                "it was {:.0f}.",
                                r.bpm, pulse_nearest_bpm(e, r)),
                    r.at.seconds()};
    return {"Keep your fingers on her wrist while you listen, until you can say that the two hearts differ.",
            counted_from_s(e)};
}

}  // namespace engine
