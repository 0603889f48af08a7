// A scenario: one labour to listen to. The file's facts, its story and what an act would find; never an
// answer.
#pragma once

#include "engine/outcome.h"
#include "sim/patient.h"
#include "sim/hold.h"
#include "sim/units.h"

#include <array>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class Task : std::uint8_t { count, quick, find, tell_apart, pattern, labour };
enum class Stage : std::uint8_t { latent, active, second };
enum class Licence : std::uint8_t { any, trained, licensed };  // who the trainee is, or who may do an act
enum class Waters : std::uint8_t { whole, clear, thin_green, thick_green, bloody, foul };

// Where the labour is, and what is at hand there. Decides which acts can be expected.
struct Place {
    std::string name;                          // shown; an imaginary place
    int helpers = 1;                           // others who can come at once, 0..6
    double minutes_to_help = 2;                // senior at the bedside after a call, 0..240
    double minutes_to_theatre = 40;            // from the call to a theatre, 0..600
    std::vector<sim::Instrument> instruments;  // what there is to take
    bool watch = true;                         // a watch with a second hand is there
    Licence trainee = Licence::trained;        // what the trainee may do here
    bool drip_stand = true;                    // fluids and oxytocin can be given here
};

// State of the labour that is told or found, beside what sim needs (sim::Labour).
struct LabourStory {
    Stage stage = Stage::active;
    double open_cm = 6;  // how open, 0..10
    Waters waters = Waters::whole;
    double waters_gone_hours = 0;
    int births_before = 0;
    bool scar = false;
    double pushing_minutes = 0;
    bool head_visible = false;
};

// Something she says or that happens by itself and would be called out: stops a skip, shown when it happens.
// `interrupted`: not she, somebody at the door who wants the trainee. A skip passes over it, for nobody sits
// there counting; a count it breaks into goes on until the trainee ends it, and the last number written is
// the one that counts.
struct CallOut {
    enum class Kind : std::uint8_t {
        waters_break,
        pain_changes,
        bleeding,
        wants_to_push,
        feels_unwell,
        interrupted
    };
    Kind kind = Kind::pain_changes;
    sim::Seconds at{0};
    std::string says;
};

// What an act would find; hidden until the act is done, which takes its time (protocol or sim decide how
// long). A finding is the author's fact. `from` / `until`: when it is there to be found.
struct Finding {
    std::string act;        // act id, e.g. "take_temperature"
    std::string says;       // shown: "38.6 degrees"
    std::string situation;  // optional: situation id that it establishes: "fever", "cord_prolapse",
                            // "bleeding", "thick_green_waters", "mothers_medicine" ...
    sim::Seconds from{0}, until{1e9};
};

// A line already on her labour chart when the trainee arrives.
struct ChartLine {
    double minutes_ago = 30;
    double bpm = 0, pulse_bpm = 0;  // 0 = not written
    std::string remark;
};

struct Scenario {
    std::string id, title, file;
    Task task = Task::count;
    int level = 1;             // 1..5
    sim::Seconds length{600};  // how long the labour can be listened to, 60..14400
    std::string story;         // what the trainee is told
    std::string content_note;  // shown before starting, may be empty (a loss may be met)
    bool boundary = false;     // sits on a limit: never used for pass marks
    Place place;
    LabourStory labour;
    std::vector<CallOut> call_outs;
    std::vector<Finding> findings;
    std::vector<ChartLine> chart;
    std::vector<std::string> teaching;  // notes for the debrief, never an answer
    std::string text;                   // the file's bytes as read
    std::string sha256;                 // of those bytes, 64 lower-case hex digits

    // The patient with every drawn quantity fixed by the seed (stream `scenario`).
    sim::Patient patient(sim::Seed seed) const;

    // One drawn quantity: applied to the patient in file order.
    struct Drawn {
        std::string key;          // "baby.baseline"
        double from = 0, to = 0;  // in the unit of the key
        std::string unit;
    };
    sim::Patient middle;                   // ranges at their middle
    std::array<bool, 2> usual_baseline{};  // no baseline in the file: drawn as usual for the weeks, by baby
    std::vector<Drawn> drawn;
};

// Reads a scenario; all faults of the file are reported at once, by line.
Outcome<Scenario> read_scenario(std::string_view text, const std::string& file);
Outcome<Scenario> read_scenario_file(const std::string& path);

std::string_view name_of(Task);
std::string_view name_of(Stage);
std::string_view name_of(Licence);
std::string_view name_of(Waters);
std::string_view name_of(CallOut::Kind);

}  // namespace engine
