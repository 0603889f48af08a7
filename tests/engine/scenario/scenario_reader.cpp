// A file that uses every section lands where it should.
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

namespace {

const std::string full_scenario = R"(format = "fullminute-scenario/1"
id = "a-test"
title = "Two babies"
task = "labour"
level = 4
length = "45 min"
story = "A-001 is in labour."
content_note = "A loss may be met."
boundary = true

[place]
name = "Ambrel hospital"
helpers = 3
to_help = "90 s"
to_theatre = "30 min"
instruments = ["horn", "bell", "diaphragm", "doppler"]
watch = false
trainee = "licensed"
drip_stand = false

[mother]
gestation = "37 wk 5 d"
pulse = "91 bpm"
with_contraction = "-9 bpm"
with_push = "38 bpm"
restless = "20 %"
breaths = "18 per min"
temperature = "37.4 C"
fat = "4 cm"
placenta = "front"
extra_fluid = "1.5 cm"
position = "left_side"

[baby]
baseline = "133.5 bpm"
variability = "active"
rise = "21 bpm"
rise_over = "40 min"
sinusoid = "8 bpm"
early_beat = "6 %"
dropped_beat = "2 %"
drop_every = 4
position = "ROP"
above_brim = "2 fifths"
spot_x = "-11 cm"
spot_y = "-8 cm"
depth = "8 cm"
systole_offset = "250 ms"
movements = "12 per 10 min"

[[baby.event]]
kind = "late"
depth = "28 bpm"
back_after = "50 s"
share = "60 %"
every = 3
from = "2 min"
until = "20 min"

[[baby.event]]
kind = "acceleration"
by = "movement"
depth = "18 bpm"
length = "25 s"
rate = "2 per 10 min"

[baby2]
baseline = "151.7 bpm"
position = "across head right, back behind"

[labour]
stage = "second"
open = "10 cm"
waters = "thick_green"
waters_gone = "90 min"
births_before = 3
scar = true
pushing_for = "25 min"
head_visible = true
contractions = "5 per 10 min"
strength = "60 mmHg"
tone = "12 mmHg"
contraction_length = "70 s"
irregular = "5 %"
double_peaks = "30 %"
first_contraction = "80 s"
pushing = true
drip = true
without_drip = "4 per 10 min"
contractions_stop = "20 min"

[[labour.call]]
kind = "pain_changes"
at = "19 min"
says = "It tears!"

[cause]
trouble = "scar_gives_way"
at = "20 min"
falls_to = "62.3 bpm"
falls_over = "45 s"
recovers_over = "10 min"
answer = "0 %"

[[finding]]
act = "check_bleeding"
says = "Fresh blood, womb hard."
situation = "bleeding"
from = "20 min"
until = "40 min"

[[chart]]
ago = "30 min"
rate = "134 bpm"
pulse = "88 bpm"
remark = "pushing"

[sound]
ladder = "very_hard"
ward = "-12 dB"
souffle = "-6 dB"
souffle_x = "7 cm"
souffle_y = "-10 cm"
vessel = "-3 dB"
vessel_x = "4 cm"
vessel_y = "-14 cm"
cord = "-9 dB"
cord_x = "1 cm"
cord_y = "3 cm"
bowel = "9 per min"

[teaching]
notes = ["One.", "Two."]
)";

}  // namespace

TEST_CASE("Every key of a full file lands in its own place, in the unit of that place", "[reader]") {
    const auto read = engine::read_scenario(full_scenario, "a-test.toml");
    for (const std::string& line : lines_of(read.faults())) UNSCOPED_INFO(line);
    REQUIRE(read.ok());
    const engine::Scenario& s = *read;
    CHECK(s.id == "a-test");
    CHECK(s.task == engine::Task::labour);
    CHECK(s.level == 4);
    CHECK(s.length.value == 2700);
    CHECK(s.boundary);
    CHECK(s.content_note == "A loss may be met.");
    CHECK(s.place.helpers == 3);
    CHECK(s.place.minutes_to_help == 1.5);
    CHECK(s.place.minutes_to_theatre == 30);
    using sim::Instrument;
    CHECK(s.place.instruments ==
          std::vector{Instrument::horn, Instrument::bell, Instrument::diaphragm, Instrument::doppler});
    CHECK_FALSE(s.place.watch);
    CHECK_FALSE(s.place.drip_stand);
    CHECK(s.place.trainee == engine::Licence::licensed);

    const sim::Patient& p = s.middle;
    CHECK(p.gestation_weeks == Approx(37 + 5.0 / 7).margin(1e-12));
    CHECK(p.mother.pulse.value == 91);
    CHECK(p.mother.with_contraction.value == -9);
    CHECK(p.mother.with_push.value == 38);
    CHECK(p.mother.restless == Approx(0.2));
    CHECK(p.mother.breaths_per_min == 18);
    CHECK(p.mother.temperature_c == 37.4);
    CHECK(p.mother.fat.value == 4);
    CHECK(p.mother.placenta == sim::Placenta::front);
    CHECK(p.mother.extra_fluid_cm == 1.5);
    CHECK(p.mother.position == sim::Position::left_side);

    REQUIRE(p.babies.size == 2);
    const sim::Baby& b = p.babies[0];
    CHECK(b.heart_beats);
    CHECK(b.baseline.value == 133.5);
    CHECK(b.variability == sim::Variability::active);
    CHECK(b.rise.value == 21);
    CHECK(b.rise_over.value == 2400);
    CHECK(b.sinusoid.value == 8);
    CHECK(b.rhythm.early_beat == Approx(0.06));
    CHECK(b.rhythm.dropped_beat == Approx(0.02));
    CHECK(b.rhythm.drop_every == 4);
    CHECK(b.presentation == sim::Presentation::head);
    CHECK(b.back == sim::Back::right_behind);
    CHECK(b.fifths_above_brim == 2);
    CHECK(b.spot_given);
    CHECK(b.spot_x.value == -11);
    CHECK(b.spot_y.value == -8);
    CHECK(b.depth.value == 8);
    CHECK(b.systole_offset_ms == 250);
    CHECK(b.movements_per_10min == 12);
    REQUIRE(b.events.size == 2);
    CHECK(b.events[0].kind == sim::BabyEvent::Kind::late);
    CHECK(b.events[0].by == sim::BabyEvent::Brought_on_by::contraction);
    CHECK(b.events[0].depth.value == 28);
    CHECK(b.events[0].back_after.value == 50);
    CHECK(b.events[0].share == Approx(0.6));
    CHECK(b.events[0].every == 3);
    CHECK(b.events[0].from.value == 120);
    CHECK(b.events[0].until.value == 1200);
    CHECK(b.events[1].kind == sim::BabyEvent::Kind::acceleration);
    CHECK(b.events[1].by == sim::BabyEvent::Brought_on_by::movement);
    CHECK(b.events[1].length.value == 25);
    CHECK(b.events[1].rate_per_10min.value == 2);
    CHECK(p.babies[1].baseline.value == 151.7);
    CHECK(p.babies[1].presentation == sim::Presentation::across);
    CHECK(p.babies[1].back == sim::Back::right_behind);
    CHECK_FALSE(p.babies[1].spot_given);

    CHECK(s.labour.stage == engine::Stage::second);
    CHECK(s.labour.open_cm == 10);
    CHECK(s.labour.waters == engine::Waters::thick_green);
    CHECK(s.labour.waters_gone_hours == 1.5);
    CHECK(s.labour.births_before == 3);
    CHECK(s.labour.scar);
    CHECK(s.labour.pushing_minutes == 25);
    CHECK(s.labour.head_visible);
    CHECK(p.labour.contractions_per_10min == 5);
    CHECK(p.labour.strength.value == 60);
    CHECK(p.labour.tone.value == 12);
    CHECK(p.labour.contraction_length.value == 70);
    CHECK(p.labour.irregular == Approx(0.05));
    CHECK(p.labour.double_peaks == Approx(0.3));
    CHECK(p.labour.first_contraction.value == 80);
    CHECK(p.labour.pushing);
    CHECK(p.labour.oxytocin_drip);
    CHECK(p.labour.per_10min_without_drip == 4);
    CHECK(p.labour.contractions_stop.value == 1200);
    REQUIRE(s.call_outs.size() == 1);
    CHECK(s.call_outs[0].kind == engine::CallOut::Kind::pain_changes);
    CHECK(s.call_outs[0].at.value == 1140);
    CHECK(s.call_outs[0].says == "It tears!");

    CHECK(p.cause.trouble == sim::Trouble::scar_gives_way);
    CHECK(p.cause.at.value == 1200);
    CHECK(p.cause.falls_to.value == 62.3);
    CHECK(p.cause.falls_over.value == 45);
    CHECK(p.cause.recovers_over.value == 600);
    CHECK(p.cause.answer == 0);
    REQUIRE(s.findings.size() == 1);
    CHECK(s.findings[0].act == "check_bleeding");
    CHECK(s.findings[0].says == "Fresh blood, womb hard.");
    CHECK(s.findings[0].situation == "bleeding");
    CHECK(s.findings[0].from.value == 1200);
    CHECK(s.findings[0].until.value == 2400);
    REQUIRE(s.chart.size() == 1);
    CHECK(s.chart[0].minutes_ago == 30);
    CHECK(s.chart[0].bpm == 134);
    CHECK(s.chart[0].pulse_bpm == 88);
    CHECK(s.chart[0].remark == "pushing");

    CHECK(p.surroundings.ladder == sim::Ladder::very_hard);
    CHECK(p.surroundings.ward.value == -12);
    CHECK(p.surroundings.souffle.value == -6);
    CHECK(p.surroundings.souffle_x.value == 7);
    CHECK(p.surroundings.souffle_y.value == -10);
    CHECK(p.surroundings.vessel.value == -3);
    CHECK(p.surroundings.vessel_x.value == 4);
    CHECK(p.surroundings.vessel_y.value == -14);
    CHECK(p.surroundings.cord_souffle.value == -9);
    CHECK(p.surroundings.cord_x.value == 1);
    CHECK(p.surroundings.cord_y.value == 3);
    CHECK(p.surroundings.bowel_per_min == 9);
    CHECK(s.teaching == std::vector<std::string>{"One.", "Two."});
    CHECK(s.text == full_scenario);
}

TEST_CASE("The mark of a file is the SHA-256 of its bytes: a blank more is another file", "[reader]") {
    const auto one = engine::read_scenario(right_scenario, "a-test.toml");
    const auto two = engine::read_scenario(right_scenario + " ", "a-test.toml");
    REQUIRE(one.ok());
    REQUIRE(two.ok());
    CHECK(one->sha256.size() == 64);
    CHECK(one->sha256 != two->sha256);
}

TEST_CASE("The trade's sixteen positions each give lie and back", "[reader]") {
    using sim::Back;
    using sim::Presentation;
    struct Row {
        const char* word;
        Presentation lowest;
        Back back;
    };
    const Row rows[] = {
        {"LOA", Presentation::head, Back::left_front},
        {"LOT", Presentation::head, Back::left_side},
        {"LOP", Presentation::head, Back::left_behind},
        {"ROA", Presentation::head, Back::right_front},
        {"ROT", Presentation::head, Back::right_side},
        {"ROP", Presentation::head, Back::right_behind},
        {"OA", Presentation::head, Back::front},
        {"OP", Presentation::head, Back::behind},
        {"LSA", Presentation::breech, Back::left_front},
        {"LST", Presentation::breech, Back::left_side},
        {"LSP", Presentation::breech, Back::left_behind},
        {"RSA", Presentation::breech, Back::right_front},
        {"RST", Presentation::breech, Back::right_side},
        {"RSP", Presentation::breech, Back::right_behind},
        {"SA", Presentation::breech, Back::front},
        {"SP", Presentation::breech, Back::behind},
        {"across head left", Presentation::across, Back::left_front},
        {"across head right", Presentation::across, Back::right_front},
        {"across head left, back behind", Presentation::across, Back::left_behind},
    };
    for (const Row& row : rows) {
        INFO(row.word);
        const auto read = engine::read_scenario(with(right_scenario, "LOA", row.word), "a-test.toml");
        REQUIRE(read.ok());
        CHECK(read->middle.babies[0].presentation == row.lowest);
        CHECK(read->middle.babies[0].back == row.back);
    }
}
