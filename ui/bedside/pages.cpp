// The pages of the right-hand card: count, decide, do.
#include "ui/bedside/bedside.h"
#include "ui/bedside/bedside_words.h"
#include "ui/paper/verdict_words.h"
#include "ui/window/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace ui {
namespace {

bool contains(const std::string& text, const std::string& part) {
    const auto same = [](char a, char b) {
        return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
    };
    return part.empty() ||
           std::search(text.begin(), text.end(), part.begin(), part.end(), same) != text.end();
}

}  // namespace

void BedsideScreen::tabs(Frame& frame, Area at, bool with_story) {
    struct Name {
        Tab tab;
        const char* id;
        const char* says;
        const char* key;
    };
    std::vector<Name> names;
    if (with_story) names.push_back({Tab::story, "tab:story", words("Story"), "S"});
    if (narrow_) names.push_back({Tab::her, "tab:her", words("Her"), "H"});
    names.push_back({Tab::count, "tab:count", words("Count"), "C"});
    names.push_back({Tab::decide, "tab:decide", words("Decide"), "D"});
    names.push_back({Tab::act, "tab:act", words("Do"), "A"});
    names.push_back({Tab::write, "tab:write", words("Write"), "W"});
    const Area row = at.take_top(frame.px(40), frame.px(narrow_ ? 8 : 14));
    // Six of them in little room: each as wide as its word, what is left shared out.
    const auto n = static_cast<float>(names.size());
    const float apart = frame.px(narrow_ ? 3 : 6);
    float needed = apart * (n - 1), x = row.x;
    for (const Name& name : names) needed += frame.width_of(name.says, Type::strong) + frame.px(10);
    for (std::size_t i = 0; i < names.size(); ++i) {
        ButtonLook look;
        look.chosen = tab_ == names[i].tab;
        look.key = names[i].key;
        Area place = row.part(static_cast<int>(i), static_cast<int>(names.size()), apart);
        if (narrow_) {
            place.x = x;
            place.w = frame.width_of(names[i].says, Type::strong) + frame.px(10) + (row.w - needed) / n;
            x += place.w + apart;
        }
        if (frame.button(names[i].id, place, names[i].says, look)) tab_ = names[i].tab;
    }
    switch (tab_) {
        case Tab::count: count_page(frame, at); break;
        case Tab::decide: decide_page(frame, at); break;
        case Tab::act: act_page(frame, at); break;
        case Tab::write: write_page(frame, at); break;
        case Tab::story: story(frame, at, true); break;
        case Tab::her: her(frame, at); break;
    }
}

void BedsideScreen::count_page(Frame& frame, Area at) {
    const double now_s = frame.now_s();
    const float gap = frame.px(8), field = frame.px(44), label = frame.line_height(Type::note) + frame.px(5);
    ButtonLook go;
    go.key = "Space";
    go.main = true;
    const bool counting = session_->counting();
    if (frame.button("count", at.take_top(frame.px(48), gap),
                     counting ? words("Stop") : words("Start counting"), go))
        start_or_stop(now_s);
    Area foot = at;
    foot.y = at.bottom() - frame.px(48);
    foot.h = frame.px(48);
    at.h -= frame.px(48) + gap;
    const float height = frame.px(36) + gap + 2 * (label + field + gap) + 3 * (label + frame.px(38) + gap) +
                         frame.px(38) + gap + label + frame.px(50);
    frame.scroll("sheet", at, height, [&](Area in) {
        static const std::vector<std::string> plans{"60 s", "30", "15", "10", "6"};
        if (auto now = frame.choice("sheet/plan", in.take_top(frame.px(36), gap), plans, plan_, 0, !counting))
            plan_ = *now;
        const Area labels = in.take_top(label), fields = in.take_top(field, gap);
        frame.one_line(labels.part(0, 2, gap), words("Beats you counted"), Type::note, Tone::soft);
        frame.one_line(labels.part(1, 2, gap), words("Rate you write down"), Type::note, Tone::soft);
        frame.number_field("sheet/beats", fields.part(0, 2, gap), beats_);
        frame.number_field("sheet/rate", fields.part(1, 2, gap), rate_, words("a minute"));
        const Area labels2 = in.take_top(label), fields2 = in.take_top(field, gap);
        frame.one_line(labels2.part(0, 2, gap), words("Her pulse"), Type::note, Tone::soft);
        frame.one_line(labels2.part(1, 2, gap), words("What you did (short)"), Type::note, Tone::soft);
        frame.number_field("sheet/pulse", fields2.part(0, 2, gap), pulse_, words("a minute"));
        frame.text_field("sheet/done", fields2.part(1, 2, gap), done_, "", 60);
        frame.one_line(in.take_top(label), words("Against the contraction, you counted"), Type::note,
                       Tone::soft);
        const std::vector<std::string> whens{words("between"), words("during"), words("after")};
        if (auto now = frame.choice("sheet/when", in.take_top(frame.px(38), gap), whens, when_)) when_ = *now;
        frame.one_line(in.take_top(label), words("Did you hear it slow down?"), Type::note, Tone::soft);
        const std::vector<std::string> slow{words("yes"), words("no"), words("did not listen")};
        if (auto now = frame.choice("sheet/slow", in.take_top(frame.px(38), gap), slow, slowing_))
            slowing_ = *now;
        frame.one_line(in.take_top(label), words("By ear, beside her pulse it is"), Type::note, Tone::soft);
        const std::vector<std::string> beside{words("the same"), words("twice"), words("slower"),
                                              words("faster")};
        if (auto now = frame.choice("sheet/compare", in.take_top(frame.px(38), gap), beside, compare_)) {
            engine::Event event;
            event.what = engine::Do::compare;
            event.to_pulse = static_cast<engine::ToPulse>(*now);
            if (want(event, now_s)) compare_ = *now;
        }
        bool tapping = tapping_;
        if (frame.tick("sheet/tap", in.take_top(frame.px(38), gap),
                       words("To practise: tap each beat, key T"), tapping) &&
            !counting)
            tapping_ = tapping;
        if (plan_ == 4)
            frame.words_in({in.x, in.y, in.w, 0}, words("Six seconds is a look: never written as a rate."),
                           Type::note, Tone::attention);
        else
            frame.words_in({in.x, in.y, in.w, 0}, words("Still unsure? Move, listen again, count again."),
                           Type::note, Tone::soft);
    });
    ButtonLook write;
    write.main = !counting;
    write.key = "Enter";
    write.enabled = !counting;
    const float room = foot.w * 0.5f;
    if (counting && tapping_) {
        ButtonLook each;
        each.key = "T";
        each.main = true;
        if (frame.button("tap", {foot.x, foot.y, room - gap, foot.h}, words("Tap a beat"), each)) tap(now_s);
    } else if (counting)
        frame.words_in({foot.x, foot.y + frame.px(4), room - gap, 0},
                       words("Counting: watch the second hand, count in your head."), Type::note, Tone::act);
    else if (!written_.empty())
        frame.words_in({foot.x, foot.y + frame.px(4), room - gap, 0}, written_, Type::text, Tone::fine);
    if (frame.button("write", {foot.x + room, foot.y, foot.w - room, foot.h}, words("Write it down"), write))
        write_down(now_s);
}

void BedsideScreen::decide_page(Frame& frame, Area at) {
    const float gap = frame.px(8), row = frame.px(38), label = frame.px(24);
    Area foot = at;
    foot.h = frame.px(48);
    foot.y = at.bottom() - foot.h;
    const auto& cautions = session_->protocol().cautions;
    const std::string caution = cautions.empty()
                                    ? std::string(words("For learning only; local protocol decides."))
                                    : sources_in_words(cautions.front());
    const float more_w = cautions.size() > 1 ? frame.px(92) : 0.0f;
    const float caution_w = at.w - (more_w > 0 ? more_w + gap : 0.0f);
    const float caution_h = std::max(
        more_w > 0 ? frame.px(32) : 0.0f,
        std::min(frame.height_of(caution, Type::note, caution_w), frame.line_height(Type::note) * 3.2f));
    Area caution_at{at.x, foot.y - caution_h - gap, at.w, caution_h};
    at.h = caution_at.y - at.y - gap;
    frame.words_in({caution_at.x, caution_at.y, caution_w, 0}, caution, Type::note, Tone::soft);
    if (more_w > 0 &&
        frame.button("cautions", {caution_at.right() - more_w, caution_at.y, more_w, frame.px(32)},
                     words("Read on")))
        over_ = Over::cautions;
    const int across = at.w > frame.px(330) ? 3 : 2;
    const int rows_of_five = (5 + across - 1) / across;
    const float five = static_cast<float>(rows_of_five) * (row + gap) - gap;
    const float height = 4 * label + 2 * (five + gap) + 5 * (row + gap) + row + gap + row + gap;
    frame.scroll("decide", at, height, [&](Area in) {
        frame.one_line(in.take_top(label), words("Whose heart is it?"), Type::strong);
        if (auto n = frame.choice("decide/source", in.take_top(five, gap), source_choices(), source_, across))
            source_ = *n == source_ ? -1 : *n;
        frame.one_line(in.take_top(label), words("How fast, between contractions?"), Type::strong);
        if (auto n = frame.choice("decide/baseline", in.take_top(five, gap), baseline_choices(), baseline_,
                                  across))
            baseline_ = *n == baseline_ ? -1 : *n;
        frame.one_line(in.take_top(label), words("Around the contractions?"), Type::strong);
        if (auto n = frame.choice("decide/around", in.take_top(5 * (row + gap) - gap, gap), around_choices(),
                                  around_, 1))
            around_ = *n == around_ ? -1 : *n;
        frame.one_line(in.take_top(label), words("The rhythm?"), Type::strong);
        if (auto n = frame.choice("decide/rhythm", in.take_top(row, gap), rhythm_choices(), rhythm_))
            rhythm_ = *n == rhythm_ ? -1 : *n;
        frame.tick("decide/unsure", in.take_top(row), words("I am not sure: I will listen on"), unsure_);
    });
    ButtonLook look;
    look.main = true;
    const bool said_something = source_ >= 0 || baseline_ >= 0 || around_ >= 0 || rhythm_ >= 0 || unsure_;
    look.enabled = said_something;
    int decided = 0;
    for (const engine::Event& e : session_->events()) decided += e.what == engine::Do::decide ? 1 : 0;
    if (decided > 0)
        frame.words_in({foot.x, foot.y + frame.px(4), foot.w * 0.5f - gap, 0},
                       words("Kept. You can decide again after more listening."), Type::note, Tone::fine);
    if (frame.button("decide", {foot.x + foot.w * 0.5f, foot.y, foot.w * 0.5f, foot.h},
                     words("That is my decision"), look)) {
        engine::Event event;
        event.what = engine::Do::decide;
        event.decision.source = static_cast<engine::SourceIs>(source_ + 1);
        event.decision.baseline = static_cast<engine::BaselineIs>(baseline_ + 1);
        event.decision.around = static_cast<engine::Around>(around_ + 1);
        event.decision.rhythm = static_cast<engine::RhythmIs>(rhythm_ + 1);
        event.decision.unsure = unsure_;
        want(event, frame.now_s());
    }
}

void BedsideScreen::act_page(Frame& frame, Area at) {
    const float gap = frame.px(8);
    frame.text_field("search", at.take_top(frame.px(40), gap), search_,
                     words("Look for: turn, call, temperature ..."), 40);
    Area foot = at;
    foot.h = frame.px(48);
    foot.y = at.bottom() - foot.h;
    at.h -= foot.h + gap;
    std::vector<const engine::ActWords*> acts;
    for (const engine::ActWords& act : session_->protocol().acts)
        if (act.kind == engine::ActKind::chosen && contains(act.words, search_)) acts.push_back(&act);
    // By their words: the order must not tell what is wise.
    std::sort(acts.begin(), acts.end(), [](const auto* a, const auto* b) { return a->words < b->words; });
    const float row_w = at.w - frame.px(40);
    std::vector<float> heights;
    float height = 0;
    for (const auto* act : acts) {
        heights.push_back(std::max(
            frame.px(42), frame.height_of(act->words, Type::strong, row_w - frame.px(92)) + frame.px(14)));
        height += heights.back() + frame.px(6);
    }
    if (acts.empty())
        frame.words_in({at.x, at.y, at.w, 0}, words("Nothing is called that. Try one word."), Type::text,
                       Tone::soft);
    frame.scroll("acts", at, height, [&](Area in) {
        for (std::size_t i = 0; i < acts.size(); ++i) {
            std::string done;
            for (const engine::Event& e : session_->events())
                if (e.what == engine::Do::act && e.act == acts[i]->id) done = clock_words(e.t.seconds());
            ButtonLook look;
            look.align = Align::left;
            look.chosen = act_chosen_ == acts[i]->id;
            const std::string mark = done.empty() ? "" : fmt::format(fmt::runtime(words("done at {}")), done);
            look.key = mark.c_str();
            if (frame.button("acts/" + acts[i]->id, in.take_top(heights[i], frame.px(6)), acts[i]->words,
                             look))
                act_chosen_ = acts[i]->id;
        }
    });
    const engine::ActWords* chosen = session_->protocol().act(act_chosen_);
    ButtonLook look;
    look.main = true;
    look.enabled = chosen != nullptr;
    const float mind_w = std::min(frame.px(124), foot.w * 0.34f);
    if (!session_->protocol().cautions.empty() &&
        frame.button("cautions", {foot.x, foot.y, mind_w, foot.h}, words("Keep in mind")))
        over_ = Over::cautions;
    if (chosen != nullptr)
        frame.words_in({foot.x + mind_w + gap, foot.y + frame.px(4), foot.w * 0.6f - mind_w - 2 * gap, 0},
                       chosen->takes.value >= 1
                           ? fmt::format(fmt::runtime(words("Takes {}")), clock_words(chosen->takes.value))
                           : std::string(),
                       Type::note, Tone::soft);
    if (frame.button("do", {foot.x + foot.w * 0.6f, foot.y, foot.w * 0.4f, foot.h}, words("Do it now"),
                     look)) {
        engine::Event event;
        event.what = engine::Do::act;
        event.act = act_chosen_;
        if (want(event, frame.now_s())) act_chosen_.clear();
    }
}

}  // namespace ui
