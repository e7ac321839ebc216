#!/usr/bin/env bash
# sagbend earth: the magnetic field against published points, the map against programs that no one here wrote.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# ---- the magnetic field ----

# The report of the World Magnetic Model 2025, table 6: three of its twelve points, to half a digit.
gives 0 earth --latitude 80 --longitude 0 --height 0 --date 2025-01-01 --json
no_warning
is "$(json '$.model') $(json '$.date') $(json '$.year')" 'WMM2025 2025-01-01 2025' 'model and date'
about "$(json '$.points[0].north_field.value')" 6521.6 0.0501 north
about "$(json '$.points[0].east_field.value')" 145.9 0.0501 east
about "$(json '$.points[0].down_field.value')" 54791.5 0.0501 down
about "$(json '$.points[0].level_field.value')" 6523.2 0.0501 level
about "$(json '$.points[0].total_field.value')" 55178.5 0.0501 total
about "$(json '$.points[0].dip.value')" 83.21 0.00501 dip
about "$(json '$.points[0].declination.value')" 1.28 0.00501 declination
is "$(json '$.crs') $(json '$.job') $(json '$.points[0].convergence') $(json '$.points[0].easting')" '   ' 'what there is none of'
gives 0 earth --latitude 0 --longitude 120 --height 100000 --date 2025-01-01 --json
about "$(json '$.points[0].north_field.value')" 37688.6 0.0501 north
about "$(json '$.points[0].declination.value')" -0.15 0.00501 declination
# the same place in other words: 240 degrees east is 120 west, 100 km are 328083.9895 feet
gives 0 earth --latitude -80 --longitude 240 --height 328083.9895 --height-unit ft --date 2025-01-01 --json
west=$OUT
about "$(json '$.points[0].declination.value')" 68.21 0.00501 declination
gives 0 earth --latitude=-80 --longitude=-120 --height=328083.9895 --height-unit=ft --date=2025-01-01 --json
is "$OUT" "$west" 'the same longitude'
# sigma of the declination: sqrt(0.26^2 + (5417 / H)^2)
level=$(json '$.points[0].level_field.value')
about "$(json '$.points[0].declination.sigma')" "$(awk -v h="$level" 'BEGIN { printf "%.9f", sqrt(0.26 ^ 2 + (5417 / h) ^ 2) }')" 1e-6 sigma
is "$(json_sql "SELECT json_array_length(j, '\$.points[0].warnings') FROM o")" 0 warnings
gives 0 earth --latitude 86 --longitude 140 --date 2026-11-25
says 'blackout zone' 'of no use'

# Words.
gives 0 earth --latitude 45.5 --longitude -122.9 --height 20 --date 2026-11-25
no_warning
says 'latitude 45.500000 north, longitude 122.900000 west (WGS84)' 'degrees east of true north' 'down from level' \
	'give or take' 'degrees west a' WMM2025 'steel nearby' 2026-11-25
[[ $OUT != *convergence* ]] || fail 'convergence without a map'
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail 'a line over 80 columns'
grep -q ' $' "$HERE/.out" && fail 'blanks at the end of a line'

# Without a date it is today's.
gives 0 earth --latitude 45.5 --longitude -122.9 --json
is "$(json '$.date')" "$(date -u +%F)" today

# ---- the map ----

# on_map CODE E,N: what sagbend has of the point, as "latitude longitude convergence scale"
on_map() {
	gives 0 earth --crs "$1" --at "$2" --date 2026-11-25 --json
	no_warning
}
# alike CODE LAT LON CONVERGENCE SCALE WHO
alike() {
	about "$(json '$.points[0].latitude')" "$2" 2e-9 "latitude on $1, as $6 has it"
	about "$(json '$.points[0].longitude')" "$3" 2e-9 "longitude on $1, as $6 has it"
	about "$(json '$.points[0].convergence')" "$4" 2e-8 "convergence on $1, as $6 has it"
	about "$(json '$.points[0].scale')" "$5" 3e-10 "scale on $1, as $6 has it"
}
reckon() { awk "BEGIN { printf \"%.9f\", $1 }"; }

GRS80=1/298.257222101
WGS84=1/298.257223563

# Transverse Mercator: GeographicLib's program gives x, y from the equator, convergence and scale.
# mercator CODE FLATTENING LON0 K0 EASTING0 NORTHING0 LAT LON
mercator() {
	local x y gamma k
	read -r x y gamma k < <(echo "$7 $8" | TransverseMercatorProj -e 6378137 "$2" -l "$3" -k "$4" -p 9)
	on_map "$1" "$(reckon "$x + $5"),$(reckon "$y + $6"),0"
	alike "$1" "$7" "$8" "$gamma" "$k" TransverseMercatorProj
}
mercator EPSG:32615 "$WGS84" -93 0.9996 500000 0 29.7604 -95.3698
mercator EPSG:32615 "$WGS84" -93 0.9996 500000 0 62.5 -90.25
mercator EPSG:32755 "$WGS84" 147 0.9996 500000 10000000 -37.95 144.4
mercator EPSG:3006 "$GRS80" 15 0.9996 500000 0 59.3 18.05
mercator EPSG:2193 "$GRS80" 173 0.9996 1600000 10000000 -41.3 174.8

# Lambert: its program counts y from the parallel of least scale, so that of the origin is taken off; feet in the
# middle of it. conic CODE LAT1 LAT2 LAT0 LON0 EASTING0 NORTHING0 METRE LAT LON: both offsets in metres, METRE metres in
# the system's unit
conic() {
	local x y gamma k x0 y0 rest
	read -r x0 y0 rest < <(echo "$4 $5" | ConicProj -c "$2" "$3" -e 6378137 "$GRS80" -l "$5" -p 9)
	read -r x y gamma k < <(echo "$9 ${10}" | ConicProj -c "$2" "$3" -e 6378137 "$GRS80" -l "$5" -p 9)
	on_map "$1" "$(reckon "($x - $x0 + $6) / ($8)"),$(reckon "($y - $y0 + $7) / ($8)"),0"
	alike "$1" "$9" "${10}" "$gamma" "$k" ConicProj
}
conic EPSG:2278 28:23 30:17 27:50 -99 600000 4000000 '1200 / 3937' 29.7604 -95.3698
conic EPSG:2278 28:23 30:17 27:50 -99 600000 4000000 '1200 / 3937' 28.2 -103.5
conic EPSG:3089 37:05 38:40 36:20 -85:45 1500000 1000000 '1200 / 3937' 38.2527 -85.7585
conic EPSG:2992 43 45:30 41:45 -120:30 400000 0 0.3048 45.5152 -122.6784
conic EPSG:2263 40:40 41:02 40:10 -74 300000 0 '1200 / 3937' 40.7128 -74.0060

# UTM once more, by a third program that also names the zone.
read -r gamma k < <(echo '29.7604 -95.3698' | GeoConvert -c -p 8)
read -r zone east north < <(echo '29.7604 -95.3698' | GeoConvert -u -p 4)
is "$zone" 15n zone
on_map EPSG:32615 "$east,$north"
alike EPSG:32615 29.7604 -95.3698 "$gamma" "$k" GeoConvert

# State plane in feet: figures found by two ways when PROJ's traps were looked for; and cs2cs from outside.
on_map EPSG:2278 3120099.0878,13841900.8581,0
about "$(json '$.points[0].convergence')" 1.778481 6e-7 'convergence in Texas'
about "$(json '$.points[0].scale')" 0.99989072 6e-9 'scale in Texas'
is "$(json '$.crs.unit') $(json '$.crs.datum')" 'ftUS North American Datum 1983' 'unit and datum'
read -r lat lon rest < <(echo '3120099.0878 13841900.8581' | cs2cs -f %.10f EPSG:2278 EPSG:4326)
about "$(json '$.points[0].latitude')" "$lat" 2e-9 'latitude, as cs2cs has it'
about "$(json '$.points[0].longitude')" "$lon" 2e-9 'longitude, as cs2cs has it'
is "$(json '$.points[0].position_accuracy')" 4 'how well the datums are known'
# Oregon in international feet, PROJ's own example of a convergence to the west
on_map EPSG:2992 "$(echo '45.5152 -122.6784' | cs2cs -f %.6f EPSG:4326 EPSG:2992 | awk '{ print $1 "," $2 }')"
is "$(json '$.crs.unit')" ft unit
about "$(json '$.points[0].convergence')" -1.517 0.01 'convergence at Portland, 2.18 degrees west of the middle'
# An old datum: the shift is PROJ's, its accuracy is said.
gives 0 earth --crs EPSG:27700 --at 651409.903,313177.270 --date 2026-11-25
says 'Survey of Great Britain 1936 to WGS84 is known'
read -r lat lon rest < <(echo '651409.903 313177.270' | cs2cs -f %.8f EPSG:27700 EPSG:4326)
says "latitude $(printf %.6f "$lat") north"

# The height, in the map's unit unless it is said to be another: R / (R + h).
gives 0 earth --crs EPSG:2278 --at 3120099.09,13841900.86,3280.8333 --date 2026-11-25 --json
about "$(json '$.points[0].height_m')" 1000 1e-3 'US survey feet in metres'
feet=$(json '$.points[0].height_factor')
about "$feet" 0.999843 1e-6 'height factor at 1000 m'
about "$(json '$.points[0].combined_factor')" "$(reckon "$feet * $(json '$.points[0].scale')")" 1e-9 'combined factor'
gives 0 earth --crs EPSG:2278 --at '3120099,09; 13841900,86; 1000' --height-unit m --date 2026-11-25 --json
about "$(json '$.points[0].height_factor')" "$feet" 1e-9 'height factor from metres'
# magnetic to grid is the difference of the two
about "$(json '$.points[0].magnetic_to_grid.value')" \
	"$(reckon "$(json '$.points[0].declination.value') - $(json '$.points[0].convergence')")" 1.1e-6 'magnetic to grid'
gives 0 earth --crs EPSG:2278 --at 3120099.09,13841900.86,12 --date 2026-11-25
says 'grid north lies 1.78 degrees east of true north' 'US survey feet' 'declination 1.70 less convergence 1.78' \
	'take off 0.08 degrees' 'EPSG v' 'grid distance = ground distance x this'
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail 'a line over 80 columns'

# No network, whatever the environment asks for.
plain=$OUT
PROJ_NETWORK=ON PROJ_NETWORK_ENDPOINT=http://127.0.0.1:9 gives 0 earth --crs EPSG:2278 --at 3120099.09,13841900.86,12 --date 2026-11-25
is "$OUT" "$plain" 'the same with the network asked for'

# ---- a job ----

"$SAGBEND" new "$HERE/road.bore" --sheet sample-data/kestrel-road --by maker >/dev/null 2>&1
before=$(sha256sum <"$HERE/road.bore")
gives 0 earth "$HERE/road.bore" --date 2026-11-25
no_warning
says 'Kestrel Road' entry exit 'EPSG:25832' 'declination: 4.31; 4.31 is found' 'convergence: 0.77; 0.77 is found' \
	'scale factor: 0.99965; 0.99964577 is found' '4 mm apart in a kilometre'
is "$(grep -c '^note' "$HERE/.out")" 1 'notes, each said once'
[ "$(awk 'length > 80' "$HERE/.out")" = '' ] || fail 'a line over 80 columns'
gives 0 earth "$HERE/road.bore" --date 2026-11-25 --json
is "$(json_names '$')" model,model_from,model_to,date,year,crs,job,points,caution members
is "$(json '$.points[0].name') $(json '$.points[1].name')" 'entry exit' ends
is "$(json '$.job.declination') $(json '$.job.scale_factor')" '4.31 0.99965' "the job's own"
about "$(json '$.points[1].easting')" 563499.596 0 'easting of the exit'
is "$(sha256sum <"$HERE/road.bore")" "$before" 'the job file afterwards'
# what was changed since holds, and the tool on the line is turned by it: 32.9 + 5.4 - 0.77
gives 0 change "$HERE/road.bore" --set azimuth.declination=5.4 --reason 'the office says so' --by Bea
gives 0 earth "$HERE/road.bore" --date 2026-11-25
says 'declination: 5.4; 4.31 is found at the entry, 1.09 degrees' 'tool on the line: 32.9 as read makes 37.53 on the grid' \
	'Settle which holds before'

# A local job is nowhere on earth, and needs no table of systems for anything else.
export PROJ_DATA=/nonexistent PROJ_LIB=/nonexistent
bore meadow 90/0 90/6
refuses 65 'sagbend earth --latitude LAT --longitude LON' earth "$HERE/meadow.bore"
gives 0 path "$HERE/meadow.bore"
gives 0 earth --latitude 45 --longitude 9 --date 2026-11-25
refuses 66 'proj-data' earth --crs EPSG:2278 --at 1,2
unset PROJ_DATA PROJ_LIB

# The job's unit and the map's must be one; so must the map and the numbers.
# other NAME LINE...: that job with other lines in its sheet
other() {
	local name=$1
	shift
	sheet "$HERE/$name.sheet"
	sed -i "$@" "$HERE/$name.sheet/job.ini"
	"$SAGBEND" new "$HERE/$name.bore" --sheet "$HERE/$name.sheet" --by maker >/dev/null 2>"$HERE/.err" || fail "$(<"$HERE/.err")"
}
other feet -e 's/^crs = .*/crs = EPSG:2278/'
refuses 65 'The job is in metres, but EPSG:2278' earth "$HERE/feet.bore"
other far -e 's/^crs = .*/crs = EPSG:32615/'
refuses 65 "The job's entry: The point lies at" earth "$HERE/far.bore"

# ---- refused ----

refuses 64 'Where?' earth
refuses 64 'One place at a time' earth --latitude 1 --longitude 2 --crs EPSG:2278 --at 1,2
refuses 64 'One place at a time' earth "$HERE/road.bore" --latitude 1 --longitude 2
refuses 64 'go together' earth --crs EPSG:2278
refuses 64 'go together' earth --latitude 30
refuses 64 '--height goes with' earth --crs EPSG:2278 --at 1,2 --height 3
refuses 64 '--height-unit is not for a job' earth "$HERE/road.bore" --height-unit m
refuses 65 'is outside the years of the magnetic model' earth --latitude 30 --longitude 2 --date 2024-12-31
refuses 65 '2025-01-01 to 2029-12-31' earth --latitude 30 --longitude 2 --date 2031-01-01
refuses 65 'Write it as 2026-11-25' earth --latitude 30 --longitude 2 --date 25.11.2026
refuses 65 'is not a day' earth --latitude 30 --longitude 2 --date 2027-02-29
refuses 65 '--latitude 90.1 cannot be: -90 to 90' earth --latitude 90.1 --longitude 2
refuses 65 '--longitude' earth --latitude 9 --longitude 361
refuses 65 '--latitude: ' earth --latitude nan --longitude 2
refuses 65 '--latitude: ' earth --latitude 29N --longitude 2
refuses 65 'A height of 900000 m' earth --latitude 9 --longitude 1 --height 900000
refuses 65 '--height-unit: ' earth --latitude 9 --longitude 1 --height 9 --height-unit yard
refuses 65 'is not a coordinate system' earth --crs 2278 --at 1,2
refuses 65 'is not in the table' earth --crs EPSG:999999 --at 1,2
refuses 65 'latitude and longitude, not a grid' earth --crs EPSG:4326 --at 1,2
refuses 65 'not east and north' earth --crs EPSG:3031 --at 1,2
refuses 65 'far outside the area' earth --crs EPSG:2278 --at 13841900.8581,3120099.0878
refuses 65 'A local grid is nowhere' earth --crs local --at 1,2
refuses 65 '--at, number 2: ' earth --crs EPSG:2278 --at 1,x
refuses 65 'is not two or three numbers' earth --crs EPSG:2278 --at 1
refuses 65 'is not two or three numbers' earth --crs EPSG:2278 --at 1,2,3,4
refuses 66 '' earth "$HERE/none.bore"
