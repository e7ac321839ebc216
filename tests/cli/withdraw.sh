#!/usr/bin/env bash
# sagbend withdraw: a new leg from the last joint that stays; what was drilled past it stays in the file.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6 95/6 95/0 90/0
JOB=$HERE/meadow.bore
gives 0 path "$JOB" --csv
head -4 "$HERE/.out" >"$HERE/kept"
sed -n '5,$p' "$HERE/.out" >"$HERE/gone"

gives 0 withdraw "$JOB" --to-joint 2 --reason 'bends too hard' --by Cy
is "$OUT" 'Pulled back to joint 2. Leg 2 begins.' "what it says"
no_warning
is "$(sql "$JOB" 'SELECT kind, who, joint, leg, words FROM act ORDER BY id DESC LIMIT 1')" 'withdraw|Cy|2|2|bends too hard' "the act"

# The path ends there; with all legs, what was withdrawn follows, as it was.
gives 0 path "$JOB" --csv
cmp -s "$HERE/.out" <(head -4 "$HERE/kept") || fail "the path that stays: $OUT"
gives 0 path "$JOB" --csv --all-legs
cmp -s <(sed -n '5,$p' "$HERE/.out") "$HERE/gone" || fail "the withdrawn joints: $OUT"

# The next joint is 3 of leg 2, beside joint 3 of leg 1.
gives 0 log "$JOB" --inclination 90 --azimuth 3 --by Cy --json
is "$(json '$.joint')/$(json '$.leg')" 3/2 "the next joint"
gives 0 path "$JOB" --csv --all-legs
is "$(awk -F, 'NR > 1 { print $1 "/" $2 }' "$HERE/.out" | paste -sd ' ')" '0/1 1/1 2/1 3/1 4/1 5/1 3/2' "the rows"
gives 0 path "$JOB"
says '3/2'

# All of it out, and on again; a leg of no joints at all.
gives 0 withdraw "$JOB" --to-joint 0 --reason 'hole lost' --by Cy
says 'Pulled back to joint 0. Leg 3 begins.'
gives 0 path "$JOB" --csv
is "$(wc -l <"$HERE/.out")" 2 "rows of an empty hole"
gives 0 check "$JOB"
refuses 65 'no joint in the ground' withdraw "$JOB" --to-joint 0 --reason 'again' --by Cy
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Cy
says 'joint 1   leg 3'

refuses 65 'cannot be 1: 1 joint is in the ground' withdraw "$JOB" --to-joint 1 --reason why --by Cy
refuses 64 'from 0 to' withdraw "$JOB" --to-joint -1 --reason why --by Cy
refuses 64 'whole number' withdraw "$JOB" --to-joint half --reason why --by Cy
refuses 64 '--to-joint is missing' withdraw "$JOB" --reason why --by Cy
refuses 64 '--reason TEXT is missing' withdraw "$JOB" --to-joint 0 --by Cy
refuses 66 'no such' withdraw "$HERE/none.bore" --to-joint 0 --reason why --by Cy
gives 0 verify "$JOB"
