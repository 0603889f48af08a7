#include "ui/paper/sheet_page.h"

#include "engine/attempt/event.h"
#include "ui/canvas/surface.h"
#include "ui/paper/few_colours.h"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

namespace ui {
namespace {

constexpr double page_w = 841.89, page_h = 595.28;  // A4 across, points
constexpr double margin = 26, head_h = 46, foot_h = 14, apart = 12;
constexpr std::size_t rows_a_page = 3;
constexpr double png_scale = 1.75;  // points of the screen a point of paper

Words set(const Theme& theme, double size, Colour colour, bool bold = false, Align align = Align::left) {
    return {.size = theme.px(size), .colour = colour, .bold = bold, .align = align};
}

// Filled: the mother's artery; hollow: the blow of her womb.
void diamond(Canvas& canvas, Point c, bool filled, const Theme& theme) {
    const double r = theme.px(4.5);
    const Point corners[] = {{c.x, c.y - r}, {c.x + r, c.y}, {c.x, c.y + r}, {c.x - r, c.y}};
    canvas.area(corners, theme.colour.attention);
    if (!filled) canvas.disc(c, r * 0.42, theme.colour.card);
}

void draw_legend(Canvas& canvas, Box box, const Theme& theme) {
    const Palette& p = theme.colour;
    const Words note = set(theme, TypeScale::note, p.ink);
    double x = box.x;
    const double y = box.y + theme.px(6), r = theme.px(4);
    const auto entry = [&](const std::string& says, const auto& mark) {
        mark(x);
        x += theme.px(10);
        x += canvas.text({x, box.y + theme.px(10)}, says, note) + theme.px(16);
    };
    entry("baby's beat", [&](double at) {
        const Point wedge[] = {{at - r, y - r}, {at + r, y - r}, {at, y + r}};
        canvas.area(wedge, p.ink);
    });
    entry("second baby's", [&](double at) {
        const Point wedge[] = {{at - r, y - r}, {at + r, y - r}, {at, y + r}};
        canvas.area(wedge, p.act);
        canvas.disc({at, y - r * 0.35}, r * 0.4, p.card);
    });
    entry("mother's pulse", [&](double at) {
        canvas.fill({at - r * 0.7, y - r * 0.7, r * 1.4, r * 1.4}, p.ink);
    });
    entry("artery", [&](double at) { diamond(canvas, {at, y}, true, theme); });
    entry("womb blow", [&](double at) { diamond(canvas, {at, y}, false, theme); });
    draw_spectrogram_key(canvas, {box.right() - theme.px(250), box.y, theme.px(230), theme.px(26)}, theme);
    canvas.text({box.right() - theme.px(262), box.y + theme.px(10)}, "sound, under the loudest of its panel:",
                set(theme, TypeScale::note, p.ink, false, Align::right));
}

void draw_head(Canvas& canvas, const Theme& theme, int page, std::size_t of) {
    const Palette& p = theme.colour;
    canvas.fill({0, 0, page_w, page_h}, p.page);
    canvas.text({margin, margin + theme.px(14)},
                of > 1 ? fmt::format("Contact sheet, page {} of {}", page, of) : std::string("Contact sheet"),
                set(theme, TypeScale::title, p.ink, true));
    canvas.text({page_w - margin, margin + theme.px(14)},
                "For authors and engineers. It shows what is true: never show it to trainees.",
                set(theme, TypeScale::text, p.attention, true, Align::right));
    draw_legend(canvas, {margin, margin + theme.px(34), page_w - 2 * margin, theme.px(30)}, theme);
}

void draw_sounds(Canvas& canvas, Box box, const SheetRow& row, const Theme& theme) {
    if (row.sounds.empty()) return;
    const std::size_t shown = std::min<std::size_t>(row.sounds.size(), 2);
    const double gap = 5, h = (box.h - gap * static_cast<double>(shown - 1)) / static_cast<double>(shown);
    for (std::size_t i = 0; i < shown; ++i) {
        const SheetSound& s = row.sounds[i];
        const auto strongest = s.spectrogram.strongest();
        draw_spectrogram(canvas, {box.x, box.y + static_cast<double>(i) * (h + gap), box.w, h}, s.spectrogram,
                         s.marks, std::string(engine::name_of(s.with)) + ", Hz",
                         fmt::format("at {:.1f}, {:.1f} cm; peak {:.0f} dBFS, most at {:.0f} Hz", s.x_cm,
                                     s.y_cm, s.peak_db, strongest.hz),
                         theme);
    }
}

// The minute that stands beside the course, on it.
void mark_minute(Canvas& canvas, const SheetRow& row, const StripFrame& frame, const Theme& theme) {
    const double x0 = frame.x_of(row.from_s), x1 = frame.x_of(row.from_s + sheet_minute_s);
    canvas.fill({x0, frame.rates.y, x1 - x0, frame.rates.h}, theme.colour.attention, 0.12);
    for (const double x : {x0, x1})
        canvas.line({x, frame.rates.y}, {x, frame.rates.bottom()}, theme.colour.attention, theme.px(1.4));
}

// A belly in outline with lines of equal loudness: the shaded drawing would hide them at this size.
void draw_small_map(Canvas& canvas, Box box, const SheetRow& row, const Theme& theme) {
    const Palette& p = theme.colour;
    const Loudness& l = row.map.loudness;
    const double foot = theme.px(30);
    const double k = std::min(box.w / 33.0, (box.h - foot) / 39.0);  // points a centimetre
    const Point navel{box.x + box.w / 2, box.y + 20.5 * k};
    const auto at = [&](double x, double y) { return Point{navel.x + x * k, navel.y - y * k}; };
    canvas.round_edge({navel.x - 16 * k, box.y, 32 * k, 39 * k}, 11 * k, p.soft_ink, theme.px(1.2));
    canvas.ring(navel, 0.6 * k, p.soft_ink, theme.px(1.2));
    if (row.map.heart && l.best_db > -100) {
        struct Line {
            double under_db, width;
        };
        constexpr Line lines[] = {{24, 0.7}, {12, 1.1}, {6, 1.7}, {3, 2.4}};
        for (const Line& line : lines)
            for (const LevelPiece& piece : level_line(l, l.best_db - line.under_db))
                canvas.line(at(piece.from.x, piece.from.y), at(piece.to.x, piece.to.y), p.act,
                            theme.px(line.width));
        const Point best = at(l.best_x, l.best_y);
        const double r = theme.px(5);
        canvas.line({best.x - r, best.y}, {best.x + r, best.y}, p.fine, theme.px(2));
        canvas.line({best.x, best.y - r}, {best.x, best.y + r}, p.fine, theme.px(2));
    }
    for (const SheetRival& rival : row.rivals)
        diamond(canvas, at(rival.x_cm, rival.y_cm), rival.vessel, theme);
    const double y = box.bottom() - foot + theme.px(13);
    canvas.text({box.x, y},
                row.map.heart ? fmt::format("+ {:.1f}, {:.1f} cm", l.best_x, l.best_y) : "no heart there",
                set(theme, TypeScale::key, row.map.heart ? p.fine : p.attention, true));
    if (row.map.heart)
        canvas.text({box.x, y + theme.px(13)}, "lines: 3, 6, 12, 24 dB less",
                    set(theme, TypeScale::key, p.act));
}

void draw_row(Canvas& canvas, Box box, const SheetRow& row, const Theme& theme) {
    const Palette& p = theme.colour;
    canvas.card(box, p, 5);
    const Box in = box.inset(6);
    const double name_w =
        canvas.text({in.x, in.y + theme.px(13)}, row.heading, set(theme, TypeScale::text, p.ink, true));
    canvas.short_text({in.x + name_w + theme.px(14), in.y + theme.px(13)}, row.truth,
                      set(theme, TypeScale::note, p.soft_ink), in.w - name_w - theme.px(14));
    const double top = in.y + theme.px(24), h = in.bottom() - top;
    const double map_w = 104, dots_w = 158, sound_w = 224, gap = 8;
    const double strip_w = in.w - map_w - dots_w - sound_w - 3 * gap;
    const auto label = [&](double x, const std::string& says) {
        canvas.text({x, top + theme.px(11)}, says, set(theme, TypeScale::note, p.ink, true));
    };
    label(in.x, "Course: beats a minute, contractions");
    const Box strip{in.x, top + theme.px(18), strip_w, h - theme.px(18)};
    const StripFrame frame = strip_frame(row.strip, strip, whole(row.strip), theme.scale);
    draw_strip(canvas, row.strip, frame, theme);
    mark_minute(canvas, row, frame, theme);
    const double dots_x = in.x + strip_w + gap;
    label(dots_x, "Beat to beat in the minute marked");
    draw_beat_dots(canvas, {dots_x, top + theme.px(18), dots_w, h - theme.px(18)}, row.dots, theme);
    draw_sounds(canvas, {dots_x + dots_w + gap, top - theme.px(3), sound_w, h + theme.px(3)}, row, theme);
    const double map_x = in.right() - map_w;
    label(map_x, "Loudness, " + std::string(engine::name_of(row.map.instrument)));
    draw_small_map(canvas, {map_x, top + theme.px(18), map_w, h - theme.px(18)}, row, theme);
}

}  // namespace

engine::Outcome<engine::Done> write_sheet(const std::vector<SheetRow>& rows, const std::string& foot,
                                          const std::string& path) {
    Theme theme;
    theme.scale = 0.56;
    std::vector<std::function<void(Canvas&)>> pages;
    const std::size_t of = (rows.size() + rows_a_page - 1) / rows_a_page;
    for (std::size_t page = 0; page < of; ++page)
        pages.push_back([&rows, &foot, theme, page, of](Canvas& canvas) {
            draw_head(canvas, theme, static_cast<int>(page) + 1, of);
            const double each = (page_h - 2 * margin - head_h - foot_h - apart * (rows_a_page - 1)) /
                                static_cast<double>(rows_a_page);
            for (std::size_t i = 0; i < rows_a_page && page * rows_a_page + i < rows.size(); ++i)
                draw_row(canvas,
                         {margin, margin + head_h + static_cast<double>(i) * (each + apart),
                          page_w - 2 * margin, each},
                         rows[page * rows_a_page + i], theme);
            canvas.text({margin, page_h - margin + 4}, foot,
                        set(theme, TypeScale::note, theme.colour.soft_ink));
        });
    if (path.ends_with(".png")) {  // one page below the other
        Picture picture(static_cast<int>(page_w * png_scale),
                        static_cast<int>(page_h * png_scale) * static_cast<int>(of));
        cairo_t* context = picture.canvas().context();
        for (std::size_t page = 0; page < of; ++page) {
            cairo_save(context);
            cairo_translate(context, 0, std::floor(page_h * png_scale) * static_cast<double>(page));
            cairo_scale(context, png_scale, png_scale);
            pages[page](picture.canvas());
            cairo_restore(context);
        }
        return write_png_few_colours(picture, path);
    }
    PageMade made;
    made.width = page_w;
    made.height = page_h;
    made.title = "Contact sheet";
    return write_pages(path, made, pages);
}

}  // namespace ui
