#!/usr/bin/env bash
# sagbend open: the screen, and what is said when there can be none. What the screen shows is tested elsewhere.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore

# on_screen COMMAND...: runs sagbend in a terminal, types what stands in $KEYS after the screen is there, and gives its
# status; $HERE/.screen is what it painted.
on_screen() {
	local words=''
	printf -v words ' %q' "$SAGBEND" "$@"
	rm -f "$HERE/.keys"
	mkfifo "$HERE/.keys"
	script -qefc "stty columns 80 rows 24; exec$words" /dev/null <"$HERE/.keys" >"$HERE/.screen" 2>&1 &
	HOLDER=$!
	exec 8>"$HERE/.keys"
	waits "the screen of $*" grep -qa "${SEE:-what if}" "$HERE/.screen"
	printf '%b' "$KEYS" >&8
	wait "$HOLDER"
	STATUS=$?
	HOLDER=
	exec 8>&-
	rm -f "$HERE/.keys"
}
painted() { tr -d '\000' <"$HERE/.screen" | sed 's/\x1b\[[0-9;?]*[A-Za-z]//g; s/\x1b[()][A-Z0-9]//g'; }
coloured() { grep -qaE $'\x1b\\[([0-9]*;)*[34][0-8](;[0-9]*)*m' "$HERE/.screen"; }

# Without a terminal: refused in words, whatever the file.
refuses 64 'needs a terminal' open "$JOB"
warns path check log
refuses 64 'needs a terminal' "$JOB"
refuses 64 'is not night, day or plain' open "$JOB" --theme dusk
refuses 64 'is not auto, always or never' open "$JOB" --colour some
refuses 64 'JOB.bore' open

export TERM=xterm-256color KEYS=QY
# In one: opens, and leaves when told to; the job's name is enough.
on_screen open "$JOB"
is "$STATUS" 0 "status of the screen"
painted | grep -q 'Level Meadow' || fail "the crossing's name is not on the screen"
coloured || fail "no colours"
[ ! -e "$JOB.lock" ] || fail "the lock was left"
on_screen "$JOB" --read-only
is "$STATUS" 0 "status by the file's name alone"

# Colours: none by NO_COLOR, by the theme, and for a terminal that has none; some against NO_COLOR when asked.
NO_COLOR=1 on_screen open "$JOB"
coloured && fail "colours in spite of NO_COLOR"
NO_COLOR=1 on_screen open "$JOB" --colour always
coloured || fail "no colours in spite of --colour always"
on_screen open "$JOB" --colour never
coloured && fail "colours in spite of --colour never"
on_screen open "$JOB" --theme plain
coloured && fail "colours in the plain theme"
TERM=vt100 on_screen open "$JOB"
is "$STATUS" 0 "status on a vt100"
LC_ALL=C on_screen open "$JOB"
painted | grep -q 'Level Meadow' || fail "the name is not on a screen without UTF-8"

# Files that cannot be opened are said before any screen is made.
cannot() {
	SEE='sagbend: ' KEYS='' on_screen "${@:3}"
	is "$STATUS" "$1" "status of ${*:3}"
	painted | grep -qF -- "$2" || fail "'$2' is not said: $(painted)"
}
cannot 66 'no such' open "$HERE/none.bore"
echo 'not a job' >"$HERE/other.bore"
cannot 66 'not a job file' open "$HERE/other.bore"
export TERM=dumb
cannot 64 'terminal' open "$JOB"
export TERM=xterm-256color

# Held by somebody: looks on, and says so.
hold "$JOB" Holger
mv "$HERE/.keys" "$HERE/.first"
first=$HOLDER
exec 7>&8
SEE='looking on' on_screen open "$JOB"
is "$STATUS" 0 "status of looking on"
painted | grep -q 'Holger' || fail "who holds it is not said: $(painted)"
exec 8>&7 7>&-
mv "$HERE/.first" "$HERE/.keys"
HOLDER=$first
release
