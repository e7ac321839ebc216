#!/usr/bin/env bash
# sagbend history: who did what, all of it or some.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

job meadow
JOB=$HERE/meadow.bore
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Ann
gives 0 shift "$JOB" --begin 'Ann, Bea' --by Ann
gives 0 log "$JOB" --inclination 90 --azimuth 6 --by Ann
gives 0 correct "$JOB" --joint 2 --azimuth 5 --reason 'misread' --by Bea
gives 0 shift "$JOB" --end 'quiet' --by Ann
gives 0 shift "$JOB" --begin 'Cy' --by Cy
gives 0 log "$JOB" --inclination 90 --azimuth 50 --reason 'read twice' --by Cy
gives 0 withdraw "$JOB" --to-joint 2 --reason 'hole closes' --by Cy
gives 0 note "$JOB" 'rain' --by Cy

# acts WORDS...: the kinds of the acts that a filter lets through, in order
acts() {
	gives 0 history "$JOB" --json "$@"
	json_sql "SELECT group_concat(json_extract(value, '\$.kind')) FROM o, json_each(j, '\$.acts')"
}
is "$(acts)" new,log,shift-begin,log,correct,shift-end,shift-begin,log,withdraw,note "all acts"
is "$(acts --decisions)" new,shift-begin,correct,shift-end,shift-begin,log,withdraw,note decisions
is "$(acts --edits)" correct,withdraw edits
is "$(acts --accepted)" log "what was logged although it looked like a slip"
is "$(acts --who Cy)" shift-begin,log,withdraw,note "one person"
is "$(acts --shift 1)" shift-begin,log,correct,shift-end "the first shift"
is "$(acts --shift 2 --edits)" withdraw "edits of the second shift"
is "$(acts --who ann --accepted)" '' nothing
gives 0 history "$JOB" --json --shift 1
is "$(json '$.acts[0].shift')" 1 "the shift of an act"
is "$(json '$.who')" '' "who is null"

gives 0 history "$JOB" --edits --shift 2
no_warning
says 'Level Meadow: what was edited, in shift 2' 'Cy' 'pulled back' 'hole closes'
[[ $OUT != *misread* ]] || fail "an edit of another shift: $OUT"
gives 0 history "$JOB" --who ann --accepted
says 'Nothing.'
awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns: $OUT"

refuses 64 'not more' history "$JOB" --edits --accepted
refuses 66 "'Dee' did nothing on this job. There is: maker, Ann, Bea, Cy." history "$JOB" --who Dee
refuses 66 'There is no shift 3: 2 were begun' history "$JOB" --shift 3
refuses 64 'whole number' history "$JOB" --shift none
job fresh
refuses 66 'No shift was begun' history "$HERE/fresh.bore" --shift 1
