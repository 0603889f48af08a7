// Pointer and keys as they are in this frame. Taken from SDL's events by us: the toolkit loses a key that
// goes down and up within one frame, and polls a pointer that a window without focus does not have.
#pragma once

#include <SDL2/SDL.h>

#include <deque>
#include <string>

namespace ui {

class Input {
public:
    // Queues one event; true when it was one of ours (pointer, key, typed text, wheel).
    bool queue(const SDL_Event& event);
    // Takes what has queued up to and including the first change of a button or a key.
    void next_frame();
    bool waiting() const { return !queue_.empty(); }

    float x = -1, y = -1;  // pointer
    bool down = false;     // left button
    bool went_down = false, went_up = false;
    float wheel = 0;
    SDL_Keycode key = 0;  // pressed (or repeated) in this frame; 0 = none
    SDL_Scancode scan = SDL_SCANCODE_UNKNOWN;
    SDL_Keycode key_up = 0;
    SDL_Scancode scan_up = SDL_SCANCODE_UNKNOWN;
    Uint16 mods = 0;
    std::string text;  // typed in this frame, UTF-8

private:
    std::deque<SDL_Event> queue_;
};

}  // namespace ui
