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
