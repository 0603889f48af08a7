// The narrow rows of a judged attempt: one a counted window, whole numbers only, for figures over many
// people.
#pragma once

#include "engine/scoring/replay.h"

#include <string_view>
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
    // From here on -1 = not known. What the numbers mean: engine/competency/count_columns.h.
    long long task = -1, mode = -1, judged = -1, followed = -1, boundary = -1;
    long long true_class = -1, settled_class = -1, said_class = -1;
};

std::vector<CountedRow> counted_rows(const JudgedAttempt& judged);

// What follows from the texts an attempt was made with, whatever program made it.
void put_class(CountedRow& row, const Protocol& protocol, bool scenario_on_limit);
long long number_of_mode(std::string_view output_mode);
long long number_of_heart(std::string_view followed);
// Seconds since 1970 of an RFC 3339 time in UTC ("2026-03-01T18:20:00.000Z"); -1 = not one.
long long seconds_of_utc(std::string_view utc);

}  // namespace engine
