// Notes, what was felt of the contractions, the referral note; and what lies over the bedside for a moment.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/bedside/number_in.h"
#include "ui/paper/verdict_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace ui {

void BedsideScreen::write_contractions(double now_s) {
    engine::Event event;
    event.what = engine::Do::report_contractions;
    event.per_10min = number_in(per_10min_);
    event.length_s = number_in(length_s_);
    if (event.per_10min.value_or(0) > 20 || event.length_s.value_or(0) > 600) {
        tell(words("That cannot be: up to 20 contractions in ten minutes, up to 600 seconds each."));
        return;
    }
    static constexpr const char* strong[] = {"soft", "medium", "strong"};
    static constexpr const char* rest[] = {"soft", "stays_hard"};
    if (strength_ >= 0) event.strength = strong[strength_];
    if (rests_ >= 0) event.rests = rest[rests_];
    if (!want(event, now_s)) return;
    kept_ = Kept::contractions;
    per_10min_.clear();
    length_s_.clear();
    strength_ = rests_ = -1;
}

void BedsideScreen::keep_note(double now_s) {
    engine::Event event;
    event.what = engine::Do::note;
    event.text = note_;
    if (!want(event, now_s)) return;
    kept_ = Kept::note;
    note_.clear();
}

void BedsideScreen::send_referral(double now_s) {
    engine::Event event;
    event.what = engine::Do::handover;
    event.situation = situation_;
    event.background = background_;
    event.assessment = assessment_;
    event.request = request_;
    if (!want(event, now_s)) return;
    kept_ = Kept::referral;
    for (std::string* part : {&situation_, &background_, &assessment_, &request_}) part->clear();
}

void BedsideScreen::write_page(Frame& frame, Area at) {
    const double now_s = frame.now_s();
    // A heading, and beside it that what stood below it last is safe.
    const auto heading = [&](Area row, const char* says, Kept which, const char* safe) {
        frame.one_line(row, says, Type::strong);
        if (kept_ == which)
            frame.one_line(row.part(1, 2, frame.px(8)), safe, Type::note, Tone::fine, Align::right);
    };
    const float gap = frame.px(8), label = frame.px(22), line = frame.px(40), field = frame.px(44);
    const float height = frame.px(28) + (label + field + gap) + 2 * (label + frame.px(38) + gap) + line +
                         frame.px(20) + frame.px(28) + frame.px(84) + gap + line + frame.px(20) +
                         frame.px(28) + 4 * (label + frame.px(64) + gap) + line + gap;
    frame.scroll("write", at, height, [&](Area in) {
        heading(in.take_top(frame.px(28)), words("Contractions you felt"), Kept::contractions,
                words("written"));
        const Area labels = in.take_top(label), fields = in.take_top(field, gap);
        frame.one_line(labels.part(0, 2, gap), words("In ten minutes"), Type::note, Tone::soft);
        frame.one_line(labels.part(1, 2, gap), words("How long"), Type::note, Tone::soft);
        frame.number_field("write/per10", fields.part(0, 2, gap), per_10min_, "", 2);
        frame.number_field("write/length", fields.part(1, 2, gap), length_s_, words("seconds"));
        frame.one_line(in.take_top(label), words("At their height the womb is"), Type::note, Tone::soft);
        const std::vector<std::string> strengths{words("soft"), words("medium"), words("strong")};
        if (auto n = frame.choice("write/strength", in.take_top(frame.px(38), gap), strengths, strength_))
            strength_ = *n;
        frame.one_line(in.take_top(label), words("Between them it"), Type::note, Tone::soft);
        const std::vector<std::string> rests{words("goes soft"), words("stays hard")};
        if (auto n = frame.choice("write/rests", in.take_top(frame.px(38), gap), rests, rests_)) rests_ = *n;
        ButtonLook keep;
        keep.enabled = number_in(per_10min_).has_value() || number_in(length_s_).has_value();
        if (frame.button("write/contractions", in.take_top(line, frame.px(20)),
                         words("Write contractions down"), keep))
            write_contractions(now_s);
        heading(in.take_top(frame.px(28)), words("Notes"), Kept::note, words("kept"));
        frame.text_field("write/note", in.take_top(frame.px(84), gap), note_,
                         words("What you want to remember"), 1000, true);
        ButtonLook keeping;
        keeping.enabled = !note_.empty();
        if (frame.button("write/keep_note", in.take_top(line, frame.px(20)), words("Keep this note"),
                         keeping))
            keep_note(now_s);
        heading(in.take_top(frame.px(28)), words("Referral note"), Kept::referral, words("sent"));
        const auto part = [&](const char* id, const char* says, std::string& text) {
            frame.one_line(in.take_top(label), says, Type::note, Tone::soft);
            frame.text_field(id, in.take_top(frame.px(64), gap), text, "", 900, true);
        };
        part("write/situation", words("What happens now: who, rate, pulse"), situation_);
        part("write/background", words("Her labour so far"), background_);
        part("write/assessment", words("What you think it is"), assessment_);
        part("write/request", words("What was done, and what you ask for"), request_);
        ButtonLook give;
        give.enabled =
            !situation_.empty() || !background_.empty() || !assessment_.empty() || !request_.empty();
        if (frame.button("write/handover", in.take_top(line, gap), words("Send the referral note"), give))
            send_referral(now_s);
    });
}

void BedsideScreen::loudness_by(double share) {
    SoundDevice& device = session_->device();
    device.set_volume(std::clamp(device.volume() + share, 0.1, 1.0));
    tell(fmt::format(fmt::runtime(words("Sound at {} of 10.")), std::lround(10 * device.volume())), 3);
    said_at_her_ = true;
}

void BedsideScreen::loudness(Frame& frame, Area at) {
    const Area middle = at.part(1, 3, frame.px(10));
    if (frame.button("softer", at.part(0, 3, frame.px(10)), words("Softer"))) loudness_by(-0.1);
    frame.one_line(
        middle,
        fmt::format(fmt::runtime(words("Sound {} of 10")), std::lround(10 * session_->device().volume())),
        Type::text, Tone::soft, Align::centre);
    if (frame.button("louder", at.part(2, 3, frame.px(10)), words("Louder"))) loudness_by(0.1);
}

void BedsideScreen::over_all(Frame& frame) {
    if (over_ == Over::nothing && !fault_.empty()) over_ = Over::finish;
    if (over_ == Over::nothing && session_->over_time() && !session_->finished()) over_ = Over::finish;
    if (over_ == Over::nothing) return;
    const float gap = frame.px(10), w = std::min(frame.px(480), frame.width() - frame.px(40));
    const float rows = over_ == Over::position || over_ == Over::cautions
                           ? 4
                           : (over_ == Over::later || over_ == Over::paused ? 3 : 2);
    const float h = frame.px(120) + rows * frame.px(58);
    Area box{(frame.width() - w) / 2, (frame.height() - h) / 2, w, h};
    frame.fill(box, colour::card, 10);
    frame.outline(box, colour::ink, 10, 2);
    Area in = box.inside(frame.px(24));
    const bool close = frame.key(Key::escape);
    switch (over_) {
        case Over::position: {
            frame.one_line(in.take_top(frame.px(34), frame.px(8)), words("Help her to lie or stand"),
                           Type::card);
            Area grid = in.take_top(4 * frame.px(48) + 3 * gap, gap);
            std::vector<std::string> names;
            for (int i = 0; i < 8; ++i) names.push_back(position_words(static_cast<sim::Position>(i)));
            if (auto n =
                    frame.choice("positions", grid, names, static_cast<int>(session_->hold().position), 2)) {
                engine::Event event;
                event.what = engine::Do::position;
                event.position = static_cast<sim::Position>(*n);
                if (event.position == session_->hold().position || want(event, frame.now_s()))
                    over_ = Over::nothing;
                else
                    over_ = Over::nothing;
            }
            if (frame.button("close", in.take_top(frame.px(40)), words("Leave her as she is")) || close)
                over_ = Over::nothing;
            break;
        }
        case Over::later: {
            frame.one_line(in.take_top(frame.px(34), frame.px(8)), words("Come back in how many minutes?"),
                           Type::card);
            static constexpr int minutes[] = {5, 10, 15, 20, 30, 60};
            Area grid = in.take_top(frame.px(48), gap);
            const double now = session_->now().seconds();
            for (int i = 0; i < 6; ++i) {
                ButtonLook look;
                const double to = now + 60.0 * minutes[i];
                look.enabled = to < session_->scenario().length.value;
                if (frame.button(fmt::format("later:{}", i), grid.part(i, 6, gap), std::to_string(minutes[i]),
                                 look)) {
                    engine::Event event;
                    event.what = engine::Do::skip;
                    event.skip_to_s = std::floor(to);
                    want(event, frame.now_s());
                    over_ = Over::nothing;
                }
            }
            frame.words_in(in.take_top(frame.px(44), gap),
                           words("She calls you earlier if something happens or a listening is due."),
                           Type::note, Tone::soft);
            if (frame.button("close", in.take_top(frame.px(40)), words("Stay")) || close)
                over_ = Over::nothing;
            break;
        }
        case Over::finish: {
            const bool over_time = session_->over_time();
            frame.one_line(
                in.take_top(frame.px(34), frame.px(4)),
                over_time ? words("The time with her is over") : words("Leave her and see what was true?"),
                Type::card);
            const std::string open = left_open();
            const std::string says =
                !fault_.empty() ? fault_
                : !open.empty()
                    ? open
                    : std::string(words("Everything you did is kept. You cannot go back to her after this."));
            frame.words_in(in.take_top(frame.px(60), gap), says, Type::text,
                           fault_.empty() && open.empty() ? Tone::soft : Tone::attention);
            const Area row = in.take_top(frame.px(48));
            ButtonLook go;
            go.main = true;
            if (frame.button("finish:yes", row.part(0, 2, gap),
                             fault_.empty() ? words("See what was true") : words("Try again"), go)) {
                fault_.clear();
                finish();
            }
            ButtonLook stay;
            stay.enabled = !over_time && fault_.empty();
            if (frame.button("close", row.part(1, 2, gap), words("Stay with her"), stay) ||
                (close && stay.enabled))
                over_ = Over::nothing;
            break;
        }
        case Over::paused: {
            frame.one_line(in.take_top(frame.px(34), frame.px(4)), words("Time stands still"), Type::card);
            frame.words_in(
                in.take_top(frame.px(60), gap),
                session_->counting()
                    ? words("You were counting. Go on where you were; or stop the count and take a new one.")
                    : words("The labour waits for you. Everything you did is kept."),
                Type::text, Tone::soft);
            loudness(frame, in.take_top(frame.px(48), gap));
            const Area row = in.take_top(frame.px(48));
            ButtonLook go;
            go.main = true;
            go.key = "Enter";
            if (frame.button("go_on", row.part(0, 2, gap), words("Go on"), go) || frame.key(Key::enter)) {
                session_->go_on();
                over_ = Over::nothing;
            }
            if (frame.button("to_door", row.part(1, 2, gap), words("Back to the door"))) leave_ = Leave::back;
            break;
        }
        case Over::cautions: {
            frame.one_line(in.take_top(frame.px(34), frame.px(4)), words("Keep in mind"), Type::card);
            Area list = in;
            list.h -= frame.px(48) + gap;
            std::vector<std::string> cautions;
            for (const std::string& c : session_->protocol().cautions)
                cautions.push_back(sources_in_words(c));
            float height = 0;
            for (const std::string& c : cautions)
                height += frame.height_of(c, Type::text, list.w - frame.px(18)) + gap;
            frame.scroll("mind", list, height, [&](Area part) {
                for (const std::string& c : cautions)
                    part.take_top(frame.words_in({part.x, part.y, list.w - frame.px(18), 0}, c), gap);
            });
            ButtonLook back;
            back.main = true;
            back.key = "Enter";
            if (frame.button("close", {in.x, in.bottom() - frame.px(48), in.w, frame.px(48)},
                             words("Back to her"), back) ||
                close || frame.key(Key::enter))
                over_ = Over::nothing;
            break;
        }
        case Over::nothing: break;
    }
}

}  // namespace ui
