#include "engine/scoring/listening_due.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

constexpr std::int64_t least_grace_us = 90'000'000, settling_in_us = 180'000'000;  // [practice]

// Since when the next listening is no longer this trainee's to make here.
sim::LabourTime asked_until(const Played& played) {
    sim::LabourTime until = played.end;
    for (const Event& e : played.notes)
        if (e.what == Do::handover) until = std::min(until, e.t);
    for (const TimedAct& a : played.acts)
        if (a.id == "assist_birth_now" || a.id == "lift_the_part") until = std::min(until, a.at);
    return until;
}

std::vector<std::pair<sim::LabourTime, sim::LabourTime>> listenings(const Played& played,
                                                                    const ListeningRule& rule) {
    std::vector<std::pair<sim::LabourTime, sim::LabourTime>> all;
    for (const Spell& spell : played.spells)
        if ((spell.to.us - spell.from.us) * 2 >= sim::labour_time(rule.length).us)
            all.emplace_back(spell.from, spell.to);
    return all;
}

}  // namespace

std::vector<ListeningGap> listening_gaps(const Scenario& scenario, const Protocol& protocol,
                                         const Played& played) {
    std::vector<ListeningGap> gaps;
    const SkipRule skips(scenario, protocol);
    if (scenario.task != Task::labour || skips.every.us <= 0) return gaps;
    const auto all = listenings(played, protocol.rule_for(scenario.labour.stage));
    const sim::LabourTime until = asked_until(played);
    const std::int64_t grace = std::max(least_grace_us, skips.every.us / 10);
    sim::LabourTime since{std::min<std::int64_t>(0, skips.listened_before.us)};
    for (std::size_t i = 0; i <= all.size(); ++i) {
        ListeningGap gap;
        gap.from = since;
        gap.due = {std::max(since.us + skips.every.us, settling_in_us)};
        if (i < all.size() && all[i].first < until) gap.again = all[i].first;
        gap.to = gap.again.value_or(until);
        gap.left_out = static_cast<int>(
            std::max<std::int64_t>(1, (gap.to.us - std::max<std::int64_t>(0, since.us)) / skips.every.us));
        if (gap.to.us > gap.due.us + grace) gaps.push_back(gap);
        if (!gap.again) break;
        since = all[i].second;
    }
    return gaps;
}

std::string every_in_words(const ListeningRule& rule) {
    const double least = rule.every_least.value / 60, most = rule.every_most.value / 60;
    if (least == 60 && most == 60) return "every hour";
    return least < most ? fmt::format("every {:g} to {:g} min", least, most)
                        : fmt::format("every {:g} min", most);
}

std::string_view in_words(Stage stage) {
    switch (stage) {
        case Stage::latent: return "the latent stage";
        case Stage::active: return "the active first stage";
        case Stage::second: return "the second stage";
    }
    return "";
}

}  // namespace engine
