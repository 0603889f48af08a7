#include "engine/drawing/drawing.h"

#include "engine/drawing/woman.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

constexpr int most_drawings = 16;                  // of one scenario, until it is what was asked
constexpr std::uint64_t heard_with[] = {1, 2, 3};  // a trainee's seeds differ: it must hold for more than one

// Each woman her own code.
std::vector<std::string> codes(int n, sim::Seed seed) {
    Dice dice(seed, Part::plan, 1);
    std::vector<int> numbers;
    for (int c = 100; c <= 999; ++c) numbers.push_back(c);
    dice.shuffle(numbers);
    std::vector<std::string> all;
    for (int i = 0; i < n; ++i)
        all.push_back(fmt::format("A-{}", numbers[static_cast<std::size_t>(i) % numbers.size()]));
    return all;
}

std::string written(const AskedShare& asked, const Protocol& protocol, const std::string& id,
                    const std::string& code, sim::Seed seed, std::uint64_t number, std::uint64_t again) {
    const auto dice = [&](Part part) { return Dice(seed, part, number, again); };
    Dice body = dice(Part::body), story = dice(Part::story), findings = dice(Part::findings),
         notes = dice(Part::teaching);
    Woman woman = woman_of(asked, protocol, body, static_cast<int>(again));
    woman.told.code = code;
    add_findings(woman, asked, findings);
    woman.title = title_of(woman.told);
    woman.story = story_of(woman.told, story);
    woman.notes = notes_of(asked, notes);
    return text_of(woman, id);
}

}  // namespace

Outcome<std::vector<DrawnScenario>> draw(const Quota& quota, const Protocol& protocol, sim::Seed seed) {
    auto plan = plan_of(quota, seed);
    if (!plan.ok()) return plan.faults();
    const std::vector<std::string> code = codes(quota.scenarios, seed);
    std::vector<DrawnScenario> drawn;
    std::vector<Fault> faults;
    for (std::size_t i = 0; i < plan->size(); ++i) {
        DrawnScenario one{fmt::format("d{}-{:03}", seed.value, i + 1), plan.value()[i], "", 0};
        std::string wrong = "not drawn";
        while (!wrong.empty() && one.drawings < most_drawings) {
            one.text = written(one.asked, protocol, one.id, code[i], seed, i + 1,
                               static_cast<std::uint64_t>(one.drawings));
            ++one.drawings;
            const auto read = read_scenario(one.text, one.id + ".toml");
            if (!read.ok()) {  // a fault of this program, not of the quota: say which
                wrong = in_one_line(read.faults().front());
                break;
            }
            wrong.clear();
            for (const std::uint64_t ear : heard_with)
                if (wrong.empty()) wrong = not_as_asked(read.value(), one.asked, protocol, {ear});
        }
        if (!wrong.empty())
            faults.push_back({quota.file, 0, one.id,
                              fmt::format("after {} drawings still not as asked: {}", one.drawings, wrong),
                              "a labour that is what its share says"});
        drawn.push_back(std::move(one));
    }
    if (!faults.empty()) return faults;
    return drawn;
}

}  // namespace engine
