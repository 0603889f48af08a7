// Single-producer single-consumer ring of plain structs: how the window and the audio callback speak to each
// other. Wait-free on both sides: no lock, no allocation, no system call. The capacity is a power of two and
// all of it holds.
#pragma once

#include <array>
#include <atomic>
#include <cstddef>
#include <type_traits>

namespace ui {

template <typename T, std::size_t Capacity>
class TimedRing {
    static_assert(Capacity > 0 && (Capacity & (Capacity - 1)) == 0, "capacity is a power of two");
    static_assert(std::is_trivially_copyable_v<T>,
                  "the consumer must not run a constructor or free anything");

public:
    static constexpr std::size_t capacity = Capacity;

    // [producer thread] False when `capacity` entries wait; the entry is then not taken.
    bool push(const T& entry) {
        const std::size_t at = written_.load(std::memory_order_relaxed);
        if (at - read_.load(std::memory_order_acquire) == Capacity) return false;
        entries_[at & (Capacity - 1)] = entry;
        written_.store(at + 1, std::memory_order_release);  // the entry is whole before it can be seen
        return true;
    }

    // [producer thread] Never says there is room when there is none; room may appear at once after a "no".
    bool full() const {
        return written_.load(std::memory_order_relaxed) - read_.load(std::memory_order_acquire) == Capacity;
    }

    // [consumer thread] The oldest entry, or nullptr. Stays valid and in place until pop().
    const T* front() const {
        const std::size_t at = read_.load(std::memory_order_relaxed);
        return at == written_.load(std::memory_order_acquire) ? nullptr : &entries_[at & (Capacity - 1)];
    }

    // [consumer thread] Gives the oldest entry's place back; only after front() was not nullptr.
    void pop() { read_.store(read_.load(std::memory_order_relaxed) + 1, std::memory_order_release); }

private:
    // Each index on its own cache line: otherwise every push would slow the other thread's pop. The indices
    // only grow; their difference stays right when they wrap.
    alignas(64) std::atomic<std::size_t> written_{0};
    alignas(64) std::atomic<std::size_t> read_{0};
    alignas(64) std::array<T, Capacity> entries_{};
};

}  // namespace ui
