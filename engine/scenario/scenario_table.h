// The one table of keys of a scenario file. Reader, format page and workshop all go through it.
#pragma once

#include "engine/scenario/fields.h"
#include "engine/scenario/scenario.h"

namespace engine {

// Where a value lands. Only what the row's section needs is set; rows that may be drawn need `patient`,
// `baby`, `event` alone, so that a draw can be applied to a patient without a scenario.
struct ScenarioLanding {
    Scenario* scenario = nullptr;
    sim::Patient* patient = nullptr;
    sim::Baby* baby = nullptr;
    sim::BabyEvent* event = nullptr;
    CallOut* call = nullptr;
    Finding* finding = nullptr;
    ChartLine* line = nullptr;
};

const std::vector<Field<ScenarioLanding>>& scenario_table();

// The tables of scenarios/FORMAT.md for scenario files, one a section.
std::string scenario_format_page();

// Sets the drawn quantity named by `key` ("baby.baseline", "baby2.event[1].depth"); asserts that there is
// one.
void land_drawn(sim::Patient& patient, const std::string& key, double value);

// Situation ids a finding or a protocol may name, in the order they are shown.
const std::vector<std::string_view>& situation_ids();

}  // namespace engine
