#include "ui/plots/strip_marks.h"

#include <algorithm>
#include <array>
#include <string>

namespace ui {
namespace {

using Kind = StripContent::TapMark::Kind;

struct TapWord {
    Kind kind;
    const char* says;
};
constexpr std::array<TapWord, 3> tap_words_in_key = {
    TapWord{Kind::caught, "caught"}, TapWord{Kind::missed, "missed"}, TapWord{Kind::extra, "extra"}};

// What the signs mean, in the lane itself where the marks leave room: right of them, else left.
void draw_tap_key(Canvas& canvas, const StripFrame& frame, double first_x, double last_x,
                  const Theme& theme) {
    const Words small{.size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink};
    const double sign = theme.px(12), gap = theme.px(10), lead = theme.px(18);
    double w = lead;
    for (const TapWord& word : tap_words_in_key) w += sign + canvas.measure(word.says, small).w + gap;
    double x = last_x + lead;
    if (x + w > frame.taps.right()) x = first_x - w;
    if (x < frame.taps.x) return;
    const double y = frame.taps.centre().y;
    for (const TapWord& word : tap_words_in_key) {
        draw_tap_sign(canvas, {x + sign / 2, y}, sign * 0.75, word.kind, theme);
        x += sign;
        x += canvas.text({x, y + theme.px(4.5)}, word.says, small) + gap;
    }
}

}  // namespace

void draw_tap_sign(Canvas& canvas, Point centre, double size, Kind kind, const Theme& theme) {
    const Palette& p = theme.colour;
    const double r = size / 2;
    if (kind == Kind::caught) {
        canvas.line({centre.x, centre.y - r * 0.8}, {centre.x, centre.y + r * 0.8}, p.soft_ink,
                    theme.px(1.2));
    } else if (kind == Kind::missed) {
        canvas.ring(centre, r, p.attention, theme.px(1.8));
    } else {
        canvas.line({centre.x - r, centre.y - r}, {centre.x + r, centre.y + r}, p.act, theme.px(1.8));
        canvas.line({centre.x - r, centre.y + r}, {centre.x + r, centre.y - r}, p.act, theme.px(1.8));
    }
}

void draw_series(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme) {
    const Canvas::Clip clip(canvas, frame.rates);
    const Colour colour = theme.colour.attention;
    Point before{};
    for (const auto& count : content.series) {
        const double y = std::clamp(frame.y_of(count.bpm), frame.rates.y + 2, frame.rates.bottom() - 2);
        const double x0 = frame.x_of(count.from_s), x1 = frame.x_of(count.to_s);
        const Point middle{(x0 + x1) / 2, y};
        if (count.goes_on) canvas.line(before, middle, colour, theme.px(1.2), {3, 3});
        canvas.line({x0, y}, {x1, y}, colour, theme.px(3));
        const double r = theme.px(3.5);
        canvas.fill({middle.x - r, middle.y - r, 2 * r, 2 * r}, colour);
        before = middle;
    }
}

void draw_taps(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme) {
    if (frame.taps.h <= 0) return;
    const double y = frame.taps.centre().y;
    canvas.text({frame.taps.x - theme.px(8), y + theme.px(4.5)}, "taps",
                {.size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink, .align = Align::right});
    // under 24 bpm it is no heart: two counts, not one line
    const double nearest = theme.px(3), longest_gap_s = 2.5;
    double first_x = frame.taps.right(), last_x = frame.taps.x, before_x = -1e9, before_s = -1e9;
    for (const Kind kind : {Kind::caught, Kind::missed, Kind::extra})
        for (const auto& tap : content.taps) {
            const double x = frame.x_of(tap.at_s);
            if (tap.kind != kind || x < frame.taps.x || x > frame.taps.right()) continue;
            first_x = std::min(first_x, x);
            last_x = std::max(last_x, x);
            if (kind == Kind::caught) {
                const bool run_together = x - before_x < nearest && tap.at_s - before_s < longest_gap_s;
                if (run_together)
                    canvas.line({before_x, y}, {x, y}, theme.colour.soft_ink, theme.px(4));
                else
                    draw_tap_sign(canvas, {x, y}, theme.px(10), kind, theme);
                before_x = x;
                before_s = tap.at_s;
            } else {
                draw_tap_sign(canvas, {x, y}, theme.px(9), kind, theme);
            }
        }
    if (first_x <= last_x) draw_tap_key(canvas, frame, first_x, last_x, theme);
}

}  // namespace ui
