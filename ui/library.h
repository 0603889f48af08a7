// The labours of the shipped library as something to choose from, without their sound.
#pragma once

#include "engine/scenario/scenario.h"
#include "sim/hold.h"

#include <string>
#include <vector>

namespace ui {

struct LibraryLabour {
    std::string path, id, title;
    engine::Task task = engine::Task::count;
    int level = 1;
    double baseline_bpm = 0;  // in the middle of what may be drawn; never shown: it would be a hint
    std::vector<sim::Instrument> instruments;
};

// By level, then id; a file that cannot be read is passed over (lint tells why).
std::vector<LibraryLabour> library_labours();

}  // namespace ui
