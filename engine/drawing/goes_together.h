// What goes together in one scenario and what does not, each with its reason in words.
#pragma once

#include "engine/drawing/axes.h"

#include <string_view>
#include <vector>

namespace engine {

// Where axis `of` has one of `values`, axis `needs` must have one of `allowed`.
struct GoesWith {
    Axis of;
    std::uint32_t values;
    Axis needs;
    std::uint32_t allowed;
    std::string_view why;
    bool holds(const Case& c) const { return (values >> c[of] & 1u) == 0 || (allowed >> c[needs] & 1u) != 0; }
};
const std::vector<GoesWith>& what_goes_together();

// Rules one case breaks.
int broken(const Case& c);
// The first rule that keeps these two values apart; null when they go together.
const GoesWith* apart(Axis a, int value_a, Axis b, int value_b);

}  // namespace engine
