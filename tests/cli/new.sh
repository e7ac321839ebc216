#!/usr/bin/env bash
# sagbend new: a job file from a job sheet, or nothing at all and every error in the sheet.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

sheet "$HERE/sheet"
JOB=$HERE/meadow.bore

gives 0 new "$JOB" --sheet "$HERE/sheet" --by Ann
is "$OUT" "$JOB: Level Meadow, made from $HERE/sheet." "what it says"
no_warning
is "$(sql "$JOB" 'SELECT who, kind FROM act')" 'Ann|new' "the first act"
is "$(find "$HERE" -name 'meadow*' -o -name '.meadow*')" "$JOB" "what lies there"
is "$(head -c 15 "$JOB")" 'SQLite format 3' "the file"

# A job that is there is never written over.
cp "$JOB" "$HERE/before"
refuses 73 'is there already' new "$JOB" --sheet "$HERE/sheet" --by Ann
cmp -s "$JOB" "$HERE/before" || fail "the job that was there changed"
refuses 73 'is there already' new "$HERE" --sheet "$HERE/sheet" --by Ann

# Without --by the login name signs.
gives 0 new "$HERE/own.bore" --sheet "$HERE/sheet"
is "$(sql "$HERE/own.bore" 'SELECT who FROM act')" tester "who made it"

# Names with other letters and blanks, in the file's name and its words.
mkdir "$HERE/Düker Elbe"
sheet "$HERE/Düker Elbe/sheet"
sed -i 's/^name = .*/name = Überquerung “Süd” № 2/' "$HERE/Düker Elbe/sheet/job.ini"
gives 0 new "$HERE/Düker Elbe/Süd 2.bore" --sheet "$HERE/Düker Elbe/sheet" --by 'Żaneta Ó Súilleabháin'
says 'Überquerung “Süd” № 2'
gives 0 path "$HERE/Düker Elbe/Süd 2.bore" --csv
gives 0 handover "$HERE/Düker Elbe/Süd 2.bore"
says 'Überquerung “Süd” № 2'
is "$(sql "$HERE/Düker Elbe/Süd 2.bore" 'SELECT who FROM act')" 'Żaneta Ó Súilleabháin' "who made it"
LC_ALL=C gives 0 check "$HERE/Düker Elbe/Süd 2.bore"

# What is missing.
refuses 64 '--sheet FOLDER is missing' new "$HERE/a.bore"
refuses 64 'JOB.bore --sheet FOLDER' new
refuses 66 "There is no '$HERE/nowhere'" new "$HERE/a.bore" --sheet "$HERE/nowhere"
refuses 64 'is not a folder' new "$HERE/a.bore" --sheet "$HERE/sheet/job.ini"
refuses 66 'no such' new "$HERE/nowhere/a.bore" --sheet "$HERE/sheet"
mkdir "$HERE/empty"
gives 65 new "$HERE/a.bore" --sheet "$HERE/empty"
no_words
warns 'job.ini' 'Nothing was made.'
[ ! -e "$HERE/a.bore" ] || fail "a job was made of nothing"

# Many errors: all of them, with file, line, and key or column, and nothing made.
sheet "$HERE/bad"
cd "$HERE/bad" || exit 1
sed -i 's/^unit = m/unit = yards/; s/^crs = .*/&\nelevation_datum = x/; s/^wall = 18/wall = thick/; s/^up = 2/up = -2/
	s/^outside_diameter.*//; s/^\[files\]/&\nground = ground.csv\ntally = nowhere.csv/; s/^entry = .*/entry = 1000, 5000/' job.ini
printf 'station,elevation,radius\n0,100,\n150,ninety,100\n100,95,50\n300,100,\n' >profile.csv
printf 'station,height\n0,100\n' >ground.csv
cd - >/dev/null || exit 1
gives 65 new "$HERE/a.bore" --sheet "$HERE/bad"
no_words
warns 'job.ini line 5, unit:' 'm|ft|ftUS' 'elevation_datum' ', wall:' ', up:' ', entry:' outside_diameter nowhere.csv \
	'profile.csv line 3, elevation:' "'ninety'" ground.csv 'listed above. Nothing was made.'
[ "$(wc -l <<<"$ERR")" -ge 10 ] || fail "fewer than ten lines: $ERR"
count=$(sed -n 's/.* has \([0-9]*\) errors, listed above.*/\1/p' <<<"$ERR")
is "$count" "$(($(grep -vc 'warning' <<<"$ERR") - 1))" "how many errors it counts"
[ ! -e "$HERE/a.bore" ] || fail "a job was made of a bad sheet"
is "$(find "$HERE" -maxdepth 1 -name '*a.bore*')" "" "what it left"

# A design that cannot be: curves that overlap, a profile that does not reach the exit.
sheet "$HERE/bent"
printf 'station,elevation,radius\n0,100,\n50,60,400\n100,100,400\n300,100,\n' >"$HERE/bent/profile.csv"
gives 65 new "$HERE/a.bore" --sheet "$HERE/bent"
warns profile.csv

# A sheet of the wrong kind altogether.
mkdir "$HERE/odd"
head -c 4000 /dev/urandom >"$HERE/odd/job.ini"
gives 65 new "$HERE/a.bore" --sheet "$HERE/odd"
no_words

# ---- the sheet's figures against its place ----

# placed NAME SED...: the sample crossing with other lines in its sheet
placed() {
	local name=$1
	shift
	cp -r sample-data/kestrel-road "$HERE/$name"
	sed -i "$@" "$HERE/$name/job.ini"
	gives 0 new "$HERE/$name.bore" --sheet "$HERE/$name" --by Ann
	says 'Kestrel Road, made from'
}
# count_warnings N: so many, each a line
count_warnings() { is "$(grep -c warning: <<<"$ERR")" "$1" "warnings of the place"; }

placed sound -e 's/^name/name/'
no_warning
placed north -e 's/^declination = .*/declination = 6.5/'
warns 'job.ini, declination: warning: the job has 6.5, the model finds 4.' 'give or take 0.39' 'degrees apart. Settle which holds' \
	'job.ini, bore_azimuth_read: warning: 32.9 as read makes 38.63 on the grid, where the line bears 36.20: 2.43 degrees apart'
count_warnings 2
# a sign that slipped is twice the figure
placed sense -e 's/^convergence = .*/convergence = -0.77/'
warns 'job.ini, convergence: warning: the job has -0.77, the map finds 0.77: 1.54 degrees apart'
# the tool on the line does not agree either: 32.9 + 4.31 + 0.77 = 37.98
warns '32.9 as read makes 37.98 on the grid'
count_warnings 2
placed inch -e 's/^convergence = .*/convergence = 0.83/'
warns 'the job has 0.83, the map finds 0.77: 0.06 degrees apart'
count_warnings 1
placed near -e 's/^convergence = .*/convergence = 0.81/' -e 's/^scale_factor = .*/scale_factor = 0.99963/'
no_warning
placed scale -e 's/^scale_factor = .*/scale_factor = 0.99962/'
warns 'job.ini, scale_factor: warning: the job has 0.99962, map and height make 0.999646: 26 mm apart in a kilometre'
placed scaleless -e '/^scale_factor/d'
warns 'the job has 1, map and height make 0.999646: 354 mm'
# what is not in the sheet is not missed where the reference does not need it
placed spare -e 's/^reference = .*/reference = bore/' -e '/^declination/d' -e '/^convergence/d'
no_warning

# Coordinates that the map does not have, or not in this unit: said with what was found, and the job is made.
placed zone -e 's/^crs = .*/crs = EPSG:32755/'
warns 'job.ini, declination' 'job.ini, convergence: warning: the job has 0.77, the map finds -0.42'
placed sea -e 's/^crs = .*/crs = EPSG:2193/'
warns 'job.ini, crs: warning: ' "The job's entry: " 'far outside the area' 'were held against nothing'
count_warnings 1
placed feet -e 's/^crs = .*/crs = EPSG:2278/'
warns 'The job is in metres, but EPSG:2278' 'were held against nothing'
placed globe -e 's/^crs = .*/crs = EPSG:4326/'
warns 'latitude and longitude, not a grid'

# Without the table of systems it is said once, and goes on. A local job asks for nothing.
export PROJ_DATA=/nonexistent PROJ_LIB=/nonexistent
placed bare -e 's/^name/name/'
warns 'proj-data' 'were held against nothing'
count_warnings 1
gives 0 path "$HERE/bare.bore" --csv
gives 0 new "$HERE/local.bore" --sheet "$HERE/sheet" --by Ann
no_warning
