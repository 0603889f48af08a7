#include "engine/scoring/evidence.h"

#include "engine/attempt/played_hands.h"
#include "engine/scoring/breakdown.h"
#include "engine/scoring/series.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/taps.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

// put down and taken up again within this: the same listening [practice]
constexpr double one_listening_gap_s = 120;
constexpr double display_within = 0.05;  // of half or double, for a number without a count [practice]
constexpr double near_enough_bpm = 8;    // a fair count at 60 s [practice]

bool decides_between(const Played& played, sim::LabourTime a, sim::LabourTime b) {
    const auto inside = [&](sim::LabourTime t) { return a < t && t <= b; };
    return std::any_of(played.decisions.begin(), played.decisions.end(),
                       [&](const auto& d) { return inside(d.at); }) ||
           std::any_of(played.records.begin(), played.records.end(),
                       [&](const auto& r) { return inside(r.at); });
}

// The mother's beat fits what was written, and the baby's does not.
bool fits_mother(double own, double baby, double mother) {
    const double off_baby = std::fabs(own - baby), off_mother = std::fabs(own - mother);
    return off_mother <= near_enough_bpm && off_baby > near_enough_bpm && off_mother * 3 < off_baby;
}

// Course and beats reach beyond every window as planned.
sim::LabourTime known_until(const Played& played) {
    if (played.course.empty()) return played.end;
    return {(static_cast<std::int64_t>(played.course.size()) - 1) * sim::course_tick_us};
}

// Within two beats of the method and one bpm of a limit: a right count may show the other class (statistics
// of short counts, our own default).
bool near_a_limit(const Protocol& protocol, double bpm, double factor) {
    const double near = 2 * factor + 1;
    return std::fabs(bpm - protocol.low.bpm.value) <= near ||
           std::fabs(bpm - protocol.high.bpm.value) <= near;
}

// A count that ended far from its plan, or was cut short, and was multiplied by what its own seconds ask for,
// or the usual length nearest to them, was meant in the end to be that long [practice].
double meant_s(const Window& w) {
    const double own = static_cast<double>(w.to.us - w.from.us) / 1e6;
    if (!w.beats || !w.bpm || own <= 0) return w.plan_s;
    const auto fits = [&](double s) { return std::fabs(*w.bpm - *w.beats * factor_of(s)) <= 1; };
    const double usual = plan_meant(own).value_or(own);
    if (fits(w.plan_s) || (usual == w.plan_s && !w.cut)) return w.plan_s;
    return fits(usual) ? usual : fits(own) ? own : w.plan_s;
}

bool with_a_display(const Played& played, const Window& w) {
    return w.spell >= 0 &&
           played.spells[static_cast<std::size_t>(w.spell)].instrument == sim::Instrument::doppler;
}

CountedWindow counted_window(const Protocol& protocol, const Played& played, const Window& w) {
    CountedWindow c;
    c.window = &w;
    const double plan_s = meant_s(w);
    c.factor = factor_of(plan_s);
    c.site = site_between(played, w.from, w.to);
    const std::span<const sim::Beat> baby = heart_of(played, c.site.baby);
    WindowScore& s = c.score;
    s.from_s = w.from.seconds();
    s.to_s = w.to.seconds();
    s.plan_s = plan_s;
    s.true_beats = static_cast<int>(sim::beats_between(baby, w.from, w.to));
    s.counted = w.beats;
    s.reported_bpm = w.bpm;
    const int mothers = static_cast<int>(sim::beats_between(played.maternal, w.from, w.to));
    std::optional<double> own;
    if (w.beats)
        own = *w.beats * c.factor;
    else if (w.bpm)
        own = *w.bpm;
    const bool number_is_hers = own && fits_mother(*own, s.true_beats * c.factor, mothers * c.factor);
    s.taps = tap_score(baby, played.maternal, w, number_is_hers);
    const bool mother = s.taps && s.taps->follows != "unclear" ? s.taps->follows == "mother" : number_is_hers;
    s.followed = mother                              ? "mother"
                 : !heart_beats(played)              ? "nobody"
                 : c.site.what == HeardWhat::nothing ? "nobody"
                                                     : "baby";
    c.followed_beats = mother ? mothers : s.true_beats;
    const std::span<const sim::Beat> followed = mother ? std::span<const sim::Beat>(played.maternal) : baby;
    s.terms = break_down(baby, followed,
                         {w.from,
                          w.to,
                          plan_s,
                          w.beats,
                          w.bpm,
                          {},
                          known_until(played),
                          s.taps ? std::optional<int>(s.taps->taps) : std::nullopt});
    s.true_bpm = s.terms.true_bpm;
    if (s.taps) {
        s.taps->missed_bpm = to_thousandth(-c.factor * static_cast<double>(s.taps->missed_s.size()));
        s.taps->extra_bpm = own ? to_thousandth(s.terms.ear - s.taps->missed_bpm)
                                : to_thousandth(c.factor * static_cast<double>(s.taps->extra_s.size()));
    }
    if (s.taps)
        s.pattern = tapped_pattern(beats_within(followed, w.from, w.to), taps_of(w));
    else if (w.beats)
        s.pattern = ratio_pattern(*w.beats, c.followed_beats);
    else if (w.bpm && c.followed_beats > 0 && with_a_display(played, w)) {
        const double ratio = *w.bpm / (c.followed_beats * c.factor);
        if (std::fabs(ratio - 0.5) <= 0.5 * display_within) s.pattern = "half the beats";
        if (std::fabs(ratio - 2) <= 2 * display_within) s.pattern = "double the beats";
    }
    s.boundary = near_a_limit(protocol, s.true_bpm, c.factor);
    return c;
}

std::string situation_said(const Decision& d, const Picture& picture) {
    if (d.source == SourceIs::mother) return "mothers_pulse";
    if (d.source == SourceIs::not_found) return "not_found";
    if (d.around == Around::stays_down) return "stays_down";
    if (d.around == Around::slow_after_contraction) return "slow_after_contraction";
    if (d.baseline == BaselineIs::slow) return picture.has("slow_steady") ? "slow_steady" : "slow";
    if (d.baseline == BaselineIs::fast) return "fast";
    if (d.baseline == BaselineIs::rising) return "rising";
    if (d.rhythm == RhythmIs::irregular) return "irregular";
    return "normal";
}

std::vector<std::string> situations_said(const Decision& d, const Picture& picture) {
    std::vector<std::string> said;
    for (Decision part : {Decision{d.source, {}, {}, {}, {}}, Decision{{}, d.baseline, {}, {}, {}},
                          Decision{{}, {}, d.around, {}, {}}, Decision{{}, {}, {}, d.rhythm, {}}}) {
        const std::string s = situation_said(part, picture);
        if (s != "normal") said.push_back(s);
    }
    if (said.empty()) said.push_back("normal");
    return said;
}

}  // namespace

std::optional<double> CountedWindow::own_bpm() const {
    if (score.reported_bpm) return *score.reported_bpm;
    if (score.counted) return *score.counted * factor;
    return std::nullopt;
}

std::optional<double> CountedWindow::error_bpm() const {
    if (score.counted) return (*score.counted - followed_beats) * factor;
    if (score.reported_bpm) return *score.reported_bpm - followed_beats * factor;
    return std::nullopt;
}

Evidence::Evidence(const Scenario& s, const Protocol& p, const Played& pl)
    : scenario(s), protocol(p), played(pl) {
    listened.heard = what_was_heard(played);
    listened.found = played.revealed;
    run = labour_run(protocol, played);
    picture = picture_of(scenario, protocol, played, listened, run, {0}, {played.end.us + 1});
    std::optional<Picture> truth;  // the same for every decision

    for (const Window& w : played.windows) windows.push_back(counted_window(protocol, played, w));
    for (std::size_t i = 0; i < windows.size(); ++i) {
        CountedWindow& w = windows[i];
        const sim::LabourTime next = i + 1 < windows.size() ? windows[i + 1].window->from : played.end;
        for (const TimedDecision& d : played.decisions)
            if (d.at >= w.window->to && d.at <= next && w.site.what != HeardWhat::baby &&
                (d.decision.source == SourceIs::mother || d.decision.source == SourceIs::doubtful ||
                 d.decision.source == SourceIs::not_found))
                w.recognised = true;
        if (w.recognised) w.score.judged = false;
        // Listening again is never a fault: within one listening the last written count stands, a look of a
        // few seconds gives way to a longer count, and short counts of one length one after another stand
        // together.
        for (std::size_t j = i + 1; j < windows.size() && w.score.judged; ++j) {
            const CountedWindow& later = windows[j];
            if (decides_between(played, w.window->to, later.window->from) ||
                static_cast<double>(later.window->from.us - w.window->to.us) / 1e6 > one_listening_gap_s)
                break;
            if (!later.own_bpm() || later.site.baby != w.site.baby) continue;  // of twins each has its own
            const bool one_of_many = w.own_bpm() && w.score.plan_s < 60 &&
                                     later.score.plan_s == w.score.plan_s &&
                                     later.window->spell == w.window->spell;
            if (!one_of_many) w.score.judged = false;
        }
    }
    series = series_in(scenario, protocol, played, windows);

    for (std::size_t i = 0; i < played.decisions.size(); ++i) {
        const TimedDecision& d = played.decisions[i];
        const bool replaced =
            i + 1 < played.decisions.size() &&
            std::none_of(played.spells.begin(), played.spells.end(), [&](const Spell& spell) {
                return spell.to > d.at && spell.from < played.decisions[i + 1].at;
            });
        if (replaced) continue;
        const sim::LabourTime after = decisions.empty() ? sim::LabourTime{-1} : decisions.back().said.at;
        StandingDecision standing;
        standing.said = d;
        standing.from = d.at;
        for (const Spell& spell : played.spells)
            if (spell.to > after && spell.from < d.at) standing.from = std::min(standing.from, spell.from);
        // Listening on after an earlier decision: what came since counts, once it is long enough to carry a
        // class.
        if (after > standing.from &&
            baby_heard_s(listened.heard, after, d.at) >= protocol.baseline_needs.value)
            standing.from = after;
        standing.heard = picture_of(scenario, protocol, played, listened, run, standing.from, d.at);
        if (!truth) {
            Listened all;
            all.heard = heard_throughout(played, {0}, played.end);
            all.found = listened.found;
            truth = picture_of(scenario, protocol, played, all, run, {0}, {played.end.us + 1});
        }
        standing.truth = *truth;
        const bool heard_any =
            std::any_of(listened.heard.begin(), listened.heard.end(),
                        [&](const HeardPiece& h) { return h.from < d.at && h.to > standing.from; });
        if (heard_any) {
            if (!heart_beats(played))
                standing.source_there = SourceIs::not_found;
            else if (standing.heard.heard_s[0] > 0 && standing.heard.heard_s[1] > 0)
                standing.source_there = SourceIs::two_babies;
            else if (standing.heard.has("source_doubtful"))
                standing.source_there = SourceIs::doubtful;
            else if (const auto what = at_the_last_place(played, listened.heard, standing.from, d.at))
                standing.source_there = *what == HeardWhat::baby      ? SourceIs::baby
                                        : *what == HeardWhat::mother  ? SourceIs::mother
                                        : *what == HeardWhat::unclear ? SourceIs::doubtful
                                                                      : SourceIs::not_found;
        }
        for (const CountedWindow& w : windows)
            if (w.window->to <= d.at && w.own_bpm() &&
                (w.window->to > standing.from ||
                 (w.window->spell >= 0 &&
                  played.spells[static_cast<std::size_t>(w.window->spell)].to > standing.from)))
                standing.counted = &w;
        decisions.push_back(std::move(standing));
    }

    for (const Event& n : played.notes)
        if (n.what == Do::report_contractions && too_many_contractions(protocol, n.per_10min.value_or(0)))
            own_situations.push_back("too_many_contractions");
    for (const StandingDecision& d : decisions)
        for (const std::string& said : situations_said(d.said.decision, picture)) {
            own_situations.push_back(said);
            if (said == "normal") continue;
            for (Known& k : picture.known)
                if (k.situation == said) k.from = std::min(k.from, d.said.at);
        }
}

}  // namespace engine
