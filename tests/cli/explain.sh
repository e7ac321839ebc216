#!/usr/bin/env bash
# sagbend explain: figures by name, in words and as JSON, equal to what path shows; what is asked wrongly.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# Three joints of 10 m that can be reckoned by hand (as in path.sh): straight, 6 degrees to the right, 5 degrees up.
bore meadow 90/0 90/6 95.0/6.00
JOB=$HERE/meadow.bore

gives 0 explain "$JOB"
says 'radius-window' 'give-or-take' 'of a joint, if read'
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail "a line over 80 columns"
gives 0 explain "$JOB" --json
is "$(json_names '$.figures[0]')" figure,title,of "members of the list"

# The formula, each reading with who took it, the steps, the figure.
gives 0 explain "$JOB" --figure radius-joint --joint 2
no_warning
says 'R = L / b' 'joint 1, leg 1, reading' 'joint 2, leg 1, reading' '95.492966 m' 'Taylor and Mason'
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail "a line over 80 columns"
grep -q ' $' "$HERE/.out" && fail "blanks at the end of a line"
gives 0 explain "$JOB" --figure radius_joint --joint 2 --json
is "$(json_names '$')" figure,title,about,differs,lines members
is "$(json_names '$.lines[0]')" kind,symbol,value,text,words "members of a line"
is "$(json '$.figure') $(json '$.about') $(json '$.differs')" 'radius-joint joint 2, leg 1 0' 'figure'
about "$(json_sql "SELECT json_extract(k.value, '\$.value') FROM o, json_each(j, '\$.lines') AS k
	WHERE json_extract(k.value, '\$.kind') = 'result'")" 95.492966 1e-6 'radius 10 / (6 pi / 180)'

# The same digits as path --csv, for every joint of the sample that has the figure.
gives 0 new "$HERE/tern.bore" --sheet sample-data/tern-slough --by T
gives 0 import "$HERE/tern.bore" sample-data/tern-slough/surveys.csv --by T
gives 0 path "$HERE/tern.bore" --csv
tr -d '\r' <"$HERE/.out" >"$HERE/path.csv"
for joint in 2 38; do
	column=0
	for name in joint leg depth depth inclination azimuth station offset elevation height northing easting dogleg \
		radius-joint radius-window corridor-share give-or-take give-or-take give-or-take chance-outside; do
		column=$((column + 1))
		[ $column -gt 2 ] || continue
		title=$(head -1 "$HERE/path.csv" | cut -d, -f$column)
		want=$(sed -n "$((joint + 2))p" "$HERE/path.csv" | cut -d, -f$column)
		gives 0 explain "$HERE/tern.bore" --figure "$name" --joint "$joint" --json
		got=$(json_sql "SELECT json_extract(k.value, '\$.text') FROM o, json_each(j, '\$.lines') AS k
			WHERE json_extract(k.value, '\$.kind') = 'result' AND json_extract(k.value, '\$.symbol') = '$title'")
		[ "$got" = straight ] && got=
		is "${got%% *}" "$want" "$title of joint $joint"
	done
done
gives 0 explain "$HERE/tern.bore" --figure radius-window
says 'joint 38, leg 1' '[bend] window_minimum, job sheet' 'breach'

# What was pulled back is still there to be asked for.
gives 0 withdraw "$HERE/tern.bore" --to-joint 33 --reason tight --by T
gives 0 explain "$HERE/tern.bore" --figure radius-window
says 'joint 33, leg 1'
gives 0 explain "$HERE/tern.bore" --figure radius-window --leg 1 --joint 38
says 'joint 38, leg 1, pulled back'
gives 0 explain "$HERE/tern.bore" --figure bend-budget --joint 12
says 'after joint 12, leg 1'

# Asked wrongly.
refuses 64 'Did you mean radius-window' explain "$JOB" --figure radius-windw
refuses 64 'lists those' explain "$JOB" --figure weather
refuses 64 'which figure' explain "$JOB" --joint 2
refuses 64 'which joint of leg 1' explain "$JOB" --figure station --leg 1
refuses 66 'Joint 9 is not in the log' explain "$JOB" --figure station --joint 9
refuses 66 'Leg 4 has no joint 1' explain "$JOB" --figure station --joint 1 --leg 4
refuses 64 'joint' explain "$JOB" --figure station --joint=-1
refuses 64 '--fix goes with' explain "$JOB" --figure station --fix 1
refuses 66 'no such' explain "$HERE/none.bore"
job fresh
gives 0 explain "$HERE/fresh.bore" --figure northing
says 'at the entry'
refuses 65 'nothing was drilled yet' explain "$HERE/fresh.bore" --figure dogleg

# What lies ahead, as `ahead --json` has it.
cp "$HERE/tern.bore" "$HERE/ahead.bore"
result() {
	gives 0 explain "$HERE/ahead.bore" --figure "$1" --json
	GOT=$(json_sql "SELECT json_extract(k.value, '\$.value') FROM o, json_each(j, '\$.lines') AS k
		WHERE json_extract(k.value, '\$.kind') = 'result' AND json_extract(k.value, '\$.symbol') = '$2'")
}
gives 0 ahead "$HERE/ahead.bore" --json
AHEAD=$OUT
while read -r figure name path; do
	OUT=$AHEAD
	printf '%s' "$AHEAD" >"$HERE/.out"
	want=$(json "\$.$path")
	result "$figure" "$name"
	about "$GOT" "$want" 1e-9 "$figure, $name"
done <<'END'
bit depth bit.depth
bit station bit.station
bit offset bit.offset
bit height bit.height
bit inclination bit.inclination
bit azimuth bit.azimuth
bit share corridor.share
bit-give-or-take sigma_across bit.sigma_across
bit-give-or-take chance_outside corridor.chance_outside
bend-budget degrees bend_budget.degrees
bend-budget left bend_budget.left
slide-turn slide_turn response.slide_turn
drift walk response.walk
face-error tool_face_error response.tool_face_error
next-joint slid plan.joints[0].slid
next-joint inclination plan.joints[0].inclination
END

# A fix, by its number.
gives 0 fix "$HERE/ahead.bore" --kind coil --depth 400 --station 390 --offset 1 --sigma-along 1 --sigma-across 0.5 --by T
gives 0 explain "$HERE/ahead.bore" --figure misclosure --fix 1
says 'fix 1, coil, by T' 'off_across'
refuses 66 'There is no fix 2' explain "$HERE/ahead.bore" --figure misclosure --fix 2
refuses 65 'No independent fix' explain "$JOB" --figure misclosure

# Map and field model.
gives 0 explain "$HERE/tern.bore" --figure declination
says WMM2025
