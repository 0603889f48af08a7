// The look: palette, type sizes and grid as named constants. Nothing of the screen library here, so that
// paper and screen share it. Every colour of words has at least 4.5:1 against what it stands on; meaning is
// never in the colour alone: a word or a shape stands beside it.
#pragma once

#include <cstdint>

namespace ui {

struct Colour {
    std::uint8_t red = 0, green = 0, blue = 0;
    friend constexpr bool operator==(Colour, Colour) = default;
};

// A part of `over` laid on `under`, share 0..1: what the eye sees where a wash lies on the page.
constexpr Colour blended(Colour over, Colour under, double share) {
    const auto one = [share](std::uint8_t a, std::uint8_t b) {
        return static_cast<std::uint8_t>(static_cast<double>(a) * share +
                                         static_cast<double>(b) * (1.0 - share) + 0.5);
    };
    return {one(over.red, under.red), one(over.green, under.green), one(over.blue, under.blue)};
}

struct Palette {
    Colour page, card, rule;     // behind everything, a card on it, thin lines and edges
    Colour ink, soft_ink;        // words; words of less weight
    Colour act, on_act, chosen;  // buttons that do the next thing, words on them; what is chosen (under ink)
    Colour attention, fine;      // always with a word or a shape
    Colour field;                // where something is typed
    Colour normal_band;          // normal range behind a plot; ink and fine are readable on it
    Colour window_wash;          // the trainee's own window behind a plot; ink and attention readable on it
};

inline constexpr Palette light_palette{.page = {0xF7, 0xF2, 0xE8},
                                       .card = {0xFF, 0xFD, 0xF8},
                                       .rule = {0xD9, 0xD0, 0xBF},
                                       .ink = {0x1F, 0x2A, 0x33},
                                       .soft_ink = {0x5B, 0x66, 0x70},
                                       .act = {0x0B, 0x5C, 0x8A},
                                       .on_act = {0xFF, 0xFF, 0xFF},
                                       .chosen = {0xCF, 0xE3, 0xEE},
                                       .attention = {0xB5, 0x48, 0x0A},
                                       .fine = {0x00, 0x69, 0x4F},
                                       .field = {0xFF, 0xFF, 0xFF},
                                       .normal_band = {0xE6, 0xF2, 0xEA},
                                       .window_wash = {0xFA, 0xEA, 0xDF}};

inline constexpr Palette dark_palette{.page = {0x14, 0x19, 0x1D},
                                      .card = {0x1C, 0x23, 0x28},
                                      .rule = {0x3A, 0x44, 0x4B},
                                      .ink = {0xED, 0xE7, 0xDA},
                                      .soft_ink = {0xA9, 0xB2, 0xB8},
                                      .act = {0x7F, 0xC1, 0xE3},
                                      .on_act = {0x14, 0x19, 0x1D},
                                      .chosen = {0x24, 0x45, 0x57},
                                      .attention = {0xF0, 0xA0, 0x6A},
                                      .fine = {0x6F, 0xD0, 0xB0},
                                      .field = {0x10, 0x15, 0x18},
                                      .normal_band = {0x1D, 0x30, 0x2B},
                                      .window_wash = {0x3A, 0x2B, 0x22}};

// Lengths in pixels (or points on paper) at 100 %; multiply by Theme::scale through px().
struct TypeScale {
    static constexpr double title = 24, card = 18, text = 16, note = 13, number = 22, key = 11;
};
struct Grid {
    static constexpr double step = 8;
    static constexpr double card_round = 10, card_apart = 16, card_inside = 20, page_edge = 24;
    static constexpr double button_round = 8, target_least = 36;  // a target is at least this high
};

struct Theme {
    Palette colour = light_palette;
    double scale = 1.0;  // text size, 1.0 (100 %) to 2.0 (200 %); all type scales together
    constexpr double px(double at_100) const { return at_100 * scale; }
};

}  // namespace ui
