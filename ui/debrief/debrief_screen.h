// The debrief on the screen: the strip of what really happened with the trainee's windows on it, heard again
// from any point; below it what to do next time, the counts taken apart, aspect by aspect; then the place and
// the acts.
#pragma once

#include "engine/scoring/replay.h"
#include "ui/debrief/cards.h"
#include "ui/debrief/rehearing.h"
#include "ui/plots/abdomen_map.h"
#include "ui/plots/strip.h"
#include "ui/sound/device.h"
#include "ui/window/frame.h"
#include "ui/window/screen.h"

#include <map>
#include <optional>
#include <string>

namespace ui {

class DebriefScreen : public Screen {
public:
    // `judged` and `device` must outlive the screen; `device` is this screen's alone while it is shown. Saved
    // pages go to `save_folder` (empty: the person's home folder).
    DebriefScreen(const engine::JudgedAttempt& judged, SoundDevice& device, std::string save_folder = {});
    ~DebriefScreen() override;

    void draw(Frame& frame) override;
    double draw_again_in_s() const override;
    Leave leave() const override { return leave_; }  // same_again, another, progress, back
    void hidden(bool is_hidden) override;

    // For tests.
    double at_s() const { return at_s_; }
    bool playing() const { return playing_ || wanted_s_.has_value(); }
    const std::string& said() const { return said_; }

private:
    enum class Card { strip, words, count, aspects, place, acts, notes };
    struct Layout;
    Layout layout(Frame& frame) const;

    void keys(Frame& frame);
    void follow_sound(Frame& frame);
    void play_from(double s);
    void stop();
    void go_to(double s);
    void zoom(double by);
    void save();

    void header(Frame& frame, Area at, const Layout& layout);
    void strip_card(Frame& frame, Area at);
    void beat_lane(Frame& frame, Area at) const;
    void words_card(Frame& frame, Area at);
    void count_card(Frame& frame, Area at);
    void picture_card(Frame& frame, Area at, Card card);
    void footer(Frame& frame, Area at);
    std::string note_row_words() const;
    // above the buttons; 0: there is room beside them
    float note_row_height(const Frame& frame, float width) const;

    const engine::JudgedAttempt& judged_;
    SoundDevice& device_;
    std::string save_folder_;
    StripContent strip_;
    MapContent map_;
    Rehearing rehearing_;
    StripView view_;
    double at_s_ = 0;  // the play line
    bool playing_ = false;
    bool on_a_number_ = false;  // the pointer went down on a numbered place, not to draw the play line along
    std::optional<double> wanted_s_;        // waits until the sound is prepared that far
    int shown_ = 0;                         // which view
    std::size_t count_ = 0;                 // which window is taken apart
    std::map<std::string, float> heights_;  // of the lists, by picture key and width: measured once
    std::string said_;                      // last answer: where the page was saved, or why not
    bool said_fault_ = false;
    Leave leave_ = Leave::stay;
};

}  // namespace ui
