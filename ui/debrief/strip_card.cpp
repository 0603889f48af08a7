// The strip of what really happened, the places to hear again numbered on it, and the beats as they are
// heard.
#include "ui/debrief/debrief_screen.h"

#include "ui/plots/places_to_hear.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace ui {

void DebriefScreen::strip_card(Frame& frame, Area at) {
    const Theme theme{light_palette, frame.scale()};
    Area inside{at.x + 12, at.y + frame.px(8), at.w - 28, at.h - frame.px(8) - 12};
    const float row_h = frame.px(40);
    const Area row{inside.x, inside.bottom() - row_h, inside.w, row_h};
    inside.h -= row_h + frame.px(6);
    const Box own{0, 0, inside.w, inside.h};
    const StripFrame own_frame = strip_frame(strip_, own, view_, theme.scale);
    const std::vector<PlaceToHear> places = places_to_hear(judged_.sheet.next_time, own_frame, theme.scale);
    frame.picture(fmt::format("strip {} {:.2f} {:.2f}", theme.scale, view_.from_s, view_.to_s), inside,
                  [&](Canvas& canvas) {
                      draw_strip(canvas, strip_, own_frame, theme);
                      draw_places_to_hear(canvas, places, theme);
                  });

    StripFrame on_page = own_frame;
    on_page.rates.x += inside.x;
    const float top = static_cast<float>(own_frame.rates.y);
    const Area curves{inside.x + static_cast<float>(own_frame.rates.x), inside.y + top,
                      static_cast<float>(own_frame.rates.w),
                      static_cast<float>(own_frame.listened.bottom()) - top};
    const Touch touch = frame.touch("strip", curves);
    const auto numbered = std::find_if(places.begin(), places.end(), [&](const PlaceToHear& p) {
        return std::hypot(touch.x - inside.x - p.at.x, touch.y - inside.y - p.at.y) <= p.radius + frame.px(2);
    });
    if (touch.pressed && numbered != places.end()) {
        play_from(numbered->at_s);
        on_a_number_ = true;
    } else if (touch.pressed || (touch.held && !on_a_number_)) {
        go_to(on_page.s_at(touch.x));
    }
    if (!touch.held) on_a_number_ = false;
    if (touch.wheel != 0) zoom(touch.wheel > 0 ? 0.8 : 1.25);
    if (touch.focused)
        frame.outline({curves.x - 4, curves.y - 6, curves.w + 8, curves.h + 10}, colour::act, 4, 2);

    const float x = static_cast<float>(on_page.x_of(at_s_)), r = frame.px(7);
    if (at_s_ >= view_.from_s && at_s_ <= view_.to_s) {
        frame.line(x, curves.y, x, curves.bottom(), colour::act, frame.px(2.4f));
        frame.triangle(x - r, curves.y - r, x + r, curves.y - r, x, curves.y + r * 0.6f, colour::act);
    }

    Area place = row;
    ButtonLook look{.key = "P", .main = true};
    const char* says = playing() ? ui::words("Stop") : ui::words("Play from here");
    const float play_w = std::max(frame.width_of(ui::words("Play from here"), Type::text),
                                  frame.width_of(ui::words("Stop"), Type::text)) +
                         frame.px(64);
    if (frame.button("play", place.take_left(play_w, frame.px(14)), says, look))
        playing() ? stop() : play_from(at_s_);
    const Area clock = place.take_left(frame.px(64), frame.px(10));
    frame.one_line(clock, minutes_and_seconds(at_s_), Type::number);
    beat_lane(frame, place);
}

// Three seconds before and after now: each beat comes from the right and is marked as it is heard.
void DebriefScreen::beat_lane(Frame& frame, Area at) const {
    const std::string silent =
        device_.state_words().empty()
            ? std::string()
            : std::string(device_.state() == DeviceState::lost
                              ? ui::words("Sound device gone: play again when it is back.")
                              : ui::words("No sound device: nothing can be heard."));
    if (wanted_s_) {
        frame.one_line(at, ui::words("Getting the sound ready ..."), Type::text, Tone::soft);
        return;
    }
    if (playing_ && !silent.empty()) {
        const float w = std::min(at.w * 0.4f, frame.width_of(silent, Type::note) + 4);
        frame.words_in({at.right() - w, at.y, w, at.h}, silent, Type::note, Tone::attention);
        at.w -= w + frame.px(12);
    }
    const float label_w = std::max(frame.width_of(ui::words("mother"), Type::note),
                                   frame.width_of(ui::words("baby"), Type::note)) +
                          frame.px(8);
    const Area label = at.take_left(label_w);
    const engine::WindowScore* counting = nullptr;
    for (const auto& window : judged_.sheet.windows)
        if (at_s_ >= window.from_s && at_s_ < window.to_s) counting = &window;
    const std::string tally =
        counting == nullptr
            ? std::string()
            : fmt::format("{} {}", ui::words("true beats in your count:"),
                          sim::beats_between(judged_.played.fetal, sim::labour_time({counting->from_s}),
                                             sim::labour_time({at_s_})));
    const float tally_w =
        frame.width_of(std::string(ui::words("true beats in your count:")) + " 000", Type::text) +
        frame.px(8);
    if (at.w > tally_w * 2.2f) {
        if (!tally.empty())
            frame.one_line({at.right() - tally_w, at.y, tally_w, at.h}, tally, Type::text, Tone::attention,
                           Align::right);
        at.w -= tally_w;
    }
    const float baby_y = at.y + at.h * 0.28f, mother_y = at.y + at.h * 0.76f, mid = at.middle_x();
    frame.one_line({label.x, baby_y - label.h * 0.22f, label.w, label.h * 0.44f}, ui::words("baby"),
                   Type::note);
    frame.one_line({label.x, mother_y - label.h * 0.22f, label.w, label.h * 0.44f}, ui::words("mother"),
                   Type::note, Tone::soft);
    frame.line(at.x, baby_y, at.right(), baby_y, colour::rule);
    frame.line(at.x, mother_y, at.right(), mother_y, colour::rule);
    frame.line(mid, at.y, mid, at.bottom(), colour::act, frame.px(2));
    constexpr double around_s = 3;
    const auto beats = [&](const std::vector<sim::Beat>& train, float y, bool filled) {
        const std::int64_t from = sim::labour_time({at_s_ - around_s}).us,
                           to = sim::labour_time({at_s_ + around_s}).us;
        auto beat = std::lower_bound(train.begin(), train.end(), from,
                                     [](const sim::Beat& b, std::int64_t us) { return b.at_us < us; });
        for (; beat != train.end() && beat->at_us < to; ++beat) {
            if (beat->kind == sim::BeatKind::dropped) continue;
            const double ago = at_s_ - static_cast<double>(beat->at_us) / 1e6;
            const float x = mid - static_cast<float>(ago / around_s) * at.w / 2;
            const bool heard_now = playing_ && ago >= 0 && ago < 0.14;
            if (filled)
                frame.disc(x, y, frame.px(heard_now ? 7.5f : 4), heard_now ? colour::act : colour::ink);
            else
                frame.circle(x, y, frame.px(heard_now ? 6.5f : 3.5f), heard_now ? colour::act : colour::soft,
                             frame.px(1.6f));
        }
    };
    beats(judged_.played.fetal, baby_y, true);
    if (!judged_.played.fetal2.empty()) beats(judged_.played.fetal2, baby_y, false);
    beats(judged_.played.maternal, mother_y, false);
}

}  // namespace ui
