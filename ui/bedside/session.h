// A running attempt: what the trainee wants becomes timed events, journalled at once. Who applies it, stamps
// it: changes of the hold and acts with an effect are stamped by the renderer when it applies them;
// everything else with the time that is being heard. Events keep the order in which they were wanted, and
// time never goes back: t = max(own, last).
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/outcome.h"
#include "engine/scoring/replay.h"
#include "engine/store/journal.h"
#include "engine/store/store.h"
#include "sim/course/course.h"
#include "ui/sound/device.h"

#include <deque>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace ui {

class Session {
public:
    // A new attempt; nothing sounds before start(). Device and journal must outlive it.
    Session(engine::AttemptHeader header, engine::Scenario scenario, engine::Protocol protocol,
            SoundDevice& device, engine::Journal& journal);
    void start();
    // An interrupted one, brought back to its last event by replaying its changes; it stands still until
    // go_on().
    static engine::Outcome<std::unique_ptr<Session>> resume(const engine::Interrupted& found,
                                                            SoundDevice& device, engine::Journal& journal);

    // Wants an event (its time is set here). Empty when it is taken; else why not, in a short sentence. The
    // refusal looks at everything wanted before, also what the renderer has not stamped yet.
    std::string want(engine::Event event);
    // What is typed and not written yet, kept so that a killed program gives it back; and what came back.
    void keep_draft(const std::string& field, const std::string& text);
    const std::map<std::string, std::string>& drafts() const { return drafts_; }
    // Takes the stamps that have come back, moves what the hands feel to now. Call once a frame.
    void settle();

    // Labour time heard now; stands still while paused.
    sim::LabourTime now() const;
    bool paused() const { return device_.paused(); }
    void pause(const std::string& why);
    void go_on();

    // The hold as wanted (what the screen shows), with everything not stamped yet.
    const sim::Hold& hold() const { return ahead_.hold(); }
    bool counting() const { return ahead_.window_open(); }
    bool counted() const { return counted_; }  // a count has been closed and not yet reported
    bool finished() const { return ahead_.finished(); }
    std::optional<sim::Hand> carrying() const { return ahead_.carrying(); }
    engine::SkipDone skip_stop(sim::LabourTime asked) const { return ahead_.skip_stop(now(), asked); }
    // Acts and events done so far, in order, stamped.
    const std::vector<engine::Event>& events() const { return attempt_.events; }
    // Everything wanted has its stamp.
    bool settled() const { return waiting_.empty(); }
    bool over_time() const;  // the labour cannot be listened to any longer

    const sim::CourseTick& body() const { return body_; }  // as of now, for what a hand feels
    const sim::Patient& patient() const { return patient_; }
    const engine::Scenario& scenario() const { return scenario_; }
    const engine::Protocol& protocol() const { return protocol_; }
    const engine::AttemptHeader& header() const { return attempt_.header; }
    // What acts have found by now, oldest first.
    std::vector<engine::Revealed> found() const;
    // Acts begun and not done yet.
    std::vector<engine::TimedAct> under_way() const;
    // What she has called out by now.
    std::vector<engine::CallOut> called_out() const;
    sim::LabourTime last_pulse_beat() const { return device_.last_maternal_beat(); }
    int displayed_bpm() const { return device_.displayed_bpm(); }
    SoundDevice& device() { return device_; }
    const SoundDevice& device() const { return device_; }

    // Finishes, judges, keeps, drops the journal's rows. The store has it when this returns without a fault.
    engine::Outcome<engine::JudgedAttempt> finish(engine::Store& store);

private:
    struct Wanted {
        engine::Event event;
        std::uint64_t ticket = 0;  // 0 = stamped already
        bool stamped = true;
    };

    void take(engine::Event event);
    void follow_body();

    engine::Attempt attempt_;
    engine::Scenario scenario_;
    engine::Protocol protocol_;
    SoundDevice& device_;
    engine::Journal& journal_;
    sim::Patient patient_;
    engine::Order order_, ahead_;  // as stamped; as wanted
    sim::Course course_;
    sim::CourseTick body_, body_next_;
    std::deque<Wanted> waiting_;
    std::uint64_t tickets_ = 0;
    bool counted_ = false;
    std::vector<engine::Revealed> revealed_;
    std::vector<engine::TimedAct> acts_;
    std::map<std::string, std::string> drafts_;
    bool dirty_ = false;  // acts or skips came: what was found must be worked out
};

}  // namespace ui
