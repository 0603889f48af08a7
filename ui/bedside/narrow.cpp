// The bedside with large letters: the watch and the hands stay in sight, everything else is a page of its
// own.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {

void BedsideScreen::draw_narrow(Frame& frame) {
    const float edge = frame.px(10), gap = frame.px(8), inside = frame.px(10);
    Area all{edge, 0, frame.width() - 2 * edge, frame.height() - edge};
    const Area top = all.take_top(frame.px(48));
    Area left = all.take_left(std::max(frame.px(226), all.w * 0.34f), gap);
    const Area watch_card = left.take_top(frame.px(132), gap);
    frame.page(std::vector<Area>{watch_card, left, all});
    narrow_header(frame, top);
    narrow_watch(frame, watch_card.inside(frame.px(8)));
    at_hand(frame, left.inside(inside));
    tabs(frame, all.inside(inside), true);
    said_on_page(frame, all.inside(inside), frame.px(48));
}

void BedsideScreen::narrow_header(Frame& frame, Area at) {
    const float buttons_w = frame.px(270);
    Area right{at.right() - buttons_w, at.y + frame.px(6), buttons_w, at.h - frame.px(12)};
    const std::string& title = session_->scenario().title;
    const Area room{at.x + 2, at.y, at.w - buttons_w - frame.px(12), at.h};
    if (frame.width_of(title, Type::card) <= room.w) {
        frame.one_line(room, title, Type::card);
    } else {
        const float h = frame.height_of(title, Type::note, room.w);
        frame.words_in({room.x, room.y + std::max(0.0f, (room.h - h) / 2), room.w, room.h}, title,
                       Type::note);
    }
    ButtonLook later;
    later.enabled = !session_->hold().placed && !session_->counting();
    if (frame.button("later", right.take_left(frame.px(150), frame.px(8)), words("Come back later"), later))
        over_ = Over::later;
    if (frame.button("finish", right, words("Leave her"))) over_ = Over::finish;
}

void BedsideScreen::narrow_watch(Frame& frame, Area at) {
    const std::string feels = belly_words();
    const Area womb{at.x, at.bottom() - frame.px(20), at.w, frame.px(20)};
    at.h -= womb.h + frame.px(4);
    if (session_->scenario().place.watch)
        second_hand(frame, at.take_left(at.h, frame.px(8)));
    else
        frame.words_in(at.take_left(at.h, frame.px(8)), words("No watch with a second hand is here."),
                       Type::note, Tone::soft);
    mark_contraction(frame, at);
    const std::string silent = session_->device().state_words();
    if (!feels.empty())
        frame.one_line(womb, fmt::format(fmt::runtime(words("Womb: {}")), feels), Type::note);
    else if (!silent.empty())
        frame.one_line(womb, words("No sound device."), Type::note, Tone::attention);
    else
        frame.one_line(womb, words("No hand on the womb"), Type::note, Tone::soft);
}

void BedsideScreen::at_hand(Frame& frame, Area at) {
    const sim::Hold& hold = session_->hold();
    const auto& there = session_->scenario().place.instruments;
    const float gap = frame.px(8), row = frame.px(50), low = frame.px(40);
    const bool taken = hold.instrument != sim::Instrument::none,
               doppler = hold.instrument == sim::Instrument::doppler;
    const float height = 2 * (row + gap) + (taken ? 2 * (low + gap) : 0.0f) +
                         (doppler ? frame.px(88) + gap : 0.0f) +
                         static_cast<float>(std::max<std::size_t>(there.size(), 1)) * (low + gap);
    frame.scroll("at_hand", at, height, [&](Area in) {
        hand_place(frame, in.take_top(row, gap), sim::Hand::left, true);
        hand_place(frame, in.take_top(row, gap), sim::Hand::right, true);
        if (taken) {
            const Area force = in.take_top(low, gap);
            pressing(frame, force, in.take_top(low, gap));
        }
        if (doppler) {
            doppler_number(frame, {in.x, in.y - frame.px(28), in.w, frame.px(88)});
            in.take_top(frame.px(88), gap);
        }
        if (there.empty())
            frame.words_in(in, words("There is no instrument here: use your hands."), Type::note, Tone::soft);
        for (const sim::Instrument one : there) one_instrument(frame, in.take_top(low, gap), one);
    });
}

void BedsideScreen::her(Frame& frame, Area at) {
    const AbdomenFrame skin = abdomen_in(at.box());
    const Area drawn = Area::of(skin.box);
    belly_at_ = at;
    frame.picture("abdomen", drawn, [&](Canvas& canvas) {
        draw_abdomen(canvas, abdomen_in({0, 0, skin.box.w, skin.box.h}));
    });
    on_skin(frame, skin, drawn);
    hint_over_her(frame, drawn);
}

}  // namespace ui
