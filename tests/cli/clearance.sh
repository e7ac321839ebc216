#!/usr/bin/env bash
# sagbend clearance: obstacles and cover of a level bore to the north at elevation 100, in metres; the final hole is 600 mm.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# A bore of joints of 10 m over a sheet with obstacles.csv, ground.csv and corridor.csv.
# meadow NAME JOINTS [LINE...]: lines as of `sheet`
meadow() {
	local name=$1 joints=$2
	shift 2
	sheet "$HERE/$name" "[files] obstacles = obstacles.csv" "[files] ground = ground.csv" "[files] corridor = corridor.csv" \
		"[entry] [hole]\npilot_diameter = 200\nfinal_diameter = 600\n[cover]\nminimum = 5\nfrom = 20\n[entry]" "$@"
	cat >"$HERE/$name/obstacles.csv" <<-'END'
		name,kind,easting,northing,elevation,diameter,clearance
		gas main,gas,900,5055,102.55,0.5,1.5
		gas main,gas,1100,5055,102.55,0.5,1.5
		post,pile,1004,5030,90,,
		post,pile,1004,5030,110,,
	END
	printf 'station,elevation\n0,110\n70,110\n75,105.2\n80,110\n200,110\n' >"$HERE/$name/ground.csv"
	printf 'from,to,up,down,left,right,cover\n250,300,,,,,0\n' >"$HERE/$name/corridor.csv"
	"$SAGBEND" new "$HERE/$name.bore" --sheet "$HERE/$name" --by maker >/dev/null 2>"$HERE/.new" || fail "no job $name"
	for ((i = 0; i < joints; i++)); do
		gives 0 log "$HERE/$name.bore" --inclination 90 --azimuth 0 --by driller
	done
}

# Two more metres over the hole's wall than over the main's: 2.55 - 0.25 - 0.3 = 2.00, at 55 m, in joint 6; the post is
# 4 - 0.3 away at 30 m. The bed is lowest at 75 m: 105.2 - 100.3 = 4.9 of 5, in joint 8.
meadow close 10
JOB=$HERE/close.bore
# the drawing has that fault already, and the main is clear of it
grep -q 'warning: the design itself has 4.90 of cover at station 75.0, over the final hole; 5.00 is asked for' "$HERE/.new" ||
	fail "nothing is said of the design: $(<"$HERE/.new")"
grep -q 'gas main' "$HERE/.new" && fail "the main is said to be near: $(<"$HERE/.new")"
gives 0 clearance "$JOB"
no_warning
says 'wall to wall of the final hole (600 mm)' 'gas main (gas), 1.50 m required' \
	'drilled 2.00 m below it, joint 6, station 0+55.0: ok' 'pilot 2.20; give or take' \
	'post (pile), nothing required, no diameter in the sheet' '3.70 m left of it' ', joint 3, station 0+30.0: not judged' \
	'drilled 4.90 m of 5.00 required, joint 8, station 0+75.0: breach' \
	'not judged from station 2+00.0 to 2+50.0' 'centred on the pilot'
awk 'length > 80' "$HERE/.out" | grep -q . && fail "a line over 80 columns"
gives 0 clearance "$JOB" --json
is "$(json_names '$')" unit,hole,confidence_percent,obstacles,cover,assumptions members
is "$(json '$.obstacles[0].name') $(json '$.obstacles[0].drilled.side') $(json '$.obstacles[0].drilled.joint')" \
	"gas main below 6" "the main"
about "$(json '$.obstacles[0].drilled.clearance')" 2 1e-3 "its clearance"
about "$(json '$.obstacles[0].drilled.clearance_pilot')" 2.2 1e-3 "by the pilot hole"
about "$(json '$.cover.drilled.cover')" 4.9 1e-3 cover
about "$(json '$.cover.drilled.station')" 75 1e-2 "where"
is "$(json '$.obstacles[1].drilled.required')$(json '$.obstacles[1].drilled.chance_of_less')" "" "of a post that asks nothing"
is "$(json '$.cover.not_judged[0].from') $(json '$.cover.not_judged[0].to')" "200 250" "what is not judged"
gives 2 check "$JOB"
says 'breach  cover, joint 8' 'Joint 8 has 4.90 m of cover at station 75.0; 5.00 is required.' \
	'Not judged from station' '200.0 to 250.0: ground.csv says nothing there.'
gives 0 path "$JOB" --csv
about "$(cell 10 24)" 9.7 1e-6 "cover over joint 8"
about "$(cell 10 25)" 4.9 1e-3 "the least in joint 8"
about "$(cell 8 26)" 2 1e-3 "clearance in joint 6"

# How they came about: the same figures, a thousand places beside them.
gives 0 explain "$JOB" --figure clearance --joint 6 --json
line() { json_sql "SELECT replace(json_extract(value, '\$.text'), ' m', '') FROM o, json_each(j, '\$.lines')
	WHERE json_extract(value, '\$.symbol') = '$1'"; }
about "$(line clearance)" 2 1e-3 "clearance, explained"
about "$(line places)" 2 1e-3 "of a thousand places"
gives 0 explain "$JOB" --figure cover --joint 8 --json
about "$(line cover)" 9.7 1e-6 "cover, explained"
about "$(line cover_least)" 4.9 1e-3 "the least, explained"
about "$(line places)" 4.9 1e-2 "of a thousand places"
gives 0 explain "$HERE/close.bore" --figure cover --joint 8
says 'breach: less than that in the mean.' 'The ground is that over the design line'

# Before it is drilled: the heading and the plan say so, and check watches in time.
meadow soon 5
gives 1 check "$HERE/soon.bore"
says 'watch   cover ahead' 'joint 8 has' 'joint 8'
is "$(sed -n 's/^ok *clearance: //p' "$HERE/.out")" "Nothing on the present path, by the final hole." "clearance as drilled"
gives 0 ahead "$HERE/soon.bore" --json
is "$(json '$.clearances[0].name') $(json '$.clearances[0].held.joint') $(json '$.clearances[0].planned.joint')" \
	"gas main 6 6" "the main ahead"
about "$(json '$.clearances[0].planned.clearance')" 2 0.02 "as planned"
gives 0 ahead "$HERE/soon.bore"
says 'cover    4.90 m at joint 8, give or take' '; 5.00 required'
gives 0 ahead "$HERE/soon.bore" --json
is "$(json '$.cover.planned.joint') $(json '$.cover.held.level')" "8 watch" "cover ahead"

# The file of a sheet without any of it says that nothing is judged.
bore bare 90/0
gives 0 clearance "$HERE/bare.bore"
says "wall to wall of the hole's centre line" 'The sheet has no obstacles.' 'cover: the sheet asks for none'
gives 0 check "$HERE/bare.bore"
says 'clearance: Not judged: the sheet has no obstacles.' 'cover: Not judged: the sheet asks for no cover.'

# A main that the drawing runs too near to: 2.55 - 0.25 - 0.3 = 2.00 of 2.5.
meadow near 0
sed -i 's/,1.5$/,2.5/' "$HERE/near/obstacles.csv"
gives 0 new "$HERE/nearer.bore" --sheet "$HERE/near" --by maker
warns 'the design itself passes gas main by 2.00, wall to wall of the final hole, near station 55.0; 2.50 is asked for'

# Slips in the sheet.
sheet "$HERE/slips" "[entry] [hole]\npilot_diameter = 600\nfinal_diameter = 200\n[cover]\nminimum = 5\nfrom = 90\nto = 20\n[entry]"
gives 65 new "$HERE/slips.bore" --sheet "$HERE/slips" --by maker
warns 'a final hole of 200 is smaller than the pilot hole of 600' 'does not take a product pipe of 200' \
	'cover is asked for up to station 20, which is not past its beginning at 90' 'there is no ground line'
refuses 64 'Usage' clearance
