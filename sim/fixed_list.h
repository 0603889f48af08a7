// A short list inside the object itself: the patient and the renderer stay trivially copyable, without heap.
#pragma once

#include <array>
#include <cassert>
#include <cstdint>

namespace sim {

template <typename T, int most>
struct FixedList {
    std::array<T, most> items{};
    std::int32_t size = 0;

    static constexpr int capacity = most;
    const T* begin() const { return items.data(); }
    const T* end() const { return items.data() + size; }
    T* begin() { return items.data(); }
    T* end() { return items.data() + size; }
    bool full() const { return size == most; }
    void add(const T& item) {
        assert(!full());
        items[static_cast<std::size_t>(size++)] = item;
    }
    const T& operator[](int i) const { return items[static_cast<std::size_t>(i)]; }
    T& operator[](int i) { return items[static_cast<std::size_t>(i)]; }
};

}  // namespace sim
