// What the tests of drawn scenarios share: drawing from a few lines, and asking each one whether it is what
// was asked.
#pragma once

#include "engine/drawing/drawing.h"
#include "engine/scoring/key.h"
#include "sim/body/abdomen.h"
#include "sim/listening.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>
#include <set>

namespace drawn {

using namespace engine;

inline Quota quota_at(const std::string& id) {
    std::string path = FULLMINUTE_SOURCE_DIR "/scenarios/quotas/";
    path.append(id).append(".toml");
    return read_quota_file(path).value();
}

inline Quota quota_of(const std::string& body) {
    std::string text = "format = \"fullminute-quota/1\"\nid = \"a-set\"\ntitle = \"A set\"\n";
    text.append(body);
    auto read = read_quota(text, "a-set.toml");
    for (const std::string& line : lines_of(read.ok() ? std::vector<Fault>{} : read.faults()))
        UNSCOPED_INFO(line);
    REQUIRE(read.ok());
    return read.value();
}

// Five seconds at the best place through the first instrument of the place.
inline void to_be_heard(const Scenario& s, sim::Seed seed) {
    const sim::Patient patient = s.patient(seed);
    const auto course = sim::course_over(patient, seed, {}, {1});
    const sim::Instrument with = s.place.instruments.front();
    const sim::BestSpot best = sim::best_spot(patient, course.front(), with);
    sim::Listening listening(patient, seed, sim::OutputMode::true_sound);
    sim::Change take, gel, place;
    take.kind = sim::Change::Kind::take;
    take.instrument = with;
    gel.kind = sim::Change::Kind::gel;
    place.kind = sim::Change::Kind::place;
    place.x_cm = best.x_cm;
    place.y_cm = best.y_cm;
    for (const sim::Change& change : {take, gel, place}) listening.apply(change);
    std::vector<float> out(5 * 48000);
    listening.render(out);
    bool sound = true;
    double power = 0;
    for (const float v : out) {
        sound = sound && std::isfinite(v) && v >= -1.0F && v <= 1.0F;
        power += static_cast<double>(v) * static_cast<double>(v);
    }
    CHECK(sound);
    CHECK(std::sqrt(power / static_cast<double>(out.size())) > 1e-4);  // -80 dBFS: something is to be heard
}

inline bool one_of_levels(const Key& key, std::initializer_list<Level> levels) {
    return std::find(levels.begin(), levels.end(), key.level) != levels.end();
}
inline bool knows(const Key& key, const char* situation) {
    return std::find(key.situations.begin(), key.situations.end(), situation) != key.situations.end();
}

// Levels as the ladder of WHO 2018 with the 2020 labour guide has them: fast YELLOW, ORANGE when it holds;
// slow under 100 RED, 100 to 109 YELLOW; still slow after contractions YELLOW, ORANGE over half; stays down
// RED [MCPC, WHO18, LCG].
inline void answer_is(const Case& c, const Key& key) {
    using enum Level;
    if (c[Axis::boundary] == boundary::yes) return;  // both answers can be right: never for pass marks
    if (c.is_normal()) {
        CHECK(key.decision.source == SourceIs::baby);
        CHECK(key.decision.baseline == BaselineIs::normal);
        CHECK(key.decision.rhythm == RhythmIs::regular);
        const bool early = c[Axis::calm] == calm::early;
        CHECK((key.decision.around == Around::slows_in_contraction) == early);
        CHECK(key.decision.around != Around::slow_after_contraction);
        CHECK(key.decision.around != Around::stays_down);
        if (c[Axis::position] >= position::breech)
            CHECK(knows(key, c[Axis::position] == position::breech ? "breech" : "lying_across"));
        else if (c[Axis::variant] == variant::preterm)
            CHECK(knows(key, "listening_alone_not_enough"));
        else
            CHECK(key.level == green);
        return;
    }
    switch (c[Axis::trouble]) {
        case trouble::late:
            CHECK(key.decision.around == Around::slow_after_contraction);
            CHECK(one_of_levels(key, {yellow, orange, red}));
            break;
        case trouble::variable:
            CHECK((key.decision.around == Around::slow_after_contraction ||
                   key.decision.around == Around::slows_in_contraction));
            CHECK(key.level != green);
            break;
        case trouble::prolonged:
            CHECK(knows(key, "stays_down"));
            CHECK(key.level == red);
            break;
        case trouble::rising:
            CHECK(key.decision.baseline == BaselineIs::rising);
            CHECK(key.level != green);
            break;
        case trouble::fast:
            CHECK(key.decision.baseline == BaselineIs::fast);
            CHECK(one_of_levels(key, {yellow, orange}));
            break;
        case trouble::slow:
            CHECK(key.decision.baseline == BaselineIs::slow);
            if (key.baseline_bpm < 100)
                CHECK(key.level == red);
            else
                CHECK(one_of_levels(key, {yellow, orange}));
            break;
        case trouble::irregular:
            CHECK(key.decision.rhythm == RhythmIs::irregular);
            CHECK(key.level != green);
            break;
        case trouble::twins:
            CHECK(key.decision.source == SourceIs::two_babies);
            CHECK(knows(key, "twins"));
            break;
        case trouble::absent:
            CHECK(key.decision.source == SourceIs::not_found);
            CHECK(key.level == red);
            break;
        default: FAIL("a trouble without a name");
    }
}

inline void rates_are_fair(const Scenario& s, const Case& c) {
    for (const sim::Baby& baby : s.middle.babies) {
        if (!baby.heart_beats) continue;
        const double b = baby.baseline.value;
        CHECK(b != std::floor(b));
        CHECK(std::fmod(std::round(b), 10) != 0);  // no decade: it flatters a 6 s count
        const bool tagged = c[Axis::boundary] == boundary::yes;
        CHECK(s.boundary == tagged);
        if (tagged) continue;
        for (const double limit : {110.0, 160.0}) CHECK(std::fabs(b - limit) > 2);
        // Her pulse is another rate, at rest and with a contraction.
        const double pulse = s.middle.mother.pulse.value;
        CHECK(std::fabs(b - pulse) > 10);
        CHECK(std::fabs(b - pulse - s.middle.mother.with_contraction.value) > 5);
    }
}

inline void all_of_them(const std::vector<DrawnScenario>& drawn, std::uint64_t first_seed) {
    const Protocol who = shipped_protocol("who-2018");
    std::uint64_t seed = first_seed;
    for (const DrawnScenario& one : drawn) {
        INFO(one.id << ": " << one.asked.what.word(Axis::task) << ", " << one.asked.what.word(Axis::calm)
                    << ", " << one.asked.what.word(Axis::trouble) << ", "
                    << one.asked.what.word(Axis::position) << ", " << one.asked.what.word(Axis::variant)
                    << ", level " << one.asked.what.word(Axis::level));
        const auto read = read_scenario(one.text, one.id + ".toml");
        REQUIRE(read.ok());
        const Scenario& s = *read;
        CHECK(name_of(s.task) == one.asked.what.word(Axis::task));
        CHECK(s.level == one.asked.what[Axis::level] + 1);
        CHECK(std::regex_search(s.story, std::regex("A-[0-9]{3}")));
        CHECK(s.teaching.size() >= 2);
        rates_are_fair(s, one.asked.what);
        to_be_heard(s, {seed});
        answer_is(one.asked.what, key_of(s, who, {seed}));
        ++seed;
    }
}

inline std::vector<DrawnScenario> drawn_from(const Quota& quota, std::uint64_t seed) {
    auto drawn = draw(quota, shipped_protocol("who-2018"), {seed});
    for (const std::string& line : lines_of(drawn.ok() ? std::vector<Fault>{} : drawn.faults()))
        UNSCOPED_INFO(line);
    REQUIRE(drawn.ok());
    return std::move(drawn).value();
}

}  // namespace drawn
