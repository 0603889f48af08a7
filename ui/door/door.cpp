#include "ui/door/door.h"

#include "engine/store/person_code.h"
#include "engine/protocol/protocol.h"
#include "ui/files.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace fs = std::filesystem;

namespace ui {
namespace {

constexpr float row_h = 56, row_gap = 8;  // of the list, at 100 %

bool code_letter(char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '.' ||
           c == '_' || c == '-';
}

std::string minutes_in(const engine::Interrupted& attempt) {
    const double s = attempt.events.empty() ? 0 : attempt.events.back().t.seconds();
    if (s < 60) return words("less than a minute in");
    const auto minutes = static_cast<int>(s / 60);
    return minutes == 1 ? std::string(words("1 minute in"))
                        : fmt::format(fmt::runtime(words("{} minutes in")), minutes);
}

}  // namespace

std::string interrupted_words(const engine::Interrupted& attempt) {
    bool counting = false, listening = false;
    for (const engine::Event& e : attempt.events) {
        if (e.what == engine::Do::start_window) counting = true;
        if (e.what == engine::Do::stop_window || e.what == engine::Do::lift) counting = false;
        if (e.what == engine::Do::place) listening = true;
        if (e.what == engine::Do::lift) listening = false;
    }
    const char* what = counting
                           ? words("You were counting")
                           : (listening ? words("You were listening") : words("You were at the bedside"));
    return fmt::format("{}, {}.", what, minutes_in(attempt));
}

DoorScreen::DoorScreen(DoorWish before, Shelf& shelf, SoundDevice& device, engine::Journal& journal)
    : wish_(std::move(before)), shelf_(shelf), device_(device), journal_(journal) {
    wish_.resume.reset();
    if (auto found = journal_.interrupted()) interrupted_ = std::move(found).value();
    std::error_code ignored;
    std::vector<std::string> files;
    for (const auto& entry : fs::directory_iterator(data_folder() + "/scenarios/protocols", ignored))
        if (entry.path().extension() == ".toml") files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    if (!wish_.protocol.empty() && std::find(files.begin(), files.end(), wish_.protocol) == files.end())
        files.push_back(wish_.protocol);
    if (wish_.protocol.empty()) wish_.protocol = protocol_path("");
    // The one in use stands first: below the edge of the list nobody would see which it is.
    std::stable_partition(files.begin(), files.end(),
                          [&](const std::string& file) { return file == wish_.protocol; });
    for (const std::string& file : files)
        if (auto read = engine::read_protocol_file(file))
            protocols_.push_back({file, read->title,
                                  fmt::format(fmt::runtime(words("normal {:g} to {:g} a minute")),
                                              read->low.bpm.value, read->high.bpm.value),
                                  read->cautions, read->from_memory});
}

double DoorScreen::draw_again_in_s() const { return shelf_.done() ? 1.0 : 0.0; }

bool DoorScreen::code_good() const {
    return !wish_.person.empty() && wish_.person.size() <= 24 &&
           std::all_of(wish_.person.begin(), wish_.person.end(), code_letter);
}

void DoorScreen::start() {
    if (!code_good()) {
        code_fault_ = words("Letters, digits, dot, dash; no blanks. For example st-07.");
        return;
    }
    if (!wish_.scenario.empty()) leave_ = Leave::on;
}

void DoorScreen::to_progress() {
    if (!code_good()) {
        code_fault_ = words("Letters, digits, dot, dash; no blanks. For example st-07.");
        return;
    }
    leave_ = Leave::progress;
}

// Something is always ready to be played: the easiest, or what follows the labour sat through last.
void DoorScreen::choose_one() {
    const auto& lines = shelf_.lines();
    if (!wish_.scenario.empty() || !shelf_.done() || lines.empty()) return;
    const auto last =
        std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.path == wish_.after; });
    wish_.scenario = last == lines.end() || last + 1 == lines.end() ? lines.front().path : (last + 1)->path;
}

void DoorScreen::draw(Frame& frame) {
    if (!shelf_.done()) shelf_.read_some(4);
    choose_one();
    if (!opened_ && wish_.person.empty()) frame.focus_on("side/person");
    opened_ = true;
    if (frame.narrow())
        draw_narrow(frame);
    else
        draw_wide(frame);
    if (frame.key(Key::enter) && !frame.key(Key::tab)) start();
}

void DoorScreen::draw_wide(Frame& frame) {
    const float edge = frame.px(24), gap = frame.px(16);
    const float w = frame.width(), h = frame.height();
    const float head = frame.px(60), foot = frame.px(36);
    const float left_w = std::clamp(w * 0.29f, frame.px(270), frame.px(400));
    Area body{edge, head, w - 2 * edge, h - head - foot};
    const Area left = body.take_left(left_w, gap);
    const bool asks = !interrupted_.empty();
    Area right = body;
    const Area resume_card = asks ? right.take_top(frame.px(112), gap) : Area{};
    std::vector<Area> cards{left, right};
    if (asks) cards.push_back(resume_card);
    frame.page(cards);

    const float title_w = frame.width_of("Fullminute", Type::title);
    frame.one_line({edge + 4, 0, title_w + 2, head}, "Fullminute", Type::title);
    frame.one_line({edge + title_w + frame.px(22), frame.px(2), w - 2 * edge - title_w - frame.px(30), head},
                   words("Listen, count, decide. Then see what was true."), Type::text, Tone::soft);

    // The left column keeps its order and scrolls when the words are large.
    const Area inner = left.inside(frame.px(20));
    const float sound_h = sound_height(frame), protocol_h = protocols_height(frame);
    const float who_h = who_height(frame, inner.w - frame.px(18));
    frame.scroll("side", inner, who_h + sound_h + protocol_h, [&](Area at) {
        who(frame, at.take_top(who_h));
        sound(frame, at.take_top(sound_h));
        protocols(frame, at);
    });
    if (asks) waiting(frame, resume_card.inside(frame.px(20)));
    list(frame, right.inside(frame.px(20)));

    std::string caution =
        words("For learning only. It diagnoses nothing; local protocol and licensed practice decide.");
    frame.one_line({edge + 4, h - foot, w - 2 * edge - 8, foot}, caution, Type::note, Tone::soft);
}

std::string DoorScreen::who_note() const {
    return code_fault_.empty() ? std::string(words("A code, not a name: it stays with your results."))
                               : code_fault_;
}

float DoorScreen::who_height(const Frame& frame, float width) const {
    return frame.px(30 + 44 + 6 + 6 + 40 + 22) + frame.height_of(who_note(), Type::note, width);
}

float DoorScreen::sound_height(const Frame& frame) const {
    return frame.px(52 + 3 * 52 + 2 * 8) + (device_.state_words().empty() ? 0 : frame.px(66));
}

float DoorScreen::protocols_height(const Frame& frame) const {
    return frame.px(44) +
           static_cast<float>(protocols_.size()) * (frame.px(64) + frame.line_height(Type::note)) +
           frame.px(44);
}

void DoorScreen::who(Frame& frame, Area at) {
    frame.words_in(at.take_top(frame.px(30)), words("Who is here?"), Type::card);
    if (frame.text_field("side/person", at.take_top(frame.px(44), frame.px(6)), wish_.person,
                         words("your code"), 24))
        code_fault_.clear();
    const std::string below = who_note();
    const float below_h = frame.height_of(below, Type::note, at.w);
    frame.words_in(at.take_top(below_h, frame.px(6)), below, Type::note,
                   code_fault_.empty() ? Tone::soft : Tone::attention);
    if (frame.button("side/progress", at.take_top(frame.px(40)), words("Your progress"))) to_progress();
}

void DoorScreen::sound(Frame& frame, Area at) {
    frame.words_in(at.take_top(frame.px(32)), words("You listen with"), Type::card);
    const char* says[] = {words("Headphones"), words("Small speaker"), words("Laptop or phone")};
    const char* notes[] = {words("true sound"), words("low tones helped"), words("all tones raised")};
    const sim::OutputMode modes[] = {sim::OutputMode::true_sound, sim::OutputMode::assisted,
                                     sim::OutputMode::shifted};
    for (int i = 0; i < 3; ++i) {
        ButtonLook look;
        look.chosen = wish_.mode == modes[i];
        look.note = notes[i];
        look.align = Align::left;
        if (frame.button(fmt::format("side/mode:{}", i), at.take_top(frame.px(52), frame.px(8)), says[i],
                         look))
            wish_.mode = modes[i];
    }
    if (const std::string silent = device_.state_words(); !silent.empty())
        frame.words_in(
            {at.x, at.y, at.w, 0},
            words("No sound here: no sound device was found. You can look round, but nothing is heard."),
            Type::note, Tone::attention);
}

void DoorScreen::protocols(Frame& frame, Area at) {
    frame.words_in(at.take_top(frame.px(32)), words("Which protocol?"), Type::card);
    for (std::size_t i = 0; i < protocols_.size(); ++i) {
        ButtonLook look;
        look.chosen = wish_.protocol == protocols_[i].path;
        look.align = Align::left;
        if (frame.button(fmt::format("side/protocol:{}", i), at.take_top(frame.px(56), frame.px(2)),
                         protocols_[i].title, look))
            wish_.protocol = protocols_[i].path;
        frame.one_line(at.take_top(frame.line_height(Type::note), frame.px(6)), protocols_[i].normal,
                       Type::note, Tone::soft);
    }
    const auto now = std::find_if(protocols_.begin(), protocols_.end(),
                                  [&](const auto& p) { return p.path == wish_.protocol; });
    if (now != protocols_.end() && now->from_memory)
        frame.words_in({at.x, at.y, at.w, 0}, words("Some of its values are from memory."), Type::note,
                       Tone::attention);
}

void DoorScreen::waiting(Frame& frame, Area at) {
    // Of whoever is named here, else of whoever left first.
    const auto theirs =
        std::find_if(interrupted_.begin(), interrupted_.end(), [&](const engine::Interrupted& left) {
            return engine::folded(left.header.person) == engine::folded(wish_.person);
        });
    const auto waits = theirs != interrupted_.end() ? theirs : interrupted_.begin();
    const engine::Interrupted& first = *waits;
    const bool below = at.w < frame.px(620);  // the buttons under the words
    Area words_part = at;
    if (!below) words_part.w = at.w - frame.px(300);
    std::string title;
    if (auto read = engine::read_scenario(first.scenario_text, "")) title = read->title;
    frame.one_line(words_part.take_top(frame.px(28)),
                   fmt::format(fmt::runtime(words("{}: your attempt is still here")), first.header.person),
                   Type::card);
    if (first.unreadable) {
        frame.one_line(words_part.take_top(frame.px(24)), words("It is kept, but cannot be read back."),
                       Type::text, Tone::attention);
        frame.one_line(words_part.take_top(frame.px(20)),
                       fmt::format("{}. {}: {}", title, first.unreadable->what, first.unreadable->found),
                       Type::note, Tone::soft);
    } else {
        frame.one_line(words_part.take_top(frame.px(24)), interrupted_words(first));
        frame.one_line(
            words_part.take_top(frame.px(20)),
            fmt::format(fmt::runtime(words("{}. What you did is kept; time goes on from there.")), title),
            Type::note, Tone::soft);
    }
    Area buttons{at.right() - frame.px(284), at.y + frame.px(12), frame.px(284), frame.px(48)};
    if (below) buttons = {at.x, words_part.y + frame.px(8), std::min(at.w, frame.px(300)), frame.px(44)};
    ButtonLook go;
    go.main = true;
    go.enabled = !first.unreadable;
    if (frame.button("resume", buttons.part(0, 2, frame.px(12)), words("Go on"), go)) {
        wish_.resume = first;
        leave_ = Leave::on;
    }
    if (frame.button("give_up", buttons.part(1, 2, frame.px(12)),
                     giving_up_ == first.header.id ? words("Really give up?") : words("Give it up"))) {
        if (giving_up_ == first.header.id) {
            giving_up_.clear();
            journal_.drop(first.header.id);
            interrupted_.erase(waits);
        } else {
            giving_up_ = first.header.id;
        }
    }
}

std::string DoorScreen::judged_by() const {
    for (const ProtocolLine& p : protocols_)
        if (p.path == wish_.protocol)
            return fmt::format(fmt::runtime(words("After {}: {}")), p.title, p.normal);
    return "";
}

float DoorScreen::chosen_height(const Frame& frame, float width) const {
    for (const ShelfLine& l : shelf_.lines())
        if (l.path == wish_.scenario)
            return frame.px(70) + frame.height_of(judged_by(), Type::note, width) +
                   frame.height_of(l.title, Type::strong, width) +
                   (l.content_note.empty()
                        ? 0.0f
                        : frame.height_of(l.content_note, Type::text, width) + frame.px(12));
    return frame.px(72);
}

void DoorScreen::list(Frame& frame, Area at) {
    frame.words_in(at.take_top(frame.px(34)), words("Whom will you listen to?"), Type::card);
    const std::vector<std::string> tasks = kinds_of_task();
    const float needed = (frame.width_of(tasks[2], Type::strong) + frame.px(22)) * 7;
    const int columns = needed < at.w ? 7 : 4;
    const float chips_h = columns == 7 ? frame.px(40) : frame.px(88);
    if (columns == 7 || at.h > frame.px(300))
        if (auto now = frame.choice("task", at.take_top(chips_h, frame.px(12)), tasks, task_, columns))
            task_ = *now;

    Area bottom = at;
    const float bottom_h = chosen_height(frame, at.w - frame.px(232));
    bottom.y = at.bottom() - bottom_h;
    bottom.h = bottom_h;
    at.h -= bottom_h + frame.px(8);

    const Rows rows = labour_rows(frame, at.w);
    if (rows.shown.empty() && shelf_.done())
        frame.words_in(at, words("No labours of this kind were found."), Type::text, Tone::soft);
    frame.scroll("list", at, rows.height, [&](Area inner) { labours(frame, inner, rows); });
    chosen(frame, bottom);
}

DoorScreen::Rows DoorScreen::labour_rows(const Frame& frame, float width) const {
    Rows rows;
    for (const ShelfLine& l : shelf_.lines())
        if (task_ == 0 || static_cast<int>(l.task) == task_ - 1) rows.shown.push_back(&l);
    rows.columns = width > frame.px(680) ? 2 : 1;
    const int n = (static_cast<int>(rows.shown.size()) + rows.columns - 1) / rows.columns;
    rows.height = static_cast<float>(n) * (frame.px(row_h) + frame.px(row_gap));
    return rows;
}

void DoorScreen::labours(Frame& frame, Area at, const Rows& rows) {
    for (std::size_t i = 0; i < rows.shown.size(); ++i) {
        const ShelfLine& l = *rows.shown[i];
        const int line = static_cast<int>(i) / rows.columns, column = static_cast<int>(i) % rows.columns;
        const Area row{at.x, at.y + static_cast<float>(line) * (frame.px(row_h) + frame.px(row_gap)), at.w,
                       frame.px(row_h)};
        const std::string note =
            fmt::format(fmt::runtime(words("{}, level {}, {}")), task_words(l.task), l.level, l.where);
        ButtonLook look;
        look.chosen = l.path == wish_.scenario;
        look.align = Align::left;
        look.note = note.c_str();
        if (frame.button("list/" + l.id, row.part(column, rows.columns, frame.px(row_gap)), l.title, look)) {
            wish_.scenario = l.path;
            said_.clear();
        }
    }
}

void DoorScreen::chosen(Frame& frame, Area at) {
    const ShelfLine* line = nullptr;
    for (const ShelfLine& l : shelf_.lines())
        if (l.path == wish_.scenario) line = &l;
    frame.line(at.x, at.y, at.right(), at.y, colour::rule);
    at.take_top(frame.px(14));
    const Area button{at.right() - frame.px(216), at.y, frame.px(216), frame.px(52)};
    Area says{at.x, at.y, at.w - frame.px(232), at.h};
    if (!said_.empty()) {
        frame.words_in(says, said_, Type::text, Tone::attention);
    } else if (line == nullptr) {
        frame.words_in(says, words("Choose a labour; the first ones are the easiest."), Type::text,
                       Tone::soft);
    } else {
        says.take_top(frame.words_in({says.x, says.y, says.w, 0}, line->title, Type::strong), frame.px(4));
        if (!line->content_note.empty()) {
            const float used = frame.height_of(line->content_note, Type::text, says.w);
            frame.words_in(says.take_top(used, frame.px(6)), line->content_note, Type::text, Tone::attention);
        }
        says.take_top(
            frame.words_in({says.x, says.y, says.w, 0}, task_words(line->task), Type::note, Tone::soft),
            frame.px(4));
        frame.words_in({says.x, says.y, says.w, 0}, judged_by(), Type::note, Tone::soft);
    }
    ButtonLook look;
    look.main = true;
    look.enabled = line != nullptr;
    look.key = "Enter";
    if (frame.button("start", button, words("Sit down with her"), look)) start();
}

}  // namespace ui
