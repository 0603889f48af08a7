// A second copy of a function for AVX2, chosen when the program starts: same bits, sooner. Stands before a
// function's definition; what is inlined into it is copied too. Not with sanitisers, whose start-up does not
// like the choosing.
#pragma once

#if defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define SIM_ONE_COPY
#endif
#endif
#if defined(__x86_64__) && !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__) && \
    !defined(SIM_ONE_COPY)
#define SIM_TWO_COPIES __attribute__((target_clones("default", "avx2")))
#else
#define SIM_TWO_COPIES
#endif
