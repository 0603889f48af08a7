// kill -9 at any moment. This shows that nothing depends on the program ending well; it does not show what a
// power cut leaves, which depends on whether the disk tells the truth about what it has written.
#include "engine/store/journal.h"
#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <csignal>
#include <sys/wait.h>

using namespace engine;

namespace {

std::int64_t now_ms() {
    return std::chrono::duration_cast<std::chrono::milliseconds>(
               std::chrono::steady_clock::now().time_since_epoch())
        .count();
}

struct Told {  // by the child, through a pipe, before it is killed
    std::int64_t added = 0, committed = 0, at_ms = 0;
};

// Adds events at speed until it is killed, telling every millisecond how many it added and how many it was
// told are on disk.
[[noreturn]] void add_for_ever(const std::string& path, const std::string& id, int pipe_end) {
    auto opened = Journal::open(path);
    if (!opened) _exit(2);
    Journal& journal = *opened.value();
    journal.begin(made_up::attempt(id));
    for (std::int64_t n = 0;;) {
        for (int k = 0; k < 5; ++k) journal.add(id, made_up::event(static_cast<double>(n++) * 1e-3, Do::tap));
        const Told told{n, static_cast<std::int64_t>(journal.committed(id)), now_ms()};
        if (write(pipe_end, &told, sizeof told) != sizeof told) _exit(2);
        usleep(1000);
    }
}

}  // namespace

TEST_CASE("killed 20 times while writing: every event told to be on disk is there, the attempt is offered",
          "[journal]") {
    made_up::Folder folder;
    const std::string path = folder.at("journal.db");
    std::vector<std::int64_t> oldest_lost_ms;
    for (int round = 0; round < 20; ++round) {
        const std::string id = made_up::id(round);
        int ends[2];
        REQUIRE(pipe(ends) == 0);
        const pid_t child = fork();
        if (child == 0) add_for_ever(path, id, ends[1]);
        close(ends[1]);
        std::vector<Told> all;
        Told told;
        // Until something is on disk, then a different while longer each time.
        while (read(ends[0], &told, sizeof told) == sizeof told) {
            all.push_back(told);
            if (told.committed > 0) break;
        }
        usleep(static_cast<useconds_t>(5'000 + 7'300 * round));
        const std::int64_t killed_ms = now_ms();
        kill(child, SIGKILL);
        int status = 0;
        waitpid(child, &status, 0);
        REQUIRE(WIFSIGNALED(status));
        while (read(ends[0], &told, sizeof told) == sizeof told) all.push_back(told);
        close(ends[0]);
        REQUIRE(all.size() > 5);

        auto journal = Journal::open(path);
        REQUIRE(journal.ok());
        const auto list = journal.value()->interrupted();
        INFO(made_up::fault_of(list));
        REQUIRE(list.ok());
        REQUIRE(list->size() == 1);
        CHECK(list->front().header.id == id);
        const std::vector<Event>& events = list->front().events;
        const auto kept = static_cast<std::int64_t>(events.size());
        CHECK(all.back().committed > 0);
        CHECK(kept >= all.back().committed);
        for (std::int64_t n = 0; n < kept; ++n)
            if (events[static_cast<std::size_t>(n)].t.us != n * 1000)
                FAIL("event " << n << " is another one");
        std::int64_t age = 0;
        for (const Told& t : all)
            if (t.added > kept) age = std::max(age, killed_ms - t.at_ms);
        oldest_lost_ms.push_back(age);
        journal.value()->drop(id);
        REQUIRE(journal.value()->flush().ok());
    }
    // The middle of twenty, so that one stall of a busy machine is no failure: a tenth of a second at most is
    // lost.
    std::sort(oldest_lost_ms.begin(), oldest_lost_ms.end());
    CHECK(oldest_lost_ms[10] <= 100);
}

TEST_CASE("an attempt of a process that is still running is not offered; after its end it is", "[journal]") {
    made_up::Folder folder;
    const std::string path = folder.at("journal.db");
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    const pid_t child = fork();
    if (child == 0) add_for_ever(path, made_up::id(7), ends[1]);
    close(ends[1]);
    Told told;
    while (read(ends[0], &told, sizeof told) == sizeof told && told.committed == 0) {
    }
    REQUIRE(told.committed > 0);
    auto journal = Journal::open(path);
    REQUIRE(journal.ok());
    auto list = journal.value()->interrupted();
    REQUIRE(list.ok());
    CHECK(list->empty());
    CHECK(made_up::sql(path, "SELECT count(*) FROM attempt") == std::vector<std::string>{"1"});
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    close(ends[0]);
    list = journal.value()->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    CHECK(list->front().header.id == made_up::id(7));
}
