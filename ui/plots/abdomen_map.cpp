#include "ui/plots/abdomen_map.h"

#include "engine/attempt/event.h"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstring>

namespace ui {
namespace {

struct Step {
    double under_db, width, share;
};
constexpr Step steps[] = {{12, 1.0, 0.22}, {6, 1.4, 0.28}, {3, 1.8, 0.36}};

// How strong the wash is for a level `under` dB below the best: soft steps, not edges.
double wash(double under) {
    double share = 0;
    for (const Step& step : steps) {
        const double k = std::clamp((step.under_db - under) / 1.2 + 0.5, 0.0, 1.0);
        share += (1 - share) * step.share * k;
    }
    return share;
}

void draw_wash(Canvas& canvas, const Loudness& l, const AbdomenFrame& frame, Colour colour) {
    constexpr int fine = 4;
    const int w = (l.columns - 1) * fine + 1, h = (l.rows - 1) * fine + 1;
    if (w < 2 || h < 2) return;
    cairo_surface_t* surface = cairo_image_surface_create(CAIRO_FORMAT_ARGB32, w, h);
    cairo_surface_flush(surface);
    unsigned char* rows = cairo_image_surface_get_data(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    for (int y = 0; y < h; ++y)
        for (int x = 0; x < w; ++x) {
            const int c = std::min(x / fine, l.columns - 2), r = std::min(y / fine, l.rows - 2);
            const double u = static_cast<double>(x) / fine - c, v = static_cast<double>(y) / fine - r;
            const double level = (l.at(c, r) * (1 - u) + l.at(c + 1, r) * u) * (1 - v) +
                                 (l.at(c, r + 1) * (1 - u) + l.at(c + 1, r + 1) * u) * v;
            const double a = wash(l.best_db - level);
            const auto part = [a](double k) { return static_cast<std::uint32_t>(std::lround(k * a)); };
            const std::uint32_t word =
                part(255) << 24 | part(colour.red) << 16 | part(colour.green) << 8 | part(colour.blue);
            std::memcpy(rows + (h - 1 - y) * stride + x * 4, &word, 4);
        }
    cairo_surface_mark_dirty(surface);
    cairo_t* c = canvas.context();
    cairo_save(c);
    const double k = l.step / fine * frame.px_per_cm;
    const Point corner = frame.to_page(l.x_from, l.y_from + (l.rows - 1) * l.step);
    cairo_translate(c, corner.x - k / 2, corner.y - k / 2);
    cairo_scale(c, k, k);
    cairo_set_source_surface(c, surface, 0, 0);
    cairo_pattern_set_filter(cairo_get_source(c), CAIRO_FILTER_BILINEAR);
    cairo_rectangle(c, 0, 0, w, h);
    cairo_fill(c);
    cairo_restore(c);
    cairo_surface_destroy(surface);
}

void draw_best(Canvas& canvas, const MapContent& content, const AbdomenFrame& frame, const Theme& theme) {
    const Point at = frame.to_page(content.loudness.best_x, content.loudness.best_y);
    const double r = theme.px(16);  // round a number that may lie on it
    canvas.ring(at, r, theme.colour.card, theme.px(5));
    canvas.ring(at, r, theme.colour.fine, theme.px(2.6));
    for (const double turn : {0.0, 1.0, 2.0, 3.0}) {
        const double dx = turn == 0 ? 1 : turn == 2 ? -1 : 0, dy = turn == 1 ? 1 : turn == 3 ? -1 : 0;
        canvas.line({at.x + dx * r * 0.8, at.y + dy * r * 0.8}, {at.x + dx * r * 1.35, at.y + dy * r * 1.35},
                    theme.colour.fine, theme.px(2.2));
    }
}

void label(Canvas& canvas, Point at, const std::string& says, Colour colour, const AbdomenFrame& frame,
           const Theme& theme) {
    const Words how{.size = theme.px(TypeScale::note), .colour = colour, .bold = true};
    const double w = canvas.measure(says, how).w + theme.px(10), h = theme.px(20);
    const Box box{std::clamp(at.x, frame.box.x + 4, std::max(frame.box.x + 4, frame.box.right() - w - 4)),
                  std::clamp(at.y - h / 2, frame.box.y + 2, frame.box.bottom() - h - 2), w, h};
    canvas.round_fill(box, theme.px(5), theme.colour.card, 0.92);
    canvas.text({box.x + theme.px(5), box.y + h * 0.72}, says, how);
}

void draw_paths(Canvas& canvas, const MapContent& content, const AbdomenFrame& frame, const Theme& theme) {
    std::vector<Point> points;
    for (std::size_t i = 0; i < content.paths.size(); ++i) {
        points.clear();
        for (const auto& place : content.paths[i]) points.push_back(frame.to_page(place.x_cm, place.y_cm));
        if (points.empty()) continue;
        canvas.path(points, theme.colour.card, theme.px(5));
        canvas.path(points, theme.colour.ink, theme.px(2), {4, 4});
        if (points.size() > 1) canvas.disc(points.front(), theme.px(4), theme.colour.ink);
    }
    // Spells that ended at the same place share one label: "1, 2".
    struct End {
        Point at;
        std::string says;
    };
    std::vector<End> ends;
    for (std::size_t i = 0; i < content.paths.size(); ++i) {
        if (content.paths[i].empty()) continue;
        const Point at = frame.to_page(content.paths[i].back().x_cm, content.paths[i].back().y_cm);
        const auto near = std::find_if(ends.begin(), ends.end(), [&](const End& e) {
            return std::hypot(e.at.x - at.x, e.at.y - at.y) < theme.px(20);
        });
        if (near == ends.end())
            ends.push_back({at, fmt::format("{}", i + 1)});
        else
            near->says += fmt::format(", {}", i + 1);
    }
    const Words number{
        .size = theme.px(TypeScale::note), .colour = theme.colour.card, .bold = true, .align = Align::centre};
    for (const End& end : ends) {
        const double h = theme.px(22), w = std::max(h, canvas.measure(end.says, number).w + theme.px(14));
        const Box pill{end.at.x - w / 2, end.at.y - h / 2, w, h};
        canvas.round_fill(pill.inset(-theme.px(1.6)), h, theme.colour.card);
        canvas.round_fill(pill, h, theme.colour.attention);
        canvas.text({end.at.x, end.at.y + theme.px(4.8)}, end.says, number);
    }
}

}  // namespace

void draw_abdomen_map(Canvas& canvas, const MapContent& content, const AbdomenFrame& frame,
                      const Theme& theme) {
    draw_abdomen(canvas, frame);
    const Canvas::Clip inside(canvas, frame.box);
    const Loudness& l = content.loudness;
    if (content.heart && l.best_db > -100) {
        draw_wash(canvas, l, frame, theme.colour.chosen);
        for (const Step& step : steps)
            for (const LevelPiece& piece : level_line(l, l.best_db - step.under_db))
                canvas.line(frame.to_page(piece.from.x, piece.from.y), frame.to_page(piece.to.x, piece.to.y),
                            theme.colour.act, theme.px(step.width));
    }
    if (!content.rival_says.empty()) {
        const Point at = frame.to_page(content.rival_x, content.rival_y);
        const double r = theme.px(6);
        const Point diamond[] = {{at.x, at.y - r}, {at.x + r, at.y}, {at.x, at.y + r}, {at.x - r, at.y}};
        canvas.area(diamond, theme.colour.ink);
        label(canvas, {at.x + theme.px(10), at.y}, content.rival_says, theme.colour.ink, frame, theme);
    }
    draw_paths(canvas, content, frame, theme);
    if (content.heart && l.best_db > -100) {
        draw_best(canvas, content, frame, theme);
        const Point at = frame.to_page(l.best_x, l.best_y);
        label(canvas, {at.x + theme.px(20), at.y - theme.px(20)}, "loudest", theme.colour.fine, frame, theme);
    }
    label(canvas, {frame.box.x + theme.px(6), frame.box.bottom() - theme.px(16)}, "her right",
          theme.colour.ink, frame, theme);
    label(canvas, {frame.box.right(), frame.box.bottom() - theme.px(16)}, "her left", theme.colour.ink, frame,
          theme);
}

double draw_map_key(Canvas& canvas, Box box, const MapContent& content, const Theme& theme) {
    const Words how{.size = theme.px(TypeScale::text), .colour = theme.colour.ink};
    const double mark_w = theme.px(34), gap = theme.px(8);
    double y = box.y;
    const auto row = [&](const std::string& says, const auto& mark) {
        const TextSize size = canvas.block({box.x + mark_w, y, box.w - mark_w, box.bottom() - y}, says, how);
        mark(Point{box.x + theme.px(12), y + theme.px(11)});
        y += size.h + gap;
    };
    if (content.heart && content.loudness.best_db > -100) {
        std::string name(engine::name_of(content.instrument));
        if (content.instrument == sim::Instrument::doppler) name = "Doppler";  // a man's name
        row(fmt::format("loudest through the {}: {:.1f} cm to her {}, {:.1f} cm {} the navel", name,
                        std::fabs(content.loudness.best_x), content.loudness.best_x < 0 ? "right" : "left",
                        std::fabs(content.loudness.best_y), content.loudness.best_y < 0 ? "below" : "above"),
            [&](Point at) {
                canvas.ring(at, theme.px(7), theme.colour.fine, theme.px(2.4));
                canvas.disc(at, theme.px(2), theme.colour.fine);
            });
        row("lines: 3, 6 and 12 dB quieter than there", [&](Point at) {
            for (const double r : {3.5, 6.5, 10.0})
                canvas.ring(at, theme.px(r), theme.colour.act, theme.px(1.3));
        });
    } else {
        row("there was no heart to be found",
            [&](Point at) { canvas.open_circle_mark(at, theme.px(18), theme.colour.ink); });
    }
    if (!content.paths.empty())
        row(content.paths.size() == 1 ? "where you held it last; dashes: the way there"
                                      : "where you held it last, spell by spell; dashes: the way there",
            [&](Point at) {
                canvas.disc(at, theme.px(10), theme.colour.attention);
                canvas.text({at.x, at.y + theme.px(4.5)}, "1",
                            {.size = theme.px(TypeScale::note),
                             .colour = theme.colour.card,
                             .bold = true,
                             .align = Align::centre});
            });
    return y - box.y;
}

}  // namespace ui
