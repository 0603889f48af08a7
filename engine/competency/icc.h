// Do trainees who counted the same windows agree in beats a minute? Two-way model, absolute agreement.
// Shrout & Fleiss 1979; McGraw & Wong 1996. Depends on the spread of the chosen truths: never compare between
// item sets; compare `agreement_error_bpm`.
#pragma once

#include "engine/competency/figure.h"

#include <vector>

namespace engine {

struct Intraclass {
    Figure between_rows, between_columns, left_over, within_rows;  // mean squares
    Figure one_way, one_way_mean;                                  // ICC(1), ICC(1,k)
    Figure agreement, agreement_mean;                              // ICC(A,1), ICC(A,k)
    Figure consistency, consistency_mean;                          // ICC(C,1), ICC(C,k)
    Interval agreement_interval, consistency_interval;
    Figure interval_degrees;     // v of McGraw & Wong
    Figure agreement_error_bpm;  // standard error of one count
};

// One row a window, one column a trainee, no cell missing.
Intraclass intraclass(const std::vector<std::vector<double>>& rows);

}  // namespace engine
