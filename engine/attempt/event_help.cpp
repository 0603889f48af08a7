#include "engine/attempt/event_table.h"

namespace engine {

namespace {

std::string listed(std::span<const std::string_view> words) {
    std::string s;
    for (std::string_view w : words) {
        if (!s.empty()) s += ", ";
        s += w;
    }
    return s;
}

std::string step_of(int decimals) { return decimal(1, decimals); }

}  // namespace

std::string allowed(const EventField& f) {
    if (!f.words.empty()) return listed(f.words.subspan(f.words_from));
    switch (f.kind) {
        case EventFieldKind::number: {
            if (!f.only.empty()) {
                std::string s;
                for (std::int64_t v : f.only) s += (s.empty() ? "" : ", ") + decimal(v, f.decimals);
                return s;
            }
            std::string s = decimal(f.least, f.decimals) + " to " + decimal(f.most, f.decimals);
            s += f.decimals > 0 ? ", rounded to " + step_of(f.decimals) : ", a whole number";
            return s;
        }
        case EventFieldKind::flag: return "true, false";
        case EventFieldKind::word: return {};
        case EventFieldKind::text: return "text of at most " + std::to_string(f.most) + " bytes";
        case EventFieldKind::act_id: return "a-z, 0-9 and _, at most " + std::to_string(f.most);
    }
    return {};
}

std::string events_help() {
    std::string s;
    for (const DoWord& w : do_words()) {
        s += std::string(w.name) + ": " + std::string(w.means) + (w.one_needed ? " (one key at least)" : "") +
             "\n";
        for (const EventField& f : w.fields)
            s += "    " + std::string(f.key) + (f.required ? "" : " (optional)") + ": " +
                 std::string(f.means) + "; " + allowed(f) +
                 (f.unit.empty() ? "" : " (" + std::string(f.unit) + ")") + "\n";
    }
    return s;
}

std::string events_table_markdown() {
    std::string s =
        "| do | key | needed | unit | allowed | meaning |\n| --- | --- | --- | --- | --- | --- |\n";
    const auto row = [&s](std::string_view name, std::string_view key, std::string_view needed,
                          std::string_view unit, std::string_view may, std::string_view means) {
        for (std::string_view cell : {name, key, needed, unit, may, means}) {
            s += cell.empty() ? "|" : "| ";
            s += cell;
            s += " ";
        }
        s += "|\n";
    };
    const EventField& t = time_field();
    row("(every)", "`t`", "yes", t.unit, allowed(t), t.means);
    for (const DoWord& w : do_words()) {
        const std::string name = "`" + std::string(w.name) + "`";
        row(name, "", w.one_needed ? "one at least" : "", "", "", w.means);
        for (const EventField& f : w.fields)
            row("", "`" + std::string(f.key) + "`", f.required ? "yes" : "", f.unit, allowed(f), f.means);
    }
    return s;
}

}  // namespace engine
