#include "engine/scoring/score_json.h"

#include "engine/scoring/breakdown.h"
#include "engine/scoring/plain_number.h"

#include <nlohmann/json.hpp>

#include <array>

namespace engine {

namespace {

using Json = nlohmann::ordered_json;

Json json_of(const AspectScore& a) {
    Json out = Json::object();
    out["aspect"] = name_of(a.aspect);
    out["verdict"] = name_of(a.verdict);
    out["why"] = a.why;
    Json figures = Json::object();
    for (const auto& [name, value] : a.figures) figures[name] = plain_number(value);
    out["figures"] = std::move(figures);
    if (a.follows_from) out["follows_from"] = name_of(*a.follows_from);
    return out;
}

Json numbers(const std::vector<double>& all) {
    Json out = Json::array();
    for (double v : all) out.push_back(plain_number(v));
    return out;
}

Json json_of(const TapScore& t) {
    Json out = Json::object();
    out["taps"] = t.taps;
    out["bounced"] = t.bounced;
    out["caught"] = t.caught_s.size();
    out["missed_s"] = numbers(t.missed_s);
    out["extra_s"] = numbers(t.extra_s);
    out["missed_bpm"] = plain_number(t.missed_bpm);
    out["extra_bpm"] = plain_number(t.extra_bpm);
    out["lag_s"] = t.lag_s ? plain_number(*t.lag_s) : Json(nullptr);
    out["jitter_s"] = t.jitter_s ? plain_number(*t.jitter_s) : Json(nullptr);
    out["shift_s"] = plain_number(t.shift_s);
    out["distance"] = plain_number(t.distance);
    out["follows"] = t.follows;
    return out;
}

Json json_of(const WindowScore& w) {
    Json out = Json::object();
    out["from_s"] = plain_number(w.from_s);
    out["to_s"] = plain_number(w.to_s);
    out["plan_s"] = plain_number(w.plan_s);
    out["true_beats"] = w.true_beats;
    out["counted"] = w.counted ? Json(*w.counted) : Json(nullptr);
    out["true_bpm"] = plain_number(w.true_bpm);
    out["reported_bpm"] = w.reported_bpm ? Json(*w.reported_bpm) : Json(nullptr);
    Json terms = Json::object(), absent = Json::object();
    const std::array<double, terms_in_order.size()> values = {
        w.terms.source, w.terms.method, w.terms.watch,      w.terms.fencepost,
        w.terms.ear,    w.terms.tally,  w.terms.arithmetic, w.terms.unexplained};
    for (std::size_t i = 0; i < values.size(); ++i) {
        const std::string name(terms_in_order[i]);
        const std::string_view reason = term_absent(w, name);
        terms[name] = reason.empty() ? plain_number(values[i]) : Json(nullptr);
        if (!reason.empty()) absent[name] = reason;
    }
    out["terms"] = std::move(terms);
    out["terms_absent"] = std::move(absent);
    if (!w.terms.slip.empty()) out["slip"] = w.terms.slip;
    if (w.taps) out["taps"] = json_of(*w.taps);
    if (!w.pattern.empty()) out["pattern"] = w.pattern;
    out["boundary"] = w.boundary;
    out["followed"] = w.followed;
    out["judged"] = w.judged;
    return out;
}

Json json_of(const SeriesScore::Shows& s) {
    Json out = Json::object();
    out["per_minute_bpm"] = plain_number(s.per_minute_bpm);
    out["base_bpm"] = plain_number(s.base_bpm);
    out["lowest_bpm"] = plain_number(s.lowest_bpm);
    out["highest_bpm"] = plain_number(s.highest_bpm);
    out["slowing_s"] = plain_number(s.slowing_s);
    out["after"] = s.after;
    return out;
}

Json json_of(const SeriesScore& s) {
    Json out = Json::object();
    out["first"] = s.first;
    out["last"] = s.last;
    out["from_s"] = plain_number(s.from_s);
    out["to_s"] = plain_number(s.to_s);
    out["plan_s"] = plain_number(s.plan_s);
    out["longest_gap_s"] = plain_number(s.longest_gap_s);
    out["rates_bpm"] = numbers(s.rates_bpm);
    out["true_rates_bpm"] = numbers(s.true_rates_bpm);
    out["error_beats"] = plain_number(s.error_beats);
    out["largest_error_beats"] = plain_number(s.largest_error_beats);
    out["shown"] = json_of(s.shown);
    out["there"] = json_of(s.there);
    out["fell"] = s.fell;
    out["judged"] = s.judged;
    return out;
}

Json json_of(const ActScore& a) {
    Json out = Json::object();
    out["act"] = a.act;
    out["situation"] = a.situation;
    out["situations"] = a.situations;
    out["verdict"] = a.verdict;
    out["critical"] = a.critical;
    out["known_from_s"] = plain_number(a.known_from_s);
    out["done_s"] = a.done_s < 0 ? Json(nullptr) : plain_number(a.done_s);
    out["within_s"] = plain_number(a.within_s);
    out["by"] = a.by;
    out["source"] = a.source;
    out["conflict"] = a.conflict;
    return out;
}

template <typename List>
Json list_of(const List& list) {
    Json out = Json::array();
    for (const auto& item : list) out.push_back(json_of(item));
    return out;
}

}  // namespace

Json json_of(const ScoreSheet& sheet) {
    Json out = Json::object();
    out["aspects"] = list_of(sheet.aspects);
    out["windows"] = list_of(sheet.windows);
    out["series"] = list_of(sheet.series);
    out["terms_order"] = terms_in_order;
    out["critical_missed"] = sheet.critical_missed;
    out["acts"] = list_of(sheet.acts);
    out["primary"] = sheet.primary ? Json(name_of(*sheet.primary)) : Json(nullptr);
    Json next = Json::array();
    for (const NextTime& n : sheet.next_time)
        next.push_back({{"says", n.says}, {"at_s", plain_number(n.at_s)}});
    out["next_time"] = std::move(next);
    out["finished"] = sheet.finished;
    out["boundary"] = sheet.boundary;
    return out;
}

std::string to_json(const ScoreSheet& sheet) { return json_of(sheet).dump(2) + "\n"; }

}  // namespace engine
