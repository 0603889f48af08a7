// One decision, part by part: whose heart, the rate, around contractions, the rhythm. Used by the aspect
// alone.
#pragma once

#include "engine/scoring/aspects.h"

#include <optional>
#include <string>

namespace engine {

class DecisionJudge {
public:
    enum class Of { source, baseline, around, rhythm };
    struct Part {
        Verdict verdict = Verdict::not_asked;
        std::string why;
        std::optional<Aspect> follows;  // the fault elsewhere that already explains it
        Of of = Of::source;             // the part of the decision that gave the verdict
    };

    DecisionJudge(const Evidence& e, const ScoreSheet& sheet, const StandingDecision& d)
        : e_(e), sheet_(sheet), d_(d), said_(d.said.decision) {
        look_at(baby_judged());
    }

    Part judge();
    // Which baby is judged: the one that was heard; of twins both heard, the one in more trouble, as the key
    // names it.
    std::size_t baby() const { return baby_; }
    // The heart was normal in all that was heard, and long enough to say so; and it was called something
    // else.
    bool normal_heart() const;
    bool over_called() const;

private:
    std::size_t baby_judged() const;
    void look_at(std::size_t baby);
    bool both_heard() const;
    Part whole() const;
    Part source() const;
    Part unsure(Part whole) const;
    bool heard_one_of_two() const;

    // The rate and the rhythm: decision_rate.cpp.
    std::string baseline_gap(std::optional<Aspect>& cause) const;
    Part baseline() const;
    std::optional<Aspect> number_fault() const;
    std::string from_which_count() const;
    Part rhythm() const;

    // decision_around.cpp.
    Part around() const;
    bool fall_heard() const;
    bool down_when_left() const;

    const Evidence& e_;
    const ScoreSheet& sheet_;
    const StandingDecision& d_;
    const Decision& said_;
    std::size_t baby_ = 0;
    const CountedWindow* counted_ = nullptr;  // the number it rests on, of that baby
};

// The decision with the gravest verdict, and that verdict; none: nothing was decided. In counting tasks only
// the last one is judged, around contractions and in whole labours each.
struct GravestDecision {
    const StandingDecision* decision = nullptr;
    DecisionJudge::Part part;
    std::size_t baby = 0;
};
GravestDecision gravest_decision(const Evidence&, const ScoreSheet&);

}  // namespace engine
