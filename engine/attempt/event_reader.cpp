// Reads events from JSON and writes one back, by the table. The JSON parser is the library's; it is driven through
// its event interface, because its own tree takes a doubled key silently and forgets the lines.
#include "engine/attempt/event.h"
#include "engine/attempt/event_table.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <iterator>

namespace engine {

namespace {

using std::int64_t;
using std::string_view;

// Characters of the text, counting the lines as they are read.
struct CountedChars {
    using iterator_category = std::input_iterator_tag;
    using value_type = char;
    using difference_type = std::ptrdiff_t;
    using pointer = const char*;
    using reference = const char&;

    const char* at = nullptr;
    int* line = nullptr;

    reference operator*() const { return *at; }
    CountedChars& operator++() {
        if (*at == '\n' && line != nullptr) ++*line;
        ++at;
        return *this;
    }
    CountedChars operator++(int) {
        CountedChars before = *this;
        ++*this;
        return before;
    }
    bool operator==(const CountedChars& other) const { return at == other.at; }
    bool operator!=(const CountedChars& other) const { return at != other.at; }
};

// One value as it stands in the file.
struct Value {
    enum class Kind { number, flag, text, other };
    Kind kind = Kind::other;
    std::string text;   // a text; for the others as written
    double number = 0;
    bool flag = false;
    std::string key{};
    int line = 0;
};

struct Row {
    int line = 0;
    bool is_object = true;
    std::string found;
    std::vector<Value> values;
};

// Collects the rows of the events array: the outermost array, or the array under the outermost key `events`.
class Collector : public nlohmann::json_sax<nlohmann::json> {
public:
    Collector(const int& line, const std::string& file) : line_(line), file_(file) {}

    bool null() override { return value({Value::Kind::other, "null"}); }
    bool boolean(bool b) override {
        return value({Value::Kind::flag, b ? "true" : "false", 0, b});
    }
    bool number_integer(number_integer_t n) override {
        return value({Value::Kind::number, std::to_string(n), static_cast<double>(n)});
    }
    bool number_unsigned(number_unsigned_t n) override {
        return value({Value::Kind::number, std::to_string(n), static_cast<double>(n)});
    }
    bool number_float(number_float_t n, const string_t& written) override {
        return value({Value::Kind::number, written, n});
    }
    bool string(string_t& s) override { return value({Value::Kind::text, s}); }
    bool binary(binary_t&) override { return false; }

    bool start_object(std::size_t) override {
        if (depth_ == 0) whole_attempt_ = true;
        if (array_depth_ > 0 && depth_ == array_depth_) {
            rows.push_back({});
            rows.back().line = line_;
        } else if (array_depth_ > 0 && depth_ > array_depth_) {
            if (depth_ == array_depth_ + 1) value({Value::Kind::other, "an object"});
        } else if (depth_ == 1 && whole_attempt_ && key_ == "events") {
            fault("events", "an object", "an array of events");
        }
        ++depth_;
        return true;
    }
    bool end_object() override { return end(); }
    bool start_array(std::size_t) override {
        const bool here = depth_ == 0 || (depth_ == 1 && whole_attempt_ && key_ == "events");
        if (array_depth_ == 0 && !closed_ && here) array_depth_ = depth_ + 1;
        else if (closed_ && here) fault("events", "twice", "once");
        else if (array_depth_ > 0 && depth_ <= array_depth_ + 1)
            value({Value::Kind::other, "an array"});
        ++depth_;
        return true;
    }
    bool end_array() override { return end(); }
    bool key(string_t& k) override {
        key_ = k;
        key_line_ = line_;
        return true;
    }
    bool parse_error(std::size_t, const std::string&, const nlohmann::detail::exception& e) override {
        // The library's own text names the place by line and column and what it expected.
        std::string what = e.what();
        const std::size_t from = what.find("] ");
        if (from != std::string::npos) what.erase(0, from + 2);
        faults.push_back({file_, line_, "not JSON: " + what, "", ""});
        return false;
    }

    bool found_array() const { return closed_ || array_depth_ > 0; }
    std::vector<Row> rows;
    std::vector<Fault> faults;

private:
    bool value(Value v) {
        if (array_depth_ > 0 && depth_ == array_depth_) {
            Row row;
            row.line = line_;
            row.is_object = false;
            row.found = v.text;
            rows.push_back(std::move(row));
        } else if (array_depth_ > 0 && depth_ == array_depth_ + 1) {
            v.key = key_;
            v.line = key_line_;
            rows.back().values.push_back(std::move(v));
        } else if (depth_ == 1 && whole_attempt_ && key_ == "events") {
            fault("events", v.text, "an array of events");
        }
        return true;
    }
    bool end() {
        --depth_;
        if (array_depth_ > 0 && depth_ < array_depth_) {
            array_depth_ = 0;
            closed_ = true;
        }
        return true;
    }
    void fault(std::string what, std::string found, std::string may) {
        faults.push_back({file_, line_, std::move(what), std::move(found), std::move(may)});
    }

    const int& line_;
    const std::string& file_;
    int depth_ = 0, array_depth_ = 0, key_line_ = 0;
    bool whole_attempt_ = false, closed_ = false;
    std::string key_;
};

class RowReader {
public:
    RowReader(const std::string& file, std::vector<Fault>& faults) : file_(file), faults_(faults) {}

    Event read(std::size_t index, const Row& row) {
        index_ = index;
        line_ = row.line;
        Event event;
        if (!row.is_object) {
            fault("", row.line, row.found, "an object with `t` and `do`");
            return event;
        }
        doubled(row);
        time(row, event);
        const Value* name = find(row, "do");
        std::optional<Do> what;
        if (name == nullptr) fault("do", row.line, "nothing", do_list());
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
                                        [&](const Field& each) { return each.key == v.key; });
            if (f == word.fields.end()) fault(v.key, v.line, "an unknown key of `" + std::string(word.name) + "`", keys(word));
            else {
                any = true;
                take(*f, v, event);
            }
        }
        for (const Field& f : word.fields)
            if (f.required && find(row, f.key) == nullptr) fault(f.key, row.line, "nothing", allowed(f));
        if (word.one_needed && !any) fault("", row.line, "nothing said", "at least one of: " + keys(word));
        if (word.what == Do::decide && find(row, "what") != nullptr && row.values.size() > 3)
            for (const Value& v : row.values)
                if (v.key != "t" && v.key != "do" && v.key != "what" && v.key != "unsure") {
                    fault("what", v.line, "beside `" + v.key + "`", "either one word or the parts");
                    break;
                }
    }

    void take(const Field& f, const Value& v, Event& event) {
        switch (f.kind) {
            case FieldKind::number:
                if (const auto n = steps(f, v)) f.set(event, *n);
                return;
            case FieldKind::flag:
                if (v.kind == Value::Kind::flag) f.set(event, v.flag ? 1 : 0);
                else fault(f.key, v.line, v.text, allowed(f));
                return;
            case FieldKind::word: {
                const auto from = f.words.begin() + static_cast<std::ptrdiff_t>(f.words_from);
                const auto w = std::find(from, f.words.end(), v.text);
                if (v.kind == Value::Kind::text && w != f.words.end()) f.set(event, w - f.words.begin());
                else fault(f.key, v.line, v.text, allowed(f));
                return;
            }
            case FieldKind::text:
            case FieldKind::act_id: {
                const bool listed = f.words.empty() || std::find(f.words.begin(), f.words.end(), v.text) != f.words.end();
                const bool id = f.kind != FieldKind::act_id ||
                                (!v.text.empty() && v.text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789_") ==
                                                        std::string::npos);
                if (v.kind == Value::Kind::text && listed && id && static_cast<int64_t>(v.text.size()) <= f.most &&
                    v.text.find('\0') == std::string::npos)
                    event.*f.text = v.text;
                else fault(f.key, v.line, v.text.size() > 60 ? std::to_string(v.text.size()) + " bytes" : v.text, allowed(f));
                return;
            }
        }
    }

    std::optional<int64_t> steps(const Field& f, const Value& v) {
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
        for (const Field& f : word.fields) s += (s.empty() ? "" : ", ") + std::string(f.key);
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
    int line_ = 0;
    int64_t last_us_ = 0;
};

// Quotes as JSON wants them; bytes that are no UTF-8 become the replacement sign, so that what is written can
// always be read again.
std::string quoted(const std::string& s) {
    return nlohmann::json(s).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace

Outcome<std::vector<Event>> read_events(string_view json, const std::string& file) {
    int line = 1;
    Collector collector(line, file);
    const CountedChars from{json.data(), &line}, to{json.data() + json.size(), nullptr};
    const bool parsed = nlohmann::json::sax_parse(from, to, &collector);
    std::vector<Fault> faults = std::move(collector.faults);
    if (!parsed) return faults;
    if (!collector.found_array())
        return Fault{file, 1, "events", "no array", "a JSON array of events, or an attempt with `events`"};
    std::vector<Event> events;
    events.reserve(collector.rows.size());
    RowReader reader(file, faults);
    for (std::size_t i = 0; i < collector.rows.size(); ++i) events.push_back(reader.read(i, collector.rows[i]));
    if (!faults.empty()) return faults;
    return events;
}

std::string to_json(const Event& event) {
    const DoWord& word = do_word(event.what);
    std::string s = "{\"t\": " + decimal(event.t.us, 6) + ", \"do\": \"" + std::string(word.name) + "\"";
    for (const Field& f : word.fields) {
        const bool is_text = f.kind == FieldKind::text || f.kind == FieldKind::act_id;
        if (is_text ? (event.*f.text).empty() && !f.required : !f.has(event)) continue;
        s += ", \"" + std::string(f.key) + "\": ";
        if (is_text) s += quoted(event.*f.text);
        else if (f.kind == FieldKind::number) s += decimal(f.get(event), f.decimals);
        else if (f.kind == FieldKind::flag) s += f.get(event) != 0 ? "true" : "false";
        else s += "\"" + std::string(f.words[static_cast<std::size_t>(f.get(event))]) + "\"";
    }
    return s + "}";
}

}  // namespace engine
