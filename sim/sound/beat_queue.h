// The beats of one heart near now: a second past for blows that still sound, half a second to come.
#pragma once

#include "sim/beats/beat_train.h"

#include <array>
#include <cstdint>

namespace sim {

struct NearBeat {
    Beat beat;
    double bpm = 0;  // rate when it was made
    bool first_struck = false, second_struck = false,
         thump_struck = false;  // the mother's has a thump besides
};

// What no instrument gives: a beat that did not happen, one lost to contact or movement.
inline bool is_heard(const Beat& beat) { return beat.kind != BeatKind::dropped && !beat.silent; }

// Oldest first. Adding to a full one drops the oldest.
class BeatQueue {
public:
    static constexpr int most = 16;

    void add(const Beat& beat, double bpm) {
        if (size_ == most) drop_oldest();
        beats_[static_cast<std::size_t>((first_ + size_++) % most)] = {beat, bpm};
    }
    void drop_before(std::int64_t us) {
        while (size_ > 0 && (*this)[0].beat.at_us < us) drop_oldest();
    }
    void clear() { size_ = 0; }
    int size() const { return size_; }
    const NearBeat& operator[](int i) const { return beats_[static_cast<std::size_t>((first_ + i) % most)]; }
    NearBeat& operator[](int i) { return beats_[static_cast<std::size_t>((first_ + i) % most)]; }

private:
    void drop_oldest() {
        first_ = (first_ + 1) % most;
        --size_;
    }
    std::array<NearBeat, most> beats_{};
    int first_ = 0, size_ = 0;
};

}  // namespace sim
