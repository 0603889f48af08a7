// The belly: where instrument and hands are put, moved and pressed.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include "sim/body/palpation.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {
Drawing drawing_of(sim::Instrument instrument) {
    switch (instrument) {
        case sim::Instrument::bell: return Drawing::bell;
        case sim::Instrument::diaphragm: return Drawing::diaphragm;
        case sim::Instrument::doppler: return Drawing::doppler;
        default: return Drawing::horn;
    }
}

// A drawing with its anchor at a point of the screen.
void put_drawing(Frame& frame, Drawing which, Point at, double px_per_cm) {
    const DrawingShape shape = shape_of(which);
    const double w = shape.width_cm * px_per_cm, h = shape.height_cm * px_per_cm;
    const Area area{static_cast<float>(at.x - shape.anchor_x * w),
                    static_cast<float>(at.y - shape.anchor_y * h), static_cast<float>(w),
                    static_cast<float>(h)};
    frame.sprite(std::string("drawing ") + std::string(file_name_of(which)), area,
                 [which, w, h](Canvas& canvas) {
                     draw(canvas, which, {0, 0, w, h});
                 });
}

// Her position, and the button that changes it.
void BedsideScreen::her_position(Frame& frame, Area at) {
    const std::string lies =
        fmt::format(fmt::runtime(words("She is {}")), position_words(session_->hold().position));
    const float change_w = frame.px(112);
    frame.one_line({at.x, at.y, at.w - change_w - frame.px(8), at.h}, lies, Type::text);
    if (frame.button("position", {at.right() - change_w, at.y, change_w, at.h}, words("Turn her")))
        over_ = Over::position;
}

void BedsideScreen::belly(Frame& frame, Area at, bool compact) {
    if (!compact) her_position(frame, at.take_top(frame.px(36), frame.px(8)));

    Area below = at;
    const bool taken = session_->hold().instrument != sim::Instrument::none;
    const float row = frame.px(compact ? 38 : 44);
    const float rows = 2 * (row + frame.px(8)) + (compact ? 0.0f : frame.line_height(Type::note) * 2);
    below.y = at.bottom() - rows;
    below.h = rows;
    at.h -= rows + frame.px(8);

    const bool doppler = session_->hold().instrument == sim::Instrument::doppler;
    Area room = at;
    if (compact && doppler) room.w -= frame.px(116);  // the number stands beside her, not on her
    const AbdomenFrame skin = abdomen_in(room.box());
    const Area drawn = Area::of(skin.box);
    belly_at_ = room;
    frame.picture("abdomen", drawn, [&](Canvas& canvas) {
        draw_abdomen(canvas, abdomen_in({0, 0, skin.box.w, skin.box.h}));
    });
    if (doppler) over_number(frame, compact ? at : drawn);
    on_skin(frame, skin, drawn);
    if (doppler) doppler_number(frame, compact ? at : drawn);

    instruments(frame, below.take_top(row, frame.px(8)));
    if (taken)
        pressing(frame, below.take_top(row, frame.px(8)));
    else
        frame.words_in(below.take_top(row, frame.px(8)),
                       words("Feel for the back first: put a hand on her belly. Then take an instrument."),
                       Type::note, Tone::soft);
    if (compact) {
        hint_over_her(frame, drawn);
    } else {
        Tone tone = Tone::soft;
        const std::string hint = hint_at_her(frame, tone);
        frame.words_in({below.x, below.y, below.w, 0}, hint, Type::note, tone);
    }
}

std::string BedsideScreen::hint_at_her(const Frame& frame, Tone& tone) const {
    if (said_at_her_ && frame.now_s() < said_until_s_) {
        tone = Tone::attention;
        return said_;
    }
    if (frame.focused() == "lean") {
        tone = Tone::act;
        return words("Lean it: H to her right, K to her left, U to her head, N to her feet.");
    }
    if (session_->hold().instrument == sim::Instrument::none)
        return words(
            "Drag a hand or the instrument onto her; or L and R for your hands, numbers for the instrument.");
    if (!session_->hold().placed)
        return words(
            "Click on her skin to put it there, or press Enter at the ring; arrow keys move the ring.");
    if (moves_ != Moves::instrument)
        return words("Arrow keys move your hand; I goes back to the instrument.");
    return words(
        "Drag it or use the arrow keys: half a centimetre a step. + and \xE2\x80\x93 press. Del lifts it.");
}

// What must be read now lies over the picture where there is no room below it.
void BedsideScreen::hint_over_her(Frame& frame, Area drawn) {
    Tone tone = Tone::soft;
    const std::string hint = hint_at_her(frame, tone);
    if (tone == Tone::soft) return;
    const Area note{drawn.x, drawn.y + frame.px(24), drawn.w,
                    frame.height_of(hint, Type::note, drawn.w - 16) + 8};
    frame.fill(note, colour::card, 6);
    frame.words_in(note.inside(4), hint, Type::note, tone);
}

void BedsideScreen::on_skin(Frame& frame, const AbdomenFrame& skin, Area at) {
    const double now_s = frame.now_s();
    const sim::Hold& hold = session_->hold();
    const float unit = static_cast<float>(skin.px_per_cm);
    const auto on_page = [&](double x, double y) { return skin.to_page(x, y); };
    const auto near = [&](double x, double y, float px, float py, double within_cm) {
        const Point p = on_page(x, y);
        return std::hypot(p.x - static_cast<double>(px), p.y - static_cast<double>(py)) <
               within_cm * skin.px_per_cm;
    };
    const auto to_cm = [&](float px, float py) {
        const Point p = skin.to_cm({static_cast<double>(px), static_cast<double>(py)});
        return Spot{p.x, p.y};
    };
    const Touch touch = frame.touch("belly", at);
    const bool frozen = session_->paused();

    if (touch.pressed && !frozen) {
        dragging_placed_ = false;
        dragging_on_skin_.reset();
        const Spot spot = to_cm(touch.x, touch.y);
        if (hold.placed && near(hold.x_cm, hold.y_cm, touch.x, touch.y, 2.6)) {
            dragging_placed_ = true;
            moves_ = Moves::instrument;
        } else if (hold.left == sim::On::belly &&
                   near(left_spot_.x_cm, left_spot_.y_cm, touch.x, touch.y, 4)) {
            dragging_on_skin_ = sim::Hand::left;
            moves_ = Moves::left_hand;
        } else if (hold.right == sim::On::belly &&
                   near(right_spot_.x_cm, right_spot_.y_cm, touch.x, touch.y, 4)) {
            dragging_on_skin_ = sim::Hand::right;
            moves_ = Moves::right_hand;
        } else if (near(wrist_x_cm, wrist_y_cm, touch.x, touch.y, wrist_reach_cm)) {
            const sim::Hand hand =
                session_->carrying() == sim::Hand::left ? sim::Hand::right : sim::Hand::left;
            put_hand(hand, hand_on(hand) == sim::On::wrist ? sim::On::none : sim::On::wrist, now_s);
        } else if (hold.instrument != sim::Instrument::none && !hold.placed) {
            place_at(spot.x_cm, spot.y_cm, now_s);
            dragging_placed_ = session_->hold().placed;
        } else if (hold.placed && spot.x_cm > -17) {
            moves_ = Moves::instrument;
            move_to(spot.x_cm, spot.y_cm, now_s);
            dragging_placed_ = true;
        }
    }
    if (touch.held && dragging_placed_ && !frozen && session_->hold().placed) {
        const Spot spot = to_cm(touch.x, touch.y);
        move_to(spot.x_cm, spot.y_cm, now_s);
    }
    if (touch.held && dragging_on_skin_) {
        Spot& hand = *dragging_on_skin_ == sim::Hand::left ? left_spot_ : right_spot_;
        const Spot spot = to_cm(touch.x, touch.y);
        hand = {std::clamp(spot.x_cm, -16.0, 16.0), std::clamp(spot.y_cm, -18.0, 20.0)};
    }
    if (touch.released) {
        dragging_placed_ = false;
        dragging_on_skin_.reset();
    }
    if (touch.over && touch.wheel != 0) press_by(touch.wheel > 0 ? 1 : -1, now_s);

    // The way the instrument has come, dotted: the trainee's own movements.
    if (hold.placed && path_.size() > 1) {
        std::vector<float> way;
        for (const Spot& s : path_) {
            const Point p = on_page(s.x_cm, s.y_cm);
            way.push_back(static_cast<float>(p.x));
            way.push_back(static_cast<float>(p.y));
        }
        frame.dashes(way, colour::soft, 1.5f);
    }
    const auto hand_at = [&](sim::Hand hand, const Spot& spot) {
        const sim::On on = hand_on(hand);
        if (on != sim::On::belly && on != sim::On::wrist) return;
        if (on == sim::On::belly) {
            const Point p = on_page(spot.x_cm, spot.y_cm);
            // The womb lifts the hand a little as it hardens.
            const double lift = sim::swell(session_->body()) * 4;
            put_drawing(frame, hand == sim::Hand::left ? Drawing::hand_left : Drawing::hand_right,
                        {p.x, p.y - lift}, skin.px_per_cm);
            const bool moving = moves_ == (hand == sim::Hand::left ? Moves::left_hand : Moves::right_hand);
            if (moving)
                frame.circle(static_cast<float>(p.x), static_cast<float>(p.y), unit * 1.6f, colour::act,
                             2.2f);
        } else {
            const Point p = on_page(wrist_x_cm, wrist_y_cm);
            put_drawing(frame, hand == sim::Hand::left ? Drawing::hand_left : Drawing::hand_right, p,
                        skin.px_per_cm * 0.8);
        }
    };
    hand_at(sim::Hand::left, left_spot_);
    hand_at(sim::Hand::right, right_spot_);

    if (hold.placed) {
        const Point p = on_page(hold.x_cm, hold.y_cm);
        put_drawing(frame, drawing_of(hold.instrument), p, skin.px_per_cm);
        const float ring = unit * 2.9f;
        frame.circle(static_cast<float>(p.x), static_cast<float>(p.y), ring, colour::act,
                     moves_ == Moves::instrument ? 3.0f : 1.6f);
        if (tilt_deg_ > 0) {
            const double turn = tilt_towards_deg_ * 3.14159265358979 / 180;
            const float reach = ring * (0.5f + static_cast<float>(tilt_deg_) / 90.0f);
            frame.line(static_cast<float>(p.x), static_cast<float>(p.y),
                       static_cast<float>(p.x) + reach * static_cast<float>(std::cos(turn)),
                       static_cast<float>(p.y) - reach * static_cast<float>(std::sin(turn)), colour::act, 3);
        }
    } else if (hold.instrument != sim::Instrument::none && moves_ == Moves::instrument) {
        const Point p = on_page(cursor_.x_cm, cursor_.y_cm);
        frame.circle(static_cast<float>(p.x), static_cast<float>(p.y), unit * 2.6f, colour::act, 2);
        frame.circle(static_cast<float>(p.x), static_cast<float>(p.y), unit * 0.4f, colour::act, 2);
        if (touch.over && !touch.held) frame.circle(touch.x, touch.y, unit * 2.4f, colour::soft, 1.5f);
    }
    // Names of the sides stand on the sheet, clear of her skin.
    frame.one_line({at.x + frame.px(8), at.y + frame.px(4), frame.px(90), frame.px(20)}, words("her right"),
                   Type::note, Tone::ink);
    frame.one_line({at.right() - frame.px(98), at.y + frame.px(4), frame.px(90), frame.px(20)},
                   words("her left"), Type::note, Tone::ink, Align::right);
    if (touch.focused && frame.focused() == "belly") frame.outline(at.inside(2), colour::ink, 6, 2);
}

void BedsideScreen::instruments(Frame& frame, Area at) {
    const auto& there = session_->scenario().place.instruments;
    const int n = static_cast<int>(there.size());
    if (n == 0) {
        frame.one_line(at, words("There is no instrument here: use your hands."), Type::text, Tone::soft);
        return;
    }
    const float gap = frame.px(8);
    for (int i = 0; i < n; ++i) {
        Area place = at.part(i, n, gap);
        place.w = std::min(place.w, frame.px(230));
        if (n < 3) place.x = at.x + static_cast<float>(i) * (place.w + gap);
        one_instrument(frame, place, there[static_cast<std::size_t>(i)]);
    }
}

void BedsideScreen::one_instrument(Frame& frame, Area at, sim::Instrument instrument) {
    const auto& there = session_->scenario().place.instruments;
    ButtonLook look;
    look.chosen = session_->hold().instrument == instrument;
    const std::string key =
        std::to_string(std::find(there.begin(), there.end(), instrument) - there.begin() + 1);
    look.key = key.c_str();
    if (frame.button("instrument:" + std::string(engine::name_of(instrument)), at,
                     instrument_words(instrument), look))
        take_instrument(instrument, frame.now_s());
}

void BedsideScreen::pressing(Frame& frame, Area at) {
    const bool doppler = session_->hold().instrument == sim::Instrument::doppler;
    const float rest_w = frame.px(44 + 8 + 88) + (doppler ? frame.px(64 + 8) : 0.0f);
    const Area force = at.take_left(std::max(at.w - rest_w - frame.px(8), frame.px(164)), frame.px(8));
    pressing(frame, force, at);
}

void BedsideScreen::pressing(Frame& frame, Area force, Area at) {
    const double now_s = frame.now_s();
    const sim::Hold& hold = session_->hold();
    const float gap = frame.px(8), small = frame.px(44);
    if (frame.button("softer", force.take_left(small, gap), "\xE2\x80\x93")) press_by(-1, now_s);
    const bool doppler = hold.instrument == sim::Instrument::doppler;
    const float lean_w = std::min(frame.px(44), at.h), gel_w = doppler ? frame.px(64) : 0.0f;
    const Area how = force.take_left(force.w - small - gap, gap);
    frame.one_line({how.x, how.y, how.w, how.h * 0.5f}, words("You press"), Type::note, Tone::soft,
                   Align::centre);
    frame.one_line({how.x, how.y + how.h * 0.45f, how.w, how.h * 0.55f}, press_words(press_n_), Type::text,
                   Tone::ink, Align::centre);
    if (frame.button("harder", force, "+")) press_by(1, now_s);

    // Leaning: the dot is where the upper end of the instrument goes.
    const Area lean = at.take_left(lean_w, gap);
    const Touch touch = frame.touch("lean", lean);
    frame.circle(lean.middle_x(), lean.middle_y(), lean_w / 2 - 1, touch.focused ? colour::ink : colour::soft,
                 touch.focused ? 2.5f : 1.4f);
    double tilt = tilt_deg_, towards = tilt_towards_deg_;
    if (touch.held) {
        const double dx = static_cast<double>(touch.x - lean.middle_x()),
                     dy = static_cast<double>(lean.middle_y() - touch.y);
        tilt = std::round(std::min(60.0, std::hypot(dx, dy) / static_cast<double>(lean_w / 2) * 60));
        if (tilt < 6) tilt = 0;
        towards = std::round(std::atan2(dy, dx) * 180 / 3.14159265358979);
    }
    if (touch.focused && !touch.held && frame.focused() == "lean") {
        const double turn = tilt_towards_deg_ * 3.14159265358979 / 180;
        double x = tilt_deg_ * std::cos(turn), y = tilt_deg_ * std::sin(turn);
        if (frame.key('h')) x -= 5;
        if (frame.key('k')) x += 5;
        if (frame.key('u')) y += 5;
        if (frame.key('n')) y -= 5;
        tilt = std::round(std::min(60.0, std::hypot(x, y)));
        towards = tilt > 0 ? std::round(std::atan2(y, x) * 180 / 3.14159265358979) : 0;
    }
    if (towards < 0) towards += 360;
    if (tilt != tilt_deg_ || (tilt > 0 && towards != tilt_towards_deg_)) {
        engine::Event event;
        event.what = engine::Do::tilt;
        event.tilt_deg = tilt;
        event.tilt_towards_deg = towards;
        if (!hold.placed || want(event, now_s)) {
            tilt_deg_ = hold.placed ? tilt : 0;
            tilt_towards_deg_ = towards;
        }
    }
    const double turn = tilt_towards_deg_ * 3.14159265358979 / 180;
    const double reach = tilt_deg_ / 60 * static_cast<double>(lean_w / 2 - 6);
    frame.disc(lean.middle_x() + static_cast<float>(reach * std::cos(turn)),
               lean.middle_y() - static_cast<float>(reach * std::sin(turn)), 5, colour::act);

    if (doppler) {
        ButtonLook look;
        look.chosen = gel_;
        if (frame.button("gel", at.take_left(gel_w, gap), words("Gel"), look) && !gel_) {
            engine::Event event;
            event.what = engine::Do::gel;
            gel_ = want(event, now_s);
        }
    }
    ButtonLook look;
    look.enabled = hold.placed;
    look.key = "Del";
    if (frame.button("lift", at, words("Lift it"), look)) {
        engine::Event event;
        event.what = engine::Do::lift;
        want(event, now_s);
    }
}

Area BedsideScreen::number_box(const Frame& frame, Area at) {
    return {at.right() - frame.px(116), at.y + frame.px(28), frame.px(112), frame.px(88)};
}

// The number is drawn over her skin, so it must be asked before the skin is: else whoever presses "Uncover"
// with the pointer moves the Doppler there.
void BedsideScreen::over_number(Frame& frame, Area at) {
    const Area box = number_box(frame, at);
    Area button = box.inside(frame.px(6));
    button.take_top(frame.px(40));
    frame.claim("cover", button);
    frame.claim("number", box);
}

void BedsideScreen::doppler_number(Frame& frame, Area at) {
    const Area box = number_box(frame, at);
    frame.fill(box, colour::card, 8);
    frame.outline(box, colour::soft, 8, 1.4f);
    Area inner = box.inside(frame.px(6));
    const Area number = inner.take_top(frame.px(40));
    if (covered_) {
        frame.one_line(number, words("covered"), Type::note, Tone::soft, Align::centre);
    } else {
        const int bpm = session_->displayed_bpm();
        frame.one_line(number, bpm == 0 ? std::string("- - -") : std::to_string(bpm), Type::display,
                       Tone::ink, Align::centre);
    }
    if (frame.button("cover", inner, covered_ ? words("Uncover") : words("Cover"))) {
        engine::Event event;
        event.what = engine::Do::cover_display;
        event.covered = !covered_;
        if (want(event, frame.now_s())) covered_ = !covered_;
    }
}

}  // namespace ui
