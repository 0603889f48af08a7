#include "ui/window/input.h"

namespace ui {

bool Input::queue(const SDL_Event& event) {
    switch (event.type) {
        case SDL_MOUSEMOTION:
        case SDL_MOUSEBUTTONDOWN:
        case SDL_MOUSEBUTTONUP:
        case SDL_MOUSEWHEEL:
        case SDL_KEYDOWN:
        case SDL_KEYUP:
        case SDL_TEXTINPUT: queue_.push_back(event); return true;
        default: return false;
    }
}

void Input::next_frame() {
    went_down = went_up = false;
    wheel = 0;
    key = key_up = 0;
    scan = scan_up = SDL_SCANCODE_UNKNOWN;
    text.clear();
    mods = static_cast<Uint16>(SDL_GetModState());
    while (!queue_.empty()) {
        const SDL_Event event = queue_.front();
        queue_.pop_front();
        switch (event.type) {
            case SDL_MOUSEMOTION:
                x = static_cast<float>(event.motion.x);
                y = static_cast<float>(event.motion.y);
                break;
            case SDL_MOUSEBUTTONDOWN:
            case SDL_MOUSEBUTTONUP:
                if (event.button.button != SDL_BUTTON_LEFT) break;
                x = static_cast<float>(event.button.x);
                y = static_cast<float>(event.button.y);
                down = event.type == SDL_MOUSEBUTTONDOWN;
                (down ? went_down : went_up) = true;
                return;
            case SDL_MOUSEWHEEL:
                wheel += event.wheel.preciseY != 0 ? event.wheel.preciseY : static_cast<float>(event.wheel.y);
                break;
            case SDL_KEYDOWN:
                key = event.key.keysym.sym;
                scan = event.key.keysym.scancode;
                mods = static_cast<Uint16>(event.key.keysym.mod | SDL_GetModState());
                return;
            case SDL_KEYUP:
                key_up = event.key.keysym.sym;
                scan_up = event.key.keysym.scancode;
                return;
            case SDL_TEXTINPUT: text += event.text.text; break;
            default: break;
        }
    }
}

}  // namespace ui
