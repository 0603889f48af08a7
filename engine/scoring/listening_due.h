// Listening again in time: what each protocol asks by stage of labour, and where it was left too long.
#pragma once

#include "engine/attempt/attempt.h"
#include "engine/protocol/protocol.h"
#include "engine/scenario/scenario.h"

#include <optional>
#include <string>
#include <vector>

namespace engine {

// From the end of one listening to the start of the next, longer than the protocol allows.
struct ListeningGap {
    sim::LabourTime from;                  // below 0: the last line on her chart, before the attempt
    sim::LabourTime due;                   // the latest it could have been in time, without the grace below
    std::optional<sim::LabourTime> again;  // when listened to again; none: not before `to`
    sim::LabourTime to;                    // = again, or where the judging of it ends
    int left_out = 1;                      // whole listenings missing in it
};

// In whole labours alone; in time order. Due `every_most` after the last listening, or after the last line on
// her chart, and never in the first 3 min of the attempt; in time within another 90 s, or a tenth of the
// interval where that is longer [practice]. Here a spell of half the protocol's length is a listening: that
// it was short is judged with its count. No longer asked once she is handed over, the birth is being made, or
// fingers hold the part off the cord.
std::vector<ListeningGap> listening_gaps(const Scenario&, const Protocol&, const Played&);

// "every 5 min", "every 15 to 30 min", "every hour"
std::string every_in_words(const ListeningRule&);
// "the second stage"
std::string_view in_words(Stage);

}  // namespace engine
