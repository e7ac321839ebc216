#!/usr/bin/env bash
# sagbend handover: one page of 24 lines and 80 columns.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

page() {
	gives 0 handover "$1"
	no_warning
	[ "$(wc -l <"$HERE/.out")" -le 24 ] || fail "more than 24 lines: $OUT"
	awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns: $OUT"
	says 'It does not replace locating and exposing utilities'
}

job meadow
JOB=$HERE/meadow.bore
page "$JOB"
says 'Level Meadow' 'no independent fix' 'nothing was corrected'
[ "$(grep -c "$(sql "$JOB" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')" "$HERE/.out")" = 1 ] ||
	fail "the file's digest is not on the page: $OUT"

# A shift: what it drilled, edited, accepted, wrote down.
gives 0 shift "$JOB" --begin 'Ann, Bea' --by Ann
for row in '90 0 07:00 07:20' '90 6 07:30 07:50' '95 6 09:30 09:50' '95 6 10:00 10:20'; do
	read -r i a s e <<<"$row"
	gives 0 log "$JOB" --inclination "$i" --azimuth "$a" --started "$s" --ended "$e" --returns full --by Ann
done
gives 0 correct "$JOB" --joint 2 --azimuth 5 --reason 'misread' --by Bea
gives 0 note "$JOB" 'seal of pump 2 leaks' --by Bea
page "$JOB"
says 'Ann, Bea' 'joint 4 leg 1' '4 joints, 40.00 m' 'corrected joint 2 (Bea): misread' 'at joint 4 (Bea): seal of pump 2 leaks' 'before joint 3' 'now full'
says 'bend of one joint: 112 m at joint 3 (limit 80, 40 % to spare)' '1.31 m high'
gives 0 shift "$JOB" --end 'swap the battery first' --by Ann
page "$JOB"
says 'at the end (Ann): swap the battery first'

# The next shift begins with a clean page.
gives 0 shift "$JOB" --begin 'Cy' --by Cy
page "$JOB"
says 'no joint in this shift' 'nothing was corrected'
[[ $OUT != *battery* ]] || fail "the last shift's words are on this one's page"
gives 0 withdraw "$JOB" --to-joint 2 --reason 'hole closes' --by Cy
page "$JOB"
says 'withdrawn to joint 2 (Cy): hole closes'

# A long day with every kind of trouble is one page too.
gives 0 new "$HERE/tern.bore" --sheet sample-data/tern-slough --by T
gives 0 import "$HERE/tern.bore" sample-data/tern-slough/surveys.csv --by T
for i in {1..12}; do gives 0 note "$HERE/tern.bore" "note $i: many words about what the night brought and what it cost"; done
for i in {30..36}; do gives 0 correct "$HERE/tern.bore" --joint "$i" --remarks "again $i" --reason "left out then, found in the paper log, number $i"; done
page "$HERE/tern.bore"
says 'more: '

# The same as a page to be printed and signed: the nine points by their numbers, in full words, on one page.
gives 0 handover "$JOB" --pdf "$HERE/meadow.pdf" --by Cy
no_words
no_warning
# shellcheck disable=SC2034
OUT=$(pdftotext -layout "$HERE/meadow.pdf" - | tr -s ' \n' ' ')
says 'Handover: Level Meadow' 'page 1 of 1' 'Shift' '1 Where the bit is station' '2 Worst of this shift' '3 Drilled' \
	'4 Returns, pressures' '5 Last fix' '6 Edited, accepted' 'withdrawn to joint 2 (Cy): hole closes' '7 Open' '8 Time lost' \
	'9 Next joints joint 3: inclination' 'handed over by' 'taken over by' 'It does not replace locating and exposing' \
	"$(sql "$JOB" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')"
gives 0 handover "$HERE/tern.bore" --pdf "$HERE/tern.pdf"
is "$(pdfinfo "$HERE/tern.pdf" | awk '/^Pages:/ { print $2 }')" 1 "pages of a long day"
# shellcheck disable=SC2034
OUT=$(pdftotext -layout "$HERE/tern.pdf" - | tr -s ' \n' ' ')
says 'more: they are in the file' 'thickened the mud' 'breach: Over the 3 joints'
refuses 73 'is there already' handover "$JOB" --pdf "$HERE/meadow.pdf"
gives 0 handover "$JOB" --pdf "$HERE/meadow.pdf" --replace
refuses 73 'no room' handover "$JOB" --pdf /dev/full
gives 65 handover "$JOB" --pdf "$HERE"
warns 'is a folder'

# A rehearsal says that it is one, on either page.
gives 0 rehearse "$HERE/trial.bore" --sheet sample-data/tern-slough --seed 7
page "$HERE/trial.bore"
says REHEARSAL
gives 0 handover "$HERE/trial.bore" --pdf "$HERE/trial.pdf"
pdftotext "$HERE/trial.pdf" - | grep -q REHEARSAL || fail "a page of a rehearsal does not say so"

# When the pilot is out is said where there is room for it.
job paced
for clock in 07:00:07:20 07:30:07:50 08:00:08:20 08:30:08:50; do
	gives 0 log "$HERE/paced.bore" --inclination 90 --azimuth 0 --started "${clock:0:5}" --ended "${clock:6}" --by Cy
done
page "$HERE/paced.bore"
says 'out      best 20' 'by the pace so far'

refuses 66 'no such' handover "$HERE/none.bore"
refuses 64 'does not know' handover "$JOB" --json

# The last fix that stands, and whether it agrees.
bore fixed 90/0 90/0
gives 0 fix "$HERE/fixed.bore" --depth 15 --kind coil --offset -0.1 --sigma-across 0.1 --by Cy
gives 0 handover "$HERE/fixed.bore"
says 'coil at 15 agrees: 0.10 m left'
gives 0 adjust "$HERE/fixed.bore" --take --reason 'as agreed' --by Cy
gives 0 handover "$HERE/fixed.bore"
says 'coil at 15 agrees, path corrected:'
gives 0 fix "$HERE/fixed.bore" --set-aside 1 --reason 'wrong loop' --by Cy
gives 0 handover "$HERE/fixed.bore"
says 'no independent fix that stands, path corrected'
