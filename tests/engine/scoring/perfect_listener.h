// A made-up trainee who hears every beat and does what the hands of this test tell it. Counts come from the
// beat train in its own window, so whatever the score sheet finds wrong was put in by the test.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/scoring/replay.h"
#include "engine/scoring/score_sheet.h"
#include "sim/body/abdomen.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

namespace perfect {

using namespace engine;

inline std::string file_text(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    REQUIRE(in);
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
}

inline std::string shipped(const char* folder, const std::string& stem) {
    std::ostringstream path;
    path << FULLMINUTE_SOURCE_DIR << "/scenarios/" << folder << '/' << stem << ".toml";
    return path.str();
}

inline Protocol protocol_named(const std::string& id) {
    auto read = read_protocol_file(shipped("protocols", id));
    REQUIRE(read.ok());
    return read.value();
}

inline Scenario scenario_named(const std::string& stem) {
    auto read = read_scenario_file(shipped("library", stem));
    REQUIRE(read.ok());
    return read.value();
}

// The seed of listeners made from here on.
inline double seed_in_use = 1;

class Listener {
public:
    explicit Listener(const std::string& stem, Protocol with = protocol_named("who-2018"))
        : scenario(scenario_named(stem)), protocol(std::move(with)) {}

    Scenario scenario;
    Protocol protocol;
    std::vector<Event> events;
    double t = 0;  // seconds; every step moves it on
    double seed = seed_in_use;

    Event& add(Do what) {
        Event e;
        e.t = sim::labour_time(sim::Seconds{t});
        e.what = what;
        events.push_back(e);
        return events.back();
    }
    Listener& wait(double s) {
        t += s;
        return *this;
    }
    Listener& until(double s) {
        t = std::max(t, s);
        return *this;
    }

    Played played() const {
        return play(scenario, protocol, sim::Seed{static_cast<std::uint64_t>(seed)}, events);
    }
    ScoreSheet sheet() const {
        const auto fault = check_order(scenario, protocol, events, "test");
        if (fault) INFO(in_one_line(*fault));
        if (fault) FAIL(in_one_line(*fault));
        return judge(scenario, protocol, played());
    }

    Listener& greet() { return act("greet_and_ask"); }
    Listener& explain() { return act("explain_findings"); }
    Listener& act(const std::string& id) {
        add(Do::act).act = id;
        t += 2;
        return *this;
    }
    Listener& take(sim::Instrument i) {
        add(Do::take).instrument = i;
        t += 1;
        instrument_ = i;
        if (i == sim::Instrument::doppler) {
            add(Do::gel);
            t += 1;
        }
        return *this;
    }
    Listener& place(double x, double y, double press = 8) {
        Event& e = add(Do::place);
        e.x_cm = std::round(x * 100) / 100;
        e.y_cm = std::round(y * 100) / 100;
        e.press_n = press;
        t += 1;
        return *this;
    }
    // Where the baby is loudest at this moment.
    Listener& place_best(int baby = 0) {
        const Played now = play(scenario, protocol, sim::Seed{static_cast<std::uint64_t>(seed)}, events);
        const sim::BestSpot best =
            sim::best_spot(now.patient,
                           now.course.at(static_cast<std::size_t>(
                               std::min(static_cast<double>(now.course.size()) - 1, std::floor(t * 4)))),
                           instrument_, baby);
        baby_ = baby;
        return place(best.x_cm, best.y_cm);
    }
    Listener& wrist() { return hand(sim::Hand::left, sim::On::wrist); }
    Listener& belly() { return hand(sim::Hand::left, sim::On::belly); }
    Listener& hand(sim::Hand which, sim::On on) {
        Event& e = add(Do::hand);
        e.hand = which;
        e.on = on;
        t += 1;
        return *this;
    }
    // Her pulse as it was over the last 15 s, nearest whole number.
    Listener& report_pulse() {
        add(Do::report_pulse);
        const Played now = played();
        pulse_bpm = static_cast<int>(std::lround(
            sim::rate_between(now.maternal, sim::labour_time({t - 16}), sim::labour_time({t - 1})).value));
        events.back().bpm = pulse_bpm;
        t += 1;
        return *this;
    }
    // Counts over `own` seconds meant as `plan`; `beats_off` is added to the true beats of the own window,
    // and `written` replaces the right product. `mother`: her beats are counted. Of twins the one last placed
    // on.
    struct Slip {
        double own = 0;
        int beats_off = 0;
        int written = -1;
        bool mother = false;
    };
    Listener& count(double plan = 60) { return count(plan, Slip()); }
    Listener& count(double plan, Slip slip) {
        if (slip.own <= 0) slip.own = plan;
        const double from = t;
        add(Do::start_window).plan_s = plan;
        t += slip.own;
        add(Do::stop_window);
        const Played now = played();
        const auto& followed = slip.mother ? now.maternal : baby_ == 1 ? now.fetal2 : now.fetal;
        beats =
            static_cast<int>(sim::beats_between(followed, sim::labour_time({from}), sim::labour_time({t}))) +
            slip.beats_off;
        t += 2;
        Event& e = add(Do::report);
        e.beats = beats;
        e.bpm = slip.written >= 0 ? slip.written : static_cast<int>(std::lround(beats * 60.0 / plan));
        bpm = *e.bpm;
        t += 1;
        return *this;
    }
    Listener& lift() {
        add(Do::lift);
        t += 2;
        return *this;
    }
    Listener& decide(SourceIs source, BaselineIs baseline = BaselineIs::not_said,
                     Around around = Around::not_said, RhythmIs rhythm = RhythmIs::not_said,
                     bool unsure = false) {
        add(Do::decide).decision = {source, baseline, around, rhythm, unsure};
        t += 2;
        return *this;
    }
    Listener& record(const std::string& when, const std::string& slowing, const std::string& done = "") {
        Event& e = add(Do::record);
        if (bpm > 0) e.bpm = bpm;
        if (pulse_bpm > 0) e.pulse_bpm = pulse_bpm;
        e.when = when;
        e.slowing = slowing;
        e.done = done;
        t += 2;
        return *this;
    }
    Listener& referral() {
        Event& e = add(Do::handover);
        e.situation =
            "Baby's heart " + std::to_string(bpm) + ", her pulse " + std::to_string(pulse_bpm) + ".";
        e.background = "Heard through and after contractions, for 20 min now.";
        e.assessment = "Turned to her left, waters and temperature looked at, cord lifted off, drip off.";
        e.request = "Please be ready for her.";
        t += 2;
        return *this;
    }
    Listener& finish() {
        add(Do::finish);
        return *this;
    }
    // The end of contraction n as it runs with what was done so far, seconds.
    double contraction_end(int n) const {
        std::vector<Event> more = events;
        Event e;
        e.t = sim::labour_time(scenario.length);
        e.what = Do::finish;
        more.push_back(e);
        const Played far = play(scenario, protocol, sim::Seed{static_cast<std::uint64_t>(seed)}, more);
        return far.contractions.at(static_cast<std::size_t>(n)).to.seconds();
    }

    int bpm = 0, beats = 0, pulse_bpm = 0;

private:
    sim::Instrument instrument_ = sim::Instrument::none;
    int baby_ = 0;  // the twin whose place was found last
};

inline const AspectScore& aspect(const ScoreSheet& sheet, Aspect a) {
    return sheet.aspects.at(static_cast<std::size_t>(a));
}
inline Verdict verdict(const ScoreSheet& sheet, Aspect a) { return aspect(sheet, a).verdict; }

// Every aspect with its verdict and reason, for a failing test.
inline std::string told(const ScoreSheet& sheet) {
    std::ostringstream s;
    for (const AspectScore& a : sheet.aspects) {
        s << name_of(a.aspect) << ' ' << name_of(a.verdict);
        if (a.follows_from) s << " (from " << name_of(*a.follows_from) << ')';
        s << ": " << a.why << '\n';
    }
    for (const ActScore& a : sheet.acts)
        s << "  " << a.verdict << ' ' << a.act << " [" << a.situation << "] known " << a.known_from_s
          << " done " << a.done_s << " within " << a.within_s << '\n';
    for (const std::string& c : sheet.critical_missed) s << "  critical: " << c << '\n';
    return s.str();
}

}  // namespace perfect
