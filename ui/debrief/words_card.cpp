// What to do next time, in words: each one heard again by its button or its number key.
#include "ui/debrief/debrief_screen.h"

#include "ui/paper/verdict_words.h"
#include "ui/window/words.h"

#include <algorithm>

namespace ui {

void DebriefScreen::words_card(Frame& frame, Area at) {
    Area inside = at.inside(frame.px(16));
    frame.one_line(inside.take_top(frame.line_height(Type::card), frame.px(8)),
                   ui::words("What to do next time"), Type::card);
    const auto& items = judged_.sheet.next_time;
    // What must not be missed and was comes first, in the judgement's own words.
    const std::string grave = what_mattered_most(judged_.sheet);
    if (items.empty() && grave.empty()) {
        frame.words_in(inside, ui::words("Nothing to change: do it like this again."), Type::text);
        return;
    }
    const float number_w = frame.px(36),
                button_w = frame.width_of(ui::words("Hear"), Type::text) + frame.px(44),
                between = frame.px(10);
    const auto height_at = [&](float w, std::size_t i) {
        return std::max(frame.px(36),
                        frame.height_of(items[i].says, Type::text, w - number_w - button_w - between));
    };
    const float measured_w = inside.w - frame.px(18);
    const float grave_h = frame.height_of(grave, Type::strong, measured_w);
    float content = grave.empty() ? 0.0f : grave_h + frame.px(10);
    for (std::size_t i = 0; i < items.size(); ++i) content += height_at(measured_w, i) + frame.px(8);
    frame.scroll("words", inside, content, [&](Area box) {
        float y = box.y;
        if (!grave.empty()) {
            frame.words_in({box.x, y, measured_w, 0}, grave, Type::strong, Tone::attention);
            y += grave_h + frame.px(10);
        }
        for (std::size_t i = 0; i < items.size(); ++i) {
            const float h = height_at(measured_w, i), w = measured_w - number_w - button_w - between,
                        r = frame.px(12);
            const std::string number = std::to_string(i + 1);
            frame.disc(box.x + r, y + frame.px(18), r, colour::ink);
            frame.one_line({box.x, y + frame.px(18) - r, 2 * r, 2 * r}, number, Type::note, Tone::on_act,
                           Align::centre);
            const float used = frame.height_of(items[i].says, Type::text, w);
            frame.words_in({box.x + number_w, y + std::max(0.0f, (frame.px(36) - used) / 2), w, 0},
                           items[i].says, Type::text);
            const Area button{box.x + measured_w - button_w, y, button_w, frame.px(36)};
            ButtonLook look;
            if (i < 9) look.key = number.c_str();
            if (frame.button("words/hear:" + std::to_string(i), button, ui::words("Hear"), look))
                play_from(items[i].at_s);
            y += h + frame.px(8);
        }
    });
}

}  // namespace ui
