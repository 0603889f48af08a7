// The watch, and beside it what the hand on the belly tells about the womb.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

// The watch reads ten past two when the trainee sits down; from there it shows labour time.
constexpr double starts_at_s = 2 * 3600 + 10 * 60;

}  // namespace

// Five steps a second, as such a watch goes.
void BedsideScreen::second_hand(Frame& frame, Area face) {
    const double t = session_->now().seconds() + starts_at_s;
    const double minute = std::floor(t / 10) * 10;  // the minute hand moves every ten seconds
    frame.picture("watch " + std::to_string(static_cast<long>(minute)), face, [&](Canvas& canvas) {
        draw_watch(canvas, {0, 0, static_cast<double>(face.w), static_cast<double>(face.h)}, minute, false);
    });
    const double second = std::floor(std::fmod(t, 60) * 5) / 5;
    const double turn = second / 60 * 2 * 3.14159265358979;
    const float reach = face.h * static_cast<float>(second_hand_share);
    const float cx = face.middle_x(), cy = face.middle_y();
    const float sx = static_cast<float>(std::sin(turn)), sy = -static_cast<float>(std::cos(turn));
    frame.line(cx - sx * reach * 0.2f, cy - sy * reach * 0.2f, cx + sx * reach, cy + sy * reach,
               colour::attention, 2);
    frame.disc(cx, cy, std::max(3.0f, face.h * 0.02f), colour::attention);
}

void BedsideScreen::mark_contraction(Frame& frame, Area at) {
    ButtonLook look;
    look.chosen = in_contraction_;
    if (at.w > frame.px(140)) look.key = "M";
    const bool marked =
        frame.button("mark", at, in_contraction_ ? words("It is over") : words("A contraction starts"), look);
    if (!marked && !(over_ == Over::nothing && frame.key('m'))) return;
    engine::Event event;
    event.what = engine::Do::mark_contraction;
    event.contraction_starts = !in_contraction_;
    if (want(event, frame.now_s())) in_contraction_ = !in_contraction_;
}

void BedsideScreen::watch(Frame& frame, Area at) {
    if (session_->scenario().place.watch) {
        second_hand(frame, at.take_left(at.h, frame.px(16)));
    } else {
        frame.words_in(at.take_left(frame.px(150), frame.px(16)),
                       words("No watch with a second hand is here."), Type::text, Tone::soft);
    }
    const bool roomy = at.h > frame.px(130);
    if (roomy) at.take_top(frame.px(6));
    const std::string feels = belly_words();
    frame.one_line(at.take_top(frame.px(20), frame.px(2)), words("The womb under your hand"), Type::note,
                   Tone::soft);
    frame.one_line(at.take_top(frame.px(24), frame.px(8)),
                   feels.empty() ? std::string(words("no hand there")) : feels,
                   feels.empty() ? Type::text : Type::strong, feels.empty() ? Tone::soft : Tone::ink);
    mark_contraction(frame, at.take_top(frame.px(40), frame.px(8)));
    if (roomy) {
        const std::string silent = session_->device().state_words();
        if (!silent.empty())
            frame.words_in({at.x, at.y, at.w, 0},
                           session_->device().state() == DeviceState::lost
                               ? words("Sound device gone: time stands still until it returns.")
                               : words("No sound device: nothing can be heard."),
                           Type::note, Tone::attention);
    }
}

}  // namespace ui
