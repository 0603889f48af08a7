// A made-up candidate: what an ear loses when beats come fast, a watch that is not quite on time, a pull
// towards the usual rate; her beat taken for the baby's, what contractions do misread, acts forgotten or
// late. Invented, so that rules can be tried before a person is [practice]: the direction of the counting
// figures is that of ear counting as published (under-counting that grows with the rate: Simpson et al. 1999;
// pull towards normal: Day, Maddern & Wood 1968), the size of every one is validated by nothing.
#pragma once

#include "sim/units.h"

#include <cstdint>

namespace engine {

// Counting.
struct SyntheticCounter {
    double lost = 1;          // times the usual loss of an untrained ear, 0..10; 0 loses no beat
    double watch_sd_s = 0.2;  // of each edge of a window, 0..2
    double pull = 0;          // share of the way to 140 bpm by which a count is drawn, 0..1
    // share of stations where nothing is counted and rates of 90 to 190 are made up, 0..1
    double guesses = 0;
    // Judging and acting. 0 throughout: hears, names and does everything.
    // share of stations where what the heart does around contractions is named wrongly, each wrong name as
    // often; 3 in 4 is naming at random, 0..1
    double misreads = 0;
    double forgets = 0;     // share of the acts asked for that are left out, 0..1
    double late = 0;        // share of the acts with a time limit that are done only after it, 0..1
    double takes_hers = 0;  // share of finding and telling-apart stations where she is listened to over her
                            // artery or the blow of the womb and her beats counted as the baby's, her wrist
                            // not felt, 0..1
};

// Beats lost on average out of so many in a window: 0.12 (n - 20) / (1 + e^((gap - 0.36) / 0.04)) for gaps in
// seconds between beats. Over 60 s about 0.3, 2, 7 and 13 at 120, 140, 160 and 180 bpm.
double usually_lost(int beats, double window_s);

// Draws of one candidate at one station: each a pure function of where it stands, never "the next".
struct CandidateDraws {
    sim::Seed trial;
    std::uint32_t candidate = 0, station = 0;

    double uniform(std::uint32_t what) const;            // in (0, 1)
    double gaussian(std::uint32_t what) const;           // standard
    int poisson(std::uint32_t what, double mean) const;  // mean 0..500
    sim::Seed labour() const;                            // the seed this candidate's labour runs with here
    // of the nth window, -3..3
    double edge_s(const SyntheticCounter& counter, std::uint32_t nth, bool stop) const;
    bool takes_hers(const SyntheticCounter& counter) const;
    // 0: named rightly; 1, 2, 3: which of the wrong names
    int misread(const SyntheticCounter& counter) const;
    bool forgets(const SyntheticCounter& counter, std::uint32_t nth_act) const;
    bool late(const SyntheticCounter& counter, std::uint32_t nth_act) const;
};

// Empty, or why such a counter cannot be.
const char* fault_of(const SyntheticCounter& counter);

// What is typed as counted in the nth window of a station, when so many beats fell into it: lost ones gone,
// then pulled, at least 0; or made up.
int beats_counted(const SyntheticCounter& counter, int beats, double window_s, const CandidateDraws& draws,
                  std::uint32_t nth = 0);

}  // namespace engine
