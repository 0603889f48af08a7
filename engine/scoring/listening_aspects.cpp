// Site, whose heart, care: what was listened to, and with what manners.
#include "engine/scoring/aspects.h"
#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

double pulse_felt_s(const Evidence& e, bool while_listening) {
    std::int64_t us = 0;
    for (const PulseFelt& p : e.played.pulses)
        if (!while_listening || p.while_listening) us += p.to.us - p.from.us;
    return static_cast<double>(us) / 1e6;
}

std::string windows_word(const CountedWindow& w) {
    return fmt::format("the count of {:.0f} to {:.0f} s", w.score.from_s, w.score.to_s);
}

Verdict of_site(const SiteHeard& site) {
    if (site.countable == sim::Countable::countable) return Verdict::met;
    return site.countable == sim::Countable::doubtful ? Verdict::partly : Verdict::missed;
}

}  // namespace

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
    if (worst) {
        site = worst->site;
        where = "During " + windows_word(*worst);
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
        a.why = fmt::format("{} the baby was {:.0f} dB over every other rhythm: countable.", where, site.over_rival_db);
    else if (site.what == HeardWhat::mother && site.over_rival_db < -40)
        a.why = where + " nothing but the mother's beat was to be heard.";
    else if (site.what == HeardWhat::mother)
        a.why = fmt::format("{} the mother's beat was louder than the baby's by {:.0f} dB: the baby could not be "
                            "counted there.", where, -site.over_rival_db);
    else if (a.verdict == Verdict::partly)
        a.why = fmt::format("{} the baby was {:.0f} dB over the next rhythm and {:.0f} dB over the noise: doubtful, "
                            "6 dB over every other rhythm is wanted.", where, site.over_rival_db, site.over_noise_db);
    else if (site.over_noise_db <= 0)
        a.why = where + " the baby was not to be heard over the other sounds.";
    else
        a.why = fmt::format("{} the baby could not be counted: {:.0f} dB over the noise, too faint.", where,
                            site.over_noise_db);
    if (faulty(a) && worst && worst->score.followed == "mother") a.follows_from = Aspect::whose;
    return a;
}

AspectScore judge_whose(const Evidence& e) {
    AspectScore a{Aspect::whose, Verdict::not_asked, {}, {}, {}};
    if (!e.listened_at_all()) {
        a.why = "Nothing was listened to.";
        return a;
    }
    const double felt = pulse_felt_s(e, false), felt_listening = pulse_felt_s(e, true);
    a.figures["pulse_felt_s"] = to_tenth(felt);
    for (const CountedWindow& w : e.windows) {
        if (!w.score.judged || w.score.followed != "mother") continue;
        a.verdict = Verdict::missed;
        a.why = fmt::format("The beats counted from {:.0f} to {:.0f} s were the mother's: {:.0f} a minute. ",
                            w.score.from_s, w.score.to_s, w.score.true_bpm + w.score.terms.source);
        a.why += heart_beats(e.played) ? fmt::format("The baby's rate was {:.0f}.", w.score.true_bpm)
                                       : std::string("No baby's heart was to be heard.");
        return a;
    }
    for (const StandingDecision& d : e.decisions) {
        const SourceIs said = d.said.decision.source, there = d.source_there;
        if (said == SourceIs::baby && there == SourceIs::mother) {
            a.verdict = Verdict::missed;
            a.why = "You took the mother's beat for the baby's.";
            return a;
        }
        if (said == SourceIs::baby && there == SourceIs::not_found && !heart_beats(e.played)) {
            a.verdict = Verdict::missed;
            a.why = "No baby's heart was to be heard, and you named one.";
            return a;
        }
        if (said == SourceIs::mother && there == SourceIs::baby) {
            a.verdict = Verdict::missed;
            a.why = "You took the baby's beat for the mother's.";
            return a;
        }
    }
    // Two rates drift past each other once in 60 / difference seconds: so long must the fingers stay [arithmetic].
    double need = e.protocol.pulse_felt_for.value, near = 0;
    if (const CountedWindow* w = e.last_judged(); w && heart_beats(e.played)) {
        const double mother = sim::rate_between(e.played.maternal, w->window->from, w->window->to).value;
        const double apart = std::fabs(w->score.true_bpm - mother);
        a.figures["apart_bpm"] = to_thousandth(apart);
        if (apart <= e.protocol.near_pulse.value) {
            near = apart;
            need = std::max(need, std::min(60.0, 60.0 / std::max(apart, 1.0)));
        }
    }
    a.figures["pulse_needed_s"] = to_tenth(need);
    const bool doubtful_said = std::any_of(e.decisions.begin(), e.decisions.end(), [](const StandingDecision& d) {
        return d.said.decision.source == SourceIs::doubtful || d.said.decision.unsure;
    });
    const double enough = near > 0 ? felt_listening : felt;
    if (!e.protocol.pulse_at_first_listening && near <= 0 && felt <= 0 && e.picture.level == Level::green) {
        a.why = "Her pulse was not asked for here.";
        return a;
    }
    if (enough + 0.5 >= need) {
        a.verdict = Verdict::met;
        a.why = heart_beats(e.played)
                    ? fmt::format("Her pulse was felt for {:.0f} s; the heart you named is the one that was there.", felt)
                    : fmt::format("Her pulse was felt for {:.0f} s; no heart but hers was to be heard.", felt);
    } else if (near > 0 && !doubtful_said) {
        a.verdict = felt_listening > 0 ? Verdict::partly : Verdict::missed;
        a.why = fmt::format("Baby and mother were {:.1f} apart: only {:.0f} s of both together can tell them; her pulse "
                            "was felt while listening for {:.0f} s.", near, need, felt_listening);
    } else if (doubtful_said) {
        a.verdict = Verdict::met;
        a.why = "You said that it was not sure whose heart this was.";
    } else {
        a.verdict = Verdict::partly;
        a.why = felt > 0 ? fmt::format("Her pulse was felt for {:.0f} s; {:.0f} s are asked.", felt, need)
                         : std::string("It was the baby, but her pulse was not felt: you could not know.");
    }
    for (const PulseReport& r : e.played.pulse_reports) {
        const sim::LabourTime back{std::max<std::int64_t>(0, r.at.us - 60'000'000)};
        const double truth = to_thousandth(sim::rate_between(e.played.maternal, back, r.at).value);
        a.figures["pulse_true_bpm"] = truth;
        a.figures["pulse_reported_bpm"] = r.bpm;
        // Two beats of a 15 s count.
        if (std::fabs(r.bpm - truth) > 8 && a.verdict == Verdict::met) {
            a.verdict = Verdict::partly;
            a.why += fmt::format(" You wrote her pulse as {}; it was {:.0f}.", r.bpm, truth);
        }
    }
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
    const bool asked = greeted.us >= 0 && (e.played.spells.empty() || greeted <= e.played.spells.front().from);
    if (asked && told.us >= 0) {
        a.verdict = Verdict::met;
        a.why = "You asked her leave before you touched her, and told her what you found.";
    } else if (greeted.us >= 0 || told.us >= 0) {
        a.verdict = Verdict::partly;
        a.why = told.us >= 0 ? "You told her what you found, but did not ask her leave before the first touch."
                             : "You greeted her, but did not tell her what you found.";
    } else {
        a.verdict = Verdict::missed;
        a.why = "She was neither asked nor told.";
    }
    a.why += " Shown only; it has no weight.";
    return a;
}

}  // namespace engine
