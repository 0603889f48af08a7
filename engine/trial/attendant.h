// The hands, ear and watch of a made-up candidate at one labour: each step is a real event at a time of its
// own, never one that the order of things refuses. What is counted comes from the beats of its own windows,
// through its ear.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/trial/counter.h"

#include <optional>
#include <string_view>
#include <vector>

namespace engine {

class Attendant {
public:
    // All of these must outlive it.
    Attendant(const Scenario& scenario, const Protocol& protocol, const SyntheticCounter& counter,
              const CandidateDraws& draws);

    const Scenario& scenario;
    const Protocol& protocol;
    const SyntheticCounter& counter;
    const CandidateDraws& draws;

    // Seconds from the start. Steps that would lie beyond the end of the labour are not done.
    double t = 0;
    double end_s() const { return scenario.length.value - 1; }
    double left_s() const { return end_s() - t; }
    void until(double s) { t = std::min(std::max(t, s), end_s()); }

    void act(std::string_view id);  // once more when done before; an instrument in its way is lifted
    void take(sim::Instrument with);
    void place(double x_cm, double y_cm);
    void place_at_heart(int baby);  // where the baby can be counted now
    void lift();
    void wrist() { lay_hand(sim::On::wrist); }
    void belly() { lay_hand(sim::On::belly); }
    void report_pulse();     // of the last 15 s
    void compare(int baby);  // by ear with her wrist, no watch
    // Counts a window; the rate made of it. `hers`: her beats.
    int count(double plan_s, int baby, bool hers = false);
    void decide(const Decision& decision);
    void record(const char* when, const char* slowing, const char* done, bool with_rate);
    void hand_over();
    void finish();

    // As it runs on to the end of the labour, with nothing more done; and as it ran until now.
    const Played& far() const;
    Played now() const;

    sim::Instrument instrument = sim::Instrument::none;
    bool placed() const { return order_.hold().placed; }
    std::optional<int> counted_bpm;  // the last count
    std::optional<Window> last_window;
    int pulse_bpm = 0;  // 0: not felt
    std::vector<Event> events;

private:
    Event base(Do what) const;
    bool add(const Event& event, double takes_s);
    void lay_hand(sim::On on);

    Order order_;
    std::uint32_t windows_ = 0;
    mutable Played far_;
    mutable std::size_t far_of_ = static_cast<std::size_t>(-1);
};

}  // namespace engine
