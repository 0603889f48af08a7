// Whose heart a text names, word by word, shorthand included.
#pragma once

#include <cstddef>
#include <string_view>
#include <vector>

namespace engine {

// `heart` and `hr` have no owner; `other`: pressure, temperature and the like.
enum class Named { baby, baby_heart, heart, hr, mother, other };
struct Naming {
    std::size_t from = 0, to = 0;
    Named what = Named::other;
};

// In the order of the text, which must be in small letters.
std::vector<Naming> namings(std::string_view text);

// "A014" and "x20" are no rates; "P86" and "FHR141" are. `number`: where its digits begin.
bool glued_to_code(std::string_view text, std::size_t number);

}  // namespace engine
