#include "ui/bedside/bedside.h"

#include "ui/bedside/bedside_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {

namespace {

// What is done with hands on her, and so looked for beside her.
bool at_her(engine::Do what) {
    using engine::Do;
    return what == Do::take || what == Do::place || what == Do::move || what == Do::press ||
           what == Do::hand || what == Do::lift || what == Do::position || what == Do::cover_display ||
           what == Do::tilt || what == Do::gel;
}

}  // namespace

BedsideScreen::BedsideScreen(std::unique_ptr<Session> session, engine::Store& store, bool resumed)
    : session_(std::move(session)), store_(store) {
    // Short counts come in four lengths: a minute nobody meant would make every one of them a wrong one.
    const engine::Scenario& scenario = session_->scenario();
    if (scenario.task == engine::Task::quick && scenario.place.watch) plan_ = plan_fresh_ = -1;
    // The door's "Go on" was the going on: no second one is asked for.
    if (resumed) session_->go_on();
    const sim::Hold& hold = session_->hold();
    if (hold.placed) cursor_ = {hold.x_cm, hold.y_cm};
    gel_ = hold.gel;
    press_n_ = hold.press_n;
    tilt_deg_ = hold.tilt_deg;
    tilt_towards_deg_ = hold.tilt_towards_deg;
    for (const engine::Event& e : session_->events()) {
        if (e.what == engine::Do::place) path_.clear();
        if (e.what == engine::Do::place || e.what == engine::Do::move) come_along(e.x_cm, e.y_cm);
        if (e.what == engine::Do::compare) compare_ = static_cast<int>(e.to_pulse);
        if (e.what == engine::Do::cover_display) covered_ = e.covered;
        if (e.what == engine::Do::mark_contraction) in_contraction_ = e.contraction_starts;
        if (e.what == engine::Do::start_window) plan_ = plan_of(e.plan_s.value_or(60), plan_);
    }
    bring_drafts_back();  // after the events: what was chosen since the last of them holds
    if (resumed && session_->counting())
        tell(words("You were counting. Time goes on from your last step: stop, and count anew."));
}

double BedsideScreen::draw_again_in_s() const {
    if (session_->paused()) return 1.0;
    double wait = 1.0 / 5;  // a watch's own beat: five steps a second
    if (pulse_under_finger()) {
        constexpr double felt_after = 0.25, felt_for = 0.16;
        const double since = session_->now().seconds() - session_->last_pulse_beat().seconds();
        wait = since < felt_after ? felt_after - since
                                  : (since < felt_after + felt_for ? felt_after + felt_for - since : 0.03);
    }
    if (!session_->settled()) wait = 0.01;
    return std::clamp(wait, 0.008, 1.0 / 5);
}

void BedsideScreen::hidden(bool is_hidden) {
    if (!is_hidden || session_->finished() || session_->paused()) return;
    session_->pause("window hidden");
    over_ = Over::paused;
}

bool BedsideScreen::want(const engine::Event& event, double now_s) {
    if (session_->paused()) return false;
    const std::string why = session_->want(event);
    if (why.empty()) return true;
    std::string says = words(why);
    says[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(says[0])));
    tell(says + '.');
    said_at_her_ = at_her(event.what);
    said_until_s_ = now_s + said_for_s_;
    return false;
}

void BedsideScreen::tell(std::string says, double for_s) {
    said_ = std::move(says);
    said_for_s_ = for_s;
    said_until_s_ = 0;
    said_at_her_ = false;
}

// A refusal of what the page asked for stands on the page: the eye is there, not at the instruments.
void BedsideScreen::said_on_page(Frame& frame, Area at, float foot) {
    if (said_at_her_ || frame.now_s() >= said_until_s_) return;
    const float inside = frame.px(10), h = frame.height_of(said_, Type::text, at.w - 2 * inside) + 2 * inside;
    const Area note{at.x, at.bottom() - foot - frame.px(8) - h, at.w, h};
    frame.above(true);
    frame.fill(note, colour::card, 8);
    frame.outline(note, colour::attention, 8, 2);
    frame.words_in(note.inside(inside), said_, Type::text, Tone::attention);
    frame.above(false);
}

bool BedsideScreen::pulse_under_finger() const {
    return session_->hold().left == sim::On::wrist || session_->hold().right == sim::On::wrist;
}

sim::On BedsideScreen::hand_on(sim::Hand hand) const {
    return hand == sim::Hand::left ? session_->hold().left : session_->hold().right;
}

void BedsideScreen::draw(Frame& frame) {
    session_->settle();
    if (!said_.empty() && said_until_s_ == 0) said_until_s_ = frame.now_s() + said_for_s_;
    if (frame.now_s() - last_look_s_ > 1) {
        last_look_s_ = frame.now_s();
        session_->device().look_after();
    }
    narrow_ = frame.narrow();
    const bool wide = !narrow_ && frame.width() >= frame.px(1150) && frame.height() >= frame.px(680);
    // Where her story has no card of its own it is read first.
    if (!opened_ && !wide && session_->events().empty()) tab_ = Tab::story;
    opened_ = true;
    if (wide && tab_ == Tab::story) tab_ = Tab::count;
    if (!narrow_ && tab_ == Tab::her) tab_ = Tab::count;
    frame.inert(over_ != Over::nothing);
    if (narrow_)
        draw_narrow(frame);
    else if (wide)
        draw_wide(frame);
    else
        draw_medium(frame);
    frame.above(true);
    if (over_ == Over::nothing) dragging(frame);
    frame.above(false);
    if (over_ == Over::nothing) keys(frame);
    frame.inert(false);
    over_all(frame);
    keep_drafts(frame.now_s());
}

void BedsideScreen::draw_wide(Frame& frame) {
    const float edge = frame.px(24), gap = frame.px(16), inside = frame.px(20);
    Area all{edge, 0, frame.width() - 2 * edge, frame.height() - edge};
    const Area top = all.take_top(frame.px(64));
    Area left = all.take_left(std::max(frame.px(272), all.w * 0.22f), gap);
    const float right_w = std::max(frame.px(400), all.w * 0.40f);
    const Area belly_card = all.take_left(all.w - right_w - gap, gap);
    Area right = all;
    const Area hands_card{left.x, left.bottom() - frame.px(268), left.w, frame.px(268)};
    left.h -= hands_card.h + gap;
    const float chart_h = std::clamp(chart_height(frame) + 2 * inside, frame.px(120), left.h * 0.5f);
    const Area chart_card{left.x, left.bottom() - chart_h, left.w, chart_h};
    left.h -= chart_h + gap;
    const Area watch_card = right.take_top(frame.px(196), gap);
    frame.page(std::vector<Area>{left, chart_card, hands_card, belly_card, watch_card, right});
    header(frame, top);
    story(frame, left.inside(inside), false);
    chart(frame, chart_card.inside(inside));
    hands(frame, hands_card.inside(inside), false);
    belly(frame, belly_card.inside(inside), false);
    watch(frame, watch_card.inside(frame.px(12)));
    tabs(frame, right.inside(inside), false);
    said_on_page(frame, right.inside(inside), frame.px(48));
}

void BedsideScreen::draw_medium(Frame& frame) {
    const float edge = frame.px(16), gap = frame.px(12), inside = frame.px(14);
    Area all{edge, 0, frame.width() - 2 * edge, frame.height() - edge};
    const Area top = all.take_top(frame.px(56));
    const float right_w = std::max(frame.px(348), all.w * 0.46f);
    Area left = all.take_left(all.w - right_w - gap, gap);
    const Area hands_card{left.x, left.bottom() - frame.px(76), left.w, frame.px(76)};
    left.h -= hands_card.h + gap;
    Area right = all;
    const Area watch_card = right.take_top(frame.px(108), gap);
    frame.page(std::vector<Area>{hands_card, left, watch_card, right});
    header(frame, top);
    hands(frame, hands_card.inside(frame.px(10)), true);
    belly(frame, left.inside(inside), true);
    watch(frame, watch_card.inside(frame.px(8)));
    tabs(frame, right.inside(inside), true);
    said_on_page(frame, right.inside(inside), frame.px(48));
}

void BedsideScreen::header(Frame& frame, Area at) {
    const std::string title = session_->scenario().title;
    const float buttons_w = frame.px(290);
    Area right{at.right() - buttons_w, at.y + frame.px(10), buttons_w, at.h - frame.px(22)};
    const std::string person = session_->header().person;
    const float person_w = frame.width_of(person, Type::text) + frame.px(16);
    const float room = at.w - buttons_w - person_w - frame.px(16);
    const float title_w = std::min(frame.width_of(title, Type::title) + 2, room);
    frame.one_line({at.x + 4, at.y, title_w, at.h}, title, Type::title);
    const std::string task = what_to_do(session_->scenario().task);
    const float task_room = room - title_w - frame.px(18);
    if (task_room > frame.width_of(task, Type::text))
        frame.one_line({at.x + title_w + frame.px(18), at.y + frame.px(2), task_room, at.h}, task, Type::text,
                       Tone::soft);
    frame.one_line({right.x - person_w, at.y, person_w - frame.px(12), at.h}, person, Type::text, Tone::soft,
                   Align::right);
    ButtonLook later;
    later.enabled = !session_->hold().placed && !session_->counting();
    if (frame.button("later", right.part(0, 2, frame.px(10)), words("Come back later"), later))
        over_ = Over::later;
    if (frame.button("finish", right.part(1, 2, frame.px(10)), words("Leave her"))) over_ = Over::finish;
}

void BedsideScreen::keys(Frame& frame) {
    const double now_s = frame.now_s();
    if (frame.key(Key::escape)) {
        session_->pause("asked");
        over_ = Over::paused;
        return;
    }
    if (frame.key(Key::space)) start_or_stop(now_s);
    if (frame.key('t')) tap(now_s);
    int n = 0;
    for (sim::Instrument i : session_->scenario().place.instruments)
        if (frame.key(static_cast<char>('1' + n++))) take_instrument(i, now_s);
    if (frame.key('l')) next_place(sim::Hand::left, now_s);
    if (frame.key('r')) next_place(sim::Hand::right, now_s);
    if (narrow_ && frame.key('h') && frame.focused() != "lean") tab_ = Tab::her;
    if (frame.key('i')) moves_ = Moves::instrument;
    if (frame.key('c')) tab_ = Tab::count;
    if (frame.key('d')) tab_ = Tab::decide;
    if (frame.key('a')) tab_ = Tab::act;
    if (frame.key('w')) tab_ = Tab::write;
    if (frame.key('s')) tab_ = Tab::story;
    if (frame.key('v')) loudness_by(frame.shift() ? -0.1 : 0.1);
    if (frame.key(Key::plus)) press_by(1, now_s);
    if (frame.key(Key::minus)) press_by(-1, now_s);
    const sim::Hold& hold = session_->hold();
    const double step = frame.shift() ? 2.0 : 0.5;
    double dx = 0, dy = 0;
    if (frame.key(Key::left)) dx = -step;
    if (frame.key(Key::right)) dx = step;
    if (frame.key(Key::up)) dy = step;
    if (frame.key(Key::down)) dy = -step;
    if (dx != 0 || dy != 0) {
        if (moves_ != Moves::instrument) {
            Spot& spot = moves_ == Moves::left_hand ? left_spot_ : right_spot_;
            spot.x_cm = std::clamp(spot.x_cm + dx, -16.0, 16.0);
            spot.y_cm = std::clamp(spot.y_cm + dy, -18.0, 20.0);
        } else if (hold.placed) {
            move_to(hold.x_cm + dx, hold.y_cm + dy, now_s);
        } else {
            cursor_.x_cm = std::clamp(cursor_.x_cm + dx, -16.0, 16.0);
            cursor_.y_cm = std::clamp(cursor_.y_cm + dy, -18.0, 20.0);
        }
    }
    if (frame.key(Key::enter)) {
        if (frame.typing() && tab_ == Tab::count)
            write_down(now_s);
        else if (hold.instrument != sim::Instrument::none && !hold.placed)
            place_at(cursor_.x_cm, cursor_.y_cm, now_s);
        // The button says Enter: it must not do nothing because a choice was pressed after the number.
        else if (tab_ == Tab::count && (!beats_.empty() || !rate_.empty() || !pulse_.empty()))
            write_down(now_s);
    }
    if (frame.key(Key::remove) || frame.key(Key::backspace)) {
        engine::Event lift;
        lift.what = engine::Do::lift;
        want(lift, now_s);
    }
}

void BedsideScreen::finish() {
    auto judged = session_->finish(store_);
    if (judged) {
        judged_ = std::move(judged).value();
        leave_ = Leave::on;
        return;
    }
    fault_ = engine::in_one_line(judged.faults().front());
}

}  // namespace ui
