// Draws of a drawing: every part of every scenario has dice of its own, so that one more sentence in the
// stories does not change the hearts.
#pragma once

#include "sim/random.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <vector>

namespace engine {

enum class Part : std::uint64_t { plan, body, story, findings, teaching };

class Dice {
public:
    // `number` of the scenario in its set, 0 for what belongs to the whole set; `again`: a second drawing of
    // the same.
    Dice(sim::Seed seed, Part part, std::uint64_t number, std::uint64_t again = 0)
        : seed_(seed),
          next_((std::uint64_t{1} << 41) +
                (((number * 16 + again) * 8 + static_cast<std::uint64_t>(part)) << 20)) {}

    // 0 <= u < 1
    double share() { return sim::uniform(seed_, sim::Stream::scenario, next_++); }
    // 0 .. n-1
    int below(int n) {
        return static_cast<int>(
            sim::whole_below(static_cast<std::uint32_t>(n), seed_, sim::Stream::scenario, next_++));
    }
    // least .. most, both ends
    int whole(int least, int most) { return least + below(most - least + 1); }
    bool chance(double p) { return share() < p; }
    // In steps of a tenth.
    double tenths(double from, double to) { return std::round((from + (to - from) * share()) * 10) / 10; }
    template <typename T>
    const T& one_of(const std::vector<T>& from) {
        return from[static_cast<std::size_t>(below(static_cast<int>(from.size())))];
    }
    template <typename T>
    T one_of(std::initializer_list<T> from) {
        return *(from.begin() + below(static_cast<int>(from.size())));
    }
    template <typename T>
    void shuffle(std::vector<T>& list) {
        for (std::size_t i = list.size(); i > 1; --i)
            std::swap(list[i - 1], list[static_cast<std::size_t>(below(static_cast<int>(i)))]);
    }

private:
    sim::Seed seed_;
    std::uint64_t next_;
};

}  // namespace engine
