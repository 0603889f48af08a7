// The window: SDL, the renderer, the fonts, the pointer and the keys. One a process. [window thread]
#pragma once

#include "ui/window/frame.h"
#include "ui/window/screen.h"

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace ui {

struct WindowLook {
    int width = 1280, height = 800;
    bool fullscreen = false;
    double text_size = 1.0;  // 1.0 .. 2.0
    bool hardware = false;   // the graphics card's renderer: faster frames, 100 MB more
    std::string title = "Fullminute";
};

class Window {
public:
    // Opens it. `fault` is set instead when SDL or the fonts refuse.
    static std::unique_ptr<Window> open(const WindowLook& look, std::string& fault);
    ~Window();
    Window(const Window&) = delete;
    Window& operator=(const Window&) = delete;

    // Shows the screen until it wants to leave or the window is closed (Leave::quit).
    Leave show(Screen& screen);
    // One frame without waiting, after taking what the queue holds (at most one change of a button or key):
    // for tests and measurement. False when a close was asked for.
    bool step(Screen& screen);
    // True while events wait that the next step would take.
    bool more_input() const;

    // Saves what is on screen as PNG; false when it cannot be written.
    bool screenshot(const std::string& path) const;
    // Where a control was drawn in the last frame; empty box when it was not. For tests.
    Area where(std::string_view id) const;
    // Every control of the last frame that answers, with what is seen of it (nothing of one scrolled away).
    // For tests.
    std::vector<std::pair<std::string, Area>> controls() const;
    // The control that has the keyboard; empty when none has. For tests.
    std::string focused() const;
    // Words that did not fit in their place in the last frame, "id or words: by how many pixels". For tests.
    std::vector<std::string> overflows() const;
    // Seconds the last frame took, from taking the input to presenting it.
    double frame_cost_s() const;
    // How much of the window the last frame rendered anew, 0..1: only what had changed, unless whole frames
    // are asked for.
    double share_rendered() const;
    void always_whole(bool on);
    // What the last frame drew, rendered whole once more, and the window's pixels 0x00RRGGBB by rows (empty:
    // they cannot be read). For tests: nothing may look different afterwards.
    void render_again();
    std::vector<std::uint32_t> pixels() const;

    // As shown: never so large that a screen of 640x400 at 100 % would not fit the window (960x600: 150 %).
    double text_size() const;
    void set_text_size(double size);

private:
    struct Inside;
    explicit Window(std::unique_ptr<Inside> inside);
    std::unique_ptr<Inside> inside_;
};

}  // namespace ui
