#include "ui/plots/abdomen_map.h"

#include "sim/body/abdomen.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

namespace ui {
namespace {

void find_best(Loudness& l) {
    l.best_db = -1e9;
    for (int r = l.rows - 1; r >= 0; --r)
        for (int c = 0; c < l.columns; ++c)
            if (l.at(c, r) > l.best_db) {
                l.best_db = l.at(c, r);
                l.best_x = l.x_from + c * l.step;
                l.best_y = l.y_from + r * l.step;
            }
}

}  // namespace

Loudness loudness_of(const sim::Patient& patient, const sim::CourseTick& now, sim::Instrument instrument) {
    Loudness l;
    l.x_from = sim::map_x_from;
    l.y_from = sim::map_y_from;
    l.step = sim::map_step;
    l.columns = static_cast<int>(std::lround((sim::map_x_to - sim::map_x_from) / l.step)) + 1;
    l.rows = static_cast<int>(std::lround((sim::map_y_to - sim::map_y_from) / l.step)) + 1;
    sim::Hold hold;
    hold.instrument = instrument;
    hold.placed = true;
    hold.gel = true;
    hold.position = patient.mother.position;
    for (int r = 0; r < l.rows; ++r)
        for (int c = 0; c < l.columns; ++c) {
            hold.x_cm = l.x_from + c * l.step;
            hold.y_cm = l.y_from + r * l.step;
            const sim::PlaceLevels levels = sim::levels_at(patient, now, hold);
            l.level_db.push_back(levels.baby.value);
            l.rival_db.push_back(levels.rival.value);
        }
    find_best(l);
    return l;
}

Loudness loudness_of(const std::vector<std::array<double, 4>>& rows) {
    std::set<double> xs, ys;
    for (const auto& row : rows) {
        xs.insert(row[0]);
        ys.insert(row[1]);
    }
    assert(!xs.empty());
    Loudness l;
    l.columns = static_cast<int>(xs.size());
    l.rows = static_cast<int>(ys.size());
    l.x_from = *xs.begin();
    l.y_from = *ys.begin();
    l.step = l.columns > 1 ? (*xs.rbegin() - *xs.begin()) / (l.columns - 1) : 0.5;
    const auto cells = static_cast<std::size_t>(l.columns) * static_cast<std::size_t>(l.rows);
    l.level_db.assign(cells, -120);
    l.rival_db.assign(cells, -120);
    for (const auto& row : rows) {
        const auto c = static_cast<std::size_t>(std::distance(xs.begin(), xs.find(row[0])));
        const auto r = static_cast<std::size_t>(std::distance(ys.begin(), ys.find(row[1])));
        l.level_db[r * static_cast<std::size_t>(l.columns) + c] = row[2];
        l.rival_db[r * static_cast<std::size_t>(l.columns) + c] = row[3];
    }
    find_best(l);
    return l;
}

std::vector<LevelPiece> level_line(const Loudness& l, double db) {
    std::vector<LevelPiece> pieces;
    const auto between = [db](double a, double b) { return (db - a) / (b - a); };
    for (int r = 0; r + 1 < l.rows; ++r)
        for (int c = 0; c + 1 < l.columns; ++c) {
            const double v[4] = {l.at(c, r), l.at(c + 1, r), l.at(c + 1, r + 1), l.at(c, r + 1)};
            const double x = l.x_from + c * l.step, y = l.y_from + r * l.step;
            const Point corner[4] = {{x, y}, {x + l.step, y}, {x + l.step, y + l.step}, {x, y + l.step}};
            Point cut[4];
            int cuts = 0;
            for (int e = 0; e < 4; ++e) {
                const double a = v[e], b = v[(e + 1) % 4];
                if ((a >= db) == (b >= db)) continue;
                const double k = between(a, b);
                const Point& p = corner[e];
                const Point& q = corner[(e + 1) % 4];
                cut[cuts++] = {p.x + (q.x - p.x) * k, p.y + (q.y - p.y) * k};
            }
            if (cuts >= 2) pieces.push_back({cut[0], cut[1]});
            if (cuts == 4) pieces.push_back({cut[2], cut[3]});
        }
    return pieces;
}

MapContent map_of(const engine::JudgedAttempt& judged) {
    const engine::Played& played = judged.played;
    MapContent map;
    double longest[5] = {};
    for (const engine::Spell& spell : played.spells)
        longest[static_cast<std::size_t>(spell.instrument)] += spell.to.seconds() - spell.from.seconds();
    const auto most = std::max_element(longest + 1, longest + 5);
    if (*most > 0)
        map.instrument = static_cast<sim::Instrument>(most - longest);
    else if (!judged.scenario.place.instruments.empty())
        map.instrument = judged.scenario.place.instruments.front();
    map.heart = played.patient.babies.size > 0 && played.patient.babies[0].heart_beats;
    // The body when the instrument was first laid on, since the spot sinks as labour goes on.
    const double when_s = played.spells.empty() ? 0 : played.spells.front().from.seconds();
    const auto tick = std::min(static_cast<std::size_t>(when_s / 0.25),
                               played.course.empty() ? 0 : played.course.size() - 1);
    const sim::CourseTick now = played.course.empty() ? sim::CourseTick{} : played.course[tick];
    map.loudness = loudness_of(played.patient, now, map.instrument);
    for (const engine::Spell& spell : played.spells) {
        std::vector<MapContent::Place> path;
        for (const auto& piece : spell.pieces) {
            const double s = piece.to.seconds() - piece.from.seconds();
            if (!path.empty() && path.back().x_cm == piece.hold.x_cm && path.back().y_cm == piece.hold.y_cm)
                path.back().s += s;
            else
                path.push_back({piece.hold.x_cm, piece.hold.y_cm, piece.from.seconds(), s});
        }
        map.paths.push_back(std::move(path));
    }
    const sim::Surroundings& around = played.patient.surroundings;
    if (around.vessel.value > -40 && around.vessel.value >= around.souffle.value) {
        map.rival_says = "her artery";
        map.rival_x = around.vessel_x.value;
        map.rival_y = around.vessel_y.value;
    } else if (around.souffle.value > -40) {
        map.rival_says = "blow at her own rate";
        map.rival_x = around.souffle_x.value;
        map.rival_y = around.souffle_y.value;
    }
    return map;
}

}  // namespace ui
