#include "ui/paper/debrief_page.h"

#include "ui/canvas/surface.h"
#include "ui/paper/flow.h"
#include "ui/paper/verdict_words.h"
#include "ui/plots/abdomen_map.h"
#include "ui/plots/breakdown.h"
#include "ui/plots/places_to_hear.h"
#include "ui/plots/strip.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <utility>

namespace ui {
namespace {

constexpr double paper_scale = 0.66;  // 16 on screen = 10.6 points on paper
constexpr double margin = 40, foot = 62;

// Measured with plenty of room: a part grows downwards as far as its words need.
Box open_ended(Box box) { return {box.x, box.y, box.w, 1e5}; }

struct Paper {
    const engine::JudgedAttempt& judged;
    Theme theme;
    StripContent strip;
    MapContent map;

    Words note(Colour colour) const { return {.size = theme.px(TypeScale::note), .colour = colour}; }
    Words text() const { return {.size = theme.px(TypeScale::text), .colour = theme.colour.ink}; }
    Words strong() const {
        return {.size = theme.px(TypeScale::text), .colour = theme.colour.ink, .bold = true};
    }
};

double draw_title(const Paper& paper, Canvas& canvas, Box box) {
    const Palette& p = paper.theme.colour;
    const Words title{.size = paper.theme.px(TypeScale::title), .colour = p.ink, .bold = true};
    canvas.text({box.x, box.y + title.size}, "Debrief", title);
    Words right = paper.text();
    right.align = Align::right;
    const std::string& person = paper.judged.attempt.header.person;
    if (!person.empty()) canvas.text({box.right(), box.y + title.size}, person, right);
    double y = box.y + title.size * 1.5;
    y += canvas.block(open_ended({box.x, y, box.w, 0}), paper.judged.scenario.title, paper.strong()).h + 2;
    const engine::Protocol& protocol = paper.judged.protocol;
    std::string by = "Judged by: " + (protocol.title.empty() ? protocol.id : protocol.title);
    if (!by.ends_with('.')) by += '.';
    y += canvas.block(open_ended({box.x, y, box.w, 0}), by, paper.note(p.soft_ink)).h + 1;
    if (protocol.from_memory) {
        draw_mark(canvas, Mark::warning, {box.x + 5, y + 6.5}, 10, p.attention);
        y +=
            canvas
                .block(open_ended({box.x + 15, y, box.w - 15, 0}), from_memory_words, paper.note(p.attention))
                .h;
    }
    if (paper.judged.sheet.boundary)
        y += canvas.block(open_ended({box.x, y, box.w, 0}), boundary_words, paper.note(p.attention)).h;
    if (!paper.judged.sheet.finished)
        y += canvas
                 .block(open_ended({box.x, y, box.w, 0}),
                        "This attempt was not finished: judged as far as it went.", paper.note(p.attention))
                 .h;
    return y - box.y;
}

double draw_strip_part(const Paper& paper, Canvas& canvas, Box box) {
    constexpr double h = 226;
    const Box card{box.x, box.y, box.w, h};
    canvas.card(card, paper.theme.colour, 6);
    const StripFrame frame = strip_frame(paper.strip, {card.x + 6, card.y + 12, card.w - 18, h - 18},
                                         whole(paper.strip), paper.theme.scale);
    draw_strip(canvas, paper.strip, frame, paper.theme);
    draw_places_to_hear(canvas, places_to_hear(paper.judged.sheet.next_time, frame, paper.theme.scale),
                        paper.theme);
    return h;
}

double draw_heading(const Paper& paper, Canvas& canvas, Box box, const std::string& says) {
    const double size = paper.theme.px(TypeScale::card);
    canvas.line({box.x, box.y + 0.5}, {box.right(), box.y + 0.5}, paper.theme.colour.rule, 0.7);
    canvas.text({box.x, box.y + 6 + size}, says,
                {.size = size, .colour = paper.theme.colour.ink, .bold = true});
    return 6 + size * 1.35;
}

double draw_numbered(const Paper& paper, Canvas& canvas, Box box, int number, const std::string& says) {
    const double r = paper.theme.px(11);
    canvas.disc({box.x + r, box.y + r}, r, paper.theme.colour.ink);
    canvas.text({box.x + r, box.y + r + paper.theme.px(4.6)}, fmt::format("{}", number),
                {.size = paper.theme.px(TypeScale::note),
                 .colour = paper.theme.colour.on_act,
                 .bold = true,
                 .align = Align::centre});
    return std::max(
        2 * r, canvas.block(open_ended({box.x + 3.2 * r, box.y, box.w - 3.2 * r, 0}), says, paper.text()).h);
}

// Up to two counts side by side.
double draw_counts(const Paper& paper, Canvas& canvas, Box box, std::size_t first) {
    const auto& windows = paper.judged.sheet.windows;
    const double gap = 24, w = (box.w - gap) / 2;
    double most = 0;
    for (std::size_t i = first; i < std::min(first + 2, windows.size()); ++i) {
        const engine::WindowScore& window = windows[i];
        const Box column{box.x + static_cast<double>(i - first) * (w + gap), box.y, w, box.h};
        double y = column.y;
        const std::string title = fmt::format(
            "{} to {}: {} true beats, {}", minutes_and_seconds(window.from_s),
            minutes_and_seconds(window.to_s), window.true_beats,
            window.counted ? fmt::format("{} counted", *window.counted) : std::string("count not written"));
        y += canvas.block(open_ended({column.x, y, w, 0}), title, paper.note(paper.theme.colour.soft_ink)).h +
             2;
        if (window.followed == "mother")
            y += canvas
                     .block(open_ended({column.x, y, w, 0}), "These beats were the mother's.",
                            paper.note(paper.theme.colour.attention))
                     .h +
                 2;
        y += draw_breakdown(canvas, {column.x, y, w, 0}, breakdown_lines(window), paper.theme);
        const std::string taps = taps_in_words(window);
        if (!taps.empty())
            y +=
                canvas.block(open_ended({column.x, y, w, 0}), taps, paper.note(paper.theme.colour.ink)).h + 2;
        most = std::max(most, y - column.y);
    }
    return most;
}

double draw_series_words(const Paper& paper, Canvas& canvas, Box box, const engine::SeriesScore& series) {
    const auto& first = paper.judged.sheet.windows[series.first];
    const std::string says =
        fmt::format("From {}: ", minutes_and_seconds(first.from_s)) + series_in_words(series);
    return canvas.block(open_ended(box), says, paper.text()).h;
}

// Mark, name, verdict in words, and why: names in one column so that the eye can run down the marks.
double draw_judged_row(const Paper& paper, Canvas& canvas, Box box, const Said& verdict,
                       const std::string& name, const std::string& why, double name_w, double word_w) {
    const Theme& t = paper.theme;
    draw_mark(canvas, verdict.mark, {box.x + t.px(9), box.y + t.px(11)}, t.px(19), verdict.colour);
    const double left = box.x + t.px(28);
    Words word = paper.strong();
    word.colour = verdict.colour;
    const double a = canvas.block(open_ended({left, box.y, name_w, 0}), name, paper.text()).h;
    const double b = canvas.block(open_ended({left + name_w + 8, box.y, word_w, 0}), verdict.says, word).h;
    const double x = left + name_w + 8 + word_w + 8;
    Words soft = paper.note(t.colour.ink);
    const double c =
        why.empty()
            ? 0
            : canvas.block(open_ended({x, box.y + t.px(2), box.right() - x, 0}), why, soft).h + t.px(2);
    return std::max({a, b, c});
}

std::string why_of_act(const engine::Protocol& protocol, const engine::ActScore& act) {
    std::string why = act_timing(act);
    const auto add = [&why](const std::string& more) {
        if (more.empty()) return;
        if (!why.empty()) why += ". ";
        why += more;
    };
    const engine::Situation* situation = protocol.situation(act.situation);
    if (situation != nullptr && !situation->words.empty()) add("For: " + situation->words);
    if (act.critical) add("This one is critical");
    if (!act.source.empty()) add("Source: " + sources_in_words(act.source));
    if (!act.conflict.empty()) add("Guidance differs: " + sources_in_words(act.conflict));
    if (!why.empty() && !why.ends_with('.')) why += '.';
    if (!why.empty() && why[0] >= 'a' && why[0] <= 'z') why[0] = static_cast<char>(why[0] - 'a' + 'A');
    return why;
}

double draw_map_part(const Paper& paper, Canvas& canvas, Box box) {
    constexpr double h = 236;
    const AbdomenFrame frame = abdomen_close_in({box.x, box.y, 214, h});
    draw_abdomen_map(canvas, paper.map, frame, paper.theme);
    const double x = frame.box.right() + 20;
    const double used =
        draw_map_key(canvas, open_ended({x, box.y + 6, box.right() - x, 0}), paper.map, paper.theme);
    return std::max(h, used + 6);
}

double draw_bullet(const Paper& paper, Canvas& canvas, Box box, const std::string& says) {
    canvas.disc({box.x + 4, box.y + paper.theme.px(11)}, 1.6, paper.theme.colour.soft_ink);
    return canvas.block(open_ended({box.x + 14, box.y, box.w - 14, 0}), says, paper.text()).h;
}

void draw_foot(const Paper& paper, Canvas& canvas, int page, int of) {
    const PageMade a4;
    const double y = a4.height - foot + 16;
    canvas.line({margin, y}, {a4.width - margin, y}, paper.theme.colour.rule, 0.7);
    canvas.block({margin, y + 5, a4.width - 2 * margin - 90, 28}, learning_only,
                 paper.note(paper.theme.colour.soft_ink));
    Words right = paper.note(paper.theme.colour.soft_ink);
    right.align = Align::right;
    canvas.text({a4.width - margin, y + 5 + right.size}, fmt::format("page {} of {}", page, of), right);
}

}  // namespace

engine::Outcome<engine::Done> write_debrief(const engine::JudgedAttempt& judged, const std::string& path) {
    PageMade made;
    made.title = "Debrief: " + judged.scenario.title;
    made.author = "Fullminute " + judged.attempt.header.program;
    Theme theme;
    theme.scale = paper_scale;
    theme.colour.card = {0xFF, 0xFF, 0xFF};
    const Paper paper{judged, theme, strip_of(judged), map_of(judged)};
    const engine::ScoreSheet& sheet = judged.sheet;

    Flow flow(made.width, made.height, margin, foot);
    flow.every_page([&paper](Canvas& canvas, int page, int of) { draw_foot(paper, canvas, page, of); });
    const auto add = [&flow, &paper](auto draw, double gap, bool with_next = false) {
        flow.add([&paper, draw](Canvas& canvas, Box box) { return draw(paper, canvas, box); }, gap,
                 with_next);
    };
    const auto heading = [&add](const std::string& says) {
        add([says](const Paper& pp, Canvas& c, Box b) { return draw_heading(pp, c, b, says); }, 6, true);
    };

    add(draw_title, 10);
    add(draw_strip_part, 12);
    const std::string grave = what_mattered_most(sheet);
    if (!sheet.next_time.empty() || !grave.empty()) heading("What to do next time");
    if (!grave.empty())
        add(
            [grave](const Paper& pp, Canvas& c, Box b) {
                Words strong = pp.strong();
                strong.colour = pp.theme.colour.attention;
                return c.block(open_ended(b), grave, strong).h;
            },
            8);
    for (std::size_t i = 0; i < sheet.next_time.size(); ++i)
        add(
            [i](const Paper& pp, Canvas& c, Box b) {
                return draw_numbered(pp, c, b, static_cast<int>(i) + 1, pp.judged.sheet.next_time[i].says);
            },
            i + 1 == sheet.next_time.size() ? 12 : 5);
    if (!sheet.windows.empty())
        heading(sheet.windows.size() == 1 ? "Your count, taken apart" : "Your counts, taken apart");
    for (const engine::SeriesScore& series : sheet.series)
        add([&series](const Paper& pp, Canvas& c, Box b) { return draw_series_words(pp, c, b, series); }, 8);
    for (std::size_t i = 0; i < sheet.windows.size(); i += 2)
        add([i](const Paper& pp, Canvas& c, Box b) { return draw_counts(pp, c, b, i); }, 10);
    if (!sheet.windows.empty())
        add(
            [](const Paper& pp, Canvas& c, Box b) {
                return c.block(open_ended(b), breakdown_order_words, pp.note(pp.theme.colour.soft_ink)).h;
            },
            10);
    heading("Aspect by aspect");
    for (std::size_t i = 0; i < sheet.aspects.size(); ++i)
        add(
            [i](const Paper& pp, Canvas& c, Box b) {
                const engine::AspectScore& aspect = pp.judged.sheet.aspects[i];
                return draw_judged_row(pp, c, b, said(aspect.verdict, pp.theme.colour),
                                       title_of(aspect.aspect), aspect.why, pp.theme.px(100),
                                       pp.theme.px(82));
            },
            i + 1 == sheet.aspects.size() ? 12 : 5);
    if (!sheet.acts.empty()) heading("What was done");
    for (std::size_t i = 0; i < sheet.acts.size(); ++i)
        add(
            [i](const Paper& pp, Canvas& c, Box b) {
                const engine::ActScore& act = pp.judged.sheet.acts[i];
                return draw_judged_row(pp, c, b, said_of_act(act.verdict, pp.theme.colour),
                                       act_words(pp.judged.protocol, act.act),
                                       why_of_act(pp.judged.protocol, act), pp.theme.px(190),
                                       pp.theme.px(120));
            },
            i + 1 == sheet.acts.size() ? 12 : 5);
    heading("Where it was loud, where you listened");
    add(draw_map_part, 12);
    if (!judged.scenario.teaching.empty()) heading("About this labour");
    for (const std::string& note : judged.scenario.teaching)
        add([note](const Paper& pp, Canvas& c, Box b) { return draw_bullet(pp, c, b, note); }, 8);
    if (!judged.protocol.cautions.empty()) heading("Keep in mind");
    for (const std::string& caution : judged.protocol.cautions)
        add([says = sources_in_words(caution)](const Paper& pp, Canvas& c,
                                               Box b) { return draw_bullet(pp, c, b, says); },
            4);
    if (!judged.protocol.origin.empty()) {
        heading("What it was judged by");
        add(
            [](const Paper& pp, Canvas& c, Box b) {
                return c
                    .block(open_ended({b.x, b.y, b.w, 0}), sources_in_words(pp.judged.protocol.origin),
                           pp.note(pp.theme.colour.soft_ink))
                    .h;
            },
            4);
    }
    return write_pages(path, made, flow.pages());
}

}  // namespace ui
