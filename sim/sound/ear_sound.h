// What sounds at the ear while an instrument lies on the skin: from levels and beats to the plan of each
// sound tick. Knows nothing of changes, acts or the course: see sim/listening.
#pragma once

#include "sim/body/ear.h"
#include "sim/course/course.h"
#include "sim/fixed_list.h"
#include "sim/hold.h"
#include "sim/instrument/rate_display.h"
#include "sim/patient.h"
#include "sim/sound/beat_queue.h"
#include "sim/sound/doppler_tone.h"
#include "sim/sound/heart_tone.h"
#include "sim/sound/mix.h"

#include <array>

namespace sim {

class EarSound {
public:
    EarSound(const Patient& patient, Seed seed, OutputMode mode);

    OutputMode mode() const { return mode_; }
    void set_mode(OutputMode mode);  // only while nothing sounds: colours and carriers change at once
    // Sound starts from zero, at the levels last given by hear(): on each placing.
    void start();
    // New levels to glide to (15 ms); `moved_cm` since the last hold, 0 when only the body changed.
    void hear(const EarLevels& levels, const Hold& hold, double moved_cm, std::int64_t tick);
    // A cell of a skip: nothing of it is heard, what lasts beyond it is kept.
    void pass_cell(const CourseTick& now, std::int64_t cell);
    // Once each other course cell: what its draws bring. In a skip too for the last `reach` cells before it
    // ends: what is drawn in one may sound in the next three.
    static constexpr std::int64_t reach = 4;
    void enter_cell(const CourseTick& now, std::int64_t cell);

    struct Hearts {
        BeatQueue* baby[2];
        BeatQueue* mother;
    };
    // Makes the 96 samples of a tick; `fade` is reached at its end.
    void tick(std::int64_t tick, const Hearts& hearts, float fade, float* out);

    int displayed_bpm(std::int64_t tick) const { return display_.shown_bpm(tick); }

private:
    // A sound without a beat, waiting for its tick: bowel, thud of a movement, crackle.
    struct Single {
        std::int64_t starts_us = 0;
        bool rings = false;  // ping, else tone
        Tone tone;
        Ping ping;
    };

    void add_single(const Tone& tone);
    void add_single(const Ping& ping);
    // The height of an event among singles_ so that at the ear it is at most `over_first_sound` (amplitude; 2
    // at most, 6 dB) whatever the instrument strengthens.
    double height(double over_first_sound, double hz) const;
    void draw_bowel(std::int64_t cell);
    void draw_movement(std::int64_t cell);
    void draw_crackle(std::int64_t cell);
    void draw_knocks(std::int64_t cell);
    void draw_ward(std::int64_t cell);
    void rub(double moved_cm, bool hand_on, std::int64_t tick);
    void strike(std::int64_t tick, const Hearts& hearts);
    void glide();
    void plan_acoustic(std::int64_t us, const Hearts& hearts);
    void plan_doppler(std::int64_t us, const Hearts& hearts);
    double shake(std::int64_t us) const;

    Patient patient_;
    Seed seed_;
    OutputMode mode_;
    std::array<HeartVoice, 2> voices_{};
    NoiseShapes acoustic_;
    DopplerTone doppler_;
    std::array<double, 2> crisp_{1, 1};  // what the way to the skin leaves of a baby's crisp part
    double aim_ = 1;                     // how well the Doppler's beam meets the nearer heart, 0..1
    Hold hold_;
    bool beam_ = false;  // the instrument is a Doppler
    Chain chain_;
    std::array<double, source_count> wanted_{},
        gain_{};  // amplitude by Source; the second glides to the first
    double wanted_noise_ = 0, wanted_ward_ = 0, wanted_events_ = 0, noise_ = 0, ward_ = 0, events_ = 0;
    double rub_ = 0;  // friction, dies away
    std::int64_t moved_tick_ = 0;
    double speech_ = 1;                        // how loud the ward is in this cell
    bool moved_ = false;                       // the baby moved in the last cell
    double contact_ = 1, wanted_contact_ = 1;  // what a movement leaves of it
    std::int64_t shoved_until_ = 0;            // cell
    FixedList<Single, 64> singles_;
    std::int64_t look_again_us_ = 0;  // no tone of a heart starts before this
    TickPlan plan_;
    Mix mix_;
    RateDisplay display_;
};

}  // namespace sim
