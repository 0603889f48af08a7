// What a made-up candidate holds to be so at a moment: what could be heard, found and felt until then, put
// right or wrong by what it counted and how it names what contractions do. Its acts follow from that, never
// from the truth.
#pragma once

#include "engine/scoring/situations.h"
#include "engine/trial/attendant.h"

#include <optional>
#include <string_view>

namespace engine {

BaselineIs class_of_count(const Protocol& protocol, int bpm);

struct Belief {
    bool hers = false;                      // it took her beat for the baby's
    int misread = 0;                        // 0: names rightly what contractions do; 1, 2, 3: a wrong name
    std::optional<BaselineIs> own_class{};  // of what it counted last, of twins the worse
    bool judges_around = false;             // it listens through contractions
    std::optional<Around> row_shows{};      // what its short counts in a row show, in order

    // A right name, or the wrong one it holds instead; what could not be heard is left open.
    Around named(Around there) const;
    // The situations as believed.
    Picture of(const Scenario& scenario, const Protocol& protocol, const Played& until_now) const;
    // It would notice this by itself, without having counted.
    bool notices(std::string_view situation) const;
    // What it says when asked at the end of `a`'s events.
    Decision said(const Attendant& a) const;
};

}  // namespace engine
