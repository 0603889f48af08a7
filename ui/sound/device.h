// The sound device: one callback that renders a Listening, two rings, nothing shared besides.
// Window thread -> callback: timed changes. Callback -> window: what was applied, stamped with its tick.
#pragma once

#include "sim/hold.h"
#include "sim/listening.h"
#include "sim/units.h"

#include <memory>
#include <optional>
#include <span>
#include <string>

namespace ui {

enum class DeviceState {
    playing,
    silent_stand_in,
    lost
};  // stand-in: no device; time goes on, nothing is heard

class SoundDevice {
public:
    // Opens the default device through SDL_mixer (48 kHz, float, 512 frames). Without one it re-opens SDL's
    // `dummy` driver so that labour time still runs, and `state()` says so. [window thread]
    SoundDevice();
    // Without any device or driver: only fill() makes sound. For tests. [window thread]
    enum class Without { device };
    explicit SoundDevice(Without);
    ~SoundDevice();
    SoundDevice(const SoundDevice&) = delete;
    SoundDevice& operator=(const SoundDevice&) = delete;

    // Starts (or restarts) sounding this labour from listening.now(), with changes to be made by themselves
    // (in time order; for the debrief), paused or not. The copy is made here, never in the callback. Changes
    // sent before and not yet applied belong to the labour before and are dropped; read applied() first.
    // [window thread]
    void begin(const sim::Listening& listening, std::span<const sim::Change> script = {},
               bool paused = false);
    void stop();          // silence; labour time stands still [window thread]
    void pause(bool on);  // labour time stands still while paused [window thread]
    bool paused() const;

    // Queues a change; false when the ring is full (256 waiting). [window thread]
    bool send(const sim::Change& change);
    // Sent changes applied since, in order, stamped with the tick at which they took effect; those of the
    // script and of set_mode() do not come back. When 1024 wait here unread, further changes wait unapplied.
    // [window thread]
    std::optional<sim::Change> applied();

    // What is being heard now: rendered end - device delay + time since the last callback. Never goes back.
    // [window]
    sim::LabourTime heard() const;
    sim::LabourTime rendered() const;  // end of what has been rendered [window thread]
    double delay_s() const;            // buffer x 2, or as set
    void set_delay_s(double s);
    double volume() const;                // as set; starts at half, where no second is over -20 dBFS RMS
    void set_volume(double share);        // 0..1 of the cap (-6 dBFS); smoothed [window thread]
    void set_mode(sim::OutputMode mode);  // until the next begin(), which brings the mode of its listening

    // Numbers the window shows, written by the callback after each block. [window thread]
    int displayed_bpm() const;  // Doppler number, 0 = dashes
    sim::LabourTime last_maternal_beat() const;

    DeviceState state() const;
    std::string state_words() const;  // "no sound device: ..." for the screen; empty when playing
    // Call now and then (once a second): notices a loss (labour time stands still, `paused()` is true),
    // re-opens after one and goes on by itself unless paused by hand; true when the state changed. [window
    // thread]
    bool look_after();

    // The callback's body, for tests without a device: interleaved stereo float. [audio thread]
    void fill(float* stereo, int frames);

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace ui
