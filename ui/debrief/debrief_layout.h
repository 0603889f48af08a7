// Which cards the debrief shows together.
#pragma once

#include "ui/debrief/debrief_screen.h"

#include <vector>

namespace ui {

inline constexpr float debrief_edge = 24, debrief_gap = 16;

// Three cards a view under the strip when there is room for them, else one a view and the strip a view by
// itself.
struct DebriefScreen::Layout {
    struct View {
        const char* name;
        std::vector<Card> cards;
    };
    std::vector<View> views;
    bool strip_always = true;
};

}  // namespace ui
