#!/usr/bin/env bash
# sagbend day: a day's report. Days are those of the clock that people had: two time zones 25 hours apart give two of
# them in one second.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

job meadow
JOB=$HERE/meadow.bore
refuses 66 'Nothing was done on this job yet' day "$JOB"

export TZ=Etc/GMT+11 # 11 hours behind Greenwich
gives 0 shift "$JOB" --begin 'Ann, Bea' --by Ann
gives 0 log "$JOB" --inclination 90 --azimuth 0 --started 07:00 --ended 07:20 --thrust 40 --returns full --by Ann
gives 0 log "$JOB" --inclination 90 --azimuth 6 --started 07:30 --ended 07:50 --thrust 55 --returns partial --by Ann
gives 0 note "$JOB" 'pump 2 fails' --by Ann
gives 0 log "$JOB" --inclination 95 --azimuth 6 --started 09:30 --ended 09:50 --thrust 47 --returns full --by Ann
gives 0 log "$JOB" --inclination 95 --azimuth 6 --started 10:00 --ended 10:20 --annular 1.5 --by Ann
export TZ=Etc/GMT-14 # 14 hours before it
gives 0 correct "$JOB" --joint 2 --azimuth 5 --reason 'misread' --by Bea
gives 0 withdraw "$JOB" --to-joint 3 --reason 'hole closes' --by Bea
gives 0 shift "$JOB" --begin 'Cy' --by Cy
gives 0 log "$JOB" --inclination 94 --azimuth 5 --by Cy
gives 0 fix "$JOB" --depth 15 --kind coil --offset -0.1 --sigma-across 0.1 --by Cy
export TZ=UTC
gives 0 history "$JOB" --json
day_of() { json_sql "SELECT date(json_extract(j, '\$.acts[$1].at'), json_extract(j, '\$.acts[$1].offset_min') || ' minutes') FROM o"; }
FIRST=$(day_of 1) SECOND=$(day_of 7)
[[ $FIRST < $SECOND ]] || fail "$FIRST is not before $SECOND"

gives 0 day "$JOB" --date "$FIRST" --json --by Dee
no_warning
is "$(json '$.date') $(json '$.job') $(json '$.unit')" "$FIRST Level Meadow m" "the head"
is "$(json '$.joints') $(json '$.first') $(json '$.last') $(json '$.length') $(json '$.withdrawn')" '4 1 4 40 1' "its joints"
is "$(json '$.in_ground.joints') $(json '$.in_ground.length') $(json '$.drilled_to_date')" '4 40 4' "at its end"
is "$(json '$.hours.minutes') $(json '$.hours.drill_min') $(json '$.hours.stop_min') $(json '$.hours.between_min')" '200 80 100 20' hours
is "$(json '$.hours.per_hour')" 12 "40 m in 200 minutes"
is "$(json '$.stops[0].joint') $(json '$.stops[0].minutes') $(json '$.stops[0].why')" '3 100 pump 2 fails' "the stop"
is "$(json '$.ranges.thrust.low') $(json '$.ranges.thrust.high') $(json '$.ranges.thrust.unit')" '40 55 kN' "thrust"
is "$(json '$.ranges.torque')" '' "torque was not logged"
is "$(json '$.returns.last') $(json '$.returns.worst') $(json '$.returns.joint')" 'full partial 2' returns
is "$(json '$.start.joint') $(json '$.end.joint')" '0 3' "from the entry to what is still in the ground"
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.kind')) FROM o, json_each(j, '\$.acts')")" shift-begin,note "its acts"
is "$(json '$.forecast')" '' "a day that is over has no forecast"
is "$(json '$.exported_by')" Dee "by whom"
# Its figures are those of the path.
END=$(json '$.end.station') HIGH=$(json '$.farthest.high.value') RADIUS=$(json '$.tightest.joint.radius')
gives 0 path "$JOB" --csv
about "$END" "$(cell 5 7)" 1e-6 "station of joint 3"
about "$HIGH" "$(cell 5 10)" 1e-6 "height of joint 3"
about "$RADIUS" "$(cell 5 14)" 1e-6 "radius of joint 3"

gives 0 day "$JOB" --json
is "$(json '$.date')" "$SECOND" "the last day when none is named"
is "$(json '$.joints') $(json '$.length') $(json '$.in_ground.joints') $(json '$.drilled_to_date')" '1 10 4 5' "its joints"
is "$(json '$.hours.minutes')" '' "hours are not known"
is "$(json '$.start.joint') $(json '$.end.joint')" '3 4' "where it began and ended"
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.kind')) FROM o, json_each(j, '\$.acts')")" \
	correct,withdraw,shift-begin,fix "its acts"
is "$(json '$.fixes[0].kind') $(json '$.fixes[0].verdict')" 'coil agrees' "its fix"
is "$(json_sql "SELECT json_extract(j, '\$.forecast.best') IS NOT NULL FROM o")" 1 "it has a forecast"

gives 0 day "$JOB" --date "$FIRST"
OUT=$(tr -s ' \n' ' ' <<<"$OUT")
says "Daily report: Level Meadow, $FIRST" 'Ann, Bea' '4 joints, 40.00 m (joints 1 to 4)' 'of them withdrawn' 'pump 2 fails' \
	'drilling 80 min, stops 100 min, between joints 20 min' 'thrust 40 to 55 kN' 'not logged' 'full at the end; less than full last at joint 2' \
	'start of the day' 'end of the day' 'tightest window' 'None was taken on this day.' 'contractor' 'inspector' 'digest' 'does not replace'
gives 0 day "$JOB"
OUT=$(tr -s ' \n' ' ' <<<"$OUT")
says 'Ann, Bea (from the day before)' 'Cy' '1 joint, 10.00 m' 'misread' 'hole closes' 'The coil at 15 m' 'pilot out' 'best 20' '4/2'
awk 'length > 80 || / $/' "$HERE/.out" | grep -q . && fail "a line over 80 columns, or blanks at its end: $OUT"

gives 0 day "$JOB" --pdf "$HERE/day.pdf" --by Dee
no_words
# shellcheck disable=SC2034
OUT=$(pdftotext -layout "$HERE/day.pdf" - | tr -s ' \n' ' ')
says "Daily report: Level Meadow, $SECOND" 'page 1 of' 'Progress' 'Position and bend' 'Rig and returns' 'hole closes' 'made by Dee'
pdftotext "$HERE/day.pdf" - | grep -q REHEARSAL && fail "a real bore is called a rehearsal"
refuses 73 'is there already' day "$JOB" --pdf "$HERE/day.pdf"
refuses 73 'no room' day "$JOB" --pdf /dev/full
(exec "$SAGBEND" day "$JOB" >/dev/full 2>"$HERE/err")
is $? 73 "status on a full disk"

refuses 66 "Nothing was done on 2001-02-03: the log has entries from $FIRST to $SECOND." day "$JOB" --date 2001-02-03
refuses 65 'is not a day' day "$JOB" --date yesterday
refuses 64 'not both' day "$JOB" --json --pdf "$HERE/x.pdf"
refuses 66 'no such' day "$HERE/none.bore"

gives 0 rehearse "$HERE/trial.bore" --sheet sample-data/tern-slough --seed 7
gives 0 log "$HERE/trial.bore" --inclination 79 --azimuth 101.7 --by Cy
gives 0 day "$HERE/trial.bore"
says REHEARSAL
gives 0 day "$HERE/trial.bore" --pdf "$HERE/trial.pdf"
for ((i = 1; i <= $(pdfinfo "$HERE/trial.pdf" | awk '/^Pages:/ { print $2 }'); i++)); do
	pdftotext -f "$i" -l "$i" "$HERE/trial.pdf" - | grep -q REHEARSAL || fail "page $i of a rehearsal does not say so"
done
