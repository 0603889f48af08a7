#!/bin/sh
# The shipped program under a real X server, by mouse and keys as a person has them: the code at the door, the Doppler
# dragged onto her, a hand to her wrist, ten seconds counted, numbers written, decided, left, looked at; then the store
# is opened from outside and must hold what was done.
# Usage: door_to_debrief.sh PROGRAM. Exit 77 when there is no Xvfb or xdotool to try it with.
set -eu
program=$1
command -v Xvfb >/dev/null 2>&1 && command -v xdotool >/dev/null 2>&1 || exit 77
folder=$(mktemp -d)
screen=
window=
finish() {
    [ -n "$window" ] && kill "$window" 2>/dev/null
    [ -n "$screen" ] && kill "$screen" 2>/dev/null
    rm -rf "$folder"
}
trap finish EXIT
Xvfb -displayfd 3 -screen 0 1280x800x24 -nolisten tcp 3>"$folder/display" 2>/dev/null &
screen=$!
i=0
while [ ! -s "$folder/display" ] && [ $i -lt 100 ]; do sleep 0.1; i=$((i + 1)); done
DISPLAY=:$(cat "$folder/display")
export DISPLAY SDL_AUDIODRIVER=dummy
unset SDL_VIDEODRIVER
"$program" --store "$folder/store.db" >"$folder/out" 2>&1 &
window=$!
i=0
while ! xdotool search --name Fullminute >/dev/null 2>&1; do
    i=$((i + 1))
    [ $i -lt 200 ] || { echo "no window came"; cat "$folder/out"; exit 1; }
    sleep 0.1
done
sleep 1.5
press() { xdotool key --delay 100 "$@"; sleep 0.25; }
type_it() { xdotool type --delay 100 "$1"; sleep 0.25; }
click() { xdotool mousemove "$1" "$2"; sleep 0.1; xdotool mousedown 1; sleep 0.1; xdotool mouseup 1; sleep 0.25; }
drag() {
    xdotool mousemove "$1" "$2"; sleep 0.1; xdotool mousedown 1; sleep 0.15
    xdotool mousemove $((($1 + $3) / 2)) $((($2 + $4) / 2)); sleep 0.15
    xdotool mousemove "$3" "$4"; sleep 0.15; xdotool mouseup 1; sleep 0.4
}
type_it E-2                 # the field has the keyboard; the first labour, c01, is chosen
press Return
sleep 1
drag 440 636 690 470        # the Doppler from its button to below and left of her navel
press l                     # the left hand to her wrist
click 640 20                # nothing there: the keyboard belongs to the bedside
press space                 # counting
sleep 10
press space
click 958 500; type_it 23   # beats, rate, her pulse
press Tab; type_it 140
press Tab; type_it 82
press Return                # written
press Escape
press d
click 925 390               # the baby
click 1146 732              # that is my decision
click 1185 31               # leave her
click 600 455               # see what was true
sleep 1.5
press v                     # the debrief answers
kill -0 "$window" || { echo "the program has gone"; cat "$folder/out"; exit 1; }
kill "$window"
wait "$window" 2>/dev/null || true
window=
# From outside: SQLite through Python, none of the program's own code.
python3 - "$folder/store.db" <<'END'
import json, re, sqlite3, sys
base = sqlite3.connect(sys.argv[1])
rows = base.execute("select person, scenario_id, json from attempt").fetchall()
assert [row[:2] for row in rows] == [("e-2", "c01-own-minute")], rows
# The two file texts are kept by themselves and cut out of the record.
record = re.sub(r'"text":(?=\s*[,}\n])', '"text": null', rows[0][2])
events = json.loads(record)["events"]
def one(what):
    found = [e for e in events if e["do"] == what]
    assert len(found) == 1, f"{len(found)} of {what}: {events}"
    return found[0]
assert one("take")["what"] == "doppler"
place = one("place")
assert abs(place["x"] - 8.0) < 3 and abs(place["y"] + 8.0) < 4, place
assert one("hand")["on"] == "wrist"
counted = one("stop_window")["t"] - one("start_window")["t"]
assert 10 <= counted <= 12.5, f"counted over {counted} s, 10 and the keys' own time were meant"
report = one("report")
assert report["beats"] == 23 and report["bpm"] == 140, report
assert one("report_pulse")["bpm"] == 82
assert one("record")["bpm"] == 140
assert one("decide")["source"] == "baby"
assert events[-1]["do"] == "finish"
assert [e["t"] for e in events] == sorted(e["t"] for e in events)
END
