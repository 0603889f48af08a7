// Hearing an attempt again from any point: the sound is rendered once in the background, a copy of the
// listening is kept every ten seconds, and playing starts from the copy before the place asked for. Same
// samples as the first time.
#pragma once

#include "engine/scoring/replay.h"
#include "sim/listening.h"

#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

namespace ui {

// What the attempt's events did to body and sound, in time order; a skip goes to where it really stopped.
std::vector<sim::Change> changes_of(const engine::JudgedAttempt& judged);
sim::OutputMode mode_of(const engine::JudgedAttempt& judged);

// Renders `listening` on to `until_us` of labour time and throws the samples away; `next` is the first of
// `changes` not yet applied. May go past `until_us` by a skip.
void render_on(sim::Listening& listening, const std::vector<sim::Change>& changes, std::size_t& next,
               std::int64_t until_us);

class Rehearing {
public:
    explicit Rehearing(const engine::JudgedAttempt& judged);  // starts to prepare at once, on its own thread
    ~Rehearing();                                             // stops it
    Rehearing(const Rehearing&) = delete;
    Rehearing& operator=(const Rehearing&) = delete;

    struct From {
        sim::Listening listening;
        std::vector<sim::Change> script;  // what is still to come
    };
    // The listening at this second (the sound tick at or after it); nothing while it is not prepared so far.
    // Renders ten seconds at most: a few milliseconds. [window thread]
    std::optional<From> from(double s) const;
    double prepared_s() const;

private:
    struct Kept {
        sim::Listening listening;
        std::size_t next = 0;
    };
    void prepare(std::stop_token stop);

    std::vector<sim::Change> changes_;
    std::int64_t length_us_ = 0, apart_us_ = 10'000'000;
    sim::Listening first_;
    mutable std::mutex lock_;  // kept_, prepared_us_
    std::vector<std::unique_ptr<const Kept>> kept_;
    std::int64_t prepared_us_ = 0;
    std::jthread thread_;  // last: stops before what it uses goes
};

}  // namespace ui
