// The window thread's half of the callback: what is handed over, and what is read back.
#include "ui/sound/callback.h"

#include <algorithm>
#include <utility>

namespace ui {

Callback::~Callback() {
    delete incoming_.exchange(nullptr);
    free_retired();
}

void Callback::free_retired() {
    Sounding* list = retired_.exchange(nullptr, std::memory_order_acq_rel);
    while (list != nullptr) delete std::exchange(list, list->retired_before);
}

void Callback::publish(std::unique_ptr<Sounding> next) {
    next->generation = ++generation_;
    wanted_mode_.store(-1, std::memory_order_release);  // a new listening brings its own mode
    // One that the callback never took comes straight back and is freed here.
    delete incoming_.exchange(next.release(), std::memory_order_acq_rel);
    free_retired();
}

void Callback::begin(const sim::Listening& listening, std::span<const sim::Change> script) {
    auto next = std::make_unique<Sounding>();
    next->listening.emplace(listening);
    next->script.assign(script.begin(), script.end());
    const std::int64_t now = listening.now().us;
    // What lies before the start is already in the listening's own state.
    while (next->next < next->script.size() && next->script[next->next].at_us < now) ++next->next;
    began_us_ = heard_us_ = now;
    publish(std::move(next));
}

void Callback::stop() {
    const std::int64_t end = rendered().us;
    began_us_ = end;
    heard_us_ = std::min(heard_us_, end);
    publish(std::make_unique<Sounding>());
}

bool Callback::send(const sim::Change& change) { return changes_.push({change, generation_}); }

std::optional<sim::Change> Callback::applied() {
    free_retired();
    while (const Tagged* front = applied_.front()) {
        const Tagged entry = *front;
        applied_.pop();
        if (entry.generation == generation_) return entry.change;
    }
    return std::nullopt;
}

void Callback::set_volume(float share) {
    volume_.store(std::clamp(share, 0.0f, 1.0f), std::memory_order_relaxed);
}

void Callback::set_mode(sim::OutputMode mode) {
    wanted_mode_.store(static_cast<int>(mode), std::memory_order_release);
}

// Until the callback has taken over what begin() handed it, its numbers are those of the labour before.
const Callback::Shown& Callback::shown() {
    const Shown& latest = shown_.read();
    if (latest.generation == generation_) return latest;
    nothing_yet_ = {};
    nothing_yet_.rendered_us = began_us_;
    return nothing_yet_;
}

sim::LabourTime Callback::rendered() { return {shown().rendered_us}; }
int Callback::displayed_bpm() { return shown().bpm; }
sim::LabourTime Callback::last_maternal_beat() { return {shown().maternal_us}; }

sim::LabourTime Callback::heard(std::int64_t now_ns, std::int64_t delay_us) {
    const Shown& latest = shown();
    if (latest.generation == generation_) {
        const std::int64_t since_us = std::max<std::int64_t>(now_ns - latest.moment_ns, 0) / 1000;
        // Nothing can be heard that has not been rendered, however late the next callback is.
        const std::int64_t us = std::min(latest.rendered_us - delay_us + since_us, latest.rendered_us);
        heard_us_ = std::max(heard_us_, us);
    }
    return {heard_us_};
}

}  // namespace ui
