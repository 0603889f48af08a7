// What a hand feels on the belly: the baby's parts, and how hard the womb is.
#pragma once

#include "sim/course/course.h"
#include "sim/patient.h"

#include <cstdint>

namespace sim {

enum class Felt : std::uint8_t {
    nothing_clear,
    smooth_back,
    small_knobbly_limbs,
    hard_round_head,
    broad_soft_breech,
    shoulder
};
enum class Firmness : std::uint8_t { soft, firm, hard };  // like a cheek, like a chin, like a forehead

Felt felt_at(const Patient& patient, double x_cm, double y_cm, const CourseTick& now);

// Soft below 10 mmHg over tone (with a tone below 20), hard above 40 over tone or a tone that never rests (>=
// 25), firm between [memory: signal science note, section 3].
Firmness firmness(const CourseTick& now);

// Share of full pressure 0..1 for a picture of the hand being lifted by the womb.
double swell(const CourseTick& now);

}  // namespace sim
