// Every allocation and every lock of this test program is counted, so that those of the audio callback can
// be.
#pragma once

#include <atomic>

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define COUNTED_BY_SANITISER  // its own operators stand in the way; it tells of allocations, not of locks
#endif
#endif

namespace counted {

extern std::atomic<long> allocations, locks;

}  // namespace counted
