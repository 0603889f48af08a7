// FORMAT.md and the defaults it names are the reader's own table.
#include "engine/protocol/protocol_table.h"
#include "engine/scenario/scenario_table.h"
#include "tests/engine/scenario/lines_of.h"

#include <catch2/catch.hpp>

#include <cstring>
#include <fstream>
#include <set>

namespace {

template <typename Fields>
void rows_are_sound(const Fields& fields) {
    std::set<std::pair<std::string, std::string>> seen;
    for (const auto& field : fields) {
        const engine::FieldShape& shape = field.shape;
        INFO(shape.section << " " << shape.key);
        CHECK(seen.insert({std::string(shape.section), std::string(shape.key)}).second);
        CHECK(field.lands != nullptr);
        CHECK_FALSE(shape.meaning.empty());
        CHECK(shape.meaning.find('|') == std::string_view::npos);
        if (shape.kind == engine::FieldKind::quantity) CHECK(shape.least < shape.most);
        if (shape.needed) CHECK(shape.standard.empty());
    }
}

// What the documented default lands on a fresh object must leave it as it was.
template <typename Fields, typename Read>
void defaults_change_nothing(const Fields& fields, Read changes) {
    for (const auto& field : fields) {
        const engine::FieldShape& shape = field.shape;
        if (shape.standard.empty()) continue;
        INFO(shape.section << " " << shape.key << " = " << shape.standard);
        engine::FieldValue value;
        value.text = shape.standard;
        value.truth = shape.standard == "true";
        if (shape.kind == engine::FieldKind::whole) value.whole = std::stoll(std::string(shape.standard));
        if (shape.kind == engine::FieldKind::quantity) {
            const auto quantity = engine::read_quantity(shape.standard, shape.unit);
            REQUIRE(quantity.has_value());
            CHECK(quantity->from >= shape.least);
            CHECK(quantity->to <= shape.most);
            value.quantity = *quantity;
            value.number = quantity->middle();
        }
        CHECK_FALSE(changes(field, value));
    }
}

template <typename T>
struct Bytes {
    T was, is;
    Bytes() {
        std::memset(static_cast<void*>(&was), 0, sizeof(T));
        was = T{};
        std::memcpy(static_cast<void*>(&is), &was, sizeof(T));
    }
    bool changed() const { return std::memcmp(&was, &is, sizeof(T)) != 0; }
};

}  // namespace

// Writes the tables into the page again after a row was added: test_engine_scenario "[.write-format-page]".
TEST_CASE("FORMAT.md is written again", "[.write-format-page]") {
    std::string page = bytes_at("scenarios/FORMAT.md");
    const auto put = [&page](std::size_t from, std::string_view heading, const std::string& tables) {
        const std::size_t until = page.find(heading, from);
        REQUIRE(until != std::string::npos);
        page.replace(from, until - from, tables + (tables.ends_with("\n\n") ? "" : "\n"));
    };
    put(page.find("### Top of the file"), "### How facts go together", engine::scenario_format_page());
    put(page.rfind("### Top of the file"), "### Grades", engine::protocol_format_page());
    std::ofstream(FULLMINUTE_SOURCE_DIR "/scenarios/FORMAT.md", std::ios::binary) << page;
}

TEST_CASE("FORMAT.md holds every row of the scenario table and of the protocol table", "[format page]") {
    const std::string page = bytes_at("scenarios/FORMAT.md");
    const std::string scenario = engine::scenario_format_page(), protocol = engine::protocol_format_page();
    CHECK(scenario.size() > 5000);
    CHECK(protocol.size() > 3000);
    CHECK(page.find(scenario) != std::string::npos);
    CHECK(page.find(protocol) != std::string::npos);
    for (std::string_view condition : engine::condition_ids()) {
        INFO(condition);
        CHECK(page.find("| `" + std::string(condition) + "` |") != std::string::npos);
    }
}

TEST_CASE("A row is there once, says what it means, and allows something", "[format page]") {
    rows_are_sound(engine::scenario_table());
    rows_are_sound(engine::protocol_table());
}

TEST_CASE("Every section of the tables has its own heading on the page", "[format page]") {
    std::size_t scenario_rows = 0, protocol_rows = 0;
    const auto count = [](const std::string& page) {
        std::size_t n = 0;
        for (std::size_t at = page.find("\n| `"); at != std::string::npos; at = page.find("\n| `", at + 1))
            ++n;
        return n;
    };
    scenario_rows = count(engine::scenario_format_page());
    protocol_rows = count(engine::protocol_format_page());
    CHECK(scenario_rows == engine::scenario_table().size());
    CHECK(protocol_rows == engine::protocol_table().size());
}

TEST_CASE("The default a scenario key names is the one it has when left out", "[format page]") {
    defaults_change_nothing(engine::scenario_table(), [](const auto& field, const engine::FieldValue& value) {
        static Bytes<sim::Patient> patient;
        static Bytes<sim::Baby> baby;
        static Bytes<sim::BabyEvent> event;
        static Bytes<engine::LabourStory> labour;
        engine::Scenario scenario;
        engine::CallOut call;
        engine::Finding finding;
        engine::ChartLine line;
        engine::ScenarioLanding landing{&scenario, &patient.is, &baby.is, &event.is, &call, &finding, &line};
        const engine::Scenario fresh;
        field.lands(landing, value);
        const engine::Place &a = scenario.place, &b = fresh.place;
        const engine::LabourStory &l = scenario.labour, &m = fresh.labour;
        const bool place = a.helpers != b.helpers || a.minutes_to_help != b.minutes_to_help ||
                           a.minutes_to_theatre != b.minutes_to_theatre || a.watch != b.watch ||
                           a.trainee != b.trainee || a.drip_stand != b.drip_stand;
        const bool story = l.stage != m.stage || l.open_cm != m.open_cm || l.waters != m.waters ||
                           l.waters_gone_hours != m.waters_gone_hours || l.births_before != m.births_before ||
                           l.scar != m.scar || l.pushing_minutes != m.pushing_minutes ||
                           l.head_visible != m.head_visible;
        return patient.changed() || baby.changed() || event.changed() || place || story ||
               scenario.level != fresh.level || scenario.boundary != fresh.boundary ||
               finding.from != engine::Finding{}.from;
    });
}

TEST_CASE("The default a protocol key names is the one it has when left out", "[format page]") {
    defaults_change_nothing(engine::protocol_table(), [](const auto& field, const engine::FieldValue& value) {
        engine::Protocol p;
        engine::ListeningRule listening;
        engine::ActWords act;
        engine::Rule rule;
        engine::Situation situation;
        std::pair<std::string, std::string> pair;
        engine::ProtocolLanding landing{&p, &listening, &act, &rule, &situation, &pair};
        field.lands(landing, value);
        const engine::Protocol q;
        const engine::ListeningRule other;
        const engine::ActWords plain;
        return p.from_memory != q.from_memory || p.low.limit_is_normal != q.low.limit_is_normal ||
               p.high.limit_is_normal != q.high.limit_is_normal ||
               p.alert_low.limit_is_normal != q.alert_low.limit_is_normal ||
               p.alert_high.limit_is_normal != q.alert_high.limit_is_normal || p.rising_by != q.rising_by ||
               p.red_below != q.red_below || p.slowing_depth != q.slowing_depth ||
               p.slowing_length != q.slowing_length || p.stays_down != q.stays_down ||
               p.baseline_needs != q.baseline_needs ||
               p.persistence_contractions != q.persistence_contractions || p.persistence != q.persistence ||
               p.near_pulse != q.near_pulse || p.pulse_at_first_listening != q.pulse_at_first_listening ||
               p.pulse_felt_for != q.pulse_felt_for ||
               p.pulse_at_each_listening != q.pulse_at_each_listening ||
               p.too_many.per_10min != q.too_many.per_10min ||
               p.too_many.limit_is_normal != q.too_many.limit_is_normal ||
               p.pulse_slow_below != q.pulse_slow_below || p.pulse_fast_from != q.pulse_fast_from ||
               p.warm_from_c != q.warm_from_c || p.fever_from_c != q.fever_from_c ||
               listening.length != other.length || listening.when != other.when ||
               listening.after_end != other.after_end || act.kind != plain.kind || act.who != plain.who ||
               act.takes != plain.takes || act.reveals != plain.reveals ||
               rule.grade != engine::Rule{}.grade || rule.critical || situation.level != engine::Level::green;
    });
}
