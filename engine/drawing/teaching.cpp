// Notes for the debrief: what this kind of listening teaches.
#include "engine/drawing/woman.h"

namespace engine {
namespace {

using Notes = std::vector<std::string>;

const Notes& of_task(int task) {
    static const Notes all[] = {
        {"Start the watch on a beat and call that beat nothing: the next one is one. So the count is of "
         "gaps.",
         "Count in ones to ten and bend a finger for each ten; long words do not fit between beats.",
         "The whole minute is counted by your own watch: start and stop are yours."},
        {"One beat more or less in ten seconds moves the rate by six. Scatter of a beat or two is not "
         "slowing.",
         "A look of six seconds says where to look again. What is written comes from a minute.",
         "Counts in a row around a contraction show its shape; each by itself is coarse."},
        {"Hands before instrument: back, head and limbs tell where the heart will be.",
         "Loudest is where the back lies nearest the skin; faint is not weak.",
         "Not found at once: feel again, then search in small steps."},
        {"Her wrist under your fingers settles whose beat it is in a few beats.",
         "A blow that keeps step with her wrist is hers, however loud.",
         "Two rates far apart are told at once; near ones need a long listen."},
        {"What matters most comes at the end of a contraction and in the half minute after it.",
         "A fine number counted between contractions says nothing of what comes after them.",
         "Lay a hand on the womb: its end is felt, not guessed."},
        {"Every listening: pulse, whole minute, through the contraction's end, written at once.",
         "Tell her what you heard and what comes next.",
         "Routine goes on until something says otherwise, and then the first measures do not wait."},
    };
    return all[task];
}

const Notes& of_trouble(int trouble) {
    static const Notes all[] = {
        {"A normal heart is most of what you will hear. Do what is due, and not more."},
        {"Still slow after the contraction has ended: turning her, stopping what drives the womb and telling "
         "the senior do "
         "not wait for one another."},
        {"Sudden falls after the waters have gone: look for the cord, turn her, listen again."},
        {"A fall that is not back within three minutes is an emergency; the first measures start on "
         "suspicion."},
        {"Inside the limits and twenty above where she began: her own chart shows it, no limit does."},
        {"A fast heart is told from hers by her wrist; then temperature, waters, what she was given."},
        {"A slow heart: first whose, then turn, look, call. Quiet counting can wait."},
        {"Pauses and extra beats are named as what they are: irregular. No disease is named by ear."},
        {"Two places and two rates in the same minute; one number for two babies is nobody's number."},
        {"What can be said is: I cannot find the heart, I have called. Five minutes of searching alone is "
         "enough."},
    };
    return all[trouble];
}

const Notes& of_variant(int variant) {
    static const Notes all[] = {
        {},
        {"What was injected cannot be stopped like a drip. Ask what she was given before she came, and by "
         "whom."},
        {"A headache in labour asks for the pressure. After a fit: her airway and her side first, then the "
         "heart."},
        {"Before thirty-seven weeks listening now and then is not enough; a higher rate is usual early on."},
        {"Thin green waters are written down and watched; thick ones are told at once."},
        {"Noise is a reason to move, to wait or to use another instrument, never to guess."},
        {"In water the Doppler goes where the horn cannot; her wrist is felt all the same."},
        {"A count broken into is begun again. Half a count is not doubled."},
        {"After the first twin, feel how the second lies and listen at once: it may have turned."},
    };
    return all[variant];
}

}  // namespace

std::vector<std::string> notes_of(const AskedShare& asked, Dice& dice) {
    Notes notes = of_trouble(asked.what[Axis::trouble]);
    Notes from_task = of_task(asked.what[Axis::task]);
    dice.shuffle(from_task);
    notes.insert(notes.end(), from_task.begin(), from_task.begin() + 2);
    const Notes& besides = of_variant(asked.what[Axis::variant]);
    notes.insert(notes.end(), besides.begin(), besides.end());
    if (moves_the_rate(asked.what) && !asked.answers)
        notes.push_back(
            "Not every trouble answers. Measures that change nothing are no reason to wait for them.");
    return notes;
}

}  // namespace engine
