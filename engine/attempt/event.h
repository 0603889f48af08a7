// What a trainee does, when. The one table of `do` words drives reader, writer, refusals and help.
#pragma once

#include "engine/outcome.h"
#include "sim/hold.h"
#include "sim/units.h"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace engine {

enum class Do : std::uint8_t {
    take,
    place,
    move,
    press,
    tilt,
    gel,
    lift,
    hand,
    position,
    start_window,
    stop_window,
    tap,
    report,
    report_pulse,
    compare,
    mark_contraction,
    report_contractions,
    record,
    decide,
    act,
    note,
    handover,
    skip,
    cover_display,
    finish
};

enum class SourceIs : std::uint8_t { not_said, baby, mother, doubtful, not_found, two_babies };
enum class BaselineIs : std::uint8_t { not_said, normal, fast, slow, rising, not_checked };
enum class Around : std::uint8_t {
    not_said,
    no_slowing,
    slows_in_contraction,
    slow_after_contraction,
    stays_down,
    not_listened
};
enum class RhythmIs : std::uint8_t { not_said, regular, irregular };
enum class ToPulse : std::uint8_t { same, about_twice, less, more };

struct Decision {
    SourceIs source = SourceIs::not_said;
    BaselineIs baseline = BaselineIs::not_said;
    Around around = Around::not_said;
    RhythmIs rhythm = RhythmIs::not_said;
    bool unsure = false;
    friend bool operator==(const Decision&, const Decision&) = default;
};

// One event. Only the members that belong to `what` mean anything; see the table in event.cpp and FORMAT.md.
struct Event {
    sim::LabourTime t;
    Do what = Do::finish;

    sim::Instrument instrument = sim::Instrument::none;    // take
    double x_cm = 0, y_cm = 0;                             // place, move: steps of 0.01, x -16..16, y -18..20
    std::optional<double> press_n;                         // place, press: steps of 0.01, 0..30
    double tilt_deg = 0, tilt_towards_deg = 0;             // tilt: steps of 0.1
    sim::Hand hand = sim::Hand::left;                      // hand
    sim::On on = sim::On::none;                            // hand
    sim::Position position = sim::Position::half_sitting;  // position
    std::optional<double> plan_s;                          // start_window: 60, 30, 15, 10, 6
    std::optional<int> beats;                              // report: 0..400
    std::optional<int> bpm;                                // report, record: 0..400; report_pulse 0..300
    std::optional<int> pulse_bpm;                          // record
    ToPulse to_pulse = ToPulse::same;                      // compare
    bool contraction_starts = true;                        // mark_contraction
    std::optional<int> per_10min, length_s;                // report_contractions
    std::string strength, rests;  // report_contractions: soft medium strong / soft stays_hard
    std::string when;             // record: between, during, after
    std::string slowing;          // record: yes, no, not_listened
    std::string done;             // record: what was done, free text
    Decision decision;            // decide
    std::string act;              // act: id
    std::string text;             // note
    std::string situation, background, assessment, request;  // handover
    double skip_to_s = 0;                                    // skip
    bool covered = true;                                     // cover_display

    friend bool operator==(const Event&, const Event&) = default;
};

std::string_view name_of(Do);
std::optional<Do> do_named(std::string_view);
std::string_view name_of(SourceIs);
std::string_view name_of(BaselineIs);
std::string_view name_of(Around);
std::string_view name_of(RhythmIs);
std::string_view name_of(ToPulse);
std::string_view name_of(sim::Instrument);
std::string_view name_of(sim::Position);
std::string_view name_of(sim::On);

// Reads a JSON array of events (or the `events` of a whole attempt text). Every value is rounded on reading:
// t to 1 us, x/y to 0.01 cm, force to 0.01 N, angle to 0.1 degree. Doubled keys, unknown keys, unordered t:
// faults that name the index. Legality (counting with nothing placed ...) is checked by `check_order` in
// attempt.h.
Outcome<std::vector<Event>> read_events(std::string_view json, const std::string& file);
// One event as a JSON object on one line; reading it again gives the same event.
std::string to_json(const Event&);

// What the event does to body or sound, if anything.
std::optional<sim::Change> change_of(const Event&);

}  // namespace engine
