// How a verdict is said and marked: always a word and a shape beside the colour. Shared by page and screen.
#pragma once

#include "engine/scoring/score_sheet.h"
#include "ui/canvas/canvas.h"

#include <string>
#include <string_view>

namespace ui {

enum class Mark { tick, dash, open_circle, dot, warning };

struct Said {
    std::string says;
    Mark mark = Mark::dot;
    Colour colour;
};

Said said(engine::Verdict verdict, const Palette& palette);
// in_time, late, not_done, unsafe, not_needed, out_of_scope, allowed; anything else as written, with a dot.
Said said_of_act(const std::string& verdict, const Palette& palette);
std::string title_of(engine::Aspect aspect);
void draw_mark(Canvas& canvas, Mark mark, Point centre, double size, Colour colour);

// An act, or an any-of group ("a or b"), in the protocol's words.
std::string act_words(const engine::Protocol& protocol, const std::string& act);
// Sources as a protocol marks them, said in words: "CP" is "common practice, no source of its own", "(MEM)"
// is "(from memory)", "COP" "older community practice".
std::string sources_in_words(std::string_view sources);
// When it was done against what was allowed: "done at 6:10, 1:20 after it could first be heard; allowed:
// 5:00".
std::string act_timing(const engine::ActScore& act);
// "What mattered most: ...", everything critical that was missed, in the judgement's own words, but the
// unsafe acts, which the advice names; empty without any.
std::string what_mattered_most(const engine::ScoreSheet& sheet);
// "Your second count, taken apart", from 0.
std::string count_title(std::size_t index, std::size_t of);

// Shown wherever a decision is judged.
inline constexpr const char* learning_only =
    "For learning only. Your local protocol and a licensed professional decide. Never use this program or "
    "its sounds "
    "on a real pregnancy.";
inline constexpr const char* learning_only_short =
    "For learning only. Your local protocol and a licensed professional decide.";
inline constexpr const char* boundary_words =
    "A boundary case: this labour sits on a limit where protocols differ. For learning, never for pass "
    "marks.";
inline constexpr const char* from_memory_words =
    "Some values of this protocol are from memory: check them against the original.";

}  // namespace ui
