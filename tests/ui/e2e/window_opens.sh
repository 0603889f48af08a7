#!/bin/sh
# The shipped program under a real X server without a window manager: the door opens, a code is typed, she is sat down
# with, a count is started with the keyboard, the program is killed, and the journal beside the store holds the events.
# Usage: window_opens.sh PROGRAM. Exit 77 when there is no Xvfb or xdotool to try it with.
set -eu
program=$1
command -v Xvfb >/dev/null 2>&1 && command -v xdotool >/dev/null 2>&1 || exit 77
folder=$(mktemp -d)
screen=
window=
finish() {
    [ -n "$window" ] && kill -9 "$window" 2>/dev/null
    [ -n "$screen" ] && kill "$screen" 2>/dev/null
    rm -rf "$folder"
}
trap finish EXIT
# The server picks a free display and names it.
Xvfb -displayfd 3 -screen 0 1280x800x24 -nolisten tcp 3>"$folder/display" 2>/dev/null &
screen=$!
i=0
while [ ! -s "$folder/display" ] && [ $i -lt 100 ]; do sleep 0.1; i=$((i + 1)); done
DISPLAY=:$(cat "$folder/display")
export DISPLAY SDL_AUDIODRIVER=dummy
unset SDL_VIDEODRIVER
FULLMINUTE_STORE="$folder/store.db" "$program" --person E-1 --scenario c01 >"$folder/out" 2>&1 &
window=$!
i=0
while ! xdotool search --name Fullminute >/dev/null 2>&1; do
    i=$((i + 1))
    [ $i -lt 200 ] || { echo "no window came"; cat "$folder/out"; exit 1; }
    sleep 0.1
done
sleep 2
press() { xdotool key --delay 120 "$@"; sleep 0.4; }
press Return            # sit down with her
sleep 1
press 1 l i Return      # instrument, hand to her wrist, place
press space             # start counting
sleep 2
kill -9 "$window"
wait "$window" 2>/dev/null || true
window=
events=$(strings "$folder"/store.journal.db* | grep -c '"do":' || true)
[ "$events" -ge 4 ] || { echo "the journal holds $events events, at least 4 were done"; exit 1; }
strings "$folder"/store.journal.db* | grep -q start_window || { echo "the count is not in the journal"; exit 1; }
