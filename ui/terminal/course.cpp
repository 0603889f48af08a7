#include "sim/course/course.h"

#include "ui/terminal/commands.h"
#include "ui/terminal/input_output.h"

#include <cmath>
#include <fmt/format.h>
#include <iterator>

namespace ui {

// The truth at 4 Hz, both ends: rows k = 0 .. 4 x length.
int course(const CourseOptions& options) {
    const engine::Scenario scenario = the_scenario(options.scenario);
    const sim::Seed seed = the_seed(options.seed);
    const sim::Patient patient = scenario.patient(seed);
    const auto ticks = sim::course_over(patient, seed, the_acts(options.acts, scenario), scenario.length);
    const auto rows = static_cast<std::size_t>(std::floor(scenario.length.value * 4)) + 1;
    const bool twins = patient.babies.size > 1;
    std::string csv = twins ? "t_s,fhr_bpm,mhr_bpm,uc_mmhg,fhr2_bpm\n" : "t_s,fhr_bpm,mhr_bpm,uc_mmhg\n";
    for (std::size_t k = 0; k < rows && k < ticks.size(); ++k) {
        const sim::CourseTick& now = ticks[k];
        fmt::format_to(std::back_inserter(csv), "{:.2f},{:.3f},{:.3f},{:.3f}", static_cast<double>(k) / 4,
                       now.fhr_bpm[0], now.mhr_bpm, now.uc_mmhg);
        if (twins) fmt::format_to(std::back_inserter(csv), ",{:.3f}", now.fhr_bpm[1]);
        csv += '\n';
    }
    write_out(options.out, csv);
    return fine;
}

}  // namespace ui
