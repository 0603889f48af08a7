// The audio thread's half: the whole of what runs inside the sound device's callback.
#include "ui/sound/callback.h"

#include <algorithm>
#include <limits>

namespace ui {
namespace {

// Place of the next sample to be handed out on the 48 kHz grid. now() is in whole microseconds, a sample is
// 125/6 of one, so rounding finds the sample again whichever way now() was rounded.
std::int64_t sample_at(sim::LabourTime now) { return (now.us * 12 + 125) / 250; }

// First sound tick at or after a moment, as a tick number.
std::int64_t tick_at(std::int64_t us) {
    return us <= 0 ? 0 : (us + sim::sound_tick_us - 1) / sim::sound_tick_us;
}

// The listening holds 64 that wait for their tick; more than this at one tick go to the ticks after it.
constexpr int most_at_one_tick = 32;

constexpr std::int64_t never = std::numeric_limits<std::int64_t>::max();

}  // namespace

// Swaps in what the window published. The old one is chained to a list which the window empties: nothing is
// freed here.
void Callback::take_incoming() {
    Sounding* next = incoming_.exchange(nullptr, std::memory_order_acq_rel);
    if (next == nullptr) return;
    if (Sounding* old = now_.release()) {
        old->retired_before = retired_.exchange(nullptr, std::memory_order_acq_rel);
        retired_.store(old, std::memory_order_release);
    }
    now_.reset(next);
    fade_ = 0;
    applied_at_tick_ = 0;
}

std::int64_t Callback::next_change_us() const {
    std::int64_t us = never;
    if (now_->next < now_->script.size()) us = now_->script[now_->next].at_us;
    const Tagged* live = changes_.front();
    // With no room to report it a sent change waits: applied and never journalled would be worse than late.
    if (live != nullptr && live->generation == now_->generation && !applied_.full())
        us = std::min(us, live->change.at_us);
    return us;
}

// Everything that takes effect at the next tick to be made, in time order; of two at once the script's goes
// first.
void Callback::apply_due(std::int64_t next_tick_us) {
    if (next_tick_us != tick_us_) {
        tick_us_ = next_tick_us;
        applied_at_tick_ = 0;
    }
    while (applied_at_tick_ < most_at_one_tick) {
        while (const Tagged* stale = changes_.front()) {
            if (stale->generation >= now_->generation) break;
            changes_.pop();
        }
        const std::int64_t us = next_change_us();
        if (us > next_tick_us) return;
        ++applied_at_tick_;
        if (now_->next < now_->script.size() && now_->script[now_->next].at_us == us) {
            now_->listening->apply(now_->script[now_->next++]);
        } else {
            applied_.push({now_->listening->apply(changes_.front()->change), now_->generation});
            changes_.pop();
        }
    }
}

void Callback::apply_wanted_mode() {
    const int wanted = wanted_mode_.exchange(-1, std::memory_order_acq_rel);
    if (wanted < 0) return;
    sim::Change change;
    change.kind = sim::Change::Kind::mode;
    change.mode = static_cast<sim::OutputMode>(wanted);
    change.at_us = now_->listening->now().us;
    now_->listening->apply(change);
}

// Slice by slice, so that each change meets the tick it is meant for whatever the block size.
void Callback::render(std::span<float> mono) {
    while (!mono.empty()) {
        const std::int64_t sample = sample_at(now_->listening->now());
        const std::int64_t next_tick =
            (sample + sim::samples_per_sound_tick - 1) / sim::samples_per_sound_tick;
        apply_due(next_tick * sim::sound_tick_us);
        std::size_t slice = mono.size();
        if (const std::int64_t us = next_change_us(); us != never) {
            const std::int64_t tick = std::max(tick_at(us), next_tick + 1);
            slice = std::min(slice, static_cast<std::size_t>(tick * sim::samples_per_sound_tick - sample));
        }
        now_->listening->render(mono.first(slice));
        mono = mono.subspan(slice);
    }
}

void Callback::fill(float* stereo, int frames, std::int64_t now_ns) {
    calls_.fetch_add(1, std::memory_order_relaxed);
    const float wanted_gain = volume_.load(std::memory_order_relaxed) * cap;
    const float gain_step = cap / 2400.0f;  // 50 ms from silence to the cap
    const bool still = paused_.load(std::memory_order_acquire) || held_.load(std::memory_order_acquire);
    while (frames > 0) {
        if (fade_ == 0) take_incoming();
        const bool silent = now_ == nullptr || !now_->listening;
        if (silent || (still && fade_ == 0)) {
            std::fill(stereo, stereo + 2 * frames, 0.0f);
            if (silent) gain_ = wanted_gain;
            break;
        }
        apply_wanted_mode();
        const bool going = !still && incoming_.load(std::memory_order_acquire) == nullptr;
        int block = std::min(frames, static_cast<int>(mono_.size()));
        if (!going) block = std::min(block, fade_);
        const std::span<float> mono(mono_.data(), static_cast<std::size_t>(block));
        render(mono);
        moment_ns_ = now_ns;
        for (const float sample : mono) {
            gain_ = gain_ < wanted_gain ? std::min(gain_ + gain_step, wanted_gain)
                                        : std::max(gain_ - gain_step, wanted_gain);
            fade_ = std::clamp(fade_ + (going ? 1 : -1), 0, fade_samples);
            const float out = sample * gain_ * (static_cast<float>(fade_) / static_cast<float>(fade_samples));
            *stereo++ = out;
            *stereo++ = out;
        }
        frames -= block;
    }
    if (now_ == nullptr || !now_->listening) return;
    const sim::Listening& l = *now_->listening;
    shown_.write({now_->generation, l.now().us, moment_ns_, l.last_maternal_beat().us, l.displayed_bpm()});
}

}  // namespace ui
