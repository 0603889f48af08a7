// The words of files for every choice inside an event, in the order of their enums. One list each: the
// reader, the writer, the refusals and the format page all take them from here.
#pragma once

#include <array>
#include <string_view>

namespace engine::words {

using std::string_view;

inline constexpr std::array<string_view, 5> instrument{"none", "horn", "bell", "diaphragm", "doppler"};
inline constexpr std::array<string_view, 2> hand{"left", "right"};
inline constexpr std::array<string_view, 4> on{"none", "wrist", "belly", "instrument"};
inline constexpr std::array<string_view, 8> position{
    "flat",    "half_sitting", "left_side",       "right_side",
    "sitting", "standing",     "hands_and_knees", "knees_and_chest"};
inline constexpr std::array<string_view, 6> source{"not_said", "baby",      "mother",
                                                   "doubtful", "not_found", "two_babies"};
inline constexpr std::array<string_view, 6> baseline{"not_said", "normal", "fast",
                                                     "slow",     "rising", "not_checked"};
inline constexpr std::array<string_view, 6> around{
    "not_said", "no_slowing", "slows_in_contraction", "slow_after_contraction", "stays_down", "not_listened"};
inline constexpr std::array<string_view, 3> rhythm{"not_said", "regular", "irregular"};
inline constexpr std::array<string_view, 4> to_pulse{"same", "about_twice", "less", "more"};
inline constexpr std::array<string_view, 2> edge{"start", "end"};
inline constexpr std::array<string_view, 3> strength{"soft", "medium", "strong"};
inline constexpr std::array<string_view, 2> rests{"soft", "stays_hard"};
inline constexpr std::array<string_view, 3> when{"between", "during", "after"};
inline constexpr std::array<string_view, 3> slowing{"yes", "no", "not_listened"};
// One word for a whole decision: each fills one part. Never written, only read.
inline constexpr std::array<string_view, 13> one_word{"normal",
                                                      "fast",
                                                      "slow",
                                                      "rising",
                                                      "mother",
                                                      "doubtful",
                                                      "not_found",
                                                      "two_babies",
                                                      "no_slowing",
                                                      "slows_in_contraction",
                                                      "slow_after_contraction",
                                                      "stays_down",
                                                      "irregular"};

}  // namespace engine::words
