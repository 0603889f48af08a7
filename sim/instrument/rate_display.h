// The number on a hand-held Doppler: autocorrelation of the sound's envelope. Halving and doubling come out
// of the method by themselves, as they do at the bedside; nothing here knows the true rate. Window 3.75 s
// (Valderrama et al., Physiol Meas 2019;40:025005), a number every 0.25 s, lags of 50 to 240 bpm, the
// earliest peak at least 0.8 of the highest [practice].
#pragma once

#include "sim/sound/filters.h"

#include <array>
#include <cstdint>
#include <span>

namespace sim {

class RateDisplay {
public:
    // The earliest peak of at least this share of the highest is taken for the interval.
    explicit RateDisplay(double earliest_share = 0.8) : earliest_share_(earliest_share) {}
    void reset();
    // One sound tick: 16 samples at 8 kHz. `tick` counts sound ticks of 2 ms.
    void hear(std::span<const float> samples, std::int64_t tick);
    // 0 = dashes: no rhythm found for more than 2 s.
    int shown_bpm(std::int64_t tick) const;

private:
    static constexpr int rate_hz = 250;                         // one value each two ticks
    static constexpr int window = 938;                          // 3.75 s
    static constexpr int shortest_lag = 62, longest_lag = 301;  // 240 to 50 bpm
    void measure(std::int64_t tick);

    double earliest_share_;
    std::array<float, 1024> envelope_{};  // a ring
    std::int64_t count_ = 0;              // values ever written
    float level_ = 0, slope_ = 0;         // low pass, 15 Hz
    std::array<double, 3> last_{};        // for the median
    int found_ = 0;
    std::int64_t found_at_ = -1'000'000;
    double shown_ = 0;
};

// The rate in an envelope at 250 Hz, 3.75 s of it; 0 if the autocorrelation stays under 0.25.
double rate_in_envelope(std::span<const float> envelope, double earliest_share = 0.8);

}  // namespace sim
