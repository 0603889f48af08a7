#include "ui/debrief/cards.h"

#include "engine/scoring/series.h"
#include "ui/paper/verdict_words.h"
#include "ui/plots/breakdown.h"
#include "ui/plots/strip.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

Box open_ended(double x, double y, double w) { return {x, y, w, 1e5}; }

Words type(const Theme& t, double size, Colour colour, bool bold = false, Align align = Align::left) {
    return {.size = t.px(size), .colour = colour, .bold = bold, .align = align};
}

}  // namespace

double draw_aspects_card(Canvas& canvas, Box box, const engine::ScoreSheet& sheet, const Theme& t) {
    const Palette& p = t.colour;
    const double row = t.px(27);
    double y = box.y;
    if (sheet.boundary)
        y += canvas
                 .block(open_ended(box.x, y, box.w), words(boundary_words),
                        type(t, TypeScale::note, p.attention))
                 .h +
             t.px(8);
    for (const engine::AspectScore& aspect : sheet.aspects) {
        const Said verdict = said(aspect.verdict, p);
        const Words word = type(t, TypeScale::text, verdict.colour, true, Align::right);
        canvas.text({box.right(), y + t.px(17)}, words(verdict.says), word);
        draw_mark(canvas, verdict.mark, {box.x + t.px(11), y + t.px(12)}, t.px(20), verdict.colour);
        canvas.short_text({box.x + t.px(32), y + t.px(17)}, words(title_of(aspect.aspect)),
                          type(t, TypeScale::text, p.ink), box.w - t.px(32 + 92));
        y += row;
    }
    y += t.px(8);
    for (const engine::AspectScore& aspect : sheet.aspects) {
        if (aspect.why.empty()) continue;
        canvas.line({box.x, std::round(y) + 0.5}, {box.right(), std::round(y) + 0.5}, p.rule);
        y += t.px(6);
        y += canvas
                 .block(open_ended(box.x, y, box.w), words(title_of(aspect.aspect)),
                        type(t, TypeScale::note, p.ink, true))
                 .h;
        y += canvas.block(open_ended(box.x, y, box.w), aspect.why, type(t, TypeScale::note, p.ink)).h +
             t.px(8);
    }
    return y - box.y;
}

double draw_acts_card(Canvas& canvas, Box box, const engine::JudgedAttempt& judged, const Theme& t) {
    const Palette& p = t.colour;
    double y = box.y;
    if (judged.sheet.acts.empty())
        return canvas
            .block(open_ended(box.x, y, box.w),
                   words("No act was asked for in this labour, and none was done."),
                   type(t, TypeScale::text, p.ink))
            .h;
    for (const engine::ActScore& act : judged.sheet.acts) {
        const Said verdict = said_of_act(act.verdict, p);
        const double left = box.x + t.px(32), w = box.w - t.px(32);
        draw_mark(canvas, verdict.mark, {box.x + t.px(11), y + t.px(12)}, t.px(20), verdict.colour);
        y += canvas
                 .block(open_ended(left, y, w), act_words(judged.protocol, act.act),
                        type(t, TypeScale::text, p.ink))
                 .h;
        std::string says = words(verdict.says);
        if (act.critical) says += std::string(", ") + words("critical");
        y += canvas.block(open_ended(left, y, w), says, type(t, TypeScale::text, verdict.colour, true)).h;
        std::string why = act_timing(act);
        const engine::Situation* situation = judged.protocol.situation(act.situation);
        if (situation != nullptr && !situation->words.empty())
            why += (why.empty() ? "" : ". ") + situation->words;
        if (!act.source.empty())
            why += (why.empty() ? "" : ". ") + std::string(words("Source")) + ": " +
                   sources_in_words(act.source);
        if (!why.empty() && why[0] >= 'a' && why[0] <= 'z') why[0] = static_cast<char>(why[0] - 'a' + 'A');
        if (!why.empty())
            y += canvas.block(open_ended(left, y, w), why, type(t, TypeScale::note, p.soft_ink)).h;
        if (!act.conflict.empty())
            y += canvas
                     .block(open_ended(left, y, w),
                            std::string(words("Guidance differs")) + ": " + sources_in_words(act.conflict),
                            type(t, TypeScale::note, p.ink))
                     .h;
        y += t.px(12);
    }
    return y - box.y;
}

double draw_notes_card(Canvas& canvas, Box box, const engine::JudgedAttempt& judged, const Theme& t) {
    const Palette& p = t.colour;
    const engine::Protocol& protocol = judged.protocol;
    double y = box.y;
    const auto say = [&](const std::string& says, const Words& how, double gap) {
        if (!says.empty()) y += canvas.block(open_ended(box.x, y, box.w), says, how).h + t.px(gap);
    };
    say(protocol.title.empty() ? protocol.id : protocol.title, type(t, TypeScale::text, p.ink, true), 2);
    say(sources_in_words(protocol.origin), type(t, TypeScale::note, p.soft_ink), 4);
    if (protocol.from_memory) {
        draw_mark(canvas, Mark::warning, {box.x + t.px(8), y + t.px(9)}, t.px(14), p.attention);
        y += canvas
                 .block(open_ended(box.x + t.px(22), y, box.w - t.px(22)), words(from_memory_words),
                        type(t, TypeScale::note, p.attention))
                 .h +
             t.px(6);
    }
    for (const std::string& note : judged.scenario.teaching) say(note, type(t, TypeScale::text, p.ink), 8);
    for (const std::string& caution : protocol.cautions)
        say(sources_in_words(caution), type(t, TypeScale::note, p.ink), 5);
    say(words(learning_only), type(t, TypeScale::note, p.soft_ink), 0);
    return y - box.y;
}

double draw_count_card(Canvas& canvas, Box box, const engine::ScoreSheet& sheet, std::size_t count,
                       const Theme& t) {
    const Palette& p = t.colour;
    const engine::WindowScore& window = sheet.windows[count];
    double y = box.y;
    const auto say = [&](const std::string& says, const Words& how) {
        if (!says.empty()) y += canvas.block(open_ended(box.x, y, box.w), says, how).h + t.px(4);
    };
    const Words note = type(t, TypeScale::note, p.ink), soft = type(t, TypeScale::note, p.soft_ink);
    std::string says = fmt::format("{} to {}: {} {}", minutes_and_seconds(window.from_s),
                                   minutes_and_seconds(window.to_s), window.true_beats, words("true beats"));
    says += window.counted ? fmt::format(", {} {}", *window.counted, words("counted"))
                           : std::string(", ") + words("count not written");
    say(says, soft);
    const engine::SeriesScore* series = engine::series_of(sheet.series, count);
    if (series != nullptr)
        say(series_in_words(*series), note);
    else if (!window.judged)
        say(words("Shown, not judged: you counted again, or said it was not the baby."), note);
    if (window.followed == "mother")
        say(words("These beats were the mother's."), type(t, TypeScale::text, p.attention, true));
    y += draw_breakdown(canvas, {box.x, y, box.w, 0}, breakdown_lines(window), t) + t.px(6);
    say(taps_in_words(window), note);
    if (window.boundary)
        say(words("This rate lies so near a limit that a right count by this method may fall on its other "
                  "side."),
            note);
    // One beat more or less is the least a whole count can be wrong by: clinical standards, arithmetic of
    // short counts.
    if (window.plan_s > 0)
        say(fmt::format("One beat is {:g} a minute in a count of {:g} s; it is 10 in a count of 6 s.",
                        std::round(600.0 / window.plan_s) / 10, window.plan_s),
            soft);
    if (window.reported_bpm) say(words(breakdown_order_words), soft);
    return y - box.y;
}

double draw_place_card(Canvas& canvas, Box box, const MapContent& map, const Theme& t) {
    const bool beside = box.w > box.h * 1.35;
    const double key_h = t.px(128);
    const Box picture = beside ? Box{box.x, box.y, box.h * 0.9, box.h}
                               : Box{box.x, box.y, box.w, std::max(60.0, box.h - key_h)};
    const AbdomenFrame frame = abdomen_close_in(picture);
    draw_abdomen_map(canvas, map, frame, t);
    if (beside) {
        const double x = frame.box.right() + t.px(20);
        draw_map_key(canvas, {x, box.y + t.px(4), box.right() - x, box.h}, map, t);
    } else {
        draw_map_key(canvas, {box.x, frame.box.bottom() + t.px(8), box.w, key_h}, map, t);
    }
    return box.h;
}

}  // namespace ui
