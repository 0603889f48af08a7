#include "engine/scoring/score_json.h"

#include "engine/scoring/breakdown.h"
#include "engine/scoring/plain_number.h"
#include "engine/scoring/steps.h"

#include <nlohmann/json.hpp>

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

Json places(const std::vector<double>& at_s) {
    Json out = Json::array();
    for (double s : at_s) out.push_back(plain_number(s));
    return out;
}

// The ear's part of the terms is `missed_bpm` + `extra_bpm`.
Json json_of(const TapScore& t, double plan_s, double ear_bpm) {
    const double missed_bpm = to_thousandth(-factor_of(plan_s) * static_cast<double>(t.missed_s.size()));
    Json out = Json::object();
    out["taps"] = t.taps;
    out["bounced"] = t.bounced;
    out["caught"] = t.caught_s.size();
    out["missed_s"] = places(t.missed_s);
    out["extra_s"] = places(t.extra_s);
    out["missed_bpm"] = plain_number(missed_bpm);
    out["extra_bpm"] = plain_number(to_thousandth(ear_bpm - missed_bpm));
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
    Json terms = Json::object();
    terms["source"] = plain_number(w.terms.source);
    terms["method"] = plain_number(w.terms.method);
    terms["watch"] = plain_number(w.terms.watch);
    terms["fencepost"] = plain_number(w.terms.fencepost);
    terms["ear"] = plain_number(w.terms.ear);
    terms["tally"] = plain_number(w.terms.tally);
    terms["arithmetic"] = plain_number(w.terms.arithmetic);
    terms["unexplained"] = plain_number(w.terms.unexplained);
    out["terms"] = std::move(terms);
    if (!w.terms.slip.empty()) out["slip"] = w.terms.slip;
    if (w.taps) out["taps"] = json_of(*w.taps, w.plan_s, w.terms.ear);
    if (!w.pattern.empty()) out["pattern"] = w.pattern;
    out["boundary"] = w.boundary;
    out["followed"] = w.followed;
    out["judged"] = w.judged;
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
    out["terms_order"] = terms_in_order;
    out["critical_missed"] = sheet.critical_missed;
    out["acts"] = list_of(sheet.acts);
    out["primary"] = sheet.primary ? Json(name_of(*sheet.primary)) : Json(nullptr);
    Json next = Json::array();
    for (const NextTime& n : sheet.next_time) next.push_back({{"says", n.says}, {"at_s", plain_number(n.at_s)}});
    out["next_time"] = std::move(next);
    out["finished"] = sheet.finished;
    return out;
}

std::string to_json(const ScoreSheet& sheet) { return json_of(sheet).dump(2) + "\n"; }

}  // namespace engine
