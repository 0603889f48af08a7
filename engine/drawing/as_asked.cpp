// Is a drawn scenario what was asked? The program's own key answers, as for any attempt.
#include "engine/drawing/drawing.h"
#include "engine/scoring/key.h"
#include "sim/body/abdomen.h"
#include "sim/course/course.h"

#include <fmt/format.h>

#include <algorithm>

namespace engine {
namespace {

bool has(const Key& key, std::string_view situation) {
    return std::find(key.situations.begin(), key.situations.end(), situation) != key.situations.end();
}

// What is told or found of her beside the heart, and raises the level by itself.
bool more_than_the_heart(const Case& c) {
    return c[Axis::position] >= position::breech || c[Axis::variant] == variant::preterm;
}

std::string normal_heart(const Key& key, const Case& c) {
    const bool early = c[Axis::calm] == calm::early;
    if (key.decision.baseline != BaselineIs::normal)
        return fmt::format("baseline {}", name_of(key.decision.baseline));
    if (key.decision.source != SourceIs::baby) return fmt::format("source {}", name_of(key.decision.source));
    if (early && key.decision.around != Around::slows_in_contraction)
        return fmt::format("around {}", name_of(key.decision.around));
    if (!early && key.decision.around != Around::no_slowing && key.decision.around != Around::not_listened)
        return fmt::format("around {}", name_of(key.decision.around));
    if (key.decision.rhythm != RhythmIs::regular) return "not regular";
    if (!more_than_the_heart(c) && key.level != Level::green)
        return fmt::format("level {} {}", name_of(key.level), fmt::join(key.situations, " "));
    return "";
}

std::string trouble_there(const Key& key, const Case& c) {
    const auto expect = [&](bool there, std::string_view what) {
        return there ? std::string() : fmt::format("{} not in the key", what);
    };
    if (key.level == Level::green) return "level green";
    switch (c[Axis::trouble]) {
        case trouble::late:
            return expect(key.decision.around == Around::slow_after_contraction, "slow after contractions");
        case trouble::variable:
            return expect(key.decision.around == Around::slow_after_contraction ||
                              key.decision.around == Around::slows_in_contraction,
                          "slowing");
        case trouble::prolonged:
            return expect(has(key, "stays_down") && key.level == Level::red, "a fall that stays, red");
        case trouble::rising: return expect(has(key, "rising"), "rising");
        case trouble::fast: return expect(key.decision.baseline == BaselineIs::fast, "fast");
        case trouble::slow: return expect(key.decision.baseline == BaselineIs::slow, "slow");
        case trouble::irregular: return expect(key.decision.rhythm == RhythmIs::irregular, "irregular");
        case trouble::twins: return expect(key.decision.source == SourceIs::two_babies, "two babies");
        case trouble::absent:
            return expect(has(key, "not_found") && key.level == Level::red, "not found, red");
        default: return "";
    }
}

std::string settles_elsewhere(const Key& key, const RateRange& rate) {
    if (!rate.asked() || (rate.from_bpm <= key.baseline_bpm && key.baseline_bpm <= rate.to_bpm)) return "";
    return fmt::format("settles at {:.1f} bpm, asked {:g} to {:g}", key.baseline_bpm, rate.from_bpm,
                       rate.to_bpm);
}

// The cause in the file is the one asked; where none is to be found the file may also leave it out.
std::string another_cause(const sim::Patient& patient, const Case& c) {
    const sim::Trouble there = patient.cause.trouble, asked = trouble_of(c[Axis::cause]);
    if (there == asked || (asked == sim::Trouble::unknown && there == sim::Trouble::none)) return "";
    return "another cause than " + std::string(c.word(Axis::cause));
}

// The louder of twins is enough.
std::string not_to_be_heard(const Scenario& s, const sim::Patient& patient, sim::Seed seed) {
    const auto course = sim::course_over(patient, seed, {}, {60});
    for (const sim::Instrument with : s.place.instruments)
        if (sim::countable(sim::best_spot(patient, course.back(), with).levels) == sim::Countable::countable)
            return "";
    return "the heart is not countable anywhere";
}

}  // namespace

std::string not_as_asked(const Scenario& scenario, const AskedShare& share, const Protocol& protocol,
                         sim::Seed heard_with) {
    const Case& asked = share.what;
    const sim::Patient patient = scenario.patient(heard_with);
    if (const std::string wrong = another_cause(patient, asked); !wrong.empty()) return wrong;
    if (asked[Axis::trouble] != trouble::absent) {
        std::string deaf = not_to_be_heard(scenario, patient, heard_with);
        if (!deaf.empty()) return deaf;
    }
    if (asked[Axis::boundary] == boundary::yes) return scenario.boundary ? "" : "not tagged";
    const Key key = key_of(scenario, protocol, heard_with);
    if (const std::string elsewhere = settles_elsewhere(key, share.rate); !elsewhere.empty())
        return elsewhere;
    return asked.is_normal() ? normal_heart(key, asked) : trouble_there(key, asked);
}

}  // namespace engine
