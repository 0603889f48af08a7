// The body of the audio callback and all that it shares with the window. No SDL here, so that tests and the
// thread checker run it without a device.
#pragma once

#include "sim/hold.h"
#include "sim/listening.h"
#include "sim/units.h"
#include "ui/sound/latest_value.h"
#include "ui/sound/timed_ring.h"

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace ui {

class Callback {
public:
    static constexpr float cap = 0.5011872f;  // loudest sample at full volume: -6 dBFS
    static constexpr int fade_samples = 240;  // 5 ms in and out around every stop and start: no click

    ~Callback();  // the audio thread must have gone

    // --- Window thread
    // ------------------------------------------------------------------------------------------
    void begin(const sim::Listening& listening, std::span<const sim::Change> script);
    void stop();
    void pause(bool on) { paused_.store(on, std::memory_order_release); }
    bool paused() const { return paused_.load(std::memory_order_acquire); }
    // Set from any thread: the device is gone, labour time stands still as if paused.
    void hold_still(bool on) { held_.store(on, std::memory_order_release); }
    bool send(const sim::Change& change);
    std::optional<sim::Change> applied();
    void set_volume(float share);  // 0..1
    float volume() const { return volume_.load(std::memory_order_relaxed); }
    void set_mode(sim::OutputMode mode);
    sim::LabourTime rendered();
    // Rendered end - delay + time since the last block that had sound; between the start and the rendered
    // end.
    sim::LabourTime heard(std::int64_t now_ns, std::int64_t delay_us);
    int displayed_bpm();
    sim::LabourTime last_maternal_beat();
    // How often fill() has run: stands still when the device has died without a word. [any thread]
    std::uint32_t calls() const { return calls_.load(std::memory_order_relaxed); }

    // --- Audio thread
    // -------------------------------------------------------------------------------------------
    // Interleaved stereo; `now_ns` is the steady clock at the call. Both ears get the same: a horn or a
    // stethoscope head is one pipe, and sound in one ear alone would tell nothing and tire. No allocation,
    // lock, file, log, exception or system call; work in proportion to frames and changes waiting.
    void fill(float* stereo, int frames, std::int64_t now_ns);

private:
    // One labour being sounded. Made and freed by the window thread, used by the audio thread in between.
    struct Sounding {
        std::optional<sim::Listening> listening;  // none = silence
        std::vector<sim::Change> script;          // in time order
        std::size_t next = 0;                     // first of the script not applied yet
        std::uint32_t generation = 0;
        Sounding* retired_before = nullptr;  // list of those given back
    };
    struct Tagged {
        sim::Change change;
        std::uint32_t generation = 0;  // changes for an earlier labour are dropped
    };
    struct Shown {
        std::uint32_t generation = 0;
        std::int64_t rendered_us = 0, moment_ns = 0, maternal_us = 0;
        int bpm = 0;
    };

    void publish(std::unique_ptr<Sounding> next);
    void free_retired();
    const Shown& shown();

    void take_incoming();
    void apply_due(std::int64_t next_tick_us);
    std::int64_t next_change_us() const;
    void apply_wanted_mode();
    void render(std::span<float> mono);

    // Window -> audio
    std::atomic<Sounding*> incoming_{nullptr};
    std::atomic<bool> paused_{false}, held_{false};
    std::atomic<float> volume_{0.5f};   // safe start: no second louder than -20 dBFS RMS
    std::atomic<int> wanted_mode_{-1};  // -1: as the listening was made
    TimedRing<Tagged, 256> changes_;
    // Audio -> window
    std::atomic<Sounding*> retired_{nullptr};
    std::atomic<std::uint32_t> calls_{0};
    TimedRing<Tagged, 1024> applied_;
    LatestValue<Shown> shown_;

    // Window thread only
    std::uint32_t generation_ = 0;
    std::int64_t began_us_ = 0, heard_us_ = 0;
    Shown nothing_yet_;

    // Audio thread only
    std::unique_ptr<Sounding> now_;
    float gain_ = 0;  // volume as it is at this sample
    int fade_ = 0;    // 0 = silent .. fade_samples = full
    std::int64_t moment_ns_ = 0;
    std::int64_t tick_us_ = -1;
    int applied_at_tick_ = 0;
    std::array<float, 512> mono_{};
};

}  // namespace ui
