#!/bin/sh
# The main job on sample data: a crossing drilled, withdrawn a stretch, redrilled to the exit, handed over.
# `make demo` runs it; BUILD says where the program was built. Always from scratch, so it can be run again.
set -eu
build=${BUILD:-build}
program=$build/sagbend
sheet=${0%/*}/tern-slough
folder=$build/demo
job=$folder/tern-slough.bore
who='A. Lund'

say() {
	printf '\n%s\n' "$*"
}

# Shows a command as one would type it, then runs it.
run() {
	line='$ sagbend'
	for word in "$@"; do
		case $word in
		*[!A-Za-z0-9_./=-]*) line="$line '$word'" ;;
		*) line="$line $word" ;;
		esac
	done
	printf '\n%s\n' "$line"
	"$program" "$@"
}

# `check` speaks through its exit status: 1 watch, 2 breach. More than that is a failure.
check() {
	status=0
	run check "$@" || status=$?
	printf 'exit status %s\n' "$status"
	[ "$status" -le 2 ]
}

mkdir -p "$folder"
rm -f "$job" "$job"-journal "$job".*

say 'Tern Slough: 2100 ft under a tidal slough. The job file is made from the job sheet.'
run new "$job" --sheet "$sheet" --by 'P. Ortega'

say 'The first leg, 38 joints. It drifts to the low side, and is steered back too hard.'
run import "$job" "$sheet/surveys.csv" --by "$who"
check "$job"

say 'Three joints bend tighter than the contract allows. They are pulled back and drilled again.'
run withdraw "$job" --to-joint 33 --reason 'bend over joints 36 to 38 too tight' --by 'P. Ortega'
run import "$job" "$sheet/surveys-redrill.csv" --by "$who"
run note "$job" 'Bit out at the exit stake. Exit to be tied in by land survey.' --by "$who"
run fix "$job" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --remarks 'total station from points 3 and 4' --by 'S. Idris'

say 'The hold point: what the contract asks before the pilot is accepted. It is ticked off, and signed.'
run acceptance "$job"
run acceptance "$job" --tick 1 --reference 'transmittal 12' --by "$who" >/dev/null
run acceptance "$job" --tick 2 --reference 'sheet 0417' --by "$who" >/dev/null
run acceptance "$job" --tick 3 --reference 'letter 31' --by 'P. Ortega' >/dev/null
run acceptance "$job" --sign --capacity 'engineer of the owner' --statement 'The pilot is accepted for reaming.' \
	--by 'B. Hale'
run nonconformance "$job"

say 'The hole is opened: two reamers and a swab, which still runs. Cuttings, fluid, and how long the rest takes.'
run pass "$job" begin --kind ream --diameter 24 --to entry --tool 'fly cutter' --by "$who"
run pass "$job" joint --read "$sheet/pass-1.csv" --by "$who"
run pass "$job" end --by "$who"
run pass "$job" begin --kind ream --diameter 36 --to entry --tool 'hole opener' --by "$who"
run pass "$job" joint --read "$sheet/pass-2.csv" --by "$who"
run pass "$job" end --by "$who"
run pass "$job" begin --kind swab --diameter 30 --to entry --tool 'barrel' --by "$who"
run pass "$job" joint --read "$sheet/pass-3.csv" --by "$who"
printf '\n$ sagbend pass %s | head -n 30\n' "$job"
"$program" pass "$job" | sed -n '1,30p'

say 'What the product pipe will bear in the hole that was drilled, beside the one that was drawn: an estimate.'
printf '\n$ sagbend stress %s | head -n 18\n' "$job"
"$program" stress "$job" | sed -n '1,18p'

say 'The pipe string is laid out, welded, inspected, tested. One weld was bad, and was made again.'
run string "$job" --read "$sheet/pipes.csv" --by 'P. Ortega'
run string "$job" --read "$sheet/pipe-records.csv" --by 'P. Ortega'
run pass "$job" joint --read "$sheet/pass-3-end.csv" --by "$who"
run pass "$job" end --by "$who"

say 'The pull: each joint beside the estimate for its place. For three joints it is more than was to be expected.'
run pull "$job" begin --by 'P. Ortega'
run pull "$job" joint --read "$sheet/pull.csv" --by "$who"
run pull "$job" end --extra 24 --coating sound --survey 'sheet 0418' --by 'P. Ortega'
printf '\n$ sagbend pull %s | head -n 40\n' "$job"
"$program" pull "$job" | sed -n '1,40p'

say 'Where the pilot went: the last joints of the path, and all limits.'
printf '\n$ sagbend path %s | tail -n 12\n' "$job"
"$program" path "$job" | sed -n '1,2p'
"$program" path "$job" | tail -n 12
check "$job"

say 'The page for the next shift.'
run handover "$job"

say 'For the engineer: every reading as CSV, and everything as JSON.'
run export "$job" csv "$folder/tern-slough.csv" --replace --by "$who"
run export "$job" json "$folder/tern-slough.json" --replace --by "$who"

say 'The plan-and-profile sheet, to be signed.'
run export "$job" sheet "$folder/tern-slough.pdf" --replace --by "$who"
run verify "$job"

say "The job file is $job."
if [ -t 0 ] && [ -t 1 ]; then
	say 'It opens on the screen in five seconds: ? is help, q leaves.'
	sleep 5
	run open "$job" --by "$who"
else
	say "Open it on the screen with: $program open $job"
fi
