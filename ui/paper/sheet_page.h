// The contact sheet: for each scenario its course, its beats, its sound and where it is loud, side by side.
// It shows the truth: for authors and engineers, never for trainees.
#pragma once

#include "engine/outcome.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"
#include "sim/hold.h"
#include "ui/plots/abdomen_map.h"
#include "ui/plots/beat_dots.h"
#include "ui/plots/spectrogram.h"
#include "ui/plots/strip.h"

#include <optional>
#include <string>
#include <vector>

namespace ui {

// What reaches the ear through one instrument at its best place.
struct SheetSound {
    sim::Instrument with = sim::Instrument::horn;
    double x_cm = 0, y_cm = 0, from_s = 0;
    double peak_db = -120;  // of the samples, under full scale
    Spectrogram spectrogram;
    SpectrogramMarks marks;
};

// Another beat that may be taken for the baby's.
struct SheetRival {
    bool vessel = false;  // her artery; else the blow of the womb
    double x_cm = 0, y_cm = 0;
};

struct SheetRow {
    std::string id, heading, truth;
    StripContent strip;
    BeatDots dots;  // one minute
    std::vector<SheetSound> sounds;
    MapContent map;
    std::vector<SheetRival> rivals;  // those loud enough to matter: above -20 dB at their own place
    double from_s = 0;               // of that minute
};

inline constexpr double sheet_minute_s = 60, sheet_sound_s = 6;

// The minute shown starts at `from_s`, or where the heart is furthest from its own middle. The sound is the
// six seconds in the middle of it, in true mode.
SheetRow sheet_row(const engine::Scenario& scenario, const engine::Protocol& protocol, sim::Seed seed,
                   std::optional<double> from_s = {});

// A4 across, three scenarios a page; .pdf, .svg or .png. Fault: another suffix, or a file that cannot be
// written.
engine::Outcome<engine::Done> write_sheet(const std::vector<SheetRow>& rows, const std::string& foot,
                                          const std::string& path);

}  // namespace ui
