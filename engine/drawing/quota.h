// A quota: how many scenarios are to be drawn and which share of them is to be what. A TOML file.
#pragma once

#include "engine/drawing/axes.h"
#include "engine/outcome.h"

#include <array>
#include <string>
#include <string_view>

namespace engine {

inline constexpr int most_drawn = 2000;

// Percent for each value of an axis, in the order of its words; below 0 = not named in the file.
struct Shares {
    bool given = false;  // false: any value that goes with the rest
    int line = 0;        // of the section, for faults
    std::array<double, 12> percent{-1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1, -1};
};

// Rates the labours of a class are to settle at, by the key, both ends in. Not asked: wherever their class is
// sure.
struct RateRange {
    double from_bpm = 0, to_bpm = 0;
    int line = 0;  // in the file; 0 = not asked
    bool asked() const { return line > 0; }
    friend bool operator==(const RateRange&, const RateRange&) = default;
};

struct Quota {
    std::string id, title, file;
    int scenarios = 20;
    double normal = 50, boundary = 0;  // percent
    // percent of the troubles that move the rate: no measure brings it back
    double to_nothing = 100.0 / 3;
    int scenarios_line = 0, normal_line = 0, boundary_line = 0, to_nothing_line = 0;
    RateRange normal_rate, slow_rate, fast_rate;
    std::array<Shares, axis_count> shares;
    const Shares& of(Axis axis) const { return shares[static_cast<std::size_t>(axis)]; }
    Shares& of(Axis axis) { return shares[static_cast<std::size_t>(axis)]; }
    std::string text;  // the file's bytes as read
    std::string sha256;
};

// All faults of the file at once, by line.
Outcome<Quota> read_quota(std::string_view text, const std::string& file);
Outcome<Quota> read_quota_file(const std::string& path);

// How many scenarios of `all` each value gets, by largest remainders; whole numbers that sum to `all`. Ties
// go to the value named first. `percent` sums to 100.
std::vector<int> in_whole_numbers(const std::vector<double>& percent, int all);

}  // namespace engine
