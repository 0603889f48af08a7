// The journal: every event of a running attempt, written as it happens. A local SQLite file beside the store,
// one writer thread. What has been written survives the program being killed at any moment.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/outcome.h"

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace engine {

struct Interrupted {
    AttemptHeader header;
    std::string scenario_text, protocol_text;
    std::vector<Event> events;
    std::map<std::string, std::string> drafts;  // by field: what was typed and not written yet
    std::string last_utc;  // wall time of the last batch, for the person, not for scoring
    // The first thing that cannot be read back: `events` is then empty, and the attempt cannot be taken up.
    std::optional<Fault> unreadable;
};

class Journal {
public:
    // Opens or makes the file. Fault when it is a directory, read-only, another kind of file, or made by a
    // newer program. Several processes may have the same journal open. [any one thread; the calls below too]
    static Outcome<std::unique_ptr<Journal>> open(const std::string& path);
    ~Journal();  // writes what has queued

    // Starts an attempt's record; returns at once, written by the writer thread. Of an attempt that is there
    // already (taken up again) only the events that are missing are added, and this process becomes the one
    // that writes it.
    void begin(const Attempt& attempt);
    void add(const std::string& attempt_id, const Event& event);
    // Audit entries that are not events: pause, resume, device lost. `what` under 200 bytes.
    void remark(const std::string& attempt_id, const std::string& what);
    // What stands typed in a field and is not written yet, empty included. The last one of each field comes
    // back with an interrupted attempt; it is no event and is never judged. `field` holds no colon.
    void draft(const std::string& attempt_id, const std::string& field, const std::string& text);
    // Removes an attempt's rows, after the store has it (or the person gave it up).
    void drop(const std::string& attempt_id);
    // Number of events known to be on disk for the attempt (those taken up with begin() included).
    std::size_t committed(const std::string& attempt_id) const;
    // Waits until everything queued is on disk. Fault: the disk refused (full, gone); nothing queued is lost,
    // it is tried again.
    Outcome<Done> flush();
    // Attempts begun and neither finished nor given up, the latest first. Not those of another process that
    // is still running; those of this very process are there too, the caller knows which one is on the
    // screen. One whose events cannot be read back is there too and says so: it hides none of the others.
    Outcome<std::vector<Interrupted>> interrupted();

private:
    struct Inside;
    explicit Journal(std::unique_ptr<Inside>);
    std::unique_ptr<Inside> inside_;
};

}  // namespace engine
