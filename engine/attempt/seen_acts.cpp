// Acts nobody clicks: hands, ears and clock show them.
#include "engine/attempt/played_hands.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

constexpr std::int64_t full_minute_us = 58'000'000;  // own start and stop may be 2 s short [practice]
constexpr double another_place_cm = 3.0;             // [practice]
constexpr std::int64_t contractions_felt_us =
    600'000'000;                          // over 10 min (WHO labour care guide 2020 [second-hand]) ...
constexpr int contractions_felt = 3;      // ... or over three of them [practice]
constexpr int contractions_listened = 3;  // WHO 2018

sim::LabourTime plus(sim::LabourTime t, sim::Seconds s) { return {t.us + sim::labour_time(s).us}; }

class Seen {
public:
    Seen(const Scenario& scenario, const Protocol& protocol, const Played& played, const Hands& hands)
        : scenario_(scenario), protocol_(protocol), played_(played), hands_(hands) {}

    std::vector<TimedAct> all() {
        pulse();
        minutes();
        contractions_listened_through();
        places();
        contractions_counted();
        written();
        return std::move(acts_);
    }

private:
    void add(const char* id, sim::LabourTime at, sim::LabourTime done) {
        if (done <= played_.end) acts_.push_back({id, at, done, true});
    }

    void pulse() {
        for (const PulseFelt& p : played_.pulses) {
            const sim::LabourTime enough = plus(p.from, protocol_.pulse_felt_for);
            if (p.while_listening && enough <= p.to) add("feel_pulse", p.from, enough);
        }
    }

    void minutes() {
        for (const Window& w : played_.windows)
            if (w.to.us - w.from.us >= full_minute_us) add("count_full_minute", w.from, w.to);
    }

    // From before its end to the protocol's time after it, without lifting.
    void contractions_listened_through() {
        sim::Seconds after{30};
        for (const ListeningRule& rule : protocol_.listening)
            if (rule.stage == scenario_.labour.stage) {
                after = rule.after_end;
                break;
            }
        std::vector<Stretch> run;
        for (const Contraction& c : played_.contractions) {
            const sim::LabourTime heard = plus(c.to, after);
            const auto spell = std::find_if(played_.spells.begin(), played_.spells.end(),
                                            [&](const Spell& s) { return s.from <= c.to && s.to >= heard; });
            if (!c.ended || spell == played_.spells.end()) {
                run.clear();
                continue;
            }
            run.push_back({std::max(spell->from, c.from), heard});
            add("listen_through", run.back().from, heard);
            if (static_cast<int>(run.size()) >= contractions_listened)
                add("listen_three_contractions", run[run.size() - contractions_listened].from, heard);
        }
    }

    void places() {
        const Placing* settled = nullptr;
        sim::Instrument with = sim::Instrument::none;
        for (const Placing& p : hands_.placings) {
            if (settled == nullptr) {
                settled = &p;
            } else {
                const double dx = p.x_cm - settled->x_cm, dy = p.y_cm - settled->y_cm;
                // Half a step of slack: 3 cm typed as two decimals is 3 cm.
                if (std::sqrt(dx * dx + dy * dy) >= another_place_cm - 0.005) {
                    add("move_and_search", p.at, p.at);
                    settled = &p;
                }
            }
            if (with != sim::Instrument::none && p.instrument != with) add("change_instrument", p.at, p.at);
            with = p.instrument;
        }
    }

    // A hand on the belly for 10 min in all, or for three whole contractions; then it starts again.
    void contractions_counted() {
        std::int64_t felt_us = 0;
        int whole = 0;
        std::optional<sim::LabourTime> since;
        for (const Stretch& belly : hands_.belly) {
            sim::LabourTime from = belly.from;
            while (true) {
                if (!since) since = from;
                sim::LabourTime done{from.us + (contractions_felt_us - felt_us)};
                int met = whole;
                for (const Contraction& c : played_.contractions)
                    if (c.ended && c.from >= from && c.to <= belly.to && ++met >= contractions_felt) {
                        done = std::min(done, c.to);
                        break;
                    }
                if (done > belly.to) {
                    felt_us += belly.to.us - from.us;
                    whole = met;
                    break;
                }
                add("count_contractions", *since, done);
                from = done;
                felt_us = 0;
                whole = 0;
                since.reset();
                if (from >= belly.to) break;
            }
        }
    }

    void written() {
        for (const TimedRecord& r : played_.records) add("record_findings", r.at, r.at);
        for (const Event& note : played_.notes)
            if (note.what == Do::handover) add("write_referral_note", note.t, note.t);
    }

    const Scenario& scenario_;
    const Protocol& protocol_;
    const Played& played_;
    const Hands& hands_;
    std::vector<TimedAct> acts_;
};

}  // namespace

std::vector<TimedAct> seen_acts(const Scenario& scenario, const Protocol& protocol, const Played& played,
                                const Hands& hands) {
    return Seen(scenario, protocol, played, hands).all();
}

}  // namespace engine
