// The one table of `do` words: which keys each has, of what kind, in what range, and which member of Event
// holds it. Reader, writer, refusals, help and the format page are loops over it.
#pragma once

#include "engine/attempt/event.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>

namespace engine {

enum class EventFieldKind : std::uint8_t { number, flag, word, text, act_id };

// One key of one `do` word. Numbers are kept as whole steps (decimals = 2: hundredths), flags as 0 or 1,
// words as their place in the list; texts as they are.
struct EventField {
    std::string_view key;
    EventFieldKind kind = EventFieldKind::number;
    bool required = false;
    int decimals = 0;                           // number: step is 10^-decimals
    std::int64_t least = 0, most = 0;           // number: in steps. text: longest, in bytes
    std::span<const std::int64_t> only{};       // number: when not empty, one of these (in steps)
    std::span<const std::string_view> words{};  // word; or a text that must be one of these
    std::size_t words_from = 0;                 // the first word a file may write
    std::string_view unit, means;
    bool (*has)(const Event&) = nullptr;  // is it written?
    std::int64_t (*get)(const Event&) = nullptr;
    void (*set)(Event&, std::int64_t) = nullptr;
    std::string Event::*text = nullptr;
};

struct DoWord {
    Do what = Do::finish;
    std::string_view name, means;
    std::span<const EventField> fields{};
    bool one_needed = false;  // no key is required, but one of them must be there
};

// In the order of the enum.
std::span<const DoWord> do_words();
const DoWord& do_word(Do what);
// The key `t`, which every event has: microseconds.
const EventField& time_field();

// Whole steps as the shortest decimal: 250000 with 6 decimals is "0.25".
std::string decimal(std::int64_t steps, int decimals);
// The nearest whole step; `value` within +-9e9.
std::int64_t nearest_step(double value, int decimals);

// "-16 to 16, steps of 0.01", "horn, bell, ...", "true or false": what a file may write.
std::string allowed(const EventField&);
// Every `do` word with its keys, for the terminal and for the format page (a Markdown table).
std::string events_help();
std::string events_table_markdown();

}  // namespace engine
