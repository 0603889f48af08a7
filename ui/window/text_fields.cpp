// Fields that are typed into: the toolkit's own editing under our look and our focus order.
#include "ui/window/inside.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cstring>

namespace ui {
namespace {

int digits_only(ImGuiInputTextCallbackData* typed) {
    return typed->EventChar >= '0' && typed->EventChar <= '9' ? 0 : 1;
}

WrappedText wrapped(const std::string& text, const Frame::Inside::Note& note) {
    return {text, note.width, [font = note.font](unsigned letter) {
                return letter < 0x10000 ? font->GetCharAdvance(static_cast<ImWchar>(letter))
                                        : font->FallbackAdvanceX;
            }};
}

// Each frame while a note is typed into: what was typed goes into the note, and its lines are broken anew.
int note_edited(ImGuiInputTextCallbackData* typed) {
    auto& note = *static_cast<Frame::Inside::Note*>(typed->UserData);
    const std::string_view now(typed->Buf, static_cast<std::size_t>(typed->BufTextLen));
    if (now != note.words.shown()) {
        const WrappedText::Edited edited =
            note.words.edited(now, note.cursor, static_cast<std::size_t>(typed->CursorPos), note.most);
        note.words = wrapped(edited.text, note);
        if (now != note.words.shown()) {
            typed->DeleteChars(0, typed->BufTextLen);
            typed->InsertChars(0, note.words.shown().c_str());
        }
        typed->CursorPos = static_cast<int>(note.words.in_shown(edited.cursor));
        typed->SelectionStart = typed->SelectionEnd = typed->CursorPos;
    }
    if (note.to_end) {
        typed->CursorPos = typed->SelectionStart = typed->SelectionEnd = typed->BufTextLen;
        note.to_end = false;
    }
    note.cursor = static_cast<std::size_t>(typed->CursorPos);
    note.selected_from = static_cast<std::size_t>(typed->SelectionStart);
    note.selected_to = static_cast<std::size_t>(typed->SelectionEnd);
    return 0;
}

}  // namespace

// Shared by both kinds of field.
struct Field {
    Frame::Inside& in;
    Frame& frame;

    bool edit(std::string_view id, Area at, std::string& text, std::size_t most, Type type, bool digits,
              bool lines, std::string_view hint) {
        in.placed(id, at);
        ImFont* font = in.font(type);
        if (in.inert || !in.seen(at)) {
            frame.fill(at, colour::card, 8);
            frame.outline(at, colour::soft, 8, 1.4f);
            ImGui::PushClipRect(ImVec2(at.x, at.y), ImVec2(at.right(), at.bottom()), true);
            frame.words_in({at.x + frame.px(12), at.y + (lines ? frame.px(8) : (at.h - font->FontSize) / 2),
                            at.w - frame.px(24), 0},
                           text, type);
            ImGui::PopClipRect();
            if (!in.inert) in.focus.stop(id, at, Focus::Kind::field);
            return false;
        }
        in.focus.stop(id, at, Focus::Kind::field);
        if (in.over(id, at) && in.input.went_down) {
            in.active = id;
            in.pointer_taken = true;
            in.focus.put(id, false);
            in.asked_id.clear();
        }

        Frame::Inside::Note* note = nullptr;
        if (lines) {
            note = &in.notes[std::string(id)];
            // The toolkit's bar is taken off always, so that its coming breaks no line anew.
            const float width = at.w - 2 * frame.px(12) - ImGui::GetStyle().ScrollbarSize - 2;
            if (note->words.text() != text || note->width != width || note->font != font) {
                note->width = width;
                note->font = font;
                note->words = wrapped(text.substr(0, most), *note);
            }
            note->most = most;
        }
        const WrappedText before = lines ? note->words : WrappedText();
        const std::string& stands = lines ? before.shown() : text;
        // Between every two letters of a note a break may have been put in.
        std::vector<char> room((lines ? 2 * most : most) + 1, '\0');
        std::memcpy(room.data(), stands.data(), std::min(room.size() - 1, stands.size()));
        ImGui::PushFont(font);
        ImGui::PushStyleVar(ImGuiStyleVar_FrameRounding, 8);
        ImGui::PushStyleVar(ImGuiStyleVar_FrameBorderSize, 0);
        const float pad_y = lines ? frame.px(8) : std::max(0.0f, (at.h - font->FontSize) / 2);
        ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(frame.px(12), pad_y));
        ImGui::SetCursorScreenPos(ImVec2(at.x, at.y));
        const std::string name = "##" + std::string(id);
        const ImGuiID toolkit_id = ImGui::GetID(name.c_str());
        const bool has = in.focus.has(id);
        if (has && ImGui::GetActiveID() != toolkit_id && in.asked_id != id && !in.input.down) {
            ImGui::SetKeyboardFocusHere();
            in.asked_id = id;
            if (lines) note->to_end = true;
            in.hold_input = 2;
            in.again = std::max(in.again, 3);
        }
        // Emptied or filled by the program while the cursor stands in it: the toolkit's own copy must not
        // come back.
        const ImGuiInputTextState* edited = ImGui::GetInputTextState(toolkit_id);
        if (edited != nullptr && ImGui::GetActiveID() == toolkit_id && edited->TextAIsValid &&
            stands != edited->TextA.Data) {
            ImGui::ClearActiveID();
            in.asked_id.clear();
            in.again = std::max(in.again, 2);
        }
        bool changed = false;
        if (lines) {
            const std::size_t from = note->selected_from, to = note->selected_to;
            ImGui::InputTextMultiline(name.c_str(), room.data(), room.size(), ImVec2(at.w, at.h),
                                      ImGuiInputTextFlags_NoUndoRedo |
                                          ImGuiInputTextFlags_NoHorizontalScroll |
                                          ImGuiInputTextFlags_CallbackAlways,
                                      note_edited, note);
            changed = note->words.text() != text;
            if (has && from != to && frame.ctrl() && (in.input.key == SDLK_c || in.input.key == SDLK_x))
                SDL_SetClipboardText(before.between(from, to).c_str());
        } else {
            ImGui::SetNextItemWidth(at.w);
            const auto flags =
                digits ? ImGuiInputTextFlags_CallbackCharFilter | ImGuiInputTextFlags_AutoSelectAll
                       : ImGuiInputTextFlags_None;
            changed = ImGui::InputText(name.c_str(), room.data(), room.size(), flags,
                                       digits ? digits_only : nullptr);
        }
        const bool active = ImGui::GetActiveID() == toolkit_id;
        if (active && has) {
            in.typing_id = id;
            in.typing_words = !digits;
            in.many_lines = lines;
        }
        if (active && !has) ImGui::ClearActiveID();
        ImGui::PopStyleVar(3);
        ImGui::PopFont();
        frame.outline(at, active ? colour::act : colour::soft, 8, active ? 2.2f : 1.4f);
        if (text.empty() && !changed && !hint.empty() && !active) {
            const Area inner{at.x + frame.px(12), at.y, at.w - frame.px(24), at.h};
            if (lines)
                frame.words_in({inner.x, at.y + frame.px(8), inner.w, 0}, hint, Type::text, Tone::soft);
            else
                frame.one_line(inner, hint, Type::text, Tone::soft);
        }
        in.ring(id, at, 8);
        if (changed) {
            text = lines ? note->words.text() : std::string(room.data());
            in.again = std::max(in.again, 1);
        }
        return changed;
    }
};

bool Frame::number_field(std::string_view id, Area at, std::string& digits, std::string_view after,
                         int most_digits) {
    const bool changed = Field{inside_, *this}.edit(id, at, digits, static_cast<std::size_t>(most_digits),
                                                    Type::number, true, false, "");
    if (!after.empty()) {
        const float w = width_of(after, Type::note);
        one_line({at.right() - w - px(12), at.y, w + 1, at.h}, after, Type::note, Tone::soft);
    }
    return changed;
}

bool Frame::text_field(std::string_view id, Area at, std::string& text, std::string_view hint,
                       std::size_t most_bytes, bool many_lines) {
    return Field{inside_, *this}.edit(id, at, text, most_bytes, Type::text, false, many_lines, hint);
}

}  // namespace ui
