// Paints a picture: what one listener could know, from the ticks they heard, the findings, the place and the
// story.
#pragma once

#include "engine/scoring/labour_run.h"
#include "engine/scoring/situations.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace engine {

class Painter {
public:
    Painter(const Scenario& scenario, const Protocol& protocol, const Played& played,
            const Listened& listened, const LabourRun& run, sim::LabourTime from, sim::LabourTime to)
        : scenario_(scenario),
          protocol_(protocol),
          played_(played),
          listened_(listened),
          run_(run),
          from_(from),
          to_(to) {}

    Picture paint();

private:
    // The earliest moment stands, and the first sentence.
    void know(std::string_view situation, sim::LabourTime at, std::string why);
    double base(int baby, sim::LabourTime t) const;
    const HeartRun& heart(int baby) const { return run_.babies[static_cast<std::size_t>(baby)]; }
    // "The settled rate", of twins with which of them.
    std::string settled_rate_of(int baby) const;
    sim::LabourTime first_heard() const;

    // One baby's rate and rhythm: rates_heard.cpp.
    void one_baby(int b);
    void held(int b);
    void rate_held(sim::LabourTime at);
    void settled(int b);
    bool steady(int b, sim::LabourTime t) const;
    void rates(int b);
    double rate_at_start(int b) const;
    void rhythm(int b);

    // Around contractions: falls_heard.cpp.
    bool covered(int b, sim::LabourTime a, sim::LabourTime z) const;
    void around(int b);
    void stays_down(int b, AroundHeard& around);

    // Whose heart, findings, womb, story: story_known.cpp.
    void nobody_there();
    void source();
    std::optional<sim::LabourTime> too_near_her_pulse(int b) const;
    void findings();
    void contractions();
    void story();
    void scar();
    std::optional<sim::LabourTime> not_head_down_known(sim::LabourTime start) const;

    // Herself: mother_known.cpp.
    void mother();
    void her_pulse();
    void her_temperature();

    // What follows from all that: situations.cpp.
    void position_and_birth();
    std::optional<sim::LabourTime> serious_from(const Known& k) const;
    std::optional<sim::LabourTime> worse_from(const Known& k) const;
    std::optional<sim::LabourTime> any_slowing() const;
    void finish();

    const Scenario& scenario_;
    const Protocol& protocol_;
    const Played& played_;
    const Listened& listened_;
    const LabourRun& run_;
    sim::LabourTime from_, to_;
    std::array<std::vector<HeardStretch>, 2> heard_of_;                // per baby
    std::array<std::vector<sim::LabourTime>, 2> listened_through_of_;  // contractions: when they had been
    std::optional<sim::LabourTime> enough_, fall_heard_, fall_sure_;
    Picture picture_;
};

// A rate in a sentence.
std::string bpm_word(double bpm);

}  // namespace engine
