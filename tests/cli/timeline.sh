#!/usr/bin/env bash
# sagbend timeline: joints, hours, stops, and when the pilot is out.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# Joints of 10 m, 20 minutes each with 10 between, but for one wait of 100: the exit is 250 m off.
job meadow
JOB=$HERE/meadow.bore
gives 0 timeline "$JOB"
says 'No joint was drilled yet.' 'not known: fewer than 3 joints were timed'
for times in '07:00 07:20' '07:30 07:50' '09:30 09:50' '10:00 10:20' '10:30 10:50'; do
	read -r s e <<<"$times"
	[ "$s" = 09:30 ] && gives 0 note "$JOB" 'pump 2 fails' --by Ann
	gives 0 log "$JOB" --inclination 90 --azimuth 0 --started "$s" --ended "$e" --by Ann
done
gives 0 timeline "$JOB" --json
no_warning
is "$(json '$.unit')" m unit
is "$(json_sql 'SELECT count(*) FROM o, json_each(j, "$.joints")')" 5 joints
is "$(json '$.joints[0].whole_min')" '' "no joint came before the first"
is "$(json '$.joints[2].wait_min') $(json '$.joints[2].stop_min') $(json '$.joints[2].drill_min')" '100 100 20' "the stop"
is "$(json '$.joints[2].why')" 'pump 2 fails' "what the log says of it"
is "$(json '$.joints[1].per_hour')" 20 "10 m in half an hour"
is "$(json '$.whole_min') $(json '$.stop_min') $(json '$.middle_min') $(json '$.usual_wait_min')" '210 100 30 30' sums
is "$(json '$.forecast.joints_left') $(json '$.forecast.best_min') $(json '$.forecast.likely_min')" '25 750 1312.5' forecast
FROM=$(json '$.forecast.from') LIKELY=$(json '$.forecast.likely')
is "$(sqlite3 -batch :memory: "SELECT round((julianday('$LIKELY') - julianday('$FROM')) * 1440, 1)")" 1312.5 "the moment"
# Sums equal the joints.
is "$(json_sql 'SELECT sum(json_extract(value, "$.whole_min")) FROM o, json_each(j, "$.joints")')" 210 "the sum of the joints"

gives 0 timeline "$JOB"
says '5 drilled, 5 in the ground, 4 timed'
says 'pilot out' 'best 20' 'likely 20' '25 joints of 10 m are left' 'pump 2 fails' 'stop'
awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns: $OUT"

# Joints that are drilled twice make the likely end later, not the best one.
gives 0 withdraw "$JOB" --to-joint 4 --reason 'hole closes' --by Ann
gives 0 log "$JOB" --inclination 90 --azimuth 0 --started 11:00 --ended 11:20 --by Ann
gives 0 timeline "$JOB" --json
is "$(json '$.forecast.best_min')" 750 "the best end"
is "$(json '$.forecast.likely_min')" 1440 "(210 + 30) / 5 x 6 / 5 x 25"
gives 0 timeline "$JOB"
says '6 drilled for 5 in the' 'withdrawn'

# The sample bore, from its start to its exit.
gives 0 new "$HERE/tern.bore" --sheet sample-data/tern-slough --by T
gives 0 import "$HERE/tern.bore" sample-data/tern-slough/surveys.csv --by T
gives 0 withdraw "$HERE/tern.bore" --to-joint 33 --reason 'too tight' --by T
gives 0 import "$HERE/tern.bore" sample-data/tern-slough/surveys-redrill.csv --by T
gives 0 timeline "$HERE/tern.bore"
says '73 drilled, 68 in the ground' 'the exit is reached' 'pulled back to joint 33: too tight' '13 h 0 min'

refuses 66 'no such' timeline "$HERE/none.bore"
(exec "$SAGBEND" timeline "$JOB" >/dev/full 2>"$HERE/err")
is $? 73 "status on a full disk"
