#!/usr/bin/env bash
# sagbend path: the as-drilled path by joint and by station, as CSV, JSON and words.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

HEADER=joint,leg,bit_depth,survey_depth,inclination,azimuth,station,offset,elevation,height,northing,easting,dogleg,radius_joint,radius_window,corridor_share,sigma_along,sigma_across,sigma_up,chance_outside,shift_station,shift_offset,shift_height,cover,cover_least,clearance

# Three joints of 10 m that can be reckoned by hand: straight, then 6 degrees to the right (radius 10 / (6 pi / 180)
# = 95.493), then 5 degrees up, all from 1000 east, 5000 north, 100 up, northwards.
bore meadow 90/0 90/6 95.0/6.00
JOB=$HERE/meadow.bore
gives 0 path "$JOB" --csv
no_warning
is "$(head -1 "$HERE/.out")" "$HEADER"$'\r' "the header"
is "$(awk 'END { print NR } !/\r$/ { print "no CR in " NR }' "$HERE/.out")" 5 "lines, each ended by CR LF"
is "$(sed -n '2{s/\r//;p}' "$HERE/.out")" '0,1,0,0,90,0,0,0,100,0,5000,1000,,,,0,0,0,0,0,,,,,,' "the entry"
# One sigma, by the presets: along, a joint of 0.01 and a thousandth of 10; across, 10 m times what the two readings' noise
# (0.3 / sqrt 2), the bias (0.3) and the declination (0.26 and 5417 / 20000) come to, in degrees, and nothing of the string
# due north; up, 10 m times noise (0.1 / sqrt 2) and bias (0.1).
is "$(sed -n '3{s/\r//;p}' "$HERE/.out")" \
	'1,1,10,10,90,0,10,0,100,0,5010,1000,0,,,0,0.014142,0.091685,0.021376,0,,,,,,' "joint 1"
is "$(sed -n '4{s/\r//;p}' "$HERE/.out")" \
	'2,1,20,20,90,6,19.981733,0.52312,100,0,5019.981733,1000.52312,6,95.492966,,0.013078,0.02495,0.179527,0.04095,0,,,,,,' \
	"joint 2"
is "$(cell 5 5),$(cell 5 6)" '95.0,6.00' "angles as they were typed"
# radius 10 / (5 pi / 180) = 114.591559, rising 114.591559 (1 - cos 5) = 0.436055
about "$(cell 5 9)" 100.436055 1e-6 elevation
about "$(cell 5 10)" 0.436055 1e-6 height
about "$(cell 5 14)" 114.591559 1e-6 radius_joint
# over three joints, from level north to 5 up and 6 right: acos(cos 5 cos 6) = 7.804263 degrees
about "$(cell 5 15)" 220.244 1e-3 radius_window
about "$(cell 5 16)" 0.218028 1e-6 "the share of 2 m"

# JSON: the same figures under the same names, numbers as numbers, null where CSV is blank.
gives 0 path "$JOB" --json
is "$(json_names '$')" unit,inclination,rows members
is "$(json '$.unit') $(json '$.inclination')" 'm down' 'unit and convention'
is "$(json_names '$.rows[3]')" "$HEADER" "members of a row"
is "$(json_sql "SELECT count(*) FROM o, json_each(j, '\$.rows')")" 4 rows
is "$(json_sql "SELECT json_type(j, '\$.rows[1].radius_joint') || json_type(j, '\$.rows[3].station') FROM o")" nullreal types
about "$(json '$.rows[2].offset')" 0.523120 1e-6 offset

# Words instead of signs.
gives 0 path "$JOB"
says '0.52 R' '0.44 high' straight
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail "a line over 80 columns"
grep -q ' $' "$HERE/.out" && fail "blanks at the end of a line"

# By station: each on the same arcs, so the positions of the joints lie among them.
gives 0 path "$JOB" --every 5 --csv
is "$(head -1 "$HERE/.out")" "$HEADER"$'\r' "the header by station"
is "$(cut -d, -f7 "$HERE/.out" | sed 1d | paste -sd ' ')" '0 5 10 15 20 25' stations
is "$(cell 3 3)" '' "bit depth between joints"
about "$(cell 4 4)" 10 1e-6 "depth at the end of joint 1"
# 5 m past the start of the arc of radius 95.493: offset R - sqrt(R^2 - 25)
about "$(cell 5 8)" 0.13099 1e-6 "offset on the arc"
gives 0 path "$JOB" --every 2,5 --json
is "$(json '$.rows[1].station')" 2.5 "a decimal comma"
gives 0 path "$JOB" --every=1000 --csv
is "$(wc -l <"$HERE/.out")" 2 "lines when the step is longer than the bore"

# Before the first joint.
job fresh
gives 0 path "$HERE/fresh.bore" --csv
is "$(wc -l <"$HERE/.out")" 2 "lines of a fresh job"
gives 0 path "$HERE/fresh.bore" --every 1 --csv
gives 0 path "$HERE/fresh.bore"

# The sample in feet, with convention level in metres: against each other's conventions by SQLite.
gives 0 new "$HERE/kestrel.bore" --sheet sample-data/kestrel-road --by T
gives 0 import "$HERE/kestrel.bore" sample-data/kestrel-road/surveys.csv --by T
gives 0 path "$HERE/kestrel.bore" --csv
is "$(wc -l <"$HERE/.out")" 46 "lines of the sample"
is "$(cell 3 5)" -14.1 "an inclination from level, typed with a decimal comma"

refuses 64 'not both' path "$JOB" --csv --json
refuses 64 'above 0' path "$JOB" --every 0
refuses 64 'above 0' path "$JOB" --every=-2
refuses 64 'not a length' path "$JOB" --every often
refuses 65 'cannot be' path "$JOB" --every 0.0000001
refuses 64 'all-legs' path "$JOB" --every 5 --all-legs
refuses 64 'JOB.bore' path
refuses 66 'no such' path "$HERE/none.bore"
