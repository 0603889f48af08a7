#include "ui/plots/beat_dots.h"

#include "ui/plots/strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {

std::vector<BeatDot> beat_dots(std::span<const sim::Beat> train, double from_s, double to_s) {
    std::vector<BeatDot> dots;
    double before_s = -1;
    for (const sim::Beat& beat : train) {
        if (beat.kind == sim::BeatKind::dropped) continue;
        const double t = static_cast<double>(beat.at_us) / 1e6;
        if (before_s >= 0 && t > before_s && t >= from_s && t < to_s)
            dots.push_back({t, 60 / (t - before_s)});
        before_s = t;
    }
    return dots;
}

void draw_beat_dots(Canvas& canvas, Box box, const BeatDots& dots, const Theme& theme) {
    const Palette& p = theme.colour;
    double least = 60, most = 180;
    for (const auto* list : {&dots.baby, &dots.second_baby, &dots.mother})
        for (const BeatDot& dot : *list) {
            while (dot.bpm < least && least > 20) least -= 20;
            while (dot.bpm > most && most < 300) most += 20;
        }
    const double left = theme.px(30), foot = theme.px(17);
    const Box rates{box.x + left, box.y + theme.px(6), box.w - left, box.h - foot - theme.px(6)};
    const auto x_of = [&](double t) {
        return rates.x + (t - dots.from_s) / (dots.to_s - dots.from_s) * rates.w;
    };
    const auto y_of = [&](double bpm) {
        return rates.bottom() - (std::clamp(bpm, least, most) - least) / (most - least) * rates.h;
    };
    canvas.fill(
        {rates.x, y_of(dots.normal_to_bpm), rates.w, y_of(dots.normal_from_bpm) - y_of(dots.normal_to_bpm)},
        p.normal_band);
    double step = 20;
    while (rates.h / ((most - least) / step) < theme.px(16)) step *= 2;
    const Words small{.size = theme.px(TypeScale::key), .colour = p.soft_ink, .align = Align::right};
    for (double bpm = std::ceil(least / step) * step; bpm <= most; bpm += step) {
        canvas.line({rates.x, y_of(bpm)}, {rates.right(), y_of(bpm)}, p.rule, theme.px(0.8));
        canvas.text({rates.x - theme.px(5), y_of(bpm) + theme.px(4)}, fmt::format("{:g}", bpm), small);
    }
    const double r = theme.px(2.2);
    for (const BeatDot& dot : dots.mother)
        canvas.fill({x_of(dot.at_s) - r * 0.8, y_of(dot.bpm) - r * 0.8, r * 1.6, r * 1.6}, p.soft_ink);
    for (const BeatDot& dot : dots.second_baby)
        canvas.ring({x_of(dot.at_s), y_of(dot.bpm)}, r, p.act, theme.px(1.2));
    for (const BeatDot& dot : dots.baby) canvas.disc({x_of(dot.at_s), y_of(dot.bpm)}, r, p.ink);
    const Words seconds{.size = theme.px(TypeScale::key), .colour = p.soft_ink, .align = Align::centre};
    for (double t = std::ceil(dots.from_s / 20) * 20; t <= dots.to_s; t += 20) {
        canvas.line({x_of(t), rates.bottom()}, {x_of(t), rates.bottom() + theme.px(3)}, p.soft_ink,
                    theme.px(1));
        canvas.text({std::clamp(x_of(t), rates.x + theme.px(12), rates.right() - theme.px(14)),
                     box.bottom() - theme.px(3)},
                    minutes_and_seconds(t), seconds);
    }
}

}  // namespace ui
