#!/usr/bin/env bash
# sagbend compute: the bare engine as a filter, against published surveys.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

computes() { run compute "$@" <"$HERE/in.csv"; }

# Two stations, and where the second lies from the first: recomputed here in awk and compared to 1e-9. Published
# figures have fewer digits; they are compared afterwards, to half of their last one.
two_stations() {
	printf 'md,inclination,azimuth\n%s\n%s\n' "$1" "$2" >"$HERE/in.csv"
	computes
	[ "$STATUS" = 0 ] || fail "status $STATUS: $ERR"
	no_warning
	is "$(cell 1 1),$(cell 1 2),$(cell 1 3)" md,inclination,azimuth "the header"
	is "$(head -1 "$HERE/.out")" $'md,inclination,azimuth,north,east,up,dogleg,radius\r' "the header"
	is "$(cell 2 4),$(cell 2 5),$(cell 2 6),$(cell 2 7),$(cell 2 8)" "0,0,0,0," "the start"
	own=$(printf '%s,%s\n' "$1" "$2" | awk -F, '
		function asin(x) { return atan2(x, sqrt(1 - x * x)) }
		{
			rad = atan2(0, -1) / 180
			i = $2 * rad; a = $3 * rad; I = $5 * rad; A = $6 * rad; L = $4 - $1
			s = sin((I - i) / 2); t = sin((A - a) / 2)
			b = 2 * asin(sqrt(s * s + sin(i) * sin(I) * t * t))
			f = b > 1e-4 ? tan_half(b) * 2 / b : 1 + b * b / 12
			printf "%.9f %.9f %.9f %.9f %.9f\n", L / 2 * f * (sin(i) * cos(a) + sin(I) * cos(A)),
				L / 2 * f * (sin(i) * sin(a) + sin(I) * sin(A)), -L / 2 * f * (cos(i) + cos(I)), b / rad, L / b
		}
		function tan_half(b) { return sin(b / 2) / cos(b / 2) }')
	read -r n e u dogleg radius <<<"$own"
	about "$(cell 3 4)" "$n" 1.1e-9 "north of $2"
	about "$(cell 3 5)" "$e" 1.1e-9 "east of $2"
	about "$(cell 3 6)" "$u" 1.1e-9 "up of $2"
	about "$(cell 3 7)" "$dogleg" 1.1e-9 "dogleg of $2"
	about "$(cell 3 8)" "$radius" 2e-6 "radius of $2"
}

# drillingformulas.com, minimum curvature (after Lapeyrouse, Formulas and Calculations for Drilling, Production and
# Workover, 2nd ed.): N 27.22, E 19.45, TVD 94.01. Its printed ratio factor is a misprint; its coordinates are right.
two_stations 3500,15,20 3600,25,45
about "$(cell 3 4)" 27.22 0.005 north
about "$(cell 3 5)" 19.45 0.005 east
about "$(cell 3 6)" -94.01 0.005 up
about "$(cell 3 7)" 12.95 0.005 dogleg

# The same site, dogleg severity: 10.22 degrees per 100 ft.
two_stations 7500,45,130 7595,52,139
awk -v d="$(cell 3 7)" 'BEGIN { s = d / 95 * 100; exit !(s > 10.215 && s < 10.225) }' || fail "dogleg severity: $(cell 3 7)"

# Lapeyrouse's pair; minimum curvature derived, no publication: N 27.4204, E 13.7986, V 298.3413.
two_stations 7482,4,10 7782,8,35
about "$(cell 3 4)" 27.4204 0.00005 north
about "$(cell 3 5)" 13.7986 0.00005 east
about "$(cell 3 6)" -298.3413 0.00005 up

# Online petroleum formula reference, planar builds: departure 363.424213 in 596.93 ft from 0 to 83.57 degrees; depth
# 413.496672 in 500 ft from 0 to 60.
two_stations 0,0,0 596.93,83.57,0
about "$(cell 3 4)" 363.424213 5e-7 departure
two_stations 0,0,0 500,60,0
about "$(cell 3 6)" -413.496672 5e-7 depth

# Derived, no publication: nearly straight, across north, through level.
two_stations 0,88.0,45.0 9.6,88.0001,45.0001
about "$(cell 3 4)" 6.784084 5e-7 north
two_stations 0,88,359.5 10,88,0.5
about "$(cell 3 4)" 9.993781 5e-7 north
about "$(cell 3 5)" 0 1e-9 east
about "$(cell 3 7)" 0.99939081 5e-9 dogleg
about "$(cell 3 8)" 573.3070 5e-5 radius
two_stations 0,85,0 30,95,0
about "$(cell 3 4)" 29.961937 5e-7 north
about "$(cell 3 6)" 0 1e-9 up
about "$(cell 3 8)" 171.887339 5e-7 radius

# Well 1 of the ISCWSA test wells (Williamson 2000, SPE 67616), from memory; N, E, TVD to 0.01.
cat >"$HERE/in.csv" <<'END'
md,inclination,azimuth
1200,0,0
2100,60,75
5100,60,75
5400,90,75
8000,90,75
END
computes --start 0,0,-1200
is "$STATUS" 0 status
while read -r row n e u; do
	about "$(cell "$row" 4)" "$n" 0.005 "north in row $row"
	about "$(cell "$row" 5)" "$e" 0.005 "east in row $row"
	about "$(cell "$row" 6)" "$u" 0.005 "up in row $row"
done <<'END'
2 0 0 -1200.00
3 111.22 415.08 -1944.29
4 783.65 2924.62 -3444.29
5 857.80 3201.34 -3521.06
6 1530.73 5712.75 -3521.06
END
is "$(cell 4 7)" 0 "the dogleg of a straight course"
is "$(cell 4 8)" "" "the radius of a straight course"

# One arc typed in three conventions is one arc; what was typed comes out as it was typed.
printf 'md,inclination,azimuth\n0,84.00,10\n30,93,12.50\n' >"$HERE/in.csv"
computes
down=$(cut -d, -f4- "$HERE/.out")
is "$(cell 2 2)" 84.00 "inclination as typed"
is "$(cell 3 3)" 12.50 "azimuth as typed"
printf 'md,inclination,azimuth\n0,-6.00,10\n30,3,12.50\n' >"$HERE/in.csv"
computes --inclination level
is "$(cut -d, -f4- "$HERE/.out")" "$down" "the path by level"
printf 'md,inclination,azimuth\n0,-10.510423526567646,10\n30,5.240777928304121,12.50\n' >"$HERE/in.csv"
computes --inclination=grade
is "$(cut -d, -f4- "$HERE/.out")" "$down" "the path by grade"

# Columns in any order and case, semicolons and decimal commas, a byte order mark, CR LF, blank lines, other columns.
printf '\357\273\277Remarks;Azimuth;MD;Inclination\r\n"a;b";45;3600;25,5\r\n\r\n;45;3600,5;25,5\r\n' >"$HERE/in.csv"
computes -
is "$STATUS" 0 "status: $ERR"
is "$(cell 3 1)" 3600.5 "a decimal comma"
is "$(wc -l <"$HERE/.out")" 3 "lines"

# A file instead of standard input; the start.
run compute "$HERE/in.csv" --start 100,-5.5,1e3
is "$STATUS" 64 "status of a start with an exponent"
gives 0 compute "$HERE/in.csv" --start '100,-5.5,1000'
is "$(cell 2 4),$(cell 2 5),$(cell 2 6)" 100,-5.5,1000 "the start"

# Zero length, level past level, turning right back.
printf 'md,inclination,azimuth\n5,90,0\n5,90,0\n15,100,0\n25,80,180\n' >"$HERE/in.csv"
computes
is "$(cell 3 4),$(cell 3 7),$(cell 3 8)" 0,0, "a course of no length"
is "$STATUS" 0 status
warns 'line 5 turns right back'
about "$(cell 5 7)" 180 1e-9 "turning right back"

# What is wrong is said by line and column, and what came before it stands.
wrong() {
	local words=$1
	shift
	printf 'md,inclination,azimuth\n0,90,0\n%s\n' "$*" >"$HERE/in.csv"
	computes
	is "$STATUS" 65 "status of $*"
	warns 'standard input line 3' "$words"
	is "$(wc -l <"$HERE/.out")" 2 "lines before what is wrong"
}
wrong 'md: -1 goes back' -1,90,0
wrong 'azimuth: 361' 1,90,361
wrong 'inclination: 181' 1,181,0
wrong "'x' is not a number" 1,x,0
wrong 'inclination: ' 1,,0
wrong "nan" nan,90,0
wrong '2 cells' 1,90
wrong "5 cells" 1,5,90,0,5
printf 'md,inclination\n0,90\n' >"$HERE/in.csv"
computes
is "$STATUS" 65 "status without a column"
warns 'line 1, azimuth: there is no such column'
: >"$HERE/in.csv"
computes
is "$STATUS" 65 "status of nothing"
warns 'nothing in this file'

refuses 66 "There is no '$HERE/none.csv'" compute "$HERE/none.csv"
gives 65 compute "$HERE"
warns 'is a folder'
refuses 64 'is not three numbers' compute --start 1,2
refuses 64 'more than three' compute --start 1,2,3,4
refuses 64 'not an inclination convention' compute --inclination up
refuses 64 'one word too many' compute a b

# A long survey goes through: 100,000 stations.
awk 'BEGIN { print "md,inclination,azimuth"; for (i = 0; i < 100000; i++) printf "%d,%.2f,%.2f\n", i * 10, 90 + i % 5, i % 360 / 100 }' >"$HERE/in.csv"
computes
is "$STATUS" 0 status
is "$(wc -l <"$HERE/.out")" 100001 lines
