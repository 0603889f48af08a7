// The debrief's sound: heard again from any point, the play line with it.
#include "ui/debrief/debrief_screen.h"

#include <algorithm>
#include <cmath>

namespace ui {

void DebriefScreen::play_from(double s) {
    stop();
    at_s_ = std::clamp(s, 0.0, strip_.length_s);
    if (at_s_ > strip_.length_s - 0.5) at_s_ = 0;
    wanted_s_ = at_s_;
}

void DebriefScreen::stop() {
    if (playing_) device_.stop();
    playing_ = false;
    wanted_s_.reset();
}

void DebriefScreen::go_to(double s) {
    const bool go_on = playing();
    stop();
    at_s_ = std::clamp(s, 0.0, strip_.length_s);
    if (go_on) play_from(at_s_);
}

void DebriefScreen::follow_sound(Frame& frame) {
    if (wanted_s_) {
        if (auto from = rehearing_.from(*wanted_s_)) {
            device_.begin(from->listening, from->script, false);
            playing_ = true;
            wanted_s_.reset();
            frame.again();
        }
    }
    if (playing_) {
        at_s_ = std::max(at_s_, device_.heard().seconds());
        if (at_s_ >= strip_.length_s) {
            stop();
            at_s_ = strip_.length_s;
        }
    }
    // The part shown moves on with the play line.
    const double shown = view_.to_s - view_.from_s;
    if (at_s_ < view_.from_s || at_s_ > view_.to_s) {
        const double most = std::max(0.0, whole(strip_).to_s - shown);
        view_.from_s = std::clamp(std::floor(at_s_ - shown * 0.1), 0.0, most);
        view_.to_s = view_.from_s + shown;
    }
}

void DebriefScreen::zoom(double by) {
    const StripView all = whole(strip_);
    const double shown = std::clamp((view_.to_s - view_.from_s) * by, std::min(20.0, all.to_s), all.to_s);
    view_.from_s = std::clamp(at_s_ - shown / 2, 0.0, all.to_s - shown);
    view_.to_s = view_.from_s + shown;
}

}  // namespace ui
