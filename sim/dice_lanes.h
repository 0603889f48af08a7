// Philox 4x32-10 (see sim/random.h) for several counters at once, side by side in the processor's lanes: the
// same bits as one by one, for less. The one file of sim/ that uses the processor's own words.
#pragma once

#include <cstdint>
#if defined(__SSE2__)
#include <emmintrin.h>
#endif

namespace sim {

// Each 32-bit word sits in the lower half of 64 bits: the multiplication reads lower halves only, so what is
// left above them does no harm and need not be cleared.
#if defined(__SSE2__)
using Pair = __m128i;
[[gnu::always_inline]] inline Pair times(const Pair& a, const Pair& b) { return _mm_mul_epu32(a, b); }
[[gnu::always_inline]] inline Pair upper(const Pair& a) { return _mm_srli_epi64(a, 32); }
[[gnu::always_inline]] inline Pair both(std::uint32_t v) {
    return _mm_set1_epi64x(static_cast<long long>(v));
}
[[gnu::always_inline]] inline Pair pair(std::uint32_t a, std::uint32_t b) {
    return _mm_set_epi64x(static_cast<long long>(b), static_cast<long long>(a));
}
// The four words of two pairs, in their order.
using Packed = __m128i;
[[gnu::always_inline]] inline Packed packed(const Pair& first, const Pair& second) {
    return _mm_castps_si128(_mm_shuffle_ps(_mm_castsi128_ps(first), _mm_castsi128_ps(second), 0x88));
}
#else
using Pair = std::uint64_t __attribute__((vector_size(16)));
[[gnu::always_inline]] inline Pair times(const Pair& a, const Pair& b) {
    return Pair{(a[0] & 0xffffffffu) * (b[0] & 0xffffffffu), (a[1] & 0xffffffffu) * (b[1] & 0xffffffffu)};
}
[[gnu::always_inline]] inline Pair upper(const Pair& a) { return a >> 32; }
[[gnu::always_inline]] inline Pair both(std::uint32_t v) { return Pair{v, v}; }
[[gnu::always_inline]] inline Pair pair(std::uint32_t a, std::uint32_t b) { return Pair{a, b}; }
using Packed = std::uint32_t __attribute__((vector_size(16)));
[[gnu::always_inline]] inline Packed packed(const Pair& first, const Pair& second) {
    return Packed{static_cast<std::uint32_t>(first[0]), static_cast<std::uint32_t>(first[1]),
                  static_cast<std::uint32_t>(second[0]), static_cast<std::uint32_t>(second[1])};
}
#endif

// So many pairs of counters before the draw, of drawn words after it.
template <int pairs>
struct FourWords {
    Pair w0[pairs], w1[pairs], w2[pairs], w3[pairs];
};

template <int pairs>
[[gnu::always_inline]] inline void draw(FourWords<pairs>& c, std::uint32_t k0, std::uint32_t k1) {
    const Pair m0 = both(0xD2511F53u), m1 = both(0xCD9E8D57u);
    for (int round = 0; round < 10; ++round) {
        const Pair key0 = both(k0), key1 = both(k1);
        for (int i = 0; i < pairs; ++i) {
            const Pair p0 = times(c.w0[i], m0), p1 = times(c.w2[i], m1);
            c.w0[i] = upper(p1) ^ c.w1[i] ^ key0;
            c.w1[i] = p1;
            c.w2[i] = upper(p0) ^ c.w3[i] ^ key1;
            c.w3[i] = p0;
        }
        k0 += 0x9E3779B9u;
        k1 += 0xBB67AE85u;
    }
}

}  // namespace sim
