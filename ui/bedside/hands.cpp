// Two hands and an ear: what each is doing.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include "sim/body/palpation.h"

#include <fmt/format.h>

#include <cmath>

namespace ui {

std::string BedsideScreen::belly_words() const {
    const bool left = session_->hold().left == sim::On::belly,
               right = session_->hold().right == sim::On::belly;
    if (!left && !right) return "";
    return firmness_words(sim::firmness(session_->body()));
}

void BedsideScreen::hand_place(Frame& frame, Area at, sim::Hand hand, bool few_words) {
    const bool left = hand == sim::Hand::left;
    const sim::On on = hand_on(hand);
    const sim::Hold& hold = session_->hold();
    const std::string id = left ? "hand:left" : "hand:right";
    std::string does = words("Free");
    if (session_->carrying() == hand)
        does = fmt::format(fmt::runtime(words("Holds the {}")),
                           hold.instrument == sim::Instrument::doppler ? words("Doppler")
                           : hold.instrument == sim::Instrument::horn  ? words("horn")
                                                                       : words("stethoscope"));
    if (session_->carrying() == hand && few_words) does = words("Holds it");
    if (on == sim::On::wrist) does = few_words ? words("On her wrist") : words("Her wrist: pulse felt");
    if (on == sim::On::instrument) does = few_words ? words("Steadies it") : words("Steadies the instrument");
    if (on == sim::On::belly) {
        const Spot& spot = left ? left_spot_ : right_spot_;
        const std::string felt =
            felt_words(sim::felt_at(session_->patient(), spot.x_cm, spot.y_cm, session_->body()));
        does = few_words ? felt : fmt::format(fmt::runtime(words("Belly: {}")), felt);
    }
    ButtonLook look;
    look.align = Align::left;
    look.chosen = on != sim::On::none;
    look.key = left ? "L" : "R";
    const std::string title = left ? words("Left hand") : words("Right hand");
    look.note = does.c_str();
    // Free, wrist, belly, the instrument if it is on her, free. On the belly the hand is dragged, or moved by
    // the arrow keys.
    const bool used = frame.button(id, at, title, look);
    if (used) next_place(hand, frame.now_s());
    if (on == sim::On::wrist) {
        // A quarter of a second after her heart, the pulse comes to the finger.
        const double since = session_->now().seconds() - session_->last_pulse_beat().seconds() - 0.25;
        const bool beat = !session_->paused() && since >= 0 && since < 0.16;
        const float x = at.right() - frame.px(26), y = at.y + at.h * 0.62f;
        frame.circle(x, y, frame.px(9), colour::act, 1.6f);
        if (beat) frame.disc(x, y, frame.px(9), colour::act);
    }
}

void BedsideScreen::hands(Frame& frame, Area at, bool in_a_row) {
    const sim::Hold& hold = session_->hold();
    const std::string ear_words =
        hold.instrument == sim::Instrument::none
            ? (in_a_row ? words("Nothing yet") : words("Nothing to listen with"))
        : !hold.placed ? (in_a_row ? words("Not on her yet") : words("In your hand, not on her yet"))
        : hold.instrument == sim::Instrument::horn
            ? (in_a_row ? words("Horn on her") : words("Horn, pressed by your head"))
        : in_a_row
            ? (hold.instrument == sim::Instrument::doppler ? words("Doppler on her") : words("Tube on her"))
            : instrument_words(hold.instrument);
    const auto ear = [&](Area place) {
        frame.sprite(hold.placed ? "ear used" : "ear", place, [&](Canvas& canvas) {
            const Box whole{0, 0, std::round(static_cast<double>(place.w)),
                            std::round(static_cast<double>(place.h))};
            const double thick = hold.placed ? 2.2 : 1.4;
            canvas.round_fill(whole.inset(thick / 2), 8,
                              hold.placed ? light_palette.chosen : light_palette.page);
            canvas.round_edge(whole.inset(thick / 2), 8, hold.placed ? light_palette.act : light_palette.rule,
                              thick);
        });
        const float both = frame.line_height(Type::text) + frame.line_height(Type::note);
        const float top = place.y + (place.h - both) / 2, x = place.x + frame.px(10),
                    w = place.w - frame.px(20);
        frame.one_line({x, top, w, frame.line_height(Type::text)}, words("Ear"),
                       hold.placed ? Type::strong : Type::text);
        frame.one_line({x, top + frame.line_height(Type::text), w, frame.line_height(Type::note)}, ear_words,
                       Type::note, Tone::soft);
    };
    const float gap = frame.px(8);
    if (in_a_row) {
        ear(at.part(0, 3, gap));
        hand_place(frame, at.part(1, 3, gap), sim::Hand::left, true);
        hand_place(frame, at.part(2, 3, gap), sim::Hand::right, true);
        return;
    }
    frame.words_in(at.take_top(frame.px(34)), words("Your hands and your ear"), Type::card);
    ear(at.take_top(frame.px(56), gap));
    hand_place(frame, at.take_top(frame.px(56), gap), sim::Hand::left, false);
    hand_place(frame, at.take_top(frame.px(56), gap), sim::Hand::right, false);
}

}  // namespace ui
