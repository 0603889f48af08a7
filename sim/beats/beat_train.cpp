#include "sim/beats/beat_train.h"

#include <algorithm>
#include <cmath>

namespace sim {

namespace {

constexpr double cell_s = static_cast<double>(course_tick_us) / 1e6;
constexpr std::uint64_t start_draw = std::uint64_t{1} << 40;  // where in its beat the heart is at time zero
constexpr std::uint64_t pattern_draw = start_draw + 1;        // how early the early beats of a pattern are
// No two beats lie closer than 300 a minute or further apart than 30 a minute, whatever the rhythm.
constexpr double shortest_interval_s = 0.2, longest_interval_s = 2.0;
constexpr std::int64_t longest_interval_us = 2'000'000;
constexpr double no_longer = 1e-9;  // what follows an early or missing beat waits no longer, but follows it
constexpr double rate_may_change_bpm = 12;  // within one beat

bool happened(const Beat& b) { return b.kind != BeatKind::dropped; }

// As floor(x + 0.5), which is a call.
std::int64_t nearest_whole(double x) {
    const auto cut = static_cast<std::int64_t>(x + 0.5);
    return static_cast<double>(cut) > x + 0.5 ? cut - 1 : cut;
}

bool earlier(const Beat& b, std::int64_t us) { return b.at_us < us; }

}  // namespace

BeatClock::BeatClock(const Patient& patient, Seed seed, Who who) : seed_(seed) {
    if (who == Who::maternal) {
        stream_ = Stream::maternal_slow;
    } else {
        const int baby = who == Who::fetal ? 0 : 1;
        stream_ = for_baby(Stream::rhythm, baby);
        alive_ = baby < patient.babies.size && patient.babies[baby].heart_beats;
        if (alive_) rhythm_ = patient.babies[baby].rhythm;
    }
    draw_next(0);
    left_ *= uniform(seed_, stream_, start_draw);
}

// Early and blocked beats [memory]: a conducted early beat after 0.55 to 0.75 of an interval, the next after
// 1.0 to 1.3 (together less than two); one from a lower chamber after 0.6 to 0.8, the next so late that both
// make two; a blocked one leaves a pause of 1.3 to 1.7 intervals. `drop_every` takes the beat away from its
// regular place.
void BeatClock::draw_next(double rate_bpm) {
    kind_ = BeatKind::normal;
    left_ = 1.0 + after_early_;
    const bool follows_early = after_early_ != 0;
    after_early_ = 0;
    // Most hearts beat evenly: nothing is drawn for them.
    const bool even =
        rhythm_.early_beat + rhythm_.dropped_beat <= 0 && rhythm_.drop_every <= 1 && rhythm_.early_every <= 0;
    if (even || rate_bpm <= 0) return;
    const auto n = static_cast<std::uint64_t>(number_);
    // What a heart at this rate has room for, should it quicken or slow a little meanwhile.
    const double least = (rate_bpm + rate_may_change_bpm) * shortest_interval_s / 60.0;
    const double most = (rate_bpm - rate_may_change_bpm) * longest_interval_s / 60.0;
    // Two early beats in a row would be a run, two pauses a standstill: other things.
    if (follows_early) return;
    if (rhythm_.drop_every > 1 && (number_ + 1) % rhythm_.drop_every == 0) {
        if (2.0 > most) return;
        kind_ = BeatKind::dropped;
        after_early_ = no_longer;
        return;
    }
    const bool patterned = rhythm_.early_every > 0 && (number_ + 1) % rhythm_.early_every == 0;
    const double chance = uniform(seed_, stream_, n, 0);
    if (patterned || chance < rhythm_.early_beat) {
        // A pattern keeps nearly the same distance from the beat before (fixed coupling).
        const double place = patterned ? 0.05 + 0.85 * uniform(seed_, stream_, pattern_draw, 0) +
                                             0.1 * uniform(seed_, stream_, n, 1)
                                       : uniform(seed_, stream_, n, 1);
        kind_ = BeatKind::ectopic;
        left_ = rhythm_.from_chamber ? 0.6 + 0.2 * place : 0.55 + 0.2 * place;
        left_ = std::min(1.0, std::max(left_, least));
        if (rhythm_.from_chamber) {
            after_early_ = 1.0 - left_;
        } else {
            const double longest = std::clamp(0.98 - left_, 0.02, 0.3);
            after_early_ = 0.02 + (longest - 0.02) * uniform(seed_, stream_, n, 2);
        }
        after_early_ = std::max(no_longer, std::min(after_early_, most - 1.0));
    } else if (chance < rhythm_.early_beat + rhythm_.dropped_beat) {
        const double pause = 1.3 + 0.4 * uniform(seed_, stream_, n, 2);
        if (pause > most) return;
        kind_ = BeatKind::dropped;
        left_ = 0.55 + 0.2 * uniform(seed_, stream_, n, 1);
        after_early_ = pause - left_ - 1.0;
        if (after_early_ == 0.0) after_early_ = no_longer;
    }
}

const FixedList<Beat, 4>& BeatClock::advance(double h0, double h1) {
    beats_.size = 0;
    const double area = 0.5 * (h0 + h1) * cell_s;
    const double slope = (h1 - h0) / cell_s;
    const std::int64_t cell_from = cell_ * course_tick_us, cell_to = cell_from + course_tick_us;
    double k = 60.0 * left_;
    while (alive_ && !beats_.full()) {
        const bool due = k < area;
        // The textbook root loses its digits when the rate hardly changes; this one does not.
        double u = due ? 2.0 * k / (h0 + std::sqrt(std::max(0.0, h0 * h0 + 2.0 * slope * k))) : 0;
        std::int64_t at_us = due ? cell_from + nearest_whole(u * 1e6) : INT64_MAX;
        // A rate that falls fast can stretch a pause beyond what it had room for when it was drawn.
        const std::int64_t latest_us = last_us_ < 0 ? INT64_MAX : last_us_ + longest_interval_us;
        if (latest_us < std::min(at_us, cell_to)) {
            at_us = std::max(latest_us, cell_from);
            u = static_cast<double>(at_us - cell_from) / 1e6;
            k = h0 * u + 0.5 * slope * u * u;
            kind_ = BeatKind::normal;
        } else if (!due) {
            break;
        }
        Beat beat;
        beat.at_us = at_us;
        beat.number = number_;
        beat.kind = kind_;
        beat.silent = kind_ != BeatKind::dropped && rhythm_.silent_beat > 0 &&
                      uniform(seed_, stream_, static_cast<std::uint64_t>(number_), 3) < rhythm_.silent_beat;
        beats_.add(beat);
        if (happened(beat)) last_us_ = at_us;
        ++number_;
        draw_next(h0 + slope * u);
        k += 60.0 * left_;
    }
    left_ = (k - area) / 60.0;
    ++cell_;
    return beats_;
}

std::vector<Beat> beats_over(const Patient& patient, Seed seed, Who who, std::span<const CourseTick> course) {
    std::vector<Beat> train;
    if (course.size() < 2) return train;
    const auto rate = [who](const CourseTick& tick) {
        switch (who) {
            case Who::fetal: return tick.fhr_bpm[0];
            case Who::fetal2: return tick.fhr_bpm[1];
            case Who::maternal: break;
        }
        return tick.mhr_bpm;
    };
    train.reserve(course.size() * 3 / 4);
    BeatClock clock(patient, seed, who);
    for (std::size_t k = 0; k + 1 < course.size(); ++k)
        for (const Beat& beat : clock.advance(rate(course[k]), rate(course[k + 1]))) train.push_back(beat);
    return train;
}

std::int64_t beats_between(std::span<const Beat> train, LabourTime from, LabourTime to) {
    if (to <= from) return 0;
    const auto first = std::lower_bound(train.begin(), train.end(), from.us, earlier);
    const auto last = std::lower_bound(first, train.end(), to.us, earlier);
    return std::count_if(first, last, happened);
}

Bpm rate_between(std::span<const Beat> train, LabourTime from, LabourTime to) {
    if (to <= from) return {};
    const auto first = std::lower_bound(train.begin(), train.end(), from.us, earlier);
    const auto last = std::lower_bound(first, train.end(), to.us, earlier);

    // Neighbours that happened, on either side of either edge.
    auto next_from = first, next_to = last;
    while (next_from != train.end() && !happened(*next_from)) ++next_from;
    while (next_to != train.end() && !happened(*next_to)) ++next_to;
    const auto before = [&](auto at) {
        while (at != train.begin())
            if (happened(*--at)) return at;
        return train.end();
    };
    const auto before_from = before(first), before_to = before(last);
    const auto inside = std::count_if(first, last, happened);

    if (before_from != train.end() && next_to != train.end() && before_to != train.end() &&
        next_from != train.end()) {
        const auto part = [](const Beat& a, const Beat& b, std::int64_t us) {
            return static_cast<double>(us - a.at_us) / static_cast<double>(b.at_us - a.at_us);
        };
        const double phase = static_cast<double>(inside) + part(*before_to, *next_to, to.us) -
                             part(*before_from, *next_from, from.us);
        return {60.0 * phase / (static_cast<double>(to.us - from.us) / 1e6)};
    }
    if (inside < 2) return {};
    const double span_s = static_cast<double>(before_to->at_us - next_from->at_us) / 1e6;
    return {60.0 * static_cast<double>(inside - 1) / span_s};
}

}  // namespace sim
