// What to practise next, with labours of the library that train it.
#include "engine/scoring/score_sheet.h"
#include "ui/plots/progress_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace ui {
namespace {

constexpr std::size_t most_labours = 4;

using Suits = bool (*)(const LibraryLabour&, int);

bool has_task(const LibraryLabour& l, int task) { return static_cast<int>(l.task) == task; }
bool has_instrument(const LibraryLabour& l, int instrument) {
    return std::any_of(l.instruments.begin(), l.instruments.end(),
                       [&](sim::Instrument i) { return static_cast<int>(i) == instrument; });
}
bool is_counted(const LibraryLabour& l) {
    return l.task == engine::Task::count || l.task == engine::Task::quick;
}
bool is_slow_or_fast(const LibraryLabour& l) { return l.baseline_bpm < 110 || l.baseline_bpm > 160; }
bool in_band(const LibraryLabour& l, int band) {
    const double* edges = engine::band_edges_bpm;
    const double from = band == 0 ? 0 : edges[band - 1], to = band == 5 ? 1e9 : edges[band];
    return is_counted(l) && l.baseline_bpm >= from && l.baseline_bpm < to;
}
bool is_normal(const LibraryLabour& l, int) { return is_counted(l) && !is_slow_or_fast(l); }
bool is_abnormal(const LibraryLabour& l, int) { return is_counted(l) && is_slow_or_fast(l); }

class Finder {
public:
    Finder(const engine::CountColumns& counts, const std::vector<LibraryLabour>& library)
        : library_(library) {
        for (const std::uint32_t item : counts.item) met_.insert(counts.items[item]);
    }

    // Those not met yet first, in the library's own order (easy first).
    std::vector<LibraryLabour> some(std::size_t most, Suits suits, int number) const {
        std::vector<LibraryLabour> found;
        for (const bool met : {false, true})
            for (const LibraryLabour& l : library_)
                if (found.size() < most && (met_.count(l.id) > 0) == met && suits(l, number))
                    found.push_back(l);
        return found;
    }

    // Two of the kind and two that are not, in the order of their names: no list tells what is wrong with
    // whom.
    std::vector<LibraryLabour> mixed(Suits suits, int number, Suits others) const {
        std::vector<LibraryLabour> found = some(most_labours / 2, suits, number);
        for (const LibraryLabour& l : some(most_labours, others, number)) {
            const bool there =
                std::any_of(found.begin(), found.end(), [&](const LibraryLabour& f) { return f.id == l.id; });
            if (!there && found.size() < most_labours) found.push_back(l);
        }
        std::sort(found.begin(), found.end(),
                  [](const LibraryLabour& a, const LibraryLabour& b) { return a.id < b.id; });
        return found;
    }

    std::vector<LibraryLabour> unmet() const {
        std::vector<LibraryLabour> found;
        for (const LibraryLabour& l : library_)
            if (found.size() < most_labours && met_.count(l.id) == 0) found.push_back(l);
        return found;
    }

private:
    const std::vector<LibraryLabour>& library_;
    std::set<std::string> met_;
};

std::string share(const engine::Weakness& w) { return fmt::format("{} of {}", w.wrong, w.of); }

std::string with_bias(std::string says, const engine::Weakness& w) {
    if (!w.bias_bpm.known()) return says + ".";
    return says + fmt::format(", on average {}.", bias_words(*w.bias_bpm));
}

PracticeLine of_aspect(const engine::Weakness& w, const Finder& find) {
    using engine::Aspect;
    const auto line = [&](const char* says, engine::Task task) {
        return PracticeLine{fmt::format("{} in {} attempts.", says, share(w)),
                            find.some(most_labours, has_task, static_cast<int>(task))};
    };
    switch (static_cast<Aspect>(w.number)) {
        case Aspect::site: return line("Not placed where the baby could be counted", engine::Task::find);
        case Aspect::window: return line("The seconds counted over were off", engine::Task::count);
        case Aspect::arithmetic: return line("The sum was wrong", engine::Task::quick);
        case Aspect::action: return line("An act was missed", engine::Task::labour);
        default: return line("The line on her chart was missing or wrong", engine::Task::labour);
    }
}

PracticeLine line_of(const engine::Weakness& w, const Finder& find) {
    using engine::WeakIn;
    switch (w.in) {
        case WeakIn::band: {
            const bool normal = w.number >= 1 && w.number <= 3;
            return {with_bias(fmt::format("Hearts {}: {} counts wrong", band_words(w.number), share(w)), w),
                    find.mixed(in_band, w.number, normal ? is_abnormal : is_normal)};
        }
        case WeakIn::method: {
            const auto task = w.number == 60 ? engine::Task::count : engine::Task::quick;
            return {
                with_bias(fmt::format("Counts over {}: {} wrong",
                                      w.number == 60 ? "a full minute" : method_words(w.number), share(w)),
                          w),
                find.some(most_labours, has_task, static_cast<int>(task))};
        }
        case WeakIn::instrument:
            return {with_bias(
                        fmt::format("With the {}: {} counts wrong", instrument_name(w.number), share(w)), w),
                    find.some(most_labours, has_instrument, w.number)};
        case WeakIn::task:
            return {with_bias(fmt::format("Where the task is \"{}\": {} counts wrong", task_name(w.number),
                                          share(w)),
                              w),
                    find.some(most_labours, has_task, w.number)};
        case WeakIn::counting:
            return {fmt::format("Counting itself: {} wrong.", share(w)),
                    find.some(most_labours, has_task, static_cast<int>(engine::Task::count))};
        case WeakIn::whose:
            return {fmt::format("Whose heart it was stayed open or wrong in {} attempts.", share(w)),
                    find.some(most_labours, has_task, static_cast<int>(engine::Task::tell_apart))};
        case WeakIn::missed_abnormal:
            return {fmt::format("Slow or fast, but not said: {}.", share(w)),
                    find.mixed(is_abnormal, 0, is_normal)};
        case WeakIn::overcalled:
            return {fmt::format("Normal, but called slow or fast: {}.", share(w)),
                    find.mixed(is_normal, 0, is_abnormal)};
        case WeakIn::aspect: break;
    }
    return of_aspect(w, find);
}

}  // namespace

std::vector<PracticeLine> practice_lines(const engine::Progress& progress, const engine::CountColumns& counts,
                                         const std::vector<LibraryLabour>& library) {
    const Finder find(counts, library);
    std::vector<PracticeLine> lines;
    for (const engine::Weakness& w : progress.weak) lines.push_back(line_of(w, find));
    if (!lines.empty()) return lines;
    if (counts.rows() < 5) {
        const auto first = find.some(most_labours, has_task, static_cast<int>(engine::Task::count));
        return {{"Begin with full minutes: after five counts something can be said.", first}};
    }
    const auto unmet = find.unmet();
    if (unmet.empty())
        return {{"Nothing stands out. Every labour of the library has been met: draw new ones.", {}}};
    return {{"Nothing stands out. Some you have not met:", unmet}};
}

}  // namespace ui
