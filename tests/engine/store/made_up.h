// Attempts, events and folders made up for the tests of journal and store.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/scoring/replay.h"
#include "engine/sha256.h"

#include <sqlite3.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>
#include <vector>

namespace made_up {

// In memory where that is possible: these tests are about what is kept, not about how fast a disk syncs.
class Folder {
public:
    Folder() {
        std::string name =
            access("/dev/shm", W_OK | X_OK) == 0 ? "/dev/shm/fullminute-XXXXXX" : "/tmp/fullminute-XXXXXX";
        if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the test");
        path_ = name;
        std::filesystem::permissions(path_, std::filesystem::perms(0755));
    }
    ~Folder() { std::filesystem::remove_all(path_); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    std::string at(const std::string& name) const { return path_ + "/" + name; }

private:
    std::string path_;
};

inline std::string id(int n) {
    std::string digits = std::to_string(n);
    return std::string(32 - digits.size(), '0') + digits;
}

inline const std::string awkward =
    "She said \"it's slow\"; DROP TABLE attempt; -- \xC3\xBCn\xC3\xAF \xE5\xBF\x83 \xF0\x9F\x92\x93 \t%s :id "
    "?";

inline engine::Event event(double t_s, engine::Do what) {
    engine::Event e;
    e.t = sim::labour_time({t_s});
    e.what = what;
    return e;
}

// The events of one short listening, with text that SQL would trip over.
inline std::vector<engine::Event> some_events() {
    using engine::Do;
    std::vector<engine::Event> list;
    list.push_back(event(2.000001, Do::take));
    list.back().instrument = sim::Instrument::horn;
    list.push_back(event(4.5, Do::place));
    list.back().x_cm = 6.13;
    list.back().y_cm = -7.07;
    list.back().press_n = 6.25;
    list.push_back(event(5, Do::hand));
    list.back().on = sim::On::wrist;
    list.push_back(event(30, Do::start_window));
    list.back().plan_s = 60;
    list.push_back(event(30.400123, Do::tap));
    list.push_back(event(90, Do::stop_window));
    list.push_back(event(95, Do::report));
    list.back().beats = 139;
    list.back().bpm = 139;
    list.push_back(event(100, Do::decide));
    list.back().decision.source = engine::SourceIs::baby;
    list.back().decision.baseline = engine::BaselineIs::normal;
    list.push_back(event(103, Do::note));
    list.back().text = awkward;
    list.push_back(event(103, Do::finish));
    return list;
}

inline engine::Attempt attempt(const std::string& attempt_id, const std::string& person = "A-014") {
    engine::Attempt a;
    a.scenario_text =
        "format = \"fullminute-scenario/1\"\nid = \"c01-a-quiet-evening\"\nstory = \"" + awkward + "\"\n" +
        "# long enough to be kept once for everybody ........................................\n";
    a.protocol_text =
        "format = \"fullminute-protocol/1\"\nid = \"who-2018\"\n# also long enough to be kept just once, "
        "for all attempts\n";
    a.header.id = attempt_id;
    a.header.person = person;
    a.header.scenario_id = "c01-a-quiet-evening";
    a.header.scenario_sha256 = engine::sha256_hex(a.scenario_text);
    a.header.protocol_id = "who-2018";
    a.header.protocol_sha256 = engine::sha256_hex(a.protocol_text);
    a.header.seed = sim::Seed::largest;
    a.header.program = "0.1.0";
    a.header.output_mode = "assisted";
    a.header.device_delay_s = 0.021333333333333333;
    return a;
}

// Judged by hand: what the store keeps is what it is given.
inline engine::JudgedAttempt judged(const std::string& attempt_id, const std::string& person = "A-014") {
    engine::JudgedAttempt j;
    j.attempt = attempt(attempt_id, person);
    j.attempt.events = some_events();
    j.scenario.id = j.attempt.header.scenario_id;
    j.scenario.text = j.attempt.scenario_text;
    j.scenario.sha256 = j.attempt.header.scenario_sha256;
    j.protocol.id = j.attempt.header.protocol_id;
    j.protocol.text = j.attempt.protocol_text;
    j.protocol.sha256 = j.attempt.header.protocol_sha256;
    j.protocol.high.bpm = sim::Bpm{160};
    for (int n = 0; n < 9; ++n) {
        engine::AspectScore aspect;
        aspect.aspect = static_cast<engine::Aspect>(n);
        aspect.verdict = engine::Verdict::met;
        aspect.why = awkward;
        j.sheet.aspects.push_back(aspect);
    }
    j.sheet.aspects[3].verdict = engine::Verdict::missed;  // count
    j.sheet.aspects[7].verdict = engine::Verdict::missed;  // record
    j.sheet.aspects[8].verdict = engine::Verdict::not_asked;
    engine::Window window;
    window.from = sim::labour_time({30});
    window.to = sim::labour_time({90});
    window.spell = 0;
    engine::Spell spell;
    spell.instrument = sim::Instrument::horn;
    j.played.windows.push_back(window);
    j.played.spells.push_back(spell);
    engine::WindowScore scored;
    scored.from_s = 30;
    scored.to_s = 90;
    scored.true_beats = 141;
    scored.counted = 139;
    scored.true_bpm = 140.875;
    scored.reported_bpm = 139;
    j.sheet.windows.push_back(scored);
    return j;
}

// Runs SQL on a database file, past the program: to make a file that is newer, older or damaged, and to look
// inside. Gives the rows, columns joined by '|'.
inline std::vector<std::string> sql(const std::string& path, const std::string& text) {
    sqlite3* database = nullptr;
    if (sqlite3_open(path.c_str(), &database) != SQLITE_OK) throw std::runtime_error("cannot open " + path);
    std::vector<std::string> rows;
    char* error = nullptr;
    const auto row = [](void* list, int columns, char** values, char**) {
        std::string joined;
        for (int n = 0; n < columns; ++n)
            joined += (n > 0 ? "|" : "") + std::string(values[n] ? values[n] : "NULL");
        static_cast<std::vector<std::string>*>(list)->push_back(joined);
        return 0;
    };
    sqlite3_exec(database, text.c_str(), row, &rows, &error);
    const std::string said = error == nullptr ? "" : error;
    sqlite3_free(error);
    sqlite3_close(database);
    if (!said.empty()) throw std::runtime_error(said);
    return rows;
}

template <typename T>
std::string fault_of(const engine::Outcome<T>& outcome) {
    if (outcome.ok()) return "(no fault)";
    return in_one_line(outcome.faults().front());
}

}  // namespace made_up
