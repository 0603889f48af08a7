// The attempt played again: one walk through the events, then course, beats and all that follows from them.
#include "engine/attempt/attempt.h"

#include "engine/attempt/played_hands.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr sim::LabourTime beyond_the_end{2'000'000};

sim::LabourTime plus(sim::LabourTime t, sim::Seconds s) { return {t.us + sim::labour_time(s).us}; }

const ActWords* known_act(const Protocol& protocol, std::string_view id) {
    for (const ActWords& act : protocol.acts)
        if (act.id == id) return &act;
    return nullptr;
}

// Hands, instrument and count, followed event by event.
class Walk {
public:
    Walk(const Scenario& scenario, const Protocol& protocol, Played& played, Hands& hands)
        : protocol_(protocol), skips_(scenario, protocol), played_(played), hands_(hands) {
        hold_.position = played.patient.mother.position;
    }

    void take(const Event& e) {
        now_ = e.t;
        const sim::Hold before = hold_;
        if (const auto change = change_of(e)) {
            sim::apply(*change, hold_);
            if (change->kind == sim::Change::Kind::act || change->kind == sim::Change::Kind::position)
                changes_.push_back(*change);
        }
        place_or_lift(e, before);
        feel(hold_.left == sim::On::wrist || hold_.right == sim::On::wrist,
             hold_.left == sim::On::belly || hold_.right == sim::On::belly);
        keep(e);
    }

    void end(bool finished) {
        played_.end = now_;
        played_.finished = finished;
        close_window(true);
        close_spell();
        feel(false, false);
    }

    const std::vector<sim::Change>& changes() const { return changes_; }

private:
    void place_or_lift(const Event& e, const sim::Hold& before) {
        if (e.what == Do::lift) {
            close_window(true);
            close_spell();
            return;
        }
        if (!hold_.placed) return;
        if (!before.placed) played_.spells.push_back({now_, now_, hold_.instrument, {}});
        if (e.what == Do::place || e.what == Do::move)
            hands_.placings.push_back({now_, hold_.x_cm, hold_.y_cm, hold_.instrument, !before.placed});
        if (change_of(e)) next_piece();
    }

    // A piece ends where the hold changes; changes at one and the same moment make one piece.
    void next_piece() {
        Spell& spell = played_.spells.back();
        if (!spell.pieces.empty()) {
            if (spell.pieces.back().from == now_) {
                spell.pieces.back().hold = hold_;
                return;
            }
            spell.pieces.back().to = now_;
        }
        spell.pieces.push_back({now_, now_, hold_});
        spell_open_ = true;
    }

    void close_spell() {
        if (!spell_open_) return;
        Spell& spell = played_.spells.back();
        spell.to = now_;
        spell.pieces.back().to = now_;
        spell_open_ = false;
        if (skips_.is_listening(spell.from, now_)) listened_until_ = now_;
    }

    void close_window(bool cut) {
        if (!window_open_) return;
        window_open_ = false;
        Window& w = played_.windows.back();
        w.to = now_;
        w.cut = cut;
        if (plan_given_) return;
        const double own = static_cast<double>(w.to.us - w.from.us) / 1e6;
        const auto meant = plan_meant(own);
        w.plan_inferred = meant.has_value();
        w.plan_s = meant.value_or(own);
    }

    void feel(bool wrist, bool belly) {
        follow(wrist, wrist_, hands_.wrist);
        follow(belly, belly_, hands_.belly);
        const bool listening = hold_.placed;
        if (pulse_.on && (!wrist || pulse_.listening != listening)) {
            if (pulse_.from < now_) played_.pulses.push_back({pulse_.from, now_, pulse_.listening});
            pulse_.on = false;
        }
        if (wrist && !pulse_.on) pulse_ = {true, listening, now_};
    }

    void follow(bool lies, std::optional<sim::LabourTime>& since, std::vector<Stretch>& kept) const {
        if (lies && !since) since = now_;
        if (!lies && since) {
            if (*since < now_) kept.push_back({*since, now_});
            since.reset();
        }
    }

    void keep(const Event& e) {
        switch (e.what) {
            case Do::start_window: {
                Window w;
                w.from = w.to = now_;
                w.plan_s = e.plan_s.value_or(60);
                w.spell = static_cast<int>(played_.spells.size()) - 1;
                plan_given_ = e.plan_s.has_value();
                window_open_ = true;
                played_.windows.push_back(std::move(w));
                break;
            }
            case Do::stop_window: close_window(false); break;
            case Do::tap: played_.windows.back().taps.push_back(now_); break;
            case Do::report: {
                Window& w = played_.windows.back();
                if (w.beats || w.bpm) w.corrected.emplace_back(w.beats, w.bpm);
                w.beats = e.beats;
                w.bpm = e.bpm;
                w.reported_at = now_;
                break;
            }
            case Do::report_pulse: played_.pulse_reports.push_back({now_, e.bpm.value_or(0)}); break;
            case Do::record: played_.records.push_back({now_, e}); break;
            case Do::decide: played_.decisions.push_back({now_, e.decision}); break;
            case Do::act: {
                const ActWords* act = known_act(protocol_, e.act);
                const sim::Seconds takes =
                    act != nullptr ? act->takes : sim::act_takes(sim::act_named(e.act));
                played_.acts.push_back({e.act, now_, plus(now_, takes), false});
                break;
            }
            case Do::compare:
            case Do::mark_contraction:
            case Do::report_contractions:
            case Do::note:
            case Do::handover: played_.notes.push_back(e); break;
            case Do::skip: {
                const SkipDone done = skips_.stop(now_, sim::labour_time({e.skip_to_s}), listened_until_);
                // She is left alone meanwhile: no hand feels anything.
                feel(false, false);
                played_.skips.push_back(done);
                now_ = done.to;
                feel(hold_.left == sim::On::wrist || hold_.right == sim::On::wrist,
                     hold_.left == sim::On::belly || hold_.right == sim::On::belly);
                break;
            }
            default: break;
        }
    }

    struct Pulse {
        bool on = false, listening = false;
        sim::LabourTime from;
    };

    const Protocol& protocol_;
    const SkipRule skips_;
    Played& played_;
    Hands& hands_;
    sim::Hold hold_;
    std::vector<sim::Change> changes_;
    sim::LabourTime now_, listened_until_{-1};
    bool spell_open_ = false, window_open_ = false, plan_given_ = false;
    std::optional<sim::LabourTime> wrist_, belly_;
    Pulse pulse_;
};

void reveal(const Scenario& scenario, const Protocol& protocol, Played& played) {
    for (const TimedAct& act : played.acts) {
        if (act.done_at > played.end) continue;
        bool found = false;
        for (const Finding& finding : scenario.findings) {
            if (finding.act != act.id) continue;
            const double at = act.done_at.seconds();
            if (at < finding.from.value || at >= finding.until.value) continue;
            played.revealed.push_back({act.done_at, act.id, finding.says, finding.situation});
            found = true;
        }
        const ActWords* words = known_act(protocol, act.id);
        if (!found && words != nullptr && words->reveals)
            played.revealed.push_back({act.done_at, act.id, "", ""});
    }
    std::stable_sort(played.revealed.begin(), played.revealed.end(),
                     [](const Revealed& a, const Revealed& b) { return a.at < b.at; });
}

}  // namespace

std::optional<double> plan_meant(double own_s) {
    std::optional<double> nearest;
    for (double plan : {60.0, 30.0, 15.0, 10.0, 6.0})
        if (std::fabs(plan - own_s) <= 0.15 * own_s &&
            (!nearest || std::fabs(plan - own_s) < std::fabs(*nearest - own_s)))
            nearest = plan;
    return nearest;
}

Played play(const Scenario& scenario, const Protocol& protocol, sim::Seed seed,
            const std::vector<Event>& events) {
    Played played;
    played.patient = scenario.patient(seed);
    Hands hands;
    Walk walk(scenario, protocol, played, hands);
    for (const Event& event : events) walk.take(event);
    walk.end(!events.empty() && events.back().what == Do::finish);

    sim::LabourTime far = played.end;
    for (const Window& w : played.windows) far = std::max(far, plus(w.from, {w.plan_s}));
    far.us += beyond_the_end.us;
    played.course = sim::course_over(played.patient, seed, walk.changes(), {far.seconds()});
    played.fetal = sim::beats_over(played.patient, seed, sim::Who::fetal, played.course);
    if (played.patient.babies.size > 1)
        played.fetal2 = sim::beats_over(played.patient, seed, sim::Who::fetal2, played.course);
    played.maternal = sim::beats_over(played.patient, seed, sim::Who::maternal, played.course);
    played.contractions = contractions_in(played.course);

    for (const Stretch& belly : hands.belly) played.womb_felt.emplace_back(belly.from, belly.to);
    std::vector<TimedAct> seen = seen_acts(scenario, protocol, played, hands);
    played.acts.insert(played.acts.end(), seen.begin(), seen.end());
    std::stable_sort(played.acts.begin(), played.acts.end(),
                     [](const TimedAct& a, const TimedAct& b) { return a.at < b.at; });
    reveal(scenario, protocol, played);
    return played;
}

}  // namespace engine
