#!/usr/bin/env bash
# sagbend import: surveys from a CSV file, all of them or none, each joint an act of its own.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

readings() { sql "$1" 'SELECT count(*) FROM reading'; }
job meadow
JOB=$HERE/meadow.bore

# Columns in any order, in other words' cases, with others between them; the file's own order is the joints'.
cat >"$HERE/in.csv" <<'END'
Azimuth,Inclination,Remarks,Joint length,Weather,Returns
0,90.00,first,9.60,rain,full
6.60,90.00,"two, with a comma",9.58,rain,partial
END
gives 0 import "$JOB" "$HERE/in.csv" --by Ann
is "$OUT" "2 joints logged from $HERE/in.csv." "what it says"
is "$(sql "$JOB" 'SELECT joint, joint_length, inclination, azimuth, returns, remarks FROM reading ORDER BY id' | paste -sd ';')" \
	'1|9.60|90.00|0|full|first;2|9.58|90.00|6.60|partial|two, with a comma' "the rows"
is "$(sql "$JOB" "SELECT count(*) FROM act WHERE kind = 'log' AND who = 'Ann'")" 2 "acts"
warns "Weather"

# It makes the bore that typing makes.
cp "$JOB" "$HERE/typed.bore"
printf 'joint;inclination;azimuth\r\n3;90,00;6,6\r\n4;91,00;7,2\r\n' >"$HERE/in.csv"
gives 0 import "$JOB" - --by Ann <"$HERE/in.csv"
says '2 joints logged from standard input.'
gives 0 log "$HERE/typed.bore" --inclination 90.00 --azimuth 6.6
gives 0 log "$HERE/typed.bore" --inclination 91.00 --azimuth 7.2
gives 0 path "$HERE/typed.bore" --csv
typed=$OUT
gives 0 path "$JOB" --csv
is "$OUT" "$typed" "the path"

# The two samples: commas and semicolons, one joint without a reading.
gives 0 new "$HERE/tern.bore" --sheet sample-data/tern-slough --by Ann
gives 0 import "$HERE/tern.bore" sample-data/tern-slough/surveys.csv --by Ann
is "$(readings "$HERE/tern.bore")" "$(($(wc -l <sample-data/tern-slough/surveys.csv) - 1))" "joints of the sample"
warns 'sagbend: breach: '
gives 0 new "$HERE/kestrel.bore" --sheet sample-data/kestrel-road --by Ann
gives 0 import "$HERE/kestrel.bore" sample-data/kestrel-road/surveys.csv --by Ann
no_warning

# What is wrong: every line of it, and nothing is logged.
n=$(readings "$JOB")
cat >"$HERE/bad.csv" <<'END'
joint,inclination,azimuth,joint_length
5,90,7,10
6,ninety,7,10
7,90,700,10
8,90,7,-1
8,90,7,10
9,90
10,90deg,7,10
END
gives 65 import "$JOB" "$HERE/bad.csv"
no_words
warns 'bad.csv line 3' "'ninety'" 'line 4' 'line 5' 'line 6, joint:' 'line 7' '2 cells' 'line 8' "leave out 'deg'" 'errors, listed above. Nothing was logged.'
is "$(readings "$JOB")" "$n" "joints after a bad file"

printf 'inclination,bearing\n90,7\n' >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
warns 'azimuth'
printf 'joint,inclination,azimuth\n3,90,7\n' >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
warns 'joint 3 is in the log already' 'Joint 5 is next'
printf 'joint,inclination,azimuth\n7,90,7\n' >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
warns 'line 2, joint'
: >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
warns 'nothing in this file'
printf 'inclination,azimuth\n90,7' | head -c 15 >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
head -c 3000 /dev/urandom >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
no_words
printf 'inclination,azimuth\n90,"7\n90,7\n' >"$HERE/bad.csv"
gives 65 import "$JOB" "$HERE/bad.csv"
warns 'quote'
refuses 66 'There is no' import "$JOB" "$HERE/none.csv"
refuses 64 'SURVEYS.csv' import "$JOB"
gives 65 import "$JOB" "$HERE"
warns 'folder'
is "$(readings "$JOB")" "$n" "joints after bad files"

# A slip holds the whole file, before its first joint; a reason lets it in, and stays with that joint alone.
printf 'inclination,azimuth\n90,7\n90,70\n90,70\n' >"$HERE/slip.csv"
refuses 3 'Line 3, joint 6: ' import "$JOB" "$HERE/slip.csv"
warns 'Meant ' '--reason'
is "$(readings "$JOB")" "$n" "joints after a slip"
gives 0 import "$JOB" "$HERE/slip.csv" --reason 'casing near' --by Ann
is "$(sql "$JOB" "SELECT group_concat(coalesce(words, '-')) FROM (SELECT words FROM act WHERE kind = 'log' ORDER BY id DESC LIMIT 3)")" \
	'-,casing near,-' "the reasons"

# Depths instead of lengths, and depths beside lengths that do not agree.
job depths
printf 'bit depth,inclination,azimuth\n9.60,90,0\n19.18,90,0\n' >"$HERE/in.csv"
gives 0 import "$HERE/depths.bore" "$HERE/in.csv"
is "$(sql "$HERE/depths.bore" 'SELECT group_concat(joint_length) FROM reading')" 9.60,9.58 "lengths from depths"
printf 'bit depth,inclination,azimuth\n19.10,90,0\n' >"$HERE/in.csv"
gives 65 import "$HERE/depths.bore" "$HERE/in.csv"
warns 'does not lie past the joint before'
gives 0 verify "$JOB"

# An export makes the same bore again, place for place: with corrections, joints drilled again, readings that were
# accepted with a reason, fixes, azimuths by other ways. What was withdrawn, and the acts, stay in the old file.
again() { # JOB SHEET: exports it, logs that in a new job; OUT and ERR are the import's
	rm -f "$HERE/again.bore" "$HERE/again.csv"
	gives 0 export "$1" csv "$HERE/again.csv"
	gives 0 new "$HERE/again.bore" --sheet "$2" --by Ann
	gives 0 import "$HERE/again.bore" "$HERE/again.csv" --by Ann
}
places() { # JOB [OPTION...]: joint, depths, angles, place, bends and share of the corridor
	gives 0 path "$@" --csv
	cut -d, -f1,3-16 "$HERE/.out"
}
same_places() {
	is "$(places "$HERE/again.bore")" "$(places "$@")" "the path made again of $*"
}
TERN=$HERE/tern.bore
gives 0 correct "$TERN" --joint 12 --inclination 85.1 --reason 'the book says 85.1' --by Bea
gives 0 correct "$TERN" --joint 13 --joint-length 31.50 --reason 'measured again' --by Bea
gives 0 withdraw "$TERN" --to-joint 33 --reason 'too tight' --by Ann
gives 0 import "$TERN" sample-data/tern-slough/surveys-redrill.csv --by Ann
gives 0 fix "$TERN" --depth 300 --kind coil --station 295 --offset 1.5 --elevation -16 --sigma-along 1 --sigma-across 0.5 \
	--sigma-up 0.5 --by Ann
again "$TERN" sample-data/tern-slough
warns 'note: The places in the file come out the same.' 'Meant 81.5?'
same_places "$TERN"
is "$(sql "$HERE/again.bore" 'SELECT count(*) FROM reading')" "$(sql "$TERN" "SELECT max(joint) FROM path WHERE NOT superseded")" "joints"
again "$HERE/kestrel.bore" sample-data/kestrel-road
warns 'come out the same'
same_places "$HERE/kestrel.bore"
sheet "$HERE/ways" '[azimuth] convergence = 1.5'
gives 0 new "$HERE/ways.bore" --sheet "$HERE/ways" --by Ann
gives 0 log "$HERE/ways.bore" --inclination 90 --azimuth 0
gives 0 log "$HERE/ways.bore" --inclination 91 --azimuth 1.50 --azimuth-by gyro --remarks '=not a formula, "quoted"'
gives 0 log "$HERE/ways.bore" --inclination 91 --azimuth-by hold --tool-face 40 --slid 6
gives 0 log "$HERE/ways.bore" --no-reading
gives 0 log "$HERE/ways.bore" --inclination 92.5 --azimuth 30 --reason 'casing near'
again "$HERE/ways.bore" "$HERE/ways"
warns 'come out the same'
same_places "$HERE/ways.bore"
is "$(sql "$HERE/again.bore" 'SELECT joint, joint_length, inclination, azimuth, azimuth_by, tool_face, slid, remarks FROM reading')" \
	"$(sql "$HERE/ways.bore" 'SELECT joint, joint_length, inclination, azimuth, azimuth_by, tool_face, slid, remarks FROM reading')" "the rows"

# What the readings do not hold, a setting that changed and a correction by fixes, is found by the places beside them,
# and said before anybody relies on the new file; without the correction the two agree.
gives 0 adjust "$TERN" --take --reason 'a coil' --by Ann
again "$TERN" sample-data/tern-slough
warns 'from joint 2 on, by up to' 'corrections by fixes'
same_places "$TERN" --as-read
gives 0 change "$HERE/ways.bore" --set tool.azimuth_correction=2 --from-joint 3 --reason 'tool turned in its housing' --by Ann
again "$HERE/ways.bore" "$HERE/ways"
warns 'from joint 5 on, by up to' 'settings that changed'
