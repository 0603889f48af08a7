#include "engine/scoring/key.h"
#include "engine/scoring/plain_number.h"

#include <nlohmann/json.hpp>

namespace engine {
namespace {

using Json = nlohmann::ordered_json;

}  // namespace

std::string to_json(const Key& key) {
    Json decision = Json::object();
    decision["source"] = name_of(key.decision.source);
    decision["baseline"] = name_of(key.decision.baseline);
    decision["around"] = name_of(key.decision.around);
    decision["rhythm"] = name_of(key.decision.rhythm);
    Json expected = Json::array();
    for (const ExpectedAct& act : key.expected) {
        Json one = Json::object();
        one["any_of"] = act.any_of;
        one["within_s"] = plain_number(act.within_s);
        one["critical"] = act.critical;
        one["situation"] = act.situation;
        one["situations"] = act.situations;
        one["sources"] = act.sources;
        one["conflict"] = act.conflict;
        expected.push_back(std::move(one));
    }
    Json out = Json::object();
    out["baseline_bpm"] = plain_number(key.baseline_bpm);
    if (key.twin > 0) out["twin"] = key.twin;
    out["decision"] = std::move(decision);
    out["level"] = name_of(key.level);
    out["situations"] = key.situations;
    out["expected"] = std::move(expected);
    out["unsafe"] = key.unsafe;
    out["why"] = key.why;
    out["known_from_s"] = plain_number(key.known_from_s);
    return out.dump(2) + "\n";
}

}  // namespace engine
