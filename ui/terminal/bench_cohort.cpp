#include "ui/terminal/bench_cohort.h"

#include "engine/competency/cohort.h"
#include "engine/competency/figures_of.h"
#include "engine/store/made_up_counts.h"
#include "engine/store/store.h"
#include "sim/random.h"
#include "ui/terminal/input_output.h"
#include "ui/terminal/table_text.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <ctime>
#include <filesystem>
#include <fmt/format.h>
#include <unistd.h>

namespace ui {
namespace {

constexpr int all_people = 5000, all_items = 200, few_people = 50;
constexpr double rows_in_all = 1e6;

// Person p reads item i with a bias and a scatter of their own, more scatter where it is fast.
engine::CountColumns made_up_cohort(int people, int items) {
    engine::CountColumns c;
    c.people.emplace_back();
    c.items.emplace_back();
    for (int i = 1; i <= items; ++i) c.items.push_back(fmt::format("c{:03d}", i));
    for (int p = 1; p <= people; ++p) {
        c.people.push_back(fmt::format("A-{:04d}", p));
        for (int i = 1; i <= items; ++i) {
            const auto n = static_cast<std::uint64_t>(p) << 16 | static_cast<std::uint64_t>(i);
            const auto g = sim::four_gaussians({1}, sim::Stream::events, n);
            const double rate = 90 + 451 * i % 1000 / 10.0 + 2 * g[0];
            const double off = p % 7 - 4 + (2 + rate / 100) * g[1];
            const int plan = i % 3 == 0 ? 15 : 60, factor = 60 / plan;
            const int counted = static_cast<int>(std::lround((rate + off) / factor));
            const int is = rate < 110 ? 2 : rate > 160 ? 1 : 0, read = counted * factor;
            c.attempt.push_back((p - 1) * items + i);
            c.place.push_back(0);
            c.person.push_back(static_cast<std::uint32_t>(p));
            c.item.push_back(static_cast<std::uint32_t>(i));
            c.finished_s.push_back(1'700'000'000 + 100LL * i);
            c.plan_s.push_back(static_cast<std::int16_t>(plan));
            c.instrument.push_back(static_cast<std::int8_t>(1 + 3 * (i % 2)));
            c.mode.push_back(0);
            c.task.push_back(0);
            c.true_beats.push_back(static_cast<std::int16_t>(std::lround(rate / factor)));
            c.counted.push_back(static_cast<std::int16_t>(counted));
            c.true_mbpm.push_back(static_cast<std::int32_t>(std::lround(rate * 10)) * 100);
            c.written_mbpm.push_back(read * 1000);
            c.verdicts.push_back(0);
            c.judged.push_back(1);
            c.followed.push_back(0);
            c.boundary.push_back(0);
            c.true_class.push_back(static_cast<std::int8_t>(is));
            c.settled_class.push_back(static_cast<std::int8_t>(is));
            c.said_class.push_back(static_cast<std::int8_t>(read < 110 ? 2 : read > 160 ? 1 : 0));
        }
    }
    return c;
}

std::string as_table(const engine::CountColumns& c) {
    fmt::memory_buffer out;
    fmt::format_to(std::back_inserter(out), "who,item,truth,typed,window_s,instrument\n");
    for (std::size_t i = 0; i < c.rows(); ++i)
        fmt::format_to(std::back_inserter(out), "{},{},{}.{},{},{},{}\n", c.people[c.person[i]],
                       c.items[c.item[i]], c.true_mbpm[i] / 1000, c.true_mbpm[i] / 100 % 10,
                       c.written_mbpm[i] / 1000, c.plan_s[i], c.instrument[i] == 1 ? "horn" : "doppler");
    return fmt::to_string(out);
}

double own_seconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

// The middle one of five.
template <typename Work>
double middle_seconds(Work work) {
    std::array<double, 5> runs{};
    for (double& one : runs) {
        const double start = own_seconds();
        work();
        one = own_seconds() - start;
    }
    std::sort(runs.begin(), runs.end());
    return runs[2];
}

struct TemporaryFolder {
    std::filesystem::path path;
    TemporaryFolder() {
        std::string name = (std::filesystem::temp_directory_path() / "fullminute-bench-XXXXXX").string();
        if (mkdtemp(name.data()) == nullptr) refuse("bench", name, "a temporary folder that can be written");
        path = name;
    }
    ~TemporaryFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path, ignored);
    }
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
};

}  // namespace

CohortTimes cohort_times(double share) {
    const int people = std::max(few_people, static_cast<int>(all_people * share));
    const double scale = rows_in_all / (static_cast<double>(people) * all_items);
    const engine::CountColumns cohort = made_up_cohort(people, all_items);
    CohortTimes times;
    std::size_t seen = 0;
    const double memory = middle_seconds([&] { seen += engine::cohort_of(cohort).all.n(); });
    times.memory_ms = 1e3 * scale * memory;
    // The worse of two: ten times the fewest, and all.
    const auto seconds = [&](int some) {
        const engine::CountColumns few = made_up_cohort(some, all_items);
        return middle_seconds([&] { seen += engine::cohort_of(few).all.n(); });
    };
    const double small = seconds(few_people), ten_times = seconds(10 * few_people);
    times.growth = std::max(memory * few_people / (small * people), ten_times / (10 * small));

    const TemporaryFolder folder;
    const std::string table = (folder.path / "cohort.csv").string(),
                      store = (folder.path / "cohort.db").string();
    write_out(table, as_table(cohort));
    engine::FiguresAsked asked;
    asked.of = "cohort";
    times.csv_s = scale * middle_seconds([&] {
                      TableText text(table);
                      seen += or_refuse(engine::figures_of(
                                            asked, table, [&] { return text.next(); }, text.bytes()))
                                  .lines()
                                  .size();
                  });
    or_refuse(engine::Store::open(store)).reset();
    or_refuse(engine::fill_with_counts(store, cohort));
    const auto opened = or_refuse(engine::Store::open(store));
    times.store_s = scale * middle_seconds([&] {
                        seen += engine::cohort_of(or_refuse(opened->counts(std::nullopt))).all.n();
                    });
    if (seen == 0) refuse("bench", "no work done", "work");
    return times;
}

}  // namespace ui
