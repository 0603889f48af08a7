// The figures of a cohort, measured: 5,000 made-up people on the same 200 items.
#pragma once

namespace ui {

struct CohortTimes {
    double memory_ms = 0, csv_s = 0, store_s = 0;  // for 1,000,000 counts, of one thread's own time
    double growth = 0;  // time a count, the worse of 100,000 and all of them, over that at 10,000
};
// `share` of the people, 0.1 for a quick look; times are scaled to all of them. Writes a table and a store
// into a temporary folder and takes them away again.
CohortTimes cohort_times(double share);

}  // namespace ui
