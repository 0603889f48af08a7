// Noto Sans in the seven sizes of the type scale.
#pragma once

#include "ui/window/frame.h"

#include <array>
#include <string>

struct ImFont;

namespace ui {

inline constexpr int type_count = 7;
using Fonts = std::array<ImFont*, type_count>;

// Builds the toolkit's atlas for a text size (1.0 to 2.0). Empty string, or why it could not.
std::string build_fonts(double text_size, Fonts& fonts);

}  // namespace ui
