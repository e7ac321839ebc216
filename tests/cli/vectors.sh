#!/usr/bin/env bash
# Six-axis readings: angles from raw vectors, and the gates on gravity, field and dip.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# Derived (relations of geom/sensor.h): inclination 90, azimuth 1, mark 40 degrees right of high side; gravity 1 g,
# field 49,200 nT, dip 66.1 degrees.
G=-0.76604,0.64279,0.00000
F=-34681.3,28646.9,19929.9
job meadow
JOB=$HERE/meadow.bore
gives 0 change "$JOB" --set azimuth.total_field=49200,azimuth.dip=66.1 --reason 'read on the site' --by Bea

gives 0 whatif "$JOB" --gravity=$G --field=$F --json
no_warning
about "$(json '$.inclination')" 90 0.01 inclination
about "$(json '$.azimuth')" 1 0.01 azimuth
gives 0 log "$JOB" --gravity=$G --field=$F --by Bea
no_warning
is "$(sql "$JOB" 'SELECT inclination, azimuth, total_gravity, total_field, dip, gravity_x FROM reading')" \
	'90.00|1.00|1.0000|49200|66.10|-0.76604' "the row"

# Steel: field and dip off, gravity right. A held azimuth does not hang on it.
S=-35481.3,28646.9,19929.9
gives 0 log "$JOB" --gravity=$G --field=$S --by Bea --reason 'as read'
warns 'steel likely near' 'gyro or coil'
gives 1 check "$JOB" --json
is "$(json_sql "SELECT json_extract(value, '\$.level') FROM o, json_each(j, '\$.checks') WHERE json_extract(value, '\$.kind') = 'magnetic-field'")" watch "check"
gives 0 correct "$JOB" --joint 2 --azimuth-by hold --reason 'bridge' --by Bea
[[ $ERR != *steel* ]] || fail "steel is warned of where the heading was held: $ERR"

# Other vectors say other angles.
gives 0 correct "$JOB" --joint 1 --gravity=-0.76604,0.64279,0.01745 --field=$F --reason 'read again' --by Bea
is "$(sql "$JOB" "SELECT inclination <> '90.00' FROM reading WHERE corrects = 1")" 1 "the inclination was worked out anew"

# One component alone, too.
gives 0 correct "$JOB" --joint 1 --gravity-z=0.2 --gravity-x=-0.75 --reason 'two digits of it' --by Bea
about "$(sql "$JOB" 'SELECT inclination FROM reading ORDER BY id DESC LIMIT 1')" 78.55 0.02 'the inclination of one component more'

# What cannot be.
refuses 65 'no length' whatif "$JOB" --gravity=0,0,0 --field=$F
refuses 65 'no length' whatif "$JOB" --gravity=$G --field=0,0,0
refuses 65 'straight up or down' whatif "$JOB" --gravity=0,0,1 --field=$F
refuses 65 'all of them are needed' whatif "$JOB" --gravity=$G
refuses 64 'three numbers' whatif "$JOB" --gravity=-0,76604,0,64279,0,00000 --field=$F
refuses 64 'three numbers' whatif "$JOB" --gravity=$G,5 --field=$F
refuses 64 'three numbers' whatif "$JOB" --gravity=1,2 --field=$F
refuses 3 'uT' whatif "$JOB" --gravity=$G --field=-34.6813,28.6469,19.9299
refuses 3 'metres per second squared' whatif "$JOB" --gravity=-7.5123,6.3036,0.0001 --field=$F
refuses 3 'the vectors say' whatif "$JOB" --azimuth 96 --gravity=$G --field=$F

# A reason releases what was held, and the joint's warnings keep it.
gives 0 log "$JOB" --azimuth 1.5 --inclination 90 --gravity=$G --field=$F --reason 'the display said so' --by Bea
is "$(sql "$JOB" 'SELECT azimuth FROM reading ORDER BY id DESC LIMIT 1')" 1.5 "what was typed stands"
gives 0 withdraw "$JOB" --to-joint 2 --reason 'again' --by Bea
gives 0 log "$JOB" --gravity=$G --field=-34.6813,28.6469,19.9299 --reason 'so it shows it' --by Bea
warns 'it is right in microtesla'
gives 0 withdraw "$JOB" --to-joint 2 --reason 'again' --by Bea

# Import works the angles out too; a tool with other axes is turned into ours.
gives 0 change "$JOB" --set 'tool.sensor_axes=-y x z' --reason 'the other tool' --by Bea
printf 'joint,gravity_x,gravity_y,gravity_z,field_x,field_y,field_z\n3,0.64279,0.76604,0,28646.9,34681.3,19929.9\n' >"$HERE/s.csv"
gives 0 import "$JOB" "$HERE/s.csv" --by Bea
is "$(sql "$JOB" 'SELECT inclination, azimuth FROM reading ORDER BY id DESC LIMIT 1')" '90.00|1.00' "the imported row"
refuses 65 'tool' change "$JOB" --set 'tool.sensor_axes=x y' --reason x --by Bea

# The reason of an imported row releases it too.
printf 'joint,reason,gravity_x,gravity_y,gravity_z,field_x,field_y,field_z\n4,,0.64279,0.76604,0,28.6469,34.6813,19.9299\n' >"$HERE/u.csv"
gives 65 import "$JOB" "$HERE/u.csv" --by Bea
warns 'uT'
sed -i 's/^4,,/4,so it shows it,/' "$HERE/u.csv"
gives 0 import "$JOB" "$HERE/u.csv" --by Bea
is "$(sql "$JOB" 'SELECT azimuth FROM reading ORDER BY id DESC LIMIT 1')" 1.00 "the imported row with a reason"
