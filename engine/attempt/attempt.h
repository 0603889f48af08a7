// An attempt: one trainee through one scenario. Seed + timed events; everything else is recomputed from it.
#pragma once

#include "engine/attempt/event.h"
#include "engine/outcome.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/hold.h"
#include "sim/truth_version.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

struct AttemptHeader {
    std::string id;      // 32 lower-case hex digits, made by ui
    std::string person;  // code, [A-Za-z0-9._-]{1,24}
    std::string scenario_id, scenario_sha256;
    std::string protocol_id, protocol_sha256;
    std::uint64_t seed = 1;
    int truth = sim::truth_version;
    std::string program;               // version of the program that made it
    std::string output_mode = "true";  // true, assisted, shifted
    double device_delay_s = 0;
};

struct Attempt {
    AttemptHeader header;
    std::string scenario_text, protocol_text;
    std::vector<Event> events;
};

struct SkipDone {
    sim::LabourTime from, asked, to;
    std::string why;
};  // why: "" = came back when asked

// What stops a skip: she calls out, or a listening falls due. Listening is due every so often, counted from
// the end of the last spell that was long enough to be a listening; before the first one from the last line
// on her chart, else from the start. One that is overdue and still not done falls due again after the same
// interval.
struct SkipRule {
    SkipRule() = default;
    SkipRule(const Scenario& scenario, const Protocol& protocol);
    // A spell this long is a listening: the protocol's length, less 2 s for one's own start and stop
    // [practice].
    bool is_listening(sim::LabourTime placed, sim::LabourTime lifted) const;
    // listened_until: end of the last listening; below 0 = none yet.
    SkipDone stop(sim::LabourTime from, sim::LabourTime asked, sim::LabourTime listened_until) const;

    std::vector<std::pair<sim::LabourTime, std::string>> calls;  // in time order
    sim::LabourTime every;                                       // 0 = never due
    sim::LabourTime long_enough;
    sim::LabourTime listened_before;  // 0 or less: when somebody listened before the attempt
};

// Is this event possible after those before it? Holds what is in which hand, what is placed, which window is
// open. Used for files (one fault with its index) and by the bedside before an event is taken. Copies what it
// needs: neither scenario nor protocol has to outlive it.
//
// Hands. Doppler, bell and diaphragm keep one hand busy from `take` until they are put down or changed: the
// right, unless it is busy, then the left. The horn keeps one while it is carried and none once it is placed;
// a hand laid on it (`hand ... on instrument`) muffles it. Lifting the horn needs a free hand, or the one
// that lies on it. An open window ends when the instrument is lifted or the attempt finishes, and counts as
// stopped early.
class Order {
public:
    Order(const Scenario& scenario, const Protocol& protocol);
    // Empty when the event can be; else why not, e.g. "nothing is placed on the abdomen".
    std::string refuses(const Event& event) const;
    // Takes the event; it must not be refused.
    void take(const Event& event);
    const sim::Hold& hold() const { return hold_; }
    // The hand that carries the instrument, when one does: it can do nothing else.
    std::optional<sim::Hand> carrying() const { return carrying_; }
    bool window_open() const { return window_open_; }
    bool finished() const { return finished_; }
    // No event may come before this: the last event, or the end of the last skip.
    sim::LabourTime last() const { return last_; }
    // Where a skip asked for now would really stop.
    SkipDone skip_stop(sim::LabourTime from, sim::LabourTime asked) const;

private:
    struct KnownAct {
        std::string id;
        bool seen;
    };
    std::string refuses_hold(const Event& event) const;
    std::string refuses_count(const Event& event) const;
    std::string refuses_hand(const Event& event) const;
    void take_hold(const Event& event);
    bool busy(sim::Hand hand) const;
    std::optional<sim::Hand> free_hand() const;

    std::vector<sim::Instrument> instruments_;
    std::vector<KnownAct> acts_;
    SkipRule skips_;
    bool watch_ = true;
    sim::LabourTime length_;

    sim::Hold hold_;
    std::optional<sim::Hand> carrying_;
    bool window_open_ = false, window_closed_ = false, finished_ = false, skipped_ = false;
    sim::LabourTime last_, placed_at_, listened_until_{-1};
};

// The first event that cannot be, with its index and reason; or none.
std::optional<Fault> check_order(const Scenario&, const Protocol&, const std::vector<Event>&,
                                 const std::string& file);

// --- The attempt played again
// -------------------------------------------------------------------------------------

// One spell with the instrument on, from placing to lifting (or the end).
struct Spell {
    sim::LabourTime from, to;
    sim::Instrument instrument = sim::Instrument::none;
    struct Piece {
        sim::LabourTime from, to;
        sim::Hold hold;
    };
    std::vector<Piece> pieces;  // hold unchanged within each
};

// The seconds the trainee counted over.
struct Window {
    sim::LabourTime from, to;    // own start and stop
    double plan_s = 60;          // the length meant
    bool plan_inferred = false;  // one of 60, 30, 15, 10, 6 within 15 % of the own length; neither given nor
                                 // inferred: plan_s is the own length
    bool cut = false;            // ended by lifting, finishing or the end of the file, not by stop_window
    int spell = -1;
    std::vector<sim::LabourTime> taps;
    std::optional<int> beats, bpm;  // last report; earlier ones in `corrected`
    std::vector<std::pair<std::optional<int>, std::optional<int>>> corrected;
    sim::LabourTime reported_at;
};

struct TimedAct {
    std::string id;
    sim::LabourTime at, done_at;
    bool seen = false;
};
struct TimedDecision {
    sim::LabourTime at;
    Decision decision;
};
struct TimedRecord {
    sim::LabourTime at;
    Event event;
};
struct PulseFelt {
    sim::LabourTime from, to;
    bool while_listening = false;
};
struct PulseReport {
    sim::LabourTime at;
    int bpm = 0;
};
struct Revealed {
    sim::LabourTime at;
    std::string act, says, situation;
};
// As a hand could feel it: more than 10 mmHg over tone. Not `ended`: it goes on beyond the course that was
// computed, and `to` is only how far it is known.
struct Contraction {
    sim::LabourTime from, peak, to;
    bool ended = true;
};

// Everything that happened, recomputed. Listing order is time order. Course and beats reach at least 2 s
// beyond the end and beyond every window as planned, so that a rate at the end has a beat on both sides;
// nothing after `end` was heard.
// A revealed act with empty `says` found nothing out of the ordinary.
struct Played {
    sim::Patient patient;
    std::vector<sim::CourseTick> course;  // from 0, every 0.25 s
    std::vector<sim::Beat> fetal, fetal2, maternal;
    std::vector<Contraction> contractions;
    std::vector<Spell> spells;
    std::vector<Window> windows;
    std::vector<TimedAct> acts;  // chosen and seen
    std::vector<TimedDecision> decisions;
    std::vector<TimedRecord> records;
    std::vector<PulseFelt> pulses;
    std::vector<PulseReport> pulse_reports;
    std::vector<std::pair<sim::LabourTime, sim::LabourTime>> womb_felt;  // from, to: a hand lay on the belly
    std::vector<Revealed> revealed;
    std::vector<SkipDone> skips;
    std::vector<Event> notes;  // note, handover, compare, contraction marks and reports
    sim::LabourTime end;
    bool finished = false;
};

// Events must have passed check_order. No audio is made.
Played play(const Scenario&, const Protocol&, sim::Seed, const std::vector<Event>&);

// Where a skip from `from` to `asked` really stops: see SkipRule.
SkipDone skip_stop(const Scenario&, const Protocol&, sim::LabourTime from, sim::LabourTime asked,
                   sim::LabourTime listened_until = {-1});

}  // namespace engine
