#include "ui/debrief/rehearing.h"

#include <algorithm>
#include <array>

namespace ui {
namespace {

constexpr std::size_t most_kept = 240;  // of some tens of kilobytes each: a few megabytes

}  // namespace

std::vector<sim::Change> changes_of(const engine::JudgedAttempt& judged) {
    std::vector<sim::Change> changes;
    for (const engine::Event& event : judged.attempt.events) {
        std::optional<sim::Change> change = engine::change_of(event);
        if (!change) continue;
        if (change->kind == sim::Change::Kind::skip)
            for (const engine::SkipDone& skip : judged.played.skips)
                if (skip.from == event.t) change->skip_to_us = skip.to.us;
        changes.push_back(*change);
    }
    return changes;
}

sim::OutputMode mode_of(const engine::JudgedAttempt& judged) {
    const std::string& mode = judged.attempt.header.output_mode;
    if (mode == "assisted") return sim::OutputMode::assisted;
    if (mode == "shifted") return sim::OutputMode::shifted;
    return sim::OutputMode::true_sound;
}

void render_on(sim::Listening& listening, const std::vector<sim::Change>& changes, std::size_t& next,
               std::int64_t until_us) {
    // A tick at a time, so that each change meets the tick it is stamped with, also straight after a skip.
    std::array<float, sim::samples_per_sound_tick> thrown_away;
    constexpr int most_at_one_tick = 32;
    while (listening.now().us < until_us) {
        for (int n = 0;
             n < most_at_one_tick && next < changes.size() && changes[next].at_us <= listening.now().us; ++n)
            listening.apply(changes[next++]);
        listening.render(thrown_away);
    }
}

Rehearing::Rehearing(const engine::JudgedAttempt& judged)
    : changes_(changes_of(judged)),
      length_us_(judged.played.end.us),
      first_(judged.played.patient, sim::Seed{judged.attempt.header.seed}, mode_of(judged)) {
    const auto enough = length_us_ / static_cast<std::int64_t>(most_kept);
    apart_us_ = std::max(apart_us_, (enough / sim::sound_tick_us + 1) * sim::sound_tick_us);
    thread_ = std::jthread([this](std::stop_token stop) { prepare(stop); });
}

Rehearing::~Rehearing() {
    thread_.request_stop();
    if (thread_.joinable()) thread_.join();
}

void Rehearing::prepare(std::stop_token stop) {
    auto running = std::make_unique<Kept>(Kept{first_, 0});
    for (;;) {
        {
            const std::lock_guard guard(lock_);
            kept_.push_back(std::make_unique<const Kept>(*running));
            prepared_us_ = running->listening.now().us;
        }
        if (running->listening.now().us >= length_us_) break;
        // In steps, so that leaving the screen never waits long.
        const std::int64_t until = running->listening.now().us + apart_us_;
        while (running->listening.now().us < until) {
            if (stop.stop_requested()) return;
            render_on(running->listening, changes_, running->next,
                      std::min(until, running->listening.now().us + 1'000'000));
        }
    }
}

std::optional<Rehearing::From> Rehearing::from(double s) const {
    const std::int64_t us = std::clamp<std::int64_t>(sim::labour_time(sim::Seconds{s}).us, 0, length_us_);
    const Kept* before = nullptr;
    {
        const std::lock_guard guard(lock_);
        if (kept_.empty() || prepared_us_ < us) return std::nullopt;
        for (const auto& kept : kept_)
            if (kept->listening.now().us <= us) before = kept.get();
    }
    if (before == nullptr) return std::nullopt;
    From from{before->listening, {}};
    std::size_t next = before->next;
    render_on(from.listening, changes_, next, us);
    from.script.assign(changes_.begin() + static_cast<std::ptrdiff_t>(next), changes_.end());
    return from;
}

double Rehearing::prepared_s() const {
    const std::lock_guard guard(lock_);
    return static_cast<double>(prepared_us_) / 1e6;
}

}  // namespace ui
