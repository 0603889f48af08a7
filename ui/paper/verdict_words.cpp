#include "ui/paper/verdict_words.h"

#include "ui/plots/strip.h"

#include <fmt/format.h>

namespace ui {

Said said(engine::Verdict verdict, const Palette& p) {
    using engine::Verdict;
    switch (verdict) {
        case Verdict::met: return {"met", Mark::tick, p.fine};
        case Verdict::partly: return {"partly", Mark::dash, p.act};
        case Verdict::missed: return {"missed", Mark::open_circle, p.attention};
        case Verdict::not_asked: break;
    }
    return {"not asked", Mark::dot, p.soft_ink};
}

Said said_of_act(const std::string& verdict, const Palette& p) {
    if (verdict == "in_time") return {"in time", Mark::tick, p.fine};
    if (verdict == "late") return {"late", Mark::dash, p.act};
    if (verdict == "not_done") return {"not done", Mark::open_circle, p.attention};
    if (verdict == "unsafe") return {"unsafe here", Mark::warning, p.attention};
    if (verdict == "not_needed") return {"not needed", Mark::dot, p.soft_ink};
    if (verdict == "out_of_scope") return {"not yours to do", Mark::dash, p.act};
    if (verdict == "too_soon") return {"too soon to answer it", Mark::dot, p.soft_ink};
    if (verdict == "not_reached") return {"not reached", Mark::dot, p.soft_ink};
    if (verdict == "allowed") return {"fine to do", Mark::dot, p.soft_ink};
    return {verdict, Mark::dot, p.soft_ink};
}

std::string title_of(engine::Aspect aspect) {
    using engine::Aspect;
    switch (aspect) {
        case Aspect::site: return "Site found";
        case Aspect::whose: return "Whose heart";
        case Aspect::window: return "Window";
        case Aspect::count: return "Count";
        case Aspect::arithmetic: return "Arithmetic";
        case Aspect::decision: return "Decision";
        case Aspect::action: return "Action";
        case Aspect::record: return "Record";
        case Aspect::care: break;
    }
    return "Care";
}

void draw_mark(Canvas& canvas, Mark mark, Point m, double size, Colour colour) {
    switch (mark) {
        case Mark::tick: canvas.tick_mark(m, size, colour); return;
        case Mark::dash: canvas.dash_mark(m, size, colour); return;
        case Mark::open_circle: canvas.open_circle_mark(m, size, colour); return;
        case Mark::dot: canvas.disc(m, size * 0.14, colour); return;
        case Mark::warning: break;
    }
    const Point corners[] = {{m.x, m.y - size * 0.46},
                             {m.x + size * 0.5, m.y + size * 0.40},
                             {m.x - size * 0.5, m.y + size * 0.40},
                             {m.x, m.y - size * 0.46}};
    canvas.path(corners, colour, size * 0.12);
    canvas.line({m.x, m.y - size * 0.14}, {m.x, m.y + size * 0.13}, colour, size * 0.12);
    canvas.disc({m.x, m.y + size * 0.26}, size * 0.07, colour);
}

std::string act_words(const engine::Protocol& protocol, const std::string& act) {
    std::string said;
    for (std::size_t from = 0; from <= act.size();) {
        const std::size_t to = std::min(act.find(" or ", from), act.size());
        const std::string id = act.substr(from, to - from);
        const engine::ActWords* known = protocol.act(id);
        if (!said.empty()) said += ", or ";
        said += known != nullptr && !known->words.empty() ? known->words : id;
        from = to + 4;
    }
    return said;
}

std::string act_timing(const engine::ActScore& act) {
    const bool done = act.done_s >= 0;
    const bool expected = act.verdict == "in_time" || act.verdict == "late" || act.verdict == "not_done";
    std::string says = done ? "done at " + minutes_and_seconds(act.done_s) : "";
    // What comes round again by the clock has no limit and no trouble that would show it.
    if (expected && act.situation == "always" && act.within_s <= 0 && act.verdict != "in_time")
        return done ? fmt::format("{}, {} after it was due", says,
                                  minutes_and_seconds(act.done_s - act.known_from_s))
                    : "due from " + minutes_and_seconds(act.known_from_s);
    if (expected && done)
        says += act.done_s >= act.known_from_s
                    ? fmt::format(", {} after your listening could first show it",
                                  minutes_and_seconds(act.done_s - act.known_from_s))
                    : ", before your listening could show it";
    if (expected && !done)
        says = fmt::format("your listening could show it from {}", minutes_and_seconds(act.known_from_s));
    if (expected && act.within_s > 0)
        says += fmt::format("; asked for within {}", minutes_and_seconds(act.within_s));
    return says;
}

std::string what_mattered_most(const engine::ScoreSheet& sheet) {
    std::string says;
    for (const std::string& missed : engine::critical_told_apart(sheet)) {
        const bool own_colon = missed.starts_with("not done: ") || missed.starts_with("too late: ");
        says += (!says.empty() ? "; " : own_colon ? "What mattered most, " : "What mattered most: ") + missed;
    }
    return says;
}

std::string count_title(std::size_t index, std::size_t of) {
    static const char* const names[] = {"first", "second", "third", "fourth", "fifth", "sixth"};
    if (of <= 1) return "Your count, taken apart";
    if (index < 6) return fmt::format("Your {} count, taken apart", names[index]);
    return fmt::format("Your count number {}, taken apart", index + 1);
}

std::string sources_in_words(std::string_view sources) {
    struct MarkWords {
        std::string_view mark, says;
    };
    static constexpr MarkWords marks[] = {{"MEM", "from memory"},
                                          {"CP", "common practice, no source of its own"},
                                          {"COP", "older community practice"}};
    const auto letter = [](char c) {
        return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    };
    std::string says;
    for (std::size_t i = 0; i < sources.size();) {
        std::size_t end = i;
        while (end < sources.size() && letter(sources[end])) ++end;
        if (end == i) {
            says += sources[i++];
            continue;
        }
        const std::string_view word = sources.substr(i, end - i);
        std::string_view put = word;
        for (const MarkWords& m : marks)
            if (m.mark == word) put = m.says;
        says += put;
        i = end;
    }
    return says;
}

}  // namespace ui
