// Hearing again: from any point the very samples of the first time.
#include "ui/debrief/rehearing.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <thread>

using namespace ui;

namespace {

engine::JudgedAttempt attempt() {
    engine::JudgedAttempt judged;
    judged.played.patient.babies.add({});
    judged.played.end = {40'000'000};
    judged.attempt.header.seed = 7;
    engine::Event take;
    take.t = {1'000'000};
    take.what = engine::Do::take;
    take.instrument = sim::Instrument::horn;
    engine::Event place;
    place.t = {2'000'000};
    place.what = engine::Do::place;
    place.x_cm = 6;
    place.y_cm = -7;
    engine::Event move = place;
    move.t = {21'500'000};
    move.what = engine::Do::move;
    move.x_cm = 3;
    judged.attempt.events = {take, place, move};
    return judged;
}

}  // namespace

TEST_CASE("Playing from 23.4 s gives the samples of a run from the start, bit for bit", "[rehearing]") {
    const auto judged = attempt();
    const auto changes = changes_of(judged);
    REQUIRE(changes.size() == 3);
    const Rehearing rehearing(judged);
    std::optional<Rehearing::From> from;
    for (int i = 0; i < 2000 && !from; ++i) {
        from = rehearing.from(23.4);
        if (!from) std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    REQUIRE(from);
    CHECK(from->listening.now().us == 23'400'000);
    CHECK(from->script.empty());

    sim::Listening straight(judged.played.patient, sim::Seed{7}, sim::OutputMode::true_sound);
    std::size_t next = 0;
    render_on(straight, changes, next, 23'400'000);
    std::vector<float> a(48'000), b(48'000);
    straight.render(a);
    from->listening.render(b);
    CHECK(a == b);
    double energy = 0;
    for (const float v : a) energy += static_cast<double>(v) * static_cast<double>(v);
    CHECK(energy > 0);  // something is heard there
}

TEST_CASE("Playing from 5 s still has the move of 21.5 s to come", "[rehearing]") {
    const Rehearing rehearing(attempt());
    std::optional<Rehearing::From> from;
    for (int i = 0; i < 2000 && !from; ++i) {
        from = rehearing.from(5);
        if (!from) std::this_thread::sleep_for(std::chrono::milliseconds(10));
    }
    REQUIRE(from);
    REQUIRE(from->script.size() == 1);
    CHECK(from->script[0].at_us == 21'500'000);
    CHECK(from->listening.hold().x_cm == 6);
}
