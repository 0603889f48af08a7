#include "engine/scoring/acts_again.h"

#include "engine/scoring/listening_due.h"
#include "engine/scoring/pulse_due.h"
#include "engine/scoring/which_count.h"

#include <fmt/core.h>

#include <algorithm>

namespace engine {

namespace {

constexpr int far_too_seldom = 3;                        // listenings left out in one stretch [practice]
constexpr std::int64_t same_listening_us = 120'000'000;  // her pulse felt this soon after placing [practice]

std::string joined_sources(const std::vector<std::string>& sources) {
    std::string all;
    for (const std::string& s : sources) all += (all.empty() ? "" : ", ") + s;
    return all;
}

// Marks of the files as words: "NICE 2022 (MEM)" is told as "NICE 2022, from memory".
std::string told_sources(const std::vector<std::string>& sources) {
    std::string all;
    for (std::string s : sources) {
        if (s == "MEM") s = "from memory";
        if (s == "COP") s = "older community practice";
        if (s == "CP") s = "common practice";
        if (const std::size_t mark = s.find(" (MEM)"); mark != std::string::npos)
            s.replace(mark, 6, ", from memory");
        all += (all.empty() ? "" : "; ") + s;
    }
    return all;
}

const ListeningGap* longest(const std::vector<ListeningGap>& gaps) {
    const ListeningGap* found = nullptr;
    for (const ListeningGap& g : gaps)
        if (!found || g.to.us - std::max<std::int64_t>(0, g.from.us) >
                          found->to.us - std::max<std::int64_t>(0, found->from.us))
            found = &g;
    return found;
}

std::string minutes_between(sim::LabourTime a, sim::LabourTime b) {
    return fmt::format("{:.0f} min", (b.seconds() - a.seconds()) / 60);
}

// Since when nobody had listened, and when again.
std::string stretch(const ListeningGap& g, bool ever_listened) {
    const std::string again =
        g.again ? "listened again at " + clock_time(g.again->seconds()) : "did not listen again";
    if (g.from.us > 0)
        return fmt::format("you listened until {} and {}{}", clock_time(g.from.seconds()),
                           g.again ? again : again + " until " + clock_time(g.to.seconds()),
                           ", " + minutes_between(g.from, g.to) + (g.again ? " later" : " in all"));
    const std::string before = g.from.us < 0
                                   ? fmt::format("the last listening on her chart was {} before you came",
                                                 minutes_between(g.from, {0}))
                                   : std::string("nothing had been listened to before");
    if (!g.again) return before + ", and you did not listen" + (ever_listened ? " long enough" : "");
    return fmt::format("{}, and you first listened at {}", before, clock_time(g.again->seconds()));
}

NotAgain listening_again(const Evidence& e, const std::vector<ListeningGap>& gaps) {
    const ListeningRule& rule = e.protocol.rule_for(e.scenario.labour.stage);
    const ListeningGap& g = *longest(gaps);
    NotAgain late;
    late.act.act = "listen_when_due";
    late.act.verdict = g.again ? "late" : "not_done";
    late.act.known_from_s = g.due.seconds();
    late.act.done_s = g.again ? g.again->seconds() : -1;
    late.act.source = joined_sources(rule.sources);
    late.verdict = g.left_out >= far_too_seldom ? Verdict::missed : Verdict::partly;
    const std::string source = told_sources(rule.sources);
    late.why = fmt::format("{}: {}; in {} this protocol asks for it {}{}.",
                           gaps.size() == 1
                               ? "Too long without listening"
                               : fmt::format("{} times too long without listening, the longest", gaps.size()),
                           stretch(g, !e.played.spells.empty()), in_words(e.scenario.labour.stage),
                           every_in_words(rule), source.empty() ? "" : " (" + source + ")");
    return late;
}

NotAgain pulse_again(const Evidence& e, const PulseOverdue& overdue) {
    NotAgain late;
    late.act.act = "feel_pulse";
    late.act.verdict = overdue.felt ? "late" : "not_done";
    late.act.known_from_s = overdue.due.seconds();
    late.act.done_s = overdue.felt ? overdue.felt->seconds() : -1;
    if (const ActWords* words = e.protocol.act("feel_pulse"))
        late.act.source = joined_sources(words->sources);
    return late;
}

}  // namespace

std::vector<NotAgain> not_done_again(const Evidence& e) {
    std::vector<NotAgain> all;
    std::vector<ListeningGap> gaps;
    // else that is the fault
    if (e.listened_at_all()) gaps = listening_gaps(e.scenario, e.protocol, e.played);
    if (!gaps.empty()) all.push_back(listening_again(e, gaps));
    if (const auto overdue = pulse_overdue(e.scenario, e.protocol, e.played)) {
        const bool with_listening =
            overdue->felt && std::any_of(gaps.begin(), gaps.end(), [&](const ListeningGap& g) {
                return g.again && g.from <= overdue->due && overdue->due <= g.to &&
                       overdue->felt->us <= g.again->us + same_listening_us;
            });
        if (!with_listening) all.push_back(pulse_again(e, *overdue));
    }
    for (NotAgain& one : all) {
        one.act.situation = "always";
        one.act.situations = {"always"};
    }
    return all;
}

std::string left_unheard(const Evidence& e) {
    const SkipRule skips(e.scenario, e.protocol);
    const std::int64_t length = sim::labour_time(e.scenario.length).us;
    if (e.scenario.task != Task::labour || !e.played.finished || e.played.spells.empty() ||
        skips.every.us <= 0 || e.picture.level != Level::green)
        return "";
    const std::int64_t due = e.played.spells.back().to.us + skips.every.us;
    if (due <= e.played.end.us || due >= length) return "";
    return fmt::format("You ended at {}; this labour goes on to {}, and the next listening was due by {}.",
                       clock_time(e.played.end.seconds()), clock_time(e.scenario.length.value),
                       clock_time(sim::LabourTime{due}.seconds()));
}

std::optional<NextTime> come_back_in_time(const Evidence& e) {
    if (!e.listened_at_all()) return std::nullopt;
    const std::vector<ListeningGap> gaps = listening_gaps(e.scenario, e.protocol, e.played);
    if (gaps.empty()) return std::nullopt;
    const ListeningGap& g = *longest(gaps);
    return NextTime{fmt::format("Be back in time, {} in {}: from {} on the next listening was due.",
                                every_in_words(e.protocol.rule_for(e.scenario.labour.stage)),
                                in_words(e.scenario.labour.stage), clock_time(g.due.seconds())),
                    g.due.seconds()};
}

}  // namespace engine
