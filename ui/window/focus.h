// Which control has the keyboard: our own order, since the toolkit's Tab reaches text fields only.
#pragma once

#include "ui/window/area.h"

#include <string>
#include <string_view>
#include <vector>

namespace ui {

class Focus {
public:
    enum class Kind { button, field, own_keys };  // own_keys: arrows belong to the control itself
    struct Stop {
        std::string id;
        Area at;
        Kind kind = Kind::button;
        std::string part;  // the scrolling part it stands in; empty = none
    };

    // A control of this frame, in drawing order.
    void stop(std::string_view id, Area at, Kind kind);
    // The order drawn in this frame becomes the one keys move in.
    void end_frame();

    void step(int by);                              // Tab, Shift-Tab
    bool move(int dx, int dy);                      // arrows: the nearest one that way; false = none
    void put(std::string_view id, bool with_ring);  // empty = nothing
    bool has(std::string_view id) const { return !id.empty() && id == id_; }
    bool ring() const { return ring_; }
    const std::string& id() const { return id_; }
    const Stop* now() const;
    std::string part;    // the scrolling part being drawn
    bool moved = false;  // by a key, since the last frame: bring it into view

private:
    std::string id_;
    bool ring_ = false;
    std::vector<Stop> order_, drawing_;
};

}  // namespace ui
