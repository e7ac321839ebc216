#!/usr/bin/env bash
# sagbend nonconformance, acceptance: what came of every breach, the contract's checklist, and the signature that
# closes the pilot.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# The sample bore: joints 36 to 38 of leg 1 bend too tightly, and are redrilled to the exit.
SHEET=sample-data/tern-slough
JOB=$HERE/tern.bore
gives 0 new "$JOB" --sheet "$SHEET" --by P
gives 0 nonconformance "$JOB"
says 'There is no non-conformance: no limit was broken.'
gives 0 import "$JOB" "$SHEET/surveys.csv" --by A
gives 0 nonconformance "$JOB" --json
is "$(json_sql "SELECT json_extract(j, '\$.open') || json_extract(j, '\$.nonconformances[0].disposition') FROM o")" \
	1open "what is open"
gives 2 check "$JOB"
says '1 non-conformance is open: see nonconformance.'

# accepted, and taken back
refuses 65 'The reference is missing.' nonconformance "$JOB" --accept 1 --reason why
refuses 65 'The reason is missing.' nonconformance "$JOB" --accept 1 --reference C-1
refuses 66 'There is no non-conformance 2: they are numbered 1 to 1.' nonconformance "$JOB" --accept 2 --reference C-1 \
	--reason why
refuses 64 'whole number' nonconformance "$JOB" --accept x --reference C-1 --reason why
refuses 64 '--accept or --back, not both.' nonconformance "$JOB" --accept 1 --back 1 --reason why
refuses 65 'is not accepted' nonconformance "$JOB" --back 1 --reason why
gives 0 nonconformance "$JOB" --accept 1 --reference C-114 --reason 'the pipe holds' --by 'B. Hale'
says 'accepted by B. Hale: bend over the window' 'reference C-114' '0 of 1 open.'
gives 2 check "$JOB" --json
is "$(json_sql "SELECT json_extract(j, '\$.nonconformances[0].by') || json_extract(j, '\$.nonconformances[0].reference')
	FROM o")" 'B. HaleC-114' "who accepted it"
gives 0 nonconformance "$JOB" --back 1 --reason 'wrong load case' --by 'B. Hale'
says '1 of 1 open. The pilot cannot be accepted while one is.'

# closed by the new leg itself
gives 0 withdraw "$JOB" --to-joint 33 --reason bend --by P
gives 0 import "$JOB" "$SHEET/surveys-redrill.csv" --by A
gives 0 nonconformance "$JOB"
says 'redrilled: leg 2 began behind it, after joint 33' '0 of 1 open.'

# what is asked
refuses 65 '4 points are missing. The exit is surveyed from land' acceptance "$JOB" --sign --capacity engineer \
	--statement yes
gives 0 fix "$JOB" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --by S
gives 0 acceptance "$JOB"
says 'Exit by land survey: 0.60 ft long, 1.40 ft right and 0.06 ft high of the' 'It cannot be accepted yet: 3 missing.'
gives 0 acceptance "$JOB" --json
is "$(json_sql "SELECT round(json_extract(j, '\$.exit.long'), 2) || ' ' || round(json_extract(j, '\$.exit.right'), 2) || ' ' ||
	round(json_extract(j, '\$.exit.high'), 2) || ' ' || json_extract(j, '\$.missing') FROM o")" '0.6 1.4 0.06 3' \
	"the exit and what is missing"
for point in 1 2 3; do gives 0 acceptance "$JOB" --tick $point --reference "letter $point" --by A; done
refuses 65 'Point 1 is ticked off already.' acceptance "$JOB" --tick 1
refuses 66 'There is no point 4' acceptance "$JOB" --tick 4
refuses 65 'The reason is missing.' acceptance "$JOB" --untick 1
refuses 64 'One at a time' acceptance "$JOB" --tick 1 --sign
refuses 65 'The statement is missing.' acceptance "$JOB" --sign --capacity engineer
refuses 65 'The pilot is open: nobody has accepted it.' acceptance "$JOB" --reopen --reason why

# signed and closed
gives 0 acceptance "$JOB" --sign --capacity 'engineer of the owner' --statement 'Accepted for reaming.' --by 'B. Hale'
says 'Accepted by B. Hale, engineer of the owner' 'Accepted for'
for act in "log $JOB --inclination 98 --azimuth 102" "withdraw $JOB --to-joint 40 --reason why" "adjust $JOB --take --reason why" \
	"correct $JOB --joint 3 --inclination 80 --reason why" "acceptance $JOB --untick 1 --reason why"; do
	# shellcheck disable=SC2086 # words
	refuses 65 'B. Hale accepted the pilot: it is closed.' $act
done
gives 0 note "$JOB" 'reamer on site'
gives 0 verify "$JOB"
is "$(sql "$JOB" 'SELECT disposition FROM nonconformances')" redrilled "a stranger's view"
gives 0 acceptance "$JOB" --reopen --reason 'exit to be surveyed again' --by 'B. Hale'
says 'Opened again by B. Hale'
gives 0 note "$JOB" 'open again'
gives 0 correct "$JOB" --joint 3 --remarks 'checked' --reason 'why not' --by A
