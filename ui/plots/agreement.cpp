#include "ui/plots/agreement.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace ui {
namespace {

// beyond this a count was another heart or every second beat: at the edge
constexpr double furthest_bpm = 25;
constexpr const char* minus = "\xE2\x88\x92";

struct AgreementAxes {
    Box inside;
    double from = 90, to = 190, half = 10;
    double x(double truth_bpm) const { return inside.x + (truth_bpm - from) / (to - from) * inside.w; }
    double y(double error_bpm) const { return inside.y + (1 - error_bpm / half) / 2 * inside.h; }
};

AgreementAxes axes_of(const engine::Progress& p, Box inside) {
    AgreementAxes a{inside};
    double far = 8;
    for (const engine::CountPoint& point : p.points) {
        a.from = std::min(a.from, std::floor(point.truth_bpm / 10 - 0.5) * 10);
        a.to = std::max(a.to, std::ceil(point.truth_bpm / 10 + 0.5) * 10);
        if (std::fabs(point.error_bpm) <= furthest_bpm) far = std::max(far, std::fabs(point.error_bpm));
    }
    if (p.limits.worth_showing) {
        far = std::max({far, std::fabs(*p.limits.low_bpm), std::fabs(*p.limits.high_bpm)});
        far = std::min(far, furthest_bpm);
    }
    a.half = std::ceil((far + 1) / 5) * 5;
    return a;
}

std::string signed_whole(double value) {
    const long rounded = std::lround(value);
    return rounded == 0 ? "0" : fmt::format("{}{}", rounded > 0 ? "+" : minus, std::labs(rounded));
}

std::string signed_tenth(double value) {
    const double rounded = std::round(value * 10) / 10;
    return rounded == 0 ? "0" : fmt::format("{}{:g}", rounded > 0 ? "+" : minus, std::fabs(rounded));
}

void draw_ground(Canvas& canvas, const AgreementAxes& a, double box_left, const Theme& theme) {
    const Palette& c = theme.colour;
    const Words note{.size = theme.px(TypeScale::note), .colour = c.soft_ink};
    canvas.fill({a.x(110), a.inside.y, a.x(160) - a.x(110), a.inside.h}, c.normal_band);
    const double step = a.half > 10 ? 10 : 5;
    Words left = note;
    left.align = Align::right;
    for (double error = -std::floor(a.half / step) * step; error <= a.half; error += step) {
        const double y = std::round(a.y(error)) + 0.5;
        canvas.line({a.inside.x, y}, {a.inside.right(), y}, c.rule, 1);
        canvas.text({a.inside.x - theme.px(8), y + note.size * 0.36}, signed_whole(error), left);
    }
    Words below = note;
    below.align = Align::centre;
    const double apart = theme.px(56) > a.inside.w / (a.to - a.from) * 20 ? 40 : 20;
    for (double rate = std::ceil(a.from / apart) * apart; rate <= a.to; rate += apart) {
        canvas.line({a.x(rate), a.inside.bottom()}, {a.x(rate), a.inside.bottom() + theme.px(5)}, c.soft_ink);
        canvas.text({a.x(rate), a.inside.bottom() + theme.px(8) + note.size}, fmt::format("{:g}", rate),
                    below);
    }
    canvas.short_text({box_left, a.inside.y - theme.px(8)}, "error, bpm: + is read too high", note,
                      a.inside.right() - box_left);
    canvas.short_text({a.inside.x, a.inside.bottom() + theme.px(12) + note.size * 2.2},
                      "true rate, bpm; shaded: 110 to 160", note, a.inside.w);
}

void draw_lines(Canvas& canvas, const AgreementAxes& a, const engine::Progress& p, const Theme& theme) {
    const Palette& c = theme.colour;
    canvas.line({a.inside.x, a.y(0)}, {a.inside.right(), a.y(0)}, c.ink, theme.px(1.2));
    if (p.points.size() < 2) return;
    // Labels at the right, kept off each other.
    struct AgreementLabel {
        double y;
        std::string says;
        Colour colour;
        bool bold;
    };
    std::vector<AgreementLabel> labels;
    const double bias = *p.errors.bias_bpm();
    if (p.limits.worth_showing) {
        const auto wash = [&](const engine::Interval& exact) {
            if (!exact.low.known() || !exact.high.known()) return;
            const double top = a.y(std::min(*exact.high, a.half)),
                         bottom = a.y(std::max(*exact.low, -a.half));
            if (bottom > top) canvas.fill({a.inside.x, top, a.inside.w, bottom - top}, c.window_wash, 0.8);
        };
        wash(p.limits.low_exact);
        wash(p.limits.high_exact);
        for (const double limit : {*p.limits.high_bpm, *p.limits.low_bpm}) {
            if (std::fabs(limit) > a.half) continue;
            canvas.line({a.inside.x, a.y(limit)}, {a.inside.right(), a.y(limit)}, c.attention, theme.px(1.6),
                        {theme.px(7), theme.px(5)});
            labels.push_back({a.y(limit), signed_tenth(limit), c.attention, false});
        }
    }
    if (std::fabs(bias) <= a.half) {
        canvas.line({a.inside.x, a.y(bias)}, {a.inside.right(), a.y(bias)}, c.act, theme.px(2));
        labels.push_back({a.y(bias), "mean " + signed_tenth(bias), c.act, true});
    }
    std::sort(labels.begin(), labels.end(),
              [](const AgreementLabel& one, const AgreementLabel& other) { return one.y < other.y; });
    const double size = theme.px(TypeScale::note);
    for (std::size_t i = 1; i < labels.size(); ++i)
        labels[i].y = std::max(labels[i].y, labels[i - 1].y + size * 1.2);
    for (const AgreementLabel& label : labels)
        canvas.text({a.inside.right() + theme.px(6), label.y + size * 0.36}, label.says,
                    {.size = size, .colour = label.colour, .bold = label.bold});
}

void draw_points(Canvas& canvas, const AgreementAxes& a, const engine::Progress& p, const Theme& theme) {
    const Palette& c = theme.colour;
    const double r = theme.px(p.points.size() > 100 ? 3 : 4.2), share = p.points.size() > 100 ? 0.55 : 0.85;
    for (const engine::CountPoint& point : p.points) {
        const double x = a.x(point.truth_bpm);
        if (std::fabs(point.error_bpm) > a.half) {
            const double up = point.error_bpm > 0 ? 1 : -1,
                         edge = up > 0 ? a.inside.y + 1 : a.inside.bottom() - 1;
            const std::array<Point, 3> corners{
                Point{x, edge}, {x - r * 1.3, edge + up * r * 2.2}, {x + r * 1.3, edge + up * r * 2.2}};
            canvas.area(corners, c.attention);
            continue;
        }
        const double y = a.y(point.error_bpm);
        if (point.right) {
            canvas.disc({x, y}, r, c.act, share);
        } else {
            canvas.line({x - r, y - r}, {x + r, y + r}, c.attention, theme.px(2));
            canvas.line({x - r, y + r}, {x + r, y - r}, c.attention, theme.px(2));
        }
    }
}

}  // namespace

void draw_agreement(Canvas& canvas, Box box, const engine::Progress& p, const Theme& theme) {
    const Box inside{box.x + theme.px(40), box.y + theme.px(22), box.w - theme.px(40) - theme.px(86),
                     box.h - theme.px(22) - theme.px(44)};
    if (inside.w < 20 || inside.h < 20) return;
    const AgreementAxes a = axes_of(p, inside);
    draw_ground(canvas, a, box.x, theme);
    draw_lines(canvas, a, p, theme);
    draw_points(canvas, a, p, theme);
    if (p.points.empty())
        canvas.text(
            {a.inside.centre().x, a.y(0) - theme.px(10)}, "no counts yet",
            {.size = theme.px(TypeScale::text), .colour = theme.colour.soft_ink, .align = Align::centre});
}

}  // namespace ui
