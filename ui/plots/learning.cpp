#include "ui/plots/learning.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace ui {
namespace {

constexpr int least_labours = 24;  // the axis is never shorter: a first labour is not a whole chart

struct LearningAxes {
    Box inside;
    double labours = least_labours, top = 5;
    double x(double labour) const { return inside.x + labour / labours * inside.w; }
    double y(double s) const { return inside.bottom() - s / top * inside.h; }
};

void draw_cross(Canvas& canvas, Point at, double r, Colour colour, double width) {
    canvas.line({at.x - r, at.y - r}, {at.x + r, at.y + r}, colour, width);
    canvas.line({at.x - r, at.y + r}, {at.x + r, at.y - r}, colour, width);
}

}  // namespace

void draw_learning(Canvas& canvas, Box box, const engine::LearningSoFar& l, const Theme& theme) {
    const Palette& c = theme.colour;
    const Words note{.size = theme.px(TypeScale::note), .colour = c.soft_ink};
    const double marks_h = theme.px(20), left = theme.px(8), right = theme.px(10);
    const Box inside{box.x + left, box.y + theme.px(10), box.w - left - right,
                     box.h - theme.px(10) - marks_h - theme.px(44)};
    if (inside.w < 20 || inside.h < 20) return;
    LearningAxes a{inside};
    const std::size_t shown = std::min(l.right.size(), static_cast<std::size_t>(l.cap));
    a.labours = std::max<double>(least_labours, static_cast<double>(shown));
    if (l.h.known()) a.top = *l.h * 1.25;

    canvas.line({inside.x, inside.bottom() + 0.5}, {inside.right(), inside.bottom() + 0.5}, c.rule, 1);
    const double marks_y = inside.bottom() + theme.px(6) + marks_h / 2;
    const double numbers_y = inside.bottom() + marks_h + theme.px(8) + note.size;
    Words below = note;
    below.align = Align::centre;
    const double apart = a.labours > 120                            ? 50
                         : a.labours > 50                           ? 20
                         : a.labours * theme.px(24) / 10 > inside.w ? 10
                                                                    : 5;
    for (double n = apart; n <= a.labours; n += apart)
        canvas.text({a.x(n), numbers_y}, fmt::format("{:g}", n), below);
    canvas.short_text({inside.x, numbers_y + note.size * 1.4},
                      shown < l.right.size() ? fmt::format("the first {} labours met", shown)
                                             : std::string("labours met, one after another"),
                      note, inside.w);

    if (l.h.known()) {
        const double y = a.y(*l.h);
        canvas.line({inside.x, y}, {inside.right(), y}, c.fine, theme.px(2), {theme.px(8), theme.px(5)});
        canvas.text({inside.right(), y - theme.px(6)}, fmt::format("the mark, for {} labours", l.cap),
                    {.size = note.size, .colour = c.fine, .align = Align::right});
    }
    if (!l.chart.s.empty()) {
        // The line has done its work when it reaches the mark.
        const bool there = l.chart.signal_at > 0;
        const std::size_t until = there ? static_cast<std::size_t>(l.chart.signal_at) : l.chart.s.size();
        std::vector<Point> path{{a.x(0), a.y(0)}};
        for (std::size_t i = 0; i < until; ++i)
            path.push_back({a.x(static_cast<double>(i) + 1), a.y(l.chart.s[i])});
        canvas.path(path, c.act, theme.px(2.4));
        canvas.disc(path.back(), theme.px(5), there ? c.fine : c.act);
        if (there) canvas.ring(path.back(), theme.px(9), c.fine, theme.px(1.6));
    }
    const double r = std::clamp(inside.w / a.labours * 0.32, theme.px(1.2), theme.px(4.5));
    for (std::size_t i = 0; i < shown; ++i) {
        const Point at{a.x(static_cast<double>(i) + 1), marks_y};
        if (l.right[i])
            canvas.disc(at, r, c.fine);
        else
            draw_cross(canvas, at, r * 1.15, c.attention, theme.px(1.8));
    }
}

}  // namespace ui
