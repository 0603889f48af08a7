// A report of figures on stdout: plain lines or JSON.
#pragma once

#include "engine/competency/report.h"

#include <string>

namespace ui {

// JSON: an absent figure is null, its reason under "absent"; remarks are gathered in one list.
std::string report_json(const engine::Report& report);
std::string report_text(const engine::Report& report);
void print_report(const engine::Report& report, bool json);

}  // namespace ui
