#include "engine/scoring/breakdown.h"

#include "engine/scoring/steps.h"

#include <algorithm>
#include <cmath>

namespace engine {

double expected_watch_bpm(const CountMade& made, double rate_bpm) {
    const double ran = static_cast<double>(made.to.us - made.from.us) / 1e6;
    return factor_of(made.plan_s) * rate_bpm / 60 * (ran - made.plan_s);
}

std::string arithmetic_slip(int beats, double reported_bpm, double factor) {
    if (beats == 0) return "";
    const auto fits = [&](double r) { return std::fabs(reported_bpm - r * beats) <= 0.5; };
    if (fits(factor)) return "";
    if (fits(1)) return "forgot to multiply";
    for (double r : {2.0, 4.0, 6.0, 10.0, 20.0, 60.0})
        if (fits(r)) return "wrong factor";
    return "other";
}

Breakdown break_down(std::span<const sim::Beat> baby, std::span<const sim::Beat> followed,
                     const CountMade& made) {
    Breakdown b;
    const double factor = factor_of(made.plan_s);
    const sim::LabourTime start = made.called_from.value_or(made.from);
    const sim::LabourTime meant = {start.us + sim::labour_time(sim::Seconds{made.plan_s}).us};
    const sim::LabourTime nominal_to = std::min(meant, std::max(made.heard_until, made.to));
    const double nominal_s = static_cast<double>(nominal_to.us - start.us) / 1e6;
    const double nominal_factor = nominal_to == meant ? factor : factor_of(nominal_s);

    const std::int64_t truth = in_thousandths(sim::rate_between(baby, start, nominal_to).value);
    const std::int64_t of_followed = in_thousandths(sim::rate_between(followed, start, nominal_to).value);
    const auto reading = [](double k, std::int64_t n) { return in_thousandths(k * static_cast<double>(n)); };
    const std::int64_t nominal = reading(nominal_factor, sim::beats_between(followed, start, nominal_to));
    const std::int64_t own_beats = sim::beats_between(followed, made.from, made.to);
    const std::int64_t own = reading(factor, own_beats);

    b.true_bpm = static_cast<double>(truth) / 1000.0;
    if (!made.beats && !made.bpm) return b;
    const auto term = [](std::int64_t thousandths) { return static_cast<double>(thousandths) / 1000.0; };
    const std::int64_t fenced =
        made.fencepost_beats ? reading(factor, own_beats + *made.fencepost_beats) : own;
    const std::int64_t counted = made.beats ? reading(factor, *made.beats) : 0;
    const std::int64_t heard = made.taps ? reading(factor, *made.taps) : made.beats ? counted : fenced;
    const std::int64_t tallied = made.beats ? counted : heard;
    const std::int64_t reported = made.bpm ? std::int64_t{*made.bpm} * 1000 : tallied;
    b.source = term(of_followed - truth);
    b.method = term(nominal - of_followed);
    b.watch = term(own - nominal);
    b.fencepost = term(fenced - own);
    b.ear = term(heard - fenced);
    b.tally = term(tallied - heard);
    if (made.beats) {
        b.arithmetic = term(reported - tallied);
        b.slip = arithmetic_slip(*made.beats, term(reported), factor);
    } else {
        b.unexplained = term(reported - tallied);
    }
    b.reported_bpm = term(reported);
    return b;
}

std::string_view term_absent(const WindowScore& w, std::string_view term) {
    if (!w.counted && !w.reported_bpm) return "no number was given";
    if (term == "fencepost")
        return w.terms.fencepost != 0 ? "" : "one count cannot show it; what there is of it is in the ear";
    if (term == "arithmetic")
        return !w.reported_bpm ? "no rate was written" : !w.counted ? "no beats were written" : "";
    if (term == "tally")
        return !w.counted ? "no beats were written"
               : !w.taps  ? "without taps it cannot be told from the ear"
                          : "";
    if (term == "ear") return !w.counted && !w.taps ? "no beats were written" : "";
    return "";
}

}  // namespace engine
