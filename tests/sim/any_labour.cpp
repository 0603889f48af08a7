// Any labour a scenario file may describe, with any acts in any order: the course stays a body's.
#include "sim/beats/beat_train.h"
#include "sim/course/course.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <cstring>
#include <rapidcheck.h>

using namespace sim;

namespace {

double between(double least, double most) {
    return least + (most - least) * *rc::gen::inRange(0, 1001) * 0.001;
}

// A value of an enumeration, the last one named.
template <typename Word>
Word any_up_to(Word last) {
    return static_cast<Word>(*rc::gen::inRange(0, static_cast<int>(last) + 1));
}

// Ranges as in scenarios/FORMAT.md.
BabyEvent any_event() {
    BabyEvent e;
    e.kind = any_up_to(BabyEvent::Kind::prolonged);
    e.by = any_up_to(BabyEvent::Brought_on_by::time);
    e.depth = {between(5, 100)};
    e.length = {between(10, 900)};
    e.back_after = {between(5, 90)};
    e.lead = {between(0, 60)};
    e.at = {between(0, 600)};
    e.share = between(0, 1);
    e.every = *rc::gen::inRange(1, 21);
    e.from = {between(0, 300)};
    e.until = {e.from.value + between(0, 600)};
    e.rate_per_10min = {between(0, 20)};
    e.shoulders = {between(0, 20)};
    return e;
}

Baby any_baby() {
    Baby b;
    b.heart_beats = *rc::gen::inRange(0, 10) > 0;
    b.baseline = {between(50, 240)};
    b.variability = any_up_to(Variability::by_state);
    b.rise = {between(0, 60)};
    b.rise_over = {between(60, 1200)};
    b.drift = {between(0, 6)};
    b.sinusoid = {*rc::gen::inRange(0, 3) == 0 ? between(0, 30) : 0};
    b.rhythm.early_beat = between(0, 0.2);
    b.rhythm.dropped_beat = between(0, 0.2);
    b.rhythm.drop_every = *rc::gen::inRange(0, 3) == 0 ? *rc::gen::inRange(0, 51) : 0;
    b.rhythm.early_every = *rc::gen::inRange(0, 3) == 0 ? *rc::gen::inRange(0, 51) : 0;
    b.rhythm.from_chamber = *rc::gen::arbitrary<bool>();
    b.rhythm.silent_beat = between(0, 0.05);
    b.fifths_above_brim = between(0, 5);
    b.comes_down_to = *rc::gen::arbitrary<bool>() ? between(0, 5) : -1;
    b.comes_down_over = {between(60, 1200)};
    b.movements_per_10min = between(0, 40);
    for (int e = *rc::gen::inRange(0, 13); e > 0; --e) b.events.add(any_event());
    return b;
}

Patient any_patient() {
    Patient p;
    p.babies.add(any_baby());
    if (*rc::gen::inRange(0, 4) == 0) p.babies.add(any_baby());
    p.mother.pulse = {between(40, 180)};
    p.mother.with_contraction = {between(-40, 60)};
    p.mother.with_push = {between(0, 80)};
    p.mother.breaths_per_min = between(8, 40);
    p.mother.temperature_c = between(34, 42);
    p.mother.position = any_up_to(Position::knees_and_chest);
    p.labour.contractions_per_10min = between(0, 9);
    p.labour.strength = {between(15, 100)};
    p.labour.tone = {between(5, 40)};
    p.labour.contraction_length = {between(20, 120)};
    p.labour.irregular = between(0, 0.5);
    p.labour.double_peaks = between(0, 1);
    p.labour.first_contraction = {between(0, 300)};
    p.labour.pushing = *rc::gen::arbitrary<bool>();
    p.labour.oxytocin_drip = *rc::gen::arbitrary<bool>();
    p.labour.per_10min_without_drip = between(0, 9);
    p.labour.contractions_stop = {*rc::gen::arbitrary<bool>() ? between(0, 600) : 1e6};
    p.cause.trouble = any_up_to(Trouble::unknown);
    p.cause.at = {between(0, 600)};
    p.cause.falls_to = {*rc::gen::arbitrary<bool>() ? between(40, 200) : 0};
    p.cause.falls_over = {between(5, 600)};
    p.cause.recovers_over = {between(10, 1200)};
    p.cause.answer = between(0, 1);
    p.cause.pulse_to = {*rc::gen::arbitrary<bool>() ? between(40, 200) : 0};
    p.cause.pulse_over = {between(5, 1800)};
    return p;
}

// Acts and positions in any order, in time order as they must be.
std::vector<Change> any_changes(double length_s) {
    std::vector<Change> changes;
    std::int64_t at_us = 0;
    for (int n = *rc::gen::inRange(0, 25); n > 0; --n) {
        at_us += *rc::gen::inRange<std::int64_t>(0, static_cast<std::int64_t>(length_s * 1e5));
        Change c;
        c.at_us = at_us;
        if (*rc::gen::inRange(0, 3) == 0) {
            c.kind = Change::Kind::position;
            c.position = any_up_to(Position::knees_and_chest);
        } else {
            c.kind = Change::Kind::act;
            c.act = static_cast<Act>(*rc::gen::inRange(0, static_cast<int>(Act::count_)));
        }
        changes.push_back(c);
    }
    return changes;
}

bool same(const CourseTick& a, const CourseTick& b) {
    return a.fhr_bpm == b.fhr_bpm && a.fhr_base_bpm == b.fhr_base_bpm && a.mhr_bpm == b.mhr_bpm &&
           a.uc_mmhg == b.uc_mmhg && a.uc_above_tone_mmhg == b.uc_above_tone_mmhg && a.pushing == b.pushing &&
           a.moving == b.moving && a.in_contraction == b.in_contraction && a.contraction == b.contraction &&
           a.temperature_c == b.temperature_c && a.come_down_fifths == b.come_down_fifths &&
           a.shifted_x_cm == b.shifted_x_cm && a.shifted_y_cm == b.shifted_y_cm;
}

void a_body_s(const CourseTick& tick, const Patient& p) {
    for (std::size_t i = 0; i < 2; ++i) {
        const bool beats = static_cast<int>(i) < p.babies.size && p.babies[static_cast<int>(i)].heart_beats;
        for (const double bpm : {tick.fhr_bpm[i], tick.fhr_base_bpm[i]})
            RC_ASSERT((beats ? bpm >= 30 && bpm <= 300 : bpm == 0));
        RC_ASSERT(std::hypot(tick.shifted_x_cm[i], tick.shifted_y_cm[i]) <= 3.0001);
        RC_ASSERT((tick.come_down_fifths[i] >= 0 && tick.come_down_fifths[i] <= 5));
    }
    RC_ASSERT((tick.mhr_bpm >= 30 && tick.mhr_bpm <= 300));
    RC_ASSERT((tick.uc_above_tone_mmhg >= 0 && tick.uc_mmhg > 0 && tick.uc_mmhg < 500));
    RC_ASSERT((tick.temperature_c > 33 && tick.temperature_c < 43));
}

void any_labour(double length_s) {
    const Patient p = any_patient();
    const auto changes = any_changes(length_s);
    const Seed seed{*rc::gen::inRange<std::uint64_t>(0, Seed::largest + 1)};
    const auto course = course_over(p, seed, changes, {length_s});
    const auto again = course_over(p, seed, changes, {length_s});
    RC_ASSERT(course.size() == again.size());
    for (std::size_t k = 0; k < course.size(); ++k) {
        a_body_s(course[k], p);
        RC_ASSERT(same(course[k], again[k]));
    }
    for (Who who : {Who::fetal, Who::fetal2, Who::maternal}) {
        std::int64_t number = 0, last_us = -1;
        for (const Beat& beat : beats_over(p, seed, who, course)) {
            RC_ASSERT(beat.number == number++);
            if (beat.kind == BeatKind::dropped) continue;
            if (last_us >= 0) {
                RC_ASSERT(beat.at_us - last_us >= 199'999);    // 300 a minute
                RC_ASSERT(beat.at_us - last_us <= 2'000'001);  // 30 a minute
            }
            last_us = beat.at_us;
        }
    }
}

}  // namespace

TEST_CASE(
    "any labour of a file, any acts in any order: finite rates, beats 30 to 300 a minute, the same twice",
    "[course][any]") {
    CHECK(rc::check([] { any_labour(300); }));
}

TEST_CASE("any labour, twenty minutes, many times over", "[course][any][.slow]") {
    for (int round = 0; round < 6; ++round) CHECK(rc::check([] { any_labour(1200); }));
}
