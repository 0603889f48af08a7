// A picture as a PNG of at most 256 colours: a sheet of plots takes half the bytes and looks the same.
#pragma once

#include "engine/outcome.h"
#include "ui/canvas/surface.h"

#include <string>

namespace ui {

// The colours met most often, in steps of 8 a channel; every point gets the nearest of them. Fault when the
// file cannot be written.
engine::Outcome<engine::Done> write_png_few_colours(const Picture& picture, const std::string& path);

}  // namespace ui
