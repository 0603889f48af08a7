#include "ui/progress/progress_screen.h"

#include "ui/canvas/surface.h"
#include "ui/files.h"
#include "ui/paper/progress_page.h"
#include "ui/paper/verdict_words.h"
#include "ui/plots/agreement.h"
#include "ui/plots/learning.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

namespace ui {
namespace {

constexpr float page_edge = 24, card_gap = 16;

Theme progress_theme(const Frame& frame) { return {light_palette, frame.scale()}; }

const char* view_name(int view) {
    const char* names[] = {words("How far off"), words("Getting there"), words("By rate"), words("By kind"),
                           words("Next")};
    return names[view];
}

}  // namespace

ProgressScreen::ProgressScreen(std::string person, engine::CountColumns counts,
                               std::vector<LibraryLabour> library, std::string save_folder)
    : person_(std::move(person)),
      counts_(std::move(counts)),
      library_(std::move(library)),
      save_folder_(std::move(save_folder)) {
    choose({});
    if (save_folder_.empty()) {
        const char* home = std::getenv("HOME");
        save_folder_ = home != nullptr && *home != '\0' ? home : ".";
    }
}

void ProgressScreen::choose(engine::ProgressAsked asked) {
    asked_ = asked;
    progress_ = engine::progress_of(counts_, asked_);
    practice_ = practice_lines(progress_, counts_, library_);
    said_.clear();
}

void ProgressScreen::next_method() {
    const auto& methods = progress_.methods;
    for (std::size_t i = 0; i < methods.size(); ++i)
        if (methods[i].number == progress_.method_s) {
            engine::ProgressAsked asked = asked_;
            asked.method_s = methods[(i + 1) % methods.size()].number;
            return choose(asked);
        }
}

void ProgressScreen::next_mode() {
    const auto& modes = progress_.modes;
    for (std::size_t i = 0; i < modes.size(); ++i)
        if (modes[i].number == progress_.mode) {
            engine::ProgressAsked asked;
            asked.mode = modes[(i + 1) % modes.size()].number;
            return choose(asked);
        }
}

void ProgressScreen::save() {
    const std::string path = save_folder_ + "/progress-" + person_ + ".pdf";
    const auto outcome = write_progress({person_, progress_, practice_, program_version()}, path);
    said_fault_ = !outcome.ok();
    said_ = outcome.ok()
                ? std::string(words("Saved as")) + " " + path
                : std::string(words("Not saved")) + ": " + engine::in_one_line(outcome.faults().front());
}

void ProgressScreen::keys(Frame& frame) {
    if (frame.key(Key::escape) || frame.key('b')) leave_ = Leave::back;
    if (frame.key('s')) save();
    if (frame.key('m') && progress_.methods.size() > 1) next_method();
    if (frame.key('l') && progress_.modes.size() > 1) next_mode();
    if (frame.key('v') && !wide(frame) && !progress_.methods.empty()) shown_ = (shown_ + 1) % 5;
}

bool ProgressScreen::wide(const Frame& frame) const {
    return frame.width() / frame.scale() >= 1000 && frame.height() / frame.scale() >= 620;
}

std::vector<ProgressScreen::Placed> ProgressScreen::laid_out(Frame& frame, Area body) {
    using enum Part;
    if (progress_.methods.empty()) {
        body.h = std::min(body.h, wide(frame) ? frame.px(330) : body.h);
        if (!wide(frame)) {
            const float says_h = frame.height_of(nothing_yet_words(), Type::text, body.w - frame.px(40));
            const Area first = body.take_top(
                std::round(std::min(says_h + frame.line_height(Type::card) + frame.px(50), body.h * 0.6f)),
                card_gap);
            return {{nothing_yet, first}, {next, body}};
        }
        const Area first = body.take_left(std::round(body.w * 0.5f), card_gap);
        return {{nothing_yet, first}, {next, body}};
    }
    if (!wide(frame)) {
        const Part parts[] = {agreement, learning, bands, kinds, next};
        return {{parts[shown_], body}};
    }
    Area top = body.take_top(std::round((body.h - card_gap) * 0.5f), card_gap);
    const Area left = top.take_left(std::round((top.w - card_gap) * 0.54f), card_gap);
    const Area one = body.take_left(std::round((body.w - 2 * card_gap) * 0.3f), card_gap);
    const Area two = body.take_left(std::round((body.w - card_gap) * 0.43f), card_gap);
    return {{agreement, left}, {learning, top}, {bands, one}, {kinds, two}, {next, body}};
}

void ProgressScreen::draw(Frame& frame) {
    keys(frame);
    Area rest{page_edge, 12, frame.width() - 2 * page_edge, frame.height() - 12 - card_gap};
    const Area head = rest.take_top(frame.px(40), 8);
    const float foot_h = frame.px(40);
    const Area foot{rest.x, rest.bottom() - foot_h, rest.w, foot_h};
    rest.h -= foot_h + 12;
    Area views{};
    const bool in_views = !wide(frame) && !progress_.methods.empty();
    if (in_views) views = rest.take_top(frame.px(40), 10);
    const std::vector<Placed> placed = laid_out(frame, rest);
    std::vector<Area> cards;
    for (const Placed& one : placed) cards.push_back(one.at);
    frame.page(cards);
    header(frame, head);
    if (in_views) {
        std::vector<std::string> names;
        for (int i = 0; i < 5; ++i) names.emplace_back(view_name(i));
        if (const auto now = frame.choice("view", views, names, shown_, 5)) shown_ = *now;
    }
    for (const Placed& one : placed) switch (one.part) {
            case Part::agreement:
            case Part::learning: plot_card(frame, one.at, one.part); break;
            case Part::bands:
            case Part::kinds: rows_card(frame, one.at, one.part); break;
            case Part::next: next_card(frame, one.at); break;
            case Part::nothing_yet: nothing_yet_card(frame, one.at); break;
        }
    footer(frame, foot);
}

void ProgressScreen::header(Frame& frame, Area at) {
    const char* title = words("Progress");
    frame.one_line(at.take_left(frame.width_of(title, Type::title) + frame.px(20)), title, Type::title);
    frame.one_line(at.take_left(frame.width_of(person_, Type::text) + frame.px(20)), person_, Type::text,
                   Tone::soft);
    const auto one = [&](const char* id, const char* key, const std::string& says) {
        const float w = std::min(frame.width_of(says, Type::text) + frame.px(56), at.w);
        const Area button{at.right() - w, at.y, w, at.h};
        at.w -= w + frame.px(10);
        ButtonLook look;
        look.key = key;
        return frame.button(id, button, says, look);
    };
    if (progress_.modes.size() > 1 && one("mode", "L", mode_words(progress_.mode))) next_mode();
    if (progress_.methods.size() > 1 && one("method", "M", method_words(progress_.method_s))) next_method();
}

void ProgressScreen::plot_card(Frame& frame, Area at, Part part) {
    const Theme theme = progress_theme(frame);
    const bool first = part == Part::agreement;
    Area inside = at.inside(frame.px(16));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(4)),
                   first ? words("How far off") : words("Getting there"), Type::card);
    const std::string says = first ? agreement_words(progress_) : learning_words(progress_);
    const std::string below = first ? left_out_words(progress_) : refresher_words(progress_);
    const auto around = [&](float w) {  // height of the words above and below
        return frame.height_of(says, Type::text, w) + frame.px(6) +
               (below.empty() ? 0.0f : frame.height_of(below, Type::note, w) + frame.px(4));
    };
    // A plot pressed flat shows nothing: with large letters the card scrolls instead.
    const float least = frame.px(frame.narrow() ? 170 : 60);
    const bool scrolls = inside.h - around(inside.w) < least;
    const float w = scrolls ? inside.w - frame.px(18) : inside.w;
    const float plot_h = std::round(std::max(least, inside.h - around(w))), content = around(w) + plot_h;
    const std::string key = fmt::format("progress {} {} {} {} {} {}", first, person_, progress_.attempts,
                                        progress_.mode, progress_.method_s, theme.scale);
    frame.scroll(first ? "agreement" : "learning", inside, scrolls ? content : inside.h, [&](Area box) {
        frame.words_in({box.x, box.y, w, 0}, says, Type::text);
        box.take_top(frame.height_of(says, Type::text, w), frame.px(6));
        const Area plot{box.x, box.y, w, plot_h};
        frame.picture(key, plot, [&](Canvas& canvas) {
            if (first)
                draw_agreement(canvas, {0, 0, plot.w, plot.h}, progress_, theme);
            else
                draw_learning(canvas, {0, 0, plot.w, plot.h}, progress_.learning, theme);
        });
        if (!below.empty())
            frame.words_in({box.x, plot.bottom() + frame.px(4), w, 0}, below, Type::note, Tone::soft);
    });
}

void ProgressScreen::rows_card(Frame& frame, Area at, Part part) {
    const Theme theme = progress_theme(frame);
    const bool first = part == Part::bands;
    Area inside = at.inside(frame.px(16));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(6)),
                   first ? words("Right, by rate") : words("Right, by kind"), Type::card);
    const std::vector<SkillRow> rows = first ? band_rows(progress_) : kind_rows(progress_);
    const float w = inside.w - frame.px(18);
    const std::string key = fmt::format("progress rows {} {} {} {} {} {}", first, person_, progress_.attempts,
                                        progress_.mode, progress_.method_s, theme.scale);
    const auto [measured, is_new] = heights_.try_emplace(fmt::format("{} {}", key, std::lround(w)), 0.0f);
    if (is_new) {
        Picture scratch(1, 1);
        measured->second =
            static_cast<float>(std::ceil(draw_skill_rows(scratch.canvas(), {0, 0, w, 1e5}, rows, theme)));
    }
    const float content = std::max(measured->second, 1.0f);
    frame.scroll(first ? "bands" : "kinds", inside, content, [&](Area box) {
        frame.picture(key, {box.x, box.y, w, content}, [&](Canvas& canvas) {
            draw_skill_rows(canvas, {0, 0, w, content}, rows, theme);
        });
    });
}

void ProgressScreen::next_card(Frame& frame, Area at) {
    Area inside = at.inside(frame.px(16));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(6)),
                   words("What to practise next"), Type::card);
    const float w = inside.w - frame.px(18), button_h = frame.px(40), between = frame.px(6);
    float content = 0;
    for (const PracticeLine& line : practice_)
        content += frame.height_of(line.says, Type::text, w) + between +
                   static_cast<float>(line.labours.size()) * (button_h + between) + frame.px(8);
    frame.scroll("next", inside, content, [&](Area box) {
        int number = 0;
        for (const PracticeLine& line : practice_) {
            const float h = frame.height_of(line.says, Type::text, w);
            frame.words_in({box.x, box.y, w, h}, line.says, Type::text);
            box.take_top(h, between);
            for (const LibraryLabour& labour : line.labours) {
                ButtonLook look;
                look.align = Align::left;
                const std::string id = fmt::format("next/{}:{}", number++, labour.id);
                Area button = box.take_top(button_h, between);
                button.w = w;
                if (frame.button(id, button, labour.title, look)) {
                    chosen_path_ = labour.path;
                    leave_ = Leave::on;
                }
            }
            box.take_top(frame.px(8));
        }
    });
}

void ProgressScreen::nothing_yet_card(Frame& frame, Area at) {
    Area inside = at.inside(frame.px(20));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(10)), words("Nothing counted yet"),
                   Type::card);
    const std::string says = nothing_yet_words();
    const float h = frame.height_of(says, Type::text, inside.w);
    if (h <= inside.h) {
        frame.words_in(inside, says, Type::text, Tone::soft);
        return;
    }
    const float w = inside.w - frame.px(18);
    frame.scroll("nothing_yet", inside, frame.height_of(says, Type::text, w), [&](Area box) {
        frame.words_in({box.x, box.y, w, 0}, says, Type::text, Tone::soft);
    });
}

std::string ProgressScreen::nothing_yet_words() const {
    return words(
               "Count a minute or two and come back. Here you will see how far off your counts are and in "
               "which "
               "direction, how slow and fast hearts go, and what to practise next.") +
           std::string(" ") + left_out_words(progress_);
}

void ProgressScreen::footer(Frame& frame, Area at) {
    const auto one = [&](const char* id, const char* key, const char* says, bool main) {
        ButtonLook look;
        look.key = key;
        look.main = main;
        return frame.button(id, at.take_left(frame.width_of(says, Type::text) + frame.px(60), frame.px(10)),
                            says, look);
    };
    if (one("back", "Esc", words("Back"), true)) leave_ = Leave::back;
    if (one("save", "S", words("Save as PDF"), false)) save();
    at.take_left(frame.px(6));
    const Tone tone = said_.empty() ? Tone::soft : said_fault_ ? Tone::attention : Tone::ink;
    const std::string says =
        said_.empty() ? std::string(words("For practice only: it certifies nothing.")) : said_;
    const float h = frame.height_of(says, Type::note, at.w);
    if (h > at.h)
        frame.one_line(at, says, Type::note, tone);
    else
        frame.words_in({at.x, at.y + (at.h - h) / 2, at.w, h}, says, Type::note, tone);
}

}  // namespace ui
