#include "tests/ui/sound/counted.h"

#include <cstdlib>
#include <dlfcn.h>
#include <new>
#include <pthread.h>
#include <semaphore.h>

namespace counted {

std::atomic<long> allocations{0}, locks{0};

}  // namespace counted

#ifdef COUNTED_BY_SANITISER
#include <sanitizer/allocator_interface.h>
const int counting = __sanitizer_install_malloc_and_free_hooks(
    [](const volatile void*, std::size_t) { counted::allocations.fetch_add(1, std::memory_order_relaxed); },
    [](const volatile void*) {});
#else
// Not inlined: the compiler would see free() meet operator new and warn.
[[gnu::noinline]] void* operator new(std::size_t bytes) {
    counted::allocations.fetch_add(1, std::memory_order_relaxed);
    if (void* place = std::malloc(bytes == 0 ? 1 : bytes)) return place;
    throw std::bad_alloc();
}
[[gnu::noinline]] void* operator new[](std::size_t bytes) { return operator new(bytes); }
[[gnu::noinline]] void operator delete(void* place) noexcept { std::free(place); }
[[gnu::noinline]] void operator delete[](void* place) noexcept { std::free(place); }
[[gnu::noinline]] void operator delete(void* place, std::size_t) noexcept { std::free(place); }
[[gnu::noinline]] void operator delete[](void* place, std::size_t) noexcept { std::free(place); }

namespace {

// The library's own, behind the one of the same name here.
template <typename Call>
Call behind(const char* name) {
    return reinterpret_cast<Call>(dlsym(RTLD_NEXT, name));
}

void one_more() { counted::locks.fetch_add(1, std::memory_order_relaxed); }

}  // namespace

#define COUNT_LOCK(name, thing)                                  \
    extern "C" int name(thing* it) noexcept {                    \
        static const auto real = behind<int (*)(thing*)>(#name); \
        one_more();                                              \
        return real(it);                                         \
    }
COUNT_LOCK(pthread_mutex_lock, pthread_mutex_t)
COUNT_LOCK(pthread_mutex_trylock, pthread_mutex_t)
COUNT_LOCK(pthread_rwlock_rdlock, pthread_rwlock_t)
COUNT_LOCK(pthread_rwlock_wrlock, pthread_rwlock_t)
#undef COUNT_LOCK

extern "C" int sem_wait(sem_t* it) {
    static const auto real = behind<int (*)(sem_t*)>("sem_wait");
    one_more();
    return real(it);
}
#endif
