// Rows of JSON into events, by the table.
#include "engine/attempt/event.h"
#include "engine/attempt/event_rows.h"
#include "engine/attempt/event_table.h"

#include <algorithm>
#include <cmath>

namespace engine {

namespace {

using std::int64_t;
using std::string_view;

class RowReader {
public:
    RowReader(const std::string& file, std::vector<Fault>& faults) : file_(file), faults_(faults) {}

    Event read(std::size_t index, const Row& row) {
        index_ = index;
        Event event;
        if (!row.is_object) {
            fault("", row.line, row.found, "an object with `t` and `do`");
            return event;
        }
        doubled(row);
        time(row, event);
        const Value* name = find(row, "do");
        std::optional<Do> what;
        if (name == nullptr)
            fault("do", row.line, "nothing", do_list());
        else if (name->kind != Value::Kind::text || !(what = do_named(name->text)))
            fault("do", name->line, name->text, do_list());
        if (!what) return event;
        event.what = *what;
        fields(row, do_word(*what), event);
        return event;
    }

private:
    static const Value* find(const Row& row, string_view key) {
        for (const Value& v : row.values)
            if (v.key == key) return &v;
        return nullptr;
    }

    void doubled(const Row& row) {
        for (auto v = row.values.begin(); v != row.values.end(); ++v)
            if (std::any_of(row.values.begin(), v, [&](const Value& w) { return w.key == v->key; }))
                fault(v->key, v->line, "twice", "once");
    }

    void time(const Row& row, Event& event) {
        const Value* t = find(row, "t");
        if (t == nullptr) {
            fault("t", row.line, "nothing", allowed(time_field()));
            return;
        }
        const auto us = steps(time_field(), *t);
        if (!us) return;
        if (*us < last_us_) {
            fault("t", t->line, t->text, decimal(last_us_, 6) + " or more, the time of the event before");
            return;
        }
        event.t.us = *us;
        last_us_ = *us;
    }

    void fields(const Row& row, const DoWord& word, Event& event) {
        bool any = false;
        std::vector<string_view> filled;
        for (const Value& v : row.values) {
            if (v.key == "t" || v.key == "do") continue;
            const auto f = std::find_if(word.fields.begin(), word.fields.end(),
                                        [&](const EventField& each) { return each.key == v.key; });
            if (f == word.fields.end())
                fault(v.key, v.line, "an unknown key of `" + std::string(word.name) + "`", keys(word));
            else {
                any = true;
                take(*f, v, event);
            }
        }
        for (const EventField& f : word.fields)
            if (f.required && find(row, f.key) == nullptr) fault(f.key, row.line, "nothing", allowed(f));
        if (word.one_needed && !any) fault("", row.line, "nothing said", "at least one of: " + keys(word));
        if (word.what == Do::decide && find(row, "what") != nullptr && row.values.size() > 3)
            for (const Value& v : row.values)
                if (v.key != "t" && v.key != "do" && v.key != "what" && v.key != "unsure") {
                    fault("what", v.line, "beside `" + v.key + "`", "either one word or the parts");
                    break;
                }
    }

    void take(const EventField& f, const Value& v, Event& event) {
        switch (f.kind) {
            case EventFieldKind::number:
                if (const auto n = steps(f, v)) f.set(event, *n);
                return;
            case EventFieldKind::flag:
                if (v.kind == Value::Kind::flag)
                    f.set(event, v.flag ? 1 : 0);
                else
                    fault(f.key, v.line, v.text, allowed(f));
                return;
            case EventFieldKind::word: {
                const auto from = f.words.begin() + static_cast<std::ptrdiff_t>(f.words_from);
                const auto w = std::find(from, f.words.end(), v.text);
                if (v.kind == Value::Kind::text && w != f.words.end())
                    f.set(event, w - f.words.begin());
                else
                    fault(f.key, v.line, v.text, allowed(f));
                return;
            }
            case EventFieldKind::text:
            case EventFieldKind::act_id: {
                const bool listed =
                    f.words.empty() || std::find(f.words.begin(), f.words.end(), v.text) != f.words.end();
                const bool id =
                    f.kind != EventFieldKind::act_id ||
                    (!v.text.empty() &&
                     v.text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") == std::string::npos);
                if (v.kind == Value::Kind::text && listed && id &&
                    static_cast<int64_t>(v.text.size()) <= f.most && v.text.find('\0') == std::string::npos)
                    event.*f.text = v.text;
                else
                    fault(f.key, v.line,
                          v.text.size() > 60 ? std::to_string(v.text.size()) + " bytes" : v.text, allowed(f));
                return;
            }
        }
    }

    std::optional<int64_t> steps(const EventField& f, const Value& v) {
        if (v.kind == Value::Kind::number && std::fabs(v.number) < 1e8) {
            const int64_t n = nearest_step(v.number, f.decimals);
            const bool whole = f.decimals > 0 || std::floor(v.number) == v.number;
            const bool listed = f.only.empty() || std::find(f.only.begin(), f.only.end(), n) != f.only.end();
            if (whole && listed && n >= f.least && n <= f.most) return n;
        }
        fault(f.key, v.line, v.kind == Value::Kind::text ? "\"" + v.text + "\"" : v.text, allowed(f));
        return std::nullopt;
    }

    void fault(string_view key, int line, std::string found, std::string may) {
        std::string what = "events[" + std::to_string(index_) + "]";
        if (!key.empty()) what += "." + std::string(key);
        faults_.push_back({file_, line, std::move(what), std::move(found), std::move(may)});
    }

    static std::string keys(const DoWord& word) {
        std::string s;
        for (const EventField& f : word.fields) s += (s.empty() ? "" : ", ") + std::string(f.key);
        return s.empty() ? "no key beside t and do" : s;
    }
    static std::string do_list() {
        std::string s;
        for (const DoWord& w : do_words()) s += (s.empty() ? "" : ", ") + std::string(w.name);
        return s;
    }

    const std::string& file_;
    std::vector<Fault>& faults_;
    std::size_t index_ = 0;
    int64_t last_us_ = 0;
};

Outcome<std::vector<Event>> read_once(string_view json, const std::string& file, bool count_lines) {
    Rows rows = read_rows(json, file, count_lines);
    std::vector<Fault> faults = std::move(rows.faults);
    if (!rows.parsed) return faults;
    if (faults.empty() && !rows.found_array)
        return Fault{file, 1, "events", "no array", "a JSON array of events, or an attempt with `events`"};
    std::vector<Event> events;
    events.reserve(rows.rows.size());
    RowReader reader(file, faults);
    for (std::size_t i = 0; i < rows.rows.size(); ++i) events.push_back(reader.read(i, rows.rows[i]));
    if (!faults.empty()) return faults;
    return events;
}

}  // namespace

Outcome<std::vector<Event>> read_events(string_view json, const std::string& file) {
    // Counting lines doubles the time of a good file; a faulty one is read again for them.
    auto events = read_once(json, file, false);
    if (events.ok()) return events;
    return read_once(json, file, true);
}

}  // namespace engine
