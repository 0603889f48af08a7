// The library's JSON parser, driven through its event interface: its own tree takes a doubled key silently
// and forgets the lines.
#include "engine/attempt/event_rows.h"

#include <nlohmann/json.hpp>

#include <iterator>

namespace engine {

namespace {

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

// Collects the rows of the events array: the outermost array, or the array under the outermost key `events`.
class Collector : public nlohmann::json_sax<nlohmann::json> {
public:
    Collector(const int& line, const std::string& file) : line_(line), file_(file) {}

    bool null() override { return value({Value::Kind::other, "null"}); }
    bool boolean(bool b) override { return value({Value::Kind::flag, b ? "true" : "false", 0, b}); }
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
        if (array_depth_ == 0 && !closed_ && here)
            array_depth_ = depth_ + 1;
        else if (closed_ && here)
            fault("events", "twice", "once");
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

}  // namespace

Rows read_rows(std::string_view json, const std::string& file, bool count_lines) {
    int line = 1;
    Collector collector(line, file);
    const char* const from = json.data();
    const char* const to = from + json.size();
    const bool parsed = count_lines ? nlohmann::json::sax_parse(CountedChars{from, &line},
                                                                CountedChars{to, nullptr}, &collector)
                                    : nlohmann::json::sax_parse(from, to, &collector);
    return {parsed, collector.found_array(), std::move(collector.rows), std::move(collector.faults)};
}

std::string quoted(const std::string& text) {
    return nlohmann::json(text).dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

}  // namespace engine
