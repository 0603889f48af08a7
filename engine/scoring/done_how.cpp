// When an act was done and what showed it: chosen, seen from hands, ears and clock, or answered by another
// act.
#include "engine/scoring/evidence.h"

#include <cmath>

namespace engine {

const CountedWindow* Evidence::last_judged() const {
    const CountedWindow* last = nullptr;
    for (const CountedWindow& w : windows)
        if (w.score.judged) last = &w;
    return last;
}

sim::LabourTime Evidence::done_at(std::string_view act) const { return done_at_or_after(act, {0}); }

sim::LabourTime Evidence::done_at_or_after(std::string_view act, sim::LabourTime from) const {
    return done_how(act, from).at;
}

Evidence::DoneHow Evidence::done_how(std::string_view act, sim::LabourTime from) const {
    DoneHow first;
    // Any position off her back counts where one is asked for.
    const bool off_her_back = act == "off_her_back";
    const auto did = [&](sim::LabourTime t, std::string_view by) {
        if (t >= from && (first.at.us < 0 || t < first.at)) first = {t, by};
    };
    for (const TimedAct& a : played.acts) {
        if (a.id == act) did(a.at, a.seen ? "seen" : "");
        // The plan begins with who is called, the senior among them.
        if (act == "inform_senior" && a.id == "start_plan") did(a.at, "start_plan");
        // Who calls out where somebody can come has told more than the senior.
        if (act == "inform_senior" && a.id == "call_for_help" && scenario.place.helpers > 0)
            did(a.at, "call_for_help");
        if (off_her_back && a.id == "knees_chest_hips_up") did(a.at, "knees_chest_hips_up");
        if (off_her_back && a.id == "upright_to_push") did(a.at, "upright_to_push");
    }
    const auto saw = [&](sim::LabourTime t) { did(t, "seen"); };
    if (act == "record_findings")
        for (const TimedRecord& r : played.records) saw(r.at);
    if (act == "feel_pulse")
        for (const PulseFelt& p : played.pulses)
            if (p.to.us - p.from.us >= sim::labour_time(protocol.pulse_felt_for).us) saw(p.from);
    if (act == "count_full_minute")
        for (const Window& w : played.windows)
            if (w.to.us - w.from.us >= 59'000'000) saw(w.to);
    if (act == "write_referral_note")
        for (const Event& e : played.notes)
            if (e.what == Do::handover) saw(e.t);
    if (act == "count_contractions")
        for (const Event& e : played.notes)
            if (e.what == Do::report_contractions) saw(e.t);
    if (act == "move_and_search" || off_her_back) {
        const sim::Hold* before = nullptr;
        for (const Spell& spell : played.spells)
            for (const Spell::Piece& piece : spell.pieces) {
                if (before && act == "move_and_search" &&
                    std::fabs(piece.hold.x_cm - before->x_cm) + std::fabs(piece.hold.y_cm - before->y_cm) >=
                        2)
                    saw(piece.from);
                if (off_her_back && piece.hold.position != sim::Position::flat &&
                    (before ? before->position : played.patient.mother.position) == sim::Position::flat)
                    saw(piece.from);
                before = &piece.hold;
            }
    }
    return first;
}

}  // namespace engine
