#!/usr/bin/env bash
# sagbend stress: the product pipe of the two sample crossings, and sheets that do not say enough.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"
SAMPLES=$(dirname "$0")/../../sample-data

# crossing NAME
crossing() {
	"$SAGBEND" new "$HERE/$1.bore" --sheet "$SAMPLES/$1" --by maker >/dev/null 2>&1 || fail "no job $1"
	"$SAGBEND" import "$HERE/$1.bore" "$SAMPLES/$1/surveys.csv" --by maker >/dev/null 2>&1 || fail "no surveys"
}

crossing tern-slough
JOB=$HERE/tern-slough.bore
gives 0 stress "$JOB"
says 'AN ESTIMATE, for the engineer to verify' 'steel, 24 in by 0.500 in, coat 0.04 in' 'PROJECTED to the exit' \
	'filled with water to 10' 'tension and bending' 'API RP 2A-WSD, from memory' 'p: projected'
[ "$(awk 'length > 80' "$HERE/.out" | wc -l)" = 0 ] || fail "wider than 80 columns"
gives 0 stress "$JOB" --json
# E D / 2 R of the tightest joint: 29e6 x 24 / (2 x 12 R), in feet
about "$(json '$.largest.bending.bending_window')" "$(echo "29000000 * 24 / 24 / $(json '$.largest.bending.radius_window')" | bc -l)" 0.01 "bending"
is "$(json '$.largest.bending.joint') $(json '$.of') $(json '$.estimate')" "37 drilled 1" "where it bends most"
is "$(json '$.unit') $(json_names '$.units') $(json '$.units.stress')" "ft force,stress,pressure psi" "the units"
[ "$(json_names '$.assumptions' | tr , '\n' | wc -l)" -gt 3 ] || fail "no assumptions in the JSON"
about "$(json '$.stations[0].shares.tension')" "$(echo "$(json '$.stations[0].force') / (3.14159265 / 4 * (24^2 - 23^2)) / 54000" | bc -l)" 1e-6 "tension"
gives 0 stress "$JOB" --design --json
is "$(json '$.of') $(json '$.out')" "design 0" "the design"
about "$(json '$.turn')" 19 0.01 "turns of the design"
about "$(json '$.design.largest.bending.radius_window')" 2400 0.5 "radius of the design"

crossing kestrel-road
gives 0 stress "$HERE/kestrel-road.bore"
says 'polyethylene, 315 mm by 28.6 mm' 'full of water' 'ASTM F1962' 'pull_stress, which must be'
[ "$(awk 'length > 80' "$HERE/.out" | wc -l)" = 0 ] || fail "wider than 80 columns"
gives 0 stress "$HERE/kestrel-road.bore" --json
is "$(json '$.largest.all')" "" "nothing of steel's"

# A sheet that does not say enough: which key is missing.
bore bare 90/0
refuses 65 "The sheet does not say [product_pipe] modulus" stress "$HERE/bare.bore"
refuses 64 'Usage' stress
