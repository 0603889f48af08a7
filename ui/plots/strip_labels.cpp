#include "ui/plots/strip_labels.h"

#include "ui/plots/columns.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <span>

namespace ui {
namespace {

// The one list of what is taken in the plot of the rates.
class Places {
public:
    Places(Box within, double gap) : within_(within), gap_(gap) {}
    bool take(Box box) {
        if (box.x < within_.x - 0.01 || box.right() > within_.right() + 0.01 || box.y < within_.y - 0.01 ||
            box.bottom() > within_.bottom() + 0.01)
            return false;
        for (const Box& other : taken_)
            if (box.x < other.right() + gap_ && other.x < box.right() + gap_ &&
                box.y < other.bottom() + gap_ && other.y < box.bottom() + gap_)
                return false;
        taken_.push_back(box);
        return true;
    }

private:
    Box within_;
    double gap_;
    std::vector<Box> taken_;
};

// Would the box lie on a heart's curve? Words that hide a rate over the band hide what matters most.
bool on_a_curve(const StripContent& content, const StripFrame& frame, const Box& box) {
    for (const std::vector<double>* curve : {&content.baby, &content.second_baby, &content.mother})
        for (double px = box.x; px <= box.right(); px += 2)
            if (const double v = value_at(*curve, 0.25, frame.s_at(px)); v > 0)
                if (const double y = frame.y_of(v); y > box.y - 1 && y < box.bottom() + 1) return true;
    return false;
}

std::vector<Box> window_boxes(Canvas& canvas, const StripContent& content, const StripFrame& frame,
                              const Theme& theme, Places& places) {
    const double h = theme.px(22);
    const Words how = window_word(theme);
    std::vector<Box> boxes;
    for (const auto& window : content.windows) {
        boxes.push_back({});
        if (window.says.empty()) continue;
        const double x0 = frame.x_of(window.from_s), x1 = frame.x_of(window.to_s);
        if (x1 <= frame.rates.x || x0 >= frame.rates.right()) continue;
        const double w = canvas.measure(window.says, how).w + theme.px(14);
        const double furthest = std::max(frame.rates.x, frame.rates.right() - w);
        const double wanted = w > x1 - x0 ? (x0 + x1 - w) / 2 : std::max(x0, frame.rates.x) + theme.px(4);
        for (const bool clear : {true, false}) {  // beside the curves; else on them rather than nowhere
            Box box{std::clamp(wanted, frame.rates.x, furthest), frame.rates.y + theme.px(4), w, h};
            for (; box.bottom() <= frame.rates.bottom() && boxes.back().w <= 0; box.y += h + theme.px(3))
                if (!(clear && on_a_curve(content, frame, box)) && places.take(box)) boxes.back() = box;
        }
    }
    return boxes;
}

// Above the band's upper line, as far right as there is room; else at another edge of the band: first where
// no heart runs, then anywhere.
Box band_box(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme,
             Places& places) {
    if (content.band.says.empty()) return {};
    const double note = theme.px(TypeScale::note), h = note * 1.25;
    const double w =
        std::min(canvas.measure(content.band.says, {.size = note}).w, frame.rates.w * 0.6) + theme.px(10);
    const double upper = frame.y_of(content.band.to_bpm), lower = frame.y_of(content.band.from_bpm);
    for (const bool clear : {true, false})
        for (const double y : {std::max(frame.rates.y, upper - note * 1.4), upper + note * 0.3,
                               lower - note * 1.5, lower + note * 0.2})
            for (double right = frame.rates.right(); right - w >= frame.rates.x; right -= theme.px(4))
                if (const Box box{right - w, y, w, h};
                    !(clear && on_a_curve(content, frame, box)) && places.take(box))
                    return box;
    return {};
}

// Beside the curve, `above` or below it, at the first of forty places along it where there is room.
Box curve_box(Canvas& canvas, const StripFrame& frame, std::span<const double> values, const char* word,
              const Words& how, double away, bool above, Places& places) {
    const double w = canvas.measure(word, how).w + 6, h = how.size * 1.25;
    const double step = (frame.view.to_s - frame.view.from_s) / 40;
    for (double s = frame.view.from_s; s < frame.view.to_s; s += step) {
        if (value_at(values, 0.25, s) <= 0) continue;
        const double x = std::min(frame.x_of(s) + 7, frame.rates.right() - w);
        double top = value_at(values, 0.25, s), low = top;
        for (double px = x; px < x + w; px += 2)
            if (const double v = value_at(values, 0.25, frame.s_at(px)); v > 0) {
                top = std::max(top, v);
                low = std::min(low, v);
            }
        for (const bool over : {above, !above}) {
            double y = over ? frame.y_of(top) - away - how.size * 0.95 : frame.y_of(low) + away;
            y = std::clamp(y, frame.rates.y, std::max(frame.rates.y, frame.rates.bottom() - h));
            if (const Box box{x, y, w, h}; places.take(box)) return box;
        }
    }
    return {};
}

// Discs side by side: pushed right by the one before, then back left from the end.
void put_acts(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme,
              StripLabels& labels) {
    const std::size_t n = content.acts.size();
    labels.act_x.assign(n, std::numeric_limits<double>::quiet_NaN());
    labels.act_words.assign(n, Box{});
    labels.act_y = frame.acts.centre().y;
    std::vector<std::size_t> seen;
    for (std::size_t i = 0; i < n; ++i) {
        const double at = frame.x_of(content.acts[i].at_s);
        if (at >= frame.acts.x - 1 && at <= frame.acts.right() + 1) seen.push_back(i);
    }
    if (frame.acts.h <= 0 || seen.empty()) return;
    const double room = frame.acts.w / static_cast<double>(seen.size());
    const double apart = std::min(2 * theme.px(9) + 1, room);
    const double r = labels.act_r = (apart - 1) / 2;
    double least = frame.acts.x + r;
    for (const std::size_t i : seen) {
        labels.act_x[i] = std::max(frame.x_of(content.acts[i].at_s), least);
        least = labels.act_x[i] + apart;
    }
    double most = frame.acts.right() - r;
    for (auto i = seen.rbegin(); i != seen.rend(); ++i) {
        labels.act_x[*i] = std::min(labels.act_x[*i], most);
        most = labels.act_x[*i] - apart;
    }
    const double note = theme.px(TypeScale::note);
    for (std::size_t k = 0; k < seen.size(); ++k) {
        const double from = labels.act_x[seen[k]] + r + theme.px(5);
        const double to =
            (k + 1 < seen.size() ? labels.act_x[seen[k + 1]] - r : frame.acts.right()) - theme.px(4);
        if (to - from < theme.px(90)) continue;
        const double w = canvas.measure(content.acts[seen[k]].says, {.size = note}).w + 1;
        labels.act_words[seen[k]] = {from, frame.acts.centre().y - note * 0.65,
                                     std::min({w, to - from, theme.px(230)}), note * 1.25};
    }
}

}  // namespace

Words window_word(const Theme& theme) {
    return {.size = theme.px(TypeScale::note),
            .colour = theme.colour.attention,
            .bold = true,
            .align = Align::centre};
}

const char* baby_word(const StripContent& content) {
    return content.second_baby.empty() ? "baby" : "first baby";
}

StripLabels strip_labels(Canvas& canvas, const StripContent& content, const StripFrame& frame,
                         const Theme& theme) {
    StripLabels labels;
    Places places(frame.rates, theme.px(2));
    labels.windows = window_boxes(canvas, content, frame, theme, places);
    labels.band = band_box(canvas, content, frame, theme, places);
    const double note = theme.px(TypeScale::note);
    const Words plain{.size = note}, bold{.size = note, .bold = true};
    labels.baby = curve_box(canvas, frame, content.baby, baby_word(content), bold, theme.px(7), true, places);
    if (!content.second_baby.empty())
        labels.second_baby =
            curve_box(canvas, frame, content.second_baby, "second baby", bold, theme.px(5), false, places);
    labels.mother = curve_box(canvas, frame, content.mother, "mother", plain, theme.px(6), true, places);
    put_acts(canvas, content, frame, theme, labels);
    return labels;
}

std::vector<Box> StripLabels::taken() const {
    std::vector<Box> all;
    const auto add = [&](const Box& box) {
        if (box.w > 0) all.push_back(box);
    };
    for (const Box& box : windows) add(box);
    for (const Box& box : {band, baby, second_baby, mother}) add(box);
    for (std::size_t i = 0; i < act_x.size(); ++i)
        if (!std::isnan(act_x[i])) {
            add({act_x[i] - act_r, act_y - act_r, 2 * act_r, 2 * act_r});
            add(act_words[i]);
        }
    return all;
}

}  // namespace ui
