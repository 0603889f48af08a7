// The command `progress`: every figure of the progress screen, and its page, without a screen.
#include "engine/competency/progress.h"

#include "engine/scoring/score_sheet.h"
#include "engine/store/store.h"
#include "ui/files.h"
#include "ui/paper/progress_page.h"
#include "ui/plots/progress_words.h"
#include "ui/terminal/commands.h"
#include "ui/terminal/figures.h"
#include "ui/terminal/input_output.h"

#include <algorithm>
#include <filesystem>

namespace ui {
namespace {

using engine::Report;

Report group_report(const std::string& name, const engine::CountGroup& g) {
    Report r;
    r.words("name", name).put("n", g.errors.n());
    r.put("bias_bpm", g.errors.bias_bpm()).put("bias_bpm", g.errors.bias_interval());
    r.put("sd_bpm", g.errors.sd_bpm());
    return r.put("right", static_cast<double>(g.right))
        .put("share_right", g.share_right())
        .put("share_right", g.share_right_interval());
}

Report::Rows group_rows(const std::vector<engine::CountGroup>& groups, std::string (*name)(int)) {
    Report::Rows rows;
    for (const engine::CountGroup& g : groups) rows.push_back(group_report(name(g.number), g));
    return rows;
}

Report agreement_part(const engine::Progress& p) {
    Report r;
    r.put("n", p.errors.n()).put("bias_bpm", p.errors.bias_bpm()).put("bias_bpm", p.errors.bias_interval());
    r.put("sd_bpm", p.errors.sd_bpm()).put("rmse_bpm", p.errors.rmse_bpm());
    r.put("mean_size_bpm", p.errors.mean_size_bpm()).put("largest_size_bpm", p.errors.largest_size_bpm());
    r.put("share_within_2_bpm", p.errors.share_within());
    const auto shown = [&](const engine::Figure& figure) {
        return p.limits.worth_showing ? figure : engine::Figure::absent("limits are shown from 10 counts on");
    };
    r.put("limit_low_bpm", shown(p.limits.low_bpm)).put("limit_high_bpm", shown(p.limits.high_bpm));
    r.put("limit_low_exact_low", shown(p.limits.low_exact.low))
        .put("limit_low_exact_high", shown(p.limits.low_exact.high));
    r.put("limit_high_exact_low", shown(p.limits.high_exact.low));
    r.put("limit_high_exact_high", shown(p.limits.high_exact.high));
    if (p.limits.worth_showing) r.remark(p.limits.remark);
    r.put("error_on_truth_slope", p.pull.slope.value).put("error_on_truth_slope", p.pull.slope.interval);
    return r.words("pulled_to_normal", !p.pull.slope.interval.high.known() ? "not known"
                                       : p.pulled_to_normal                ? "yes"
                                                                           : "no");
}

Report calls_part(const engine::Progress& p) {
    Report r;
    r.put("n", static_cast<double>(p.agreement_on_class.n));
    Report::Rows rows;
    constexpr const char* classes[] = {"slow", "normal", "fast"};
    for (std::size_t t = 0; t < 3; ++t) {
        Report row;
        row.words("truth", classes[t]);
        for (std::size_t s = 0; s < 3; ++s)
            row.put(std::string("said_") + classes[s], static_cast<double>(p.calls[t][s]));
        rows.push_back(row);
    }
    r.rows("table", rows).put("on_a_limit_left_out", p.calls_on_limit);
    r.put("raw_agreement", p.agreement_on_class.raw_agreement)
        .put("weighted_agreement", p.agreement_on_class.weighted_agreement)
        .put("kappa_linear", p.agreement_on_class.kappa);
    r.put("kappa_linear", p.agreement_on_class.interval);
    r.put("sensitivity_n", static_cast<double>(p.abnormal.abnormal_n));
    r.put("specificity_n", static_cast<double>(p.abnormal.normal_n));
    r.put("sensitivity", p.abnormal.sensitivity).put("sensitivity", p.abnormal.sensitivity_interval);
    return r.put("specificity", p.abnormal.specificity).put("specificity", p.abnormal.specificity_interval);
}

Report learning_part(const engine::Progress& p) {
    const engine::LearningSoFar& l = p.learning;
    Report r;
    std::string right;
    for (const bool one : l.right) right += one ? 'S' : 'F';
    r.put("labours", l.right.size()).words("series", right).put("repeats_left_out", l.repeats);
    r.put("acceptable", l.rates.acceptable).put("unacceptable", l.rates.unacceptable);
    r.put("attempt_cap", l.cap).put("h", l.h).numbers("s", l.chart.s);
    r.put("signal_at",
          l.chart.signal_at > 0 ? engine::Figure(l.chart.signal_at) : engine::Figure::absent("not yet"));
    r.put("alarm_at", l.monitor.signal_at > 0 ? engine::Figure(l.monitor_from + l.monitor.signal_at)
                                              : engine::Figure::absent("none"));
    return r.remark("for practice only: it certifies nothing");
}

Report progress_report(const std::string& who, const engine::Progress& p,
                       const std::vector<PracticeLine>& practice) {
    Report r;
    r.words("who", who).put("attempts_with_a_count", p.attempts);
    r.words("first_day", p.first_s.known() ? day_of(*p.first_s) : "");
    r.words("last_day", p.last_s.known() ? day_of(*p.last_s) : "");
    r.words("mode", mode_words(p.mode));
    r.put("method_s", p.method_s > 0 ? engine::Figure(p.method_s) : engine::Figure::absent("no counts"));
    Report left;
    left.put("another_length", p.left_out.other_method).put("another_mode", p.left_out.other_mode);
    left.put("another_heart", p.left_out.other_heart).put("counted_again", p.left_out.corrected);
    left.put("without_a_number", p.left_out.no_number);
    r.part("left_out", left).part("agreement", agreement_part(p));
    r.rows("by_rate", group_rows(p.bands, band_words)).rows("by_method", group_rows(p.methods, method_words));
    r.rows("by_instrument", group_rows(p.instruments, instrument_name))
        .rows("by_task", group_rows(p.tasks, task_name));
    r.part("slow_normal_fast", calls_part(p)).part("learning", learning_part(p));
    Report refresher;
    refresher.put("months_after_the_last_day", p.refresher_months);
    refresher.words("practise_again_by", p.refresher_s.known() ? day_of(*p.refresher_s) : "");
    refresher.remark("an estimate from a borrowed curve, not evidence about this person");
    r.part("refresher", refresher);
    Report::Rows next;
    for (const PracticeLine& line : practice) {
        Report row;
        std::vector<std::string> ids;
        for (const LibraryLabour& labour : line.labours) ids.push_back(labour.id);
        next.push_back(row.words("says", line.says).names("labours", ids));
    }
    return r.rows("practise_next", next);
}

}  // namespace

int progress(const ProgressOptions& options) {
    needs_its_folder(options.out);
    const std::string where = store_path(options.store);
    std::error_code ignored;
    if (!std::filesystem::exists(where, ignored)) refuse("the store", where, "a store that is there");
    const auto store = or_refuse(engine::Store::open(where));
    const auto people = or_refuse(store->people());
    const auto counts = or_refuse(store->counts(options.who));
    const auto lower = [](std::string text) {
        for (char& c : text)
            if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
        return text;
    };
    const auto known = std::find_if(people.begin(), people.end(), [&](const std::string& code) {
        return lower(code) == lower(options.who);
    });
    if (known == people.end()) refuse("--who", '"' + options.who + '"', "the code of a person in " + where);
    engine::ProgressAsked asked;
    if (!options.mode.empty()) asked.mode = static_cast<int>(the_mode(options.mode));
    if (options.method_s > 0) asked.method_s = options.method_s;
    ProgressPage page{*known, engine::progress_of(counts, asked), {}, program_version()};
    page.practice = practice_lines(page.progress, counts, library_labours());
    if (!options.out.empty()) or_refuse(write_progress(page, options.out));
    const Report report = engine::with_level(progress_report(*known, page.progress, page.practice));
    if (options.json)
        write_out("-", report_json(report));
    else if (options.out.empty())
        write_out("-", report_text(report));
    return fine;
}

}  // namespace ui
