// A report of figures on stdout: plain lines or JSON.
#pragma once

#include "engine/competency/report.h"

namespace ui {

// JSON: an absent figure is null, its reason under "absent"; remarks are gathered in one list.
void print_report(const engine::Report& report, bool json);

}  // namespace ui
