// Whose heart it was, what was found, what the womb does, and what her story alone tells.
#include "engine/scoring/painter.h"

#include "engine/scoring/contractions_written.h"
#include "engine/scoring/steps.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace engine {

void Painter::nobody_there() {
    if (heart_beats(played_)) return;
    for (const HeardPiece& h : listened_.heard)
        if (h.from < to_ && h.to > from_) {
            know("not_found", std::max(h.from, from_), "No fetal heart is to be heard anywhere.");
            return;
        }
}

void Painter::source() {
    const std::int64_t long_enough = sim::labour_time(protocol_.pulse_felt_for).us;
    for (const HeardPiece& h : listened_.heard) {
        const sim::LabourTime a = std::max(h.from, from_), z = std::min(h.to, to_);
        if (h.what == HeardWhat::mother && heart_beats(played_) && z.us - a.us >= long_enough)
            know("mothers_pulse", {a.us + long_enough},
                 fmt::format("At this place the mother's beat ({:.0f}) is louder than the baby's.",
                             tick_at(played_, a).mhr_bpm));
    }
    for (int b = 0; b < played_.patient.babies.size && b < 2; ++b)
        if (const auto at = too_near_her_pulse(b))
            know("source_doubtful", *at,
                 fmt::format("Baby and mother are within {:.0f} of each other.", protocol_.near_pulse.value));
}

// Near hers for `baseline_needs` within one spell. Far from hers for as long as a pulse is felt settles it,
// and the doubt begins anew: a mother at 130 while she pushes and at 90 between is no riddle.
std::optional<sim::LabourTime> Painter::too_near_her_pulse(int b) const {
    if (!played_.patient.babies[b].heart_beats) return std::nullopt;
    const std::int64_t needed = sim::labour_time(protocol_.baseline_needs).us;
    const std::int64_t settles = sim::labour_time(protocol_.pulse_felt_for).us;
    const double near = protocol_.near_pulse.value, far = 2 * near;  // twice: told apart in 6 s [practice]
    if (heart(b).nearest_to_hers_bpm > near) return std::nullopt;
    std::int64_t near_us = 0, far_us = 0;
    int spell = -1;
    for (const HeardStretch& heard : heard_of_[static_cast<std::size_t>(b)]) {
        if (heard.spell != spell) near_us = far_us = 0;
        spell = heard.spell;
        for (std::size_t k = heard.first; k < heard.end; ++k) {
            const HeartTick& tick = heart(b).at(k);
            if (tick.lasting_fall)
                continue;  // a baby followed down past the mother's rate is still that baby
            far_us = tick.from_hers_bpm > far ? far_us + sim::course_tick_us : 0;
            if (far_us >= settles) near_us = 0;
            if (tick.from_hers_bpm <= near) near_us += sim::course_tick_us;
            if (near_us >= needed) return time_of_tick(k + 1);
        }
    }
    return std::nullopt;
}

void Painter::findings() {
    for (const Revealed& r : listened_.found)
        if (!r.situation.empty() && r.at < to_) {
            const auto before = std::find_if(picture_.known.begin(), picture_.known.end(),
                                             [&](const Known& k) { return k.situation == r.situation; });
            if (before != picture_.known.end() && before->why.find(r.says) == std::string::npos)
                before->why += " " + r.says;
            know(r.situation, r.at, "Found: " + r.says);
        }
    const auto hidden = [&](std::string_view situation) {
        return std::any_of(scenario_.findings.begin(), scenario_.findings.end(),
                           [&](const Finding& f) { return f.situation == situation; });
    };
    if (scenario_.labour.waters == Waters::thick_green && !hidden("thick_green_waters"))
        know("thick_green_waters", first_heard(), "The waters are thick and green.");
    if (scenario_.labour.waters == Waters::foul && !hidden("fever"))
        know("fever", first_heard(), "The waters are foul.");
}

// Truth first (too many there are), then when this person could know it: hand on the womb, or their own
// report.
void Painter::contractions() {
    const double span_s = std::min(to_.seconds(), played_.end.seconds()) - from_.seconds();
    if (span_s < 300) return;
    int n = 0;
    sim::LabourTime first, last;
    for (const Contraction& c : played_.contractions)
        if (c.peak >= from_ && c.peak < to_) {
            if (n++ == 0) first = c.peak;
            last = c.peak;
        }
    if (n < 3) return;
    // From peak to peak: a stretch that happens to begin and end with one would make six of five in ten
    // minutes.
    const double per_10min = to_tenth((n - 1) * 600.0 / (last.seconds() - first.seconds()));
    if (!too_many_contractions(protocol_, per_10min)) return;
    std::optional<sim::LabourTime> at;
    if (listened_.throughout)
        at = sim::LabourTime{from_.us + std::min<std::int64_t>(600'000'000, to_.us - from_.us)};
    for (const TimedAct& a : played_.acts)
        if (a.id == "count_contractions" && (!at || a.done_at < *at)) at = a.done_at;
    for (const Event& e : played_.notes)
        if (e.what == Do::report_contractions && too_many_contractions(protocol_, e.per_10min.value_or(0)) &&
            (!at || e.t < *at))
            at = e.t;
    if (at && *at < to_)
        know("too_many_contractions", *at,
             fmt::format("{:.1f} contractions in ten minutes: {}.", to_tenth(per_10min),
                         too_many_in_words(protocol_)));
}

void Painter::story() {
    const sim::LabourTime start = first_heard();
    const sim::Patient& p = played_.patient;
    if (p.babies.size > 1) know("twins", start, "There are two babies.");
    if (const auto at = not_head_down_known(start)) {
        const bool across = p.babies[0].presentation == sim::Presentation::across;
        know(across ? "lying_across" : "breech", *at,
             across ? "The baby lies across." : "The baby lies bottom down.");
    }
    scar();
    std::string why;
    sim::LabourTime since = start;
    if (p.gestation_weeks < 37)
        why = "before 37 weeks";
    else if (p.gestation_weeks > 41 + 3.0 / 7 + 1e-9)
        why = "past 41 weeks and 3 days";
    else if (p.babies.size > 1)
        why = "twins";
    else if (scenario_.labour.scar)
        why = "a scar on the womb";
    else if (p.labour.oxytocin_drip)
        why = "a drip that makes contractions";
    for (std::string_view s : {"thick_green_waters", "fever", "bleeding", "high_pressure"})
        if (why.empty() && picture_.has(s)) {
            why = s == "thick_green_waters" ? "thick green waters"
                  : s == "high_pressure"    ? "high pressure"
                                            : s;
            since = picture_.find(s)->from;  // not before it was found
        }
    if (!why.empty())
        know("listening_alone_not_enough", since, "Listening now and then is not enough here: " + why + ".");
}

// A scar, a sudden pain she cries out about, no more contractions, and the heart drops: seen together.
void Painter::scar() {
    const sim::LabourTime still = sim::labour_time(played_.patient.labour.contractions_stop);
    if (!scenario_.labour.scar || still >= to_) return;
    std::optional<sim::LabourTime> pain, drop;
    for (const CallOut& call : scenario_.call_outs)
        if (call.kind == CallOut::Kind::pain_changes && !pain) pain = sim::labour_time(call.at);
    const sim::Seconds long_enough = protocol_.pulse_felt_for;  // one short count
    for (std::size_t b = 0; b < heard_of_.size(); ++b)
        if (const auto at = heard_for(heard_of_[b], long_enough,
                                      [&](std::size_t k) { return run_.babies[b].at(k).fallen; }))
            drop = drop ? std::min(*drop, *at) : *at;
    if (pain && drop && *pain < to_)
        know("scar_gives_way", std::max({*pain, *drop, still}),
             "A scar, a sudden pain, no more contractions, and the heart has dropped.");
}

// A heart loudest above the navel at term means a bottom below it (A Book for Midwives 2010); lying across is
// felt.
std::optional<sim::LabourTime> Painter::not_head_down_known(sim::LabourTime start) const {
    const sim::Patient& p = played_.patient;
    if (p.babies.size != 1 || p.babies[0].presentation == sim::Presentation::head) return std::nullopt;
    if (listened_.throughout || p.babies[0].presentation == sim::Presentation::across) return start;
    for (const HeardPiece& h : listened_.heard)
        if (has_baby(h.what) && h.to > from_ && h.from < to_ &&
            static_cast<std::size_t>(h.spell) < played_.spells.size())  // none: nothing was ever placed
            for (const Spell::Piece& piece : played_.spells[static_cast<std::size_t>(h.spell)].pieces)
                if (piece.from <= h.from && h.from < piece.to && piece.hold.y_cm > 0)
                    return std::max(h.from, from_);
    return std::nullopt;
}

}  // namespace engine
