// Above and below the debrief's cards: whose attempt, which cards; again, another, saved.
#include "ui/debrief/debrief_layout.h"

#include "ui/paper/verdict_words.h"
#include "ui/window/words.h"

#include <algorithm>

namespace ui {

void DebriefScreen::header(Frame& frame, Area at, const Layout& lay) {
    const std::string& person = judged_.attempt.header.person;
    const float person_w = frame.width_of(person, Type::text);
    std::vector<float> widths;
    float all = 0;
    for (const auto& view : lay.views) {
        widths.push_back(frame.width_of(ui::words(view.name), Type::strong) + frame.px(36));
        all += widths.back() + frame.px(8);
    }
    // The views come first: with large letters they take the whole row.
    const char* title = ui::words("Debrief");
    const float title_w = frame.width_of(title, Type::title) + frame.px(20);
    const bool titled = title_w + all < at.w;
    if (titled) frame.one_line(at.take_left(title_w), title, Type::title);
    float right = at.right();
    if (all > at.w)
        for (std::size_t i = 0; i < widths.size(); ++i)
            widths[i] = (at.w + frame.px(8)) / static_cast<float>(widths.size()) - frame.px(8);
    all = std::min(all, at.w + frame.px(8));
    if (!person.empty() && all + person_w + frame.px(24) < at.w) {
        frame.one_line({right - person_w, at.y, person_w + 1, at.h}, person, Type::text, Tone::soft);
        right -= person_w + frame.px(20);
    }
    float x = right - all + frame.px(8);
    const std::string& says = judged_.scenario.title;
    const float says_w = frame.width_of(says, Type::text);
    const bool room = at.x + says_w + frame.px(16) < x;
    if (room) frame.one_line({at.x, at.y, says_w + 1, at.h}, says, Type::text, Tone::soft);
    for (std::size_t i = 0; i < lay.views.size(); ++i) {
        ButtonLook look;
        look.chosen = static_cast<int>(i) == shown_;
        if ((i + lay.views.size() - 1) % lay.views.size() == static_cast<std::size_t>(shown_)) look.key = "V";
        if (frame.button("view:" + std::to_string(i), {x, at.y, widths[i], at.h},
                         ui::words(lay.views[i].name), look))
            shown_ = static_cast<int>(i);
        x += widths[i] + frame.px(8);
    }
}

std::string DebriefScreen::note_row_words() const {
    return said_.empty() ? judged_.scenario.title + ". " + ui::words("For learning only.") : said_;
}

float DebriefScreen::note_row_height(const Frame& frame, float width) const {
    if (!frame.narrow()) return 0;
    return frame.height_of(note_row_words(), Type::note, width) + frame.px(6);
}

void DebriefScreen::footer(Frame& frame, Area at) {
    const float note_h = note_row_height(frame, at.w);
    const Tone tone = said_.empty() ? Tone::soft : said_fault_ ? Tone::attention : Tone::ink;
    if (note_h > 0) frame.words_in(at.take_top(note_h), note_row_words(), Type::note, tone);
    const auto one = [&](const char* id, const char* key, const char* says, bool main) {
        const float w = frame.width_of(says, Type::text) + frame.px(frame.narrow() ? 36 : 52);
        ButtonLook look;
        look.key = key;
        look.main = main;
        return frame.button(id, at.take_left(w, frame.px(10)), says, look);
    };
    if (one("again", "A", ui::words("Same again"), false)) leave_ = Leave::same_again;
    if (one("another", "N", ui::words("Another labour"), true)) leave_ = Leave::another;
    if (one("save", "S", ui::words("Save as PDF"), false)) save();
    if (one("progress", "R", ui::words("Progress"), false)) leave_ = Leave::progress;
    if (leave_ != Leave::stay) stop();
    if (note_h > 0) return;
    at.take_left(frame.px(6));
    std::string says = said_.empty() ? std::string(ui::words(learning_only_short)) : said_;
    float h = frame.height_of(says, Type::note, at.w);
    if (h > at.h && said_.empty()) {  // the whole of it stands among the notes
        says = ui::words("For learning only.");
        h = frame.height_of(says, Type::note, at.w);
    }
    if (h > at.h)
        frame.one_line(at, says, Type::note, tone);
    else
        frame.words_in({at.x, at.y + (at.h - h) / 2, at.w, h}, says, Type::note, tone);
}

}  // namespace ui
