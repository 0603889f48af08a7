// The strip: what really happened, over time, with the trainee's windows laid on it. Drawn once for screen
// and paper.
#pragma once

#include "engine/scoring/replay.h"
#include "ui/canvas/canvas.h"

#include <string>
#include <vector>

namespace ui {

// What a strip shows, as plain numbers. Curves every 0.25 s from 0; 0 = no heart.
struct StripContent {
    std::vector<double> baby, second_baby, mother, pressure_mmhg;
    double length_s = 0;
    struct Band {
        double from_bpm = 110, to_bpm = 160;
        std::string says;
    } band;  // normal range of the protocol
    struct CountedOver {
        double from_s = 0, to_s = 0;
        std::string says;
    };  // "you: 139"; empty: one of a series after its first
    std::vector<CountedOver> windows;
    struct SeriesCount {
        double from_s = 0, to_s = 0;
        double bpm = 0;
        bool goes_on = false;  // joined to the one before
    };
    std::vector<SeriesCount> series;  // short counts in a row, as rates in their order
    struct TapMark {
        enum class Kind : std::uint8_t { caught, missed, extra };
        double at_s = 0;
        Kind kind = Kind::caught;
    };
    std::vector<TapMark> taps;  // in time order; caught and missed stand at their beats
    struct Stretch {
        double from_s = 0, to_s = 0;
    };
    std::vector<Stretch> listened, skipped;
    struct Mark {
        double at_s = 0;
        int number = 1;
        std::string says;
    };  // acts, numbered as in the list
    std::vector<Mark> acts;
};
StripContent strip_of(const engine::JudgedAttempt& judged);

// The part of the labour shown.
struct StripView {
    double from_s = 0, to_s = 600;
};
StripView whole(const StripContent& content);

// Where things lie in the box: also for hitting the strip with the pointer and for the moving play line.
struct StripFrame {
    Box box, rates, pressure, listened, acts, taps;  // acts, taps: height 0 when there are none
    StripView view;
    double least_bpm = 60, most_bpm = 200;
    double most_mmhg = 80;
    double x_of(double s) const { return rates.x + (s - view.from_s) / (view.to_s - view.from_s) * rates.w; }
    double s_at(double x) const { return view.from_s + (x - rates.x) / rates.w * (view.to_s - view.from_s); }
    double y_of(double bpm) const {
        return rates.bottom() - (bpm - least_bpm) / (most_bpm - least_bpm) * rates.h;
    }
};
StripFrame strip_frame(const StripContent& content, Box box, StripView view, double scale);

// The signs of tapped beats, by shape: a stroke for caught, a ring for missed, a cross for extra.
void draw_tap_sign(Canvas& canvas, Point centre, double size, StripContent::TapMark::Kind kind,
                   const Theme& theme);

void draw_strip(Canvas& canvas, const StripContent& content, const StripFrame& frame, const Theme& theme);
// The play line with its head, by itself: on screen it moves over the kept picture.
void draw_play_line(Canvas& canvas, const StripFrame& frame, double at_s, const Theme& theme);

// "0:00", "4:28", "61:05": minutes and seconds of labour time.
std::string minutes_and_seconds(double s);
// Distance of the time axis's labels so that they do not touch: 5, 10, 15, 30, 60, 120, 300, 600 ... s.
double label_step_s(double seconds_shown, double width, double label_width);

}  // namespace ui
