#include "engine/store/journal.h"

#include "engine/store/owner.h"
#include "tests/engine/store/made_up.h"

#include <catch2/catch.hpp>

#include <csignal>
#include <sys/resource.h>
#include <sys/wait.h>

using namespace engine;

namespace {

std::unique_ptr<Journal> opened(const std::string& path) {
    auto journal = Journal::open(path);
    INFO(made_up::fault_of(journal));
    REQUIRE(journal.ok());
    return std::move(journal.value());
}

bool same(const AttemptHeader& a, const AttemptHeader& b) {
    return a.id == b.id && a.person == b.person && a.scenario_id == b.scenario_id &&
           a.scenario_sha256 == b.scenario_sha256 && a.protocol_id == b.protocol_id &&
           a.protocol_sha256 == b.protocol_sha256 && a.seed == b.seed && a.truth == b.truth &&
           a.program == b.program && a.output_mode == b.output_mode && a.device_delay_s == b.device_delay_s;
}

}  // namespace

TEST_CASE("an attempt comes back from the journal with every header field and all 10 events as they were",
          "[journal]") {
    made_up::Folder folder;
    const Attempt begun = made_up::attempt(made_up::id(1));
    {
        auto journal = opened(folder.at("journal.db"));
        journal->begin(begun);
        for (const Event& event : made_up::some_events()) journal->add(begun.header.id, event);
        journal->remark(begun.header.id, "paused: " + made_up::awkward);
        REQUIRE(journal->flush().ok());
        CHECK(journal->committed(begun.header.id) == 10);
        CHECK(journal->committed(made_up::id(2)) == 0);
    }
    auto journal = opened(folder.at("journal.db"));
    const auto list = journal->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    const Interrupted& one = list->front();
    CHECK(same(one.header, begun.header));
    CHECK(one.scenario_text == begun.scenario_text);
    CHECK(one.protocol_text == begun.protocol_text);
    CHECK(one.events == made_up::some_events());
    CHECK(one.last_utc.size() == std::string("2026-01-01T00:00:00.000Z").size());
    CHECK(made_up::sql(folder.at("journal.db"), "SELECT what FROM remark") ==
          std::vector<std::string>{"paused: " + made_up::awkward});
}

TEST_CASE("one attempt with a contraction of 999 s cannot be read back, says so, and hides no other",
          "[journal]") {
    made_up::Folder folder;
    const Attempt sound = made_up::attempt(made_up::id(1)), spoilt = made_up::attempt(made_up::id(2));
    {
        auto journal = opened(folder.at("journal.db"));
        for (const Attempt* begun : {&sound, &spoilt}) {
            journal->begin(*begun);
            for (const Event& event : made_up::some_events()) journal->add(begun->header.id, event);
        }
        Event felt = made_up::event(1000, Do::report_contractions);
        felt.length_s = 999;  // a file may say 0 to 600
        journal->add(spoilt.header.id, felt);
        REQUIRE(journal->flush().ok());
    }
    auto journal = opened(folder.at("journal.db"));
    const auto list = journal->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 2);
    for (const Interrupted& one : *list) {
        if (one.header.id == sound.header.id) {
            CHECK_FALSE(one.unreadable.has_value());
            CHECK(one.events == made_up::some_events());
        } else {
            REQUIRE(one.unreadable.has_value());
            CHECK(one.unreadable->found == "999");
            CHECK(one.events.empty());
        }
    }
}

TEST_CASE("what was typed and not written comes back by its field, the last of each, and is no event",
          "[journal]") {
    made_up::Folder folder;
    const Attempt begun = made_up::attempt(made_up::id(1));
    {
        auto journal = opened(folder.at("journal.db"));
        journal->begin(begun);
        journal->draft(begun.header.id, "note", "it slo");
        journal->draft(begun.header.id, "note", "it slows: " + made_up::awkward);
        journal->remark(begun.header.id, "pause: window hidden");
        journal->draft(begun.header.id, "situation", "FHR 98, her pulse 84");
        journal->draft(begun.header.id, "done", "turned");
        journal->draft(begun.header.id, "done", "");  // written, and so empty again
        REQUIRE(journal->flush().ok());
        CHECK(journal->committed(begun.header.id) == 0);
    }
    auto journal = opened(folder.at("journal.db"));
    const auto list = journal->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    CHECK(list->front().events.empty());
    CHECK(list->front().drafts ==
          std::map<std::string, std::string>{{"done", ""},
                                             {"note", "it slows: " + made_up::awkward},
                                             {"situation", "FHR 98, her pulse 84"}});
}

TEST_CASE("closing the journal at once after 500 events loses none", "[journal]") {
    made_up::Folder folder;
    {
        auto journal = opened(folder.at("journal.db"));
        journal->begin(made_up::attempt(made_up::id(1)));
        for (int n = 0; n < 500; ++n) journal->add(made_up::id(1), made_up::event(n, Do::tap));
    }
    const auto list = opened(folder.at("journal.db"))->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    REQUIRE(list->front().events.size() == 500);
    CHECK(list->front().events[499].t.us == 499'000'000);
}

TEST_CASE("an attempt taken up again keeps its 10 events once and goes on with the 11th", "[journal]") {
    made_up::Folder folder;
    Attempt attempt = made_up::attempt(made_up::id(1));
    {
        auto journal = opened(folder.at("journal.db"));
        journal->begin(attempt);
        journal->begin(attempt);  // twice changes nothing
        for (const Event& event : made_up::some_events()) journal->add(attempt.header.id, event);
    }
    auto journal = opened(folder.at("journal.db"));
    attempt.events = made_up::some_events();
    journal->begin(attempt);
    journal->add(attempt.header.id, made_up::event(200, Do::lift));
    REQUIRE(journal->flush().ok());
    CHECK(journal->committed(attempt.header.id) == 11);
    const auto list = journal->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    CHECK(list->front().events.size() == 11);
    CHECK(list->front().events.back().what == Do::lift);
}

TEST_CASE("a dropped attempt is gone with its events and remarks, the other one stays", "[journal]") {
    made_up::Folder folder;
    auto journal = opened(folder.at("journal.db"));
    for (int n = 1; n <= 2; ++n) {
        journal->begin(made_up::attempt(made_up::id(n)));
        journal->add(made_up::id(n), made_up::event(1, Do::tap));
        journal->remark(made_up::id(n), "paused");
    }
    journal->drop(made_up::id(1));
    const auto list = journal->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 1);
    CHECK(list->front().header.id == made_up::id(2));
    CHECK(made_up::sql(folder.at("journal.db"),
                       "SELECT attempt FROM event UNION ALL SELECT attempt FROM remark") ==
          std::vector<std::string>{made_up::id(2), made_up::id(2)});
}

TEST_CASE("two journals open on one file write 200 events each and neither loses one", "[journal]") {
    made_up::Folder folder;
    auto first = opened(folder.at("journal.db")), second = opened(folder.at("journal.db"));
    first->begin(made_up::attempt(made_up::id(1)));
    second->begin(made_up::attempt(made_up::id(2)));
    for (int n = 0; n < 200; ++n) {
        first->add(made_up::id(1), made_up::event(n, Do::tap));
        second->add(made_up::id(2), made_up::event(n, Do::tap));
    }
    REQUIRE(first->flush().ok());
    REQUIRE(second->flush().ok());
    const auto list = first->interrupted();
    REQUIRE(list.ok());
    REQUIRE(list->size() == 2);
    CHECK((*list)[0].events.size() == 200);
    CHECK((*list)[1].events.size() == 200);
}

TEST_CASE("a process is still running under its own number and start only", "[journal]") {
    const Owner self = this_process();
    CHECK(still_running(self));
    Owner other = self;
    other.started += "1";  // the number was given to another process since
    CHECK_FALSE(still_running(other));
    other = self;
    other.boot = "another boot";
    CHECK_FALSE(still_running(other));
}

TEST_CASE("a disk that is full faults with its path, and what was queued is written once there is room",
          "[journal]") {
    made_up::Folder folder;
    const std::string path = folder.at("journal.db");
    int ends[2];
    REQUIRE(pipe(ends) == 0);
    const pid_t child = fork();
    if (child == 0) {
        const auto say = [&](const std::string& text) {
            if (write(ends[1], text.data(), text.size()) < 0) _exit(3);
        };
        auto journal = Journal::open(path);
        if (!journal) _exit(2);
        Journal& j = *journal.value();
        j.begin(made_up::attempt(made_up::id(1)));
        if (!j.flush()) _exit(2);
        // The kernel refuses to let any file grow past a limit: what a full disk looks like from here.
        std::signal(SIGXFSZ, SIG_IGN);
        rlimit limit{};
        getrlimit(RLIMIT_FSIZE, &limit);
        const rlim_t before = limit.rlim_cur;
        limit.rlim_cur = 256 * 1024;
        setrlimit(RLIMIT_FSIZE, &limit);
        Event note = made_up::event(1, Do::note);
        note.text = std::string(2000, 'x');
        for (int n = 0; n < 400; ++n) j.add(made_up::id(1), note);
        say(made_up::fault_of(j.flush()) + "\n");
        say(std::to_string(j.committed(made_up::id(1))) + "\n");
        limit.rlim_cur = before;
        setrlimit(RLIMIT_FSIZE, &limit);
        for (int tries = 0; tries < 20 && !j.flush(); ++tries) {
        }
        say(std::to_string(j.committed(made_up::id(1))) + "\n");
        _exit(0);
    }
    close(ends[1]);
    std::string told;
    char buffer[512];
    for (ssize_t got; (got = read(ends[0], buffer, sizeof buffer)) > 0;)
        told.append(buffer, static_cast<std::size_t>(got));
    close(ends[0]);
    int status = 0;
    waitpid(child, &status, 0);
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(
        (told ==
             path +
                 ": the journal, found a disk that took nothing more (full, or its limit reached), allowed: "
                 "a disk with room\n0\n400\n" ||
         told == path + ": the journal, found a full disk, allowed: a disk with room\n0\n400\n"));
    INFO(told);
    const auto list = opened(path)->interrupted();
    REQUIRE(list.ok());
    CHECK(list->front().events.size() == 400);
}
