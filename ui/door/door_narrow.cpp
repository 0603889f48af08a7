// The door with large letters: two views, one thing below the other, and the chosen labour always at the
// foot.
#include "ui/door/door.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {

const ShelfLine* DoorScreen::chosen_line() const {
    for (const ShelfLine& l : shelf_.lines())
        if (l.path == wish_.scenario) return &l;
    return nullptr;
}

std::vector<std::string> DoorScreen::kinds_of_task() {
    std::vector<std::string> tasks{words("All")};
    for (int t = 0; t < 6; ++t) tasks.push_back(task_in_short(static_cast<engine::Task>(t)));
    return tasks;
}

void DoorScreen::draw_narrow(Frame& frame) {
    const float edge = frame.px(10), gap = frame.px(8), inside = frame.px(12);
    Area all{edge, gap, frame.width() - 2 * edge, frame.height() - 2 * gap};
    Area head = all.take_top(frame.px(40), gap);
    const float foot_h = chosen_bar_height(frame) + 2 * inside;
    const Area foot{all.x, all.bottom() - foot_h, all.w, foot_h};
    all.h -= foot_h + gap;
    frame.page(std::vector<Area>{all, foot});

    const float title_w = frame.width_of("Fullminute", Type::title) + 2;
    frame.one_line(head.take_left(title_w, frame.px(20)), "Fullminute", Type::title);
    const std::vector<std::string> views{words("Who and how"), words("Which labour")};
    if (const auto now = frame.choice("view", head, views, view_)) view_ = *now;

    const Area body = all.inside(inside);
    const float w = body.w - frame.px(18);
    if (view_ == 0) {
        const bool asks = !interrupted_.empty();
        const float waiting_h = asks ? frame.px(136) : 0.0f;
        const std::string caution =
            words("For learning only. It diagnoses nothing; local protocol and licensed practice decide.");
        const float caution_h = frame.height_of(caution, Type::note, w);
        const float who_h = who_height(frame, w), sound_h = sound_height(frame);
        frame.scroll("side", body, waiting_h + who_h + sound_h + protocols_height(frame) + caution_h,
                     [&](Area at) {
                         if (asks) waiting(frame, at.take_top(waiting_h));
                         who(frame, at.take_top(who_h));
                         sound(frame, at.take_top(sound_h));
                         protocols(frame, at.take_top(protocols_height(frame)));
                         frame.words_in({at.x, at.y, at.w, 0}, caution, Type::note, Tone::soft);
                     });
    } else {
        const Rows rows = labour_rows(frame, w);
        const float kinds_h = frame.px(88), kinds_gap = frame.px(12);
        frame.scroll("list", body, kinds_h + kinds_gap + rows.height, [&](Area at) {
            if (auto now = frame.choice("task", at.take_top(kinds_h, kinds_gap), kinds_of_task(), task_, 4))
                task_ = *now;
            if (rows.shown.empty() && shelf_.done())
                frame.words_in(at, words("No labours of this kind were found."), Type::text, Tone::soft);
            labours(frame, at, rows);
        });
    }
    chosen_bar(frame, foot.inside(inside));
}

float DoorScreen::chosen_bar_height(const Frame& frame) const {
    const float w = frame.width() - frame.px(2 * 10 + 2 * 12 + 196);
    const ShelfLine* line = chosen_line();
    float h = frame.px(22);
    if (!code_fault_.empty() && view_ == 1)
        h = frame.height_of(code_fault_, Type::text, w);
    else if (!said_.empty())
        h = frame.height_of(said_, Type::text, w);
    else if (line != nullptr)
        h = frame.height_of(line->title, Type::strong, w) +
            (line->content_note.empty() ? frame.line_height(Type::note)
                                        : frame.height_of(line->content_note, Type::note, w));
    return std::max(h, frame.px(44));
}

void DoorScreen::chosen_bar(Frame& frame, Area at) {
    const ShelfLine* line = chosen_line();
    const Area button{at.right() - frame.px(184), at.y, frame.px(184), frame.px(44)};
    Area says{at.x, at.y, at.w - frame.px(196), at.h};
    if (!code_fault_.empty() && view_ == 1) {  // the code stands on the other view
        frame.words_in(says, code_fault_, Type::text, Tone::attention);
    } else if (!said_.empty()) {
        frame.words_in(says, said_, Type::text, Tone::attention);
    } else if (line != nullptr) {
        says.take_top(frame.words_in({says.x, says.y, says.w, 0}, line->title, Type::strong));
        if (line->content_note.empty())
            frame.words_in({says.x, says.y, says.w, 0}, task_words(line->task), Type::note, Tone::soft);
        else
            frame.words_in({says.x, says.y, says.w, 0}, line->content_note, Type::note, Tone::attention);
    }
    ButtonLook look;
    look.main = true;
    look.enabled = line != nullptr;
    if (frame.button("start", button, words("Sit down with her"), look)) start();
}

}  // namespace ui
