#include "ui/canvas/drawings.h"

#include "ui/files.h"

#include <librsvg/rsvg.h>

#include <array>
#include <cmath>
#include <numbers>
#include <string>

namespace ui {
namespace {

struct Entry {
    std::string_view file;
    DrawingShape shape;
};

constexpr std::array<Entry, 9> entries{{
    {"abdomen",
     {abdomen_right_cm - abdomen_left_cm, abdomen_top_cm - abdomen_bottom_cm,
      -abdomen_left_cm / (abdomen_right_cm - abdomen_left_cm),
      abdomen_top_cm / (abdomen_top_cm - abdomen_bottom_cm)}},
    {"hand-left", {12, 18, 0.46, 0.22}},
    {"hand-right", {12, 18, 0.54, 0.22}},
    {"fingers-on-wrist", {18, 12, 0.5, 0.5}},
    {"horn", {8, 8, 0.5, 0.5}},
    {"bell", {8, 10, 0.5, 0.26}},
    {"diaphragm", {8, 10, 0.5, 0.32}},
    {"doppler", {8, 16, 0.5, 0.17}},
    {"watch", {10, 10, 0.5, 0.5}},
}};

const Entry& entry(Drawing which) { return entries[static_cast<std::size_t>(which)]; }

// Read once and kept: nine small files, used by the window's thread alone.
RsvgHandle* handle_of(Drawing which) {
    static std::array<RsvgHandle*, entries.size()> handles{};
    static std::array<bool, entries.size()> tried{};
    const auto i = static_cast<std::size_t>(which);
    if (!tried[i]) {
        tried[i] = true;
        const std::string path =
            data_folder() + "/assets/drawings/" + std::string(entry(which).file) + ".svg";
        handles[i] = rsvg_handle_new_from_file(path.c_str(), nullptr);
    }
    return handles[i];
}

// `layer`: one group of the drawing by its id ("#torso"), in its place; null = all of it.
void draw_into(Canvas& canvas, Drawing which, Box box, const char* layer = nullptr) {
    RsvgHandle* handle = handle_of(which);
    const RsvgRectangle viewport{box.x, box.y, box.w, box.h};
    // librsvg complains on stderr when the page has failed already; the page's own fault says it once.
    if (cairo_status(canvas.context()) != CAIRO_STATUS_SUCCESS) return;
    if (handle == nullptr || !rsvg_handle_render_layer(handle, canvas.context(), layer, &viewport, nullptr))
        canvas.round_edge(box, 4, light_palette.soft_ink, 1);
}

}  // namespace

DrawingShape shape_of(Drawing which) { return entry(which).shape; }
std::string_view file_name_of(Drawing which) { return entry(which).file; }

void draw(Canvas& canvas, Drawing which, Box box) {
    const DrawingShape shape = shape_of(which);
    const double k = std::fmin(box.w / shape.width_cm, box.h / shape.height_cm);
    const double w = shape.width_cm * k, h = shape.height_cm * k;
    draw_into(canvas, which, {box.x + (box.w - w) / 2, box.y + (box.h - h) / 2, w, h});
}

void draw_at(Canvas& canvas, Drawing which, Point at, double px_per_cm) {
    const DrawingShape shape = shape_of(which);
    const double w = shape.width_cm * px_per_cm, h = shape.height_cm * px_per_cm;
    draw_into(canvas, which, {at.x - shape.anchor_x * w, at.y - shape.anchor_y * h, w, h});
}

AbdomenFrame abdomen_in(Box box) {
    constexpr double w_cm = abdomen_right_cm - abdomen_left_cm, h_cm = abdomen_top_cm - abdomen_bottom_cm;
    AbdomenFrame frame;
    frame.px_per_cm = std::fmin(box.w / w_cm, box.h / h_cm);
    const double w = w_cm * frame.px_per_cm, h = h_cm * frame.px_per_cm;
    frame.box = {box.x + (box.w - w) / 2, box.y + (box.h - h) / 2, w, h};
    frame.navel = {frame.box.x - abdomen_left_cm * frame.px_per_cm,
                   frame.box.y + abdomen_top_cm * frame.px_per_cm};
    return frame;
}

AbdomenFrame abdomen_close_in(Box box) {
    constexpr double left = -18.5, right = 18.5, h_cm = abdomen_top_cm - abdomen_bottom_cm;
    AbdomenFrame frame;
    frame.with_arm = false;
    frame.px_per_cm = std::fmin(box.w / (right - left), box.h / h_cm);
    const double w = (right - left) * frame.px_per_cm, h = h_cm * frame.px_per_cm;
    frame.box = {box.x + (box.w - w) / 2, box.y + (box.h - h) / 2, w, h};
    frame.navel = {frame.box.x - left * frame.px_per_cm, frame.box.y + abdomen_top_cm * frame.px_per_cm};
    return frame;
}

void draw_abdomen(Canvas& canvas, const AbdomenFrame& frame) {
    const Canvas::Clip inside(canvas, frame.box);
    const DrawingShape shape = shape_of(Drawing::abdomen);
    const double w = shape.width_cm * frame.px_per_cm, h = shape.height_cm * frame.px_per_cm;
    const Box all{frame.navel.x - shape.anchor_x * w, frame.navel.y - shape.anchor_y * h, w, h};
    if (frame.with_arm) {
        draw_into(canvas, Drawing::abdomen, all);
        return;
    }
    for (const char* layer : {"#ground", "#torso"}) draw_into(canvas, Drawing::abdomen, all, layer);
}

void draw_watch(Canvas& canvas, Box square, double seconds, bool with_second_hand) {
    draw(canvas, Drawing::watch, square);
    const Point m = square.centre();
    const double side = std::fmin(square.w, square.h);
    const auto hand = [&](double turn, double from, double to, double width, Colour colour) {
        const double a = turn * 2 * std::numbers::pi, x = std::sin(a), y = -std::cos(a);
        const Point ends[] = {{m.x - x * from * side, m.y - y * from * side},
                              {m.x + x * to * side, m.y + y * to * side}};
        canvas.path(ends, colour, width * side);
    };
    const Colour steel{0x2B, 0x36, 0x40};
    hand(std::fmod(seconds, 43200.0) / 43200.0, 0.04, 0.19, 0.026, steel);
    hand(std::fmod(seconds, 3600.0) / 3600.0, 0.04, 0.29, 0.018, steel);
    if (with_second_hand)
        hand(std::fmod(seconds, 60.0) / 60.0, 0.07, second_hand_share, 0.008, light_palette.attention);
    canvas.disc(m, 0.022 * side, light_palette.attention);
}

}  // namespace ui
