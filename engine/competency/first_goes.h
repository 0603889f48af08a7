// The first attempt of each person at each labour, right or not: what is asked where answers must not depend
// on each other. Output modes are pooled.
#pragma once

#include "engine/competency/count_columns.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace engine {

bool is_of_the_baby(const CountColumns& c, std::size_t row);  // or not known of whom
// Never one of the mother or of nobody, whatever number came out.
bool is_right_of_the_baby(const CountColumns& c, std::size_t row);
// Corrected later, or no beat of the baby's fell in it: there was nothing to be right about.
bool can_be_right(const CountColumns& c, std::size_t row);

struct FirstGo {
    std::uint32_t person, item;
    bool right;  // every count of it that can be
};
struct FirstGoes {
    std::vector<FirstGo> goes;       // oldest first
    std::size_t repeats = 0;         // attempts at a labour the person had met: left out
    std::size_t nothing_judged = 0;  // first ones of which no count can be right: left out
};
FirstGoes first_goes(const CountColumns& c);

}  // namespace engine
