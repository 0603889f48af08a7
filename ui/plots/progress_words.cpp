#include "ui/plots/progress_words.h"

#include "engine/scoring/score_sheet.h"

#include <fmt/format.h>

#include <chrono>
#include <cmath>

namespace ui {
namespace {

// With a dash for a minus: the window's fonts have no minus sign of their own.
std::string tenth(double value) {
    const double rounded = std::round(value * 10) / 10;
    return fmt::format("{}{:g}", rounded < 0 ? "\xE2\x80\x93" : "", std::fabs(rounded));
}

std::string counts_words(long long n) { return n == 1 ? "1 count" : fmt::format("{} counts", n); }

}  // namespace

std::string band_words(int band) {
    switch (band) {
        case 0: return "slow, under 110";
        case 1: return "110 to 124";
        case 2: return "125 to 144";
        case 3: return "145 to 160";
        case 4: return "fast, 161 to 179";
        case 5: return "very fast, 180 on";
        default: return "not known";
    }
}

std::string method_words(int plan_s) { return plan_s == 60 ? "full minute" : fmt::format("{} s", plan_s); }

std::string instrument_name(int instrument) {
    switch (static_cast<sim::Instrument>(instrument)) {
        case sim::Instrument::horn: return "Pinard horn";
        case sim::Instrument::bell: return "stethoscope, cup side";
        case sim::Instrument::diaphragm: return "stethoscope, flat side";
        case sim::Instrument::doppler: return "hand-held Doppler";
        case sim::Instrument::none: break;
    }
    return "not known";
}

std::string task_name(int task) {
    switch (static_cast<engine::Task>(task)) {
        case engine::Task::count: return "full minute";
        case engine::Task::quick: return "short counts";
        case engine::Task::find: return "find the heart";
        case engine::Task::tell_apart: return "whose heart is it";
        case engine::Task::pattern: return "through the contractions";
        case engine::Task::labour: return "a whole labour";
    }
    return "not known";
}

std::string mode_words(int mode) {
    switch (mode) {
        case 0: return "headphones";
        case 1: return "small speaker";
        case 2: return "laptop or phone";
        default: return "not known";
    }
}

std::string bias_words(double bias_bpm) {
    const std::string size = tenth(std::fabs(bias_bpm));
    if (size == "0") return "neither high nor low";
    return size + (bias_bpm > 0 ? " bpm high" : " bpm low");
}

std::string day_of(double seconds_since_1970) {
    const std::chrono::sys_days day{
        std::chrono::days{static_cast<int>(std::floor(seconds_since_1970 / 86400))}};
    const std::chrono::year_month_day date{day};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string days_words(const engine::Progress& p) {
    if (!p.first_s || !p.last_s) return "";
    const std::string first = day_of(*p.first_s), last = day_of(*p.last_s);
    return first == last ? fmt::format(", {}", first) : fmt::format(", {} to {}", first, last);
}

std::string agreement_words(const engine::Progress& p) {
    const std::size_t n = p.errors.n();
    if (n == 0) return "No counts yet.";
    const engine::Figure bias = p.errors.bias_bpm();
    const auto counted = static_cast<long long>(n);
    if (n == 1) return fmt::format("One count, {}. More are needed.", bias_words(*bias));
    std::string says = fmt::format("{}, on average {}.", counts_words(counted), bias_words(*bias));
    if (!p.limits.worth_showing) return says + " How far off the next may be is shown from 10 counts on.";
    const auto sign = [](double bpm) { return (bpm > 0 ? "+" : "") + tenth(bpm); };
    says += fmt::format(" About 19 in 20 of such counts lie {} to {} bpm off", sign(*p.limits.low_bpm),
                        sign(*p.limits.high_bpm));
    says += n < 30 ? "; with fewer than 30 counts that is a wide guess." : ".";
    if (p.pulled_to_normal) {
        // pulled from both sides, or only ever lower
        const engine::Figure slow = p.pull.at(110), fast = p.pull.at(160);
        says += slow && fast && *slow > 0 && *fast < 0
                    ? " Pulled towards normal: fast ones read low, slow ones high."
                    : " The faster the heart, the lower it was read.";
    }
    return says;
}

std::string learning_words(const engine::Progress& p) {
    const engine::LearningSoFar& l = p.learning;
    if (l.right.empty())
        return l.repeats > 0 ? "Only labours met before: a new one counts here." : "No labour counted yet.";
    if (l.chart.signal_at > 0) {
        if (l.monitor.signal_at > 0)
            return fmt::format(
                "The mark was reached at labour {}, but of the latest ones several were wrong.",
                l.chart.signal_at);
        return fmt::format("At labour {} the line reached its mark.", l.chart.signal_at);
    }
    const auto n = static_cast<int>(l.right.size());
    if (n >= l.cap)
        return fmt::format(
            "{} labours without reaching the mark. The chart ends here: speak with your instructor.", n);
    return fmt::format(
        "{} met, the mark not reached yet. A labour counted right lifts the line, one with a wrong count "
        "lowers it {:.1f} times as much.",
        n == 1 ? "1 labour" : fmt::format("{} labours", n),
        -engine::failure_step(l.rates) / engine::success_step(l.rates));
}

std::string calls_words(const engine::Progress& p) {
    const auto& t = p.calls;
    const long long abnormal = t[0][0] + t[0][1] + t[0][2] + t[2][0] + t[2][1] + t[2][2];
    const long long called = abnormal - t[0][1] - t[2][1];
    const long long normal = t[1][0] + t[1][1] + t[1][2];
    if (abnormal + normal == 0) return "";
    std::string says;
    if (abnormal > 0) says += fmt::format("Slow or fast and said so: {} of {}. ", called, abnormal);
    if (normal > 0) says += fmt::format("Normal and said so: {} of {}. ", t[1][1], normal);
    if (p.agreement_on_class.kappa.known())
        says += fmt::format("Kappa, weighted by distance, {:.2f}. ", *p.agreement_on_class.kappa);
    if (p.calls_on_limit > 0) says += fmt::format("{} on a limit left out. ", p.calls_on_limit);
    says.pop_back();
    return says;
}

std::string refresher_words(const engine::Progress& p) {
    if (p.learning.monitor.signal_at > 0) return "Next practice: now.";
    if (p.learning.right.size() < 10) return "From 10 labours on a day for the next practice is foreseen.";
    if (!p.refresher_s.known()) return "Next practice: " + p.refresher_s.why() + ".";
    if (*p.refresher_months <= 0) return "Next practice: now. Fewer than 85 in 100 of the latest were right.";
    return fmt::format("Practise again by {}: an estimate from other skills, not from you.",
                       day_of(*p.refresher_s));
}

std::string left_out_words(const engine::Progress& p) {
    const engine::LeftOut& l = p.left_out;
    std::string says;
    const auto add = [&](int n, const char* why) {
        if (n > 0) says += fmt::format("{}{} {}", says.empty() ? "Not here: " : ", ", n, why);
    };
    add(l.other_method, "of another length");
    add(l.other_mode, "by another loudspeaker");
    add(l.other_heart, "where the baby was not to be heard");
    add(l.corrected, "counted again");
    add(l.no_number, "without a number");
    return says.empty() ? says : says + ".";
}

}  // namespace ui
