// Progress on the screen: how far off, getting there, where it is right, what to practise next. For the
// person named at the door; every figure of it can be had by `fullminute progress` as well.
#pragma once

#include "engine/competency/count_columns.h"
#include "engine/competency/progress.h"
#include "ui/library.h"
#include "ui/plots/bands.h"
#include "ui/plots/progress_words.h"
#include "ui/window/frame.h"
#include "ui/window/screen.h"

#include <map>
#include <string>
#include <vector>

namespace ui {

class ProgressScreen : public Screen {
public:
    // `counts`: this person's alone. Saved pages go to `save_folder` (empty: the person's home folder).
    ProgressScreen(std::string person, engine::CountColumns counts, std::vector<LibraryLabour> library,
                   std::string save_folder = {});

    void draw(Frame& frame) override;
    Leave leave() const override { return leave_; }  // back, or on: with the labour chosen here
    const std::string& chosen_path() const { return chosen_path_; }

    // For tests.
    const engine::Progress& progress() const { return progress_; }
    const std::string& said() const { return said_; }

private:
    enum class Part { agreement, learning, bands, kinds, next, nothing_yet };
    struct Placed {
        Part part;
        Area at;
    };
    void choose(engine::ProgressAsked asked);
    bool wide(const Frame& frame) const;
    std::vector<Placed> laid_out(Frame& frame, Area body);
    void keys(Frame& frame);
    void save();
    void next_method();
    void next_mode();

    void header(Frame& frame, Area at);
    void footer(Frame& frame, Area at);
    void plot_card(Frame& frame, Area at, Part part);
    void rows_card(Frame& frame, Area at, Part part);
    void next_card(Frame& frame, Area at);
    void nothing_yet_card(Frame& frame, Area at);
    std::string nothing_yet_words() const;

    std::string person_;
    engine::CountColumns counts_;
    std::vector<LibraryLabour> library_;
    std::string save_folder_;
    engine::ProgressAsked asked_;
    engine::Progress progress_;
    std::vector<PracticeLine> practice_;
    int shown_ = 0;                         // which view, when there is no room for all
    std::map<std::string, float> heights_;  // of the lists, measured once
    std::string said_, chosen_path_;
    bool said_fault_ = false;
    Leave leave_ = Leave::stay;
};

}  // namespace ui
