// What hands and keys ask for, as events.
#include "ui/bedside/bedside.h"
#include "ui/bedside/number_in.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace ui {
namespace {

double hundredth(double v) { return std::round(v * 100) / 100; }

constexpr std::array<double, 5> plans{60, 30, 15, 10, 6};

}  // namespace

int BedsideScreen::plan_of(double plan_s, int otherwise) {
    for (std::size_t i = 0; i < plans.size(); ++i)
        if (std::fabs(plans[i] - plan_s) < 0.5) return static_cast<int>(i);
    return otherwise;
}

void BedsideScreen::take_instrument(sim::Instrument instrument, double now_s) {
    engine::Event event;
    event.what = engine::Do::take;
    event.instrument = session_->hold().instrument == instrument ? sim::Instrument::none : instrument;
    if (!want(event, now_s)) return;
    moves_ = Moves::instrument;
    if (narrow_) tab_ = Tab::her;
    gel_ = false;
    tilt_deg_ = 0;
    press_n_ = 6;
    if (event.instrument == sim::Instrument::doppler) {
        engine::Event cover;
        cover.what = engine::Do::cover_display;
        cover.covered = covered_;
        want(cover, now_s);
    }
}

void BedsideScreen::place_at(double x_cm, double y_cm, double now_s) {
    engine::Event event;
    event.what = engine::Do::place;
    event.x_cm = hundredth(std::clamp(x_cm, -16.0, 16.0));
    event.y_cm = hundredth(std::clamp(y_cm, -18.0, 20.0));
    event.press_n = press_n_;
    if (!want(event, now_s)) return;
    cursor_ = {event.x_cm, event.y_cm};
    path_ = {cursor_};
    moves_ = Moves::instrument;
}

void BedsideScreen::move_to(double x_cm, double y_cm, double now_s) {
    x_cm = hundredth(std::clamp(x_cm, -16.0, 16.0));
    y_cm = hundredth(std::clamp(y_cm, -18.0, 20.0));
    const sim::Hold& hold = session_->hold();
    if (std::hypot(x_cm - hold.x_cm, y_cm - hold.y_cm) < 0.05) return;
    engine::Event event;
    event.what = engine::Do::move;
    event.x_cm = x_cm;
    event.y_cm = y_cm;
    if (!want(event, now_s)) return;
    cursor_ = {x_cm, y_cm};
    come_along(x_cm, y_cm);
}

void BedsideScreen::come_along(double x_cm, double y_cm) {
    if (path_.empty() || std::hypot(path_.back().x_cm - x_cm, path_.back().y_cm - y_cm) > 0.4)
        path_.push_back({x_cm, y_cm});
    if (path_.size() > 160) path_.erase(path_.begin());
}

void BedsideScreen::put_hand(sim::Hand hand, sim::On on, double now_s) {
    engine::Event event;
    event.what = engine::Do::hand;
    event.hand = hand;
    event.on = on;
    if (!want(event, now_s)) return;
    if (narrow_ && on == sim::On::belly) tab_ = Tab::her;
    if (on == sim::On::belly)
        moves_ = hand == sim::Hand::left ? Moves::left_hand : Moves::right_hand;
    else if (moves_ != Moves::instrument)
        moves_ = Moves::instrument;
}

void BedsideScreen::next_place(sim::Hand hand, double now_s) {
    const bool steadies = session_->hold().placed && session_->carrying() != hand;
    const int places = steadies ? 4 : 3;
    put_hand(hand, static_cast<sim::On>((static_cast<int>(hand_on(hand)) + 1) % places), now_s);
}

std::string BedsideScreen::left_open() const {
    if (session_->counting())
        return words("You are still counting: leave now and that count has no end and no number.");
    if (!beats_.empty() || !rate_.empty() || !pulse_.empty())
        return words("What you typed on the count page is not written down yet.");
    if (!per_10min_.empty() || !length_s_.empty())
        return words("The contractions you felt are typed, but not written down yet.");
    if (!note_.empty()) return words("Your note is typed, but not kept yet.");
    if (!situation_.empty() || !background_.empty() || !assessment_.empty() || !request_.empty())
        return words("Your referral note is typed, but not sent yet.");
    return "";
}

void BedsideScreen::press_by(double newtons, double now_s) {
    const double wanted = std::clamp(press_n_ + newtons, 0.0, 30.0);
    if (!session_->hold().placed) {
        press_n_ = wanted;
        return;
    }
    engine::Event event;
    event.what = engine::Do::press;
    event.press_n = hundredth(wanted);
    if (want(event, now_s)) press_n_ = wanted;
}

void BedsideScreen::start_or_stop(double now_s) {
    engine::Event event;
    event.what = session_->counting() ? engine::Do::stop_window : engine::Do::start_window;
    if (event.what == engine::Do::start_window) {
        // A blank typed beside a number starts a count too: it must not wipe the number out unasked.
        if ((!beats_.empty() || !rate_.empty()) && !anew_) {
            anew_ = true;
            tell(words(
                "What you typed is not written yet. Write it down first, or press again to count anew."));
            return;
        }
        const bool chosen = plan_ >= 0 && static_cast<std::size_t>(plan_) < plans.size();
        if (session_->scenario().place.watch && !chosen) {
            tab_ = Tab::count;
            tell(words("How many seconds will you count? Choose them first."));
            return;
        }
        anew_ = false;
        if (session_->scenario().place.watch) event.plan_s = plans[static_cast<std::size_t>(plan_)];
        tab_ = Tab::count;
    }
    if (!want(event, now_s)) return;
    if (event.what == engine::Do::start_window) {
        beats_.clear();
        rate_.clear();
        written_.clear();
    }
}

void BedsideScreen::tap(double now_s) {
    if (!tapping_ || !session_->counting()) return;
    engine::Event event;
    event.what = engine::Do::tap;
    want(event, now_s);
}

void BedsideScreen::write_down(double now_s) {
    anew_ = false;
    const auto beats = number_in(beats_), rate = number_in(rate_), pulse = number_in(pulse_);
    if (!rate && !pulse && !beats) {
        tell(words("Nothing to write yet: type the beats, the rate or her pulse."));
        return;
    }
    if ((rate && *rate > 400) || (beats && *beats > 400) || (pulse && *pulse > 300)) {
        tell(words("That number is too large to be a heart: up to 400 for the baby, 300 for her."));
        return;
    }
    if (session_->counting()) {
        tell(words("You are still counting: stop first."));
        return;
    }
    if ((beats || rate) && session_->counted()) {
        engine::Event report;
        report.what = engine::Do::report;
        report.beats = beats;
        report.bpm = rate;
        if (!want(report, now_s)) return;
    }
    if (pulse) {
        engine::Event felt;
        felt.what = engine::Do::report_pulse;
        felt.bpm = pulse;
        want(felt, now_s);
    }
    if (rate) {
        static constexpr const char* whens[] = {"between", "during", "after"};
        static constexpr const char* slowings[] = {"yes", "no", "not_listened"};
        engine::Event line;
        line.what = engine::Do::record;
        line.bpm = rate;
        line.pulse_bpm = pulse;
        if (when_ >= 0) line.when = whens[when_];
        if (slowing_ >= 0) line.slowing = slowings[slowing_];
        line.done = done_;
        if (!want(line, now_s)) return;
        done_.clear();
    }
    const std::string beats_typed = beats_;
    beats_.clear();
    rate_.clear();
    pulse_.clear();
    if (beats && !rate) beats_ = beats_typed;  // its rate is still to come
    if (rate) when_ = slowing_ = -1;
    written_ = rate
                   ? fmt::format(fmt::runtime(words("Written: {} a minute")), *rate)
                   : (pulse ? fmt::format(fmt::runtime(words("Written: her pulse {}")), *pulse)
                            : fmt::format(fmt::runtime(words("Kept: {} beats. What rate is that?")), *beats));
}

}  // namespace ui
