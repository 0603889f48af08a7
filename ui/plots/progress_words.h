// One person's figures in words: the same on screen, on paper and in the terminal. And which labours train
// what is weak.
#pragma once

#include "engine/competency/progress.h"
#include "ui/library.h"

#include <string>
#include <vector>

namespace ui {

std::string band_words(int band);             // "110 to 124"
std::string method_words(int plan_s);         // "full minute", "15 s"
std::string instrument_name(int instrument);  // sim::Instrument
std::string task_name(int task);              // engine::Task
std::string mode_words(int mode);             // sim::OutputMode: "headphones"

// "1.2 bpm high", "2 bpm low", "neither high nor low".
std::string bias_words(double bias_bpm);
std::string day_of(double seconds_since_1970);  // "2026-05-11"

// ", 2026-05-11 to 2026-05-30"; empty without a count.
std::string days_words(const engine::Progress& progress);

// What the agreement plot says, in one or two sentences; the reason when it can say nothing.
std::string agreement_words(const engine::Progress& progress);
std::string learning_words(const engine::Progress& progress);
std::string calls_words(const engine::Progress& progress);  // empty when nothing was decided
std::string refresher_words(const engine::Progress& progress);
std::string left_out_words(const engine::Progress& progress);  // empty when nothing was

struct PracticeLine {
    std::string says;
    // at most four, those not met yet first; a mix, so that none is a hint
    std::vector<LibraryLabour> labours;
};
// At least one line: with nothing weak, what has not been met yet; for a newcomer, where to begin.
std::vector<PracticeLine> practice_lines(const engine::Progress& progress, const engine::CountColumns& counts,
                                         const std::vector<LibraryLabour>& library);

}  // namespace ui
