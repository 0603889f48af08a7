#include <catch2/catch.hpp>

#include "small_labour.h"

using namespace engine;
using Catch::Contains;
using Catch::StartsWith;

namespace {

std::string refused(const std::string& json, const Scenario& scenario = small::labour()) {
    const auto fault = check_order(scenario, small::protocol(), small::events(json), "e.json");
    return fault ? in_one_line(*fault) : "";
}

// Take, place, and then what is under test: index 2, unless more stands before it.
const std::string horn_on =
    R"([{"t": 1, "do": "take", "what": "horn"}, {"t": 2, "do": "place", "x": 6, "y": -7},)";
const std::string doppler_on =
    R"([{"t": 1, "do": "take", "what": "doppler"}, {"t": 2, "do": "place", "x": 6, "y": -7},)";
const std::string doppler_taken = R"([{"t": 1, "do": "take", "what": "doppler"},)";

}  // namespace

TEST_CASE("counting, tapping, moving, pressing, leaning and lifting with nothing placed are refused",
          "[order]") {
    for (const char* what : {R"("start_window")", R"("tap")", R"("move", "x": 1, "y": 1)",
                             R"("press", "press_n": 9)", R"("tilt", "deg": 5)", R"("lift")"}) {
        const std::string line = refused(doppler_taken + R"({"t": 3.5, "do": )" + what + "}]");
        INFO(what);
        CHECK_THAT(line, StartsWith("e.json: events[1] (") &&
                             Contains("at 3.5 s) cannot be: nothing is placed on the abdomen"));
    }
}

TEST_CASE("a second count, a stop without a start, a tap outside a count", "[order]") {
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "start_window"}, {"t": 4, "do": "start_window"}])"),
               Contains("events[3]") && Contains("already running"));
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "stop_window"}])"),
               Contains("events[2]") && Contains("no count is running"));
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "tap"}])"), Contains("no count is running"));
}

TEST_CASE("a report needs a closed count; a new count takes its place", "[order]") {
    const std::string counted =
        horn_on + R"({"t": 3, "do": "start_window"}, {"t": 63, "do": "stop_window"},)";
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "report", "bpm": 140}])"),
               Contains("no count has been made"));
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "start_window"}, {"t": 4, "do": "report", "bpm": 140}])"),
               Contains("stop it first"));
    CHECK(
        refused(counted + R"({"t": 64, "do": "report", "bpm": 140}, {"t": 65, "do": "report", "bpm": 141}])")
            .empty());
    CHECK(refused(counted + R"({"t": 64, "do": "lift"}, {"t": 65, "do": "report", "bpm": 141}])").empty());
}

TEST_CASE("lifting ends an open count: it can be reported, but not stopped again", "[order]") {
    const std::string lifted = horn_on + R"({"t": 3, "do": "start_window"}, {"t": 20, "do": "lift"},)";
    CHECK(refused(lifted + R"({"t": 21, "do": "report", "beats": 40}])").empty());
    CHECK_THAT(refused(lifted + R"({"t": 21, "do": "stop_window"}])"), Contains("no count is running"));
}

TEST_CASE("three hands: the Doppler takes the right one, or the left when the right is busy", "[order]") {
    CHECK(refused(doppler_on + R"({"t": 3, "do": "hand", "hand": "left", "on": "wrist"}])").empty());
    CHECK_THAT(refused(doppler_on + R"({"t": 3, "do": "hand", "hand": "right", "on": "belly"}])"),
               Contains("events[2]") && Contains("the right hand holds the Doppler: a person has two hands"));
    CHECK_THAT(
        refused(
            R"([{"t": 1, "do": "hand", "hand": "right", "on": "belly"}, {"t": 2, "do": "take", "what": "doppler"},
                           {"t": 3, "do": "hand", "hand": "left", "on": "wrist"}])"),
        Contains("events[2]") && Contains("the left hand holds the Doppler"));
    CHECK_THAT(
        refused(
            R"([{"t": 1, "do": "hand", "hand": "right", "on": "belly"}, {"t": 1, "do": "hand", "hand": "left",
                           "on": "wrist"}, {"t": 3, "do": "take", "what": "diaphragm"}])"),
        Contains("events[2]") && Contains("both hands are busy"));
}

TEST_CASE("a hand laid on the Doppler takes it over and frees the other one", "[order]") {
    CHECK(refused(doppler_on + R"({"t": 3, "do": "hand", "hand": "left", "on": "instrument"},
                                  {"t": 4, "do": "hand", "hand": "right", "on": "wrist"}])")
              .empty());
    CHECK_THAT(refused(doppler_on + R"({"t": 3, "do": "hand", "hand": "left", "on": "instrument"},
                                       {"t": 4, "do": "hand", "hand": "left", "on": "wrist"}])"),
               Contains("events[3]") && Contains("the left hand holds"));
    CHECK(refused(R"([{"t": 1, "do": "take", "what": "doppler"}, {"t": 2, "do": "take", "what": "none"},
                      {"t": 3, "do": "hand", "hand": "right", "on": "wrist"}])")
              .empty());
    CHECK_THAT(refused(R"([{"t": 3, "do": "hand", "hand": "left", "on": "instrument"}])"),
               Contains("no instrument is taken"));
}

TEST_CASE("the horn keeps a hand while it is carried and none once it is placed", "[order]") {
    const std::string wrist = R"("hand", "hand": "left", "on": "wrist"})",
                      belly = R"("hand", "hand": "right", "on": "belly"})";
    CHECK_THAT(refused(R"([{"t": 1, "do": "take", "what": "horn"}, {"t": 2, "do": )" + belly + "]"),
               Contains("the right hand holds the horn"));
    const std::string both = horn_on + R"({"t": 3, "do": )" + wrist + R"(, {"t": 4, "do": )" + belly;
    CHECK(refused(both + "]").empty());
    CHECK_THAT(refused(both + R"(, {"t": 5, "do": "lift"}])"),
               Contains("events[4]") && Contains("none is free to lift the horn"));
    CHECK(
        refused(both + R"(, {"t": 5, "do": "hand", "hand": "right", "on": "none"}, {"t": 6, "do": "lift"}])")
            .empty());
    CHECK(refused(horn_on +
                  R"({"t": 3, "do": "hand", "hand": "right", "on": "instrument"}, {"t": 4, "do": )" + wrist +
                  R"(, {"t": 5, "do": "lift"}])")
              .empty());
}

TEST_CASE("after placing, no hand lies on the horn unless it was laid there", "[order]") {
    const auto events =
        small::events(horn_on + R"({"t": 3, "do": "hand", "hand": "right", "on": "instrument"}])");
    Order order(small::labour(), small::protocol());
    order.take(events[0]);
    CHECK(order.carrying() == sim::Hand::right);
    order.take(events[1]);
    CHECK_FALSE(order.carrying());
    CHECK(order.hold().right == sim::On::none);
    order.take(events[2]);
    CHECK(order.hold().right == sim::On::instrument);
}

TEST_CASE("only an instrument of this place can be taken, and only when none is placed", "[order]") {
    CHECK_THAT(refused(R"([{"t": 1, "do": "take", "what": "bell"}])"),
               Contains("there is no cup side of the stethoscope at this place"));
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "take", "what": "doppler"}])"), Contains("lift it first"));
    CHECK_THAT(refused(R"([{"t": 1, "do": "place", "x": 1, "y": 1}])"), Contains("no instrument is taken"));
}

TEST_CASE("a horn can be used flat, half sitting, on either side or standing; a Doppler in all 8 positions",
          "[order]") {
    int horn = 0, doppler = 0;
    for (const char* p : {"flat", "half_sitting", "left_side", "right_side", "sitting", "standing",
                          "hands_and_knees", "knees_and_chest"})
        for (const char* with : {"horn", "doppler"}) {
            const std::string line = refused(R"([{"t": 1, "do": "position", "to": ")" + std::string(p) +
                                             R"("}, {"t": 2, "do": "take", "what": ")" + with +
                                             R"("}, {"t": 3, "do": "place", "x": 1, "y": 1}])");
            if (line.empty())
                ++(with == std::string("horn") ? horn : doppler);
            else
                CHECK_THAT(line, Contains("a horn cannot be used with her"));
        }
    CHECK(horn == 5);
    CHECK(doppler == 8);
}

TEST_CASE("she cannot turn onto hands and knees with the horn placed, and can with the Doppler", "[order]") {
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "position", "to": "hands_and_knees"}])"),
               Contains("lift it first"));
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "act", "what": "knees_chest_hips_up"}])"),
               Contains("lift it first"));
    CHECK(refused(horn_on + R"({"t": 3, "do": "act", "what": "off_her_back"}])").empty());
    CHECK(refused(doppler_on + R"({"t": 3, "do": "act", "what": "knees_chest_hips_up"}])").empty());
}

TEST_CASE("an act is one the protocol lists to be chosen, as often as wanted", "[order]") {
    CHECK_THAT(refused(R"([{"t": 1, "do": "act", "what": "wait_for_rain"}])"),
               Contains("no act `wait_for_rain`"));
    CHECK_THAT(refused(R"([{"t": 1, "do": "act", "what": "feel_pulse"}])"), Contains("never chosen"));
    CHECK(
        refused(
            R"([{"t": 1, "do": "act", "what": "call_for_help"}, {"t": 1, "do": "act", "what": "call_for_help"}])")
            .empty());
}

TEST_CASE("nothing comes after finish, nothing beyond the length, nothing backwards", "[order]") {
    CHECK_THAT(refused(R"([{"t": 1, "do": "finish"}, {"t": 2, "do": "gel"}])"),
               Contains("events[1]") && Contains("the attempt is finished"));
    CHECK(refused(R"([{"t": 600, "do": "finish"}])", small::labour(600)).empty());
    CHECK_THAT(refused(R"([{"t": 600.000001, "do": "finish"}])", small::labour(600)),
               Contains("for 600 s only"));
    Order order(small::labour(), small::protocol());
    Event e;
    e.what = Do::gel;
    e.t.us = 5'000'000;
    order.take(e);
    e.t.us = 4'999'999;
    CHECK_THAT(order.refuses(e), Contains("before the event at 5 s"));
}

TEST_CASE("a skip needs nothing placed, goes ahead only and within the length", "[order]") {
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "skip", "to": 900}])"), Contains("lift it first"));
    CHECK_THAT(refused(R"([{"t": 9, "do": "skip", "to": 9}])"), Contains("goes ahead only"));
    CHECK_THAT(refused(R"([{"t": 9, "do": "skip", "to": 601}])", small::labour(600)),
               Contains("for 600 s only"));
    CHECK(refused(doppler_taken + R"({"t": 3, "do": "skip", "to": 900}, {"t": 900, "do": "gel"}])").empty());
    CHECK_THAT(refused(doppler_taken + R"({"t": 3, "do": "skip", "to": 900}, {"t": 899, "do": "gel"}])"),
               Contains("events[2]") && Contains("the skip goes on until 900 s"));
}

TEST_CASE("after a skip that she cut short at 400 s events go on from 400 s", "[order]") {
    Scenario s = small::labour();
    s.call_outs.push_back({CallOut::Kind::waters_break, {400}, "Something has come away"});
    CHECK(refused(R"([{"t": 3, "do": "skip", "to": 900}, {"t": 400, "do": "gel"}])", s).empty());
    CHECK_THAT(refused(R"([{"t": 3, "do": "skip", "to": 900}, {"t": 399.9, "do": "gel"}])", s),
               Contains("until 400 s"));
}

TEST_CASE("only a Doppler has a number to cover", "[order]") {
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "cover_display"}])"), Contains("only a Doppler"));
    CHECK_THAT(refused(R"([{"t": 3, "do": "cover_display"}])"), Contains("only a Doppler"));
    CHECK(refused(doppler_taken + R"({"t": 3, "do": "cover_display", "covered": false}])").empty());
}

TEST_CASE("without a watch a count is possible, a planned length is not", "[order]") {
    Scenario s = small::labour();
    s.place.watch = false;
    CHECK(refused(horn_on + R"({"t": 3, "do": "start_window"}])", s).empty());
    CHECK_THAT(refused(horn_on + R"({"t": 3, "do": "start_window", "plan_s": 60}])", s),
               Contains("there is no watch here"));
}
