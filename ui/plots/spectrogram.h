// A spectrogram: how strong each pitch is, moment by moment, in what reaches the ear. Worked out once, drawn
// on any canvas.
#pragma once

#include "ui/canvas/canvas.h"

#include <span>
#include <string>
#include <vector>

namespace ui {

// Columns every `step_s` from `from_s`, rows every `row_hz` from 0 Hz. Decibels under full scale: a sine of
// amplitude 1 reads 0 dB at its pitch.
struct Spectrogram {
    double from_s = 0, step_s = 0.025, row_hz = 0;
    int columns = 0, rows = 0;
    std::vector<float> level_db;  // column by column, each from 0 Hz up; -160 = nothing
    float at(int column, int row) const {
        return level_db[static_cast<std::size_t>(column) * static_cast<std::size_t>(rows) +
                        static_cast<std::size_t>(row)];
    }
    float loudest_db() const;
    // Pitch and level of the strongest row from `least_hz` on, power meant over all columns; 0 Hz when
    // silent.
    struct Strongest {
        double hz = 0, db = -160;
    };
    Strongest strongest(double least_hz = 15) const;
};

// Mono samples at 48 kHz; the first sample is at `from_s`. Windows (Hann) of 85 ms every 25 ms, pitches to
// `most_hz`; the transform is KISS FFT's. Each column stands for the middle of its window.
Spectrogram spectrogram_of(std::span<const float> samples, double from_s, double most_hz = 600);

// Beats to be marked over a spectrogram.
struct SpectrogramMarks {
    std::vector<double> baby_s, second_baby_s, mother_s;
};

inline constexpr double spectrogram_depth_db = 48;  // shown below the loudest; what is under that is ground

// Pitch upwards, octave by octave from 20 Hz to the highest row; time along the foot; beats as wedges (baby)
// and squares (mother) on top. `title` stands above, `says` right of it.
void draw_spectrogram(Canvas& canvas, Box box, const Spectrogram& spectrogram, const SpectrogramMarks& marks,
                      const std::string& title, const std::string& says, const Theme& theme);
// The shades from ground to loudest with their decibels.
void draw_spectrogram_key(Canvas& canvas, Box box, const Theme& theme);
// Shade of a level so many dB under the loudest: paper to sky blue, blue, ink; darker is louder on any
// printer.
Colour shade_of(double under_loudest_db, const Theme& theme);

}  // namespace ui
