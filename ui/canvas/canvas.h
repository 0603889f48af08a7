// One canvas for screen and paper: plots, drawings and pages are drawn once, on a picture, a PDF or an SVG
// alike. A thin layer over cairo, words by Pango. Coordinates: origin top left, y down; pixels on a picture,
// points (1/72 inch) on paper. Not thread-safe: one thread at a time.
#pragma once

#include "ui/canvas/theme.h"

#include <cstddef>
#include <initializer_list>
#include <span>
#include <string>
#include <string_view>
#include <vector>

typedef struct _cairo cairo_t;  // NOLINT: cairo's own name

namespace ui {

struct Point {
    double x = 0, y = 0;
};

struct Box {
    double x = 0, y = 0, w = 0, h = 0;
    constexpr double right() const { return x + w; }
    constexpr double bottom() const { return y + h; }
    constexpr Point centre() const { return {x + w / 2, y + h / 2}; }
    constexpr Box inset(double by) const { return {x + by, y + by, w - 2 * by, h - 2 * by}; }
    constexpr bool holds(Point p) const { return p.x >= x && p.x < right() && p.y >= y && p.y < bottom(); }
};

enum class Align { left, centre, right };

struct Words {                      // how a text is set
    double size = TypeScale::text;  // pixels or points, scale already in it
    Colour colour = light_palette.ink;
    bool bold = false;
    Align align = Align::left;
    double leading = 1.0;  // line distance, times the font's own
    bool italic = false;
};

struct TextSize {
    double w = 0, h = 0;
    int lines = 0;
};

// A text that did not fit the box it was given: a fault of the page, looked for by tests at every text size.
struct Overflow {
    std::string text;
    Box box;
    TextSize needed;
};

class Canvas {
public:
    // Draws on a context that stays with the caller and must outlive the canvas.
    explicit Canvas(cairo_t* context);
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    cairo_t* context() const { return context_; }

    // --- Areas. `share` is how opaque, 0..1.
    void fill(Box box, Colour colour, double share = 1.0);
    void round_fill(Box box, double round, Colour colour, double share = 1.0);
    void round_edge(Box box, double round, Colour colour, double width = 1.0);
    // A card: rounded, filled, thin edge on the half pixel.
    void card(Box box, const Palette& palette, double round = Grid::card_round);
    void disc(Point centre, double radius, Colour colour, double share = 1.0);
    void ring(Point centre, double radius, Colour colour, double width = 1.0);
    void area(std::span<const Point> corners, Colour colour, double share = 1.0);  // closed

    // --- Lines
    void line(Point from, Point to, Colour colour, double width = 1.0,
              std::initializer_list<double> dashes = {});
    void path(std::span<const Point> points, Colour colour, double width = 1.0,
              std::initializer_list<double> dashes = {});

    // --- Words
    // One line; `at` is the baseline's left, middle or right end (by align). Gives the width.
    double text(Point at, std::string_view words, const Words& how);
    // Wrapped at words (long ids at any letter) to the width of the box, from its top. Gives the size used;
    // when it is higher than the box (or wider), that is kept in overflows().
    TextSize block(Box box, std::string_view words, const Words& how);
    // Size of a text wrapped to `width`; 0 or less = never wrapped. Same on picture and paper to within a
    // pixel.
    TextSize measure(std::string_view words, const Words& how, double width = 0);
    // One line, cut at the end with "..." to fit the width; for lists. Gives the width.
    double short_text(Point at, std::string_view words, const Words& how, double width);
    const std::vector<Overflow>& overflows() const { return overflows_; }

    // --- Marks that stand beside a colour
    void tick_mark(Point centre, double size, Colour colour);
    void dash_mark(Point centre, double size, Colour colour);
    void open_circle_mark(Point centre, double size, Colour colour);
    void play_mark(Point centre, double size, Colour colour);  // triangle pointing right

    // Everything drawn while this lives stays inside the box.
    class Clip {
    public:
        Clip(Canvas& canvas, Box box);
        ~Clip();
        Clip(const Clip&) = delete;
        Clip& operator=(const Clip&) = delete;

    private:
        cairo_t* context_;
    };

private:
    void colour(Colour colour, double share);
    cairo_t* context_;
    std::vector<Overflow> overflows_;
};

}  // namespace ui
