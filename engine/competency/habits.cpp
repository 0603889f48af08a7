#include "engine/competency/habits.h"

#include "engine/competency/distributions.h"

#include <array>
#include <cmath>
#include <set>

namespace engine {

namespace {

using Row = std::array<double, 3>;

// Inverse of a symmetric 3 x 3 matrix by its cofactors; false when it is as good as singular.
bool invert(const std::array<Row, 3>& m, std::array<Row, 3>& inverse) {
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) {
            const std::size_t a = (j + 1) % 3, b = (j + 2) % 3, c = (i + 1) % 3, d = (i + 2) % 3;
            inverse[i][j] = m[a][c] * m[b][d] - m[a][d] * m[b][c];
        }
    const double determinant = m[0][0] * inverse[0][0] + m[0][1] * inverse[1][0] + m[0][2] * inverse[2][0];
    if (std::fabs(determinant) < 1e-12 * m[0][0] * m[1][1] * m[2][2]) return false;
    for (Row& row : inverse)
        for (double& cell : row) cell /= determinant;
    return true;
}

std::string not_separable(const Coefficient& c) {
    if (!c.value) return c.value.why();
    return *c.interval.low <= 0 && *c.interval.high >= 0 ? "not separable: the interval spans 0" : "";
}

}  // namespace

Habits habits_of(std::span<const UntappedCount> counts) {
    const auto none = [](const std::string& why) {
        return Habits{absent_coefficient(why),
                      absent_coefficient(why),
                      absent_coefficient(why),
                      Figure::absent(why),
                      why,
                      why,
                      why};
    };
    if (counts.size() < 9) return none("habits need 9 counts");
    std::set<double> rates, windows;
    for (const UntappedCount& c : counts) rates.insert(c.rate_bpm), windows.insert(c.window_s);
    if (rates.size() < 2) return none("habits need two rates");
    if (windows.size() < 2) return none("with one window length, a late stop and missed beats look the same");

    std::array<Row, 3> normal{}, inverse{};
    Row right{};
    const auto row_of = [](const UntappedCount& c) {
        return Row{1, c.rate_bpm / 60, c.rate_bpm * c.window_s / 60};
    };
    for (const UntappedCount& c : counts) {
        const Row row = row_of(c);
        for (std::size_t i = 0; i < 3; ++i) {
            right[i] += row[i] * c.surplus_beats;
            for (std::size_t j = 0; j < 3; ++j) normal[i][j] += row[i] * row[j];
        }
    }
    if (!invert(normal, inverse)) return none("rates and windows always changed together");
    Row b{};
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t j = 0; j < 3; ++j) b[i] += inverse[i][j] * right[j];
    double squares = 0;
    for (const UntappedCount& c : counts) {
        const Row row = row_of(c);
        const double left = c.surplus_beats - row[0] * b[0] - row[1] * b[1] - row[2] * b[2];
        squares += left * left;
    }
    // What is less than a billionth of a beat, a second or a share is rounding.
    const auto no_rounding = [](double x) { return std::fabs(x) < 1e-9 ? 0.0 : x; };
    const double degrees = static_cast<double>(counts.size() - 3),
                 sd = no_rounding(std::sqrt(squares / degrees));
    const auto found = [&](std::size_t i) {
        return coefficient_by_t(no_rounding(b[i]), sd * std::sqrt(inverse[i][i]), degrees);
    };
    Habits habits{found(0), found(1), found(2), sd, "", "", ""};
    habits.fencepost_remark = not_separable(habits.fencepost_beats);
    habits.window_remark = not_separable(habits.window_late_s);
    habits.missed_remark = not_separable(habits.missed_share);
    return habits;
}

}  // namespace engine
