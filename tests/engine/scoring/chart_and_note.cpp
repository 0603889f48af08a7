// The line on the chart and the referral note hold what the next hands need, in whatever words: rate, when
// against the contraction, her pulse, whether it slowed, what was done; in the note also for how long and
// what is asked [practice].
#include "faultless_listeners.h"
#include "library_row.h"

#include "engine/scoring/written_words.h"

using namespace perfect;

namespace {

// p03 as a good midwife hears it and turns her; the note as told. {r} and {p}: the counted rate and her
// pulse.
struct Parts {
    std::string situation, background, assessment, request;
};
std::string filled(std::string s, const Listener& l) {
    for (const auto& [mark, n] : {std::pair{std::string("{r}"), l.bpm}, {std::string("{p}"), l.pulse_bpm}})
        for (std::size_t at; (at = s.find(mark)) != std::string::npos;)
            s.replace(at, mark.size(), std::to_string(n));
    return s;
}
ScoreSheet sent_with(const Parts& parts) {
    Listener l = first_touch("p03-after-the-end", Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse();
    l.until(l.contraction_end(0) + 33);
    l.act("off_her_back").act("inform_senior").act("check_waters").act("look_for_cord").belly();
    l.until(l.contraction_end(0) + 62).count();
    l.until(l.contraction_end(3) + 35).lift();
    l.decide(SourceIs::baby, BaselineIs::normal, Around::slow_after_contraction).explain();
    l.act("arrange_transfer");
    Event& e = l.add(Do::handover);
    e.situation = filled(parts.situation, l);
    e.background = filled(parts.background, l);
    e.assessment = filled(parts.assessment, l);
    e.request = filled(parts.request, l);
    l.wait(2).record("after", "yes", "turned, senior told").finish();
    return l.sheet();
}
const AspectScore& record_of(const ScoreSheet& sheet) { return aspect(sheet, Aspect::record); }
bool holds(const std::string& text, const char* part) { return text.find(part) != std::string::npos; }

const Parts in_full_sentences = {
    "A-020 in labour. The baby's heart is {r} a minute and stays slow after every contraction. Her own pulse "
    "is {p}.",
    "It has been so for 15 minutes.", "I turned her to her left side and looked for the cord: nothing seen.",
    "Please be ready for her."};
const Parts in_keywords = {"FHR {r}, MHR {p}, decels after contr x4", "since 14:20",
                           "left lat., cord -, liq. clear", "theatre?"};
const Parts all_in_one_part = {
    "fh {r} between pains, drops after each, mother {p}, 20 min now, turned, waters clear, senior told. need "
    "doctor to come",
    "", "", ""};

}  // namespace

TEST_CASE("Referral note: whole sentences, keywords, all in one part: the same content, the same verdict",
          "[record][note]") {
    for (const Parts& parts : {in_full_sentences, in_keywords, all_in_one_part}) {
        const ScoreSheet sheet = sent_with(parts);
        INFO(parts.situation << "\n" << told(sheet));
        CHECK(record_of(sheet).verdict == Verdict::met);
        CHECK(record_of(sheet).figures.at("note_has") == 6);
        CHECK(record_of(sheet).figures.at("note_asked") == 6);
    }
}

TEST_CASE(
    "Referral note of four kind sentences without a number: partly, rate and pulse are named as not found",
    "[record][note]") {
    const ScoreSheet sheet = sent_with({"Baby's heart needs more than this place has.", "As on the chart.",
                                        "As heard and written.", "Please be ready for her."});
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::partly);
    for (const char* part : {"the rate", "her pulse", "for how long", "what was tried", "not found"})
        CHECK(holds(record_of(sheet).why, part));
    CHECK(record_of(sheet).figures.at("note_has") == 1);  // what is asked for
}

TEST_CASE("Referral note: each thing left out is named, and alone", "[record][note]") {
    struct Left {
        const char* name;
        Parts parts;
    };
    const std::vector<Left> all = {
        {"the rate",
         {"Baby slow after contractions, her pulse {p}", "for 15 min", "turned to her left",
          "please be ready"}},
        {"her pulse",
         {"FHR {r}, slow after contractions", "for 15 min", "turned to her left", "please be ready"}},
        {"when it was heard",
         {"FHR {r}, it slows, her pulse {p}", "for 15 min", "turned to her left", "please be ready"}},
        {"for how long",
         {"FHR {r}, slow after contractions, her pulse {p}", "", "turned to her left", "please be ready"}},
        {"what was tried",
         {"FHR {r}, slow after contractions, pulse {p}", "for 15 min", "I am worried", "please be ready"}},
        {"what is asked for",
         {"FHR {r}, slow after contractions, pulse {p}", "for 15 min", "turned to her left", ""}}};
    for (const Left& left : all) {
        const ScoreSheet sheet = sent_with(left.parts);
        INFO(left.name << "\n" << told(sheet));
        CHECK(record_of(sheet).verdict == Verdict::partly);
        CHECK(record_of(sheet).figures.at("note_has") == 5);
        CHECK(holds(record_of(sheet).why.substr(record_of(sheet).why.find(';')), left.name));
    }
}

TEST_CASE("Referral note: her pulse written as the baby's heart: missed, and critical", "[record][note]") {
    const ScoreSheet sheet = sent_with(
        {"Baby's heart {p}, slow after contractions", "for 15 min", "turned to her left", "please be ready"});
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::missed);
    CHECK(holds(record_of(sheet).why, "gives her pulse"));
    CHECK_FALSE(sheet.critical_missed.empty());
}

TEST_CASE("Referral note clicked and left empty: partly, nothing stands in it", "[record][note]") {
    Listener l = faultless_p03();
    for (Event& e : l.events)
        if (e.what == Do::handover) {
            e.what = Do::act;
            e.act = "write_referral_note";
        }
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::partly);
    CHECK(holds(record_of(sheet).why, "nothing stands in it"));
}

TEST_CASE("Rates are read out of any text: codes, times, pressures and weeks are none", "[note]") {
    using Of = WrittenNumber::Of;
    const auto read = [](const char* text) { return rates_written(text); };
    CHECK(read("A-014, 39 wk 4 d, at 14:20 BP 118/74, 118 over 74, temp 38.6 degrees, 5 min, 41 weeks")
              .empty());
    REQUIRE(read("FHR 138/min; pulse 84").size() == 2);
    CHECK(read("FHR 138/min; pulse 84")[0].value == 138);
    CHECK(read("FHR 138/min; pulse 84")[0].of == Of::baby);
    CHECK(read("FHR 138/min; pulse 84")[1].of == Of::mother);
    CHECK(read("138 baby, 84 mother")[0].of == Of::baby);
    CHECK(read("138 baby, 84 mother")[1].of == Of::mother);
    CHECK(read("her baby's heart 138 and her own 84")[0].of == Of::baby);
    CHECK(read("her baby's heart 138 and her own 84")[1].of == Of::mother);
    for (const char* range : {"heart 130-140", "heart 130 to 140", "heart 130 \xE2\x80\x93 140"}) {
        REQUIRE(read(range).size() == 1);
        CHECK(read(range)[0].value == 130);
        CHECK(read(range)[0].to == 140);
    }
}

TEST_CASE("Usual shorthand names a heart: FHR, FH, FHB, P, MP, PR, HR beside them; a pressure is no rate",
          "[note]") {
    using Of = WrittenNumber::Of;
    struct Note {
        const char* text;
        double baby, mother;  // 0: nobody's
    };
    // Written as referral notes are written [practice].
    const std::vector<Note> all = {
        {"FHR 141, dips to 110 after each pain x20min. P 86. On L side, drip off.", 141, 86},
        {"FHR 141 after contractions for 20 min. HR 86. Turned.", 141, 86},
        {"FH 141, after pains x 20 min; obs: T 36.8, P 86, BP 110/70, RR 20, SpO2 98", 141, 86},
        {"FHB 141 P 86", 141, 86},
        {"FHR141 P86", 141, 86},
        {"FHR: 141. MP: 86", 141, 86},
        {"FHR 141 dips to 110 P 86", 141, 86},
        {"PR 86, fetal heart 141", 141, 86},
        {"141 FHR, 86 pulse", 141, 86},
        {"Baby's heart 141, falls to 86 after each pain; turned her. Pulse 88", 141, 88},
        {"Baby's pulse 141, mother's heart rate 86", 141, 86},
        {"Fetal HR 141 HR 86", 141, 86},
        {"fh 141 between pains, drops after each mother 86", 141, 86},
        {"Baby 141 after contractions. Pouls 86", 141, 86},
        {"Baby's heart: after contractions, 141 between. Her pulse 86", 141, 86},
        {"Baby's heart 86, her pulse 141", 86, 141},
        {"FHR 86 P 141", 86, 141}};
    for (const Note& n : all) {
        double baby = 0, mother = 0;
        for (const WrittenNumber& w : rates_written(n.text)) {
            CAPTURE(n.text, w.value, static_cast<int>(w.of), w.fall);
            if (w.value == 110) CHECK(w.fall);
            if (w.of == Of::baby && !w.fall) baby = w.value;
            if (w.of == Of::mother) mother = w.value;
        }
        CAPTURE(n.text);
        CHECK(baby == n.baby);
        CHECK(mother == n.mother);
    }
    CHECK(rates_written("BP 110/70, BP 110 over 70, T 36.8, RR 22, SpO2 98, SpO2 98%, Hb 110, G2P1").empty());
}

TEST_CASE("In doubt a number is nobody's, never the baby's", "[note]") {
    using Of = WrittenNumber::Of;
    for (const char* text : {"Baby's heart 141, 86", "FHR 141. Obs 86.", "HR 86", "FHR 141 and 86",
                             "141 FHR 86", "Baby turned well. 86", "FHR 141, heart 86"}) {
        const std::vector<WrittenNumber> all = rates_written(text);
        CAPTURE(text);
        REQUIRE_FALSE(all.empty());
        CHECK(all.back().value == 86);
        CHECK(all.back().of != Of::baby);
    }
    const std::vector<WrittenNumber> fall = rates_written("FHR from 141 to 86 after pains");
    REQUIRE(fall.size() == 2);
    CHECK_FALSE(fall[0].fall);
    CHECK(fall[1].fall);
    CHECK(fall[1].of == Of::baby);
}

TEST_CASE("Referral note in shorthand: complete; a fall to her rate is no swap, a swap is critical",
          "[note]") {
    for (const char* situation : {"FHR {r}, dips to 110 after each pain x20min. P {p}.",
                                  "FHR {r} after contractions for 20 min. HR {p}.",
                                  "FH {r}, after pains x 20 min; obs: T 36.8, P {p}, BP 110/70",
                                  "Baby {r} after contractions. Pouls {p}. 20 min.",
                                  "Baby's heart {r}, falls to {p} after each pain, for 20 min. Pulse {p}"}) {
        const ScoreSheet sheet = sent_with({situation, "", "turned L side", "pl come"});
        INFO(situation << "\n" << told(sheet));
        CHECK(sheet.critical_missed.empty());
        CHECK(record_of(sheet).figures.at("note_has") == 6);
        CHECK(record_of(sheet).verdict == Verdict::met);
    }
    for (const char* situation : {"Baby's heart {p}, her pulse {r}, for 20 min after contractions.",
                                  "FHR {p} after contractions x 20 min. P {r}."}) {
        const ScoreSheet sheet = sent_with({situation, "", "turned L side", "pl come"});
        INFO(situation << "\n" << told(sheet));
        CHECK(sheet.critical_missed == std::vector<std::string>{"the mother's pulse written as the baby's"});
    }
}

TEST_CASE("Referral note with 120 for a counted heart of 20 more: told as another number than counted",
          "[note]") {
    const ScoreSheet sheet = sent_with(
        {"Baby heart 120 after contractions for 20 min, pulse {p}", "", "turned left", "please come"});
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::partly);
    CHECK(holds(record_of(sheet).why, "The referral note gives 120 as the baby's heart; your count gave 1"));
    CHECK_FALSE(holds(record_of(sheet).why, "the rate was not found"));
    CHECK(record_of(sheet).figures.at("note_asked") == 6);
    CHECK(sheet.critical_missed.empty());
}

TEST_CASE(
    "Chart: decided slow after the contraction and written \"no\": partly, the chart must say what was "
    "decided",
    "[record]") {
    Listener l = faultless_p03();
    for (Event& e : l.events)
        if (e.what == Do::record) e.slowing = "no";
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::partly);
}

TEST_CASE("Chart: her pulse of the wrist line written where the baby's rate belongs: missed", "[record]") {
    Listener l = first_touch("c01-own-minute", Instrument::doppler);
    l.place_best()
        .wrist()
        .wait(16)
        .report_pulse()
        .count()
        .lift()
        .decide(SourceIs::baby, BaselineIs::normal)
        .explain();
    l.bpm = l.pulse_bpm;
    l.record("between", "").act("continue_routine").finish();
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::missed);
    CHECK(holds(record_of(sheet).why, "is her pulse"));
    CHECK(sheet.critical_missed == std::vector<std::string>{"the mother's pulse written as the baby's"});
}

TEST_CASE("Chart: the reason names what stands there and what is missing", "[record]") {
    Listener l = faultless_p02();
    for (Event& e : l.events)
        if (e.what == Do::record) {
            e.pulse_bpm.reset();
            e.when.clear();
        }
    const ScoreSheet sheet = l.sheet();
    INFO(told(sheet));
    CHECK(record_of(sheet).verdict == Verdict::partly);
    CHECK(holds(record_of(sheet).why,
                "On the chart stand the rate and whether it slowed; her pulse and when against the "
                "contraction are missing."));
}

namespace {
// f08: both twins counted, `lines` written as told from the two counts.
ScoreSheet twins_with(const std::function<void(Listener&, int, int)>& lines) {
    Listener l = first_touch(library_stem("f08"), Instrument::doppler);
    l.place_best().wrist().wait(16).report_pulse().count().lift();
    const int one = l.bpm;
    l.place_best(1).wait(2).count().act("second_listener").lift();
    l.decide(SourceIs::two_babies, BaselineIs::normal)
        .act("inform_senior")
        .act("get_scan_or_monitor")
        .explain();
    lines(l, one, l.bpm);
    return l.finish().sheet();
}
}  // namespace

TEST_CASE(
    "Twins at 136 and 152: a line each, or both in one: met; one rate for two: partly; their mean 144: "
    "missed",
    "[record][twins]") {
    const ScoreSheet each = twins_with([](Listener& l, int one, int two) {
        l.bpm = one;
        l.record("between", "");
        l.bpm = two;
        l.record("between", "");
    });
    INFO(told(each));
    CHECK(record_of(each).verdict == Verdict::met);
    const ScoreSheet in_one = twins_with([](Listener& l, int one, int two) {
        l.bpm = one;
        l.record("between", "", "second twin " + std::to_string(two));
    });
    CHECK(record_of(in_one).verdict == Verdict::met);
    const ScoreSheet one_only = twins_with([](Listener& l, int one, int) {
        l.bpm = one;
        l.record("between", "");
    });
    INFO(told(one_only));
    CHECK(record_of(one_only).verdict == Verdict::partly);
    CHECK(holds(record_of(one_only).why, "One rate was written for two babies"));
    CHECK(one_only.critical_missed == std::vector<std::string>{"one rate written for two babies"});
    CHECK(each.critical_missed.empty());
    const ScoreSheet mean = twins_with([](Listener& l, int one, int two) {
        l.bpm = (one + two) / 2;
        l.record("between", "");
    });
    INFO(told(mean));
    CHECK(record_of(mean).verdict == Verdict::missed);
    CHECK(holds(record_of(mean).why, "nobody's rate"));
}

TEST_CASE("A note that denies tells of nothing done: \"not turned, nothing tried\"", "[record]") {
    CHECK(without_denials("She was not turned, nothing tried. Nothing asked.").empty());
    CHECK(without_denials("Turned left. No cord.").find("turned left") != std::string::npos);
    CHECK(without_denials("Turned left. No cord.").find("cord") == std::string::npos);
    CHECK(without_denials("She couldn't push").empty());
}
