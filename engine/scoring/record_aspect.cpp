// The line on the labour chart: there, complete, and the number that was counted; the referral note when she goes.
#include "engine/scoring/aspects.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr double look_s = 10;

const CountedWindow* counted_before(const Evidence& e, sim::LabourTime t) {
    const CountedWindow* last = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.window->to <= t && w.own_bpm()) last = &w;
    return last;
}

}  // namespace

AspectScore judge_record(const Evidence& e, const ScoreSheet& so_far) {
    AspectScore a{Aspect::record, Verdict::not_asked, {}, {}, {}};
    if (e.played.records.empty()) {
        a.verdict = Verdict::missed;
        a.why = "Nothing was written on the chart.";
        return a;
    }
    a.verdict = Verdict::met;
    const auto say = [&](Verdict v, const std::string& why, std::optional<Aspect> follows = std::nullopt) {
        if (worse(a.verdict, v) != a.verdict) a.follows_from = follows;
        a.verdict = worse(a.verdict, v);
        a.why += (a.why.empty() ? "" : " ") + why;
    };
    const bool whole_labour = e.scenario.task == Task::pattern || e.scenario.task == Task::labour;
    const TimedRecord& last = e.played.records.back();
    const Event& line = last.event;
    if (!heart_beats(e.played)) {
        if (line.bpm) say(Verdict::missed, fmt::format("{} was written where no baby's heart was to be heard.", *line.bpm),
                          faulty(so_far, Aspect::whose) ? std::optional<Aspect>(Aspect::whose) : std::nullopt);
    } else if (!line.bpm && !e.scenario.place.watch) {
        // Whose heart it was can be written; a rate cannot.
    } else if (!line.bpm) {
        const bool never_found = faulty(so_far, Aspect::site) && e.windows.empty();
        say(Verdict::partly, "The rate is missing.", never_found ? std::optional<Aspect>(Aspect::site) : std::nullopt);
    } else if (const CountedWindow* w = counted_before(e, last.at)) {
        const double own = *w->own_bpm();
        if (w->score.plan_s < look_s)
            say(Verdict::missed, fmt::format("A look of {:.0f} s is never a record.", w->score.plan_s),
                faulty(so_far, Aspect::window) ? std::optional<Aspect>(Aspect::window) : std::nullopt);
        else if (std::fabs(*line.bpm - own) > 1)
            say(Verdict::partly, fmt::format("You wrote {}; your count gave {:.0f}.", *line.bpm, own));
        if (w->recognised) say(Verdict::missed, "The mother's beat was written as the baby's.", Aspect::whose);
        else if (w->score.followed == "mother" && faulty(so_far, Aspect::whose))
            say(Verdict::partly, "The number written is the mother's.", Aspect::whose);
        else if (w->score.followed == "nobody" && faulty(so_far, Aspect::site))
            say(Verdict::partly, "That number was counted where the baby was not to be heard.", Aspect::site);
    } else {
        say(Verdict::partly, fmt::format("{} was written without a count.", *line.bpm),
            faulty(so_far, Aspect::window) ? std::optional<Aspect>(Aspect::window) : std::nullopt);
    }
    if (!line.pulse_bpm && e.protocol.pulse_at_first_listening &&
        (whole_labour || !e.played.pulse_reports.empty()))
        say(Verdict::partly, "Her pulse is missing.");
    if (whole_labour && line.when.empty()) say(Verdict::partly, "When it was, against the contraction, is missing.");
    if (whole_labour && line.slowing.empty() && heart_beats(e.played))
        say(Verdict::partly, "Whether slowing was heard is missing.");
    const bool saw_trouble = std::any_of(e.own_situations.begin(), e.own_situations.end(),
                                         [](const std::string& s) { return s != "normal"; });
    if (e.scenario.task == Task::labour && line.done.empty() && e.picture.level > Level::green && saw_trouble)
        say(Verdict::partly, "What was done is missing.");
    if (e.done_at("arrange_transfer").us >= 0) {
        const Event* note = nullptr;
        for (const Event& n : e.played.notes)
            if (n.what == Do::handover) note = &n;
        const bool clicked = e.done_at("write_referral_note").us >= 0;
        if (!note && !clicked) say(Verdict::partly, "She goes without a referral note.");
        else if (note && (note->situation.empty() || note->background.empty() || note->assessment.empty() ||
                          note->request.empty()))
            say(Verdict::partly, "The referral note lacks a part: who and what happened, background, what was heard, what "
                                 "is asked for.");
    }
    a.figures["lines"] = static_cast<double>(e.played.records.size());
    a.figures["at_s"] = last.at.seconds();
    if (a.why.empty()) a.why = "The line on the chart is complete.";
    return a;
}

}  // namespace engine
