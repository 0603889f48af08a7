#include "sim/listening.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace sim {

namespace {

constexpr int ticks_per_cell = static_cast<int>(course_tick_us / sound_tick_us);
constexpr int fade_ticks = 5;   // 10 ms
constexpr int flush_ticks = 1;  // the raise to 48 kHz still holds 2 ms
constexpr int cells_per_skipped_tick = 128;
constexpr std::int64_t beats_kept_us = 1'500'000;

std::int64_t tick_at_or_after(std::int64_t us) {
    return us <= 0 ? 0 : (us + sound_tick_us - 1) / sound_tick_us;
}

}  // namespace

Listening::Listening(const Patient& patient, Seed seed, OutputMode mode)
    : patient_(patient),
      seed_(seed),
      course_(patient, seed),
      babies_clock_{BeatClock(patient, seed, Who::fetal), BeatClock(patient, seed, Who::fetal2)},
      mother_clock_(patient, seed, Who::maternal),
      ear_(ear_for(patient, held_well(Instrument::horn, 0, 0))),
      mode_(mode),
      sound_(patient, seed, mode) {
    hold_.position = patient.mother.position;
    // Tick 0 fixes the first rate; the cell before time zero has no beats.
    cells_[0] = cells_[1] = course_.advance();
    cells_[2] = course_.advance();
    const auto first = [&](BeatQueue& queue, BeatClock& clock, double h0, double h1) {
        for (const Beat& beat : clock.advance(h0, h1)) queue.add(beat, h0);
    };
    for (std::size_t b = 0; b < 2; ++b)
        first(baby_beats_[b], babies_clock_[b], cells_[1].fhr_bpm[b], cells_[2].fhr_bpm[b]);
    first(mother_beats_, mother_clock_, cells_[1].mhr_bpm, cells_[2].mhr_bpm);
}

Change Listening::apply(const Change& change) {
    Change stamped = change;
    stamped.at_us =
        std::max({tick_at_or_after(change.at_us), tick_, last_stamp_us_ / sound_tick_us}) * sound_tick_us;
    last_stamp_us_ = stamped.at_us;
    waiting_.add(stamped);
    return stamped;
}

void Listening::render(std::span<float> out) {
    std::size_t done = 0;
    while (done < out.size()) {
        if (handed_out_ == samples_per_sound_tick) {
            make_tick();
            handed_out_ = 0;
        }
        const auto many =
            std::min(out.size() - done, static_cast<std::size_t>(samples_per_sound_tick - handed_out_));
        std::copy_n(made_.begin() + handed_out_, many, out.begin() + static_cast<std::ptrdiff_t>(done));
        handed_out_ += static_cast<int>(many);
        done += many;
    }
}

LabourTime Listening::now() const {
    const std::int64_t left = samples_per_sound_tick - handed_out_;
    return {tick_ * sound_tick_us - left * sound_tick_us / samples_per_sound_tick};
}

int Listening::displayed_bpm() const {
    if (!hold_.placed || hold_.instrument != Instrument::doppler || sounding_ != Sounding::on) return 0;
    return sound_.displayed_bpm(tick_);
}

void Listening::take_due(std::int64_t us) {
    int taken = 0;
    while (taken < waiting_.size && waiting_[taken].at_us <= us) take(waiting_[taken++], us);
    if (taken == 0) return;
    for (int i = taken; i < waiting_.size; ++i) waiting_[i - taken] = waiting_[i];
    waiting_.size -= taken;
}

void Listening::take(const Change& change, std::int64_t us) {
    const Hold before = hold_;
    sim::apply(change, hold_);
    course_.change(change);
    if (change.kind != Change::Kind::move) ear_ = ear_for(patient_, hold_);
    switch (change.kind) {
        case Change::Kind::mode: mode_ = change.mode; [[fallthrough]];
        case Change::Kind::place:
            if (!hold_.placed) return;
            if (sounding_ == Sounding::off)
                start_sounding();
            else
                sounding_ = Sounding::fading;
            return;
        case Change::Kind::skip: skip_to_us_ = std::max(change.skip_to_us, us); return;
        default: break;
    }
    if (!hold_.placed) {
        if (sounding_ == Sounding::on) sounding_ = Sounding::fading;
    } else if (sounding_ == Sounding::on) {
        const double dx = hold_.x_cm - before.x_cm, dy = hold_.y_cm - before.y_cm;
        hear(std::sqrt(dx * dx + dy * dy));
    }
}

void Listening::hear(double moved_cm) {
    sound_.hear(levels_through(ear_, patient_, cells_[0], hold_), hold_, moved_cm, tick_);
}

void Listening::start_sounding() {
    for (BeatQueue* queue : {&baby_beats_[0], &baby_beats_[1], &mother_beats_})
        for (int i = 0; i < queue->size(); ++i)
            (*queue)[i].first_struck = (*queue)[i].second_struck = (*queue)[i].thump_struck = false;
    sounding_ = Sounding::on;
    fade_steps_ = 0;
    if (sound_.mode() != mode_) sound_.set_mode(mode_);
    hear(0);
    sound_.start();
}

void Listening::next_cell() {
    ++cell_;
    cells_[0] = cells_[1];
    cells_[1] = cells_[2];
    cells_[2] = course_.advance();
    const std::int64_t forget = cell_ * course_tick_us - beats_kept_us;
    for (std::size_t b = 0; b < 2; ++b) {
        baby_beats_[b].drop_before(forget);
        for (const Beat& beat : babies_clock_[b].advance(cells_[1].fhr_bpm[b], cells_[2].fhr_bpm[b]))
            baby_beats_[b].add(beat, cells_[1].fhr_bpm[b]);
    }
    mother_beats_.drop_before(forget);
    for (const Beat& beat : mother_clock_.advance(cells_[1].mhr_bpm, cells_[2].mhr_bpm))
        mother_beats_.add(beat, cells_[1].mhr_bpm);
}

void Listening::make_tick() {
    const std::int64_t us = tick_ * sound_tick_us;
    take_due(us);
    if ((cell_ + 1) * ticks_per_cell <= tick_) {
        next_cell();
        sound_.enter_cell(cells_[0], cell_);
        if (sounding_ == Sounding::on) hear(0);
    }

    if (skip_to_us_ > us && sounding_ == Sounding::on) sounding_ = Sounding::fading;
    if (skip_to_us_ > us && sounding_ == Sounding::off) {
        const std::int64_t wanted = tick_at_or_after(skip_to_us_);
        // The cell that starts with `wanted` itself is left to the next tick: a change at that moment comes
        // first.
        int left = cells_per_skipped_tick;
        while (left-- > 0 && (cell_ + 1) * ticks_per_cell < wanted) {
            next_cell();
            tick_ = cell_ * ticks_per_cell;
            if (wanted - tick_ <= EarSound::reach * ticks_per_cell)
                sound_.enter_cell(cells_[0], cell_);
            else
                sound_.pass_cell(cells_[0], cell_);
        }
        if ((cell_ + 1) * ticks_per_cell >= wanted) {
            tick_ = wanted;
            skip_to_us_ = -1;
            if (hold_.placed) start_sounding();
        }
        made_.fill(0);
        return;
    }
    if (skip_to_us_ <= us) skip_to_us_ = -1;

    for (int i = mother_beats_.size() - 1; i >= 0; --i)
        if (mother_beats_[i].beat.at_us <= us) {
            last_maternal_us_ = mother_beats_[i].beat.at_us;
            break;
        }

    if (sounding_ == Sounding::off) {
        made_.fill(0);
    } else {
        fade_steps_ += sounding_ == Sounding::on ? 1 : -1;
        fade_steps_ = std::min(fade_steps_, fade_ticks);
        const float fade = static_cast<float>(std::max(fade_steps_, 0)) / fade_ticks;
        sound_.tick(tick_, {{&baby_beats_[0], &baby_beats_[1]}, &mother_beats_}, fade, made_.data());
        if (sounding_ == Sounding::fading && fade_steps_ <= -flush_ticks) {
            sounding_ = Sounding::off;
            if (hold_.placed && skip_to_us_ < 0) start_sounding();
        }
    }
    ++tick_;
}

}  // namespace sim
