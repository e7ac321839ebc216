#!/usr/bin/env bash
# sagbend design: a design from a drawing's LandXML or CSV, looked at, and written into a job sheet.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

SHEET=$HERE/kestrel
fresh() {
	chmod -R u+rwx "$SHEET" 2>/dev/null
	rm -rf "$SHEET"
	cp -r sample-data/kestrel-road "$SHEET"
}
kept() { diff -rq "$SHEET" sample-data/kestrel-road >/dev/null || fail "the sheet was changed"; }
fresh

# Looked at: nothing is written.
gives 0 design "$SHEET/profile.csv" "$SHEET/alignment.csv"
no_warning
says 'northing' '5932998.469    563322.576    400.000' 'turns 14.000 degrees right' '44.120        10.400    250.000' \
	'-24.932 %' '419.854 long in plan.'
kept

# Written: the tables of the sheet come back, number for number, and make the same job.
gives 0 design "$SHEET/profile.csv" "$SHEET/alignment.csv" --into "$SHEET" --replace
says "Written into $SHEET: alignment.csv and profile.csv." 'alignment = alignment.csv, profile = profile.csv'
numbers() { awk -F, 'NR > 1 { printf "%.9g %.9g %.9g\n", $1, $2, $3 }' "$1"; }
for table in alignment profile; do
	is "$(numbers "$SHEET/$table.csv")" "$(numbers "sample-data/kestrel-road/$table.csv")" "$table.csv"
done
gives 0 new "$HERE/a.bore" --sheet "$SHEET" --by maker
gives 0 new "$HERE/b.bore" --sheet sample-data/kestrel-road --by maker
for job in a b; do
	gives 0 import "$HERE/$job.bore" sample-data/kestrel-road/surveys.csv --by driller
	gives 0 path "$HERE/$job.bore" --csv
	cp "$HERE/.out" "$HERE/$job.csv"
done
cmp -s "$HERE/a.csv" "$HERE/b.csv" || fail "the design that was read drills another bore"

# Stations, from standard input, as a spreadsheet with decimal commas has them.
fresh
{
	echo 'Sta;Elev (m);Remarks'
	for i in $(seq 0 10 410) 420; do
		awk -v x="$i" 'BEGIN {
			if (x < 13.425) y = 21.4 - x * 11 / 44.12
			else if (x < 73.9) y = 10.4 + 250 - sqrt(250 * 250 - (x - 74.815) ^ 2)
			else if (x < 333.974) y = 10.4
			else if (x < 385.954) y = 10.4 + 250 - sqrt(250 * 250 - (x - 333.974) ^ 2)
			else y = 23.1 - (420 - x) * 12.7 / 59.75
			s = sprintf("0+%06.2f;%.2f;", x, y); gsub(/\./, ",", s); print s }'
	done
} >"$HERE/stations.csv"
gives 0 design - --into "$SHEET" --replace <"$HERE/stations.csv"
says 'Found from 43 points' 'taken as the round one, 250' 'The drawing is in metres, as the job is.' "Written into $SHEET: profile.csv."
is "$(cut -d, -f3 "$SHEET/profile.csv" | tr -d '\r' | paste -sd' ')" 'radius  250 250 ' "radii"
about "$(sed -n 3p "$SHEET/profile.csv" | cut -d, -f1)" 44.12 0.1 "the first point of intersection"
gives 0 design "$HERE/stations.csv" --radii-as-found
says 'radius found'
sed -i 's/^0+200,00;10,40/0+200,00;10,70/' "$HERE/stations.csv"
gives 65 design "$HERE/stations.csv"
no_words
warns 'stations.csv line 22' '--within' 'No line was found'

# LandXML: chosen by name, turned about, in another unit.
landxml() { # NAME NORTHING-EASTING-OF-ENTRY OF-EXIT UNIT [MORE]
	cat <<-END
		<?xml version="1.0"?>
		<LandXML xmlns="http://www.landxml.org/schema/LandXML-1.2" version="1.2">
		<Units>$4</Units>
		<Alignments>${5:-}
		<Alignment name="$1" staStart="500">
		<CoordGeom><Line><Start>$2</Start><End>$3</End></Line></CoordGeom>
		<Profile name="p"><ProfAlign name="p"><PVI>500 100</PVI><PVI>800 100</PVI></ProfAlign></Profile>
		</Alignment>
		</Alignments>
		</LandXML>
	END
}
METRE='<Metric linearUnit="meter"/>'
meadow=$HERE/meadow
sheet "$meadow"
cp "$meadow/profile.csv" "$HERE/profile.was"
landxml bore '5000 1000' '5300 1000' "$METRE" >"$HERE/bore.xml"
gives 0 design "$HERE/bore.xml" --into "$meadow" --replace
no_warning
says "LandXML 1.2." 'Stations of the drawing begin at 500.000'
is "$(tr -d '\r' <"$meadow/alignment.csv" | paste -sd' ')" 'easting,northing,radius 1000,5000, 1000,5300,' "alignment.csv"
is "$(tr -d '\r' <"$meadow/profile.csv" | paste -sd' ')" 'station,elevation,radius 0,100, 300,100,' "profile.csv"
sed -i 's/^profile = .*/&\nalignment = alignment.csv/' "$meadow/job.ini"
gives 0 new "$HERE/m.bore" --sheet "$meadow" --by maker
landxml bore '5000 1000' '5300 1000' "$METRE" '<Alignment name="road"/>' >"$HERE/two.xml"
gives 65 design "$HERE/two.xml"
warns "'road', 'bore'" '--alignment NAME'
gives 0 design "$HERE/two.xml" --alignment bore
landxml bore '5300 1000' '5000 1000' "$METRE" >"$HERE/back.xml"
gives 65 design "$HERE/back.xml" --into "$meadow" --replace
warns 'say --reverse'
gives 0 design "$HERE/back.xml" --into "$meadow" --replace --reverse
landxml bore '1000 5000' '1000 5300' "$METRE" >"$HERE/turned.xml"
gives 65 design "$HERE/turned.xml" --into "$meadow" --replace
warns 'Northing and easting are exchanged'
landxml bore '5000 1000' '5300 1000' '<Imperial linearUnit="foot"/>' >"$HERE/feet.xml"
gives 65 design "$HERE/feet.xml" --into "$meadow" --replace
warns 'say --unit m'
gives 0 design "$HERE/feet.xml" --into "$meadow" --replace --unit m

# Nothing is replaced unasked, and two files are written both or not at all.
cp "$HERE/profile.was" "$meadow/profile.csv"
rm "$meadow/alignment.csv"
refuses 73 'Say --replace' design "$HERE/bore.xml" --into "$meadow"
[ ! -e "$meadow/alignment.csv" ] || fail "half of it was written"
cmp -s "$HERE/profile.was" "$meadow/profile.csv" || fail "the profile was replaced unasked"
rm "$meadow/profile.csv"
mkdir "$meadow/profile.csv"
refuses 65 'is a folder' design "$HERE/bore.xml" --into "$meadow" --replace
[ ! -e "$meadow/alignment.csv" ] || fail "half of it was written beside a folder"
rmdir "$meadow/profile.csv"
chmod a-w "$meadow"
chmod a+rx "$HERE"
as_nobody "$SAGBEND" design "$HERE/bore.xml" --into "$meadow" >/dev/null 2>"$HERE/.err"
status=$?
chmod u+w "$meadow"
[ $status = 99 ] || is "$status" 77 "status in a folder that may not be written to"
is "$(find "$meadow" -name '*.csv' -o -name '.*sagbend*' | wc -l)" 0 "files left"
gives 0 design "$HERE/bore.xml" --into "$meadow"
is "$(find "$meadow" -name '*.csv' | wc -l)" 2 "files written"
# A disk that is full for the second table alone: neither is written. 1 KiB holds two points, and not 151.
rm "$meadow/profile.csv" "$meadow/alignment.csv"
{
	echo 'station,elevation,radius'
	for i in $(seq 0 2 300); do echo "$i,100.0001,"; done
} >"$HERE/long.csv"
printf 'easting,northing,radius\n1000,5000,\n1000,5300,\n' >"$HERE/short.csv"
(
	ulimit -f 1
	exec "$SAGBEND" design "$HERE/short.csv" "$HERE/long.csv" --into "$meadow" >/dev/null 2>"$HERE/.err"
)
is $? 73 "status with a disk that is full for one of two"
is "$(find "$meadow" -name '*.csv' -o -name '.*sagbend*' | wc -l)" 0 "files left"
gives 0 design "$HERE/short.csv" "$HERE/long.csv" --into "$meadow"
mkdir "$HERE/empty"
gives 0 design "$HERE/bore.xml" --into "$HERE/empty"
says 'no job.ini yet'
printf 'station,offset,elevation\n0,0,10\n50,2,8\n100,0,10\n' >"$HERE/offsets.csv"
refuses 65 'no job.ini' design "$HERE/offsets.csv" --into "$HERE/empty" --replace

# What export writes comes back as the design that it was made from, number for number.
for name in kestrel-road tern-slough; do
	rm -rf "$SHEET" "$HERE/out.bore" "$HERE/out.xml"
	cp -r "sample-data/$name" "$SHEET"
	gives 0 new "$HERE/out.bore" --sheet "$SHEET" --by maker
	gives 0 import "$HERE/out.bore" "sample-data/$name/surveys.csv" --by maker
	gives 0 export "$HERE/out.bore" landxml "$HERE/out.xml"
	gives 65 design "$HERE/out.xml" --into "$SHEET" --replace
	warns "'design', 'as drilled'"
	gives 0 design "$HERE/out.xml" --alignment design --into "$SHEET" --replace
	no_warning
	says 'as the job is' 'divided by the job'
	is "$(numbers "$SHEET/profile.csv")" "$(numbers "sample-data/$name/profile.csv")" "profile of $name"
	[ "$name" = tern-slough ] || is "$(numbers "$SHEET/alignment.csv")" "$(numbers "sample-data/$name/alignment.csv")" "alignment of $name"
done
is "$(tr -d '\r' <"$SHEET/alignment.csv" | paste -sd' ')" \
	'easting,northing,radius 655412.3,1566208.75, 657260.877,1565211.312,' "the straight of tern-slough"

# What is wrong, in words.
refuses 66 'There is no' design "$HERE/none.xml"
refuses 66 'There is no' design "$HERE/bore.xml" --into "$HERE/nowhere"
refuses 64 'is not a folder' design "$HERE/bore.xml" --into "$HERE/bore.xml"
refuses 64 '--replace goes with --into' design "$HERE/bore.xml" --replace
refuses 65 'is not a unit' design "$HERE/bore.xml" --unit yards
refuses 65 'above 0' design "$HERE/bore.xml" --within 0
refuses 64 'Something is missing' design
gives 65 design "$HERE"
no_words
gives 65 design /dev/null
warns 'nothing in this file'
head -c 300 "$HERE/bore.xml" >"$HERE/cut.xml"
gives 65 design "$HERE/cut.xml"
warns 'cut.xml: Line ' 'not whole XML' 'Nothing was written.'
head -c 4000 /dev/urandom >"$HERE/noise"
gives 65 design "$HERE/noise"
no_words
printf '<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/hostname">]><a>&x;</a>' >"$HERE/outside.xml"
gives 65 design "$HERE/outside.xml"
warns 'document type'
printf '[job]\nunit = cubits\n' >"$HERE/empty/job.ini"
gives 65 design "$HERE/bore.xml" --into "$HERE/empty" --replace
warns 'job.ini line 2' 'Nothing was written.'
if [ -w /dev/full ]; then
	"$SAGBEND" design "$HERE/bore.xml" >/dev/full 2>"$HERE/.err"
	is $? 73 "status with a full disk behind standard output"
fi
