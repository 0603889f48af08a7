// What must not be missed at a bedside, whatever else was right. Never a matter of exact beats, centimetres
// or speed.
#include "engine/scoring/aspects.h"
#include "engine/scoring/decision_judge.h"
#include "engine/scoring/referral_note.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {
constexpr double clearly_out_bpm = 6;  // this far outside a limit is clear [practice]
}

void critical_misses(const Evidence& e, ScoreSheet& sheet) {
    auto& missed = sheet.critical_missed;
    for (const TimedRecord& r : e.played.records) {
        if (!r.event.bpm) continue;
        if (!heart_beats(e.played)) missed.push_back("a number written where no heart was to be heard");
        for (const CountedWindow& w : e.windows)
            if (w.score.followed == "mother" && w.own_bpm() && w.window->to <= r.at &&
                heart_beats(e.played) && std::abs(*w.own_bpm() - *r.event.bpm) <= 1) {
                missed.push_back("the mother's pulse written as the baby's");
                break;
            }
    }
    for (const Event& n : e.played.notes)
        if (n.what == Do::handover && referral_note(e, n).mothers_as_babys_bpm)
            missed.push_back("the mother's pulse written as the baby's");
    if (const AspectScore* record = aspect_in(sheet, Aspect::record)) {
        if (record->figures.count("one_rate_for_two") > 0)
            missed.push_back("one rate written for two babies");
        if (record->figures.count("her_pulse_written") > 0)
            missed.push_back("the mother's pulse written as the baby's");
    }
    for (const StandingDecision& d : e.decisions) {
        const Decision& said = d.said.decision;
        const std::size_t b = DecisionJudge(e, sheet, d).baby();
        const double settled = d.heard.settled_bpm[b];
        if (said.baseline == BaselineIs::normal && settled > 0 && !said.unsure &&
            (settled >= e.protocol.high.bpm.value + clearly_out_bpm ||
             settled <= e.protocol.low.bpm.value - clearly_out_bpm))
            missed.push_back(d.heard.down_at_end[b]
                                 ? fmt::format("called normal while the heart was down at {:.0f}", settled)
                                 : fmt::format("called normal at a settled rate of {:.0f}", settled));
        if (said.around == Around::no_slowing && d.heard.around[b].slow_after > 0 && !said.unsure)
            missed.push_back("slowing after contractions called normal");
        // A minute's number called normal, the slowing in it not named, and on as usual.
        if (said.baseline == BaselineIs::normal && said.around == Around::not_said &&
            d.heard.around[b].slow_after > 0 && !said.unsure &&
            e.done_at_or_after("continue_routine", d.said.at).us >= 0)
            missed.push_back("slowing after contractions not named, and carried on as usual");
    }
    std::vector<std::string> once;
    for (std::string& m : missed)
        if (std::find(once.begin(), once.end(), m) == once.end()) once.push_back(std::move(m));
    missed = std::move(once);
}

}  // namespace engine
