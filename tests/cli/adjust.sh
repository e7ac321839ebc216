#!/usr/bin/env bash
# sagbend adjust: what the fixes propose; taken, and taken back, by name. path --as-read stays what it was.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0 90/0 90/0 90/0 90/0 90/0 90/0 90/0 90/0 90/0 90/0
JOB=$HERE/meadow.bore
gives 0 adjust "$JOB"
says 'No correction is in force' 'There is no fix to correct the path by.'
refuses 65 'There is no fix to correct the path by' adjust "$JOB" --take --reason x --by Cy
refuses 65 'No correction is in force' adjust "$JOB" --back --reason x --by Cy
gives 0 adjust "$JOB" --json
is "$(json '$.proposal.status')" no-fix "the status without a fix"

# Two fixes tell of one degree to the right.
gives 0 fix "$JOB" --depth 18 --kind coil --offset "$(awk 'BEGIN { print 18 * sin(atan2(0, -1) / 180) }')" --sigma-across 0.02 --by Cy
gives 0 fix "$JOB" --depth 30 --kind coil --offset "$(awk 'BEGIN { print 30 * sin(atan2(0, -1) / 180) }')" --sigma-across 0.02 --by Cy
gives 0 path "$JOB" --csv
cp "$HERE/.out" "$HERE/read"
rows() { sql "$JOB" 'SELECT * FROM reading' && sql "$JOB" 'SELECT * FROM fix'; }
rows >"$HERE/facts"
gives 0 adjust "$JOB"
says 'azimuth: every reading' 'degrees to the right' 'inclination: these fixes do not tell.' 'Corrected it would be'
gives 0 adjust "$JOB" --json
AZIMUTH=$(json '$.proposal.azimuth.value')
awk "BEGIN { exit !($AZIMUTH > 0.7 && $AZIMUTH < 1.1) }" || fail "proposed azimuth $AZIMUTH"
is "$(json '$.in_force')" '' "nothing in force yet"
BEFORE=$(json '$.bit_now.offset') AFTER=$(json '$.bit_corrected.offset')

# Taken: the path is where the proposal said, the readings are what they were, and the path as read is too.
refuses 64 'reason' adjust "$JOB" --take --by Cy
gives 0 adjust "$JOB" --take --reason 'two coils agree' --by Dana
says 'In force, taken by Dana' 'two coils agree'
gives 0 adjust "$JOB" --json
NOW=$(json '$.bit_now.offset')
awk "BEGIN { d = $NOW - $AFTER; exit !(d * d < 1e-6 && $NOW > $BEFORE + 0.3) }" || fail "the bit is at $NOW, said was $AFTER"
gives 0 path "$JOB" --csv --as-read
cmp -s "$HERE/.out" "$HERE/read" || fail "the path as read: $OUT"
gives 0 path "$JOB" --csv
cmp -s "$HERE/.out" "$HERE/read" && fail "the path did not move"
# surer at the bit than before
wide() { awk -F, 'NR == 1 { for (i = 1; i <= NF; i++) if ($i == "sigma_across") c = i } END { print $c }' "$1"; }
awk "BEGIN { exit !($(wide "$HERE/.out") < 0.5 * $(wide "$HERE/read")) }" || fail "no surer: $(wide "$HERE/.out"), was $(wide "$HERE/read")"
cmp -s <(rows) "$HERE/facts" || fail "readings or fixes changed"
gives 0 verify "$JOB"

# A joint more, solved alone, gives the same as solving all again.
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Cy
gives 0 verify "$JOB"

# What is handed over says that it is corrected.
gives 0 export "$JOB" csv -
says 'in every position, though not in what was read: path corrected by' 'two coils agree (Dana)'

# Taken back: all is as it was.
gives 0 withdraw "$JOB" --to-joint 12 --reason 'as before' --by Cy
gives 0 adjust "$JOB" --back --reason 'coils to be read again' --by Dana
says 'No correction is in force'
gives 0 path "$JOB" --csv
cmp -s "$HERE/.out" "$HERE/read" || fail "the path after taking back: $OUT"
gives 0 export "$JOB" csv -
says 'none: the path is as it was read, beside 2 independent fixes'
is "$(sql "$JOB" "SELECT kind || '/' || who FROM act WHERE kind LIKE 'adjust%'" | paste -sd ' ')" 'adjust/Dana adjust-back/Dana' "the acts"
gives 0 verify "$JOB"

# Two that contradict one another are both named; one that stands out from two others is named alone.
gives 0 fix "$JOB" --depth 29 --kind beacon --offset -1.5 --sigma-across 0.02 --by Cy
gives 0 adjust "$JOB" --json
is "$(json '$.proposal.fits')" 0 "whether they fit"
says 'The beacon at 29 m (fix 3)'
gives 0 fix "$JOB" --depth 36 --kind gyro --offset "$(awk 'BEGIN { print 36 * sin(atan2(0, -1) / 180) }')" --sigma-across 0.02 --by Cy
gives 0 adjust "$JOB"
says 'The beacon at 29 m (fix 3) stands out'
refuses 64 'not both' adjust "$JOB" --take --back --reason x --by Cy
