// Every allocation and every lock of this test program is counted, so that those of the audio callback can
// be. COUNTED_BY_SANITISER, from the build: the address sanitiser's own operators stand in the way; it tells
// of allocations, not of locks.
#pragma once

#include <atomic>

namespace counted {

extern std::atomic<long> allocations, locks;

}  // namespace counted
