// Short counts one after another in one listening: a method of its own. Together they make one rate, and in
// order they show a fall inside the minute that a single count adds up and hides.
#pragma once

#include "engine/scoring/evidence.h"

#include <optional>
#include <span>
#include <vector>

namespace engine {

// One count of the row as a rate; over its own start and stop.
struct ShortCount {
    sim::LabourTime from, to;
    double bpm = 0;
};

struct SeriesReading {
    double per_minute_bpm = 0;  // the counts together: the mean, as all are meant for the same length
    double base_bpm = 0;        // what a fall is measured from
    double lowest_bpm = 0, highest_bpm = 0;
    // A run of at least two counts that deep below the base and that long in all, by the protocol's rule for
    // slowing; the longest. Absent: no slowing. It begins and ends with the first and the last low count.
    struct Fall {
        sim::LabourTime from, to;
        double lowest_bpm = 0;
    };
    std::optional<Fall> fall;
    bool after = false;  // the fall goes on after its contraction has ended
};

// `counts` in time order, at least one. Base: the mean of the upper half of the counts [practice], or
// `settled_bpm`, what was counted in this listening before, when that is higher.
SeriesReading read_series(const Protocol&, std::span<const ShortCount> counts,
                          std::optional<double> settled_bpm, std::span<const Contraction> contractions);

// Every series: two or more counts with a number, meant for the same 5 to 15 s, in one listening, each begun
// within 30 s of the end of the one before [practice], nothing decided or written on the chart between.
std::vector<SeriesScore> series_in(const Scenario&, const Protocol&, const Played&,
                                   const std::vector<CountedWindow>& windows);

// The series this window belongs to, or null.
const SeriesScore* series_of(const std::vector<SeriesScore>& all, std::size_t window);

// The rate a person holds after this count, bpm: the count's own; in a series all its counts together, and
// when they show a fall the rate it fell from.
std::optional<double> number_held(const Evidence&, const CountedWindow& counted);

}  // namespace engine
