#!/usr/bin/env bash
# sagbend repeat: a reading taken again stands beside the path, and never moves it.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0 90/0 90/0 90/0
JOB=$HERE/meadow.bore
gives 0 path "$JOB" --csv
path=$OUT

# Nothing is kept that cannot be.
refuses 64 'inclination VALUE is missing' repeat "$JOB" --azimuth 0 --by Ann
refuses 65 'cannot be' repeat "$JOB" --inclination 200 --azimuth 0 --by Ann
refuses 65 '' repeat "$JOB" --inclination 90 --azimuth 0 --depth 5000 --by Ann
is "$(sql "$JOB" 'SELECT count(*) FROM repeat')" 0 "repeats after refusals"

# It says what it is against the path.
gives 0 repeat "$JOB" --inclination 90.1 --azimuth 0 --by Ann
says 'read again: against the path there inclination 0.10 deg more, azimuth the same.' 'The noise of two readings explains that'
gives 0 repeat "$JOB" --inclination 90 --azimuth 12 --depth 20 --way out --by Ann
says 'on the way out' 'azimuth 12.00 deg more' 'look for steel nearby'
is "$(sql "$JOB" 'SELECT count(*) FROM repeat')" 2 "repeats kept"

# The path is as it was, byte for byte.
gives 0 path "$JOB" --csv
is "$OUT" "$path" "the path beside its repeats"

# Enough of them say what the sheet's noise is worth, and check says it.
gives 0 check "$JOB"
[[ $OUT != *Repeats* ]] || fail "two repeats are too few to speak of: $OUT"
for i in 1 2 3 4; do gives 0 repeat "$JOB" --inclination "9$i" --azimuth 0 --depth "${i}0" --by Ann; done
gives 0 check "$JOB"
says 'Repeats show inclination noise of' "more than chance explains"
gives 0 verify "$JOB"
