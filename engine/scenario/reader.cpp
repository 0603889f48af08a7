#include "engine/scenario/scenario.h"
#include "engine/scenario/scenario_table.h"
#include "engine/sha256.h"
#include "sim/course/usual_baseline.h"

#include <utility>

namespace engine {
namespace {

using Landing = ScenarioLanding;

struct Reading {
    Scenario scenario;
    FaultList faults;

    explicit Reading(const std::string& file) : faults(file) { scenario.file = file; }

    void section(std::string_view section_name, const Written& table, const std::string& path,
                 std::initializer_list<std::string_view> inside, Landing landing) {
        landing.scenario = &scenario;
        landing.patient = &scenario.middle;
        const std::string prefix = path.empty() ? "" : path + ".";
        read_section(scenario_table(), section_name, table, path, inside, landing, faults,
                     [&](const FieldShape& shape, const FieldValue& value) {
                         if (!shape.drawn || !value.quantity.range) return;
                         const std::string units = units_of(shape.unit);
                         scenario.drawn.push_back({prefix + std::string(shape.key), value.quantity.from,
                                                   value.quantity.to,
                                                   shape.unit == Unit::seconds ? "s"
                                                   : shape.unit == Unit::weeks ? "wk"
                                                                               : units});
                     });
    }
};

// A baby whose rate is drawn as usual has at least this (see sim::drawn_baseline).
constexpr double usual_baseline_from = 112;

// A drawn quantity is checked at the end where it goes wrong.
double least_of(const Scenario& s, const std::string& key, double as_read) {
    for (const Scenario::Drawn& d : s.drawn)
        if (d.key == key) return d.from;
    if (key == "baby.baseline" && s.usual_baseline[0]) return usual_baseline_from;
    if (key == "baby2.baseline" && s.usual_baseline[1]) return usual_baseline_from;
    return as_read;
}
double most_of(const Scenario& s, const std::string& key, double as_read) {
    for (const Scenario::Drawn& d : s.drawn)
        if (d.key == key) return d.to;
    return as_read;
}

void check_event(const Scenario& s, const sim::Baby& baby, const std::string& baby_path,
                 const sim::BabyEvent& event, const Written& table, const std::string& path,
                 FaultList& faults) {
    using Kind = sim::BabyEvent::Kind;
    using By = sim::BabyEvent::Brought_on_by;
    const auto only_for = [&](std::string_view key, bool fits, const std::string& allowed) {
        const Written* part = table.part(key);
        if (part != nullptr && !fits)
            faults.add(part->line, path + "." + std::string(key), "\"" + part->text + "\"", allowed);
    };
    if (!baby.heart_beats)
        faults.add(table.line, path, "an event of a heart that is absent",
                   "no events where heart = \"absent\"");
    only_for("at", event.by == By::time, "only with by = \"time\"");
    only_for("every", event.by == By::contraction, "only with by = \"contraction\"");
    only_for("rate", event.by == By::movement, "only with by = \"movement\"");
    only_for("lead", event.kind == Kind::acceleration, "only with kind = \"acceleration\"");
    only_for("shoulders", event.kind == Kind::variable, "only with kind = \"variable\"");
    only_for("back_after", event.kind == Kind::late, "only with kind = \"late\"");
    only_for("length", event.kind != Kind::late && event.kind != Kind::early,
             "only with kind = \"acceleration\", \"variable\" or \"prolonged\": the contraction gives it");
    only_for("kind", (event.kind != Kind::late && event.kind != Kind::early) || event.by == By::contraction,
             "early and late go with by = \"contraction\"");
    if (event.by == By::time && table.part("at") == nullptr)
        faults.add(table.line, path + ".at", "nothing", "needed with by = \"time\": when it starts");
    if (event.by == By::movement && event.rate_per_10min.value <= 0)
        faults.add(table.line, path + ".rate", "nothing",
                   "needed with by = \"movement\": more than 0 per 10 min");
    const double baseline = least_of(s, baby_path + ".baseline", baby.baseline.value);
    const double depth = most_of(s, path + ".depth", event.depth.value);
    if (event.kind != Kind::acceleration && depth > baseline - 30)
        faults.add(table.line, path + ".depth", in_words(depth, Unit::bpm),
                   "at least 30 bpm must be left of the baseline of " + in_words(baseline, Unit::bpm));
    if (most_of(s, path + ".from", event.from.value) >= least_of(s, path + ".until", event.until.value))
        faults.add(table.line, path + ".until", in_words(event.until.value, Unit::seconds),
                   "later than from = " + in_words(event.from.value, Unit::seconds));
}

void read_baby(Reading& reading, const Written& file, std::string_view name) {
    const Written* table = file.part(name);
    if (table == nullptr) return;
    const std::string path(name);
    sim::Baby read;
    read.events.size = 0;
    reading.scenario.middle.babies.add(read);
    sim::Baby& baby = reading.scenario.middle.babies[reading.scenario.middle.babies.size - 1];
    reading.section("baby", *table, path, {"event"}, {.baby = &baby});
    if (table->kind != Written::Kind::table) return;
    if (baby.heart_beats && table->part("baseline") == nullptr) {
        Scenario& s = reading.scenario;
        baby.baseline = sim::usual_baseline(s.middle.gestation_weeks);
        s.usual_baseline[static_cast<std::size_t>(s.middle.babies.size - 1)] = true;
    }
    if (!baby.heart_beats && reading.scenario.content_note.empty())
        reading.faults.add(table->line, path + ".heart", "\"absent\"",
                           "a content_note at the top of the file");
    for (const auto& [key, every] :
         {std::pair{"drop_every", baby.rhythm.drop_every}, std::pair{"early_every", baby.rhythm.early_every}})
        if (every == 1)
            reading.faults.add(table->part(key)->line, path + "." + key, "1", "0 (never), or 2 to 50");
    if (baby.comes_down_to > baby.fifths_above_brim)
        reading.faults.add(table->part("comes_down_to")->line, path + ".comes_down_to",
                           in_words(baby.comes_down_to, Unit::fifths),
                           "no more than above_brim = " + in_words(baby.fifths_above_brim, Unit::fifths));
    if (table->part("comes_down_over") != nullptr && baby.comes_down_to < 0)
        reading.faults.add(table->part("comes_down_over")->line, path + ".comes_down_over",
                           in_words(baby.comes_down_over.value, Unit::seconds), "only with comes_down_to");
    if (baby.spot_given && (table->part("spot_x") == nullptr || table->part("spot_y") == nullptr))
        reading.faults.add(table->line, path, "one of spot_x, spot_y", "both or neither");
    int number = 0;
    for (const Written* written : tables_of(*table, "event", path + ".event", reading.faults)) {
        const std::string event_path = path + ".event[" + std::to_string(++number) + "]";
        if (baby.events.full()) {
            reading.faults.add(written->line, event_path, "one event more", "at most 12 events");
            break;
        }
        baby.events.add({});
        sim::BabyEvent& event = baby.events[baby.events.size - 1];
        reading.section("baby.event", *written, event_path, {}, {.baby = &baby, .event = &event});
        if (written->kind == Written::Kind::table)
            check_event(reading.scenario, baby, path, event, *written, event_path, reading.faults);
    }
}

void check_labour(const Scenario& s, const Written& labour, FaultList& faults) {
    const auto fault = [&](std::string_view key, const std::string& found, const std::string& allowed) {
        const Written* part = labour.part(key);
        faults.add(part != nullptr ? part->line : labour.line, "labour." + std::string(key), found, allowed);
    };
    if (s.labour.stage == Stage::second && s.labour.open_cm < 10)
        fault("stage", "\"second\" with open = " + in_words(s.labour.open_cm, Unit::centimetres),
              "open = \"10 cm\" in the second stage");
    if (s.labour.waters == Waters::whole && s.labour.waters_gone_hours > 0)
        fault("waters_gone", in_words(s.labour.waters_gone_hours * 3600, Unit::seconds),
              "only where the waters are not whole");
    if (s.labour.stage != Stage::second && s.labour.pushing_minutes > 0)
        fault("pushing_for", in_words(s.labour.pushing_minutes * 60, Unit::seconds),
              "only in the second stage");
    if (s.labour.head_visible && s.labour.stage != Stage::second)
        fault("head_visible", "true", "only in the second stage");
    if (labour.part("without_drip") != nullptr && !s.middle.labour.oxytocin_drip)
        fault("without_drip", "\"" + labour.part("without_drip")->text + "\"", "only with drip = true");
}

void check_cause(const Scenario& s, const Written& cause, FaultList& faults) {
    const sim::Cause& c = s.middle.cause;
    if (c.pulse_to.value > 0 && (c.trouble == sim::Trouble::none || cause.part("at") == nullptr))
        faults.add(cause.part("pulse_to")->line, "cause.pulse_to", in_words(c.pulse_to.value, Unit::bpm),
                   "only with a trouble and the time it starts (at)");
    if (c.falls_to.value <= 0) return;
    if (c.trouble == sim::Trouble::none)
        faults.add(cause.line, "cause.trouble", "none, with a fall", "what is wrong, since the rate falls");
    if (cause.part("at") == nullptr)
        faults.add(cause.line, "cause.at", "nothing", "needed with falls_to: when the fall starts");
    if (s.middle.babies.size == 0) return;
    const double falls_to = most_of(s, "cause.falls_to", c.falls_to.value);
    const double baseline = least_of(s, "baby.baseline", s.middle.babies[0].baseline.value);
    if (falls_to >= baseline)
        faults.add(cause.part("falls_to")->line, "cause.falls_to", in_words(falls_to, Unit::bpm),
                   "below the baseline of " + in_words(baseline, Unit::bpm));
}

}  // namespace

Outcome<Scenario> read_scenario(std::string_view text, const std::string& file) {
    auto written = read_toml(text, file);
    if (!written.ok()) return written.faults();
    const Written& top = written.value();
    Reading reading(file);
    Scenario& s = reading.scenario;
    FaultList& faults = reading.faults;
    check_format(top, "scenario", faults);
    check_id(top, file, faults);
    reading.section(
        "", top, "",
        {"place", "mother", "baby", "baby2", "labour", "cause", "finding", "chart", "sound", "teaching"}, {});
    for (std::string_view needed : {"place", "baby"})
        if (top.part(needed) == nullptr)
            faults.add(1, std::string(needed), "nothing", "needed: a section [" + std::string(needed) + "]");
    if (const Written* place = top.part("place")) reading.section("place", *place, "place", {}, {});
    if (const Written* mother = top.part("mother")) reading.section("mother", *mother, "mother", {}, {});
    read_baby(reading, top, "baby");
    if (top.part("baby") != nullptr) read_baby(reading, top, "baby2");
    if (const Written* labour = top.part("labour")) {
        reading.section("labour", *labour, "labour", {"call"}, {});
        if (labour->kind == Written::Kind::table) check_labour(s, *labour, faults);
        int number = 0;
        for (const Written* call : tables_of(*labour, "call", "labour.call", faults)) {
            const std::string path = "labour.call[" + std::to_string(++number) + "]";
            CallOut out;
            reading.section("labour.call", *call, path, {}, {.call = &out});
            if (out.at > s.length)
                faults.add(call->line, path + ".at", in_words(out.at.value, Unit::seconds),
                           "within the length of " + in_words(s.length.value, Unit::seconds));
            s.call_outs.push_back(out);
        }
    }
    if (const Written* cause = top.part("cause")) {
        reading.section("cause", *cause, "cause", {}, {});
        if (cause->kind == Written::Kind::table) check_cause(s, *cause, faults);
    }
    int number = 0;
    for (const Written* table : tables_of(top, "finding", "finding", faults)) {
        const std::string path = "finding[" + std::to_string(++number) + "]";
        Finding finding;
        reading.section("finding", *table, path, {}, {.finding = &finding});
        if (finding.from >= finding.until)
            faults.add(table->line, path + ".until", in_words(finding.until.value, Unit::seconds),
                       "later than from = " + in_words(finding.from.value, Unit::seconds));
        s.findings.push_back(finding);
    }
    number = 0;
    for (const Written* table : tables_of(top, "chart", "chart", faults)) {
        ChartLine line;
        reading.section("chart", *table, "chart[" + std::to_string(++number) + "]", {}, {.line = &line});
        s.chart.push_back(line);
    }
    if (const Written* sound = top.part("sound")) reading.section("sound", *sound, "sound", {}, {});
    if (const Written* teaching = top.part("teaching"))
        reading.section("teaching", *teaching, "teaching", {}, {});

    if (!faults.empty()) return faults.by_line();
    s.text = std::string(text);
    s.sha256 = sha256_hex(text);
    return s;
}

Outcome<Scenario> read_scenario_file(const std::string& path) {
    auto bytes = bytes_of(path);
    if (!bytes.ok()) return bytes.faults();
    return read_scenario(bytes.value(), path);
}

}  // namespace engine
