// The womb: when it contracts, how hard, for how long, and her bearing down on top of it.
#pragma once

#include "sim/patient.h"
#include "sim/random.h"

#include <algorithm>
#include <array>
#include <cstdint>

namespace sim {

// One hump: height above tone with its own width before and after the peak. Asymmetric generalised Gaussian
// with exponent 2.2 (form: Liu et al., uterine contraction modelling, conference abstract).
struct ContractionShape {
    double height_mmhg = 45;
    double rise_s = 20, fall_s = 28;

    double at(double from_peak_s) const;
    // Seconds before (after) the peak at which the pressure is `mmhg` on its way up (down); 0 if it never
    // gets there.
    double before_peak(double mmhg) const;
    double after_peak(double mmhg) const;
    // The shape that stays over 10 mmHg for `felt_s`.
    static ContractionShape lasting(double height_mmhg, double felt_s);
};

struct Contraction {
    std::int32_t number = -1;
    double peak_at_s = 0;
    ContractionShape shape;
    double second_after_s = 0, second_share = 0;  // a second peak, 0 = none
    double push_from_s = 0, push_to_s = 0;        // labour time between which she would bear down
    double push_each_s = 6, push_rest_s = 2.5, push_mmhg = 40;
    std::int32_t pushes = 0;
    double from_s = -1e300, over_s = 1e300;  // outside these its pressure is exactly zero

    // Pressure over tone of this one alone, without bearing down.
    double at(double time_s) const;
    double felt_from_s() const { return peak_at_s - shape.before_peak(10.0); }
    double felt_to_s() const { return peak_at_s + second_after_s + shape.after_peak(10.0); }
};

// What acts have made of the womb at this moment.
struct WombOrders {
    double pace = 1;      // clock factor: contractions come this much as often
    double strength = 1;  // of contractions that begin now
    bool pushing = false;
};

class Womb {
public:
    static constexpr int remembered = 8;  // contractions kept after they began

    Womb() = default;
    Womb(const Labour& labour, Seed seed);
    // To the next grid point.
    void step(std::int64_t tick, const WombOrders& orders);

    double pressure_mmhg() const { return pressure_; }  // over tone, contractions alone
    double push_mmhg() const { return push_; }
    bool bearing_down() const { return push_ > 0; }
    bool push_spell() const { return push_spell_; }    // between the first and the last push of a contraction
    std::int32_t running() const { return running_; }  // number of the running or last one, -1
    std::int32_t begun() const { return next_; }       // how many have begun to rise
    // The n-th contraction if it has begun and is still remembered (the last eight), else nullptr.
    const Contraction* recent(std::int32_t number) const {
        if (number < 0 || number >= next_ || number < next_ - remembered) return nullptr;
        return &last_[static_cast<std::size_t>(number) % remembered];
    }
    // The oldest one remembered.
    std::int32_t oldest() const { return std::max(0, next_ - remembered); }
    // Its pressure alone at a time in the past or now, with the end of all contractions.
    double pressure_of(const Contraction& c, double time_s) const;
    // Seconds until the n-th contraction can be felt, as things stand; large when there is none in sight.
    double until_felt(std::int32_t number, double now_s) const;

private:
    double gap_s(std::int32_t number) const;
    Contraction made(std::int32_t number, double peak_at_s, double strength) const;

    Labour labour_;
    Seed seed_;
    ContractionShape usual_;
    double begins_before_peak_s_ = 45;
    double clock_s_ = 0;
    double next_peak_clock_s_ = 0;
    double pace_ = 1;
    std::int32_t next_ = 0;
    std::array<Contraction, remembered> last_{};
    double pressure_ = 0, push_ = 0;
    bool push_spell_ = false;
    std::int32_t running_ = -1;
    std::int32_t not_over_ = 0;  // all contractions before this one are over
};

}  // namespace sim
