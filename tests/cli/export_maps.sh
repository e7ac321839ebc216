#!/usr/bin/env bash
# sagbend export geojson, gpkg, dxf, dxf-profile, landxml, stations: read by programs that nobody here wrote (GDAL,
# libxml2's xmllint, PROJ's cs2cs, SQLite, Gnumeric), and held against the path as CSV.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# The sample crossing with a leg that was pulled back, on a real grid (EPSG:2992, international feet).
SHEET=sample-data/tern-slough
JOB=$HERE/tern.bore
gives 0 new "$JOB" --sheet "$SHEET" --by P
gives 0 import "$JOB" "$SHEET/surveys.csv" --by A
gives 0 withdraw "$JOB" --to-joint 33 --reason bend --by P
gives 0 import "$JOB" "$SHEET/surveys-redrill.csv" --by A
gives 0 fix "$JOB" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --remarks 'points "3" & <4>' --by S
for format in geojson gpkg dxf dxf-profile landxml stations; do
	gives 0 export "$JOB" $format "$HERE/t.$format" --by 'E. Engel'
	no_words
	no_warning
done
"$SAGBEND" path "$JOB" --csv --all-legs >"$HERE/path.csv"
sed 1d "$HERE/path.csv" | tr -d '\r' >"$HERE/rows.csv"
LAST=$(tail -n 1 "$HERE/rows.csv")
# the columns of `path --csv`: 1 joint, 2 leg, 7 station, 9 elevation, 11 northing, 12 easting
col() { cut -d, -f"$1" <<<"$LAST"; }
PRESENT=$(sql "$JOB" 'SELECT count(*) FROM path WHERE superseded = 0 AND on_path')

# ---- GeoPackage
g="$HERE/t.gpkg"
is "$(sqlite3 -readonly "$g" 'PRAGMA application_id; PRAGMA user_version; PRAGMA integrity_check; PRAGMA foreign_key_check' |
	tr '\n' ' ')" '1196444487 10300 ok ' "the file's own word"
ogrinfo -so "$g" >"$HERE/info" 2>&1 || fail "ogrinfo: $(<"$HERE/info")"
grep -qi 'warning\|error' "$HERE/info" && fail "ogrinfo: $(<"$HERE/info")"
is "$(sed -n 's/^[0-9]*: \([a-z]*\) .*/\1/p' "$HERE/info" | tr '\n' ' ')" \
	'path joints design corridor ground obstacles fixes nonconformances releases about ' "the layers"
ogrinfo -so "$g" joints | grep -q 'ID\["EPSG",2992\]' || fail "the system of the joints is not EPSG:2992"
is "$(ogrinfo -so "$g" joints | sed -n 's/^Feature Count: //p')" "$(wc -l <"$HERE/rows.csv")" "joints"
# geometry and attributes of every joint against the path's own row
ogr2ogr -f CSV "$HERE/joints.csv" "$g" joints -lco GEOMETRY=AS_XYZ
sqlite3 -batch :memory: -cmd ".import --csv $HERE/joints.csv g" -cmd ".import --csv $HERE/path.csv p" \
	"SELECT count(*) FROM p JOIN g ON g.joint + 0 = p.joint + 0 AND g.leg + 0 = p.leg + 0 WHERE
	p.easting = '' AND g.X = '' OR abs(g.X - p.easting) < 1e-6 AND abs(g.Y - p.northing) < 1e-6 AND
	abs(g.Z - p.elevation) < 1e-6 AND abs(g.station - p.station) < 1e-6 AND abs(g.offset - p.offset) < 1e-6 AND
	g.inclination + 0 = p.inclination + 0 AND abs(g.radius_window - p.radius_window) < 1e-5" >"$HERE/same"
is "$(<"$HERE/same")" "$(wc -l <"$HERE/rows.csv")" "joints that are as the CSV has them"
is "$(ogrinfo -q "$g" -sql "SELECT who, words FROM fixes" | grep -c 'points "3" & <4>')" 1 "the fix's words"
is "$(sqlite3 -readonly "$g" "SELECT disposition || ' ' || kind FROM nonconformances")" 'redrilled window-bend' \
	"the non-conformance"
sqlite3 -readonly "$g" "SELECT words FROM about WHERE key = 'caution'" | grep -q 'does not replace' || fail "no caution"
is "$(sqlite3 -readonly "$g" "SELECT count(*) FROM joints WHERE accuracy_horizontal > 0 AND accuracy_percent = 95")" \
	"$(($(sqlite3 -readonly "$g" 'SELECT count(geom) FROM joints') - 1))" "joints that say how sure they are"

# how the bore passes each obstacle: as `clearance` says it
gives 0 clearance "$JOB" --json
is "$(sqlite3 -readonly "$g" "SELECT group_concat(name || ' ' || printf('%.6f %d %.6f %s', kept, kept_joint, kept_chance, kept_level), '; ') FROM obstacles")" \
	"$(json_sql "SELECT group_concat(json_extract(value, '\$.name') || ' ' || printf('%.6f %d %.6f %s', json_extract(value, '\$.drilled.clearance'),
	json_extract(value, '\$.drilled.joint'), json_extract(value, '\$.drilled.chance_of_less'), json_extract(value, '\$.drilled.level')), '; ')
	FROM o, json_each(j, '\$.obstacles')")" "the clearances that were kept"
is "$(sqlite3 -readonly "$g" 'SELECT count(*) FROM obstacles WHERE kept > 0 AND kept_accuracy > 0')" \
	"$(sqlite3 -readonly "$g" 'SELECT count(*) FROM obstacles')" "obstacles with a clearance"

# ---- GeoJSON, against PROJ's own program
j="$HERE/t.geojson"
is "$(ogrinfo -so -al "$j" | sed -n 's/^Feature Count: //p')" \
	"$(sqlite3 -readonly "$g" 'SELECT (SELECT count(*) FROM path) + (SELECT count(*) FROM joints) + (SELECT count(*) FROM design) +
	(SELECT count(*) FROM corridor) + (SELECT count(*) FROM ground) + (SELECT count(*) FROM obstacles) +
	(SELECT count(*) FROM fixes) + (SELECT count(*) FROM nonconformances)')" "features"
cp "$j" "$HERE/.out"
is "$(json_sql 'SELECT json_valid(j) FROM o')$(json '$.type')$(json '$.crs')" 1FeatureCollection "what RFC 7946 allows"
point=$(json_sql "SELECT json_extract(value, '\$.geometry.coordinates[0]') || ' ' || json_extract(value, '\$.geometry.coordinates[1]')
	FROM o, json_each(j, '\$.features') WHERE json_extract(value, '\$.properties.layer') = 'joints' AND
	json_extract(value, '\$.properties.joint') = $(col 1) AND json_extract(value, '\$.properties.leg') = $(col 2)")
world=$(echo "$(col 12) $(col 11)" | cs2cs -f %.9f EPSG:2992 +to EPSG:4326 | tr '\t' ' ')
about "${point% *}" "$(cut -d' ' -f2 <<<"$world")" 1e-7 "the last joint's longitude"
about "${point#* }" "$(cut -d' ' -f1 <<<"$world")" 1e-7 "the last joint's latitude"
about "$(json_sql "SELECT json_extract(value, '\$.properties.elevation') FROM o, json_each(j, '\$.features') WHERE
	json_extract(value, '\$.properties.joint') = $(col 1) AND json_extract(value, '\$.properties.leg') = $(col 2)")" \
	"$(col 9)" 1e-6 "its elevation"

# ---- DXF: one polyline with a vertex a joint, its end the table's last row
d="$HERE/t.dxf"
line=$(ogrinfo -q -al "$d" -where "Layer = 'DRILLED'" 2>/dev/null | grep LINESTRING)
is "$(tr -cd , <<<"$line" | wc -c)" "$((PRESENT - 1))" "gaps between the vertices of the bore"
end=${line##*,} end=${end%)}
about "$(cut -d' ' -f1 <<<"$end")" "$(col 12)" 5e-5 "easting of its end"
about "$(cut -d' ' -f2 <<<"$end")" "$(col 11)" 5e-5 "northing of its end"
about "$(cut -d' ' -f3 <<<"$end")" "$(col 9)" 5e-5 "elevation of its end"
is "$(ogrinfo -q -al "$d" | sed -n 's/.*Layer (String) = //p' | sort -u | tr '\n' ' ')" \
	'CORRIDOR DESIGN DRILLED FIXES GROUND JOINTS NONCONFORMANCES NOTES OBSTACLES WITHDRAWN ' "layers of the drawing"
grep -q 'international feet, grid EPSG:2992' "$d" || fail "the drawing does not say its unit and grid"
grep -q 'does not replace' "$d" || fail "no caution"
LC_ALL=C grep -q '[^ -~]' <(tr -d '\r' <"$d") && fail "not ASCII"
is "$(tr -d '\r' <"$d" | awk 'NR % 2 && $0 !~ /^[0-9]+$/' | wc -l)" 0 "lines that should be a group code"
# the profile says how much larger its heights are
cp "$HERE/t.dxf-profile" "$HERE/profile.dxf"
times=$(sed -n 's/.*elevation times \([0-9]*\),.*/\1/p' "$HERE/profile.dxf")
line=$(ogrinfo -q -al "$HERE/profile.dxf" -where "Layer = 'DRILLED'" | grep LINESTRING)
end=${line##*,} end=${end%)}
about "$(cut -d' ' -f1 <<<"$end")" "$(col 7)" 5e-5 "station of its end"
about "$(cut -d' ' -f2 <<<"$end")" "$(awk -v z="$(col 9)" -v t="$times" 'BEGIN { print z * t }')" 1e-3 "height of its end"

# ---- LandXML: by our statement of the schema's rules, and north before east
x="$HERE/t.landxml"
xmllint --noout --nonet --relaxng tests/support/landxml.rng "$x" 2>"$HERE/err" || fail "LandXML: $(<"$HERE/err")"
at() { xmllint --nonet --xpath "string(//*[local-name()='CgPoint'][@name='$1'])" "$x"; }
is "$(at "joint $(col 1)")" "$(col 11) $(col 12) $(col 9)" "the last joint: north, east, elevation"
is "$(xmllint --nonet --xpath "string(//*[local-name()='Imperial']/@linearUnit)" "$x")" foot "the foot"
is "$(xmllint --nonet --xpath "count(//*[local-name()='CgPoint'][@code='withdrawn'])" "$x")" \
	"$(sql "$JOB" 'SELECT count(*) FROM path WHERE superseded = 1 AND on_path')" "withdrawn joints"
sed 's/>\([-0-9.]*\) \([-0-9.]*\)</>\2 \1</g' "$x" >"$HERE/swapped.xml"
is "$(xmllint --nonet --xpath "string(//*[local-name()='Start'][1])" "$HERE/swapped.xml")" "655412.3 1566208.75" \
	"a file with easting first does not read the same"

# ---- stations: every 25 ft, on the arcs
is "$(awk -F, 'NR > 1 && $7 != "" { if ($7 != 25 * n++) bad++ } END { print bad + 0, (n > 80) }' "$HERE/t.stations")" '0 1' \
	"stations"
gives 0 export "$JOB" stations --every 500
is "$(awk -F, 'NR > 1 && $7 != "" { print $7 }' "$HERE/.out" | tr '\n' ' ')" '0 500 1000 1500 2000 ' "every 500"
gives 0 path "$JOB" --csv --every 500
is "$(cell 4 12)" "$("$SAGBEND" export "$JOB" stations --every 500 | awk -F, 'NR == 4 { print $12 }')" "the same as path"
gives 0 export "$JOB" json --every 500
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.station'), ' ') FROM o, json_each(j, '\$.stations')")" \
	"$(printf '%s ' 0 500 1000 1500 2000 | sed 's/ $//')" "every 500 in JSON"
third=$(json '$.stations[2].easting')
gives 0 path "$JOB" --json --every 500
is "$(json '$.rows[2].easting')" "$third" "the same as path"
refuses 64 '--every goes with the formats stations and json' export "$JOB" csv --every 5
refuses 65 'every' export "$JOB" stations --every 0
refuses 65 'every' export "$JOB" stations --every x

# ---- a spreadsheet reads the CSV as it was written, and the same numbers come out of it
gives 0 export "$JOB" csv "$HERE/log.csv"
ssconvert "$HERE/log.csv" "$HERE/again.csv" >/dev/null 2>"$HERE/err" || fail "ssconvert: $(<"$HERE/err")"
rows() { sqlite3 -batch :memory: -cmd ".import --csv $1 t" "SELECT count(*), sum(joint), round(sum(easting), 3),
	round(sum(elevation), 3), round(sum(inclination), 2), sum(remarks <> '') FROM t WHERE standing <> ''"; }
is "$(rows "$HERE/again.csv")" "$(rows "$HERE/log.csv")" "the spreadsheet's sums"

# ---- what cannot be
bore meadow 90/0 90/1
refuses 65 'local: nothing ties them to the earth' export "$HERE/meadow.bore" geojson
gives 0 export "$HERE/meadow.bore" gpkg "$HERE/m.gpkg"
is "$(sqlite3 -readonly "$HERE/m.gpkg" "SELECT DISTINCT srs_id FROM gpkg_geometry_columns")" -1 "the system of a local grid"
for format in geojson gpkg dxf dxf-profile landxml stations; do
	refuses 73 'is there already' export "$JOB" $format "$HERE/log.csv"
	refuses 73 'no room' export "$JOB" $format /dev/full
	gives 65 export "$JOB" $format "$HERE"
	warns 'is a folder'
done
