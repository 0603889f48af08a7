#include "engine/scoring/acts_that_hold.h"

#include "engine/scoring/trouble_began.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace engine {

namespace {

// ended this shortly before: the count that showed it [practice]
constexpr std::int64_t shown_by_us = 60'000'000;
constexpr double looked_at_holds_s = 600;  // where the rule has no time of its own [practice]

template <std::size_t n>
bool among(const std::array<std::string_view, n>& list, std::string_view word) {
    return std::find(list.begin(), list.end(), word) != list.end();
}

// Once done it goes on by itself, until one of these undoes it [practice].
struct GoesOn {
    std::string_view act;
    std::array<std::string_view, 3> until;
};
constexpr std::array<GoesOn, 15> goes_on = {{
    {"knees_chest_hips_up", {"off_her_back", "lay_flat", "upright_to_push"}},
    {"upright_to_push", {"off_her_back", "lay_flat", "knees_chest_hips_up"}},
    {"lift_the_part", {"push_cord_back", "", ""}},
    {"stop_oxytocin", {"raise_oxytocin", "", ""}},
    {"pause_pushing", {"push_with_contractions", "", ""}},
    {"push_with_contractions", {"pause_pushing", "", ""}},
    {"listen_more_often", {"continue_routine", "", ""}},
    {"prepare_newborn_help", {"", "", ""}},
    {"start_drip", {"", "", ""}},
    {"give_oxygen", {"", "", ""}},
    {"cool_her", {"", "", ""}},
    {"offer_drink", {"", "", ""}},
    {"give_antibiotics_by_protocol", {"", "", ""}},
    {"hold_and_ask_prescriber", {"", "", ""}},
    {"slow_contractions_medicine", {"", "", ""}},
}};

// What was read or asked a few minutes ago need not be read again. A look for cord or blood, and an
// examination, tell of that moment alone.
constexpr std::array<std::string_view, 5> looked_at = {
    "take_temperature", "take_blood_pressure", "check_waters", "ask_what_was_given", "count_contractions"};

// Who was called, and what is on its way: for a trouble of this birth it need not be asked for twice.
constexpr std::array<std::string_view, 8> on_the_way = {
    "call_for_help", "inform_senior",       "start_plan",      "arrange_transfer",
    "go_with_her",   "get_scan_or_monitor", "second_listener", "write_referral_note"};
constexpr std::array<std::string_view, 17> of_this_birth = {"fast",
                                                            "slow",
                                                            "slow_steady",
                                                            "slow_after_contraction",
                                                            "stays_down",
                                                            "cord_prolapse",
                                                            "too_many_contractions",
                                                            "fever",
                                                            "bleeding",
                                                            "lying_flat",
                                                            "close_to_birth",
                                                            "not_close_to_birth",
                                                            "irregular",
                                                            "rising",
                                                            "scar_gives_way",
                                                            "mother_collapses",
                                                            "thick_green_waters"};

bool undone(const Evidence& e, const GoesOn& row, sim::LabourTime after, sim::LabourTime until) {
    return std::any_of(e.played.acts.begin(), e.played.acts.end(), [&](const TimedAct& a) {
        return a.at > after && a.at <= until && among(row.until, a.id);
    });
}

bool changed_since(const Evidence& e, std::string_view act, sim::LabourTime after, sim::LabourTime until) {
    return std::any_of(e.scenario.findings.begin(), e.scenario.findings.end(), [&](const Finding& f) {
        const sim::LabourTime from = sim::labour_time(f.from);
        return f.act == act && from > after && from <= until;
    });
}

bool still_holds(const Evidence& e, const Bound& b, std::string_view act, const Evidence::Doing& doing,
                 sim::LabourTime from) {
    if (act == "off_her_back") return !flat_at(e.played, from);
    for (const GoesOn& row : goes_on)
        if (row.act == act) return !undone(e, row, doing.at, from);
    if (!among(looked_at, act)) return false;
    const double within = b.rule->within.value > 0 ? b.rule->within.value : looked_at_holds_s;
    return doing.at.us + sim::labour_time(sim::Seconds{within}).us >= b.from.us &&
           !changed_since(e, act, doing.at, b.from);
}

}  // namespace

sim::LabourTime answerable_from(const Evidence& e, const Bound& b, std::string_view act,
                                const std::vector<Bound>& asked) {
    sim::LabourTime from = answerable_from(e, *b.known);
    if (!among(on_the_way, act) || !among(of_this_birth, b.rule->situation)) return from;
    for (const Bound& other : asked)
        if (among(of_this_birth, other.rule->situation) &&
            std::find(other.acts.begin(), other.acts.end(), act) != other.acts.end())
            from = std::min(from, answerable_from(e, *other.known));
    return from;
}

bool answers(const Evidence& e, const Bound& b, std::string_view act, const Evidence::Doing& doing,
             const std::vector<Bound>& asked) {
    if (b.rule->situation == "always") return true;
    const sim::LabourTime from = answerable_from(e, b, act, asked);
    // A minute counted long before the trouble is no counting again; the one that showed it is.
    if (act == "count_full_minute")
        return b.rule->situation == "normal" || doing.done.us + shown_by_us >= b.from.us;
    if (act == "feel_pulse")
        return doing.until.us - std::max(doing.at, from).us >= sim::labour_time(e.protocol.pulse_felt_for).us;
    if (doing.by == "seen" ? doing.done >= from : doing.at >= from) return true;
    return still_holds(e, b, act, doing, from);
}

}  // namespace engine
