#!/usr/bin/env bash
# sagbend export: the whole log for other programs, whole or not at all.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

HEADER=joint,leg,bit_depth,survey_depth,inclination,azimuth,station,offset,elevation,height,northing,easting,dogleg,radius_joint,radius_window,corridor_share,sigma_along,sigma_across,sigma_up,chance_outside,shift_station,shift_offset,shift_height,cover,cover_least,clearance
bore meadow 90/0 90/6 95/6
JOB=$HERE/meadow.bore
gives 0 correct "$JOB" --joint 2 --azimuth 5.0 --remarks 'a "hard", long one' --reason 'misread' --by Bea
gives 0 withdraw "$JOB" --to-joint 2 --reason 'redrill' --by Bea
gives 0 log "$JOB" --inclination 90 --azimuth 5 --by Bea

# CSV: begins with the columns of path; every reading that was ever logged.
gives 0 export "$JOB" csv --by 'E. Engel'
no_warning
[[ $(head -1 "$HERE/.out") == "$HEADER",standing,* ]] || fail "the header: $(head -1 "$HERE/.out")"
cp "$HERE/.out" "$HERE/out.csv"
table() { sqlite3 -batch :memory: -cmd '.mode list' ".import --csv $HERE/out.csv t" "$1"; }
is "$(table "SELECT group_concat(joint || '/' || leg || ' ' || standing || ' ' || corrected || ' ' || azimuth, ', ')
	FROM t WHERE standing <> ''")" \
	'0/1 entry no 0, 1/1 path no 0, 2/1 replaced no 6, 2/1 path yes 5.0, 3/1 withdrawn no 6, 3/2 path no 5' "the rows"
is "$(table "SELECT remarks FROM t WHERE azimuth = '5.0'")" 'a "hard", long one' "quotes and commas"
is "$(table "SELECT group_concat(about_value, '; ') FROM t WHERE about IN ('job', 'exported_by', 'method', 'vertical_datum')")" \
	'Level Meadow; E. Engel; site; minimum curvature' "what it is about"
is "$(table "SELECT about_value FROM t WHERE about = 'file_digest'")" \
	"$(sql "$JOB" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')" "the digest"
table "SELECT about_value FROM t WHERE about = 'caution'" | grep -q 'does not replace' || fail "no caution"

# JSON
gives 0 export "$JOB" json
is "$(json_sql 'SELECT json_valid(j) FROM o')" 1 "valid JSON"
is "$(json_sql "SELECT count(*) FROM o, json_each(j, '\$.rows')")" 6 rows
grep -q 'does not replace' "$HERE/.out" || fail "no caution"

# To a file: new, or replaced when asked, and no other way.
gives 0 export "$JOB" csv "$HERE/to.csv" --by 'E. Engel'
no_words
no_warning
is "$(wc -l <"$HERE/to.csv")" "$(wc -l <"$HERE/out.csv")" "lines in the file"
echo precious >"$HERE/there.csv"
refuses 73 'is there already' export "$JOB" csv "$HERE/there.csv"
is "$(<"$HERE/there.csv")" precious "the file that was there"
gives 0 export "$JOB" csv "$HERE/there.csv" --replace
grep -q "^$HEADER" "$HERE/there.csv" || fail "the file was not replaced"
ln -s there.csv "$HERE/link.csv"
gives 0 export "$JOB" json "$HERE/link.csv" --replace
[ -L "$HERE/link.csv" ] || fail "a link was replaced, not what it points at"
head -c 1 "$HERE/there.csv" | grep -q '{' || fail "what the link points at was not replaced"
gives 65 export "$JOB" csv "$HERE"
warns 'is a folder'
refuses 66 'no such' export "$JOB" csv "$HERE/nowhere/a.csv"
refuses 73 'already' export "$JOB" csv "$JOB"
refuses 64 "'xls' is not a format. There is: csv, json" export "$JOB" xls
refuses 64 'FORMAT' export "$JOB"
refuses 64 'is empty' export "$JOB" csv ''

# A disk that is full, a limit on sizes: said, and no half a file stays.
gives 0 export "$JOB" json /dev/null
refuses 73 'no room' export "$JOB" csv /dev/full
before=$(find "$HERE" | wc -l)
(
	ulimit -f 1
	"$SAGBEND" export "$JOB" json "$HERE/limited.json" >/dev/null 2>"$HERE/err"
)
is $? 73 "status at a size limit"
grep -q 'larger than files may be\|no room\|full' "$HERE/err" || fail "the size limit is not said: $(<"$HERE/err")"
is "$(find "$HERE" -not -name err | wc -l)" "$before" "files after a failure"
