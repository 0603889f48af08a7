#include "ui/plots/strip.h"

#include "ui/plots/columns.h"
#include "ui/plots/strip_labels.h"
#include "ui/plots/strip_marks.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

double highest(std::span<const double> values, double start) {
    for (const double v : values) start = std::max(start, v);
    return start;
}

double lowest(std::span<const double> values, double start) {
    for (const double v : values)
        if (v > 0) start = std::min(start, v);
    return start;
}

// A curve as a filled outline, so that a minute of a thousand beats stays one column a pixel; gaps stay open.
void draw_curve(Canvas& canvas, const StripFrame& frame, std::span<const double> values, Colour colour,
                double width) {
    constexpr double step_s = 0.25;
    const auto n = static_cast<std::size_t>(std::max(2.0, std::floor(frame.rates.w)));
    const std::vector<Column> columns = columns_of(values, step_s, frame.view.from_s, frame.view.to_s, n);
    const double column_w = frame.rates.w / static_cast<double>(n);
    std::vector<Point> outline;
    for (std::size_t from = 0; from < n;) {
        if (!columns[from].any) {
            ++from;
            continue;
        }
        std::size_t to = from;
        while (to < n && columns[to].any) ++to;
        outline.clear();
        const auto x_of = [&](std::size_t c) {
            return frame.rates.x + (static_cast<double>(c) + 0.5) * column_w;
        };
        const double first_x = x_of(from) - column_w / 2, last_x = x_of(to - 1) + column_w / 2;
        outline.push_back({first_x, frame.y_of(columns[from].high) - width / 2});
        for (std::size_t c = from; c < to; ++c)
            outline.push_back({x_of(c), frame.y_of(columns[c].high) - width / 2});
        outline.push_back({last_x, frame.y_of(columns[to - 1].high) - width / 2});
        outline.push_back({last_x, frame.y_of(columns[to - 1].low) + width / 2});
        for (std::size_t c = to; c-- > from;)
            outline.push_back({x_of(c), frame.y_of(columns[c].low) + width / 2});
        outline.push_back({first_x, frame.y_of(columns[from].low) + width / 2});
        canvas.area(outline, colour);
        from = to;
    }
}

void draw_dashed_curve(Canvas& canvas, const StripFrame& frame, std::span<const double> values, Colour colour,
                       double width) {
    std::vector<Point> run;
    for (double x = frame.rates.x; x <= frame.rates.right(); x += 2) {
        const double bpm = value_at(values, 0.25, frame.s_at(x));
        if (bpm > 0) {
            run.push_back({x, frame.y_of(bpm)});
        } else {
            canvas.path(run, colour, width, {5, 4});
            run.clear();
        }
    }
    canvas.path(run, colour, width, {5, 4});
}

void draw_rate_axis(Canvas& canvas, const StripContent& content, const StripFrame& frame,
                    const Theme& theme) {
    const Palette& p = theme.colour;
    const Words small{.size = theme.px(TypeScale::note), .colour = p.soft_ink, .align = Align::right};
    const double y_top = std::max(frame.rates.y, frame.y_of(content.band.to_bpm));
    const double y_low = std::min(frame.rates.bottom(), frame.y_of(content.band.from_bpm));
    canvas.fill({frame.rates.x, y_top, frame.rates.w, y_low - y_top}, p.normal_band);
    double step = 20;
    while (frame.rates.h / ((frame.most_bpm - frame.least_bpm) / step) < theme.px(17)) step *= 2;
    for (double bpm = std::ceil(frame.least_bpm / step) * step; bpm <= frame.most_bpm + 0.1; bpm += step) {
        const double y = std::round(frame.y_of(bpm)) + 0.5;
        canvas.line({frame.rates.x, y}, {frame.rates.right(), y}, p.rule, 1);
        canvas.text({frame.rates.x - theme.px(8), y + theme.px(4.5)}, fmt::format("{:g}", bpm), small);
    }
}

void draw_time_axis(Canvas& canvas, const StripFrame& frame, const Theme& theme) {
    const Words small{
        .size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink, .align = Align::centre};
    const double shown = frame.view.to_s - frame.view.from_s;
    const double label_w = canvas.measure(minutes_and_seconds(frame.view.to_s), small).w;
    const double step = label_step_s(shown, frame.rates.w, label_w);
    const double y = frame.box.bottom() - theme.px(18);
    for (double s = std::ceil(frame.view.from_s / step - 1e-9) * step; s <= frame.view.to_s + 1e-9;
         s += step) {
        const double x = frame.x_of(s);
        canvas.line({x, y}, {x, y + theme.px(4)}, theme.colour.soft_ink, 1);
        const double half = label_w / 2;
        const double label_x = std::clamp(x, frame.rates.x + half - theme.px(8), frame.box.right() - half);
        canvas.text({label_x, y + theme.px(17)}, minutes_and_seconds(s), small);
    }
}

void draw_windows_wash(Canvas& canvas, const StripContent& content, const StripFrame& frame,
                       const Theme& theme) {
    for (const auto& window : content.windows) {
        const double x0 = std::max(frame.rates.x, frame.x_of(window.from_s));
        const double x1 = std::min(frame.rates.right(), frame.x_of(window.to_s));
        if (x1 <= x0) continue;
        canvas.fill({x0, frame.rates.y, x1 - x0, frame.rates.h}, theme.colour.attention, 0.10);
        for (const double x : {x0, x1})
            canvas.line({x, frame.rates.y}, {x, frame.rates.bottom()}, theme.colour.attention, theme.px(1.4));
    }
}

void draw_window_words(Canvas& canvas, const StripContent& content, const std::vector<Box>& labels,
                       const Theme& theme) {
    const Words bold = window_word(theme);
    for (std::size_t i = 0; i < labels.size(); ++i) {
        const Box& label = labels[i];
        if (label.w <= 0) continue;
        canvas.round_fill(label, theme.px(5), theme.colour.card);
        canvas.round_edge(label, theme.px(5), theme.colour.attention, theme.px(1));
        canvas.text({label.centre().x, label.y + label.h * 0.70}, content.windows[i].says, bold);
    }
}

// A word on a patch of the card's colour, so that it stays readable over lines.
void draw_curve_word(Canvas& canvas, const Box& box, const char* word, const Words& how, Colour ground) {
    if (box.w <= 0) return;
    canvas.round_fill(box, 3, ground, 0.8);
    canvas.text({box.x + 3, box.y + how.size * 0.95}, word, how);
}

void draw_pressure(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme) {
    const Box& box = frame.pressure;
    const auto n = static_cast<std::size_t>(std::max(2.0, std::floor(box.w)));
    const auto columns = columns_of(content.pressure_mmhg, 0.25, frame.view.from_s, frame.view.to_s, n);
    std::vector<Point> top;
    const double column_w = box.w / static_cast<double>(n);
    for (std::size_t c = 0; c < n; ++c)
        if (columns[c].any)
            top.push_back({box.x + (static_cast<double>(c) + 0.5) * column_w,
                           box.bottom() - std::min(1.0, columns[c].high / frame.most_mmhg) * box.h});
    if (top.size() > 1) {
        std::vector<Point> filled = top;
        filled.push_back({top.back().x, box.bottom()});
        filled.push_back({top.front().x, box.bottom()});
        canvas.area(filled, theme.colour.chosen);
        canvas.path(top, theme.colour.act, theme.px(1.4));
    }
    canvas.line({box.x, box.bottom()}, {box.right(), box.bottom()}, theme.colour.act, theme.px(1.4));
    canvas.text({box.x + theme.px(6), box.y + theme.px(6)}, "contractions",
                {.size = theme.px(TypeScale::note), .colour = theme.colour.act});
}

void draw_listened(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme) {
    const Words small{
        .size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink, .align = Align::right};
    const double y = frame.listened.centre().y;
    canvas.line({frame.listened.x, y}, {frame.listened.right(), y}, theme.colour.rule, 1);
    for (const auto& stretch : content.listened) {
        const double x0 = std::max(frame.listened.x, frame.x_of(stretch.from_s));
        const double x1 = std::min(frame.listened.right(), frame.x_of(stretch.to_s));
        if (x1 > x0)
            canvas.round_fill({x0, y - theme.px(4), std::max(x1 - x0, 2.0), theme.px(8)}, theme.px(4),
                              theme.colour.ink);
    }
    canvas.text({frame.listened.x - theme.px(8), y + theme.px(4.5)}, "heard", small);
    for (const auto& stretch : content.skipped) {
        const double x0 = std::max(frame.listened.x, frame.x_of(stretch.from_s));
        const double x1 = std::min(frame.listened.right(), frame.x_of(stretch.to_s));
        if (x1 - x0 > theme.px(52))
            canvas.text(
                {(x0 + x1) / 2, y - theme.px(2)}, "skipped",
                {.size = theme.px(TypeScale::key), .colour = theme.colour.soft_ink, .align = Align::centre});
    }
}

void draw_acts(Canvas& canvas, const StripContent& content, const StripFrame& frame,
               const StripLabels& labels, const Theme& theme) {
    if (frame.acts.h <= 0) return;
    const double r = labels.act_r, y = labels.act_y;
    const Words inside{.size = std::min(theme.px(TypeScale::key), 1.3 * r),
                       .colour = theme.colour.on_act,
                       .bold = true,
                       .align = Align::centre};
    canvas.text({frame.acts.x - theme.px(8), y + theme.px(4.5)}, "acts",
                {.size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink, .align = Align::right});
    for (std::size_t i = 0; i < content.acts.size(); ++i) {
        const double x = labels.act_x[i];
        if (std::isnan(x)) continue;
        const auto& act = content.acts[i];
        const double at = frame.x_of(act.at_s);
        canvas.line({at, frame.pressure.y}, {at, frame.acts.y}, theme.colour.act, theme.px(1), {2, 3});
        canvas.line({at, frame.acts.y}, {x, y - r}, theme.colour.act, theme.px(1), {2, 3});
        canvas.disc({x, y}, r, theme.colour.act);
        canvas.text({x, y + inside.size * 0.36}, fmt::format("{}", act.number), inside);
        if (const Box& words = labels.act_words[i]; words.w > 0)
            canvas.short_text({words.x, y + theme.px(4.5)}, act.says,
                              {.size = theme.px(TypeScale::note), .colour = theme.colour.ink}, words.w);
    }
}

}  // namespace

StripFrame strip_frame(const StripContent& content, Box box, StripView view, double scale) {
    StripFrame frame;
    frame.box = box;
    frame.view = view;
    const double left = 52 * scale, axis = 22 * scale, lane = 22 * scale, gap = 8 * scale;
    frame.acts = {box.x + left, 0, box.w - left, content.acts.empty() ? 0 : lane};
    frame.taps = {box.x + left, 0, box.w - left, content.taps.empty() ? 0 : lane};
    frame.listened = {box.x + left, 0, box.w - left, 16 * scale};
    const double head = 8 * scale;  // half a label of the rate axis, the play line's head
    const double rest = box.h - head - axis - frame.acts.h - frame.taps.h - frame.listened.h - 3 * gap;
    frame.rates = {box.x + left, box.y + head, box.w - left, std::max(20.0, rest * 0.80)};
    frame.pressure = {box.x + left, frame.rates.bottom() + gap, box.w - left, std::max(8.0, rest * 0.20)};
    frame.taps.y = frame.pressure.bottom() + gap;
    frame.acts.y = frame.taps.bottom();
    frame.listened.y = frame.acts.bottom() + gap / 2;
    frame.most_bpm = std::ceil(std::max(highest(content.baby, highest(content.second_baby, 180)),
                                        highest(content.mother, 180)) /
                               20) *
                     20;
    frame.least_bpm = std::floor(std::min(lowest(content.baby, lowest(content.second_baby, 70)),
                                          lowest(content.mother, 70)) /
                                 20) *
                      20;
    frame.most_mmhg = std::max(60.0, highest(content.pressure_mmhg, 0) * 1.1);
    return frame;
}

void draw_strip(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme) {
    const Palette& p = theme.colour;
    draw_rate_axis(canvas, content, frame, theme);
    draw_windows_wash(canvas, content, frame, theme);
    draw_dashed_curve(canvas, frame, content.mother, p.soft_ink, theme.px(1.5));
    if (!content.second_baby.empty()) draw_curve(canvas, frame, content.second_baby, p.act, theme.px(1.3));
    draw_curve(canvas, frame, content.baby, p.ink, theme.px(1.8));

    const double note = theme.px(TypeScale::note);
    const StripLabels labels = strip_labels(canvas, content, frame, theme);
    if (const Box& band = labels.band; band.w > 0) {
        canvas.round_fill(band, 3, p.card, 0.85);
        canvas.short_text({band.x + theme.px(5), band.y + note}, content.band.says,
                          {.size = note, .colour = p.fine}, frame.rates.w * 0.6);
    }
    draw_curve_word(canvas, labels.baby, baby_word(content), {.size = note, .colour = p.ink, .bold = true},
                    p.card);
    draw_curve_word(canvas, labels.second_baby, "second baby", {.size = note, .colour = p.act, .bold = true},
                    p.card);
    draw_curve_word(canvas, labels.mother, "mother", {.size = note, .colour = p.soft_ink}, p.card);
    draw_series(canvas, content, frame, theme);
    draw_pressure(canvas, content, frame, theme);
    draw_taps(canvas, content, frame, theme);
    draw_acts(canvas, content, frame, labels, theme);
    draw_listened(canvas, content, frame, theme);
    draw_time_axis(canvas, frame, theme);
    draw_window_words(canvas, content, labels.windows, theme);
}

void draw_play_line(Canvas& canvas, const StripFrame& frame, double at_s, const Theme& theme) {
    if (at_s < frame.view.from_s || at_s > frame.view.to_s) return;
    const double x = frame.x_of(at_s), r = theme.px(7);
    canvas.line({x, frame.rates.y}, {x, frame.listened.bottom()}, theme.colour.act, theme.px(2.4));
    const Point head[] = {
        {x - r, frame.rates.y - r}, {x + r, frame.rates.y - r}, {x, frame.rates.y + r * 0.6}};
    canvas.area(head, theme.colour.act);
}

}  // namespace ui
