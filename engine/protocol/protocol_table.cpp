#include "engine/protocol/protocol_rows.h"

namespace engine {
namespace {

struct SectionHead {
    std::string_view section, heading, meaning;
};
const SectionHead headings[] = {
    {"", "Top of the file", "What it is and where it comes from."},
    {"limits", "`[limits]`", "When a heart is slow, fast, rising, slowing. Needed."},
    {"counting", "`[counting]`", "Needed."},
    {"pulse", "`[pulse]`", "Her pulse, beside the baby's heart."},
    {"mother", "`[mother]`", "Her own pulse and temperature: findings of their own."},
    {"contractions", "`[contractions]`",
     "How often a womb may contract, and alerts where the guidance has them."},
    {"listening", "`[[listening]]`", "One for each stage of labour. All three needed."},
    {"action", "`[[action]]`",
     "What can be done. Answers of the body belong to the program, not to this file."},
    {"situation", "`[[situation]]`", "What can be the matter, and how soon to act."},
    {"rule", "`[[rule]]`", "What an act is worth in a situation."},
    {"plan", "`[[plan]]`", "The facility's own plan for a baby in trouble, printed for the wall."},
    {"conflict", "`[[conflict]]`", "Where guidance differs; shown in the debrief."},
};

}  // namespace

const std::vector<Field<ProtocolLanding>>& protocol_table() {
    static const ProtocolRows table = [] {
        ProtocolRows t;
        add_top_rows(t);
        add_limit_rows(t);
        add_mother_rows(t);
        add_listening_rows(t);
        add_action_rows(t);
        add_rule_rows(t);
        add_situation_rows(t);
        return t;
    }();
    return table;
}

std::string protocol_format_page() {
    std::string page;
    for (const SectionHead& head : headings) {
        page +=
            "### " + std::string(head.heading) + "\n\n" + std::string(head.meaning) + "\n\n" + page_head();
        for (const auto& field : protocol_table())
            if (field.shape.section == head.section) page += page_row(field.shape);
        page += "\n";
    }
    return page;
}

}  // namespace engine
