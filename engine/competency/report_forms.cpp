// Forms: drawn from a pool, balanced by difficulty, and one form's mark carried to another.
#include "engine/competency/form_balance.h"
#include "engine/competency/forms.h"
#include "engine/competency/reports.h"
#include "engine/competency/standards.h"

#include <algorithm>
#include <charconv>
#include <map>
#include <numeric>
#include <set>

namespace engine {
namespace {

// What a form of these quotas has on average: its mean difficulty, and its information where `mark` is the
// score to be expected. 0 < mark < items.
FormTarget expected_of_pool(const std::vector<Stratum>& strata, const std::vector<int>& quota,
                            const std::map<std::string, double>& logits, int mark) {
    const auto on_average = [&](const auto& of) {
        double sum = 0;
        for (std::size_t h = 0; h < strata.size(); ++h) {
            double stratum = 0;
            for (const std::string& id : strata[h].ids) stratum += of(logits.at(id));
            if (!strata[h].ids.empty()) sum += quota[h] * stratum / static_cast<double>(strata[h].ids.size());
        }
        return sum;
    };
    const auto score = [&](double ability) {
        return on_average([&](double b) { return true_score(std::span(&b, 1), ability); });
    };
    double low = -30, high = 30;  // the expected score rises with ability
    for (int step = 0; step < 100; ++step) (score((low + high) / 2) < mark ? low : high) = (low + high) / 2;
    FormTarget target;
    target.cut_ability = (low + high) / 2;
    target.mean_difficulty =
        on_average([](double b) { return b; }) / std::accumulate(quota.begin(), quota.end(), 0);
    target.information =
        on_average([&](double b) { return test_information(std::span(&b, 1), target.cut_ability); });
    return target;
}

}  // namespace

Outcome<Report> form_report(const FiguresAsked& asked, const Table& t) {
    const Column &item = t["item"], &group = t["group"];
    std::vector<Fault> faults;
    std::vector<Stratum> strata;
    for (const std::string& name : group.names) strata.push_back({name, {}});
    std::vector<char> seen(item.names.size());
    for (std::size_t i = 0; i < t.rows; ++i) {
        if (seen[item.words[i]]++)
            faults.push_back(t.fault(i, "item", item.names[item.words[i]] + " again", "once each"));
        strata[group.words[i]].ids.push_back(item.names[item.words[i]]);
    }
    std::sort(strata.begin(), strata.end(),
              [](const Stratum& a, const Stratum& b) { return a.name < b.name; });
    std::vector<int> quota(strata.size());
    std::set<std::string> asked_for;
    if (asked.seed.empty())
        faults.push_back({"", 0, "--seed", "nothing", "any text; publish it after the check"});
    if (asked.quota.empty())
        faults.push_back({"", 0, "--quota", "nothing", "STRATUM=N for each stratum wanted"});
    for (const std::string& one : asked.quota) {
        const std::size_t sign = one.rfind('=');
        const std::string name = one.substr(0, sign);
        int n = -1;
        if (sign != std::string::npos) {
            const auto [end, error] = std::from_chars(one.data() + sign + 1, one.data() + one.size(), n);
            if (error != std::errc() || end != one.data() + one.size()) n = -1;
        }
        const auto at =
            std::find_if(strata.begin(), strata.end(), [&](const Stratum& s) { return s.name == name; });
        if (n < 0 || n > 1'000'000)
            faults.push_back({"", 0, "--quota", one, "STRATUM=N"});
        else if (!asked_for.insert(name).second)
            faults.push_back({"", 0, "--quota", one + ", " + name + " again", "each stratum once"});
        else if (at == strata.end())
            faults.push_back(
                {t.file, 0, "--quota " + one, "no such group in the table", "one of its groups"});
        else
            quota[static_cast<std::size_t>(at - strata.begin())] = n;
    }
    if (asked.nth < 0 || asked.nth > 1000)
        faults.push_back({"", 0, "--nth", std::to_string(asked.nth), "0 to 1000"});
    const Column* difficulty = t.find("difficulty");
    int items = 0;
    for (const int q : quota) items += q;
    // Without a quota there is no form yet, and no range for its mark.
    if (difficulty != nullptr && items > 0 && (asked.mark < 1 || asked.mark >= items))
        faults.push_back({"", 0, items < 2 ? "--quota" : "--mark",
                          items < 2         ? "a form of one item"
                          : asked.mark == 0 ? "none, and a column `difficulty`"
                                            : std::to_string(asked.mark),
                          (items < 2 ? "two or more items"
                                     : "1 to " + std::to_string(items - 1) + ", one less than its items") +
                              std::string(": with difficulties forms are made alike at their mark")});
    if (difficulty != nullptr && asked.nth != 0)
        faults.push_back(
            {"", 0, "--nth", std::to_string(asked.nth), "0 when the form is balanced by difficulty"});
    if (!faults.empty()) return faults;
    const auto in_table = [&](std::vector<Fault> found) {
        for (Fault& fault : found) fault.file = t.file;
        return found;
    };
    Report r;
    if (difficulty == nullptr) {
        Outcome<std::vector<std::string>> drawn = draw_form(asked.seed, asked.form, strata, quota, asked.nth);
        if (!drawn.ok()) return in_table(drawn.faults());
        return r.words("form", asked.form)
            .put("items", drawn->size())
            .names("drawn", std::move(drawn).value());
    }
    std::map<std::string, double> logits;
    for (std::size_t i = 0; i < t.rows; ++i) logits[item.names[item.words[i]]] = difficulty->numbers[i];
    const FormTarget target = expected_of_pool(strata, quota, logits, asked.mark);
    Outcome<BalancedForm> drawn = draw_balanced(
        asked.seed, asked.form, strata, quota, [&](const std::string& id) { return logits.at(id); }, target);
    if (!drawn.ok()) return in_table(drawn.faults());
    std::vector<double> chosen;
    for (const std::string& id : drawn->ids) chosen.push_back(logits.at(id));
    const double cut = true_score(chosen, target.cut_ability);
    r.words("form", drawn->label)
        .put("items", drawn->ids.size())
        .put("mean_difficulty_wanted", target.mean_difficulty);
    r.put("mean_difficulty", std::accumulate(chosen.begin(), chosen.end(), 0.0) / items);
    r.put("information_wanted", target.information)
        .put("information", test_information(chosen, target.cut_ability));
    r.put("ability_at_mark", target.cut_ability).put("cut", cut).put("mark", rounded_up(cut));
    return r.names("drawn", std::move(drawn->ids));
}

Outcome<Report> equate_report(const FiguresAsked& asked, const Table& t) {
    const Column& form = t["form"];
    std::vector<std::vector<double>> of(form.names.size());
    for (std::size_t i = 0; i < t.rows; ++i) of[form.words[i]].push_back(t["difficulty"].numbers[i]);
    if (of.size() < 2)
        return Fault{t.file, 0, "form", counted_words(of.size(), "form", "forms"),
                     "two or more, the first with its mark"};
    const int items = static_cast<int>(of[0].size());
    if (items < 2) return Fault{t.file, 0, "form " + form.names[0], "1 item", "two or more items"};
    if (asked.mark < 1 || asked.mark >= items)
        return Fault{"", 0, "--mark", std::to_string(asked.mark),
                     "1 to the first form's items less 1, " + std::to_string(items - 1)};
    Report r;
    r.words("first", form.names[0]).put("mark_of_first", asked.mark);
    Report::Rows rows;
    for (std::size_t f = 1; f < of.size(); ++f) {
        const EquatedCut e = equated_cut(of[0], asked.mark, of[f]);
        Report one;
        one.words("name", form.names[f])
            .put("items", of[f].size())
            .put("ability", e.ability)
            .put("cut", e.cut);
        if (e.cut && e.ability) {
            one.put("mark", e.mark);
            one.put("first_passes_at_ability", chance_at_least(of[0], *e.ability, asked.mark));
            one.put("passes_at_ability", chance_at_least(of[f], *e.ability, e.mark));
        }
        rows.push_back(one);
    }
    return r.rows("forms", rows);
}

}  // namespace engine
