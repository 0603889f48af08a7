#include "engine/scenario/scenario_table.h"

#include "engine/scenario/scenario_words.h"

#include <cassert>

namespace engine {

using namespace scenario_words;

namespace {

struct SectionHead {
    std::string_view section, heading, meaning;
};
const SectionHead headings[] = {
    {"", "Top of the file", "What it is and what is told."},
    {"place", "`[place]`", "Where the labour is and what is at hand there. Needed."},
    {"mother", "`[mother]`", "The woman."},
    {"baby", "`[baby]` and `[baby2]`",
     "The baby. Needed. Twins: the second one in `[baby2]`, the same keys."},
    {"baby.event", "`[[baby.event]]` and `[[baby2.event]]`",
     "A thing that happens to the rate; up to 12. Depth, not the kind, is what an ear can know."},
    {"labour", "`[labour]`", "How the labour stands."},
    {"labour.call", "`[[labour.call]]`",
     "What she calls out, or what happens by itself and is seen at once."},
    {"cause", "`[cause]`", "A trouble behind it, with its own answer to measures."},
    {"finding", "`[[finding]]`", "What an act finds; hidden until the act is done."},
    {"chart", "`[[chart]]`", "Lines already on her labour chart."},
    {"sound", "`[sound]`", "What else is to be heard."},
    {"teaching", "`[teaching]`", "For the debrief."},
};

}  // namespace

const std::vector<std::string_view>& situation_ids() {
    static const std::vector<std::string_view> ids{"always",
                                                   "normal",
                                                   "fast",
                                                   "slow_steady",
                                                   "slow",
                                                   "slow_after_contraction",
                                                   "stays_down",
                                                   "mothers_pulse",
                                                   "cord_prolapse",
                                                   "too_many_contractions",
                                                   "fever",
                                                   "bleeding",
                                                   "lying_flat",
                                                   "mothers_medicine",
                                                   "close_to_birth",
                                                   "not_close_to_birth",
                                                   "twins",
                                                   "not_found",
                                                   "irregular",
                                                   "rising",
                                                   "thick_green_waters",
                                                   "breech",
                                                   "lying_across",
                                                   "listening_alone_not_enough",
                                                   "source_doubtful",
                                                   "her_pulse_fast",
                                                   "her_pulse_slow",
                                                   "temperature_raised",
                                                   "high_pressure",
                                                   "low_pressure",
                                                   "short_of_oxygen",
                                                   "scar_gives_way",
                                                   "mother_collapses"};
    return ids;
}

const std::vector<Field<ScenarioLanding>>& scenario_table() {
    static const ScenarioRows table = [] {
        ScenarioRows t;
        add_top_rows(t);
        add_mother_rows(t);
        add_baby_heart_rows(t);
        add_baby_lie_rows(t);
        add_baby_event_rows(t);
        add_labour_rows(t);
        add_finding_rows(t);
        add_sound_rows(t);
        return t;
    }();
    return table;
}

std::string scenario_format_page() {
    std::string page;
    for (const SectionHead& head : headings) {
        page +=
            "### " + std::string(head.heading) + "\n\n" + std::string(head.meaning) + "\n\n" + page_head();
        for (const auto& field : scenario_table())
            if (field.shape.section == head.section) page += page_row(field.shape);
        page += "\n";
    }
    return page;
}

void land_drawn(sim::Patient& patient, const std::string& key, double value) {
    const std::size_t dot = key.rfind('.');
    assert(dot != std::string::npos);
    std::string section = key.substr(0, dot);
    ScenarioLanding landing{.patient = &patient};
    if (section.starts_with("baby")) {
        const int baby = section.starts_with("baby2") ? 1 : 0;
        landing.baby = &patient.babies[baby];
        const std::size_t bracket = section.find('[');
        if (bracket == std::string::npos) {
            section = "baby";
        } else {
            landing.event = &landing.baby->events[std::stoi(section.substr(bracket + 1)) - 1];
            section = "baby.event";
        }
    }
    for (const auto& field : scenario_table()) {
        if (field.shape.section != section || field.shape.key != key.substr(dot + 1)) continue;
        assert(field.shape.drawn);
        FieldValue drawn;
        drawn.number = value;
        field.lands(landing, drawn);
        return;
    }
    assert(false && "a drawn key must be in the table");
}

std::string_view name_of(Task task) { return task_words[static_cast<std::size_t>(task)]; }
std::string_view name_of(Stage stage) { return stage_words[static_cast<std::size_t>(stage)]; }
std::string_view name_of(Licence licence) { return licence_words[static_cast<std::size_t>(licence)]; }
std::string_view name_of(Waters waters) { return waters_words[static_cast<std::size_t>(waters)]; }
std::string_view name_of(CallOut::Kind kind) { return call_words[static_cast<std::size_t>(kind)]; }

}  // namespace engine
