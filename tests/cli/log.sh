#!/usr/bin/env bash
# sagbend log: one joint's survey. Its row as path has it, its warnings, and what cannot be or looks like a slip.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

job meadow
JOB=$HERE/meadow.bore
logs() { gives 0 log "$JOB" --by Ann "$@"; }
joints() { sql "$JOB" 'SELECT count(*) FROM reading'; }

# In words.
logs --inclination 90 --azimuth 0
no_warning
says 'joint 1   leg 1   bit 10.0 m' 'station 0+10.0' 'on line' 'corridor 0 %'

# As JSON: the row as path has it, and warnings. A joint of 10 m that turns 6 degrees to the right on the level:
# radius 10 / (6 pi / 180), north radius sin 6, east radius (1 - cos 6).
logs --inclination 90.0 --azimuth 6 --json
no_warning
is "$(json_names '$')" "joint,leg,bit_depth,survey_depth,inclination,azimuth,station,offset,elevation,height,northing,\
easting,dogleg,radius_joint,radius_window,corridor_share,sigma_along,sigma_across,sigma_up,chance_outside,shift_station,shift_offset,shift_height,cover,cover_least,clearance,warnings" "members"
is "$(json '$.joint') $(json '$.leg') $(json '$.bit_depth') $(json '$.survey_depth')" "2 1 20 20" "joint, leg and depths"
grep -q '"inclination": 90.0,' "$HERE/.out" || fail "inclination is not as typed: $OUT"
about "$(json '$.station')" 19.981733 1e-6 station
about "$(json '$.offset')" 0.523120 1e-6 offset
about "$(json '$.northing')" 5019.981733 1e-6 northing
about "$(json '$.easting')" 1000.523120 1e-6 easting
about "$(json '$.elevation')" 100 1e-9 elevation
about "$(json '$.height')" 0 1e-9 height
about "$(json '$.dogleg')" 6 1e-9 dogleg
about "$(json '$.radius_joint')" 95.492966 1e-6 radius_joint
is "$(json '$.radius_window')" "" radius_window
about "$(json '$.corridor_share')" 0.013078 1e-6 corridor_share
is "$(json '$.warnings')" '[]' warnings
is "$(tail -1 "$HERE/.out")" '}' "the end of the JSON"

# Warnings: kind, level, value, limit, text; log exits 0 whatever it warns of.
logs --inclination 90 --azimuth 12
logs --inclination 90 --azimuth 18 --json
is "$(json_names '$.warnings[0]')" kind,level,value,limit,text "members of a warning"
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.kind') || ' ' || json_extract(value, '\$.level'), ', ')
	FROM o, json_each(j, '\$.warnings')")" "window-bend breach" "what is warned of"
is "$(json '$.warnings[0].limit')" 120 "the limit"
about "$(json '$.warnings[0].value')" 95.492966 1e-6 "the value"
[[ $(json '$.warnings[0].text') == *95\ m*120* ]] || fail "the text: $(json '$.warnings[0].text')"
logs --inclination 90 --azimuth 24
warns 'sagbend: breach: '
logs --inclination 90 --azimuth 18
no_warning

# Everything else that a row can carry, as typed, and back again.
logs --inclination 90 --azimuth 18 --joint-length 9.60 --tool-face 120 --slid 3.50 --thrust -12 --torque 3 --flow 900 \
	--standpipe 4000 --annular 210 --returns Partial --started 7:05 --ended 0731 --remarks 'cobbles, “hard”'
is "$(sql "$JOB" 'SELECT joint_length, tool_face, slid, thrust, returns, started, ended, remarks FROM reading ORDER BY id DESC LIMIT 1')" \
	'9.60|120|3.50|-12|partial|07:05|07:31|cobbles, “hard”' "the row"

# Decimal commas; a length by the tally when left out; --option=value.
logs --inclination=90,0 --azimuth '18,0' --json
is "$(json '$.joint') $(json '$.inclination')" "8 90.0" "with decimal commas"

# A joint that was drilled and not read.
logs --no-reading
says 'no reading was taken'
warns 'watch: Joint 9 was drilled without a reading'
n=$(joints)

# A joint logged twice, and one left out.
refuses 65 'Joint 3 is logged already; the next is 10.' log "$JOB" --inclination 90 --azimuth 18 --joint 3
warns 'sagbend correct --joint 3'
refuses 65 'Joint 12 is not next: joint 10 has not been logged.' log "$JOB" --inclination 90 --azimuth 18 --joint 12
refuses 64 'whole number' log "$JOB" --inclination 90 --azimuth 18 --joint 9.5
refuses 64 'whole number' log "$JOB" --inclination 90 --azimuth 18 --joint nine

# What cannot be.
refuse_value() { refuses 65 "$1" log "$JOB" "${@:2}"; }
refuse_value "'abc' is not a number" --inclination abc --azimuth 18
refuse_value 'from straight down, 0 to 180' --inclination 181 --azimuth 18
refuse_value 'from straight down, 0 to 180' --inclination -1 --azimuth 18
refuse_value 'between 0 and 360' --inclination 90 --azimuth 360.1
refuse_value "leave out 'deg'" --inclination 90deg --azimuth 18
refuse_value "leave out 'm'" --inclination 90 --azimuth 18 --joint-length 10m
refuse_value "not a number" --inclination 90 --azimuth 1.8.0
refuse_value "exponent" --inclination 9e1 --azimuth 18
refuse_value "not a number" --inclination nan --azimuth 18
refuse_value "joint length" --inclination 90 --azimuth 18 --joint-length 0
refuse_value 'too many digits' --inclination 90 --azimuth 18.0000000000000000000000001
refuse_value 'full, partial or none' --inclination 90 --azimuth 18 --returns some
refuse_value 'not a time of day' --inclination 90 --azimuth 18 --started 25:10
refuse_value 'too long' --inclination 90 --azimuth 18 --remarks "$(printf 'x%.0s' {1..300})"
refuse_value 'not UTF-8' --inclination 90 --azimuth 18 --remarks $'\xff\xfe'
refuse_value 'not a number' --inclination 90 --azimuth 18 --bit-depth deep
refuses 64 'no reading was taken' log "$JOB" --inclination 90
refuses 64 'goes without' log "$JOB" --no-reading --azimuth 18
refuses 64 'empty' log "$JOB" --inclination 90 --azimuth 18 --reason ' '
refuses 64 'does not know the option --inclinatin. Is --inclination meant?' log "$JOB" --inclinatin 90
refuses 64 'given twice' log "$JOB" --inclination 90 --inclination 90 --azimuth 18
refuses 64 'needs a value' log "$JOB" --inclination 90 --azimuth

# What looks like a slip is held with the value that was likely meant, and taken with a reason.
holds() { refuses 3 "$1" log "$JOB" "${@:2}"; }
holds 'Meant 18' --inclination 90 --azimuth 81
warns 'digits swapped' 'say why with --reason'
holds 'Meant 90' --inclination 0 --azimuth 18
holds 'lower than where rotating since the last reading would lead' --inclination 50 --azimuth 18
holds 'goes back' --inclination 90 --azimuth 18 --bit-depth 60
holds 'a joint' --inclination 90 --azimuth 18 --joint-length 20
holds 'more than there is' --inclination 90 --azimuth 18 --slid 12 --tool-face 0
# 89.6 m are in the ground; the next joint ends at 99.6.
holds 'is logged already' --inclination 90 --azimuth 18 --bit-depth 89.6
holds 'one joint deeper' --inclination 90 --azimuth 18 --bit-depth 109.6
is "$(joints)" "$n" "joints after all these refusals"
logs --inclination 90 --azimuth 18 --bit-depth 99.6 --joint 10
logs --inclination 90 --azimuth 81 --reason 'whipstock, read three times'
is "$(sql "$JOB" 'SELECT words FROM act ORDER BY id DESC LIMIT 1')" 'whipstock, read three times' "the reason"
warns 'whipstock'

# Said, not held: less than a slip.
logs --inclination 90 --azimuth 81 --joint-length 9.3
warns 'note: ' '10 m by the tally'
logs --inclination 90 --azimuth 81 --tool-face 30
warns 'note: ' 'nothing slid'

gives 0 verify "$JOB"
