#include "ui/window/wrapped_text.h"

#include <algorithm>

namespace ui {
namespace {

constexpr char typed = '\0', for_blank = ' ', put_in = '+';

bool begins_letter(char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }

// The code point at `i`, which is moved behind it; a broken one counts as one byte.
unsigned next_letter(std::string_view s, std::size_t& i) {
    const auto first = static_cast<unsigned char>(s[i++]);
    if (first < 0xC0) return first;
    unsigned letter = first & (first < 0xE0 ? 0x1Fu : first < 0xF0 ? 0x0Fu : 0x07u);
    for (int more = first < 0xE0   ? 1
                    : first < 0xF0 ? 2
                                   : 3;
         more > 0 && i < s.size() && !begins_letter(s[i]); --more)
        letter = letter << 6 | (static_cast<unsigned char>(s[i++]) & 0x3Fu);
    return letter;
}

}  // namespace

WrappedText::WrappedText(std::string text, float width, const WidthOf& width_of) : text_(std::move(text)) {
    constexpr auto none = std::string::npos;
    float line = 0, since_blank = 0;
    std::size_t blank = none;  // the last one of this line, in what is shown
    for (std::size_t i = 0; i < text_.size();) {
        const std::size_t from = i;
        const unsigned letter = next_letter(text_, i);
        if (letter == '\n') {
            line = 0;
            blank = none;
        } else {
            const float w = width_of(letter);
            if (line + w > width && line > 0) {
                if (letter == ' ') {
                    shown_ += '\n';
                    made_ += for_blank;
                    line = 0;
                    blank = none;
                    continue;
                }
                if (blank != none) {
                    shown_[blank] = '\n';
                    made_[blank] = for_blank;
                    line = since_blank;
                } else {
                    shown_ += '\n';
                    made_ += put_in;
                    line = 0;
                }
                blank = none;
            }
            line += w;
            since_blank += w;
            if (letter == ' ') {
                blank = shown_.size();
                since_blank = 0;
            }
        }
        shown_.append(text_, from, i - from);
        made_.append(i - from, typed);
    }
}

std::size_t WrappedText::in_text(std::size_t at_shown) const {
    at_shown = std::min(at_shown, shown_.size());
    return at_shown - static_cast<std::size_t>(std::count(
                          made_.begin(), made_.begin() + static_cast<std::ptrdiff_t>(at_shown), put_in));
}

std::size_t WrappedText::in_shown(std::size_t at_text) const {
    std::size_t at = 0;
    for (std::size_t left = at_text; at < shown_.size() && (left > 0 || made_[at] == put_in); ++at)
        if (made_[at] != put_in) --left;
    return at;
}

std::string WrappedText::between(std::size_t from_shown, std::size_t to_shown) const {
    const std::size_t from = in_text(std::min(from_shown, to_shown)),
                      to = in_text(std::max(from_shown, to_shown));
    return text_.substr(from, to - from);
}

WrappedText::Edited WrappedText::edited(std::string_view now, std::size_t cursor_before,
                                        std::size_t cursor_now, std::size_t most) const {
    // Whatever was done, the cursor now stands right behind it: what follows was there before.
    cursor_now = std::min(cursor_now, now.size());
    std::size_t kept_after = now.size() - cursor_now;
    if (kept_after > shown_.size() ||
        now.substr(cursor_now) != std::string_view(shown_).substr(shown_.size() - kept_after))
        kept_after = 0, cursor_now = now.size();
    const std::size_t after = shown_.size() - kept_after;
    std::size_t before = 0;
    while (before < std::min(cursor_now, after) && now[before] == shown_[before]) ++before;

    std::string head = text_.substr(0, in_text(before)), tail = text_.substr(in_text(after));
    std::string put(now.substr(before, cursor_now - before));
    const bool only_break = put.empty() && after == before + 1 && made_[before] == put_in;
    // A break for the eye cannot be deleted; the letter beside it was meant.
    if (only_break && cursor_now < cursor_before) {
        while (!head.empty() && !begins_letter(head.back())) head.pop_back();
        if (!head.empty()) head.pop_back();
    } else if (only_break && !tail.empty()) {
        std::size_t n = 1;
        while (n < tail.size() && !begins_letter(tail[n])) ++n;
        tail.erase(0, n);
    }
    if (head.size() + put.size() + tail.size() > most) {
        std::size_t room = most - std::min(most, head.size() + tail.size());
        while (room > 0 && room < put.size() && !begins_letter(put[room])) --room;
        put.resize(std::min(room, put.size()));
    }
    Edited made;
    made.cursor = head.size() + put.size();
    made.text = head + put + tail;
    return made;
}

}  // namespace ui
