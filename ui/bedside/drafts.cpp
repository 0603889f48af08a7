// What is typed and not written yet: nothing of it is lost when the program is killed.
#include "ui/bedside/bedside.h"
#include "ui/bedside/number_in.h"

namespace ui {

namespace {
constexpr double between_s = 1;  // a second of typing is the most that can be lost

}  // namespace

std::map<std::string, std::string*> BedsideScreen::typed() {
    return {{"beats", &beats_},           {"rate", &rate_},           {"pulse", &pulse_},
            {"done", &done_},             {"note", &note_},           {"situation", &situation_},
            {"background", &background_}, {"assessment", &assessment_}, {"request", &request_},
            {"per_10min", &per_10min_},   {"length_s", &length_s_}};
}

std::map<std::string, BedsideScreen::Pick> BedsideScreen::picked() {
    return {{"plan", {&plan_, 0}},          {"strength", {&strength_, -1}}, {"rests", {&rests_, -1}},
            {"when", {&when_, -1}},         {"slowing", {&slowing_, -1}},   {"source", {&source_, -1}},
            {"baseline", {&baseline_, -1}}, {"around", {&around_, -1}},     {"rhythm", {&rhythm_, -1}}};
}

std::map<std::string, std::string> BedsideScreen::drafts_now() {
    std::map<std::string, std::string> now;
    for (const auto& [field, text] : typed()) now[field] = *text;
    for (const auto& [field, pick] : picked())
        now[field] = *pick.which == pick.fresh ? "" : std::to_string(*pick.which);
    return now;
}

void BedsideScreen::bring_drafts_back() {
    const std::map<std::string, std::string>& found = session_->drafts();
    for (auto& [field, text] : typed())
        if (const auto kept = found.find(field); kept != found.end()) *text = kept->second;
    for (auto& [field, pick] : picked())
        if (const auto kept = found.find(field); kept != found.end())
            *pick.which = number_in(kept->second).value_or(pick.fresh);  // a damaged journal may hold anything
    drafts_kept_ = found;
}

void BedsideScreen::keep_drafts(double now_s) {
    if (now_s < drafts_kept_s_ + between_s || session_->finished()) return;
    for (const auto& [field, text] : drafts_now()) {
        std::string& kept = drafts_kept_[field];
        if (kept == text) continue;
        kept = text;
        session_->keep_draft(field, kept);
        drafts_kept_s_ = now_s;
    }
}

}  // namespace ui
