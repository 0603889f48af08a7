// The abdomen with what was true on it: how loud the baby is from place to place, where it is loudest, and
// the way the instrument took.
#pragma once

#include "engine/scoring/replay.h"
#include "ui/canvas/canvas.h"
#include "ui/canvas/drawings.h"

#include <array>
#include <string>
#include <vector>

namespace ui {

// Loudness on the map's grid (sim/body/abdomen.h: 0.5 cm, x -16..16, y -18..20), rows from low y, each from
// low x.
struct Loudness {
    int columns = 0, rows = 0;
    double x_from = -16, y_from = -18, step = 0.5;
    std::vector<double> level_db, rival_db;  // -120 = nothing
    double at(int column, int row) const {
        return level_db[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
                        static_cast<std::size_t>(column)];
    }
    double best_x = 0, best_y = 0, best_db = -120;  // largest; ties to the higher y, then the smaller x
};
// The grid through an instrument at 6 N, her body as at `now`.
Loudness loudness_of(const sim::Patient& patient, const sim::CourseTick& now, sim::Instrument instrument);
// From rows x, y, level, rival in any order, of any regular grid.
Loudness loudness_of(const std::vector<std::array<double, 4>>& rows);

// A closed or open line along which the level is `db`, in centimetres (marching squares, straight within a
// cell).
struct LevelPiece {
    Point from, to;
};
std::vector<LevelPiece> level_line(const Loudness& loudness, double db);

struct MapContent {
    Loudness loudness;  // of the instrument used most
    sim::Instrument instrument = sim::Instrument::horn;
    bool heart = true;  // false: nothing to be found, no best place is shown
    struct Place {
        double x_cm = 0, y_cm = 0;
        double from_s = 0;
        double s = 0;
    };
    std::vector<std::vector<Place>> paths;  // one a spell
    std::string rival_says;                 // what else is loud, "" = nothing near
    double rival_x = 0, rival_y = 0;
};
MapContent map_of(const engine::JudgedAttempt& judged);

// Belly, loudness in three soft steps (3, 6 and 12 dB under the best), best place, path with numbers.
void draw_abdomen_map(Canvas& canvas, const MapContent& content, const AbdomenFrame& frame,
                      const Theme& theme);
// The key to it, in words; gives the height used.
double draw_map_key(Canvas& canvas, Box box, const MapContent& content, const Theme& theme);

}  // namespace ui
