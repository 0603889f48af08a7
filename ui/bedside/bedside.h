// The bedside: her story, her belly, two hands and an ear, a watch; count, decide, do, write. Nothing here
// shows the truth: every word on it is the trainee's own, the woman's, or what an act has found.
#pragma once

#include "engine/store/store.h"
#include "ui/bedside/session.h"
#include "ui/canvas/drawings.h"
#include "ui/window/window.h"

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ui {

Drawing drawing_of(sim::Instrument instrument);
// A drawing with its anchor at a point of the screen.
void put_drawing(Frame& frame, Drawing which, Point at, double px_per_cm);

class BedsideScreen : public Screen {
public:
    // `resumed`: as the trainee left it, open contraction and chosen length too; time goes on at once.
    BedsideScreen(std::unique_ptr<Session> session, engine::Store& store, bool resumed);
    void draw(Frame& frame) override;
    double draw_again_in_s() const override;
    Leave leave() const override { return leave_; }
    void hidden(bool is_hidden) override;
    // After Leave::on: the attempt, judged and kept.
    std::optional<engine::JudgedAttempt>& judged() { return judged_; }
    Session& session() { return *session_; }
    std::string left_open() const;  // what is not finished yet, in words; empty = nothing

private:
    enum class Tab { count, decide, act, write, story, her };
    enum class Over { nothing, position, later, finish, paused, cautions };
    enum class Moves { instrument, left_hand, right_hand };  // what the arrow keys move

    // Where the cards stand: six side by side, four, or with large letters the watch and the hands beside one
    // page.
    void draw_wide(Frame& frame);
    void draw_medium(Frame& frame);
    void draw_narrow(Frame& frame);
    void keys(Frame& frame);
    void header(Frame& frame, Area at);
    void story(Frame& frame, Area at, bool with_chart);
    float story_height(Frame& frame, float width, bool with_chart);
    void chart(Frame& frame, Area at);
    float chart_height(const Frame& frame) const;
    void hands(Frame& frame, Area at, bool in_a_row);
    void hand_place(Frame& frame, Area at, sim::Hand hand, bool few_words);
    void her_position(Frame& frame, Area at);
    void belly(Frame& frame, Area at, bool compact);
    void her(Frame& frame, Area at);      // the belly alone, as a page
    void at_hand(Frame& frame, Area at);  // hands, pressing and instruments below each other
    void narrow_header(Frame& frame, Area at);
    void narrow_watch(Frame& frame, Area at);
    void second_hand(Frame& frame, Area face);
    void mark_contraction(Frame& frame, Area at);
    std::string hint_at_her(const Frame& frame, Tone& tone) const;
    void hint_over_her(Frame& frame, Area drawn);
    void on_skin(Frame& frame, const AbdomenFrame& skin, Area at);
    void instruments(Frame& frame, Area at);
    void one_instrument(Frame& frame, Area at, sim::Instrument instrument);
    void pressing(Frame& frame, Area at);
    void pressing(Frame& frame, Area force, Area rest);
    static Area number_box(const Frame& frame, Area at);
    void over_number(Frame& frame, Area at);
    void doppler_number(Frame& frame, Area at);
    void watch(Frame& frame, Area at);
    void tabs(Frame& frame, Area at, bool with_story);
    void count_page(Frame& frame, Area at);
    void decide_page(Frame& frame, Area at);
    void act_page(Frame& frame, Area at);
    void write_page(Frame& frame, Area at);
    void over_all(Frame& frame);
    void loudness(Frame& frame, Area at);
    void loudness_by(double share);  // share of the cap; never under a tenth
    // An instrument or a hand on its way from its card to her, as the pointer carries it.
    void dragging(Frame& frame);
    void put_down(sim::Instrument instrument, double x_cm, double y_cm, double now_s);
    void put_down(sim::Hand hand, double x_cm, double y_cm, double now_s);
    void next_place(sim::Hand hand, double now_s);
    // What is typed and not written: given back after the program was killed, kept at most once a second.
    void bring_drafts_back();
    void keep_drafts(double now_s);
    std::map<std::string, std::string*> typed();
    struct Pick {
        int* which;
        int fresh;  // before anything was chosen
    };
    std::map<std::string, Pick> picked();
    std::map<std::string, std::string> drafts_now();       // empty: as fresh
    static int plan_of(double plan_s, int otherwise);      // place in the row of lengths
    void tell(std::string says, double for_s = 6);         // until then, where the eye is
    void said_on_page(Frame& frame, Area at, float foot);  // `foot`: height of the page's own last row

    // Wants an event; a refusal is shown. True when it was taken.
    bool want(const engine::Event& event, double now_s);
    void take_instrument(sim::Instrument instrument, double now_s);
    void place_at(double x_cm, double y_cm, double now_s);
    void move_to(double x_cm, double y_cm, double now_s);
    void put_hand(sim::Hand hand, sim::On on, double now_s);
    void press_by(double newtons, double now_s);
    void tap(double now_s);
    void start_or_stop(double now_s);
    void write_down(double now_s);
    void write_contractions(double now_s);
    void keep_note(double now_s);
    void send_referral(double now_s);
    void finish();
    sim::On hand_on(sim::Hand hand) const;
    bool pulse_under_finger() const;
    std::string belly_words() const;

    std::unique_ptr<Session> session_;
    engine::Store& store_;
    std::optional<engine::JudgedAttempt> judged_;
    Leave leave_ = Leave::stay;
    Tab tab_ = Tab::count;
    bool opened_ = false;  // the first frame has been drawn
    bool narrow_ = false;  // her belly is a page of its own
    Over over_ = Over::nothing;
    Moves moves_ = Moves::instrument;
    std::string said_;                          // refusal or notice
    double said_for_s_ = 0, said_until_s_ = 0;  // of the window's clock; 0 = from the next frame on
    bool said_at_her_ = false;  // shown under the instruments; else on the page of the right-hand card
    std::string fault_;         // finishing failed: stays

    struct Spot {
        double x_cm = 0, y_cm = 0;
        bool operator==(const Spot&) const = default;
    };
    static constexpr Spot left_fresh{6, 3}, right_fresh{-6, 3};
    static void bring_back(Spot& spot, const std::string& kept);
    void come_along(double x_cm, double y_cm);                // the way of the instrument, a point each 4 mm
    Spot cursor_{5, -6};                                      // where a key would place the instrument
    Spot left_spot_ = left_fresh, right_spot_ = right_fresh;  // hands on the belly
    double press_n_ = 6, tilt_deg_ = 0, tilt_towards_deg_ = 0;
    bool gel_ = false, covered_ = true;
    std::vector<Spot> path_;  // where the instrument has been, this listening
    bool dragging_placed_ = false;
    std::optional<sim::Hand> dragging_on_skin_;
    Area belly_at_;                  // her skin on the screen, as drawn last
    std::string held_;               // card the pointer went down on
    float held_x_ = 0, held_y_ = 0;  // and where
    double last_look_s_ = 0;         // at the sound device

    int plan_ = 0, plan_fresh_ = 0;  // place in the row of lengths; -1: none is chosen yet
    bool tapping_ = false;  // each beat is tapped while counting, to practise by; never asked for
    bool anew_ = false;     // asked once to count anew over numbers that are not written down
    std::string beats_, rate_, pulse_, done_;
    int when_ = -1, slowing_ = -1, compare_ = -1;
    std::string written_;  // what was last written down, for the person
    int source_ = -1, baseline_ = -1, around_ = -1, rhythm_ = -1;
    bool unsure_ = false;
    std::string search_, act_chosen_;
    std::string note_, situation_, background_, assessment_, request_;
    std::string per_10min_, length_s_;
    std::map<std::string, std::string> drafts_kept_;
    double drafts_kept_s_ = 0;
    int strength_ = -1, rests_ = -1;
    enum class Kept { nothing, contractions, note, referral };
    Kept kept_ = Kept::nothing;    // what of the page of notes was written down last, for the person
    bool in_contraction_ = false;  // as the trainee marks it
};

}  // namespace ui
