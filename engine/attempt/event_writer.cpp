// One event on one line, by the table.
#include "engine/attempt/event_rows.h"
#include "engine/attempt/event_table.h"

namespace engine {

std::string to_json(const Event& event) {
    const DoWord& word = do_word(event.what);
    std::string s = "{\"t\": " + decimal(event.t.us, 6) + ", \"do\": \"" + std::string(word.name) + "\"";
    for (const EventField& f : word.fields) {
        const bool is_text = f.kind == EventFieldKind::text || f.kind == EventFieldKind::act_id;
        if (is_text ? (event.*f.text).empty() && !f.required : !f.has(event)) continue;
        s += ", \"" + std::string(f.key) + "\": ";
        if (is_text)
            s += quoted(event.*f.text);
        else if (f.kind == EventFieldKind::number)
            s += decimal(f.get(event), f.decimals);
        else if (f.kind == EventFieldKind::flag)
            s += f.get(event) != 0 ? "true" : "false";
        else
            s += "\"" + std::string(f.words[static_cast<std::size_t>(f.get(event))]) + "\"";
    }
    return s + "}";
}

}  // namespace engine
