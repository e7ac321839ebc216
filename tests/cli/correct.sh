#!/usr/bin/env bash
# sagbend correct: a new row beside the old one, with a reason and a name, and the path solved anew.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6 90/6 90/6
JOB=$HERE/meadow.bore
readings() { sql "$JOB" 'SELECT count(*) FROM reading'; }

# Only what is said changes; everything after it moves along.
gives 0 path "$JOB" --csv
is "$(cell 6 8)" 2.61369 "the offset before"
gives 0 correct "$JOB" --joint 2 --azimuth 0.0 --reason 'read off the wrong line' --by Bea
says 'joint 2   leg 1' 'on line'
is "$(sql "$JOB" 'SELECT joint, inclination, azimuth, corrects FROM reading ORDER BY id DESC LIMIT 1')" '2|90|0.0|2' "the new row"
is "$(sql "$JOB" 'SELECT kind, who, words FROM act ORDER BY id DESC LIMIT 1')" 'correct|Bea|read off the wrong line' "the act"
is "$(sql "$JOB" 'SELECT azimuth FROM reading WHERE id = 2')" 6 "the old row"
gives 0 path "$JOB" --csv
is "$(wc -l <"$HERE/.out")" 6 "rows of the path"
is "$(cell 4 6),$(cell 4 8)" 0.0,0 "joint 2"
is "$(cell 6 8)" 1.568405 "the offset after"

# JSON, with other fields of the row.
gives 0 correct "$JOB" --joint 4 --remarks 'gravel' --returns none --reason 'left out' --by Bea --json
is "$(json '$.joint') $(json '$.warnings[#-1].kind') $(json '$.warnings[1]')" '4 returns ' "the row"
is "$(sql "$JOB" 'SELECT remarks, returns, azimuth FROM reading ORDER BY id DESC LIMIT 1')" 'gravel|none|6' "the new row"

# An empty value takes a field out; a correction can be corrected; the newest counts.
gives 0 correct "$JOB" --joint 4 --returns '' --reason 'not seen' --by Bea
is "$(sql "$JOB" 'SELECT returns, corrects FROM reading ORDER BY id DESC LIMIT 1')" '|6' "the newer row"
gives 0 correct "$JOB" --joint 3 --inclination '' --azimuth '' --reason 'tool was off' --by Bea
says 'no reading was taken'
gives 0 correct "$JOB" --joint 3 --inclination 90 --azimuth 6 --reason 'on again' --by Bea
no_warning

# A correction is looked at like a reading; it has its reason, so it is only said.
gives 0 correct "$JOB" --joint 4 --azimuth 60 --reason 'typed in haste' --by Bea
warns 'note: Azimuth 60 would' '54.0 degrees' 'Meant '
gives 0 correct "$JOB" --joint 4 --azimuth 6 --reason 'a 0 too many' --by Bea
no_warning

# Nothing is written for nothing, nor without a reason, nor for a joint that is not there.
n=$(readings)
refuses 64 'Say what to correct' correct "$JOB" --joint 4 --reason why
refuses 65 'Nothing would change: joint 4' correct "$JOB" --joint 4 --azimuth 6 --reason why
refuses 64 '--reason TEXT is missing' correct "$JOB" --joint 4 --azimuth 7
refuses 64 'reason is empty' correct "$JOB" --joint 4 --azimuth 7 --reason ''
refuses 64 'reason is too long' correct "$JOB" --joint 4 --azimuth 7 --reason "$(printf 'y%.0s' {1..300})"
refuses 64 '--joint is missing' correct "$JOB" --azimuth 7 --reason why
refuses 64 'from 1 to' correct "$JOB" --joint 0 --azimuth 7 --reason why
refuses 65 'Joint 5 is not in the log' correct "$JOB" --joint 5 --azimuth 7 --reason why
refuses 65 'Leg 2 has no joint 4' correct "$JOB" --joint 4 --leg 2 --azimuth 7 --reason why
refuses 65 'between 0 and 360' correct "$JOB" --joint 4 --azimuth 700 --reason why
refuses 65 'length' correct "$JOB" --joint 4 --joint-length '' --reason why
is "$(readings)" "$n" "readings after these refusals"

# A joint of a leg that was withdrawn can be put right too; the present path does not move.
gives 0 withdraw "$JOB" --to-joint 2 --reason 'redrill' --by Bea
gives 0 log "$JOB" --inclination 91 --azimuth 0 --by Bea
gives 0 path "$JOB" --csv
present=$OUT
gives 0 correct "$JOB" --joint 3 --leg 1 --azimuth 7 --reason 'for the record' --by Bea
says 'joint 3   leg 1'
gives 0 path "$JOB" --csv
is "$OUT" "$present" "the present path"
refuses 65 'Joint 4 is not in the' correct "$JOB" --joint 4 --azimuth 7 --reason why --by Bea
gives 0 correct "$JOB" --joint 3 --azimuth 2 --reason 'of this leg' --by Bea
says 'joint 3   leg 2'
gives 0 verify "$JOB"
