// A place on the screen, in pixels from the top left of the window; floats, as the screen's library has them.
#pragma once

#include "ui/canvas/canvas.h"

namespace ui {

struct Area {
    float x = 0, y = 0, w = 0, h = 0;

    static Area of(const Box& b) {
        return {static_cast<float>(b.x), static_cast<float>(b.y), static_cast<float>(b.w),
                static_cast<float>(b.h)};
    }
    Box box() const { return {x, y, w, h}; }
    float right() const { return x + w; }
    float bottom() const { return y + h; }
    float middle_x() const { return x + w / 2; }
    float middle_y() const { return y + h / 2; }
    bool holds(float px, float py) const { return px >= x && py >= y && px < x + w && py < y + h; }
    Area inside(float by) const { return {x + by, y + by, w - 2 * by, h - 2 * by}; }
    // The top `height` of this box, which is cut away from it with `gap` below.
    Area take_top(float height, float gap = 0) {
        const Area top{x, y, w, height};
        y += height + gap;
        h -= height + gap;
        return top;
    }
    Area take_left(float width, float gap = 0) {
        const Area left{x, y, width, h};
        x += width + gap;
        w -= width + gap;
        return left;
    }
    // Part i of n equal parts side by side, `gap` apart.
    Area part(int i, int n, float gap) const {
        const float each = (w - gap * static_cast<float>(n - 1)) / static_cast<float>(n);
        return {x + (each + gap) * static_cast<float>(i), y, each, h};
    }
};

}  // namespace ui
