#!/usr/bin/env bash
# sagbend whatif: what a reading would mean; the file stays as it is, byte for byte.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0
JOB=$HERE/meadow.bore
cp "$JOB" "$HERE/before"

gives 0 whatif "$JOB" --inclination 90 --azimuth 6
no_warning
says 'joint 3   leg 1   bit 30.0 m' '0.52 m right' 'joint 95 m (min 80)' '3 joints 286 m (min 120)'

gives 0 whatif "$JOB" --inclination 90 --azimuth 6 --json
is "$(json '$.joint')" 3 joint
about "$(json '$.radius_joint')" 95.492966 1e-6 radius_joint
is "$(json '$.warnings')" '[]' warnings

# It warns as log would, of the same row with the same figures.
gives 0 whatif "$JOB" --inclination 90 --azimuth 8.5 --json
trial=$OUT
is "$(json '$.warnings[0].kind') $(json '$.warnings[0].level')" "joint-bend breach" "what it would be"
is "$(json_names '$.warnings[0]')" kind,level,value,limit,text "members of a warning"
about "$(json '$.warnings[0].value')" 67.406800 1e-6 "the value"
gives 0 whatif "$JOB" --inclination 90 --azimuth 8.5
warns 'sagbend: breach: Joint 3 bends to 67 m'

# A slip is shown as what it would be, and said; nothing is held, because nothing is logged.
gives 0 whatif "$JOB" --inclination 9 --azimuth 0
warns 'sagbend: note: Inclination 9 would be a turn of 81.0 degrees' 'Meant 90'
cmp -s "$JOB" "$HERE/before" || fail "whatif wrote to the file"

# The same bad input is refused as by log.
refuses 65 'from straight down' whatif "$JOB" --inclination 200 --azimuth 0
refuses 65 "leave out" whatif "$JOB" --inclination 90deg --azimuth 0
refuses 64 'are needed' whatif "$JOB"
refuses 66 'no such' whatif "$HERE/none.bore" --inclination 90 --azimuth 0
refuses 64 'does not know the option --by' whatif "$JOB" --inclination 90 --azimuth 0 --by Ann

# And log then gives what whatif gave.
gives 0 log "$JOB" --inclination 90 --azimuth 8.5 --json
is "$OUT" "$trial" "what is logged"

# In the middle of everything else: somebody writes, whatif answers.
hold "$JOB" Holger
gives 0 whatif "$JOB" --inclination 90 --azimuth 8.5
release
