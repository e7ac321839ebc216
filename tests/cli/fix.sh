#!/usr/bin/env bash
# sagbend fix: an independent position is kept beside the path, says whether it agrees, and moves nothing.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0 90/0 90/0 90/0 90/0
JOB=$HERE/meadow.bore
gives 0 path "$JOB" --csv
cp "$HERE/.out" "$HERE/before"

# A new fix says where it puts the hole, and nothing moves.
gives 0 fix "$JOB" --depth 15 --kind coil --offset 0.10 --sigma-across 0.05 --by Cy
says 'The coil at 15 m (fix 1) puts the hole 0.10 m right of where the readings put it' 'they agree.'
gives 0 path "$JOB" --csv
cmp -s "$HERE/.out" "$HERE/before" || fail "the path moved: $OUT"
is "$(sql "$JOB" 'SELECT kind, depth, "offset", sigma_across FROM fix')" 'coil|15|0.10|0.05' "the fact"
is "$(sql "$JOB" 'SELECT kind, who, words FROM act ORDER BY id DESC LIMIT 1')" 'fix|Cy|coil, fix 1, at 15 m' "the act"
gives 0 check "$JOB" --json
is "$(json '$.checks[9].kind')/$(json '$.checks[9].level')" fix/ok "what check says of it"

# One that does not agree: a watch that lasts, until it is set aside with a reason.
gives 0 fix "$JOB" --depth 18 --kind walk-over --offset -6 --elevation 100 --sigma-across 0.2 --sigma-up 0.2 --by Cy
says 'they do not agree' 'left'
warns 'watch: The walk-over at 18 m (fix 2) puts the hole'
gives 1 check "$JOB"
says 'fix does not agree, joint 6'
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Cy
warns 'The walk-over at 18 m (fix 2) puts the hole'
gives 1 check "$JOB"
says 'joints 6-7'
gives 0 fix "$JOB" --set-aside 2 --reason 'a fence stood in the way' --by Cy
says 'It is set aside.'
gives 0 check "$JOB"
refuses 65 'Fix 2 is set aside already' fix "$JOB" --set-aside 2 --reason again --by Cy
refuses 64 'reason' fix "$JOB" --use 2 --by Cy
gives 0 fix "$JOB" --use 2 --reason 'measured again' --by Cy
gives 1 check "$JOB"
refuses 66 'There is no fix 9' fix "$JOB" --use 9 --reason 'x' --by Cy

# The list, in words and as JSON.
gives 0 fix "$JOB" --list
says '  1  agrees' '  2  does not agree'
gives 0 fix "$JOB" --list --json
is "$(json '$.fixes[0].off.across')/$(json '$.fixes[0].verdict')/$(json '$.fixes[1].agrees')" '0.1/agrees/0' "the JSON"
is "$(json '$.fixes[0].off.along')" '' "what was not observed"
is "$(json '$.fixes[0].sigma_fix.across')" 0.05 "the fix's own sigma"

# By easting and northing, likewise: the meadow's line runs due north from its entry.
E=$(sql "$JOB" "SELECT value FROM setting WHERE key = 'entry'" | cut -d, -f1)
N=$(sql "$JOB" "SELECT value FROM setting WHERE key = 'entry'" | cut -d, -f2)
gives 0 fix "$JOB" --depth 15 --kind beacon --easting "$(awk "BEGIN { print $E + 0.3 }")" --northing "$(awk "BEGIN { print $N + 15 }")" \
	--sigma-along 0.5 --sigma-across 0.5 --by Cy
says '0.30 m right' 'further on'
gives 0 fix "$JOB" --depth 20.5 --kind exit --station 21 --offset 0.2 --elevation 100 --sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.05 --by Cy
says 'The exit survey at 20.5 m (fix 4) says that the bore came out 279.00 m short, 0.20 m right and 0.00 m high of the planned exit point.' 'It puts the hole 0.20 m right'

# What cannot be is refused in one sentence, and nothing is entered.
count=$(sql "$JOB" 'SELECT count(*) FROM fix')
refuses 65 'the bit is at' fix "$JOB" --depth 500 --kind coil --offset 0 --sigma-across 1 --by Cy
refuses 65 'cannot be' fix "$JOB" --depth -3 --kind coil --offset 0 --sigma-across 1 --by Cy
refuses 65 'How sure is the offset' fix "$JOB" --depth 10 --kind coil --offset 0 --by Cy
refuses 65 'cannot be' fix "$JOB" --depth 10 --kind coil --offset 0 --sigma-across 0 --by Cy
refuses 65 'A fix says where the hole is' fix "$JOB" --depth 10 --kind coil --by Cy
refuses 65 'not both' fix "$JOB" --depth 10 --kind coil --easting 1 --northing 1 --offset 0 --sigma-across 1 --by Cy
refuses 65 'is not one of coil' fix "$JOB" --depth 10 --kind sonar --offset 0 --sigma-across 1 --by Cy
refuses 64 '--depth D is missing' fix "$JOB" --kind coil --by Cy
refuses 64 '--kind is missing' fix "$JOB" --depth 10 --by Cy
refuses 64 'One at a time' fix "$JOB" --list --use 1 --by Cy
is "$(sql "$JOB" 'SELECT count(*) FROM fix')" "$count" "fixes after the refusals"

# At the entry it says nothing; past what was pulled back it says nothing any more.
gives 0 fix "$JOB" --depth 0 --kind coil --offset 1 --sigma-across 1 --by Cy
says 'lies at the entry'
gives 0 withdraw "$JOB" --to-joint 2 --reason 'soft' --by Cy
gives 0 fix "$JOB" --list
says 'pulled back'
gives 0 verify "$JOB"
