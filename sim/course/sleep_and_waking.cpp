#include "sim/course/sleep_and_waking.h"

#include "sim/exact_math.h"

#include <algorithm>
#include <array>

namespace sim {

namespace {

using State = SleepAndWaking::State;

struct StateRow {
    Variability set;
    double share;     // of all time (Pillai and James 1990: 30, 58, 9 %)
    double mean_min;  // length of a spell; gamma of this order [practice]
    int order;
    double at_most_min;
    // Into what it goes over, the rest into the third: solved from shares and lengths above, so that both
    // come out.
    State next;
    double next_chance;
    State other;
    double moves;  // [practice]; shares make it 1 over all
};

constexpr std::array<StateRow, 3> states{{
    {Variability::quiet, 0.30, 22, 4, 45, State::active, 0.60, State::awake, 0.25},
    {Variability::active, 0.58, 40, 4, 1e9, State::quiet, 0.603, State::awake, 1.2},
    {Variability::awake, 0.09, 8, 2, 1e9, State::active, 0.555, State::quiet, 2.2},
}};

// Quiet sleep has isolated accelerations (published state table: 1F under 10 bpm, with isolated
// accelerations), which the quiet set by itself has not: 0.5 in ten minutes [practice].
VariabilitySet set_of(State state, double gestation_weeks) {
    VariabilitySet set = variability_set(states[static_cast<std::size_t>(state)].set);
    if (state == State::quiet) {
        set.rises_per_10min = 0.5;
        set.rise_bpm = 16;
        set.rise_s = 25;
    }
    return at_weeks(set, gestation_weeks);
}

const StateRow& row_of(State state) { return states[static_cast<std::size_t>(state)]; }

constexpr std::uint64_t spells = std::uint64_t{1} << 20;  // their place in the stream

enum Draw : std::uint32_t { length = 0, next = 8, fade = 9, start = 10, into = 11 };

}  // namespace

SleepAndWaking::SleepAndWaking(const Baby& baby, double gestation_weeks, int which, Seed seed)
    : weeks_(gestation_weeks),
      seed_(seed),
      which_(which),
      by_state_(baby.variability == Variability::by_state) {
    if (!by_state_) {
        set_ = at_weeks(variability_set(baby.variability), gestation_weeks);
        return;
    }
    // She comes at any moment of it: by share, somewhere within a spell, long ones more often (one order
    // more).
    const Stream stream = for_baby(Stream::fetal_state, which);
    const double total = states[0].share + states[1].share + states[2].share;
    double chance = uniform(seed, stream, spells, start) * total;
    state_ = State::quiet;
    for (const State s : {State::quiet, State::active, State::awake}) {
        state_ = s;
        chance -= row_of(s).share;
        if (chance < 0) break;
    }
    before_ = state_;
    const StateRow& row = row_of(state_);
    double logs = 0;
    for (int i = 0; i <= row.order; ++i)
        logs -= exact_log(1.0 - uniform(seed, stream, spells, length + static_cast<std::uint32_t>(i)));
    until_s_ = 60.0 * std::min(row.at_most_min, row.mean_min / row.order * logs) *
               uniform(seed, stream, spells, into);
    set_ = set_of(state_, weeks_);
    moves_ = row.moves;
}

void SleepAndWaking::next_spell() {
    const Stream stream = for_baby(Stream::fetal_state, which_);
    const StateRow& was = row_of(state_);
    ++spell_;
    before_ = state_;
    state_ = uniform(seed_, stream, spells + spell_, next) < was.next_chance ? was.next : was.other;
    const StateRow& row = row_of(state_);
    double logs = 0;
    for (int i = 0; i < row.order; ++i)
        logs -=
            exact_log(1.0 - uniform(seed_, stream, spells + spell_, length + static_cast<std::uint32_t>(i)));
    fade_s_ = 60.0 + 60.0 * uniform(seed_, stream, spells + spell_, fade);
    from_s_ = until_s_;
    until_s_ = from_s_ + std::max(fade_s_, 60.0 * std::min(row.at_most_min, row.mean_min / row.order * logs));
    mixing_ = true;
}

void SleepAndWaking::step_by_state(std::int64_t tick) {
    const double now_s = static_cast<double>(tick) * course_step_s;
    if (now_s >= until_s_) next_spell();
    if (!mixing_) return;
    const double x = (now_s - from_s_) / fade_s_;
    mixing_ = x < 1;
    const double part = mixing_ ? 0.5 - 0.5 * exact_cos(pi * x) : 1.0;
    const StateRow &from = row_of(before_), &to = row_of(state_);
    const VariabilitySet a = set_of(before_, weeks_), b = set_of(state_, weeks_);
    const auto mixed = [part](double was, double is) { return was + part * (is - was); };
    set_ = {mixed(a.usual_bpm, b.usual_bpm),
            mixed(a.slow, b.slow),
            mixed(a.low, b.low),
            mixed(a.middle, b.middle),
            mixed(a.high, b.high),
            mixed(a.rises_per_10min, b.rises_per_10min),
            mixed(a.rise_bpm, b.rise_bpm),
            mixed(a.rise_s, b.rise_s)};
    moves_ = mixed(from.moves, to.moves);
}

}  // namespace sim
