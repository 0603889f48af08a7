// How a made-up candidate goes about each kind of task, as the trade teaches it [practice].
#pragma once

#include "engine/trial/answering.h"
#include "engine/trial/attendant.h"
#include "engine/trial/belief.h"

namespace engine {

// count, find, tell_apart: leave asked, her pulse felt, one whole minute where the heart lies (of twins
// each), decided by that number. `takes_hers`: on her artery instead, without her wrist.
void count_where_it_lies(Attendant& a, bool takes_hers);
// quick: counts of 10 s in a row over the end of a contraction, read in their order, then a whole minute.
void short_counts(Attendant& a);
// pattern: one listening through three contractions. labour: a listening each time one is due, until the end.
// What can be found is looked for; what becomes known is answered at once.
void listen_through(Attendant& a);

// No watch: whose heart, by ear with her wrist.
void compare_by_ear(Attendant& a);
// No heart: felt her pulse, tried elsewhere and with the other instrument, called.
void search_in_vain(Attendant& a);
// Decided, done, told, written.
void close(Attendant& a, Belief belief, Answering& answering);

}  // namespace engine
