// First attempts at a labour: by hand.
#include "engine/competency/first_goes.h"

#include <catch2/catch.hpp>

#include <string>

using namespace engine;

namespace {

struct Kept {
    CountColumns c;

    // A minute of 140 beats; `counted` -1: none given.
    Kept& count(int attempt, int person, int item, int counted, HeartCounted heart = HeartCounted::baby,
                int judged = 1, int true_beats = 140) {
        c.attempt.push_back(attempt);
        c.place.push_back(0);
        c.person.push_back(static_cast<std::uint32_t>(person));
        c.item.push_back(static_cast<std::uint32_t>(item));
        c.finished_s.push_back(1'700'000'000 + 100LL * attempt);
        c.plan_s.push_back(60);
        c.mode.push_back(static_cast<std::int8_t>(attempt % 2));
        c.true_beats.push_back(static_cast<std::int16_t>(true_beats));
        c.true_mbpm.push_back(true_beats * 1000);
        c.counted.push_back(static_cast<std::int16_t>(counted));
        c.written_mbpm.push_back(-1);
        c.judged.push_back(static_cast<std::int8_t>(judged));
        c.followed.push_back(static_cast<std::int8_t>(heart));
        return *this;
    }
};

std::string series_of(const FirstGoes& found, unsigned person) {
    std::string series;
    for (const FirstGo& go : found.goes)
        if (go.person == person) series += go.right ? 'S' : 'F';
    return series;
}

}  // namespace

TEST_CASE("every other labour the mother's heart, 80 or by chance 140: SFSFF, never right", "[competency]") {
    Kept k;
    k.count(1, 1, 1, 140).count(2, 1, 2, 80, HeartCounted::mother).count(3, 1, 3, 138);
    k.count(4, 1, 4, 140, HeartCounted::mother).count(5, 1, 5, 140, HeartCounted::nobody);
    const FirstGoes found = first_goes(k.c);
    CHECK(series_of(found, 1) == "SFSFF");
    CHECK(found.repeats == 0);
}

TEST_CASE("a labour is right when all its judged counts are; only the first time of each person counts",
          "[competency]") {
    Kept k;
    k.count(1, 1, 1, 140).count(1, 1, 1, 120);                         // one wrong of two
    k.count(2, 1, 2, 120, HeartCounted::baby, 0).count(2, 1, 2, 141);  // corrected
    k.count(3, 1, 1, 140);                                             // met before
    k.count(4, 2, 1, 140, HeartCounted::not_known);                    // another person
    k.count(5, 2, 3, -1);                                              // no number: wrong
    k.count(6, 2, 4, 0, HeartCounted::nobody, 1, 0);                   // not a beat in it
    const FirstGoes found = first_goes(k.c);
    CHECK(series_of(found, 1) == "FS");
    CHECK(series_of(found, 2) == "SF");
    CHECK(found.repeats == 1);
    CHECK(found.nothing_judged == 1);
}
