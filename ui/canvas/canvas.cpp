#include "ui/canvas/canvas.h"

#include <pango/pangocairo.h>

#include <cmath>
#include <numbers>

namespace ui {
namespace {

constexpr double pi = std::numbers::pi;

// One font map for screen and paper at 72 dots an inch: a point is a pixel, so measures agree everywhere.
PangoLayout* layout_of(cairo_t* context, std::string_view words, const Words& how, double width) {
    PangoLayout* layout = pango_cairo_create_layout(context);
    pango_cairo_context_set_resolution(pango_layout_get_context(layout), 72.0);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_SLIGHT);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(pango_layout_get_context(layout), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(pango_layout_get_context(layout), FALSE);

    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family_static(font, "Noto Sans");
    pango_font_description_set_weight(font, how.bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    if (how.italic) pango_font_description_set_style(font, PANGO_STYLE_ITALIC);
    pango_font_description_set_size(font, static_cast<int>(std::lround(how.size * PANGO_SCALE)));
    pango_layout_set_font_description(layout, font);
    pango_font_description_free(font);

    pango_layout_set_text(layout, words.data(), static_cast<int>(words.size()));
    if (width > 0) {
        pango_layout_set_width(layout, static_cast<int>(std::lround(width * PANGO_SCALE)));
        pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    }
    if (how.leading != 1.0) pango_layout_set_line_spacing(layout, static_cast<float>(how.leading));
    pango_layout_set_alignment(layout, how.align == Align::left     ? PANGO_ALIGN_LEFT
                                       : how.align == Align::centre ? PANGO_ALIGN_CENTER
                                                                    : PANGO_ALIGN_RIGHT);
    return layout;
}

TextSize size_of(PangoLayout* layout) {
    PangoRectangle logical;
    pango_layout_get_extents(layout, nullptr, &logical);
    return {static_cast<double>(logical.width) / PANGO_SCALE,
            static_cast<double>(logical.height) / PANGO_SCALE, pango_layout_get_line_count(layout)};
}

void round_path(cairo_t* c, Box b, double round) {
    const double r = std::fmin(round, std::fmin(b.w, b.h) / 2);
    cairo_new_path(c);
    cairo_arc(c, b.right() - r, b.y + r, r, -pi / 2, 0);
    cairo_arc(c, b.right() - r, b.bottom() - r, r, 0, pi / 2);
    cairo_arc(c, b.x + r, b.bottom() - r, r, pi / 2, pi);
    cairo_arc(c, b.x + r, b.y + r, r, pi, 3 * pi / 2);
    cairo_close_path(c);
}

void points_path(cairo_t* c, std::span<const Point> points) {
    cairo_new_path(c);
    for (const Point& p : points) cairo_line_to(c, p.x, p.y);
}

void pen(cairo_t* c, double width, std::initializer_list<double> dashes) {
    cairo_set_line_width(c, width);
    cairo_set_line_join(c, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(c, dashes.size() == 0 ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_dash(c, dashes.begin(), static_cast<int>(dashes.size()), 0);
}

}  // namespace

Canvas::Canvas(cairo_t* context) : context_(context) {}

void Canvas::colour(Colour c, double share) {
    cairo_set_source_rgba(context_, c.red / 255.0, c.green / 255.0, c.blue / 255.0, share);
}

void Canvas::fill(Box box, Colour c, double share) {
    colour(c, share);
    cairo_new_path(context_);
    cairo_rectangle(context_, box.x, box.y, box.w, box.h);
    cairo_fill(context_);
}

void Canvas::round_fill(Box box, double round, Colour c, double share) {
    colour(c, share);
    round_path(context_, box, round);
    cairo_fill(context_);
}

void Canvas::round_edge(Box box, double round, Colour c, double width) {
    colour(c, 1);
    pen(context_, width, {});
    round_path(context_, box.inset(width / 2), round);
    cairo_stroke(context_);
}

void Canvas::card(Box box, const Palette& palette, double round) {
    round_fill(box, round, palette.card);
    round_edge(box, round, palette.rule, 1.0);
}

void Canvas::disc(Point centre, double radius, Colour c, double share) {
    colour(c, share);
    cairo_new_path(context_);
    cairo_arc(context_, centre.x, centre.y, radius, 0, 2 * pi);
    cairo_fill(context_);
}

void Canvas::ring(Point centre, double radius, Colour c, double width) {
    colour(c, 1);
    pen(context_, width, {});
    cairo_new_path(context_);
    cairo_arc(context_, centre.x, centre.y, radius, 0, 2 * pi);
    cairo_stroke(context_);
}

void Canvas::area(std::span<const Point> corners, Colour c, double share) {
    colour(c, share);
    points_path(context_, corners);
    cairo_close_path(context_);
    cairo_fill(context_);
}

void Canvas::line(Point from, Point to, Colour c, double width, std::initializer_list<double> dashes) {
    colour(c, 1);
    pen(context_, width, dashes);
    cairo_set_line_cap(context_, CAIRO_LINE_CAP_BUTT);
    cairo_new_path(context_);
    cairo_move_to(context_, from.x, from.y);
    cairo_line_to(context_, to.x, to.y);
    cairo_stroke(context_);
}

void Canvas::path(std::span<const Point> points, Colour c, double width,
                  std::initializer_list<double> dashes) {
    if (points.size() < 2) return;
    colour(c, 1);
    pen(context_, width, dashes);
    points_path(context_, points);
    cairo_stroke(context_);
}

double Canvas::text(Point at, std::string_view words, const Words& how) {
    PangoLayout* layout = layout_of(context_, words, how, 0);
    const TextSize size = size_of(layout);
    const double base = static_cast<double>(pango_layout_get_baseline(layout)) / PANGO_SCALE;
    const double back = how.align == Align::left ? 0 : how.align == Align::centre ? size.w / 2 : size.w;
    colour(how.colour, 1);
    cairo_move_to(context_, at.x - back, at.y - base);
    pango_cairo_show_layout(context_, layout);
    g_object_unref(layout);
    return size.w;
}

double Canvas::short_text(Point at, std::string_view words, const Words& how, double width) {
    PangoLayout* layout = layout_of(context_, words, how, width);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    const double base = static_cast<double>(pango_layout_get_baseline(layout)) / PANGO_SCALE;
    const double back = how.align == Align::left ? 0 : how.align == Align::centre ? width / 2 : width;
    colour(how.colour, 1);
    cairo_move_to(context_, at.x - back, at.y - base);
    pango_cairo_show_layout(context_, layout);
    const double used = size_of(layout).w;
    g_object_unref(layout);
    return used;
}

TextSize Canvas::block(Box box, std::string_view words, const Words& how) {
    PangoLayout* layout = layout_of(context_, words, how, box.w);
    const TextSize size = size_of(layout);
    if (size.h > box.h + 0.5 || size.w > box.w + 0.5) overflows_.push_back({std::string(words), box, size});
    colour(how.colour, 1);
    cairo_move_to(context_, box.x, box.y);
    pango_cairo_show_layout(context_, layout);
    g_object_unref(layout);
    return size;
}

TextSize Canvas::measure(std::string_view words, const Words& how, double width) {
    PangoLayout* layout = layout_of(context_, words, how, width);
    const TextSize size = size_of(layout);
    g_object_unref(layout);
    return size;
}

void Canvas::tick_mark(Point m, double s, Colour c) {
    const Point points[] = {
        {m.x - s * 0.45, m.y + s * 0.02}, {m.x - s * 0.13, m.y + s * 0.36}, {m.x + s * 0.48, m.y - s * 0.38}};
    path(points, c, s * 0.17);
}

void Canvas::dash_mark(Point m, double s, Colour c) {
    const Point points[] = {{m.x - s * 0.42, m.y}, {m.x + s * 0.42, m.y}};
    path(points, c, s * 0.19);
}

void Canvas::open_circle_mark(Point m, double s, Colour c) { ring(m, s * 0.38, c, s * 0.15); }

void Canvas::play_mark(Point m, double s, Colour c) {
    const Point corners[] = {
        {m.x - s * 0.35, m.y - s * 0.45}, {m.x + s * 0.45, m.y}, {m.x - s * 0.35, m.y + s * 0.45}};
    area(corners, c);
}

Canvas::Clip::Clip(Canvas& canvas, Box box) : context_(canvas.context()) {
    cairo_save(context_);
    cairo_new_path(context_);
    cairo_rectangle(context_, box.x, box.y, box.w, box.h);
    cairo_clip(context_);
}

Canvas::Clip::~Clip() { cairo_restore(context_); }

}  // namespace ui
