// The drawings (SVG files in assets/drawings, through librsvg) and the one mapping from centimetres on the
// abdomen to a place in a picture, used by bedside, map and debrief alike.
#pragma once

#include "ui/canvas/canvas.h"

#include <string_view>

namespace ui {

enum class Drawing {
    abdomen,  // the woman lying, seen from above, her head up, her right on the left of the picture
    hand_left,
    hand_right,        // the trainee's, palm down, fingers up; anchor: the pads of the middle fingers
    fingers_on_wrist,  // the trainee's fingers on her wrist, as a picture by itself
    horn,              // Pinard horn from above; anchor: its middle
    bell,
    diaphragm,  // stethoscope head, cup and flat side, with tube; anchor: middle of the head
    doppler,    // probe with cable; anchor: middle of its face
    watch,      // face without hands; anchor: middle
};

// Size in the drawing's own centimetres, and the point that is put on a place, as a share of width and
// height.
struct DrawingShape {
    double width_cm = 1, height_cm = 1;
    double anchor_x = 0.5, anchor_y = 0.5;
};
DrawingShape shape_of(Drawing);
std::string_view file_name_of(Drawing);

// Draws it to fill the box (in proportion, centred). A missing or broken file draws a thin empty frame: a
// screen without a picture still works.
void draw(Canvas& canvas, Drawing which, Box box);
// Draws it with its anchor at `at`, one centimetre of the drawing = `px_per_cm`.
void draw_at(Canvas& canvas, Drawing which, Point at, double px_per_cm);

// --- The abdomen on a page
// -----------------------------------------------------------------------------------------

// What the abdomen drawing shows, in centimetres: wider than the map (x -16..16, y -18..20) because her right
// arm lies beside her.
inline constexpr double abdomen_left_cm = -26.5, abdomen_right_cm = 20.5, abdomen_top_cm = 21.5,
                        abdomen_bottom_cm = -20.5;
// Her right wrist, where a finger feels the pulse: a place to put a hand. A hand within `wrist_reach_cm` is
// on it.
inline constexpr double wrist_x_cm = -21.6, wrist_y_cm = -9.2, wrist_reach_cm = 4.0;

// Origin navel, +x her left = right on the picture, +y her head = up.
struct AbdomenFrame {
    Box box;  // where the drawing really lies (in proportion)
    bool with_arm = true;
    double px_per_cm = 1;
    Point navel;  // on the page
    Point to_page(double x_cm, double y_cm) const {
        return {navel.x + x_cm * px_per_cm, navel.y - y_cm * px_per_cm};
    }
    Point to_cm(Point on_page) const {
        return {(on_page.x - navel.x) / px_per_cm, (navel.y - on_page.y) / px_per_cm};
    }
};
// The abdomen drawing fitted into a box.
AbdomenFrame abdomen_in(Box box);
// Without the arm: only what the map covers (and a rim), fitted into a box; draw with a clip on `box`.
AbdomenFrame abdomen_close_in(Box box);
void draw_abdomen(Canvas& canvas, const AbdomenFrame& frame);

// --- The watch
// -----------------------------------------------------------------------------------------------------

// Face in a square box, then hands for this many seconds since midnight. The second hand is left out when
// `with_second_hand` is false: the screen draws it itself, from the middle, as long as second_hand_share x
// side.
void draw_watch(Canvas& canvas, Box square, double seconds, bool with_second_hand);
inline constexpr double watch_dial_share = 0.40;  // radius of the dial, share of the side
inline constexpr double second_hand_share = 0.335;

}  // namespace ui
