#include "engine/attempt/event_table.h"

#include "engine/attempt/event_fields.h"
#include "engine/attempt/event_words.h"

#include <array>
#include <cassert>
#include <cmath>

namespace engine {

namespace {

using namespace fields;

constexpr EventField x_key = number<&Event::x_cm, 2>("x", true, -16, 16, "cm", "to her left of the navel");
constexpr EventField y_key =
    number<&Event::y_cm, 2>("y", true, -18, 20, "cm", "towards her head from the navel");

constexpr std::array take{word<&Event::instrument>("what", words::instrument, "`none` puts it down")};
constexpr std::array place{
    x_key, y_key, number<&Event::press_n, 2>("press_n", false, 0, 30, "N", "how hard; 6 when not said")};
constexpr std::array move{x_key, y_key};
constexpr std::array press{number<&Event::press_n, 2>("press_n", true, 0, 30, "N", "how hard")};
constexpr std::array tilt{
    number<&Event::tilt_deg, 1>("deg", true, 0, 60, "degrees", "away from square to the skin"),
    number<&Event::tilt_towards_deg, 1>("towards", false, 0, 359.9, "degrees",
                                        "0 her left, 90 her head; 0 when not said")};
constexpr std::array hand{word<&Event::hand>("hand", words::hand, "the trainee's own"),
                          word<&Event::on>("on", words::on, "where it is laid")};
constexpr std::array position{
    word<&Event::position>("to", words::position, "how the woman lies or stands now")};
constexpr std::array start_window{planned()};
constexpr std::array report{
    number<&Event::beats, 0>("beats", false, 0, 400, "beats", "counted in the window"),
    number<&Event::bpm, 0>("bpm", false, 0, 400, "bpm", "the rate written down")};
constexpr std::array report_pulse{number<&Event::bpm, 0>("bpm", true, 0, 300, "bpm", "the woman's pulse")};
constexpr std::array compare{
    word<&Event::to_pulse>("to_pulse", words::to_pulse, "the beat heard against her pulse")};
constexpr std::array mark_contraction{contraction_edge()};
constexpr std::array report_contractions{
    number<&Event::per_10min, 0>("per_10min", false, 0, 20, "in 10 min", "how many"),
    number<&Event::length_s, 0>("length_s", false, 0, 600, "s", "how long one lasts"),
    text_of("strength", &Event::strength, words::strength, "how hard the womb gets"),
    text_of("rests", &Event::rests, words::rests, "the womb between them")};
constexpr std::array record{
    number<&Event::bpm, 0>("bpm", false, 0, 400, "bpm", "the rate on the chart"),
    text_of("when", &Event::when, words::when, "against the contraction"),
    number<&Event::pulse_bpm, 0>("pulse_bpm", false, 0, 300, "bpm", "the woman's pulse on the chart"),
    text_of("slowing", &Event::slowing, words::slowing, "slowing heard"),
    text("done", &Event::done, "what was done")};
constexpr std::array decide{part<&Decision::source>("source", words::source, "whose heart"),
                            part<&Decision::baseline>("baseline", words::baseline, "the settled rate"),
                            part<&Decision::around>("around", words::around, "around the contractions"),
                            part<&Decision::rhythm>("rhythm", words::rhythm, "regular or not"),
                            unsure(),
                            one_word()};
constexpr std::array act{act_id()};
constexpr std::array note{text("text", &Event::text, "free text", true)};
constexpr std::array handover{text("situation", &Event::situation, "who she is and what happened"),
                              text("background", &Event::background, "what matters from before"),
                              text("assessment", &Event::assessment, "what was heard and found"),
                              text("request", &Event::request, "what is asked for")};
constexpr std::array skip{number<&Event::skip_to_s, 6>("to", true, 0, 14'400, "s", "come back at this time")};
constexpr std::array cover_display{flag<&Event::covered>("covered", "true when not said")};

constexpr std::array table{
    DoWord{Do::take, "take", "take an instrument, or put it down", take},
    DoWord{Do::place, "place", "put it on the abdomen; again without lifting = moved there", place},
    DoWord{Do::move, "move", "slide it", move},
    DoWord{Do::press, "press", "press harder or softer", press},
    DoWord{Do::tilt, "tilt", "lean it", tilt},
    DoWord{Do::gel, "gel", "put gel on", {}},
    DoWord{Do::lift, "lift", "take it off the skin; ends an open count", {}},
    DoWord{Do::hand, "hand", "lay a hand somewhere or take it away", hand},
    DoWord{Do::position, "position", "the woman changes how she lies", position},
    DoWord{Do::start_window, "start_window", "start counting", start_window},
    DoWord{Do::stop_window, "stop_window", "stop counting", {}},
    DoWord{Do::tap, "tap", "one tap on a beat, inside a count", {}},
    DoWord{Do::report, "report", "the count of the last closed window", report, true},
    DoWord{Do::report_pulse, "report_pulse", "her pulse as counted", report_pulse},
    DoWord{Do::compare, "compare", "the judgement without a watch: whose heart, never that it is normal",
           compare},
    DoWord{Do::mark_contraction, "mark_contraction", "a contraction starts or ends", mark_contraction},
    DoWord{Do::report_contractions, "report_contractions", "the contractions as felt", report_contractions,
           true},
    DoWord{Do::record, "record", "a line on the labour chart", record, true},
    DoWord{Do::decide, "decide", "the decision, any of its parts", decide, true},
    DoWord{Do::act, "act", "do something of the protocol's list", act},
    DoWord{Do::note, "note", "a remark", note},
    DoWord{Do::handover, "handover", "the referral note", handover, true},
    DoWord{Do::skip, "skip", "come back later; stops early when she calls out or a listening falls due",
           skip},
    DoWord{Do::cover_display, "cover_display", "cover or uncover the Doppler's number", cover_display},
    DoWord{Do::finish, "finish", "the attempt is over", {}}};
static_assert(table.size() == static_cast<std::size_t>(Do::finish) + 1);

}  // namespace

std::span<const DoWord> do_words() { return table; }

const DoWord& do_word(Do what) {
    const DoWord& w = table[static_cast<std::size_t>(what)];
    assert(w.what == what);
    return w;
}

const EventField& time_field() { return fields::time_key; }

std::string decimal(int64_t steps, int decimals) {
    // Digits from the right, into a place that is long enough for any of them.
    std::array<char, 48> digits{};
    auto at = digits.end();
    std::uint64_t rest =
        steps < 0 ? std::uint64_t{0} - static_cast<std::uint64_t>(steps) : static_cast<std::uint64_t>(steps);
    bool written = decimals == 0;
    for (int n = 0; n <= decimals || rest != 0; ++n) {
        if (n == decimals && n > 0 && written) *--at = '.';
        const char digit = static_cast<char>('0' + rest % 10);
        rest /= 10;
        written = written || digit != '0' || n >= decimals;
        if (written) *--at = digit;
    }
    if (steps < 0) *--at = '-';
    return std::string(at, digits.end());
}

int64_t nearest_step(double value, int decimals) {
    double scale = 1;
    for (int i = 0; i < decimals; ++i) scale *= 10;
    return static_cast<int64_t>(std::floor(value * scale + 0.5));
}

}  // namespace engine
