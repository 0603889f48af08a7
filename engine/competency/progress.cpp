#include "engine/competency/progress.h"

#include "engine/competency/progress_parts.h"
#include "engine/competency/refresher.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

namespace engine {
namespace {

constexpr std::size_t least_for_pull = 10;  // counts [practice]
constexpr int least_for_refresher = 10;     // attempts [practice]
constexpr int latest_attempts = 20;         // the share right now is that of so many [practice]
// share to keep: the next practice is due when it is foreseen to be less
constexpr double keep_right = 0.85;
constexpr double month_s = 30.4375 * 86400;

CountGroup& group(std::vector<CountGroup>& groups, int number) {
    for (CountGroup& g : groups)
        if (g.number == number) return g;
    groups.push_back({number, CountErrors(), 0, 0});
    return groups.back();
}

void add(CountGroup& g, const CountColumns& c, std::size_t row) {
    g.errors.add(truth_bpm(c, row), reading_bpm(c, row));
    g.right += count_is_right(c, row);
    ++g.of;
}

int with_most(const std::vector<CountGroup>& groups, int none) {
    const auto most = std::max_element(groups.begin(), groups.end(),
                                       [](const CountGroup& a, const CountGroup& b) { return a.of < b.of; });
    return most == groups.end() ? none : most->number;
}

void sort_by_number(std::vector<CountGroup>& groups, bool largest_first = false) {
    std::sort(groups.begin(), groups.end(), [&](const CountGroup& a, const CountGroup& b) {
        return largest_first ? a.number > b.number : a.number < b.number;
    });
}

void put_agreement(Progress& p, const CountColumns& c, const std::vector<std::size_t>& stands) {
    std::vector<double> truth, reading;
    for (std::size_t b = 0; b < rate_bands; ++b)
        p.bands.push_back({static_cast<int>(b), CountErrors(), 0, 0});
    for (const std::size_t row : stands) {
        if (c.mode[row] != p.mode || c.plan_s[row] != p.method_s) continue;
        truth.push_back(truth_bpm(c, row));
        reading.push_back(reading_bpm(c, row));
        p.points.push_back({truth.back(), reading.back() - truth.back(), count_is_right(c, row)});
        add(p.bands[static_cast<std::size_t>(band_of(truth.back()))], c, row);
        if (c.instrument[row] > 0) add(group(p.instruments, c.instrument[row]), c, row);
        if (c.task[row] >= 0) add(group(p.tasks, c.task[row]), c, row);
    }
    p.errors = count_errors(truth, reading);
    p.limits = limits_of_agreement(p.errors);
    if (truth.size() >= least_for_pull) {
        p.pull = error_against_truth(truth, reading);
        p.pulled_to_normal = p.pull.slope.interval.high.known() && *p.pull.slope.interval.high < 0;
    } else {
        const std::string few = "needs " + std::to_string(least_for_pull) + " counts";
        const Coefficient none{Figure::absent(few), Figure::absent(few), Interval::absent(few)};
        p.pull = {none, none, Figure::absent(few), Figure::absent(few), truth.size()};
    }
    sort_by_number(p.instruments);
    sort_by_number(p.tasks);
}

// Slow 0, normal 1, fast 2: a rate that has risen is on its way there.
std::size_t ordered(std::int8_t rate_class) {
    switch (static_cast<RateClass>(rate_class)) {
        case RateClass::slow: return 0;
        case RateClass::fast:
        case RateClass::rising: return 2;
        case RateClass::normal:
        case RateClass::not_known: break;
    }
    return 1;
}

void put_calls(Progress& p, const CountColumns& c) {
    p.calls.assign(3, std::vector<long long>(3, 0));
    Calls calls;
    for (std::size_t row = 0; row < c.rows(); ++row) {
        if (c.mode[row] != p.mode || c.said_class[row] < 0 || c.settled_class[row] < 0) continue;
        if (c.boundary[row] == 1) {
            ++p.calls_on_limit;
            continue;
        }
        const std::size_t truth = ordered(c.settled_class[row]), said = ordered(c.said_class[row]);
        ++p.calls[truth][said];
        if (truth == 1)
            ++(said == 1 ? calls.normal_passed : calls.normal_called);
        else
            ++(said == 1 ? calls.abnormal_missed : calls.abnormal_called);
    }
    p.agreement_on_class = kappa(p.calls, KappaWeights::linear);
    p.abnormal = call_figures(calls);
}

void put_refresher(Progress& p, std::int64_t last_s) {
    const std::vector<bool>& right = p.learning.right;
    const auto none = [&](const std::string& why) {
        p.refresher_s = p.refresher_months = Figure::absent(why);
    };
    if (right.size() < least_for_refresher)
        return none("needs " + std::to_string(least_for_refresher) + " first attempts");
    if (last_s < 0) return none("the day of the last attempt is not known");
    const auto latest = std::min<std::ptrdiff_t>(latest_attempts, static_cast<std::ptrdiff_t>(right.size()));
    const auto good = std::count(right.end() - latest, right.end(), true);
    Forgetting curve;
    curve.after_training = static_cast<double>(good) / static_cast<double>(latest);
    // Below what is to be kept there is nothing to refresh yet: practise on.
    p.refresher_months = curve.after_training <= curve.untrained ? Figure(0.0) : curve.due_months(keep_right);
    p.refresher_s = static_cast<double>(last_s) + *p.refresher_months * month_s;
}

}  // namespace

Figure CountGroup::share_right() const {
    if (of == 0) return Figure::absent("no counts");
    return static_cast<double>(right) / static_cast<double>(of);
}

int band_of(double truth_bpm) {
    return static_cast<int>(
        std::upper_bound(std::begin(band_edges_bpm), std::end(band_edges_bpm), truth_bpm) -
        std::begin(band_edges_bpm));
}

bool count_is_right(const CountColumns& c, std::size_t row) {
    const std::int32_t reading = reading_mbpm(c, row);
    if (reading < 0 || c.plan_s[row] <= 0) return false;
    const double factor = 60.0 / c.plan_s[row];
    const double off = std::fabs(reading / 1000.0 - c.true_beats[row] * factor);
    return off <= std::fmax(2 * factor, 5) + 1e-9;
}

std::vector<std::size_t> rows_in_time(const CountColumns& c) {
    std::vector<std::size_t> order(c.rows());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        if (c.finished_s[a] != c.finished_s[b]) return c.finished_s[a] < c.finished_s[b];
        return c.attempt[a] != c.attempt[b] ? c.attempt[a] < c.attempt[b] : c.place[a] < c.place[b];
    });
    return order;
}

Progress progress_of(const CountColumns& c, const ProgressAsked& asked) {
    assert(c.person.empty() || std::all_of(c.person.begin(), c.person.end(),
                                           [&](std::uint32_t p) { return p == c.person.front(); }));
    Progress p;
    const std::vector<std::size_t> order = rows_in_time(c);
    std::vector<std::int32_t> attempts(c.attempt);
    std::sort(attempts.begin(), attempts.end());
    p.attempts = static_cast<int>(std::unique(attempts.begin(), attempts.end()) - attempts.begin());

    std::vector<std::size_t> stands;
    for (const std::size_t row : order) {
        const bool own = c.followed[row] == static_cast<std::int8_t>(HeartCounted::baby) ||
                         c.followed[row] == static_cast<std::int8_t>(HeartCounted::not_known);
        if (!own)
            ++p.left_out.other_heart;
        else if (c.judged[row] == 0)
            ++p.left_out.corrected;
        else if (reading_mbpm(c, row) < 0 || c.plan_s[row] <= 0 || c.true_mbpm[row] <= 0)
            ++p.left_out.no_number;
        else
            stands.push_back(row);
    }
    for (const std::size_t row : stands) add(group(p.modes, c.mode[row]), c, row);
    sort_by_number(p.modes);
    p.mode = asked.mode.value_or(with_most(p.modes, -1));
    for (const std::size_t row : stands) {
        if (c.mode[row] == p.mode)
            add(group(p.methods, c.plan_s[row]), c, row);
        else
            ++p.left_out.other_mode;
    }
    sort_by_number(p.methods, true);
    p.method_s = asked.method_s.value_or(with_most(p.methods, 0));
    for (const CountGroup& method : p.methods)
        if (method.number != p.method_s) p.left_out.other_method += static_cast<int>(method.of);

    put_agreement(p, c, stands);
    put_calls(p, c);
    p.learning = learning_of(c, order, p.mode, asked);
    if (!order.empty()) {
        p.first_s = static_cast<double>(c.finished_s[order.front()]);
        p.last_s = static_cast<double>(c.finished_s[order.back()]);
    }
    put_refresher(p, order.empty() ? -1 : c.finished_s[order.back()]);
    p.weak = weaknesses_of(p, c);
    return p;
}

}  // namespace engine
