#!/usr/bin/env bash
# sagbend rehearse: bores by simulation, repeatable, and marked wherever they are shown.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

SHEET=sample-data/tern-slough

gives 0 rehearse --sheet $SHEET --seed 3 --bores 2
says REHEARSAL 'not a record' 'seed 3' 'seed 4' 'of 2 bores clean'
first=$OUT
gives 0 rehearse --sheet $SHEET --seed 3 --bores 2
is "$OUT" "$first" 'the same seed drills the same bore'

gives 0 rehearse --sheet $SHEET --by aim --ground weak-soil --json
is "$(json '$.rehearsal')" 1 'marked in JSON'
is "$(json '$.ground')" weak-soil ground
is "$(json_sql "SELECT group_concat(key) FROM o, json_each(j, '\$.bores[0]')")" \
	seed,joints,clean,out,outside_share,worst_corridor_share,inside_from,exit_long,exit_right,exit_in_window,windows,broken_windows,slid_share,turning_degrees \
	'members of a bore'

# A bias that no reading shows leads the bore aside; one coil at mid-bore brings it home.
gives 0 rehearse --sheet $SHEET --ground azimuth-bias --seed 4 --json
aside=$(json '$.bores[0].exit_right')
# past steel the azimuths jump, and the log shows it
gives 0 rehearse --sheet $SHEET --ground steel-nearby --seed 2
says 'ground steel-nearby: azimuths are pulled' 'not a record'
gives 0 rehearse --sheet $SHEET --ground azimuth-bias --seed 4 --fix 1 --json
awk -v a="$aside" -v b="$(json '$.bores[0].exit_right')" 'BEGIN { exit !(a * a > 25 * b * b) }' ||
	fail "with a fix the bore comes out $(json '$.bores[0].exit_right') aside, without $aside"
gives 64 rehearse --sheet $SHEET --fix high
gives 64 rehearse "$HERE/y.bore" --sheet $SHEET --fix 1

gives 64 rehearse
gives 64 rehearse --sheet $SHEET --ground moon
gives 64 rehearse --sheet $SHEET --by luck
gives 65 rehearse --sheet "$HERE"

JOB=$HERE/train.bore
gives 0 rehearse "$JOB" --sheet $SHEET --seed 9
says REHEARSAL
gives 0 handover "$JOB"
says REHEARSAL
gives 0 check "$JOB"
says REHEARSAL
gives 0 export "$JOB" csv
says REHEARSAL
gives 73 rehearse "$JOB" --sheet $SHEET
gives 64 rehearse "$HERE/x.bore" --sheet $SHEET --by aim
