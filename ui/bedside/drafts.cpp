// What is typed and not written yet: nothing of it is lost when the program is killed.
#include "ui/bedside/bedside.h"

namespace ui {

namespace {
constexpr double between_s = 1;  // a second of typing is the most that can be lost
}

std::map<std::string, std::string*> BedsideScreen::typed() {
    return {{"beats", &beats_},           {"rate", &rate_},           {"pulse", &pulse_},
            {"done", &done_},             {"note", &note_},           {"situation", &situation_},
            {"background", &background_}, {"assessment", &assessment_}, {"request", &request_},
            {"per_10min", &per_10min_},   {"length_s", &length_s_}};
}

void BedsideScreen::bring_drafts_back() {
    drafts_kept_ = session_->drafts();
    for (auto& [field, text] : typed())
        if (const auto kept = drafts_kept_.find(field); kept != drafts_kept_.end()) *text = kept->second;
}

void BedsideScreen::keep_drafts(double now_s) {
    if (now_s < drafts_kept_s_ + between_s || session_->finished()) return;
    for (const auto& [field, text] : typed()) {
        std::string& kept = drafts_kept_[field];
        if (kept == *text) continue;
        kept = *text;
        session_->keep_draft(field, kept);
        drafts_kept_s_ = now_s;
    }
}

}  // namespace ui
