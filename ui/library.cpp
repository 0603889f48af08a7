#include "ui/library.h"

#include "ui/files.h"

#include <algorithm>
#include <filesystem>

namespace fs = std::filesystem;

namespace ui {

std::vector<LibraryLabour> library_labours() {
    std::vector<LibraryLabour> labours;
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(data_folder() + "/scenarios/library", ignored)) {
        if (entry.path().extension() != ".toml") continue;
        const auto read = engine::read_scenario_file(entry.path().string());
        if (!read) continue;
        const engine::Scenario& s = *read;
        const double baseline = s.middle.babies.size > 0 ? s.middle.babies[0].baseline.value : 0;
        labours.push_back(
            {entry.path().string(), s.id, s.title, s.task, s.level, baseline, s.place.instruments});
    }
    std::sort(labours.begin(), labours.end(), [](const LibraryLabour& a, const LibraryLabour& b) {
        return std::pair(a.level, a.id) < std::pair(b.level, b.id);
    });
    return labours;
}

}  // namespace ui
