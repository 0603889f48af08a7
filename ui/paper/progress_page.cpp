#include "ui/paper/progress_page.h"

#include "ui/canvas/surface.h"
#include "ui/paper/flow.h"
#include "ui/paper/verdict_words.h"
#include "ui/plots/agreement.h"
#include "ui/plots/bands.h"
#include "ui/plots/learning.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {
namespace {

constexpr double progress_scale = 0.66;  // 16 on screen = 10.6 points on paper
constexpr double progress_margin = 40, progress_foot = 62;

Box open_below(Box box) { return {box.x, box.y, box.w, 1e5}; }

struct ProgressPaper {
    const ProgressPage& page;
    Theme theme;
    Words note() const { return {.size = theme.px(TypeScale::note), .colour = theme.colour.soft_ink}; }
    Words text() const { return {.size = theme.px(TypeScale::text), .colour = theme.colour.ink}; }
};

double draw_progress_title(const ProgressPaper& paper, Canvas& canvas, Box box) {
    const engine::Progress& p = paper.page.progress;
    const Words title{
        .size = paper.theme.px(TypeScale::title), .colour = paper.theme.colour.ink, .bold = true};
    canvas.text({box.x, box.y + title.size}, "Progress", title);
    Words right = paper.text();
    right.align = Align::right;
    canvas.text({box.right(), box.y + title.size}, paper.page.person + days_words(p), right);
    double y = box.y + title.size * 1.5;
    std::string says = p.method_s == 0
                           ? std::string("Nothing counted yet.")
                           : fmt::format("{} labours with a count. Shown: counts over {}, {}. {}", p.attempts,
                                         p.method_s == 60 ? "a full minute" : method_words(p.method_s),
                                         mode_words(p.mode), left_out_words(p));
    y += canvas.block(open_below({box.x, y, box.w, 0}), says, paper.note()).h;
    return y - box.y;
}

double draw_progress_heading(const ProgressPaper& paper, Canvas& canvas, Box box, const std::string& says) {
    const double size = paper.theme.px(TypeScale::card);
    canvas.line({box.x, box.y + 0.5}, {box.right(), box.y + 0.5}, paper.theme.colour.rule, 0.7);
    canvas.text({box.x, box.y + 6 + size}, says,
                {.size = size, .colour = paper.theme.colour.ink, .bold = true});
    return 6 + size * 1.35;
}

double draw_says(const ProgressPaper& paper, Canvas& canvas, Box box, const std::string& says) {
    return canvas.block(open_below(box), says, paper.text()).h;
}

double draw_skills(const ProgressPaper& paper, Canvas& canvas, Box box) {
    const double gap = 28, w = (box.w - gap) / 2;
    return std::max(
        draw_skill_rows(canvas, {box.x, box.y, w, box.h}, band_rows(paper.page.progress), paper.theme),
        draw_skill_rows(canvas, {box.x + w + gap, box.y, w, box.h}, kind_rows(paper.page.progress),
                        paper.theme));
}

double draw_practice(const ProgressPaper& paper, Canvas& canvas, Box box, const PracticeLine& line) {
    double y = box.y;
    y += canvas.block(open_below({box.x, y, box.w, 0}), line.says, paper.text()).h + 2;
    std::string titles;
    for (const LibraryLabour& labour : line.labours)
        titles += fmt::format("{}{} ({})", titles.empty() ? "" : ", ", labour.title,
                              labour.id.substr(0, labour.id.find('-')));
    if (!titles.empty())
        y += canvas.block(open_below({box.x + 14, y, box.w - 14, 0}), titles + ".", paper.note()).h;
    return y - box.y;
}

void draw_progress_foot(const ProgressPaper& paper, Canvas& canvas, int page, int of) {
    const PageMade a4;
    const double y = a4.height - progress_foot + 16;
    canvas.line({progress_margin, y}, {a4.width - progress_margin, y}, paper.theme.colour.rule, 0.7);
    canvas.block({progress_margin, y + 5, a4.width - 2 * progress_margin - 90, 28}, learning_only,
                 paper.note());
    Words right = paper.note();
    right.align = Align::right;
    canvas.text({a4.width - progress_margin, y + 5 + right.size}, fmt::format("page {} of {}", page, of),
                right);
}

}  // namespace

engine::Outcome<engine::Done> write_progress(const ProgressPage& page, const std::string& path) {
    PageMade made;
    made.title = "Progress: " + page.person;
    made.author = "Fullminute " + page.program;
    Theme theme;
    theme.scale = progress_scale;
    theme.colour.card = {0xFF, 0xFF, 0xFF};
    const ProgressPaper paper{page, theme};

    Flow flow(made.width, made.height, progress_margin, progress_foot);
    flow.every_page(
        [&paper](Canvas& canvas, int number, int of) { draw_progress_foot(paper, canvas, number, of); });
    const auto add = [&flow, &paper](auto draw, double gap, bool with_next = false) {
        flow.add([&paper, draw](Canvas& canvas, Box box) { return draw(paper, canvas, box); }, gap,
                 with_next);
    };
    const auto heading = [&add](const std::string& says) {
        add([says](const ProgressPaper& pp, Canvas& c,
                   Box b) { return draw_progress_heading(pp, c, b, says); },
            6, true);
    };
    const auto words = [&add](const std::string& says, double gap) {
        if (!says.empty())
            add([says](const ProgressPaper& pp, Canvas& c, Box b) { return draw_says(pp, c, b, says); }, gap);
    };

    add(draw_progress_title, 10);
    heading("How far off");
    add(
        [](const ProgressPaper& pp, Canvas& c, Box b) {
            constexpr double h = 210;
            draw_agreement(c, {b.x, b.y, b.w, h}, pp.page.progress, pp.theme);
            return h;
        },
        6, true);
    words(agreement_words(page.progress), 12);
    heading("Getting there");
    add(
        [](const ProgressPaper& pp, Canvas& c, Box b) {
            constexpr double h = 160;
            draw_learning(c, {b.x, b.y, b.w, h}, pp.page.progress.learning, pp.theme);
            return h;
        },
        6, true);
    words(learning_words(page.progress) + " " + refresher_words(page.progress), 12);
    heading("What to practise next");
    for (const PracticeLine& line : page.practice)
        add([line](const ProgressPaper& pp, Canvas& c, Box b) { return draw_practice(pp, c, b, line); }, 6);
    heading("Where it is right");
    add(draw_skills, 8);
    words(calls_words(page.progress), 8);
    heading("Keep in mind");
    words(
        "Right means within two beats of the baby's, or 5 bpm, in your own seconds. The limits belong to "
        "these counts, "
        "not to every labour. The mark is for practice only: a yearly check decides, and a person certifies. "
        "How far off: counts of one length and one loudspeaker only. Getting there and decisions: any "
        "length. "
        "Thin lines under the bars: where the share may really lie, with 95 in 100 certainty.",
        4);
    return write_pages(path, made, flow.pages());
}

}  // namespace ui
