// The file as a person would write it: sections in the order of the format page, defaults left out where they
// say nothing.
#include "engine/drawing/woman.h"

#include <fmt/format.h>

#include <iterator>

namespace engine {
namespace {

std::string quoted(std::string_view text) {
    std::string q = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') q += '\\';
        q += c;
    }
    return q + "\"";
}

// Lines of at most about 110 letters, joined again by the reader.
std::string wrapped(std::string_view text) {
    std::string all = "\"\"\"\n", line;
    std::size_t at = 0;
    while (at < text.size()) {
        std::size_t end = text.find(' ', at);
        if (end == std::string_view::npos) end = text.size();
        const std::string_view word = text.substr(at, end - at);
        if (!line.empty() && line.size() + word.size() > 108) {
            all += line + " \\\n";
            line.clear();
        }
        line += (line.empty() ? "" : " ") + std::string(word);
        at = end + 1;
    }
    return all + line + "\"\"\"";
}

class Page {
public:
    template <typename... T>
    void line(fmt::format_string<T...> form, T&&... values) {
        fmt::format_to(std::back_inserter(text_), form, std::forward<T>(values)...);
        text_ += '\n';
    }
    void section(std::string_view name) { text_ += "\n" + std::string(name) + "\n"; }
    std::string text() && { return std::move(text_); }

private:
    std::string text_;
};

void write_place(Page& page, const Woman& w) {
    page.section("[place]");
    switch (w.told.place) {
        case place::post:
            page.line("name = \"Pellan Ford post\"");
            page.line("helpers = 0");
            page.line("to_help = \"90 min\"\nto_theatre = \"90 min\"");
            break;
        case place::centre:
            page.line("name = \"Sirro Bridge centre\"");
            page.line("helpers = 1");
            page.line("to_help = \"5 min\"\nto_theatre = \"40 min\"");
            break;
        default:
            page.line("name = \"Ambrel hospital\"");
            page.line("helpers = 3");
            page.line("to_help = \"2 min\"\nto_theatre = \"30 min\"");
    }
    std::string instruments;
    for (const std::string_view one : w.instruments)
        instruments += (instruments.empty() ? "" : ", ") + quoted(one);
    page.line("instruments = [{}]", instruments);
    if (w.told.place == place::post) page.line("drip_stand = false");
}

void write_mother(Page& page, const Woman& w) {
    page.section("[mother]");
    page.line("gestation = \"{} wk {} d\"", w.gestation_days / 7, w.gestation_days % 7);
    page.line("pulse = \"{:.1f} bpm\"", w.pulse_bpm);
    page.line("with_contraction = \"{} bpm\"", w.with_contraction_bpm);
    if (w.pushing) page.line("with_push = \"{} bpm\"", w.with_push_bpm);
    if (w.restless_percent != 100) page.line("restless = \"{} %\"", w.restless_percent);
    page.line("breaths = \"{} per min\"", w.breaths_per_min);
    page.line("temperature = \"{:.1f} C\"", w.temperature_c);
    page.line("fat = \"{:.1f} cm\"", w.fat_cm);
    page.line("placenta = {}", quoted(w.placenta));
    page.line("position = {}", quoted(w.position));
}

void write_baby(Page& page, const Woman& w, const DrawnBaby& b, std::string_view name) {
    page.section("[" + std::string(name) + "]");
    if (w.heart)
        page.line("baseline = \"{:.1f} bpm\"", b.baseline_bpm);
    else
        page.line("heart = \"absent\"");
    if (b.variability != "labour") page.line("variability = {}", quoted(b.variability));
    if (w.heart) page.line("drift = \"1 bpm\"");
    if (b.early_beat_percent > 0) page.line("early_beat = \"{:.0f} %\"", b.early_beat_percent);
    if (b.dropped_beat_percent > 0) page.line("dropped_beat = \"{:.0f} %\"", b.dropped_beat_percent);
    if (b.drop_every > 0) page.line("drop_every = {}", b.drop_every);
    if (b.early_every > 0) page.line("early_every = {}", b.early_every);
    page.line("position = {}", quoted(b.position));
    page.line("above_brim = \"{} fifth{}\"", b.fifths, b.fifths == 1 ? "" : "s");
    page.line("depth = \"{:.1f} cm\"", b.depth_cm);
    page.line("movements = \"{} per 10 min\"", b.movements_per_10min);
    for (const DrawnEvent& e : b.events) {
        page.section("[[" + std::string(name) + ".event]]");
        page.line("kind = {}", quoted(e.kind));
        page.line("by = {}", e.at_s >= 0 ? "\"time\"" : "\"contraction\"");
        if (e.at_s >= 0) page.line("at = \"{} s\"", e.at_s);
        page.line("depth = \"{} bpm\"", e.depth_bpm);
        if (e.length_s > 0) page.line("length = \"{} s\"", e.length_s);
        if (e.back_after_s > 0) page.line("back_after = \"{} s\"", e.back_after_s);
        if (e.share_percent < 100) page.line("share = \"{} %\"", e.share_percent);
        if (e.shoulders_bpm > 0) page.line("shoulders = \"{} bpm\"", e.shoulders_bpm);
    }
}

void write_labour(Page& page, const Woman& w) {
    page.section("[labour]");
    page.line("stage = {}", quoted(w.stage));
    page.line("open = \"{} cm\"", w.open_cm);
    page.line("waters = {}", quoted(w.waters));
    if (w.waters_gone_h > 0) page.line("waters_gone = \"{} h\"", w.waters_gone_h);
    page.line("births_before = {}", w.told.births_before);
    if (w.told.scar_known) page.line("scar = true");
    if (w.pushing) page.line("pushing = true\npushing_for = \"{} min\"", w.pushing_for_min);
    if (w.head_visible) page.line("head_visible = true");
    page.line("contractions = \"{:.1f} per 10 min\"", w.contractions_per_10min);
    page.line("contraction_length = \"{} s\"", w.contraction_length_s);
    page.line("strength = \"{} mmHg\"", w.strength_mmhg);
    if (w.tone_mmhg != 10) page.line("tone = \"{} mmHg\"", w.tone_mmhg);
    page.line("irregular = \"10 %\"");
    page.line("first_contraction = \"{} s\"", w.first_contraction_s);
    if (w.contractions_stop_s > 0) page.line("contractions_stop = \"{} s\"", w.contractions_stop_s);
    if (w.drip) page.line("drip = true\nwithout_drip = \"{:.1f} per 10 min\"", w.without_drip_per_10min);
    for (const DrawnCall& call : w.calls) {
        page.section("[[labour.call]]");
        page.line("kind = {}", quoted(call.kind));
        page.line("at = \"{} s\"", call.at_s);
        page.line("says = {}", quoted(call.says));
    }
}

void write_cause(Page& page, const Woman& w) {
    if (w.trouble.empty()) return;
    page.section("[cause]");
    page.line("trouble = {}", quoted(w.trouble));
    if (w.trouble_at_s >= 0) page.line("at = \"{} s\"", w.trouble_at_s);
    if (w.falls_to_bpm > 0) page.line("falls_to = \"{:.1f} bpm\"", w.falls_to_bpm);
    if (w.falls_over_s > 0) page.line("falls_over = \"{} s\"", w.falls_over_s);
    if (w.recovers_over_s > 0) page.line("recovers_over = \"{} s\"", w.recovers_over_s);
    if (!w.answers) page.line("answer = \"0 %\"");
    if (w.pulse_to_bpm > 0) page.line("pulse_to = \"{:.1f} bpm\"", w.pulse_to_bpm);
}

void write_rest(Page& page, const Woman& w) {
    for (const DrawnFinding& f : w.findings) {
        page.section("[[finding]]");
        page.line("act = {}", quoted(f.act));
        page.line("says = {}", quoted(f.says));
        if (!f.situation.empty()) page.line("situation = {}", quoted(f.situation));
        if (f.from_s > 0) page.line("from = \"{} s\"", f.from_s);
        if (f.until_s > 0) page.line("until = \"{} s\"", f.until_s);
    }
    for (const DrawnLine& line : w.chart) {
        page.section("[[chart]]");
        page.line("ago = \"{} min\"", line.minutes_ago);
        page.line("rate = \"{} bpm\"", line.bpm);
        page.line("pulse = \"{} bpm\"", line.pulse_bpm);
        if (!line.remark.empty()) page.line("remark = {}", quoted(line.remark));
    }
    page.section("[sound]");
    page.line("ladder = {}", quoted(w.ladder));
    page.line("ward = \"{} dB\"", w.ward_db);
    page.line("souffle = \"{} dB\"", w.souffle_db);
    page.line("souffle_x = \"{:.1f} cm\"\nsouffle_y = \"{:.1f} cm\"", w.souffle_x_cm, w.souffle_y_cm);
    page.line("vessel = \"{} dB\"", w.vessel_db);
    page.line("vessel_x = \"{:.1f} cm\"\nvessel_y = \"{:.1f} cm\"", w.vessel_x_cm, w.vessel_y_cm);
    if (w.knocks_per_min > 0) page.line("knocks = \"{} per min\"", w.knocks_per_min);
    page.section("[teaching]");
    page.line("notes = [");
    for (const std::string& note : w.notes) page.line("    {},", quoted(note));
    page.line("]");
}

}  // namespace

std::string text_of(const Woman& w, std::string_view id) {
    Page page;
    page.line("format = \"fullminute-scenario/1\"");
    page.line("id = {}", quoted(id));
    page.line("title = {}", quoted(w.title));
    page.line("task = {}", quoted(name_of(w.told.task)));
    page.line("level = {}", w.level);
    page.line("length = \"{} min\"", w.length_s / 60);
    page.line("story = {}", wrapped(w.story));
    if (!w.content_note.empty()) page.line("content_note = {}", wrapped(w.content_note));
    if (w.boundary) page.line("boundary = true");
    write_place(page, w);
    write_mother(page, w);
    write_baby(page, w, w.baby, "baby");
    if (w.told.twins_known) write_baby(page, w, w.second, "baby2");
    write_labour(page, w);
    write_cause(page, w);
    write_rest(page, w);
    return std::move(page).text();
}

}  // namespace engine
