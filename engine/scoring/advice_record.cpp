// What to do next time about the chart and the referral note: a wrong heart first, then a wrong number, then
// what is missing.
#include "engine/scoring/advice.h"
#include "engine/scoring/contractions_written.h"
#include "engine/scoring/referral_note.h"

#include <fmt/core.h>

#include <cmath>
#include <cstdlib>

namespace engine {

namespace {

const Event* handed_note(const Evidence& e) {
    const Event* handed = nullptr;
    for (const Event& n : e.played.notes)
        if (n.what == Do::handover) handed = &n;
    return handed;
}

// Her number where the baby's belongs, in the note or on the chart.
std::optional<NextTime> hers_as_babys(const Evidence& e) {
    if (const Event* handed = handed_note(e))
        if (const auto hers = referral_note(e, *handed).mothers_as_babys_bpm)
            return NextTime{
                fmt::format("The referral note gives her pulse, {:.0f}, as the baby's heart: write "
                            "beside each number whose it is.",
                            *hers),
                handed->t.seconds()};
    if (e.played.records.empty() || !e.played.records.back().event.bpm) return std::nullopt;
    const TimedRecord& line = e.played.records.back();
    const int bpm = *line.event.bpm;
    const CountedWindow* counted = last_counted(e, line.at);
    if (!counted || std::fabs(bpm - *counted->own_bpm()) <= count_tolerance_bpm(*counted))
        return std::nullopt;
    for (const PulseReport& r : e.played.pulse_reports)
        if (std::abs(r.bpm - bpm) <= 1)
            return NextTime{
                fmt::format("The chart has her pulse, {}, for the baby's heart, which you counted "
                            "as {:.0f}: write each on its own line.",
                            bpm, *counted->own_bpm()),
                counted->score.from_s};
    return std::nullopt;
}

std::optional<NextTime> note_lacks(const Evidence& e) {
    if (e.done_at("arrange_transfer").us < 0) return std::nullopt;
    const Event* handed = handed_note(e);
    if (!handed)
        return NextTime{
            "She went without a referral note: write rate, when against the contraction, her pulse, for how "
            "long, what was tried and what you ask for, before she leaves.",
            e.done_at("arrange_transfer").seconds()};
    ReferralNote note = referral_note(e, *handed);
    if (note.other_than_counted)
        return NextTime{
            fmt::format("The referral note gives {:.0f} where you counted {:.0f}: copy the number "
                        "from the chart.",
                        note.other_than_counted->given_bpm, note.other_than_counted->counted_bpm),
            handed->t.seconds()};
    if (note.lacking.empty()) return std::nullopt;
    return NextTime{"Into the referral note also: " + in_a_row(note.lacking) + ".", handed->t.seconds()};
}

}  // namespace

NextTime advice_on_record(const Evidence& e) {
    const CountedWindow* w = e.last_judged();
    const double at_s = w ? w->score.from_s : first_heard_s(e);
    if (auto hers = hers_as_babys(e)) return *hers;
    if (w && w->score.plan_s < 10)
        return {"A look tells you whether to hurry: count a whole minute before you write a number.", at_s};
    if (!e.played.records.empty() && e.done_at("arrange_transfer").us >= 0 && !handed_note(e))
        return *note_lacks(e);
    if (const auto womb = advice_on_contractions(e); womb && !e.played.records.empty()) return *womb;
    if (!e.played.records.empty() && e.played.patient.babies.size == 1) {
        const TimedRecord& line = e.played.records.back();
        const CountedWindow* counted = last_counted(e, line.at);
        if (counted && line.event.bpm && std::fabs(*line.event.bpm - *counted->own_bpm()) > 1)
            return {fmt::format("You counted {:.0f} and wrote {} on the chart: write the number as it was "
                                "counted, never a rounder one.",
                                *counted->own_bpm(), *line.event.bpm),
                    counted->score.from_s};
    }
    if (e.played.patient.babies.size > 1)
        return {"Two babies have two rates on the chart, each with its own place.", at_s};
    if (auto lacks = note_lacks(e)) return *lacks;
    return {
        "Write the line while it is fresh: the rate you counted, when against the contraction, her pulse, "
        "whether it slowed, what was done.",
        at_s};
}

}  // namespace engine
