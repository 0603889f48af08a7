// What the frame and the window share; only files of this folder include it.
#pragma once

#include "ui/window/focus.h"
#include "ui/window/fonts.h"
#include "ui/window/input.h"
#include "ui/window/pictures.h"
#include "ui/window/window.h"
#include "ui/window/wrapped_text.h"

#include <imgui.h>

#include <map>
#include <string>
#include <unordered_map>
#include <vector>

namespace ui {

struct Frame::Inside {
    explicit Inside(SDL_Renderer* renderer) : pictures(renderer) {}

    Input input;
    Focus focus;
    Pictures pictures;
    Fonts fonts{};
    float scale = 1, w = 0, h = 0;
    double now = 0;
    SDL_Texture* page = nullptr;

    std::string active;          // control the pointer went down on
    bool pointer_taken = false;  // a control has answered the pointer in this frame
    bool inert = false;
    std::vector<Area> clips;
    std::unordered_map<std::string, Area> where, where_last;
    // that answer, as far as they are seen
    std::vector<std::pair<std::string, Area>> controls, controls_last;
    std::vector<std::string> overflows, overflows_last;
    std::map<std::string, float> scrolled;
    struct Note {  // a field of many lines, as its words stand in it
        WrappedText words;
        float width = 0;
        const ImFont* font = nullptr;
        std::size_t cursor = 0, selected_from = 0, selected_to = 0, most = 0;  // of the words as shown
        bool to_end = false;  // a key brought the keyboard here: the cursor goes behind the last word
    };
    std::map<std::string, Note> notes;
    std::string typing_id, typing_last;                    // text field being typed into
    std::string asked_id;                                  // text field that was asked to take the keyboard
    bool typing_words = false, typing_words_last = false;  // letters and blanks belong to the field
    bool many_lines = false, many_lines_last = false;
    bool key_taken = false;  // by the focus order
    int again = 0;
    int hold_input = 0;  // frames in which no input is taken (a field is getting the keyboard)

    bool above = false;  // over the fields too, which the toolkit draws after the page
    ImDrawList* list() const { return above ? ImGui::GetForegroundDrawList() : ImGui::GetWindowDrawList(); }
    ImFont* font(Type type) const { return fonts[static_cast<std::size_t>(type)]; }
    bool seen(const Area& at) const;  // some of it is inside the clip
    bool over(std::string_view id, const Area& at) const;
    void note_overflow(std::string_view what, float by);
    void placed(std::string_view id, const Area& at);
    // The focus ring around a control that has it.
    void ring(std::string_view id, const Area& at, float round) const;
    // Pointer and keys on something that is pressed like a button.
    struct Press {
        bool over = false, held = false, used = false;
    };
    Press press(std::string_view id, const Area& at, bool enabled);
};

inline ImU32 ink_of(std::uint32_t rgb, unsigned alpha = 255) {
    return IM_COL32(rgb >> 16 & 255, rgb >> 8 & 255, rgb & 255, alpha);
}

}  // namespace ui
