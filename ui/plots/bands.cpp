#include "ui/plots/bands.h"

#include "ui/plots/progress_words.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {
namespace {

SkillRow row_of(const engine::CountGroup& g, std::string says) {
    SkillRow row{std::move(says), g.right, g.of, "", false};
    // One count has an error, not a habit.
    if (g.of >= 2) row.aside = bias_words(*g.errors.bias_bpm());
    return row;
}

}  // namespace

std::vector<SkillRow> band_rows(const engine::Progress& p) {
    std::vector<SkillRow> rows;
    for (const engine::CountGroup& g : p.bands) rows.push_back(row_of(g, band_words(g.number)));
    return rows;
}

std::vector<SkillRow> kind_rows(const engine::Progress& p) {
    std::vector<SkillRow> rows;
    const auto part = [&](const char* heading, const std::vector<engine::CountGroup>& groups,
                          std::string (*name)(int), std::size_t least) {
        if (groups.size() < least) return;
        rows.push_back({heading, 0, 0, "", true});
        for (const engine::CountGroup& g : groups) rows.push_back(row_of(g, name(g.number)));
    };
    part("Length of the count", p.methods, method_words, 1);
    const auto& t = p.calls;
    const long long called = t[0][0] + t[0][2] + t[2][0] + t[2][2], abnormal = called + t[0][1] + t[2][1];
    const long long passed = t[1][1], normal = t[1][0] + t[1][1] + t[1][2];
    if (abnormal + normal > 0) {
        rows.push_back({"Decision", 0, 0, "", true});
        rows.push_back({"slow or fast, and said so", called, abnormal, "", false});
        rows.push_back({"normal, and said so", passed, normal, "", false});
    }
    part("Instrument", p.instruments, instrument_name, 2);
    part("Task", p.tasks, task_name, 2);
    return rows;
}

double draw_skill_rows(Canvas& canvas, Box box, const std::vector<SkillRow>& rows, const Theme& theme) {
    const Palette& c = theme.colour;
    const Words text{.size = theme.px(TypeScale::text), .colour = c.ink};
    const Words note{.size = theme.px(TypeScale::note), .colour = c.soft_ink};
    double y = box.y;
    for (const SkillRow& row : rows) {
        if (row.heading) {
            if (y > box.y) y += theme.px(6);
            canvas.short_text({box.x, y + text.size}, row.says,
                              {.size = text.size, .colour = c.ink, .bold = true}, box.w);
            y += text.size * 1.7;
            continue;
        }
        Words number = row.of > 0 ? text : note;
        number.align = Align::right;
        const std::string share = row.of > 0 ? fmt::format("{} of {}", row.right, row.of) : "no counts";
        double left = box.w - canvas.text({box.right(), y + text.size}, share, number) - theme.px(12);
        if (!row.aside.empty()) {
            Words aside = note;
            aside.align = Align::right;
            left -= canvas.text({box.x + left, y + text.size}, row.aside, aside) + theme.px(10);
        }
        canvas.short_text({box.x, y + text.size}, row.says, row.of > 0 ? text : note,
                          std::max(theme.px(40), left));
        y += text.size * 1.35;
        if (row.of > 0) {
            const double h = theme.px(7), of = static_cast<double>(row.of);
            canvas.round_fill({box.x, y, box.w, h}, h / 2, c.rule, 0.7);
            if (row.right > 0)
                canvas.round_fill({box.x, y, std::max(h, box.w * static_cast<double>(row.right) / of), h},
                                  h / 2, c.act);
            const engine::Interval share_interval = engine::wilson(row.right, row.of);
            const double from = box.x + box.w * *share_interval.low,
                         to = box.x + box.w * *share_interval.high;
            const double mid = y + h + theme.px(4);
            canvas.line({from, mid}, {to, mid}, c.ink, theme.px(1.4));
            for (const double end : {from, to})
                canvas.line({end, mid - theme.px(2.5)}, {end, mid + theme.px(2.5)}, c.ink, theme.px(1.4));
            y += h + theme.px(9);
        }
        y += theme.px(6);
    }
    return y - box.y;
}

}  // namespace ui
