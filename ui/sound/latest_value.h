// The newest of a value written by one thread and read by another: three places and one atomic index, so that
// neither ever waits and a reader never sees half of one value and half of another.
#pragma once

#include <array>
#include <atomic>
#include <cstdint>
#include <type_traits>

namespace ui {

template <typename T>
class LatestValue {
    static_assert(std::is_trivially_copyable_v<T>);

public:
    // [writing thread] Only one thread may ever write.
    void write(const T& value) {
        places_[mine_] = value;
        mine_ =
            between_.exchange(static_cast<std::uint8_t>(mine_ | fresh), std::memory_order_acq_rel) & index;
    }

    // [reading thread] Only one thread may ever read. The value last written, T{} before the first.
    const T& read() {
        if (between_.load(std::memory_order_relaxed) & fresh)
            theirs_ = between_.exchange(theirs_, std::memory_order_acq_rel) & index;
        return places_[theirs_];
    }

private:
    static constexpr std::uint8_t index = 3, fresh = 4;

    std::array<T, 3> places_{};
    alignas(64) std::atomic<std::uint8_t> between_{1};
    alignas(64) std::uint8_t mine_ = 0;    // writing thread
    alignas(64) std::uint8_t theirs_ = 2;  // reading thread
};

}  // namespace ui
