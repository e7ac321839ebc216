#!/usr/bin/env bash
# Slides inside a joint: what `log`, `correct` and `import` take of pushes, the second path beside the arcs, and which of
# the two is the record.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# slide OPTION...: logs a level joint. Columns 21 to 23 of `path --csv` are slides less arcs.
slide() { gives 0 log "$JOB" --by driller --inclination 90 "$@"; }

# Joints of 10 m, level. Each turns 2 degrees to the right in a push of 4 m at its start: slid 4 m at half a degree a
# metre, as the sheet says. A course that begins with all its turn b shifts by b (L - l) / 2 = 0.0349 * 3 = 0.1047 m
# (derived, to the third order in b).
sheet "$HERE/arc"
printf '[steering]\nslide_turn = 0.5\n' >>"$HERE/arc/job.ini"
gives 0 new "$HERE/arc.bore" --sheet "$HERE/arc" --by maker
JOB=$HERE/arc.bore
slide --azimuth 2 --pushes '0:4@90'
gives 0 path "$JOB" --csv
about "$(cell 3 22)" 0.1047 0.0006 "shift of the first joint, right"
about "$(cell 3 23)" 0 1e-6 "its height"
is "$(cell 2 22)" '' "shift at the entry"
ARC=$(cell 3 8)
# the arc itself: R (1 - cos b), R = 10 / b
about "$ARC" 0.174515 1e-6 "offset of the record"

# The same, slid at the end of the joint: the shift goes back.
slide --azimuth 4 --pushes '6:4@90' --slid 4
gives 0 path "$JOB" --csv
about "$(cell 4 22)" 0 0.002 "early and late together"
# In words.
gives 0 path "$JOB"
says 'Laid through its slides the bore ends' 'arcs are the record'

# Where slides are the record, positions are its positions; bends stay those of the readings.
mkdir "$HERE/slides"
cp "$HERE/arc/"* "$HERE/slides/"
printf '[survey]\ncourse = slides\n' >>"$HERE/slides/job.ini"
gives 0 new "$HERE/slides.bore" --sheet "$HERE/slides" --by maker
JOB=$HERE/slides.bore
slide --azimuth 2 --pushes '0:4@90'
gives 0 path "$JOB" --csv
about "$(cell 3 8)" "$(awk -v a="$ARC" 'BEGIN { print a + 0.1047 }')" 0.0006 "offset by slides"
about "$(cell 3 22)" 0.1047 0.0006 "and the shift is the same"
is "$(cell 3 13)" 2 dogleg
# Points between lie on the same course: straight after the push, so the offset there runs on along 2 degrees.
gives 0 path "$JOB" --every 1 --csv
for row in 8 9 10; do
	about "$(awk -v a="$(cell $row 8)" -v b="$(cell $((row + 1)) 8)" 'BEGIN { print b - a }')" 0.034921 2e-4 "a metre on"
done
gives 0 export "$JOB" csv
says "courses through each joint's slides and rotations"
gives 0 verify "$JOB"

# A joint whose slides were not written down is an arc in both, and marked by a blank.
slide --azimuth 3 --slid 2
gives 0 path "$JOB" --csv
is "$(cell 4 22)" '' "shift where the tool face is missing"
gives 0 path "$JOB"
says 'both: 1 course.'

# What cannot be is refused, by every door, and nothing is logged.
refuses 65 "push 1 ends at 12, past the end of the joint, which is 10 long" log "$JOB" --by driller --inclination 90 \
	--azimuth 4 --pushes '2:10@90' --joint-length 10
refuses 65 "push 2 begins at 3, but push 1 ends at 4" log "$JOB" --by driller --inclination 90 --azimuth 4 \
	--pushes '0:4@90; 3:2@90'
refuses 65 "together they are 4, but 6 is written as slid" log "$JOB" --by driller --inclination 90 --azimuth 4 \
	--pushes '0:4@90' --slid 6
refuses 65 "a tool face of 400" whatif "$JOB" --inclination 90 --azimuth 4 --pushes '0:4@400'
refuses 65 "push 1 ends at 12" correct "$JOB" --joint 1 --reason typo --pushes '8:4@90' --by driller
printf 'inclination,azimuth,joint_length,pushes\n90,4,10,0:4@90; 5:6@80\n90,4,10,now and then\n' >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv" --by driller
warns 'past the end of the joint' "'now and then', cannot be understood"
is "$(sql "$JOB" 'SELECT count(*) FROM reading')" 2 "readings in the log"

# A correction moves the second path, and solving again gives what stands in the file.
gives 0 correct "$JOB" --joint 1 --reason 'pushed at the end' --pushes '6:4@90' --by driller
gives 0 path "$JOB" --csv
about "$(cell 3 22)" -0.1047 0.0006 "shift after the correction"
gives 0 verify "$JOB"
