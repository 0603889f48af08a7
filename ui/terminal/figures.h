// The command `figures`: the statistics of many attempts, on any table.
#pragma once

#include "engine/competency/figures_of.h"
#include "ui/terminal/report_print.h"

#include <functional>
#include <string>

namespace CLI {
class App;
}

namespace ui {

struct FiguresOptions {
    std::string table;
    engine::FiguresAsked asked;
    bool json = false;
};

// `chosen` becomes the command when its name was typed. `options` must outlive it.
void add_figures(CLI::App& app, FiguresOptions& options, std::function<int()>& chosen);
int figures(const FiguresOptions&);

}  // namespace ui
