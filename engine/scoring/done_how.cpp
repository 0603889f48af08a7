// When an act was done and what showed it: chosen, seen from hands, ears and clock
// (engine/attempt/seen_acts.cpp
// says what is seen), or answered by another act.
#include "engine/scoring/evidence.h"

namespace engine {

const CountedWindow* Evidence::last_judged() const {
    const CountedWindow* last = nullptr;
    for (const CountedWindow& w : windows)
        if (w.score.judged) last = &w;
    return last;
}

sim::LabourTime Evidence::done_at(std::string_view act) const { return done_at_or_after(act, {0}); }

sim::LabourTime Evidence::done_at_or_after(std::string_view act, sim::LabourTime from) const {
    sim::LabourTime first{-1};
    for (const Doing& doing : doings(act))
        if (doing.at >= from && (first.us < 0 || doing.at < first)) first = doing.at;
    return first;
}

std::vector<Evidence::Doing> Evidence::doings(std::string_view act) const {
    std::vector<Doing> all;
    // Any position off her back counts where one is asked for.
    const bool off_her_back = act == "off_her_back";
    const auto did = [&](const TimedAct& a, std::string_view by) {
        all.push_back({a.at, a.done_at, a.done_at, by});
    };
    for (const TimedAct& a : played.acts) {
        if (a.id == act && !(a.seen && act == "feel_pulse")) did(a, a.seen ? "seen" : "");
        // The plan begins with who is called, the senior among them.
        if (act == "inform_senior" && a.id == "start_plan") did(a, "start_plan");
        // Who calls out where somebody can come has told more than the senior.
        if (act == "inform_senior" && a.id == "call_for_help" && scenario.place.helpers > 0)
            did(a, "call_for_help");
        if (off_her_back && a.id == "knees_chest_hips_up") did(a, "knees_chest_hips_up");
        if (off_her_back && a.id == "upright_to_push") did(a, "upright_to_push");
    }
    if (act == "feel_pulse") {
        const std::int64_t enough = sim::labour_time(protocol.pulse_felt_for).us;
        for (const PulseFelt& p : played.pulses)
            if (p.while_listening && p.to.us - p.from.us >= enough)
                all.push_back({p.from, {p.from.us + enough}, p.to, "seen"});
    }
    if (off_her_back) {
        const sim::Hold* before = nullptr;
        for (const Spell& spell : played.spells)
            for (const Spell::Piece& piece : spell.pieces) {
                if (piece.hold.position != sim::Position::flat &&
                    (before ? before->position : played.patient.mother.position) == sim::Position::flat)
                    all.push_back({piece.from, piece.from, piece.from, "seen"});
                before = &piece.hold;
            }
    }
    return all;
}

}  // namespace engine
