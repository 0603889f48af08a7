// An attempt: one trainee through one scenario. Seed + timed events; everything else is recomputed from it.
#pragma once

#include "engine/attempt/event.h"
#include "engine/outcome.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"
#include "sim/hold.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

struct AttemptHeader {
    std::string id;                        // 32 lower-case hex digits, made by ui
    std::string person;                    // code, [A-Za-z0-9._-]{1,24}
    std::string scenario_id, scenario_sha256;
    std::string protocol_id, protocol_sha256;
    std::uint64_t seed = 1;
    int truth = sim::truth_version;
    std::string program;                   // version of the program that made it
    std::string output_mode = "true";      // true, assisted, shifted
    double device_delay_s = 0;
};

struct Attempt {
    AttemptHeader header;
    std::string scenario_text, protocol_text;
    std::vector<Event> events;
};

// Is this event possible after those before it? Holds what is in which hand, what is placed, which window is open.
// Used for files (one fault with its index) and by the bedside before an event is taken.
class Order {
public:
    Order(const Scenario& scenario, const Protocol& protocol);
    // Empty when the event can be; else why not, e.g. "nothing is placed on the abdomen".
    std::string refuses(const Event& event) const;
    // Takes the event; it must not be refused.
    void take(const Event& event);
    const sim::Hold& hold() const;
    bool window_open() const;
    bool finished() const;
    sim::LabourTime last() const;

private:
    // the owner of attempt.cpp shapes what is kept
    sim::Hold hold_;
};

// The first event that cannot be, with its index and reason; or none.
std::optional<Fault> check_order(const Scenario&, const Protocol&, const std::vector<Event>&, const std::string& file);

// --- The attempt played again -------------------------------------------------------------------------------------

// One spell with the instrument on, from placing to lifting (or the end).
struct Spell {
    sim::LabourTime from, to;
    sim::Instrument instrument = sim::Instrument::none;
    struct Piece { sim::LabourTime from, to; sim::Hold hold; };
    std::vector<Piece> pieces;             // hold unchanged within each
};

// The seconds the trainee counted over.
struct Window {
    sim::LabourTime from, to;              // own start and stop
    double plan_s = 60;                    // the length meant
    bool plan_inferred = false;
    int spell = -1;
    std::vector<sim::LabourTime> taps;
    std::optional<int> beats, bpm;         // last report; earlier ones in `corrected`
    std::vector<std::pair<std::optional<int>, std::optional<int>>> corrected;
    sim::LabourTime reported_at;
};

struct TimedAct { std::string id; sim::LabourTime at, done_at; bool seen = false; };
struct TimedDecision { sim::LabourTime at; Decision decision; };
struct TimedRecord { sim::LabourTime at; Event event; };
struct PulseFelt { sim::LabourTime from, to; bool while_listening = false; };
struct PulseReport { sim::LabourTime at; int bpm = 0; };
struct Revealed { sim::LabourTime at; std::string act, says, situation; };
struct Contraction { sim::LabourTime from, peak, to; };  // as a hand could feel it
struct SkipDone { sim::LabourTime from, asked, to; std::string why; };

// Everything that happened, recomputed. Listing order is time order.
struct Played {
    sim::Patient patient;
    std::vector<sim::CourseTick> course;   // 0 .. end, every 0.25 s
    std::vector<sim::Beat> fetal, fetal2, maternal;
    std::vector<Contraction> contractions;
    std::vector<Spell> spells;
    std::vector<Window> windows;
    std::vector<TimedAct> acts;            // chosen and seen
    std::vector<TimedDecision> decisions;
    std::vector<TimedRecord> records;
    std::vector<PulseFelt> pulses;
    std::vector<PulseReport> pulse_reports;
    std::vector<Revealed> revealed;
    std::vector<SkipDone> skips;
    std::vector<Event> notes;              // note, handover, compare, contraction marks and reports
    sim::LabourTime end;
    bool finished = false;
};

// Events must have passed check_order. No audio is made.
Played play(const Scenario&, const Protocol&, sim::Seed, const std::vector<Event>&);

// Where a skip from `from` to `asked` really stops: she calls out, or a listening falls due.
SkipDone skip_stop(const Scenario&, const Protocol&, sim::LabourTime from, sim::LabourTime asked);

}  // namespace engine
