// A protocol: thresholds, listening rules and the worth of acts by which a facility works. A TOML file.
#pragma once

#include "engine/outcome.h"
#include "engine/scenario/scenario.h"
#include "sim/units.h"

#include <string>
#include <string_view>
#include <vector>

namespace engine {

// A womb may contract this often in ten minutes; more is too many, and this itself too where a protocol says
// so.
struct ContractionLimit {
    double per_10min = 5;
    bool limit_is_normal = true;  // 5 in 10 min itself is not yet too many
};

// Alert column for contractions, for protocols that have one.
struct ContractionAlerts {
    double few_per_10min = 2;      // this or fewer
    sim::Seconds short_below{20};  // lasting less
    sim::Seconds long_above{60};   // lasting more
};

// A limit and the side its own value belongs to.
struct Limit {
    sim::Bpm bpm{110};
    bool limit_is_normal = true;  // 110 itself counts as normal
};

enum class When : std::uint8_t { between, through, after };  // against the contraction

struct ListeningRule {
    Stage stage = Stage::active;
    sim::Seconds every_least{900}, every_most{1800};  // due from .. overdue after
    sim::Seconds length{60};
    When when = When::after;
    sim::Seconds after_end{30};        // listen on this long after the contraction's end
    std::vector<std::string> sources;  // of the interval
};

enum class ActKind : std::uint8_t { chosen, seen };
enum class Grade : std::uint8_t { expected, allowed, late_if_before, not_needed, out_of_scope, unsafe };
enum class Level : std::uint8_t { green, yellow, orange, red };

struct ActWords {
    std::string id;
    std::string words;  // as on the button
    ActKind kind = ActKind::chosen;
    Licence who = Licence::any;
    sim::Seconds takes{5};  // until done; a finding is shown then
    bool reveals = false;
    std::vector<std::string> sources;
};

struct Rule {
    std::string situation;          // "normal", "fast", "slow_steady", "slow", ...
    std::vector<std::string> acts;  // one act, or an any-of group
    Grade grade = Grade::expected;
    sim::Seconds within{0};           // from known-from; 0 = no limit
    std::vector<std::string> before;  // late_if_before: fine, but only after these acts
    std::vector<std::string> unless;  // conditions that lift the rule: "not_running", "no_theatre", ...
    bool critical = false;
    std::vector<std::string> sources;  // "WHO18", "MCPC S-95", "CP", "MEM" ...
    std::string conflict;              // what other guidance says; shown, rewards neither
};

struct Situation {
    std::string id, words;
    Level level = Level::green;
    Level level_if_it_holds =
        Level::green;  // through the persistence, after over half of the contractions, or
                       // (too many contractions, green waters) together with a slowing
};

struct Protocol {
    std::string id, title, file;
    std::string origin;        // where the values come from, shown
    bool from_memory = false;  // some values are from memory: said on screen
    Limit low, high;           // outside = slow / fast
    bool alert_given = false;
    Limit alert_low, alert_high;      // a separate field: normal range and alert are not the same
    sim::Bpm rising_by{20};           // rise since the start of labour that counts as rising
    sim::Bpm red_below{100};          // slow and below this is RED
    sim::Bpm slowing_depth{15};       // a slowing is at least this deep ...
    sim::Seconds slowing_length{15};  // ... for at least this long
    sim::Seconds stays_down{180};     // a fall not back by then
    sim::Seconds baseline_needs{60};  // heard this long before a baseline can be claimed
    int persistence_contractions = 3;
    sim::Seconds persistence{600};
    sim::Bpm near_pulse{5};  // rates this near cannot be told apart by number alone
    ContractionLimit too_many;
    bool contraction_alerts_given = false;
    ContractionAlerts contraction_alerts;
    sim::Bpm pulse_slow_below{60};             // her own, at rest: below is a finding of its own
    sim::Bpm pulse_fast_from{120};             // this and above too
    double warm_from_c = 37.5;                 // told to the senior from here
    double fever_from_c = 38;                  // fever from here
    std::vector<sim::Seconds> record_lengths;  // counting lengths allowed for the record: 60 s [, 30 s, 15 s]
    bool pulse_at_first_listening = true;
    sim::Seconds pulse_felt_for{15};
    bool pulse_at_each_listening = false;
    sim::Seconds pulse_every_first{0}, pulse_every_second{0};  // felt again at least this often; 0 = no rule
    std::vector<ListeningRule> listening;
    std::vector<ActWords> acts;
    std::vector<Rule> rules;
    std::vector<Situation> situations;
    std::vector<std::pair<std::string, std::string>> plan;       // our plan: line, what is filled in
    std::vector<std::pair<std::string, std::string>> conflicts;  // topic, who says what
    std::vector<std::string> cautions;  // wording points shown where a decision is made
    std::string text, sha256;

    const ActWords* act(std::string_view id) const;
    const ListeningRule& rule_for(Stage) const;
    const Situation* situation(std::string_view id) const;
};

Outcome<Protocol> read_protocol(std::string_view text, const std::string& file);
Outcome<Protocol> read_protocol_file(const std::string& path);

std::string_view name_of(When);
std::string_view name_of(Grade);
std::string_view name_of(Level);
std::string_view name_of(ActKind);

enum class BaselineClass : std::uint8_t { normal, fast, slow };
// Exact at the limits: see Limit.
BaselineClass classify(const Protocol&, sim::Bpm);
// Alert column of a protocol that has one; false when it has none.
bool alerts(const Protocol&, sim::Bpm);
// Exact at the limit, for a mean over the time counted.
bool too_many_contractions(const Protocol&, double per_10min);
// Alert column for contractions; false when the protocol has none.
bool alerts_at_contractions(const Protocol&, double per_10min);
bool alerts_at_contraction_length(const Protocol&, sim::Seconds);

enum class OwnPulse : std::uint8_t { usual, slow, fast };
// Her own pulse at rest. Exact at the limits.
OwnPulse classify_own_pulse(const Protocol&, sim::Bpm);

}  // namespace engine
