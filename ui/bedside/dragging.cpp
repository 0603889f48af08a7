// From a card onto her: an instrument or a hand carried by the pointer. A click and a key do the same.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"

#include <algorithm>
#include <cmath>

namespace ui {
namespace {

// Further than this the pointer has carried something; less is a click with an unsteady hand.
constexpr float carried_px = 10;

}  // namespace

void BedsideScreen::put_down(sim::Instrument instrument, double x_cm, double y_cm, double now_s) {
    if (session_->hold().instrument != instrument) {
        take_instrument(instrument, now_s);
        if (session_->hold().instrument != instrument) return;
    }
    if (session_->hold().placed)
        move_to(x_cm, y_cm, now_s);
    else
        place_at(x_cm, y_cm, now_s);
}

void BedsideScreen::put_down(sim::Hand hand, double x_cm, double y_cm, double now_s) {
    const sim::Hold& hold = session_->hold();
    if (hold.placed && session_->carrying() != hand && std::hypot(hold.x_cm - x_cm, hold.y_cm - y_cm) < 2.6) {
        put_hand(hand, sim::On::instrument, now_s);
        return;
    }
    if (std::hypot(wrist_x_cm - x_cm, wrist_y_cm - y_cm) < wrist_reach_cm) {
        put_hand(hand, sim::On::wrist, now_s);
        return;
    }
    Spot& spot = hand == sim::Hand::left ? left_spot_ : right_spot_;
    spot.x_cm = std::clamp(x_cm, -16.0, 16.0);
    spot.y_cm = std::clamp(y_cm, -18.0, 20.0);
    if (hand_on(hand) != sim::On::belly) put_hand(hand, sim::On::belly, now_s);
}

void BedsideScreen::dragging(Frame& frame) {
    const std::string held = frame.held();
    const bool is_hand = held == "hand:left" || held == "hand:right";
    const bool is_instrument = held.rfind("instrument:", 0) == 0;
    if (!is_hand && !is_instrument) {
        held_.clear();
        return;
    }
    const float x = frame.pointer_x(), y = frame.pointer_y();
    if (held_ != held) {
        held_ = held;
        held_x_ = x;
        held_y_ = y;
    }
    if (std::hypot(x - held_x_, y - held_y_) < carried_px) return;
    const AbdomenFrame skin = abdomen_in(belly_at_.box());
    sim::Instrument instrument = sim::Instrument::none;
    for (const sim::Instrument there : session_->scenario().place.instruments)
        if (held == "instrument:" + std::string(engine::name_of(there))) instrument = there;
    const sim::Hand hand = held == "hand:left" ? sim::Hand::left : sim::Hand::right;
    if (frame.let_go()) {
        held_.clear();
        if (!Area::of(skin.box).holds(x, y)) return;
        const Point at = skin.to_cm({static_cast<double>(x), static_cast<double>(y)});
        if (is_hand)
            put_down(hand, at.x, at.y, frame.now_s());
        else
            put_down(instrument, at.x, at.y, frame.now_s());
        return;
    }
    if (is_hand)
        put_drawing(frame, hand == sim::Hand::left ? Drawing::hand_left : Drawing::hand_right, {x, y},
                    skin.px_per_cm);
    else
        put_drawing(frame, drawing_of(instrument), {x, y}, skin.px_per_cm);
}

}  // namespace ui
