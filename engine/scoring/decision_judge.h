// One decision, part by part: whose heart, the rate, around contractions, the rhythm. Used by the aspect alone.
#pragma once

#include "engine/scoring/aspects.h"

#include <optional>
#include <string>

namespace engine {

class DecisionJudge {
public:
    struct Part {
        Verdict verdict = Verdict::not_asked;
        std::string why;
        std::optional<Aspect> follows;  // the fault elsewhere that already explains it
    };

    DecisionJudge(const Evidence& e, const ScoreSheet& sheet, const StandingDecision& d)
        : e_(e), sheet_(sheet), d_(d), said_(d.said.decision) {
        baby_ = d.heard.heard_s[1] > d.heard.heard_s[0] ? 1 : 0;
    }

    Part judge();

private:
    Part source() const;
    Part unsure(Part whole) const;

    // The rate and the rhythm: decision_rate.cpp.
    std::string baseline_gap(std::optional<Aspect>& cause) const;
    Part baseline() const;
    std::optional<Aspect> number_fault() const;
    Part rhythm() const;

    // decision_around.cpp.
    Part around() const;

    const Evidence& e_;
    const ScoreSheet& sheet_;
    const StandingDecision& d_;
    const Decision& said_;
    std::size_t baby_ = 0;
};

}  // namespace engine
