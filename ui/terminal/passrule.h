// The command `passrule`: a rule's length, mark and error rates, and made-up candidates tried under it.
#pragma once

#include "engine/trial/rule_report.h"

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace ui {

struct PassRuleOptions {
    engine::RuleAsked asked;
    int candidates = 0;
    std::vector<double> lost{0, 0.5, 1}, guesses{0}, misreads{0}, forgets{0}, takes_hers{0};
    engine::SyntheticCounter counter;  // its watch, pull and lateness
    std::string quota = "count-check", protocol;
    std::uint64_t seed = 1;
    bool no_redraw = false, json = false;
};

// `chosen` becomes the command when its name was typed. `options` must outlive it.
void add_passrule(CLI::App& app, PassRuleOptions& options, std::function<int()>& chosen);
int passrule(const PassRuleOptions&);

}  // namespace ui
