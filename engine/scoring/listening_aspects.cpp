// The place, and care: where it was listened to, and with what manners.
#include "engine/scoring/aspects.h"
#include "engine/scoring/steps.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

Verdict of_site(const SiteHeard& site) {
    if (site.countable == sim::Countable::countable) return Verdict::met;
    return site.countable == sim::Countable::doubtful ? Verdict::partly : Verdict::missed;
}

}  // namespace

bool without_gel(const Played& played, sim::LabourTime from, sim::LabourTime to) {
    std::int64_t dry = 0, all = 0;
    for (const Spell& spell : played.spells)
        for (const Spell::Piece& piece : spell.pieces) {
            const std::int64_t us = std::min(piece.to.us, to.us) - std::max(piece.from.us, from.us);
            if (us <= 0) continue;
            all += us;
            if (piece.hold.instrument == sim::Instrument::doppler && !piece.hold.gel) dry += us;
        }
    return dry * 2 > all;
}

AspectScore judge_site(const Evidence& e) {
    AspectScore a{Aspect::site, Verdict::not_asked, {}, {}, {}};
    if (!heart_beats(e.played)) {
        a.why = "There was no heart to be found at any place.";
        return a;
    }
    if (!e.listened_at_all()) {
        a.verdict = Verdict::missed;
        a.why = "Nothing was listened to.";
        return a;
    }
    const CountedWindow* worst = nullptr;
    for (const CountedWindow& w : e.windows)
        if (w.score.judged && (!worst || of_site(w.site) > of_site(worst->site))) worst = &w;
    SiteHeard site;
    std::string where = "There";
    sim::LabourTime judged_from, judged_to = e.played.end;
    if (worst) {
        site = worst->site;
        judged_from = worst->window->from;
        judged_to = worst->window->to;
        where = "During " + which_count(e, *worst, "the count");
    } else {
        double most = -1;
        for (const Spell& spell : e.played.spells) {
            const SiteHeard here = site_between(e.played, spell.from, spell.to);
            const double heard = baby_heard_s(e.listened.heard, spell.from, spell.to);
            if (heard > most) {
                most = heard;
                site = here;
            }
        }
        where = "At the best of the places tried";
    }
    a.verdict = of_site(site);
    a.figures["over_rival_db"] = site.over_rival_db;
    a.figures["over_noise_db"] = site.over_noise_db;
    if (a.verdict == Verdict::met && site.over_rival_db > 60)
        a.why = where + " no other rhythm was to be heard: countable.";
    else if (a.verdict == Verdict::met)
        a.why = fmt::format("{} the baby was {:.0f} dB over every other rhythm: countable.", where,
                            site.over_rival_db);
    else if (site.what == HeardWhat::mother && site.over_rival_db < -40)
        a.why = where + " nothing but the mother's beat was to be heard.";
    else if (site.what == HeardWhat::mother)
        a.why = fmt::format(
            "{} the mother's beat was louder than the baby's by {:.0f} dB: the baby could not be "
            "counted there.",
            where, -site.over_rival_db);
    else if (a.verdict == Verdict::partly)
        a.why = fmt::format(
            "{} the baby was {:.0f} dB over the next rhythm and {:.0f} dB over the noise: doubtful, "
            "6 dB over every other rhythm is wanted.",
            where, site.over_rival_db, site.over_noise_db);
    else if (site.over_noise_db <= 0)
        a.why = where + " the baby was not to be heard over the other sounds.";
    else
        a.why = fmt::format("{} the baby could not be counted: {:.0f} dB over the noise, too faint.", where,
                            site.over_noise_db);
    if (faulty(a) && without_gel(e.played, judged_from, judged_to))
        a.why += " There was no gel under the Doppler: without it next to nothing comes through.";
    if (faulty(a) && worst && worst->score.followed == "mother") a.follows_from = Aspect::whose;
    return a;
}

AspectScore judge_care(const Evidence& e) {
    AspectScore a{Aspect::care, Verdict::not_asked, {}, {}, {}};
    if (!e.protocol.act("greet_and_ask") && !e.protocol.act("explain_findings")) {
        a.why = "This protocol does not name them.";
        return a;
    }
    const sim::LabourTime greeted = e.done_at("greet_and_ask");
    const sim::LabourTime decided = e.decisions.empty() ? sim::LabourTime{0} : e.decisions.front().said.at;
    const sim::LabourTime told = e.done_at_or_after("explain_findings", decided);
    const bool asked =
        greeted.us >= 0 && (e.played.spells.empty() || greeted <= e.played.spells.front().from);
    if (asked && told.us >= 0) {
        a.verdict = Verdict::met;
        a.why = "You asked her leave before you touched her, and told her what you found.";
    } else if (greeted.us >= 0 || told.us >= 0) {
        a.verdict = Verdict::partly;
        a.why = told.us >= 0
                    ? "You told her what you found, but did not ask her leave before the first touch."
                    : "You greeted her, but did not tell her what you found.";
    } else {
        a.verdict = Verdict::missed;
        a.why = "She was neither asked nor told.";
    }
    a.why += " Shown only; it has no weight.";
    return a;
}

}  // namespace engine
