// A listener without a fault gets a sheet without one, in every one of the first ten labours.
#include "faultless_listeners.h"

using namespace perfect;

namespace {

void nothing_wrong(const Listener& l) {
    const ScoreSheet sheet = l.sheet();
    INFO(l.scenario.id << "\n" << told(sheet));
    std::string wrong;
    for (const AspectScore& a : sheet.aspects)
        if (a.verdict == Verdict::partly || a.verdict == Verdict::missed)
            wrong += std::string(name_of(a.aspect)) + " ";
    CHECK(wrong == "");
    CHECK(sheet.critical_missed.empty());
    CHECK_FALSE(sheet.primary.has_value());
    CHECK(sheet.finished);
}

}  // namespace

TEST_CASE("c01: a whole minute at 138.4 without a fault: every aspect met", "[faultless]") {
    nothing_wrong(faultless_c01());
}
TEST_CASE("q01: a look of 6 s, then the minute that is written: every aspect met", "[faultless]") {
    nothing_wrong(faultless_q01());
}
TEST_CASE("f03: heart above the navel, 144.6, senior told: every aspect met", "[faultless]") {
    nothing_wrong(faultless_f03());
}
TEST_CASE("t04: her pulse recognised low down, the baby counted higher: every aspect met", "[faultless]") {
    nothing_wrong(faultless_t04());
}
TEST_CASE("p02: slows in the contraction, back at its end: every aspect met", "[faultless]") {
    nothing_wrong(faultless_p02());
}
TEST_CASE("p03: still slow after each contraction, acts in time: every aspect met", "[faultless]") {
    nothing_wrong(faultless_p03());
}
TEST_CASE("l03: flat on her back, turned at once, senior told: every aspect met", "[faultless]") {
    nothing_wrong(faultless_l03());
}
TEST_CASE("l05: 173 with fever, 90 min away, gone with her: every aspect met", "[faultless]") {
    nothing_wrong(faultless_l05());
}
TEST_CASE("l06: cord seen when waters broke, acts within 2 min: every aspect met", "[faultless]") {
    nothing_wrong(faultless_l06());
}
TEST_CASE("f10: no heart to be found, help called within 5 min: every aspect met", "[faultless]") {
    nothing_wrong(faultless_f10());
}

TEST_CASE("All ten without a fault at three other seeds: other contractions, other beats, every aspect met",
          "[faultless]") {
    for (double seed : {2.0, 3.0, 77.0}) {
        CAPTURE(seed);
        seed_in_use = seed;
        for (auto make : {faultless_c01, faultless_q01, faultless_f03, faultless_t04, faultless_p02,
                          faultless_p03, faultless_l03, faultless_l05, faultless_l06, faultless_f10})
            nothing_wrong(make());
    }
    seed_in_use = 1;
}
