#!/usr/bin/env bash
# sagbend export sheet, drawing: the plan-and-profile sheet, read by programs that are not ours: poppler's for the
# PDF (sizes, fonts, words, where they stand, ink on each page), libxml2's for the SVG.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

TERN=sample-data/tern-slough
KESTREL=sample-data/kestrel-road
JOB=$HERE/tern.bore
gives 0 new "$JOB" --sheet $TERN --by 'P. Ortega'
gives 0 new "$HERE/empty.bore" --sheet $TERN --by 'P. Ortega'
gives 0 import "$JOB" $TERN/surveys.csv --by 'A. Lund'
gives 0 withdraw "$JOB" --to-joint 33 --reason 'bend over joints 36 to 38 too tight' --by 'P. Ortega'
gives 0 import "$JOB" $TERN/surveys-redrill.csv --by 'A. Lund'
gives 0 new "$HERE/kestrel.bore" --sheet $KESTREL --by 'P. Ortega'
gives 0 import "$HERE/kestrel.bore" $KESTREL/surveys.csv --by 'A. Lund'

# sheet NAME [OPTIONS...]: NAME.bore as NAME.pdf, its words as NAME.txt.
sheet() {
	gives 0 export "$HERE/$1.bore" sheet "$HERE/$1.pdf" --replace --by 'E. Hale' "${@:2}"
	no_words
	no_warning
	pdftotext -layout "$HERE/$1.pdf" "$HERE/$1.txt"
}
# pages NAME: how many there are.
pages() { pdfinfo "$HERE/$1.pdf" | awk '/^Pages/ { print $2 }'; }
# on_page NAME PAGE WORDS...: each stands on that page.
on_page() {
	local text words
	text=$(pdftotext -layout -f "$2" -l "$2" "$HERE/$1.pdf" - | tr -s ' \n' '  ')
	for words in "${@:3}"; do
		[[ $text == *"$words"* ]] || fail "$1, page $2 lacks '$words': $text"
	done
}

# What every page carries; none is blank; every letter is embedded.
well_made() {
	local page count ink
	count=$(pages "$1")
	for page in $(seq "$count"); do
		on_page "$1" "$page" 'ENTRY = RIG SIDE; the product pipe enters at the exit.' \
			'does not replace locating and exposing utilities' "Sheet $page of $count" 'Prepared by E. Hale' \
			"Contractor's surveyor" Engineer Signature Revision 'Entry, rig side' Declination Convergence \
			Method Instrument
	done
	is "$(pdffonts "$HERE/$1.pdf" | tail -n +3 | grep -vc ' yes yes yes ')" 0 "fonts that are not embedded in $1"
	pdftoppm -r 20 -gray "$HERE/$1.pdf" "$HERE/ink"
	for page in "$HERE"/ink-*.pgm; do
		ink=$(tail -c +16 "$page" | tr -d '\377' | wc -c)
		[ "$ink" -gt 4000 ] || fail "$page of $1 is blank but for $ink dots"
	done
	rm -f "$HERE"/ink-*
}

# No word stands on another. Poppler's boxes reach from ascent to descent: the letters fill the middle of them.
# The letters across the page of a rehearsal lie under everything.
apart() {
	pdftotext -bbox "$HERE/$1.pdf" - | awk -v name="$1" '
		/<page / { page++; n = 0 }
		/<word / {
			split($0, q, "\""); word = $0; sub(/^[^>]*>/, "", word); sub(/<.*/, "", word)
			x0 = q[2]; y0 = q[4]; x1 = q[6]; y1 = q[8]; dx = x1 - x0; dy = y1 - y0
			if (dx > 50 && dy > 50) next
			if (dx >= dy) { y0 += dy * .3; y1 -= dy * .27; x0 += .2; x1 -= .2 }
			else { x0 += dx * .3; x1 -= dx * .27; y0 += .2; y1 -= .2 }
			for (i = 1; i <= n; i++)
				if (x0 < X1[i] && X0[i] < x1 && y0 < Y1[i] && Y0[i] < y1) {
					print name ", page " page ": \"" word "\" stands on \"" W[i] "\""
					bad = 1
				}
			n++; X0[n] = x0; X1[n] = x1; Y0[n] = y0; Y1[n] = y1; W[n] = word
		}
		END { exit bad }' || fail "words stand on one another"
}

# A job in feet: sheets of 11 by 17 inches with a match line, and the tables.
sheet tern
is "$(pdfinfo -f 1 -l 9 "$HERE/tern.pdf" | grep -c 'size: *1224 x 792 pts')" "$(pages tern)" "pages of 11 x 17 inches"
well_made tern
apart tern
on_page tern 1 'Tern Slough' 'Harrow Bend Gas District' 'Lattimer Crossings' 'PLAN 1 in = 80 ft (1:960)' \
	'PROFILE along 1 in = 80 ft (1:960), up 1 in = 50 ft (1:600)' 'ENTRY, rig side' 'water main' 'telephone duct' \
	'old dock pile A' 'match line 11+00, see sheet 2' '5+00' 'grid north' EPSG:2992 NAVD88 'minimum curvature' \
	'PC 2+10.44 el -2.41' 'R 2400 ft' HEIGHT OFFSET RADIUS cover 'cover 6 ft' 'cover 20 ft' 'as drilled' 'stations 0+00 to 11+00'
on_page tern 2 'match line 11+00, see sheet 1' 'EXIT, pipe side' 'levee sheet wall' 'storm drain' \
	'leg 1: joints 34 to 38 withdrawn'
digest=$(sql "$JOB" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')
on_page tern 3 NOTES "$digest" NON-CONFORMANCES 'the radius is 1314 ft' 'redrilled: leg 2' 'WITHDRAWN AND REDRILLED' \
	'bend over joints 36 to 38 too tight' 'OBSTACLES, AS DRILLED: clear of the wall of the final hole' 'old dock pile B' \
	'below and left of'
grep -q 'None: nothing but the readings says where the hole is.' "$HERE/tern.txt" || fail "no fixes are not said"
# Joint 10 at 2+74.14, -13.49: the ground falls from 37.6 at 1+90 to 37.1 at 3+00, so 37.22 there; the top of the final
# hole is 1.5 ft over the centre line, square to it, and that falls by 9.5 degrees: 50.71 - 1.5 / cos 9.5 deg.
grep -q '^ *10 1 311.53 .* 2+74.14 0.00 -13.49 .* 49.19 *$' <(tr -s ' ' <"$HERE/tern.txt") || fail "joint 10 has no cover of 49.19"

# Every joint's figures under the profile, and all of its row in the tables: as the CSV has them.
gives 0 export "$JOB" csv "$HERE/tern.csv" --by 'E. Hale'
sqlite3 -batch :memory: -cmd '.mode list' -cmd '.separator " "' ".import --csv $HERE/tern.csv t" \
	"SELECT joint, leg, printf('%.2f', bit_depth), printf('%.2f', survey_depth), inclination, azimuth,
		printf('%d+%05.2f', CAST(round(station, 2) / 100 AS INTEGER), round(station, 2) % 100 + round(station, 2) - CAST(round(station, 2) AS INTEGER)),
		printf('%.2f', elevation), printf('%.2f', northing), printf('%.2f', easting) FROM t
	WHERE station <> '' AND standing IN ('path', 'withdrawn')" >"$HERE/rows"
[ "$(wc -l <"$HERE/rows")" -gt 60 ] || fail "the CSV has few rows: $(<"$HERE/rows")"
tr -s ' ' <"$HERE/tern.txt" >"$HERE/words"
while read -r joint leg depth reading inclination azimuth station elevation northing easting; do
	grep -q "^ *$joint $leg $depth $reading $inclination $azimuth $station .* $elevation .* $northing $easting " \
		"$HERE/words" || fail "joint $joint/$leg at $station, $elevation, $northing, $easting is not in the table"
done <"$HERE/rows"

# Metres: one sheet of A3 for a curved line; other paper when it is asked for.
sheet kestrel
is "$(pdfinfo -f 1 -l 9 "$HERE/kestrel.pdf" | grep -c '(A3)')" "$(pages kestrel)" "pages of A3"
well_made kestrel
apart kestrel
on_page kestrel 1 'PLAN 1:1250' 'along 1:1250, up 1:250: heights are drawn 5 times as large' 'R 400 m' 'PC 1+40.89' \
	'PT 2+38.63' '6 m right: weir sheet piles' 'sewer DN 800' 'EXIT, pipe side' 'The pilot has not been accepted.'
on_page kestrel 2 'None: no limit was broken.'
on_page kestrel 3 'DESIGN, ALIGNMENT' '1+40.89 2+38.63 curve to the right 400.00 36.2000 deg 50.2001 deg' 'DESIGN, PROFILE' \
	'0+14.34 0+74.82 curve upwards 250.00 17.83 10.40 -14.00 deg 0.00 deg'
sheet kestrel --paper a1
pdfinfo "$HERE/kestrel.pdf" | grep -q '2383.94 x 1683.78 pts (A1)' || fail "the paper is not A1"
on_page kestrel 1 'Paper A1' 'PLAN 1:750'
refuses 64 "'A9' is not a size of paper. There is: A3, A2, A1, 11x17, 22x34." export "$HERE/kestrel.bore" sheet --paper A9

refuses 64 '--paper goes with the formats sheet and drawing.' export "$HERE/kestrel.bore" csv --paper A3

# Numbers of three digits fit, and short joints leave some figures out rather than put them on one another.
cp -r $KESTREL "$HERE/short"
sed -i 's/^joint_length = .*/joint_length = 1.5/; s/^tally = .*//' "$HERE/short/job.ini"
gives 0 new "$HERE/short.bore" --sheet "$HERE/short" --by 'P. Ortega'
{ echo joint_length,inclination,azimuth; yes 1.50,-14.0,32.7 | head -n 130; } >"$HERE/short.csv"
gives 0 import "$HERE/short.bore" "$HERE/short.csv" --by 'A. Lund' --reason 'made up'
sheet short
apart short
numbers=$(for page in $(seq "$(pages short)"); do
	pdftotext -bbox -f "$page" -l "$page" "$HERE/short.pdf" "$HERE/page"
	! grep -q '>PROFILE</word>' "$HERE/page" || grep '>1[0-3][0-9]</word>' "$HERE/page"
done | sed 's/.*>\(1..\)<.*/\1/' | sort -u | wc -l)
[ "$numbers" -ge 20 ] || fail "of joints 100 to 130 only $numbers have their numbers"

# Nothing drilled yet: the design, and nothing that is not there.
sheet empty
well_made empty
apart empty
on_page empty 1 'not drilled yet' 'ENTRY, rig side'
! grep -q withdrawn\ leg "$HERE/empty.txt" || fail "a leg of a bore that is not begun"

# A rehearsal says so across every page, and in its name.
gives 0 rehearse "$HERE/practice.bore" --sheet $KESTREL
sheet practice
apart practice
for page in $(seq "$(pages practice)"); do
	on_page practice "$page" 'REHEARSAL Kestrel Road'
	is "$(pdftotext -bbox -f "$page" -l "$page" "$HERE/practice.pdf" - | awk -F'"' '/<word/ && $6 - $2 > 50 && $8 - $4 > 50' |
		sed 's/.*>\(.*\)<.*/\1/' | grep -o . | sort -u | tr -d '\n')" AEHLRS "the letters across page $page"
done

# SVG: one drawing, well formed, with a title, as high as its pages and what lies between them.
gives 0 export "$HERE/kestrel.bore" drawing "$HERE/kestrel.svg" --by 'E. Hale'
no_warning
xmllint --noout --nonet "$HERE/kestrel.svg" || fail "not well formed"
is "$(xmllint --xpath 'string(/*/*[local-name()="title"])' "$HERE/kestrel.svg")" \
	'Kestrel Road: pilot bore, plan and profile' "the title"
is "$(xmllint --xpath 'round(number(substring-before(/*/@height, "pt")) div 72 * 25.4)' "$HERE/kestrel.svg")" \
	$((4 * 297 + 3 * 5)) "the height, mm"
grep -o 'href="#[^"]*"' "$HERE/kestrel.svg" | sed 's/href="#\(.*\)"/\1/' | sort -u >"$HERE/used"
grep -o ' id="[^"]*"' "$HERE/kestrel.svg" | sed 's/ id="\(.*\)"/\1/' | sort -u >"$HERE/there"
is "$(comm -23 "$HERE/used" "$HERE/there" | wc -l)" 0 "names that nothing has"

# A file that is there stays as it is; a full disk, a closed pipe, a folder are said, and nothing stays.
echo precious >"$HERE/there.pdf"
refuses 73 'is there already' export "$JOB" sheet "$HERE/there.pdf"
is "$(<"$HERE/there.pdf")" precious "the file that was there"
refuses 73 'no room' export "$JOB" sheet /dev/full
refuses 73 'no room' export "$JOB" drawing /dev/full
refuses 65 'is a folder' export "$JOB" sheet "$HERE"
before=$(find "$HERE" | wc -l)
(
	ulimit -f 8
	"$SAGBEND" export "$JOB" sheet "$HERE/limited.pdf" >/dev/null 2>"$HERE/err"
)
is $? 73 "status at a size limit"
is "$(find "$HERE" -not -name err | wc -l)" "$before" "files after a failure"

# To standard output as it is, but not to a terminal.
script -qec "\"$SAGBEND\" export \"$JOB\" sheet" /dev/null >"$HERE/screen" </dev/null
is $? 64 "status at a terminal"
grep -q "sheet is no text, and this is a terminal. Give a file: NAME.pdf." "$HERE/screen" || fail "a terminal got $(head -c 200 "$HERE/screen")"
"$SAGBEND" export "$JOB" sheet --by 'E. Hale' >"$HERE/.out"
head -c 5 "$HERE/.out" | grep -q '^%PDF-' || fail "no PDF on standard output"
