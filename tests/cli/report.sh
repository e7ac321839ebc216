#!/usr/bin/env bash
# sagbend export JOB report, report-text: the as-built report, as pages and as text. The pages are read by poppler's
# programs, the figures held against those of `path`.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# The words of a page, or of all.
page() { pdftotext -layout -f "$2" -l "$2" "$1" -; }
pages() { pdfinfo "$1" | awk '/^Pages:/ { print $2 }'; }

# Every page has its head and foot, words, embedded fonts, a size, and no heading at its end.
# pages_hold FILE RUNNING_HEAD WIDTH
pages_hold() {
	local n i words
	n=$(pages "$1")
	for ((i = 1; i <= n; i++)); do
		words=$(page "$1" "$i")
		[[ $words == *"$2"* ]] || fail "page $i of $1 lacks its head: $words"
		[[ $words == *"page $i of $n"* ]] || fail "page $i of $1 is not numbered: $words"
		[ "$(wc -w <<<"$words")" -gt 30 ] || fail "page $i of $1 is all but blank: $words"
		grep -v '^ *$' <<<"$words" | tail -2 | head -1 | grep -qE '^ *[0-9]+\. [A-Z]' &&
			fail "page $i of $1 ends in a heading: $words"
	done
	pdffonts "$1" | awk 'NR > 2 && !/yes +(yes|no) +yes/ { print; bad = 1 } END { exit bad || NR < 4 }' ||
		fail "a font of $1 is not embedded, or has no letters: $(pdffonts "$1")"
	is "$(pdfinfo "$1" | awk '/^Page size:/ { print int($3) }')" "$3" "width of $1"
}

# The figures of the tables are those of the path. figures_hold TEXT CSV
figures_hold() {
	awk -F'[ ]+' -v csv="$2" '
		function near(a, b, d) { return a - b <= d && b - a <= d }
		function signed(size, word) { return word == "left" || word == "low" ? -size : size + 0 }
		BEGIN {
			FS = ","
			while ((getline line < csv) > 0) {
				n = split(line, f, ",")
				if (f[1] ~ /^[0-9]+$/) { depth[f[1]] = f[4]; offset[f[1]] = f[8]; elev[f[1]] = f[9]; height[f[1]] = f[10]
					window[f[1]] = f[15]; east[f[1]] = f[12]; north[f[1]] = f[11]; up[f[1]] = f[19]; joints++ }
			}
		}
		/^[0-9]+\. / { part = $0 }
		{ n = split($0, w, /[ ]+/); if (w[1] == "") { for (i = 1; i < n; i++) w[i] = w[i + 1]; n-- } }
		part ~ /Position/ && w[1] ~ /^[0-9]+$/ && w[5] ~ /\+/ {
			at = 6; o = w[at++]; if (w[at] ~ /right|left/) o = signed(o, w[at++])
			e = w[at++]; h = w[at++]; if (w[at] ~ /high|low/) h = signed(h, w[at])
			if (!near(w[2], depth[w[1]], 0.0051) || !near(o, offset[w[1]], 0.0051) || !near(e, elev[w[1]], 0.0051) ||
				!near(h, height[w[1]], 0.0051)) { print "position: " $0; bad = 1 }
			positions++
		}
		part ~ /Coordinates/ && w[1] ~ /^[0-9]+$/ && n >= 8 {
			if (!near(w[2], east[w[1]], 0.0051) || !near(w[3], north[w[1]], 0.0051) || !near(w[7], up[w[1]], 0.0051)) {
				print "coordinates: " $0; bad = 1 }
			coordinates++
		}
		END { if (bad || positions < joints - 12 || coordinates != positions) { print positions " " coordinates " " joints; exit 1 } }
	' "$1" >"$HERE/figures" || fail "figures of $1: $(head -5 "$HERE/figures")"
}

# The long job: a leg withdrawn, a correction, fixes, an adjustment, an acknowledgement, a change, a repeat, a shift.
TERN=$HERE/tern.bore
gives 0 new "$TERN" --sheet sample-data/tern-slough --by 'P. Ortega'
gives 0 shift "$TERN" --begin 'Ortega, Lund, Mbeki' --by 'P. Ortega'
gives 0 import "$TERN" sample-data/tern-slough/surveys.csv --by 'A. Lund'
gives 0 acknowledge "$TERN" --kind corridor --reason 'deep enough there' --by 'P. Ortega'
gives 0 withdraw "$TERN" --to-joint 33 --reason 'bend over joints 36 to 38 too tight' --by 'P. Ortega'
gives 0 import "$TERN" sample-data/tern-slough/surveys-redrill.csv --by 'A. Lund'
gives 0 correct "$TERN" --joint 12 --inclination 82.2 --reason 'read again at rest' --by 'K. Mbeki'
gives 0 note "$TERN" 'bit out at the exit stake' --by 'A. Lund'
gives 0 fix "$TERN" --depth 1020 --kind coil --offset 0.4 --elevation -49.6 --sigma-across 0.5 --sigma-up 0.4 --by 'K. Mbeki'
gives 0 fix "$TERN" --depth 2123 --kind exit --station 2111.2 --offset 2.6 --elevation 41.9 --sigma-along 0.1 \
	--sigma-across 0.1 --sigma-up 0.1 --by 'K. Mbeki'
gives 0 adjust "$TERN" --take --reason 'agreed with the engineer' --by 'K. Mbeki'
gives 0 repeat "$TERN" --inclination 98.0 --azimuth 102.4 --by 'A. Lund'
gives 0 shift "$TERN" --end 'quiet' --by 'P. Ortega'
gives 0 path "$TERN" --csv
cp "$HERE/.out" "$HERE/tern.csv"
gives 0 export "$TERN" report-text "$HERE/tern.txt" --by 'E. Engel'
no_words
no_warning
run_on() { tr -s ' \n' '  ' <"$1"; }
# shellcheck disable=SC2034
OUT=$(run_on "$HERE/tern.txt")
says 'As-built report of the pilot bore: Tern Slough' 'crossing Tern Slough owner Harrow Bend Gas District' \
	'length drilled 2123.09 ft in 68 joints' 'withdrawn 5 joints on 1 leg; 2279.40 ft were drilled in all, on 2 legs' \
	'exit by land survey 11.20 ft long, 2.60 ft right and 0.10 ft low of the design' 'exit misclosure' 'once corrected' \
	'crews Ortega, Lund, Mbeki' 'non-conformances 1, of which 0 are open' 'redrilled' 'The pilot has not been accepted.' \
	'method minimum curvature' 'declination 14.64' 'convergence -1.80' 'vertical datum NAVD88' 'sensor to bit 32.5 ft' \
	'path corrected by' 'Independent fixes' 'What the proposed correction leaves' 'agreed with the engineer' 'in force' \
	'inclination: 82.1, now' 'deep enough there' 'bend over joints 36 to 38 too tight' 'shift begun' \
	'bit out at the exit stake' 'Readings that were taken again' '38/1' 'Clearance and cover' 'judged is the final hole' 'old dock pile A' 'cover nearest to what is asked for' \
	"$(sql "$TERN" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')" 'made by E. Engel' \
	'It does not replace locating and exposing utilities' 'the rig side' 'the product pipe enters here' 'engineer: seen' date
awk 'length > 80 || / $/ { print; bad = 1 } END { exit bad }' "$HERE/tern.txt" || fail "a line over 80 columns, or blanks at its end"
figures_hold "$HERE/tern.txt" "$HERE/tern.csv"

gives 0 export "$TERN" report "$HERE/tern.pdf" --by 'E. Engel'
no_words
no_warning
pages_hold "$HERE/tern.pdf" 'Tern Slough, Harrow Bend Gas District, as-built report' 612
is "$(pdfinfo "$HERE/tern.pdf" | sed -n 's/^Title: *//p')" 'As-built report of the pilot bore: Tern Slough' "its title"
# What the text says the pages say: every word of it, the lines aside.
pdftotext -layout "$HERE/tern.pdf" - | tr -s ' \n\f' '\n' | sort -u >"$HERE/words.pdf"
tr -s ' \n' '\n' <"$HERE/tern.txt" | grep -v '^[-=_]*$' | sort -u >"$HERE/words.txt"
is "$(comm -23 "$HERE/words.txt" "$HERE/words.pdf" | tr '\n' ' ')" '' "words of the text that the pages lack"
# A table that goes on has its heading again: on each page that has rows of the position.
for ((i = 1; i <= $(pages "$HERE/tern.pdf"); i++)); do
	page "$HERE/tern.pdf" "$i" >"$HERE/page"
	grep -qE '^ +[0-9]+ +[0-9.]+ +[0-9.]+ +[0-9.]+ +[0-9]+\+[0-9.]+ .*(right|left)' "$HERE/page" || continue
	grep -qE 'joint +depth +incl +azim +station +offset +elev +height' "$HERE/page" || fail "page $i has rows without their heading"
	seen=$((${seen:-0} + 1))
done
[ "${seen:-0}" -ge 2 ] || fail "the table of position is on ${seen:-0} pages"

# Metres are printed on A4.
KESTREL=$HERE/kestrel.bore
gives 0 new "$KESTREL" --sheet sample-data/kestrel-road --by R
gives 0 import "$KESTREL" sample-data/kestrel-road/surveys.csv --by R
gives 0 path "$KESTREL" --csv
cp "$HERE/.out" "$HERE/kestrel.csv"
gives 0 export "$KESTREL" report "$HERE/kestrel.pdf"
pages_hold "$HERE/kestrel.pdf" 'Kestrel Road' 595
gives 0 export "$KESTREL" report-text "$HERE/kestrel.txt"
figures_hold "$HERE/kestrel.txt" "$HERE/kestrel.csv"

# Nothing drilled yet is a report too.
job meadow
gives 0 export "$HERE/meadow.bore" report-text
says 'nothing was logged yet' 'None: no limit of the contract was broken' 'None was taken' 'None: the hole was drilled in one leg' \
	'None: every reading stands as it was first logged' 'No shift was begun and no note was written'
gives 0 export "$HERE/meadow.bore" report "$HERE/meadow.pdf"
pages_hold "$HERE/meadow.pdf" 'Level Meadow' 595

# Open, then accepted and signed.
bore bent 90/0 90/6 95/10 95/18
gives 0 export "$HERE/bent.bore" report-text
says 'FAIL both'
sed -n '/^2. Non-conf/,/^3. Accept/p' <<<"$OUT" | grep -q ' open$' || fail "no non-conformance is open: $OUT"

# A rehearsal says on every page that it is none of a hole.
gives 0 rehearse "$HERE/trial.bore" --sheet sample-data/tern-slough --seed 7
for _ in 1 2 3; do gives 0 log "$HERE/trial.bore" --inclination 79 --azimuth 101.7 --by Cy; done
gives 0 export "$HERE/trial.bore" report "$HERE/trial.pdf"
for ((i = 1; i <= $(pages "$HERE/trial.pdf"); i++)); do
	page "$HERE/trial.pdf" "$i" | grep -q REHEARSAL || fail "page $i of a rehearsal does not say so"
done
gives 0 export "$HERE/trial.bore" report-text
says 'REHEARSAL' 'drilled by simulation'
pdftotext "$HERE/tern.pdf" - | grep -q REHEARSAL && fail "a real bore is called a rehearsal"

# What goes wrong is said, and nothing is half there.
refuses 73 'is there already' export "$TERN" report "$HERE/tern.pdf"
refuses 73 'no room' export "$TERN" report /dev/full
refuses 73 'no room' export "$TERN" report-text /dev/full
gives 65 export "$TERN" report "$HERE"
warns 'is a folder'
before=$(find "$HERE" | wc -l)
(
	ulimit -f 8
	"$SAGBEND" export "$TERN" report "$HERE/limited.pdf" >/dev/null 2>"$HERE/.limit"
)
is $? 73 "status at a size limit"
rm -f "$HERE/.limit"
is "$(find "$HERE" | wc -l)" "$before" "files after a failure"
