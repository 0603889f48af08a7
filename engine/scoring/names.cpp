#include "engine/scoring/score_sheet.h"

#include <array>

namespace engine {

std::string_view name_of(Aspect aspect) {
    constexpr std::array<std::string_view, 9> names = {"site",     "whose",  "window", "count", "arithmetic",
                                                       "decision", "action", "record", "care"};
    return names[static_cast<std::size_t>(aspect)];
}

std::string_view name_of(Verdict verdict) {
    constexpr std::array<std::string_view, 4> names = {"met", "partly", "missed", "not_asked"};
    return names[static_cast<std::size_t>(verdict)];
}

}  // namespace engine
