// What a screen may use while it draws one frame: the page, words, controls, pictures, strokes, keys. Sizes
// given in `px(n)` grow with the text size; boxes are in real pixels. Every control takes part in the focus
// order (Tab, Shift-Tab, arrows) in the order in which it is drawn, and shows the focus ring when a key
// brought it. `id` is unique on its screen and stays the same from frame to frame; tests find controls by it.
#pragma once

#include "ui/window/area.h"

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ui {

// The type scale: 24 bold, 18 bold, 16, 16 bold, 13, 22 (numbers typed), 34 (numbers read from a display).
enum class Type : std::uint8_t { title, card, text, strong, note, number, display };
enum class Tone : std::uint8_t { ink, soft, act, attention, fine, on_act };  // colour of words and strokes

// Keys a screen can ask for. Letters and digits are given as characters to `key(char)`.
enum class Key : std::uint8_t {
    enter,
    space,
    escape,
    tab,
    left,
    right,
    up,
    down,
    page_up,
    page_down,
    home,
    end,
    backspace,
    remove,
    plus,
    minus
};

struct ButtonLook {
    const char* key = "";  // small words at the upper right: the key that does the same
    bool main = false;     // filled with the act colour
    bool chosen = false;   // one of several, the one in force
    bool enabled = true;
    const char* note = "";  // small second line
    Align align = Align::centre;
};

// What a pointer does on a place of its own making (belly, strip). Positions in pixels.
struct Touch {
    bool over = false;      // pointer is over it and nothing else has it
    bool pressed = false;   // went down on it in this frame
    bool held = false;      // went down on it and is still down
    bool released = false;  // was held, up in this frame
    float x = 0, y = 0;     // pointer
    float wheel = 0;        // steps, + = away from the person
    bool focused = false;   // has the keyboard
};

class Frame {
public:
    struct Inside;
    explicit Frame(Inside& inside) : inside_(inside) {}

    // --- Sizes and time
    float width() const;  // of the window, pixels
    float height() const;
    float scale() const;  // text size, 1.0..2.0
    float px(float at_100_percent) const { return at_100_percent * scale(); }
    // Too little room for parts beside each other at this text size: less than 840x530 at 100 %.
    bool narrow() const { return width() < px(840) || height() < px(530); }
    double now_s() const;  // steady clock; only for what moves on screen

    // --- The page: plain ground and cards, drawn once and kept until the cards change. Call first.
    void page(std::span<const Area> cards);

    // --- Words. Wrapped at the box's width; gives the height used. Never cut off without a sign: what does
    // not fit
    // in one line with `one_line` ends in "...".
    float words_in(Area at, std::string_view says, Type type = Type::text, Tone tone = Tone::ink,
                   Align align = Align::left);
    void one_line(Area at, std::string_view says, Type type = Type::text, Tone tone = Tone::ink,
                  Align align = Align::left);  // in the middle of the box's height
    float height_of(std::string_view says, Type type, float width) const;
    float width_of(std::string_view says, Type type) const;
    float line_height(Type type) const;

    // --- Controls: true in the frame in which they are used.
    bool button(std::string_view id, Area at, std::string_view says, const ButtonLook& look = {});
    // One of several side by side (or below each other with `columns` = 1); gives the one chosen now, if any.
    std::optional<int> choice(std::string_view id, Area at, std::span<const std::string> says, int chosen,
                              int columns = 0, bool enabled = true);
    bool tick(std::string_view id, Area at, std::string_view says, bool& on);
    // Digits only, typed large; true when it changed. `after` stands at the right inside ("a minute").
    bool number_field(std::string_view id, Area at, std::string& digits, std::string_view after = "",
                      int most_digits = 3);
    bool text_field(std::string_view id, Area at, std::string& text, std::string_view hint = "",
                    std::size_t most_bytes = 24, bool many_lines = false);
    // A press here is of `id`, drawn later, and not of what is drawn below it before that.
    void claim(std::string_view id, Area at);
    // A place of the screen's own, with focus when `takes_keyboard`.
    Touch touch(std::string_view id, Area at, bool takes_keyboard = true);
    // A part that scrolls when `content_height` is more than the box; `draw` gets the box moved by the
    // scroll. A control inside that a key gives the keyboard to is brought into view.
    void scroll(std::string_view id, Area at, float content_height, const std::function<void(Area)>& draw);
    // Controls drawn from now on are seen but do not answer (something lies over them).
    void inert(bool on);
    // Words and strokes from now on lie over everything drawn so far, fields being typed into too.
    void above(bool on);

    // The control the pointer went down on and still holds (also in the frame in which it is let go); empty =
    // none.
    std::string held() const;
    float pointer_x() const;
    float pointer_y() const;
    bool let_go() const;  // the button came up in this frame

    // --- Keys pressed in this frame and not taken by a text field.
    bool key(Key key) const;
    bool key(char letter_or_digit) const;  // lower case
    bool shift() const;
    bool ctrl() const;
    // True when a text field is being typed into.
    bool typing() const;
    void focus_on(std::string_view id);  // from the next frame on, with its ring
    void focus_nothing();
    std::string focused() const;

    // --- Pictures: `draw` gets a canvas whose origin is the area's top left, only when `key` or the size is
    // new.
    // Opaque ones are far cheaper; `behind` 0xRRGGBB is their ground. With alpha: small ones only.
    void picture(std::string_view key, Area at, const std::function<void(Canvas&)>& draw,
                 std::uint32_t behind = 0xFFFDF8);
    void sprite(std::string_view key, Area at, const std::function<void(Canvas&)>& draw);

    // --- A few strokes for what moves. Colours 0xRRGGBB.
    void line(float x0, float y0, float x1, float y1, std::uint32_t colour, float thick = 1);
    void dashes(std::span<const float> xy, std::uint32_t colour, float thick = 1);  // x0 y0 x1 y1 ...
    void circle(float x, float y, float r, std::uint32_t colour, float thick = 1);
    void disc(float x, float y, float r, std::uint32_t colour);
    void fill(Area at, std::uint32_t colour, float round = 0);
    void outline(Area at, std::uint32_t colour, float round = 0, float thick = 1);
    void triangle(float x0, float y0, float x1, float y1, float x2, float y2, std::uint32_t colour);

    std::uint32_t colour_of(Tone tone) const;

    // Nothing changed on screen would be lost if the next frame came at once: ask for one.
    void again();

private:
    Inside& inside_;
};

// The palette as the strokes take it, 0xRRGGBB.
namespace colour {
constexpr std::uint32_t rgb(Colour c) {
    return std::uint32_t{c.red} << 16 | std::uint32_t{c.green} << 8 | std::uint32_t{c.blue};
}
inline constexpr std::uint32_t page = rgb(light_palette.page), card = rgb(light_palette.card),
                               rule = rgb(light_palette.rule), ink = rgb(light_palette.ink),
                               soft = rgb(light_palette.soft_ink), act = rgb(light_palette.act),
                               on_act = rgb(light_palette.on_act), chosen = rgb(light_palette.chosen),
                               attention = rgb(light_palette.attention), fine = rgb(light_palette.fine),
                               field = rgb(light_palette.field);
}  // namespace colour

}  // namespace ui
