#include "ui/bedside/session.h"

#include "sim/listening.h"
#include "ui/files.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <thread>

namespace ui {
namespace {

sim::OutputMode mode_named(const std::string& name) {
    if (name == "assisted") return sim::OutputMode::assisted;
    if (name == "shifted") return sim::OutputMode::shifted;
    return sim::OutputMode::true_sound;
}

// Sound made and thrown away until `until`.
void run_to(sim::Listening& listening, std::int64_t until_us) {
    std::array<float, 96 * 8> thrown;
    while (listening.now().us < until_us) {
        const std::int64_t left = (until_us - listening.now().us) * 48 / 1000;
        const auto n = static_cast<std::size_t>(std::clamp<std::int64_t>(left, 1, 96 * 8));
        listening.render(std::span(thrown.data(), n));
    }
}

// Changes as the body and the sound take them; a skip ends where the woman or the clock stops it.
std::optional<sim::Change> change_for(const engine::Event& event, const engine::Order& before) {
    auto change = engine::change_of(event);
    if (change && event.what == engine::Do::skip)
        change->skip_to_us = before.skip_stop(event.t, sim::labour_time({event.skip_to_s})).to.us;
    return change;
}

}  // namespace

Session::Session(engine::AttemptHeader header, engine::Scenario scenario, engine::Protocol protocol,
                 SoundDevice& device, engine::Journal& journal)
    : scenario_(std::move(scenario)),
      protocol_(std::move(protocol)),
      device_(device),
      journal_(journal),
      patient_(scenario_.patient({header.seed})),
      order_(scenario_, protocol_),
      ahead_(order_),
      course_(patient_, {header.seed}) {
    attempt_.header = std::move(header);
    attempt_.scenario_text = scenario_.text;
    attempt_.protocol_text = protocol_.text;
    body_ = course_.advance();
    body_next_ = course_.advance();
}

void Session::start() {
    journal_.begin(attempt_);
    device_.begin(sim::Listening(patient_, {attempt_.header.seed}, mode_named(attempt_.header.output_mode)));
}

engine::Outcome<std::unique_ptr<Session>> Session::resume(const engine::Interrupted& found,
                                                          SoundDevice& device, engine::Journal& journal) {
    auto scenario = engine::read_scenario(found.scenario_text, found.header.scenario_id);
    if (!scenario) return scenario.faults();
    auto protocol = engine::read_protocol(found.protocol_text, found.header.protocol_id);
    if (!protocol) return protocol.faults();
    auto session = std::make_unique<Session>(found.header, std::move(scenario).value(),
                                             std::move(protocol).value(), device, journal);
    Session& s = *session;
    s.drafts_ = found.drafts;
    sim::Listening listening(s.patient_, {found.header.seed}, mode_named(found.header.output_mode));
    for (const engine::Event& event : found.events) {
        if (std::string why = s.order_.refuses(event); !why.empty())
            return engine::Fault{"", 0, "the interrupted attempt", why, "events that can follow each other"};
        if (const auto change = change_for(event, s.order_)) {
            run_to(listening, change->at_us);
            listening.apply(*change);
            s.course_.change(*change);
        }
        s.order_.take(event);
        s.attempt_.events.push_back(event);
        if (event.what == engine::Do::stop_window || event.what == engine::Do::lift) s.counted_ = true;
        if (event.what == engine::Do::report || event.what == engine::Do::start_window) s.counted_ = false;
    }
    run_to(listening, s.order_.last().us);
    s.ahead_ = s.order_;
    s.dirty_ = true;
    device.begin(listening, {}, true);
    s.settle();
    return session;
}

void Session::take(engine::Event event) {
    event.t = std::max(event.t, order_.last());
    if (!order_.refuses(event).empty())
        return;  // what came before it turned out otherwise (the end of the labour)
    order_.take(event);
    attempt_.events.push_back(event);
    journal_.add(attempt_.header.id, event);
    if (event.what == engine::Do::act || event.what == engine::Do::skip) dirty_ = true;
}

std::string Session::want(engine::Event event) {
    event.t = std::max(now(), ahead_.last());
    // What a file could not say must not get into the attempt: nobody could take it up or replay it.
    if (const auto read = engine::read_events("[" + engine::to_json(event) + "]", ""); !read) {
        const engine::Fault& fault = read.faults().front();
        return fault.found + ": allowed is " + fault.allowed;
    }
    if (std::string why = ahead_.refuses(event); !why.empty()) return why;
    const bool closes =
        event.what == engine::Do::stop_window || (event.what == engine::Do::lift && counting());
    auto change = change_for(event, ahead_);
    Wanted wanted{event, 0, true};
    if (change) {
        wanted.ticket = change->ticket = ++tickets_;
        wanted.stamped = false;
        change->at_us = 0;  // at once: the renderer's next tick
        if (!device_.send(*change)) return "too much at once: do that again";
    }
    ahead_.take(event);
    if (closes) counted_ = true;
    // Beats alone still wait for their rate.
    if ((event.what == engine::Do::report && event.bpm) || event.what == engine::Do::start_window)
        counted_ = false;
    waiting_.push_back(std::move(wanted));
    settle();
    return "";
}

void Session::keep_draft(const std::string& field, const std::string& text) {
    journal_.draft(attempt_.header.id, field, text);
}

void Session::settle() {
    while (const auto stamped = device_.applied())
        for (Wanted& w : waiting_)
            if (!w.stamped && w.ticket == stamped->ticket) {
                w.stamped = true;
                w.event.t.us = stamped->at_us;
                follow_body();
                course_.change(*stamped);
                break;
            }
    while (!waiting_.empty() && waiting_.front().stamped) {
        take(std::move(waiting_.front().event));
        waiting_.pop_front();
    }
    follow_body();
    if (dirty_ && waiting_.empty()) {
        dirty_ = false;
        const engine::Played played =
            engine::play(scenario_, protocol_, {attempt_.header.seed}, attempt_.events);
        revealed_ = played.revealed;
        acts_.clear();
        for (const engine::TimedAct& act : played.acts)
            if (!act.seen) acts_.push_back(act);
    }
}

void Session::follow_body() {
    const std::int64_t tick = now().us / sim::course_tick_us;
    while (course_.ticks() - 2 < tick) {
        body_ = body_next_;
        body_next_ = course_.advance();
    }
}

sim::LabourTime Session::now() const { return std::max(device_.heard(), order_.last()); }

bool Session::over_time() const { return now().seconds() >= scenario_.length.value - 0.5; }

void Session::pause(const std::string& why) {
    if (device_.paused()) return;
    device_.pause(true);
    journal_.remark(attempt_.header.id, "pause: " + why);
}

void Session::go_on() {
    device_.pause(false);
    journal_.remark(attempt_.header.id, "resume");
}

std::vector<engine::Revealed> Session::found() const {
    std::vector<engine::Revealed> shown;
    for (const engine::Revealed& r : revealed_)
        if (r.at <= now()) shown.push_back(r);
    return shown;
}

std::vector<engine::TimedAct> Session::under_way() const {
    std::vector<engine::TimedAct> shown;
    for (const engine::TimedAct& a : acts_)
        if (a.done_at > now()) shown.push_back(a);
    return shown;
}

std::vector<engine::CallOut> Session::called_out() const {
    std::vector<engine::CallOut> shown;
    for (const engine::CallOut& c : scenario_.call_outs)
        if (sim::labour_time(c.at) <= now()) shown.push_back(c);
    return shown;
}

engine::Outcome<engine::JudgedAttempt> Session::finish(engine::Store& store) {
    if (!finished()) {
        engine::Event end;
        end.what = engine::Do::finish;
        end.t = now();
        // The labour may have run out under the trainee's hands: the last moment counts.
        if (over_time()) end.t = std::min(end.t, sim::labour_time(scenario_.length));
        for (int i = 0; i < 200 && !waiting_.empty(); ++i) {  // stamps come back within two blocks of sound
            settle();
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        for (Wanted& w : waiting_) w.stamped = true;  // device gone: the time wanted is all there is
        settle();
        take(end);
        ahead_ = order_;
    }
    device_.stop();
    auto judged = engine::judge_attempt(attempt_, attempt_.header.id);
    if (!judged) return judged.faults();
    if (auto kept = store.keep(*judged, utc_now()); !kept) return kept.faults();
    journal_.drop(attempt_.header.id);
    return judged;
}

}  // namespace ui
