#!/usr/bin/env bash
# What comes on paper and in files of the hole after the pilot: passes, pipe string, fluid, pull in the report, on the
# sheet, in the handover, in the day's report, and in the JSON. A job with none of it says nothing of it.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

TERN=sample-data/tern-slough
JOB=$HERE/tern.bore

# The sample, its pilot accepted, opened by two reamers and a swab that still runs. Quiet: `gives` says what failed.
gives 0 new "$JOB" --sheet $TERN --by 'P. Ortega'
gives 0 import "$JOB" $TERN/surveys.csv --by 'A. Lund'
gives 0 withdraw "$JOB" --to-joint 33 --reason 'bend over joints 36 to 38 too tight' --by 'P. Ortega'
gives 0 import "$JOB" $TERN/surveys-redrill.csv --by 'A. Lund'
gives 0 fix "$JOB" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --by 'S. Idris'
cp "$JOB" "$HERE/pilot.bore"
for point in 1 2 3; do gives 0 acceptance "$JOB" --tick $point --reference "letter $point" --by 'P. Ortega'; done
gives 0 acceptance "$JOB" --sign --capacity 'engineer of the owner' --statement 'Accepted for reaming.' --by 'B. Hale'
gives 0 pass "$JOB" begin --kind ream --diameter 24 --to entry --tool 'fly cutter' --by 'A. Lund'
gives 0 pass "$JOB" joint --read $TERN/pass-1.csv --by 'A. Lund'
gives 0 pass "$JOB" end --by 'A. Lund'
gives 0 pass "$JOB" begin --kind ream --diameter 36 --to entry --tool 'hole opener' --by 'A. Lund'
gives 0 pass "$JOB" joint --read $TERN/pass-2.csv --by 'A. Lund'
gives 0 fluid "$JOB" returns partial --by 'A. Lund'
gives 0 fluid "$JOB" release --station 812 --volume 300 --place 'west of the levee' --receiving wetland --by 'A. Lund'
gives 0 pass "$JOB" end --by 'A. Lund'
gives 0 pass "$JOB" begin --kind swab --diameter 30 --to entry --tool barrel --by 'A. Lund'
gives 0 pass "$JOB" joint --read $TERN/pass-3.csv --by 'A. Lund'
for joint in 1 2 3; do gives 0 string "$JOB" joint --joint $joint --length 40.1$joint --mark "H 773$joint" --by 'W. Dahl'; done
gives 0 string "$JOB" weld --joint 1 --outcome bad --reference X-1 --by 'W. Dahl'
gives 0 strike "$JOB" --entry "$(sql "$JOB" "SELECT max(id) FROM act WHERE kind = 'pipe-record'")" --reason 'wrong weld' --by 'W. Dahl'
gives 0 string "$JOB" weld --joint 1 --outcome good --reference X-2 --by 'W. Dahl'

# ---- JSON: every fact of the job file, row by row and column by column, by the names of its tables ----

gives 0 export "$JOB" json "$HERE/all.json" --by 'E. Hale'
facts() { sqlite3 -batch "$JOB" -cmd '.mode list' "SELECT $1 FROM json_each(readfile('$HERE/all.json'), '\$.facts.$2') AS f"; }
tables=0 rows=0
for table in $(sql "$JOB" "SELECT m.name FROM sqlite_schema AS m WHERE m.type = 'table'
	AND EXISTS (SELECT 1 FROM pragma_table_info(m.name) WHERE name = 'act')
	AND m.name NOT IN ('reading', 'leg', 'acknowledgement', 'journal', 'setting')
	AND m.name NOT IN (SELECT key FROM json_each(readfile('$HERE/all.json'), '\$.tables'))"); do
	is "$(facts "count(*)" "$table")" "$(sql "$JOB" "SELECT count(*) FROM $table")" "rows of $table in the JSON"
	for column in $(sql "$JOB" "SELECT name FROM pragma_table_info('$table')"); do
		# -> keeps a number as it was typed: 12.30 stays 12.30
		is "$(facts "group_concat(coalesce(nullif(trim(f.value -> '$column', '\"'), 'null'), ''), '|')" "$table")" \
			"$(sql "$JOB" "SELECT group_concat(coalesce(\"$column\", ''), '|') FROM (SELECT * FROM $table ORDER BY id)")" \
			"column $column of $table in the JSON"
	done
	tables=$((tables + 1)) rows=$((rows + $(sql "$JOB" "SELECT count(*) FROM $table")))
done
[ "$tables" -ge 15 ] || fail "only $tables tables of facts in the job file"
[ "$rows" -ge 60 ] || fail "only $rows facts in the job file"
is "$(facts "group_concat(f.value ->> 'struck', ' ')" pipe_record)" '1 0' "what is struck out of the records"

# ---- the report: its parts, as pages and as text ----

gives 0 export "$JOB" report-text --by 'E. Hale'
cp "$HERE/.out" "$HERE/report.txt"
says 'Opening the hole' 'pass 3, swab of 30 in to the entry, barrel' '42 of 68 through' 'the passes keep' \
	'What the rig showed: pull in lbf' 'Drilling fluid' 'An estimate, but for what was measured' 'west of the levee' \
	'still missing     who was told and when, what was done' 'Joint by joint, psi' 'The pipe string' 'good, X-2' \
	'welds 1 and 2 have no inspection' 'Struck out: counts for nothing' 'weld 1 bad, X-1: wrong' \
	'The product pipe in this hole' 'An estimate, for the engineer to verify' '180000 lbf by the contract' \
	'What moves the largest force' 'What the estimate rests on'
awk 'length > 80' "$HERE/report.txt" | grep -q . && fail "the report has a line over 80 columns"
# Its figures are those of the commands.
gives 0 stress "$JOB" --json
cp "$HERE/.out" "$HERE/stress.json"
force=$(sqlite3 -batch :memory: "SELECT printf('%.0f', max(s.value ->> 'force')) FROM json_each(readfile('$HERE/stress.json'), '$.stations') AS s")
grep -q " $force " "$HERE/report.txt" || fail "the largest force is not $force"
gives 0 pass "$JOB" --json
cp "$HERE/.out" "$HERE/pass.json"
span=$(sqlite3 -batch :memory: "SELECT printf('%.8g to %.8g', r.value ->> 'low', r.value ->> 'high') FROM
	json_each(readfile('$HERE/pass.json'), '$.passes[1].ranges') AS r WHERE r.key = 'pull'")
grep -qE "^ +2  $span " "$HERE/report.txt" || fail "the pull of pass 2 is not $span"
gives 0 export "$JOB" report "$HERE/report.pdf" --by 'E. Hale'
pdftotext -layout "$HERE/report.pdf" - | tr -s ' \n' ' ' >"$HERE/report.words"
grep -q '10. Opening the hole' "$HERE/report.words" || fail "the pages have no part of the opening"

# The pilot alone: what can be said of the pipe and the fluid, and not a word of what has not begun.
gives 0 export "$HERE/pilot.bore" report-text --by 'E. Hale'
for part in 'Opening the hole' 'The pipe string' 'Struck out'; do
	[[ $OUT != *"$part"* ]] || fail "a part that has nothing to tell: $part"
done
says '10. Drilling fluid' '11. The product pipe in this hole'
job meadow
gives 0 export "$HERE/meadow.bore" report-text --by 'E. Hale'
for part in 'Opening the hole' 'The pipe string' 'Drilling fluid' 'product pipe in'; do
	[[ $OUT != *"$part"* ]] || fail "a part of a job without its data: $part"
done

# ---- the handover: the pass in place of the pilot's nine points, one page of 24 lines ----

page() {
	gives 0 handover "$1"
	no_warning
	[ "$(wc -l <"$HERE/.out")" -le 24 ] || fail "more than 24 lines: $OUT"
	awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns: $OUT"
	says 'It does not replace locating and exposing utilities'
}
page "$JOB"
says 'Tern Slough, opening the hole' '3, swab of 30 in to the entry, barrel' '42 of 68 joints through, 26 left, joint 26 next' \
	'best 4 h 20 min, likely 5 h 47 min' 'pull 7500 to 25200 lbf' 'returns  full, last said at joint 27' \
	'2: its record lacks who was told and when, what was done' '3 joints, 120.4' 'waits: pass 3 is not ended'
[[ $OUT != *"corridor "*%* && $OUT != *inclination* ]] || fail "the pilot's points are still there: $OUT"
# joint 26 is entered next: the tool is where joint 27 began, at its reading's side of the rig
gives 0 handover "$JOB" --pdf "$HERE/handover.pdf" --by 'A. Lund'
# shellcheck disable=SC2034
OUT=$(pdftotext -layout "$HERE/handover.pdf" - | tr -s ' \n' ' ')
says 'Tern Slough, opening the hole' 'page 1 of 1' 'Time left best' 'What the rig showed pull' 'Releases 2: its record lacks' \
	'Edited, accepted struck out at joint 68' 'handed over by'
page "$HERE/pilot.bore"
says 'Tern Slough, pilot bore' 'corridor'

# ---- the day's report ----

gives 0 day "$JOB" --json --by 'A. Lund'
no_warning
is "$(json '$.passes[1].pass') $(json '$.passes[1].joints') $(json '$.passes[1].first') $(json '$.passes[1].last')" '2 68 68 1' \
	"joints of pass 2 on the day"
is "$(json '$.passes[2].joints') $(json '$.passes[2].torque.low') $(json '$.passes[2].torque.unit')" '42 4700 ft lbf' "of pass 3"
is "$(json '$.fluid[1].kind') $(json '$.string.joints') $(json '$.string.records') $(json '$.string.bad')" 'release 3 1 0' \
	"fluid and string"
is "$(json_sql "SELECT json_type(j, '$.pull') FROM o")" null "a pull that has not begun"
gives 0 day "$JOB" --by 'A. Lund'
says 'Passes and pull of this day' 'pass 3  swab of 30 in to the entry, barrel: 42 joints (68 to 27)' '9300 to' 'What the drilling fluid did on this day' 'west of the levee' \
	'Pipe string on this day' '3 joints, 120.4 ft'
gives 0 day "$HERE/pilot.bore" --by 'A. Lund'
[[ $OUT != *"of this day"*pass* && $OUT != *"Pipe string"* ]] || fail "a pilot's day tells of passes: $OUT"

# ---- maps: a release is a point on the ground over the line, with its record ----

gives 0 export "$JOB" gpkg "$HERE/t.gpkg" --by 'E. Hale'
ogr2ogr -f CSV "$HERE/releases.csv" "$HERE/t.gpkg" releases -lco GEOMETRY=AS_XYZ
# Station 812 of 2100 along a straight alignment, and the ground between -3.4 at 7+90 and -5.2 at 8+70.
is "$(sqlite3 -batch :memory: -cmd ".import --csv $HERE/releases.csv r" "SELECT printf('%.1f %.1f %.2f %s %s %s', X, Y, Z,
	volume + 0, receiving, missing) FROM r")" \
	"$(awk 'BEGIN { t = 812 / 2100; printf "%.1f %.1f %.2f", 655412.30 + t * 1848.577, 1566208.75 - t * 997.438,
		-3.4 - 1.8 * 22 / 80 }') 300 wetland who was told and when, what was done" "the release on the map"
# Of the pilot, and no station said: over the bit.
gives 0 fluid "$HERE/pilot.bore" release --place 'at the drain' --by 'A. Lund'
gives 0 export "$HERE/pilot.bore" gpkg "$HERE/p.gpkg" --by 'E. Hale'
ogr2ogr -f CSV "$HERE/over.csv" "$HERE/p.gpkg" releases -lco GEOMETRY=AS_XYZ
# The bit is 10.58 ft past the end of the design at 2100; the ground there between 42.0 at 21+00 and 42.2 at 21+60.
is "$(sqlite3 -batch :memory: -cmd ".import --csv $HERE/over.csv r" "SELECT printf('%.1f %.2f %s', X, Z, place) FROM r")" \
	"$(awk 'BEGIN { printf "%.1f %.2f", 655412.30 + 2110.58 / 2100 * 1848.577, 42 + 0.2 * 10.58 / 60 }') at the drain" \
	"a release over the bit"
gives 0 export "$JOB" geojson "$HERE/t.geojson" --by 'E. Hale'
grep -q '"receiving": *"wetland"' "$HERE/t.geojson" || fail "no release in the GeoJSON"
gives 0 export "$JOB" dxf "$HERE/t.dxf" --by 'E. Hale'
grep -q 'release 2' "$HERE/t.dxf" || fail "no release in the DXF"

# ---- the sheet: graphs along the bore, and tables, behind the sheets ----

gives 0 export "$JOB" sheet "$HERE/tern.pdf" --by 'E. Hale'
gives 0 export "$HERE/pilot.bore" sheet "$HERE/pilot.pdf" --by 'E. Hale'
on_page() { # PAGE WORDS...
	local text words
	text=$(pdftotext -layout -f "$1" -l "$1" "$HERE/tern.pdf" - | tr -s ' \n' '  ')
	for words in "${@:2}"; do [[ $text == *"$words"* ]] || fail "page $1 lacks '$words': $text"; done
}
on_page 3 'ANNULAR PRESSURE, PILOT' 'ANNULAR PRESSURE, PASS 1' 'what the ground bears' 'estimated' 'measured' psi 'stations 0+00 2+00'
on_page 4 'ANNULAR PRESSURE, PASS 2' 'ANNULAR PRESSURE, PASS 3' 'swab of 30 in'
on_page 5 'ANNULAR PRESSURE, PULLING IN' 'PULL FORCE' 'its band' 'safe force of the contract, 180000 lbf' 'SHARES OF WHAT THE PIPE BEARS' \
	'tension and bending' 'all that is allowed' 'an estimate, for the engineer to verify' 'ENTRY = RIG SIDE' 'Sheet 5 of'
text=$(pdftotext -layout "$HERE/tern.pdf" - | tr -s ' \n' '  ')
for words in 'PASSES: pull in lbf' '13800 to 25200' 'RELEASES OF DRILLING FLUID' 'who was told and when, what was done'; do
	[[ $text == *"$words"* ]] || fail "the tables lack '$words'"
done
pdftotext "$HERE/pilot.pdf" - | grep -q 'PASSES\|PULL FORCE' && fail "the pilot's sheet tells of what has not begun"
# No word stands on another.
pdftotext -bbox -f 3 -l 6 "$HERE/tern.pdf" - | awk '
	/<page / { page++; n = 0 }
	/<word / {
		split($0, q, "\""); word = $0; sub(/^[^>]*>/, "", word); sub(/<.*/, "", word)
		x0 = q[2] + .2; y0 = q[4]; x1 = q[6] - .2; y1 = q[8]; dy = y1 - y0; y0 += dy * .3; y1 -= dy * .27
		for (i = 1; i <= n; i++)
			if (x0 < X1[i] && X0[i] < x1 && y0 < Y1[i] && Y0[i] < y1) { print "page " page + 2 ": " word " on " W[i]; bad = 1 }
		n++; X0[n] = x0; X1[n] = x1; Y0[n] = y0; Y1[n] = y1; W[n] = word
	}
	END { exit bad }' || fail "words stand on one another"

# ---- the pull, to its end ----

gives 0 fluid "$JOB" loss --station 900 --volume 150 --by 'A. Lund'
gives 0 fluid "$JOB" loss --station 905 --volume 50 --by 'A. Lund'
gives 0 fluid "$JOB" returns none --by 'A. Lund'
page "$JOB"
says 'returns  none, as last entered; 2 losses so far, 200 gal'

gives 0 pass "$JOB" joint --joint 26 --pull 9000 --by 'A. Lund'
gives 0 pass "$JOB" end --remarks 'swabbed well enough' --by 'A. Lund'
gives 0 pull "$JOB" begin --remarks 'letter 41' --by 'B. Hale'
page "$JOB"
says 'Tern Slough, the pull' '0 of 68 joints are out' 'station 21+10.6'
{
	echo joint,force,torque,started,ended
	for joint in {68..1}; do
		minute=$((360 + (68 - joint) * 12))
		printf '%d,%d,%d,%02d:%02d,%02d:%02d\n' "$joint" $((26000 + (68 - joint) * 1500)) $((3000 + joint)) \
			$((minute / 60)) $((minute % 60)) $(((minute + 10) / 60)) $(((minute + 10) % 60))
	done
} >"$HERE/pull.csv"
head -n 41 "$HERE/pull.csv" >"$HERE/first.csv"
gives 0 pull "$JOB" joint --read "$HERE/first.csv" --by 'A. Lund'
page "$JOB"
says '40 of 68 joints are out' '28 joints left: best' 'left     ' 'Joint 29: 84500 lbf' '40 joints so far' 'force 26000 to 84500 lbf'
gives 0 shift "$JOB" --begin 'Lund, Mbeki' --by 'A. Lund'
page "$JOB"
says 'Lund, Mbeki' 'pulled   0 joints in this shift'
{ sed -n 1p "$HERE/pull.csv"; sed -n '42,$p' "$HERE/pull.csv"; } >"$HERE/rest.csv"
gives 0 pull "$JOB" joint --read "$HERE/rest.csv" --by 'A. Lund'
gives 0 pull "$JOB" end --coating scratched --extra 25 --survey 'gyro run 7' --by 'A. Lund'
page "$JOB"
says 'all 68 joints are out' '28 joints in this shift' 'force 86000 to 126500 lbf'
gives 0 export "$JOB" report-text --by 'E. Hale'
says 'As-built report of the crossing' 'hole opened          ream of 24 in; ream of 36 in; swab of 30 in, ended early' \
	'The pull' 'why all the same' 'letter 41' '126500 lbf at joint 1' '70 % of it was used' 'gyro run 7' \
	'Measured beside estimated'
awk 'length > 80' "$HERE/.out" | grep -q . && fail "the report has a line over 80 columns"
grep -qE '^ +1 +0\+00\.00 +126500 +[0-9]+ +[0-9]+ +[0-9]+ within' "$HERE/.out" || fail "the last joint of the pull is not beside its estimate"
gives 0 export "$JOB" sheet "$HERE/tern.pdf" --replace --by 'E. Hale'
on_page 5 'measured at the rig'
pdftotext -layout "$HERE/tern.pdf" - | grep -q 'THE PULL: forces in lbf' || fail "no table of the pull"
gives 0 day "$JOB" --json --by 'A. Lund'
is "$(json '$.pull.joints') $(json '$.pull.first') $(json '$.pull.force.high')" '68 68 126500' "the day's pull"

# A rehearsal is marked on all of it.
gives 0 rehearse "$HERE/practice.bore" --sheet $TERN --seed 7
gives 0 log "$HERE/practice.bore" --inclination 79 --azimuth 101.7 --reason 'to see the pages' --by 'A. Lund'
gives 0 pull "$HERE/practice.bore" begin --remarks 'to see the pages' --by 'A. Lund'
page "$HERE/practice.bore"
says REHEARSAL 'the pull'
gives 0 export "$HERE/practice.bore" report-text --by 'E. Hale'
says 'REHEARSAL' 'The pull'
gives 0 export "$HERE/practice.bore" sheet "$HERE/practice.pdf" --by 'E. Hale'
pdftotext -layout "$HERE/practice.pdf" - | grep -q 'PULL FORCE' || fail "no graph of the pull of a rehearsal"
for ((n = 1; n <= $(pdfinfo "$HERE/practice.pdf" | awk '/^Pages/ { print $2 }'); n++)); do
	is "$(pdftotext -bbox -f "$n" -l "$n" "$HERE/practice.pdf" - | awk -F'"' '/<word/ && $6 - $2 > 50 && $8 - $4 > 50' |
		sed 's/.*>\(.*\)<.*/\1/' | grep -o . | sort -u | tr -d '\n')" AEHLRS "the letters across page $n of a rehearsal"
done
