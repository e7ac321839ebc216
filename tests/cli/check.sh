#!/usr/bin/env bash
# sagbend check: all limits; exit status 0 ok, 1 watch, 2 breach, and never these for anything else.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

KINDS=corridor,exit-window,joint-bend,window-bend,leaves-corridor,blunder,missing-survey,azimuth-reference,response,fix,no-fix,magnetic-field,clearance,clearance-ahead,cover,cover-ahead,annular-pressure,returns
levels() { json_sql "SELECT group_concat(DISTINCT json_extract(value, '\$.kind') || '=' || json_extract(value, '\$.level'))
	FROM o, json_each(j, '\$.checks') WHERE json_extract(value, '\$.level') <> 'ok'"; }
# the member NAME of the first check of KIND
of() { json_sql "SELECT json_extract(value, '\$.$2') FROM o, json_each(j, '\$.checks')
	WHERE json_extract(value, '\$.kind') = '$1' LIMIT 1"; }

# ok: every kind is there, so that one sees that it was looked at.
bore meadow 90/0 90/0
JOB=$HERE/meadow.bore
gives 0 check "$JOB"
no_warning
is "$(head -1 "$HERE/.out")" 'Level Meadow: ok' "the first line"
gives 0 check "$JOB" --json
is "$(json_names '$')" level,checks,uncertainty,nonconformances members
is "$(json_names '$.uncertainty')" confidence_percent,judge,along,across,up,chance_outside "members of uncertainty"
is "$(json '$.uncertainty.confidence_percent') $(json '$.uncertainty.judge')" "95 mean" "the contract's confidence"
is "$(json '$.level')" ok level
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.kind')) FROM o, json_each(j, '\$.checks')")" "$KINDS" kinds
names=$(json_names '$.checks[0]')
is "${names:0:43}" kind,level,joint,station,value,limit,text,l "members of a check"
is "$(of corridor joint)$(of corridor value)$(of corridor limit)" "" "figures of a kind that is ok"

# watch: up over 3 degrees, 20 m straight, and level again: 2 R (1 - cos 3) + 20 sin 3 = 1.570198 m high, R = 10 / (3 pi / 180),
# and 2 allowed.
for i in 93 93 93 90; do gives 0 log "$JOB" --inclination "$i" --azimuth 0; done
gives 1 check "$JOB"
says 'Level Meadow: watch' 'watch   corridor' '% of the 2'
gives 1 check "$JOB" --json
is "$(json '$.level') $(of corridor level) $(of corridor joint) $(of corridor limit)" "watch watch 6 2" "the corridor"
about "$(of corridor value)" 1.570198 1e-6 "the height"
about "$(of corridor station)" 59.963453 1e-6 "the station"

# breach
gives 0 log "$JOB" --inclination 93 --azimuth 0
gives 0 log "$JOB" --inclination 93 --azimuth 0
gives 2 check "$JOB" --json
is "$(json '$.level') $(of corridor level)" "breach breach" "the corridor"
gives 2 check "$JOB"
says 'breach  corridor' 'is allowed'
awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns"

# Bends: 8.5 degrees in 10 m is 67 m where 80 is allowed, and noise cannot explain it; 7.4 degrees is 77 m, and it can.
bore bend 90/0 90/0 90/7.4
gives 1 check "$HERE/bend.bore" --json
is "$(of joint-bend level) $(of joint-bend joint) $(of joint-bend limit)" "watch 3 80" "a bend within noise"
bore sharp 90/0 90/0 90/8.5
gives 2 check "$HERE/sharp.bore" --json
is "$(of joint-bend level)" breach "a bend beyond noise"
about "$(of joint-bend value)" 67.406800 1e-5 "the radius"

# Withdrawn joints do not count; they are in the file all the same.
gives 0 withdraw "$HERE/sharp.bore" --to-joint 2 --reason 'too sharp'
gives 0 check "$HERE/sharp.bore" --json
is "$(levels)" '' "what is left"

# A joint without a reading, and a reading that was logged although it looked like a slip.
gives 0 log "$HERE/sharp.bore" --no-reading
gives 1 check "$HERE/sharp.bore" --json
is "$(of missing-survey level) $(of missing-survey joint) $(of missing-survey value)" "watch 3 " "the missing survey"
gives 0 log "$HERE/sharp.bore" --inclination 90 --azimuth 60 --reason 'read twice'
gives 2 check "$HERE/sharp.bore" --json
is "$(of blunder level)" watch "the slip"

# What the contract does not limit is not judged, and says so.
sheet "$HERE/loose"
sed -i '/^joint_minimum/d; /^window_minimum/d; /^up/d; /^down/d; /^left/d; /^right/d' "$HERE/loose/job.ini"
gives 0 new "$HERE/loose.bore" --sheet "$HERE/loose"
gives 0 log "$HERE/loose.bore" --inclination 99 --azimuth 0
gives 0 check "$HERE/loose.bore"
says 'sets no corridor' 'sets no radius for one joint' 'sets no radius over the window' 'sets no exit window'

# Two ways to the azimuth that disagree.
sheet "$HERE/two"
sed -i 's/^reference = grid/reference = magnetic\ndeclination = 3.2\nconvergence = 0.2\nbore_azimuth_read = 358.2/' "$HERE/two/job.ini"
gives 0 new "$HERE/two.bore" --sheet "$HERE/two"
gives 1 check "$HERE/two.bore" --json
is "$(of azimuth-reference level)" watch "the azimuth reference"

# Its statuses are not those of a failure.
refuses 66 'no such' check "$HERE/none.bore"
refuses 64 'one word too many' check "$JOB" again
refuses 64 'does not know' check "$JOB" --csv
