// A screen: one place of the program. The window asks it to draw a frame whenever something has changed.
#pragma once

namespace ui {

class Frame;

// Where a screen wants to go; the program (ui/program) knows which screen that is.
enum class Leave { stay, back, same_again, another, progress, on, quit };

class Screen {
public:
    virtual ~Screen() = default;
    // Draws everything and answers what the person did. Called again at once after any event, and at the
    // latest after draw_again_in_s(). Never blocks.
    virtual void draw(Frame& frame) = 0;
    // Seconds until something moves by itself (second hand, play line); large when nothing does.
    virtual double draw_again_in_s() const { return 60; }
    virtual Leave leave() const { return Leave::stay; }
    // The window is being closed or hidden: stop the time, keep what is typed.
    virtual void hidden(bool /*is_hidden*/) {}
};

}  // namespace ui
