#include "engine/protocol/act_times.h"
#include "engine/protocol/protocol.h"
#include "engine/protocol/protocol_table.h"
#include "engine/sha256.h"

namespace engine {
namespace {

using Landing = ProtocolLanding;

struct Reading {
    Protocol protocol;
    FaultList faults;

    explicit Reading(const std::string& file) : faults(file) { protocol.file = file; }

    void section(std::string_view name, const Written& table, const std::string& path,
                 std::initializer_list<std::string_view> inside, Landing landing) {
        landing.protocol = &protocol;
        read_section(protocol_table(), name, table, path, inside, landing, faults,
                     [](const FieldShape&, const FieldValue&) {});
    }
    void one(const Written& top, std::string_view name, bool needed) {
        const Written* table = top.part(name);
        if (table != nullptr)
            section(name, *table, std::string(name), {}, {});
        else if (needed)
            faults.add(1, std::string(name), "nothing", "needed: a section [" + std::string(name) + "]");
    }
};

std::string numbered(std::string_view name, std::size_t number) {
    return std::string(name) + "[" + std::to_string(number) + "]";
}

void read_actions(Reading& r, const Written& top) {
    std::size_t number = 0;
    for (const Written* table : tables_of(top, "action", "action", r.faults)) {
        const std::string path = numbered("action", ++number);
        ActWords act;
        r.section("action", *table, path, {}, {.act = &act});
        if (const auto fixed = fixed_time_of(act.id)) {
            const Written* takes = table->part("takes");
            if (takes != nullptr && act.takes != *fixed)
                r.faults.add(takes->line, path + ".takes", "\"" + takes->text + "\"",
                             in_words(fixed->value, Unit::seconds) + ": the body answers to `" + act.id +
                                 "`, so the program fixes its time");
            act.takes = *fixed;
        }
        if (!act.id.empty() && r.protocol.act(act.id) != nullptr)
            r.faults.add(table->part("id")->line, path + ".id", "\"" + act.id + "\"", "each action once");
        r.protocol.acts.push_back(std::move(act));
    }
}

void read_situations(Reading& r, const Written& top) {
    std::size_t number = 0;
    for (const Written* table : tables_of(top, "situation", "situation", r.faults)) {
        const std::string path = numbered("situation", ++number);
        Situation situation;
        r.section("situation", *table, path, {}, {.situation = &situation});
        if (table->part("level_if_it_holds") == nullptr) situation.level_if_it_holds = situation.level;
        if (!situation.id.empty() && r.protocol.situation(situation.id) != nullptr)
            r.faults.add(table->part("id")->line, path + ".id", "\"" + situation.id + "\"",
                         "each situation once");
        r.protocol.situations.push_back(std::move(situation));
    }
}

void read_rules(Reading& r, const Written& top) {
    std::vector<std::string_view> known;
    for (const ActWords& act : r.protocol.acts) known.push_back(act.id);
    std::size_t number = 0;
    for (const Written* table : tables_of(top, "rule", "rule", r.faults)) {
        const std::string path = numbered("rule", ++number);
        Rule rule;
        r.section("rule", *table, path, {}, {.rule = &rule});
        if (table->kind != Written::Kind::table) continue;
        const Written* act = table->part("act");
        const Written* any_of = table->part("any_of");
        if ((act == nullptr) == (any_of == nullptr))
            r.faults.add(table->line, path, act == nullptr ? "neither act nor any_of" : "both act and any_of",
                         "one of the two");
        const auto check = [&](const std::vector<std::string>& ids, const Written* where,
                               const std::string& key) {
            for (const std::string& id : ids) {
                if (r.protocol.act(id) != nullptr) continue;
                const std::string near = nearest(id, known);
                r.faults.add(where != nullptr ? where->line : table->line, path + "." + key, "\"" + id + "\"",
                             "the id of an [[action]]" +
                                 (near.empty() ? std::string() : "; did you mean `" + near + "`?"));
            }
        };
        check(rule.acts, act != nullptr ? act : any_of, act != nullptr ? "act" : "any_of");
        check(rule.before, table->part("before"), "before");
        if (rule.grade == Grade::late_if_before && rule.before.empty())
            r.faults.add(table->line, path + ".before", "nothing",
                         "needed with late_if_before: the acts that come first");
        if (rule.grade != Grade::late_if_before && !rule.before.empty())
            r.faults.add(table->part("before")->line, path + ".before", "acts", "only with late_if_before");
        if (rule.grade != Grade::expected && rule.within.value > 0)
            r.faults.add(table->part("within")->line, path + ".within",
                         "\"" + table->part("within")->text + "\"", "only with grade = \"expected\"");
        if (!rule.situation.empty() && rule.situation != "always" &&
            r.protocol.situation(rule.situation) == nullptr)
            r.faults.add(table->part("situation")->line, path + ".situation", "\"" + rule.situation + "\"",
                         "a [[situation]] of this file");
        r.protocol.rules.push_back(std::move(rule));
    }
}

void check_limits(const Protocol& p, const Written& top, FaultList& faults) {
    const Written* limits = top.part("limits");
    if (limits == nullptr || limits->kind != Written::Kind::table) return;
    const bool low = limits->part("alert_low") != nullptr, high = limits->part("alert_high") != nullptr;
    if (limits->part("low") != nullptr && limits->part("high") != nullptr && p.low.bpm >= p.high.bpm)
        faults.add(limits->part("high")->line, "limits.high", "\"" + limits->part("high")->text + "\"",
                   "above low = " + in_words(p.low.bpm.value, Unit::bpm));
    if (low != high)
        faults.add(limits->line, low ? "limits.alert_high" : "limits.alert_low", "nothing",
                   "alert_low and alert_high, both or neither");
    else if (low && p.alert_low.bpm >= p.alert_high.bpm)
        faults.add(limits->part("alert_high")->line, "limits.alert_high",
                   "\"" + limits->part("alert_high")->text + "\"",
                   "above alert_low = " + in_words(p.alert_low.bpm.value, Unit::bpm));
}

void check_mother(const Protocol& p, const Written& top, FaultList& faults) {
    const Written* mother = top.part("mother");
    if (mother != nullptr && mother->kind == Written::Kind::table && p.warm_from_c > p.fever_from_c) {
        const Written* at =
            mother->part("warm_from") ? mother->part("warm_from") : mother->part("fever_from");
        faults.add(at->line, "mother.warm_from", in_words(p.warm_from_c, Unit::celsius),
                   "no higher than fever_from = " + in_words(p.fever_from_c, Unit::celsius));
    }
    const Written* womb = top.part("contractions");
    if (womb == nullptr || womb->kind != Written::Kind::table) return;
    std::string missing;
    std::size_t given = 0;
    for (const char* key : {"alert_few", "alert_short", "alert_long"}) {
        if (womb->part(key) != nullptr)
            ++given;
        else
            missing = key;
    }
    if (given > 0 && given < 3)
        faults.add(womb->line, "contractions." + missing, "nothing",
                   "alert_few, alert_short and alert_long, all or none");
}

}  // namespace

Outcome<Protocol> read_protocol(std::string_view text, const std::string& file) {
    auto written = read_toml(text, file);
    if (!written.ok()) return written.faults();
    const Written& top = written.value();
    Reading r(file);
    Protocol& p = r.protocol;
    check_format(top, "protocol", r.faults);
    check_id(top, file, r.faults);
    r.section("", top, "",
              {"limits", "counting", "pulse", "mother", "contractions", "listening", "action", "situation",
               "rule", "plan", "conflict"},
              {});
    r.one(top, "limits", true);
    r.one(top, "counting", true);
    r.one(top, "pulse", false);
    r.one(top, "mother", false);
    r.one(top, "contractions", false);
    check_limits(p, top, r.faults);
    check_mother(p, top, r.faults);
    std::size_t number = 0;
    for (const Written* table : tables_of(top, "listening", "listening", r.faults)) {
        ListeningRule rule;
        r.section("listening", *table, numbered("listening", ++number), {}, {.listening = &rule});
        p.listening.push_back(rule);
    }
    for (const Stage stage : {Stage::latent, Stage::active, Stage::second}) {
        std::size_t times = 0;
        for (const ListeningRule& rule : p.listening) times += rule.stage == stage ? 1u : 0u;
        if (times != 1)
            r.faults.add(1, "listening",
                         std::to_string(times) + " times stage = \"" + std::string(name_of(stage)) + "\"",
                         "one [[listening]] for each of latent, active, second");
    }
    read_actions(r, top);
    read_situations(r, top);
    read_rules(r, top);
    for (const std::string_view name : {"plan", "conflict"}) {
        number = 0;
        for (const Written* table : tables_of(top, name, std::string(name), r.faults)) {
            std::pair<std::string, std::string> line;
            r.section(name, *table, numbered(name, ++number), {}, {.pair = &line});
            (name == "plan" ? p.plan : p.conflicts).push_back(std::move(line));
        }
    }
    if (!r.faults.empty()) return r.faults.by_line();
    p.text = std::string(text);
    p.sha256 = sha256_hex(text);
    return std::move(r.protocol);
}

Outcome<Protocol> read_protocol_file(const std::string& path) {
    auto bytes = bytes_of(path);
    if (!bytes.ok()) return bytes.faults();
    return read_protocol(bytes.value(), path);
}

}  // namespace engine
