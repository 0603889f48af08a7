// The narrow rows of a judged attempt: one a counted window, whole numbers only, for figures over many people.
#pragma once

#include "engine/scoring/replay.h"

#include <vector>

namespace engine {

struct CountedRow {
    long long method = 0;      // planned length in whole seconds
    long long instrument = 0;  // sim::Instrument as a number
    long long true_beats = 0;
    long long counted = -1;       // -1 = no count was given
    long long true_mbpm = 0;      // thousandths of a bpm
    long long written_mbpm = -1;  // -1 = no rate was written
    long long verdicts = 0;       // two bits an aspect, the first aspect lowest
};

std::vector<CountedRow> counted_rows(const JudgedAttempt& judged);

}  // namespace engine
