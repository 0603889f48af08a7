// What a tracing calls falls and rises: worked examples. Rules: NICHD 2008 (Macones et al., as tabulated in
// open copies), FIGO 2015 where it differs (as tabulated elsewhere); times in seconds from the contraction's
// start.
#include "made_labours.h"

#include "engine/scoring/deceleration.h"
#include "engine/scoring/heard.h"

using namespace perfect;

namespace {

DecelerationShape fall(double onset, double nadir, double back, double depth) {
    return {{onset}, {nadir}, {back}, {depth}};
}
DecelerationShape long_fall(double depth, double length) { return fall(0, length / 2, length, depth); }
std::string kind(const DecelerationShape& f, std::optional<ContractionShape> womb = std::nullopt,
                 const ProlongedRule& rule = prolonged_nichd_2008) {
    return std::string(name_of(deceleration_kind(f, womb, rule)));
}
const ContractionShape seventy{{35}, {70}}, sixty{{30}, {60}};

}  // namespace

TEST_CASE("W26: from 2, deepest at 35 with the peak, back at 68 of 70, 20 deep: early", "[worked]") {
    CHECK(kind(fall(2, 35, 68, 20), seventy) == "early");
    CHECK(kind(fall(2, 40, 68, 20), seventy) == "early");         // within 5 s of the peak [practice]
    CHECK(kind(fall(2, 41, 70, 20), seventy) == "unclassified");  // later, and still back by the end
    CHECK(kind(fall(2, 41, 71, 20), seventy) == "late");
    CHECK(kind(fall(2, 29, 68, 20), seventy) == "variable");  // 27 s to the deepest
}

TEST_CASE("W27: from 25, deepest at 58, back 35 s after a contraction of 60 s, 25 deep: late in both",
          "[worked]") {
    CHECK(kind(fall(25, 58, 95, 25), sixty) == "late");
    CHECK(late_by_figo_2015(fall(25, 58, 95, 25), sixty));
    CHECK_FALSE(
        late_by_figo_2015(fall(20, 58, 95, 25), sixty));  // begins more than 20 s after the contraction did
    CHECK_FALSE(late_by_figo_2015(fall(25, 55, 95, 25), sixty));  // 30 s to its deepest: more is asked
    CHECK_FALSE(late_by_figo_2015(fall(25, 58, 88, 25), sixty));  // back in 30 s
}

TEST_CASE("W28: 40 deep within 12 s, 45 s long: variable, whatever the contraction", "[worked]") {
    CHECK(kind(fall(10, 22, 55, 40), sixty) == "variable");
    CHECK(kind(fall(10, 22, 55, 40)) == "variable");
    CHECK(kind(fall(10, 39.9, 80, 40), sixty) == "variable");
    CHECK(kind(fall(10, 40, 80, 40), sixty) == "late");  // 30 s to the deepest is gradual
}

TEST_CASE("W29: 30 deep for 150 s is prolonged by NICHD, from 2 min, and not by FIGO, above 3 min",
          "[worked]") {
    CHECK(kind(long_fall(30, 150)) == "prolonged");
    CHECK(kind(long_fall(30, 150), std::nullopt, prolonged_figo_2015) != "prolonged");
    CHECK(kind(long_fall(30, 120)) == "prolonged");
    CHECK(kind(long_fall(30, 119.9)) != "prolonged");
    CHECK(kind(long_fall(30, 180), std::nullopt, prolonged_figo_2015) != "prolonged");
    CHECK(kind(long_fall(30, 180.1), std::nullopt, prolonged_figo_2015) == "prolonged");
}

TEST_CASE("W30: 30 deep for 210 s is prolonged in both", "[worked]") {
    CHECK(kind(long_fall(30, 210)) == "prolonged");
    CHECK(kind(long_fall(30, 210), std::nullopt, prolonged_figo_2015) == "prolonged");
}

TEST_CASE("W31: 140 falls to 95 for 11 min: a change of baseline, slow, and below 100", "[worked]") {
    for (const ProlongedRule& rule : {prolonged_nichd_2008, prolonged_figo_2015})
        CHECK(kind(long_fall(45, 660), std::nullopt, rule) == "baseline_change");
    CHECK(kind(long_fall(45, 599.9)) == "prolonged");
    // The same fall in a labour: the settled rate is the new one, in every protocol slow and RED.
    Scenario s = plain_labour(16, 140);
    s.middle.cause.trouble = sim::Trouble::unknown;
    s.middle.cause.at = sim::Seconds{120};
    s.middle.cause.falls_to = sim::Bpm{95};
    s.middle.cause.falls_over = sim::Seconds{10};
    s.middle.cause.answer = 0;
    for (const char* id : four_protocols) {
        const Key k = key_of_made(s, id);
        CHECK(k.baseline_bpm == Approx(95).margin(1.5));
        CHECK(k.decision.baseline == BaselineIs::slow);
        CHECK(k.level == Level::red);
    }
}

TEST_CASE("W32: 12 deep for 20 s is no deceleration, 15 deep is one", "[worked]") {
    CHECK(kind(fall(0, 10, 20, 12)) == "none");
    CHECK(kind(fall(0, 10, 20, 14.9)) == "none");
    CHECK(kind(fall(0, 10, 20, 15)) == "variable");
}

TEST_CASE("W33: 20 deep for 12 s is no deceleration, for 15 s it is one", "[worked]") {
    CHECK(kind(fall(0, 6, 12, 20)) == "none");
    CHECK(kind(fall(0, 6, 14.9, 20)) == "none");
    CHECK(kind(fall(0, 6, 15, 20)) == "variable");
}

TEST_CASE("W38: 18 up for 20 s at 39 weeks is an acceleration", "[worked]") {
    CHECK(is_acceleration({18}, {20}, 39));
    CHECK(is_acceleration({15}, {15}, 39));
    CHECK_FALSE(is_acceleration({18}, {120}, 39));  // 2 min: prolonged
}

TEST_CASE("W39: 12 up for 20 s at 39 weeks is none; 12 up for 12 s at 30 weeks is one", "[worked]") {
    CHECK_FALSE(is_acceleration({12}, {20}, 39));
    CHECK(is_acceleration({12}, {12}, 30));
    CHECK_FALSE(is_acceleration({12}, {12}, 32));  // from 32 weeks on
    CHECK(is_acceleration({12}, {12}, 31.9));
}

TEST_CASE("The course's own early, late, variable and prolonged falls are what a tracing would call them",
          "[worked]") {
    struct Row {
        sim::BabyEvent::Kind event;
        double length_s, back_s;
        const char* kind;
    };
    using Kind = sim::BabyEvent::Kind;
    for (const Row& row :
         {Row{Kind::early, 60, 0, "early"}, Row{Kind::late, 60, 45, "late"},
          Row{Kind::variable, 45, 0, "variable"}, Row{Kind::prolonged, 240, 0, "prolonged"}}) {
        Scenario s = plain_labour(10);
        s.middle.labour.contraction_length = sim::Seconds{90};
        sim::BabyEvent event;
        event.kind = row.event;
        event.depth = sim::Bpm{40};
        event.length = sim::Seconds{row.length_s};
        if (row.back_s > 0) event.back_after = sim::Seconds{row.back_s};
        if (row.event == Kind::prolonged) {
            event.by = sim::BabyEvent::Brought_on_by::time;
            event.at = sim::Seconds{100};
        }
        s.middle.babies[0].events.add(event);
        for (std::uint64_t seed = 1; seed <= 3; ++seed) {
            const Played played = untouched(s, {seed});
            // The fall alone: the same labour without it. What swings by itself moved the deepest point by up
            // to 3 s.
            Scenario calm = s;
            calm.middle.babies[0].events = {};
            const auto without = untouched(calm, {seed}).course;
            const Contraction& womb = played.contractions.at(1);
            const double zero = row.event == Kind::prolonged ? 100 : womb.from.seconds();
            // Below by 8 from before to after the deepest point of the stretch; the contraction ends when its
            // pressure has gone, which is later than a hand notices.
            const auto from = static_cast<std::size_t>(zero * 4);
            const auto until = static_cast<std::size_t>((zero + (row.length_s > 100 ? 300 : 160)) * 4);
            const auto depth = [&](std::size_t k) {
                return without.at(k).fhr_bpm[0] - played.course.at(k).fhr_bpm[0];
            };
            std::size_t deepest = from;
            for (std::size_t k = from; k < until; ++k)
                if (depth(k) > depth(deepest)) deepest = k;
            std::size_t a = deepest, z = deepest, first = deepest, last = deepest;
            for (std::size_t k = from; k < until; ++k)  // the bottom is flat: its middle, not its noise
                if (depth(k) > depth(deepest) - 4) {
                    first = std::min(first, k);
                    last = std::max(last, k);
                }
            while (a > 0 && depth(a) > 8) --a;
            while (z + 1 < played.course.size() && depth(z) > 8) ++z;
            auto over = static_cast<std::size_t>(womb.to.seconds() * 4);
            while (over + 1 < played.course.size() && played.course[over].uc_above_tone_mmhg > 1) ++over;
            // The height of a contraction is flat too: the middle of what is within a tenth of its most.
            const auto pressure = [&](std::size_t k) { return played.course.at(k).uc_above_tone_mmhg; };
            const auto starts = static_cast<std::size_t>(womb.from.seconds() * 4);
            std::size_t most = starts;
            for (std::size_t k = starts; k < over; ++k)
                if (pressure(k) > pressure(most)) most = k;
            std::size_t rises = most, sinks = most;
            while (rises > starts && pressure(rises - 1) > 0.9 * pressure(most)) --rises;
            while (sinks < over && pressure(sinks + 1) > 0.9 * pressure(most)) ++sinks;
            const std::size_t height = (rises + sinks) / 2;
            const auto at = [&](std::size_t k) { return sim::Seconds{static_cast<double>(k) / 4 - zero}; };
            const DecelerationShape shape{at(a), at((first + last) / 2), at(z), {depth(deepest)}};
            CAPTURE(row.kind, seed, shape.onset.value, shape.nadir.value, shape.back.value, shape.depth.value,
                    at(height).value, at(over).value);
            // 2 to 5 s behind the pressure [practice]: within the 5 s that the definition allows.
            if (row.event == Kind::early) CHECK(std::fabs(shape.nadir.value - at(height).value) <= 5);
            CHECK(kind(shape, ContractionShape{at(height), at(over)}) == row.kind);
        }
    }
}
