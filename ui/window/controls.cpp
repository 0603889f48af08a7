// Buttons, choices, ticks, places of a screen's own, scrolling parts, and the keys.
#include "ui/window/inside.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace ui {

bool Frame::Inside::over(std::string_view id, const Area& at) const {
    if (inert || !at.holds(input.x, input.y)) return false;
    if (!clips.empty() && !clips.back().holds(input.x, input.y)) return false;
    return active.empty() || active == id;
}

void Frame::Inside::ring(std::string_view id, const Area& at, float round) const {
    if (!focus.has(id) || !focus.ring() || inert) return;
    list()->AddRect(ImVec2(at.x - 4, at.y - 4), ImVec2(at.right() + 4, at.bottom() + 4), ink_of(colour::ink),
                    round + 3, 0, 2.5f);
}

Frame::Inside::Press Frame::Inside::press(std::string_view id, const Area& at, bool enabled) {
    Press p;
    placed(id, at);
    if (inert || !enabled) return p;
    focus.stop(id, at, Focus::Kind::button);
    p.over = over(id, at);
    if (p.over && input.went_down) {
        active = id;
        pointer_taken = true;
        focus.put(id, false);
    }
    p.held = active == id && input.down;
    if (active == id && input.went_up && at.holds(input.x, input.y)) p.used = true;
    if (focus.has(id) && focus.ring() && !key_taken &&
        (input.key == SDLK_RETURN || input.key == SDLK_KP_ENTER || input.key == SDLK_SPACE)) {
        p.used = true;
        key_taken = true;
    }
    if (p.used) again = std::max(again, 1);
    return p;
}

bool Frame::button(std::string_view id, Area at, std::string_view says, const ButtonLook& look) {
    const bool visible = inside_.seen(at);
    const Inside::Press p = inside_.press(id, at, look.enabled);
    if (!visible) return p.used;
    const float round = 8;
    std::uint32_t ground = colour::card, edge = colour::soft;
    Tone tone = Tone::ink;
    float thick = 1.4f;
    if (look.main) {
        ground = edge = p.held ? 0x084768u : (p.over ? 0x0E6DA3u : colour::act);
        tone = Tone::on_act;
    } else if (look.chosen) {
        ground = colour::chosen;
        edge = colour::act;
        thick = 2.2f;
    } else if (p.over || p.held) {
        ground = p.held ? 0xE6DDCBu : 0xF3ECDFu;
    }
    if (!look.enabled) {
        ground = colour::page;
        edge = colour::rule;
        tone = Tone::soft;
    }
    // A kept sprite: filling rounded corners by triangles is what costs the software renderer most.
    const bool edged = !look.main || !look.enabled;
    sprite("button " + std::to_string(ground) + ' ' + std::to_string(edged ? edge : ground), at,
           [&](Canvas& canvas) {
               const Box whole{0, 0, static_cast<double>(std::round(at.w)),
                               static_cast<double>(std::round(at.h))};
               const auto paint = [](std::uint32_t rgb) {
                   return Colour{static_cast<std::uint8_t>(rgb >> 16 & 255),
                                 static_cast<std::uint8_t>(rgb >> 8 & 255),
                                 static_cast<std::uint8_t>(rgb & 255)};
               };
               const double half = static_cast<double>(thick) / 2;
               canvas.round_fill(whole.inset(edged ? half : 0), static_cast<double>(round), paint(ground));
               if (edged)
                   canvas.round_edge(whole.inset(half), static_cast<double>(round), paint(edge),
                                     static_cast<double>(thick));
           });
    inside_.ring(id, at, round);

    const Type type = look.chosen ? Type::strong : Type::text;
    const Tone quiet = look.main && look.enabled ? Tone::on_act : Tone::soft;
    Area words_box = at.inside(0);
    words_box.x += px(10);
    words_box.w -= px(20);
    if (look.align == Align::centre) {
        words_box.x = at.x + px(4);
        words_box.w = at.w - px(8);
    }
    if (*look.key != '\0') {
        // The words come first: they move aside for the key, and without room the key is left out.
        const float kw = width_of(look.key, Type::note), says_w = width_of(says, type);
        bool room = true;
        if (look.align == Align::left) {
            words_box.w -= kw + px(4);
        } else if (at.middle_x() + says_w / 2 > at.right() - kw - px(11) && at.h < px(56)) {
            room = says_w + kw + px(18) <= at.w;
            if (room) words_box.w -= kw + px(6);
        }
        if (room)
            one_line({at.right() - kw - px(8), at.y + px(1), kw + 1, line_height(Type::note)}, look.key,
                     Type::note, quiet);
    }
    if (*look.note != '\0') {
        const float both = line_height(Type::text) + line_height(Type::note);
        const float top = at.y + (at.h - both) / 2;
        one_line({words_box.x, top, words_box.w, line_height(Type::text)}, says, type, tone, look.align);
        one_line({words_box.x, top + line_height(Type::text), words_box.w, line_height(Type::note)},
                 look.note, Type::note, quiet, look.align);
    } else if (height_of(says, type, 0) < at.h * 0.75f && width_of(says, type) > words_box.w &&
               height_of(says, type, words_box.w) <= at.h - 4) {
        const float used = height_of(says, type, words_box.w);
        words_in({words_box.x, at.y + (at.h - used) / 2, words_box.w, used}, says, type, tone, look.align);
    } else {
        one_line(words_box, says, type, tone, look.align);
    }
    return p.used;
}

std::optional<int> Frame::choice(std::string_view id, Area at, std::span<const std::string> says, int chosen,
                                 int columns, bool enabled) {
    const int n = static_cast<int>(says.size());
    if (n == 0) return std::nullopt;
    if (columns <= 0) columns = n;
    const int rows = (n + columns - 1) / columns;
    const float gap = px(8);
    const float each_h = (at.h - gap * static_cast<float>(rows - 1)) / static_cast<float>(rows);
    std::optional<int> now;
    for (int i = 0; i < n; ++i) {
        Area row{at.x, at.y + static_cast<float>(i / columns) * (each_h + gap), at.w, each_h};
        ButtonLook look;
        look.chosen = i == chosen;
        look.enabled = enabled;
        if (columns == 1) look.align = Align::left;
        if (button(std::string(id) + ':' + std::to_string(i), row.part(i % columns, columns, gap),
                   says[static_cast<std::size_t>(i)], look))
            now = i;
    }
    return now;
}

bool Frame::tick(std::string_view id, Area at, std::string_view says, bool& on) {
    const Inside::Press p = inside_.press(id, at, true);
    if (p.used) on = !on;
    if (!inside_.seen(at)) return p.used;
    const float side = px(20);
    const Area square{at.x, at.y + (at.h - side) / 2, side, side};
    fill(square, on ? colour::act : (p.over ? 0xF3ECDFu : colour::card), 4);
    outline(square, on ? colour::act : colour::soft, 4, 1.4f);
    if (on) {
        line(square.x + side * 0.22f, square.y + side * 0.52f, square.x + side * 0.42f,
             square.y + side * 0.72f, colour::on_act, 2.4f);
        line(square.x + side * 0.42f, square.y + side * 0.72f, square.x + side * 0.8f,
             square.y + side * 0.28f, colour::on_act, 2.4f);
    }
    one_line({square.right() + px(10), at.y, at.w - side - px(10), at.h}, says);
    inside_.ring(id, at, 6);
    return p.used;
}

void Frame::claim(std::string_view id, Area at) {
    if (!inside_.input.went_down || inside_.pointer_taken || !inside_.over(id, at)) return;
    inside_.active = id;
    inside_.pointer_taken = true;
    inside_.focus.put({}, false);
}

Touch Frame::touch(std::string_view id, Area at, bool takes_keyboard) {
    Touch t;
    t.x = inside_.input.x;
    t.y = inside_.input.y;
    inside_.placed(id, at);
    if (inside_.inert) return t;
    if (takes_keyboard) inside_.focus.stop(id, at, Focus::Kind::own_keys);
    t.over = inside_.over(id, at) && (inside_.active == id || !inside_.pointer_taken);
    if (t.over && inside_.input.went_down) {
        inside_.active = id;
        inside_.pointer_taken = true;
        inside_.focus.put(takes_keyboard ? id : std::string_view{}, false);
        t.pressed = true;
    }
    t.held = inside_.active == id && inside_.input.down;
    t.released = inside_.active == id && inside_.input.went_up;
    if (t.over) t.wheel = inside_.input.wheel;
    t.focused = takes_keyboard && inside_.focus.has(id);
    return t;
}

void Frame::scroll(std::string_view id, Area at, float content_height,
                   const std::function<void(Area)>& draw) {
    Inside& in = inside_;
    float& moved = in.scrolled[std::string(id)];
    const float most = std::max(0.0f, content_height - at.h);
    const float bar = most > 0 ? px(14) : 0.0f;
    if (most > 0) {
        const bool over_it = !in.inert && at.holds(in.input.x, in.input.y);
        if (over_it && in.input.wheel != 0) moved -= in.input.wheel * px(48);
        const std::string bar_id = std::string(id) + ":bar";
        const Touch t = touch(bar_id, {at.right() - bar, at.y, bar, at.h}, true);
        if (t.held) moved = (t.y - at.y - at.h * at.h / content_height / 2) / at.h * content_height;
        if (t.focused) {
            if (key(Key::down)) moved += px(48);
            if (key(Key::up)) moved -= px(48);
            if (key(Key::page_down)) moved += at.h * 0.8f;
            if (key(Key::page_up)) moved -= at.h * 0.8f;
        }
        const Focus::Stop* stop = in.focus.now();
        if (in.focus.moved && stop != nullptr && stop->part == id) {
            if (stop->at.y < at.y + 6) moved -= at.y + 6 - stop->at.y;
            if (stop->at.bottom() > at.bottom() - 6) moved += stop->at.bottom() - at.bottom() + 6;
        }
    }
    moved = std::round(std::clamp(moved, 0.0f, most));
    ImGui::PushClipRect(ImVec2(at.x - 5, at.y), ImVec2(at.right() - bar + 5, at.bottom()), true);
    in.clips.push_back({at.x - 5, at.y, at.w - bar + 10, at.h});
    const std::string around = std::exchange(in.focus.part, std::string(id));
    draw({at.x, at.y - moved, at.w - bar - (most > 0 ? px(4) : 0.0f), content_height});
    in.focus.part = around;
    in.clips.pop_back();
    ImGui::PopClipRect();
    if (most > 0) {
        const float share = at.h / content_height;
        fill({at.right() - px(8), at.y, px(6), at.h}, 0xEFE8DA, 3);
        const Area thumb{at.right() - px(8), at.y + moved * share, px(6), std::max(px(24), at.h * share)};
        fill(thumb, colour::soft, 3);
        in.ring(std::string(id) + ":bar", thumb, 3);
    }
}

std::string Frame::held() const { return inside_.active; }
float Frame::pointer_x() const { return inside_.input.x; }
float Frame::pointer_y() const { return inside_.input.y; }
bool Frame::let_go() const { return inside_.input.went_up; }

bool Frame::key(Key key) const {
    if (inside_.key_taken || inside_.input.key == 0) return false;
    const SDL_Keycode k = inside_.input.key;
    const bool in_field = typing();
    switch (key) {
        case Key::enter: return (k == SDLK_RETURN || k == SDLK_KP_ENTER) && !inside_.many_lines_last;
        case Key::space: return k == SDLK_SPACE && !inside_.typing_words_last;
        case Key::escape: return k == SDLK_ESCAPE;
        case Key::tab: return false;
        case Key::left: return k == SDLK_LEFT && !in_field;
        case Key::right: return k == SDLK_RIGHT && !in_field;
        case Key::up: return k == SDLK_UP && !in_field;
        case Key::down: return k == SDLK_DOWN && !in_field;
        case Key::page_up: return k == SDLK_PAGEUP;
        case Key::page_down: return k == SDLK_PAGEDOWN;
        case Key::home: return k == SDLK_HOME && !in_field;
        case Key::end: return k == SDLK_END && !in_field;
        case Key::backspace: return k == SDLK_BACKSPACE && !in_field;
        case Key::remove: return k == SDLK_DELETE && !in_field;
        case Key::plus:
            return (k == SDLK_PLUS || k == SDLK_KP_PLUS || k == SDLK_EQUALS) && !in_field && !ctrl();
        case Key::minus: return (k == SDLK_MINUS || k == SDLK_KP_MINUS) && !in_field && !ctrl();
    }
    return false;
}

bool Frame::key(char letter_or_digit) const {
    return !inside_.key_taken && !typing() && !ctrl() && inside_.input.key == SDL_Keycode{letter_or_digit};
}

bool Frame::shift() const { return (inside_.input.mods & KMOD_SHIFT) != 0; }
bool Frame::ctrl() const { return (inside_.input.mods & KMOD_CTRL) != 0; }
bool Frame::typing() const { return !inside_.typing_last.empty(); }

void Frame::focus_on(std::string_view id) {
    inside_.focus.put(id, true);
    inside_.again = std::max(inside_.again, 2);
}

void Frame::focus_nothing() { inside_.focus.put({}, false); }
std::string Frame::focused() const { return inside_.focus.id(); }

}  // namespace ui
