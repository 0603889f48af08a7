// Words of a note broken into lines for the eye alone: the note itself never holds these breaks. A blank at
// the end of a line is shown as the break; a word longer than a line gets breaks put in. Places are bytes;
// text is UTF-8.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

namespace ui {

class WrappedText {
public:
    using WidthOf = std::function<float(unsigned letter)>;  // pixels, of one code point

    WrappedText() = default;
    WrappedText(std::string text, float width, const WidthOf& width_of);

    const std::string& text() const { return text_; }
    const std::string& shown() const { return shown_; }
    // The same place in the other one. Beside a break that was put in: behind it.
    std::size_t in_text(std::size_t at_shown) const;
    std::size_t in_shown(std::size_t at_text) const;
    // The note's own words between two places as shown, for the clipboard.
    std::string between(std::size_t from_shown, std::size_t to_shown) const;

    struct Edited {
        std::string text;
        std::size_t cursor = 0;  // in the text
    };
    // What the note becomes when the lines shown were edited into `now` and the cursor went from one place to
    // another. More than `most` bytes are not taken: what was put in is cut short, at a whole letter.
    Edited edited(std::string_view now, std::size_t cursor_before, std::size_t cursor_now,
                  std::size_t most) const;

private:
    std::string text_, shown_;
    std::string made_;  // beside each byte shown: ' ' a break for a blank, '+' a break put in, 0 as typed
};

}  // namespace ui
