// Whether the rate and the rhythm were named as this listening could show them.
#include "engine/scoring/decision_judge.h"
#include "engine/scoring/series.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr double look_s = 10;  // a count shorter than this is a look: never a class [practice]

BaselineIs class_of(const Protocol& protocol, double bpm) {
    switch (classify(protocol, sim::Bpm{bpm})) {
        case BaselineClass::fast: return BaselineIs::fast;
        case BaselineClass::slow: return BaselineIs::slow;
        case BaselineClass::normal: break;
    }
    return BaselineIs::normal;
}

// As a midwife says it.
std::string in_words(BaselineIs b) {
    switch (b) {
        case BaselineIs::fast: return "too fast";
        case BaselineIs::slow: return "too slow";
        case BaselineIs::not_checked: return "not checked";
        default: return std::string(name_of(b));
    }
}

}  // namespace

// Why a listening cannot carry a class of the baseline; empty when it can.
std::string DecisionJudge::baseline_gap(std::optional<Aspect>& cause) const {
    const double need = e_.protocol.baseline_needs.value, heard = d_.heard.heard_s[baby_];
    const bool by_ear =
        !counted_ && std::any_of(e_.played.notes.begin(), e_.played.notes.end(), [&](const Event& n) {
            return n.what == Do::compare && n.t <= d_.said.at && n.t >= d_.from;
        });
    if (by_ear) return "against her pulse one can say whose heart it is, never whether it is normal";
    if (faulty(sheet_, Aspect::window)) cause = Aspect::window;  // counted too briefly or not at all
    if (heard + 1 < need) {
        if (faulty(sheet_, Aspect::site)) cause = Aspect::site;
        if (faulty(sheet_, Aspect::whose)) cause = Aspect::whose;
        return fmt::format("the baby was heard for {:.0f} s, {:.0f} s are needed", heard, need);
    }
    if (!counted_) return "nothing had been counted";
    double counted_s = 0, longest = 0;
    for (const CountedWindow& w : e_.windows)
        if (w.own_bpm() && w.window->to <= d_.said.at && (w.window->to > d_.from || &w == counted_) &&
            (!both_heard() || w.site.baby == static_cast<int>(baby_))) {
            counted_s += w.score.to_s - w.score.from_s;
            longest = std::max(longest, w.score.plan_s);
        }
    if (longest < look_s && counted_s < need - 1)
        return fmt::format("a count of {:.0f} s is a look and gives no class", longest);
    return "";
}

DecisionJudge::Part DecisionJudge::baseline() const {
    if (said_.baseline == BaselineIs::not_said) {
        if (!heart_beats(e_.played) || said_.source == SourceIs::mother ||
            said_.source == SourceIs::not_found || said_.unsure)
            return {};
        return {Verdict::partly, "You did not say whether the rate was normal.", {}};
    }
    if (!heart_beats(e_.played))
        return said_.baseline == BaselineIs::not_checked
                   ? Part{Verdict::met, "", {}}
                   : Part{Verdict::missed, "No baby's heart was to be heard, and you gave it a rate.",
                          Aspect::whose};
    if (said_.source == SourceIs::mother || said_.source == SourceIs::not_found) return {};
    std::optional<Aspect> gap_cause;
    const std::string gap = baseline_gap(gap_cause);
    if (said_.baseline == BaselineIs::not_checked) {
        if (!gap.empty() || said_.unsure)
            return {Verdict::met, "You said that the rate was not checked yet.", {}};
        return {Verdict::partly, "You had listened long enough to say whether the rate was normal.", {}};
    }
    const double truth_bpm =
        d_.heard.settled_bpm[baby_] > 0 ? d_.heard.settled_bpm[baby_] : d_.truth.settled_bpm[baby_];
    const bool fallen = d_.heard.down_at_end[baby_];
    if (fallen && said_.baseline == BaselineIs::slow)
        return {Verdict::met, fmt::format("It had fallen to {:.0f} and you said so.", truth_bpm), {}};
    BaselineIs truth = class_of(e_.protocol, truth_bpm);
    if (truth == BaselineIs::normal && d_.heard.has("rising")) truth = BaselineIs::rising;
    const std::optional<double> own = counted_ ? number_held(e_, *counted_) : std::nullopt;
    const BaselineIs own_class = own ? class_of(e_.protocol, *own) : BaselineIs::not_said;
    const bool right =
        (said_.baseline == truth && !(fallen && truth == BaselineIs::normal)) ||
        (truth == BaselineIs::fast && said_.baseline == BaselineIs::rising && d_.truth.has("rising"));
    const std::string_view of_twin = !both_heard() ? ""
                                     : baby_ == 0  ? " of the first baby"
                                                   : " of the second baby";
    const std::string numbers = own ? fmt::format("your number {:.0f}{}, the settled rate{} {:.1f}", *own,
                                                  from_which_count(), of_twin, truth_bpm)
                                    : fmt::format("the settled rate{} was {:.1f}", of_twin, truth_bpm);
    if (right) {
        if (!gap.empty())
            return {Verdict::partly, fmt::format("\"{}\" is right, but {}.", in_words(said_.baseline), gap),
                    gap_cause};
        if (own && own_class != said_.baseline && said_.baseline != BaselineIs::rising) {
            const std::optional<Aspect> number = number_fault();
            return {Verdict::partly,
                    fmt::format("\"{}\" is right, but not what your own number says ({}).",
                                in_words(said_.baseline), numbers),
                    number};
        }
        return {Verdict::met, fmt::format("\"{}\" fits ({}).", in_words(said_.baseline), numbers), {}};
    }
    if (own && said_.baseline == own_class) {
        if (number_fault())  // judged with the number, never twice
            return {gap.empty() ? Verdict::met : Verdict::partly,
                    fmt::format("\"{}\" fits your own number ({}); the number is judged apart.",
                                in_words(said_.baseline), numbers),
                    gap.empty() ? std::nullopt : gap_cause};
        // A correct count whose minute is not the settled rate, or a rate at the very limit.
        return {Verdict::partly,
                fmt::format("\"{}\" fits the seconds you counted but not the settled rate ({}).",
                            in_words(said_.baseline), numbers),
                {}};
    }
    return {Verdict::missed,
            fmt::format("You decided \"{}\": {}, which is {}.", in_words(said_.baseline), numbers,
                        fallen ? "a fall" : in_words(truth)),
            gap.empty() ? std::nullopt : gap_cause};
}

// " from the second count, 62 s at 03:10", or from the counts in a row; nothing where there was only one.
std::string DecisionJudge::from_which_count() const {
    if (!counted_ || e_.windows.size() < 2) return "";
    const SeriesScore* series = series_of(e_.series, static_cast<std::size_t>(counted_ - e_.windows.data()));
    if (!series) return " from " + count_name(e_, *counted_);
    return series->counts() == e_.windows.size()
               ? ""
               : fmt::format(" from counts {} to {}, from {}", series->first + 1, series->last + 1,
                             clock_time(series->from_s));
}

// The aspect that made their own number differ from the truth.
std::optional<Aspect> DecisionJudge::number_fault() const {
    if (!counted_) return std::nullopt;
    const Breakdown& t = counted_->score.terms;
    for (Aspect a : {Aspect::whose, Aspect::site, Aspect::window, Aspect::count, Aspect::arithmetic})
        if (faulty(sheet_, a) && (a != Aspect::window || std::fabs(t.watch) >= 1)) return a;
    if (std::fabs(t.ear + t.tally) >= 1) return Aspect::count;
    if (std::fabs(t.watch) >= 1) return Aspect::window;
    return std::nullopt;
}

DecisionJudge::Part DecisionJudge::rhythm() const {
    if (!heart_beats(e_.played)) return {};
    const bool odd = d_.heard.has("irregular");
    if (said_.rhythm == RhythmIs::not_said) {
        if (!odd) return {};
        return {Verdict::missed,
                fmt::format("{} early or missing beats were there and not named.", d_.heard.odd_beats[baby_]),
                {}};
    }
    if ((said_.rhythm == RhythmIs::irregular) == odd) return {Verdict::met, "", {}};
    return {odd ? Verdict::missed : Verdict::partly,
            odd ? "The rhythm was irregular." : "The rhythm was regular.",
            {}};
}

}  // namespace engine
