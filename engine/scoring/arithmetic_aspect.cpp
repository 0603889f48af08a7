// Arithmetic: the rate that was written against the beats that were counted.
#include "engine/scoring/aspects.h"
#include "engine/scoring/counted_words.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"

#include <cmath>

namespace engine {

namespace {

constexpr double arithmetic_met = 0.5, arithmetic_partly_bpm = 2.0;

}  // namespace

AspectScore judge_arithmetic(const Evidence& e) {
    AspectScore a{Aspect::arithmetic, Verdict::not_asked, {}, {}, {}};
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && w.score.counted && w.score.reported_bpm &&
            (!worst || std::fabs(w.score.terms.arithmetic) > std::fabs(worst->score.terms.arithmetic)))
            worst = &w;
    if (!worst) {
        a.why = "A count and a rate were not both given.";
        return a;
    }
    const double off = worst->score.terms.arithmetic;
    const double right = *worst->score.counted * worst->factor;
    a.figures["arithmetic_bpm"] = off;
    a.figures["counted_x_factor"] = to_thousandth(right);
    a.figures["reported_bpm"] = *worst->score.reported_bpm;
    a.verdict = std::fabs(off) <= arithmetic_met          ? Verdict::met
                : std::fabs(off) <= arithmetic_partly_bpm ? Verdict::partly
                                                          : Verdict::missed;
    const std::string sum =
        worst->score.plan_s == 60 && std::fabs(own_s(*worst) - 60) > 1
            ? fmt::format("{} counted in {:.0f} s for a minute", *worst->score.counted, own_s(*worst))
        : worst->score.plan_s == 60
            ? fmt::format("{} in a minute", *worst->score.counted)
            : fmt::format("{} x {:g} is {:g}", *worst->score.counted, worst->factor, right);
    a.why = of_count(e, *worst) + fmt::format("{}, and you wrote {}", sum, *worst->score.reported_bpm);
    if (a.verdict != Verdict::met)
        a.why += fmt::format(": {} bpm{}", signed_bpm(off),
                             worst->score.terms.slip.empty() || worst->score.terms.slip == "other"
                                 ? std::string()
                                 : ", " + worst->score.terms.slip);
    a.why += ".";
    return a;
}

}  // namespace engine
