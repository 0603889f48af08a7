// How far off a perfect counter may read: whole beats, and a watch that is not quite on time. The stop is
// late or early by a normal error of `watch_sd_s` (0.2 s is an assumption: measure it from recorded starts
// and stops).
#pragma once

#include "engine/competency/figure.h"

namespace engine {

struct CountingMethod {
    double window_s = 60;
    double watch_sd_s = 0.2;
    double factor() const { return 60 / window_s; }
};

// Empty, or why no tolerance can be given: less than one beat in the window.
const char* refused(const CountingMethod& method, double rate_bpm);

double chance_of_count(const CountingMethod& method, double rate_bpm, int beats);
double chance_within(const CountingMethod& method, double rate_bpm,
                     double within_bpm);  // |reading - rate| <= within
double reading_sd_bpm(const CountingMethod& method, double rate_bpm);

// The smallest distance that holds the reading with this chance.
Figure holds(const CountingMethod& method, double rate_bpm, double chance = 0.95);

struct Worst {
    double distance_bpm = 0, reading_sd_bpm = 0;
};
// Over rates in steps of 0.1 bpm, ends included: a whole ten can sit on a lucky phase.
Worst worst_between(const CountingMethod& method, double from_bpm, double to_bpm, double chance = 0.95);

// The rule: two beats in the window, so 2 x factor bpm [practice].
double allowed_bpm(const CountingMethod& method);

// Against the true beats of the same window only the watch is left: chance that the two differ by at most
// `beats`.
double chance_same_window(const CountingMethod& method, double rate_bpm, int beats);

// Chance that a perfect counter's reading falls on the other side: normal = low..high, both included.
double chance_wrong_side(const CountingMethod& method, double rate_bpm, double low_bpm, double high_bpm);

}  // namespace engine
