#!/usr/bin/env bash
# sagbend export, each format: a disk that fills up, a pipe that nobody reads, names that would be orders to the program
# that opens the file, and a rehearsal that must not pass for a bore.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

SHEET=sample-data/tern-slough
JOB=$HERE/tern.bore
FORMATS='csv json geojson gpkg dxf dxf-profile landxml stations'
gives 0 new "$JOB" --sheet "$SHEET" --by P
gives 0 import "$JOB" "$SHEET/surveys.csv" --by A

# The limit on the size of a file stands for the disk that fills up while it is written: what was there stays.
echo precious >"$HERE/there"
ls -A "$HERE" >"$HERE/.before"
for format in $FORMATS; do
	(
		ulimit -f 4
		"$SAGBEND" export "$JOB" "$format" "$HERE/there" --replace >/dev/null 2>"$HERE/.err"
	)
	is $? 73 "status of $format at a size limit"
	grep -q 'larger than files may be\|no room\|full' "$HERE/.err" || fail "$format at a size limit: $(<"$HERE/.err")"
	is "$(<"$HERE/there")" precious "what was there before $format"
done
is "$(ls -A "$HERE")" "$(<"$HERE/.before")" "the files in the folder after that"

# A reader that goes away is no crash and no silence.
for format in $FORMATS; do
	{
		"$SAGBEND" export "$JOB" "$format" 2>"$HERE/.err"
		echo $? >"$HERE/.status"
	} | true
	[ "$(<"$HERE/.status")" -lt 128 ] || fail "$format into a closed pipe ends with $(<"$HERE/.status")"
	"$SAGBEND" export "$JOB" "$format" 2>"$HERE/.err" >&-
	is $? 73 "status of $format with no standard output"
	grep -q '^sagbend: ' "$HERE/.err" || fail "$format says nothing without standard output"
done

# Names that are orders elsewhere: XML, SQL, a formula, JSON, DXF's control codes, a terminal's.
HOSTILE='=HYPERLINK("x")]]><Line a="1"/> & '\''); DROP TABLE joints;-- %%d %s é'
cp -r "$SHEET" "$HERE/sheet"
HOSTILE=$HOSTILE awk '/^name = / { print "name = " ENVIRON["HOSTILE"]; next } 1' "$SHEET/job.ini" >"$HERE/sheet/job.ini"
NAME='=1+1, "<x> & \U+0041 %%c'
NAME=${NAME//\"/\"\"} awk -F, 'BEGIN { OFS = "," } $1 == "telephone duct" { $1 = "\"" ENVIRON["NAME"] "\"" } 1' "$SHEET/obstacles.csv" \
	>"$HERE/sheet/obstacles.csv"
H=$HERE/hostile.bore
gives 0 new "$H" --sheet "$HERE/sheet" --by P
gives 0 import "$H" "$SHEET/surveys.csv" --by '<b>"A" & %%u'
for format in $FORMATS; do gives 0 export "$H" "$format" "$HERE/h.$format" --by '</E> "Engel"'; done
is "$(xmllint --nonet --xpath "string(//*[local-name()='Project']/@name)" "$HERE/h.landxml")" "$HOSTILE" "the job in LandXML"
xmllint --noout --nonet --relaxng tests/support/landxml.rng "$HERE/h.landxml" 2>"$HERE/.err" || fail "LandXML: $(<"$HERE/.err")"
cp "$HERE/h.geojson" "$HERE/.out"
is "$(json '$.name')" "$HOSTILE" "the job in GeoJSON"
cp "$HERE/h.json" "$HERE/.out"
is "$(json_sql 'SELECT json_valid(j) FROM o')" 1 "JSON"
g="$HERE/h.gpkg"
is "$(sqlite3 -readonly "$g" "SELECT words FROM about WHERE key = 'job'")" "$HOSTILE" "the job in the GeoPackage"
is "$(ogrinfo -q "$g" -sql 'SELECT name FROM obstacles' | grep -cF "$NAME")" 1 "the obstacle in it"
for format in dxf dxf-profile; do
	cp "$HERE/h.$format" "$HERE/drawing.dxf"
	"$SAGBEND" export "$JOB" "$format" >"$HERE/.t"
	is "$(tr -d '\r' <"$HERE/drawing.dxf" | awk 'NR % 2' | sort | uniq -c | sha256sum)" \
		"$(tr -d '\r' <"$HERE/.t" | awk 'NR % 2' | sort | uniq -c | sha256sum)" "the group codes of $format"
	ogrinfo -q -al "$HERE/drawing.dxf" >"$HERE/.info" 2>&1 || fail "GDAL and $format: $(head -2 "$HERE/.info")"
	LC_ALL=C grep -q '[^ -~]' <(tr -d '\r' <"$HERE/drawing.dxf") && fail "$format is not ASCII"
done
for format in csv stations; do
	sqlite3 -batch :memory: -cmd ".import --csv $HERE/h.$format t" "SELECT about_value FROM t WHERE about = 'job'" >"$HERE/.cell"
	is "$(<"$HERE/.cell")" "'$HOSTILE" "the job as a cell of $format, no formula"
done

# A rehearsal says so in each.
gives 0 rehearse "$HERE/practice.bore" --sheet "$SHEET"
for format in $FORMATS; do
	gives 0 export "$HERE/practice.bore" "$format" "$HERE/p.$format"
	grep -qa REHEARSAL "$HERE/p.$format" || fail "$format does not say that it is a rehearsal"
done
