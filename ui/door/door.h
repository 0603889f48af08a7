// The door: who is here, what is waiting, which labour to sit down to.
#pragma once

#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "sim/hold.h"
#include "ui/door/shelf.h"
#include "ui/sound/device.h"
#include "ui/window/window.h"

#include <optional>
#include <string>
#include <vector>

namespace ui {

struct DoorWish {
    std::string person;    // code as typed
    std::string scenario;  // path; empty = the first of the list is chosen
    std::string after;     // path: with no scenario, the one that follows this in the list
    std::string protocol;  // path
    sim::OutputMode mode = sim::OutputMode::true_sound;
    std::optional<engine::Interrupted> resume;  // set: go on with this instead
};

class DoorScreen : public Screen {
public:
    // `before` is what was chosen the last time or on the command line; it is shown chosen.
    DoorScreen(DoorWish before, Shelf& shelf, SoundDevice& device, engine::Journal& journal);
    void draw(Frame& frame) override;
    double draw_again_in_s() const override;
    Leave leave() const override { return leave_; }  // on, or progress: of the person typed
    const DoorWish& wish() const { return wish_; }
    // Shown over the list once, e.g. why an attempt could not start.
    void say(std::string words) { said_ = std::move(words); }

private:
    void draw_wide(Frame& frame);
    void draw_narrow(Frame& frame);  // large letters: who and how on one view, the labours on another
    void chosen_bar(Frame& frame, Area at);
    float chosen_bar_height(const Frame& frame) const;
    const ShelfLine* chosen_line() const;
    static std::vector<std::string> kinds_of_task();
    struct Rows {
        std::vector<const ShelfLine*> shown;
        int columns = 1;
        float height = 0;
    };
    Rows labour_rows(const Frame& frame, float width) const;
    void labours(Frame& frame, Area at, const Rows& rows);
    float sound_height(const Frame& frame) const;
    float protocols_height(const Frame& frame) const;
    void who(Frame& frame, Area at);
    void sound(Frame& frame, Area at);
    void protocols(Frame& frame, Area at);
    void waiting(Frame& frame, Area at);
    void list(Frame& frame, Area at);
    void chosen(Frame& frame, Area at);
    float who_height(const Frame& frame, float width) const;
    std::string who_note() const;
    std::string judged_by() const;  // the protocol chosen and its normal range
    float chosen_height(const Frame& frame, float width) const;
    void choose_one();
    void start();
    void to_progress();
    bool code_good() const;

    DoorWish wish_;
    Shelf& shelf_;
    SoundDevice& device_;
    engine::Journal& journal_;
    std::vector<engine::Interrupted> interrupted_;
    struct ProtocolLine {
        std::string path, title;
        std::string normal;  // its normal range, in words
        std::vector<std::string> cautions;
        bool from_memory = false;
    };
    std::vector<ProtocolLine> protocols_;
    std::string said_, code_fault_;
    bool opened_ = false;    // the first frame has been drawn
    int view_ = 0;           // with large letters: 0 = who and how, 1 = the labours
    int task_ = 0;           // 0 = all, else Task + 1
    std::string giving_up_;  // the attempt that a second press drops
    Leave leave_ = Leave::stay;
};

// "You were counting": what an interrupted attempt was about, in one line.
std::string interrupted_words(const engine::Interrupted& attempt);

}  // namespace ui
