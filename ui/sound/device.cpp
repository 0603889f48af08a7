// The sound device: SDL_mixer opened and re-opened round one Callback.
#include "ui/sound/device.h"

#include "ui/sound/callback.h"

#include <SDL.h>
#include <SDL_mixer.h>

#include <algorithm>
#include <atomic>
#include <cassert>
#include <ctime>

namespace ui {
namespace {

constexpr int frames_wanted = 512;
constexpr std::int64_t dead_after_ns =
    2'000'000'000;  // no callback for so long: the device has died silently
constexpr std::int64_t longest_wait_ns = 30'000'000'000;

// The steady clock, in user space: the kernel's shared page answers it without a system call, which is what
// lets the audio thread stamp its blocks. Labour time never depends on it; heard() does.
std::int64_t steady_ns() {
    timespec t{};
    clock_gettime(CLOCK_MONOTONIC, &t);
    return static_cast<std::int64_t>(t.tv_sec) * 1'000'000'000 + t.tv_nsec;
}

bool asked_for_dummy() {
    const char* asked = SDL_getenv("SDL_AUDIODRIVER");
    return asked != nullptr && SDL_strcmp(asked, "dummy") == 0;
}

}  // namespace

struct SoundDevice::Inside {
    Callback callback;
    DeviceState state = DeviceState::silent_stand_in;
    std::string words;
    double delay_s = 2.0 * frames_wanted / sim::sample_rate;
    bool with_device = false, open = false;
    std::atomic<bool> removed{false};
    // For noticing a device that died without a word, and for not trying again too often.
    std::uint32_t calls_seen = 0;
    std::int64_t calls_seen_ns = 0, try_again_ns = 0, wait_ns = 0;

    static void on_block(void* self, Uint8* stream, int bytes) {
        auto& inside = *static_cast<Inside*>(self);
        inside.callback.fill(reinterpret_cast<float*>(stream), bytes / static_cast<int>(2 * sizeof(float)),
                             steady_ns());
    }

    // SDL goes on calling back at an unplugged device, so labour time must be stopped here at once, on
    // whatever thread SDL tells it.
    static int SDLCALL on_event(void* self, SDL_Event* event) {
        auto& inside = *static_cast<Inside*>(self);
        if (event->type == SDL_AUDIODEVICEREMOVED && event->adevice.iscapture == 0 &&
            event->adevice.which != 0) {
            inside.callback.hold_still(true);
            inside.removed = true;
        }
        return 0;
    }

    bool try_open(const char* driver) {
        if (driver != nullptr) SDL_SetHintWithPriority(SDL_HINT_AUDIODRIVER, driver, SDL_HINT_OVERRIDE);
        bool good = SDL_InitSubSystem(SDL_INIT_AUDIO) == 0;
        if (good && Mix_OpenAudioDevice(sim::sample_rate, AUDIO_F32SYS, 2, frames_wanted, nullptr, 0) != 0) {
            good = false;
            const std::string why = SDL_GetError();  // quitting may overwrite it
            SDL_QuitSubSystem(SDL_INIT_AUDIO);
            SDL_SetError("%s", why.c_str());
        }
        if (driver != nullptr) SDL_ResetHint(SDL_HINT_AUDIODRIVER);
        if (!good) return false;
        open = true;
        removed = false;
        calls_seen = callback.calls();
        calls_seen_ns = steady_ns();
        Mix_HookMusic(on_block, this);
        return true;
    }

    void close() {
        if (!open) return;
        Mix_HookMusic(nullptr, nullptr);  // waits for a callback that is running
        Mix_CloseAudio();
        SDL_QuitSubSystem(SDL_INIT_AUDIO);
        open = false;
    }

    // Opens the default device; true when sound can be heard. Else `words` says why not and nothing is open.
    bool open_real() {
        if (asked_for_dummy()) {
            words =
                "no sound device: SDL_AUDIODRIVER asks for the dummy driver; time goes on, nothing is heard";
            return false;
        }
        if (try_open(nullptr)) {
            const char* driver = SDL_GetCurrentAudioDriver();
            if (driver != nullptr && SDL_strcmp(driver, "dummy") != 0) {
                words.clear();
                return true;
            }
            close();
            SDL_SetError("none found");
        }
        words = std::string("no sound device: ") + SDL_GetError() + "; time goes on, nothing is heard";
        return false;
    }

    void open_stand_in() {
        state = DeviceState::silent_stand_in;
        if (try_open("dummy")) {
            callback.hold_still(false);
            return;
        }
        state = DeviceState::lost;  // labour time cannot run at all
        words = std::string("no sound device: not even a silent one could be opened: ") + SDL_GetError();
        callback.hold_still(true);
    }

    void wait_longer(std::int64_t now) {
        wait_ns = std::clamp<std::int64_t>(2 * wait_ns, 2'000'000'000, longest_wait_ns);
        try_again_ns = now + wait_ns;
    }
};

SoundDevice::SoundDevice() : inside_(std::make_unique<Inside>()) {
    Inside& in = *inside_;
    in.with_device = true;
    SDL_AddEventWatch(Inside::on_event, &in);
    if (in.open_real())
        in.state = DeviceState::playing;
    else
        in.open_stand_in();
    in.wait_longer(steady_ns());
}

SoundDevice::SoundDevice(Without) : inside_(std::make_unique<Inside>()) {
    inside_->words = "no sound device: none was asked for";
}

SoundDevice::~SoundDevice() {
    if (!inside_->with_device) return;
    SDL_DelEventWatch(Inside::on_event, inside_.get());
    inside_->close();
}

void SoundDevice::begin(const sim::Listening& listening, std::span<const sim::Change> script, bool paused) {
    inside_->callback.pause(paused);
    inside_->callback.begin(listening, script);
}

void SoundDevice::stop() { inside_->callback.stop(); }
void SoundDevice::pause(bool on) { inside_->callback.pause(on); }

bool SoundDevice::paused() const {
    return inside_->callback.paused() || inside_->removed || inside_->state == DeviceState::lost;
}

bool SoundDevice::send(const sim::Change& change) { return inside_->callback.send(change); }
std::optional<sim::Change> SoundDevice::applied() { return inside_->callback.applied(); }

sim::LabourTime SoundDevice::heard() const {
    return inside_->callback.heard(steady_ns(), static_cast<std::int64_t>(inside_->delay_s * 1e6 + 0.5));
}

sim::LabourTime SoundDevice::rendered() const { return inside_->callback.rendered(); }
double SoundDevice::delay_s() const { return inside_->delay_s; }

void SoundDevice::set_delay_s(double s) {
    assert(s >= 0 && s < 10);
    inside_->delay_s = s;
}

double SoundDevice::volume() const { return static_cast<double>(inside_->callback.volume()); }
void SoundDevice::set_volume(double share) { inside_->callback.set_volume(static_cast<float>(share)); }
void SoundDevice::set_mode(sim::OutputMode mode) { inside_->callback.set_mode(mode); }
int SoundDevice::displayed_bpm() const { return inside_->callback.displayed_bpm(); }
sim::LabourTime SoundDevice::last_maternal_beat() const { return inside_->callback.last_maternal_beat(); }
DeviceState SoundDevice::state() const { return inside_->removed ? DeviceState::lost : inside_->state; }

std::string SoundDevice::state_words() const {
    if (inside_->removed) return "the sound device is gone; time stands still until one returns";
    return inside_->words;
}

bool SoundDevice::look_after() {
    Inside& in = *inside_;
    if (!in.with_device) return false;
    const std::int64_t now = steady_ns();
    const DeviceState before = in.state;

    if (const std::uint32_t calls = in.callback.calls(); calls != in.calls_seen || !in.open) {
        in.calls_seen = calls;
        in.calls_seen_ns = now;
    }
    const bool died = in.open && now - in.calls_seen_ns > dead_after_ns;
    if (in.removed || died) {
        in.callback.hold_still(true);
        in.close();
        in.removed = false;
        in.state = DeviceState::lost;
        in.words = "the sound device is gone; time stands still until one returns";
        in.try_again_ns = now;  // another may be there already
        in.wait_ns = 0;
        return before != DeviceState::lost;
    }
    if (in.state == DeviceState::playing || now < in.try_again_ns) return false;
    in.wait_longer(now);

    const std::string words = in.words;
    if (in.state == DeviceState::silent_stand_in) {
        if (asked_for_dummy()) return false;
        in.close();
        if (in.open_real())
            in.state = DeviceState::playing;
        else
            in.open_stand_in();
    } else if (in.open_real()) {
        in.state = DeviceState::playing;
        in.callback.hold_still(false);
    } else if (asked_for_dummy()) {
        in.open_stand_in();
    } else {
        in.words = words;  // still gone: what was said stands
    }
    return in.state != before;
}

void SoundDevice::fill(float* stereo, int frames) { inside_->callback.fill(stereo, frames, steady_ns()); }

}  // namespace ui
