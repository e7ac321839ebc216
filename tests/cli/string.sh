#!/usr/bin/env bash
# sagbend string: joints and records one by one and from files, what is missing in words, and what is refused.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

sheet "$HERE/steel"
sed -i 's/^material = pe/material = steel/' "$HERE/steel/job.ini"
printf '[string]\ntest_pressure = 5000\ntest_hours = 8\n[pull]\nextra = 4\n' >>"$HERE/steel/job.ini"
JOB=$HERE/meadow.bore
gives 0 new "$JOB" --sheet "$HERE/steel" --by P
for _ in 1 2 3; do gives 0 log "$JOB" --inclination 90 --azimuth 0 --by D; done

gives 0 string "$JOB"
says 'Pipe string: 0 joints, 0.0 of 34.0 m asked: bore 30.0 so far, 4.0 past the' 'no joint of the string is laid out.' \
	'the pressure test has no record.' 'the drag section has no record.'

# one by one
gives 0 string "$JOB" joint --joint 1 --length 12.10 --mark 'H 7731' --by W
says 'Entered: joint 1, 12.10 m, H 7731. Missing: the string is 12.1 m long, 21.9 short of the bore and the 4.0 past it'
refuses 65 'Joint 1 is in the string already (entry 5)' string "$JOB" joint --joint 1 --length 12 --by W
refuses 65 'Joint 4 would leave a gap: joint 2 is next' string "$JOB" joint --joint 4 --length 12 --by W
refuses 64 '--length L is missing' string "$JOB" joint --joint 2 --by W
refuses 65 'length' string "$JOB" joint --joint 2 --length long --by W
refuses 66 'There is no weld 1: it would lie between joints 1 and 2, and joint 2 is not' string "$JOB" weld --joint 1 \
	--outcome good --by W
refuses 66 'There is no weld 7: it would lie between joints 7 and 8, and joint 7 is not' string "$JOB" weld --joint 7 \
	--outcome good --by W
refuses 66 'There is no joint 3 in the string.' string "$JOB" coating --joint 3 --outcome good --by W
refuses 64 '--outcome is missing' string "$JOB" coating --joint 1 --by W
refuses 65 'pressure' string "$JOB" coating --joint 1 --outcome good --pressure 5000 --by W
refuses 64 '--joint N is missing' string "$JOB" coating --outcome good --by W
refuses 64 "'welds' is no step of the string" string "$JOB" welds --by W
refuses 64 '--read stands alone' string "$JOB" joint --read "$HERE/joints.csv" --by W
refuses 64 'Of what?' string "$JOB" --outcome good --by W
refuses 65 'joint' string "$JOB" weld --joint first --outcome good --by W

# a file, looked at whole before anything is entered
printf 'mark,length,joint,heat no\nH 2,12.2,2,x\n,12.3,4,y\nH 4,-1,3,z\n' >"$HERE/joints.csv"
gives 65 string "$JOB" --read "$HERE/joints.csv" --by W
warns "the column 'heat no' is not used" 'line 3' 'Joint 4 would leave a gap: joint 3 is next' 'line 4' 'Nothing was entered.'
is "$(sql "$JOB" 'SELECT count(*) FROM pipe')" 1 "joints after a file that was refused"
printf 'mark;length;joint;remarks\nH 2;12,25;2;\nH 3;12,30;3;"cut short, bevelled anew"\n' >"$HERE/joints.csv"
gives 0 string "$JOB" --read "$HERE/joints.csv" --by W
says 'Entered: 2 joints of' 'joints.csv. Missing: welds 1 and 2 have no record; welds 1 and 2 have no inspection; joints 1 to 3'
is "$(sql "$JOB" "SELECT group_concat(length, ' ') FROM (SELECT length FROM pipe ORDER BY joint)")" '12.10 12.25 12.30' \
	"lengths as typed"
printf 'kind,joint,outcome,reference\nweld,1,good,W-1\nweld,2,bad,W-2\ninspection,1,good,X-1\nweld,3,good,W-3\n' >"$HERE/records.csv"
refuses_file() {
	gives 65 string "$JOB" --read "$1" --by W
	warns "$2"
}
refuses_file "$HERE/records.csv" 'There is no weld 3'
sed -i '$d' "$HERE/records.csv"
gives 0 string "$JOB" --read "$HERE/records.csv" --by W
printf 'kind,outcome\nwelding,good\n' >"$HERE/odd.csv"
refuses_file "$HERE/odd.csv" "'welding' is not one of weld, inspection, coating, test, drag"
printf 'kind,joint\nweld,1\n' >"$HERE/odd.csv"
refuses_file "$HERE/odd.csv" "the column 'outcome' is missing"
printf 'joint,lenght\n4,12\n' >"$HERE/odd.csv"
refuses_file "$HERE/odd.csv" "'length' is probably meant"
: >"$HERE/odd.csv"
refuses_file "$HERE/odd.csv" 'Nothing was entered.'
refuses 66 'There is no' string "$JOB" --read "$HERE/none.csv" --by W

# the last word holds: a bad weld, made again, is inspected again
gives 0 string "$JOB"
says 'weld 2 is bad.' 'weld 2 has no inspection.'
gives 0 string "$JOB" inspection --joint 2 --outcome good --reference X-2 --by W
gives 0 string "$JOB" weld --joint 2 --outcome bad --reference 'porosity' --by W
gives 0 string "$JOB" weld --joint 2 --outcome good --reference W-2R --by W
says 'Missing: weld 2 has no inspection;'
gives 0 string "$JOB" inspection --joint 2 --outcome good --reference X-2R --by W
for joint in 1 2 3; do gives 0 string "$JOB" coating --joint $joint --outcome good --reference "C-$joint" --by W; done
gives 0 string "$JOB" test --outcome good --pressure 4800 --hours 4 --reference T-1 --by W
says 'the pressure test held 4800 kPa, 5000 is asked; the pressure test was held for 4 hours, 8 are asked; the drag section has'
gives 0 string "$JOB" drag --outcome bad --by W
says 'the drag section came out bad.'
gives 0 string "$JOB" drag --outcome good --reference D-2 --by W
gives 0 string "$JOB" test --outcome good --pressure 5050 --hours 8 --reference T-2 --by W
says 'Entered: the pressure test good, 5050 kPa, 8 hours, T-2. Nothing of the string is missing.'

gives 0 string "$JOB" --json
is "$(json '$.ready')$(json '$.joints[1].weld.reference')$(json '$.test.pressure') $(json '$.length')" '1W-2R5050 36.65' \
	"the string as JSON"

# a slip is struck out: it stays in sight, and its place is asked for again
gives 0 strike "$JOB" --entry "$(json '$.joints[0].coating.entry')" --reason 'wrong joint' --by W
gives 0 string "$JOB"
says 'joint 1 has no coating test.' 'struck out: entry' 'the coating of joint 1 good, C-1'
gives 0 string "$JOB" --json
is "$(json_names '$.struck[0]') $(json '$.struck[0].kind') $(json '$.struck[0].by') $(json '$.units.pressure')" \
	'entry,kind,text,by pipe-record W kPa' "what was struck out, for scripts"
gives 0 verify "$JOB"

# polyethylene has no coating; fusions are its welds
bore fused 90/0
JOB=$HERE/fused.bore
gives 0 string "$JOB" joint --joint 1 --length 12 --by W
gives 0 string "$JOB" joint --joint 2 --length 12 --by W
says 'Missing: weld 1 has no record; weld 1 has no inspection; the pressure test has no record; the drag'
