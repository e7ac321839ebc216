#!/usr/bin/env bash
# sagbend pull: the hold point, joint by joint beside the limit, the end, and what is refused.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# Twelve joints of 10 m on the level; fused pipe.
sheet "$HERE/sheet"
printf '[pull]\nsafe_force = 100\n[acceptance]\nexit_survey = no\n' >>"$HERE/sheet/job.ini"
JOB=$HERE/meadow.bore
gives 0 new "$JOB" --sheet "$HERE/sheet" --by P
gives 0 pull "$JOB"
says 'The pull has not begun. It waits for this:' 'the pilot is not accepted.' 'no pass of a reamer is entered'
refuses 65 'no joint was drilled' pull "$JOB" begin --remarks why --by P
for _ in {1..5}; do gives 0 log "$JOB" --inclination 90 --azimuth 0 --by D; done

# the hold point: a named person says why
refuses 65 'The pull cannot begin: the pilot is not accepted; no pass of a reamer is entered' pull "$JOB" begin --by P
refuses 65 'The pull has not begun.' pull "$JOB" joint --joint 5 --force 20 --by P
refuses 65 'The pull has not begun.' pull "$JOB" end --coating sound --by P
gives 0 pull "$JOB" begin --remarks 'the owner asks for it, letter 9' --by 'B. Hale'
says 'Begun: the pull, with something missing. 0 of 5 joints are out;'
warns 'watch: The pull began with this missing: the pilot is not accepted;' 'B. Hale says why'
gives 0 pull "$JOB"
says 'The pull was begun by B. Hale with this missing: the pilot is not accepted;' 'letter 9' '0 of 5 joints are out;'
refuses 65 'The pull has begun already.' pull "$JOB" begin --remarks why --by P
gives 1 check "$JOB"
says 'The pull began with this missing'
gives 0 history "$JOB"
says 'the owner asks for it, letter'

# joint by joint
refuses 64 '--force F is missing' pull "$JOB" joint --joint 5 --by P
refuses 65 'There is no joint 6: the bore has joints 5 to 1' pull "$JOB" joint --joint 6 --force 20 --by P
refuses 65 'Joint 5 comes out next, not joint 4.' pull "$JOB" joint --joint 4 --force 20 --by P
refuses 65 'force' pull "$JOB" joint --joint 5 --force much --by P
refuses 64 "'out' is no step of the pull" pull "$JOB" out --by P
refuses 64 'What of the pull?' pull "$JOB" --force 20 --by P
gives 0 pull "$JOB" joint --joint 5 --force 20.5 --torque 3 --started 9:00 --ended 9:10 --by P
says 'Joint 5: 20.5 kN at the rig, 20 % of the safe pull limit of 100.' '1 of 5 joints is out; the head is at depth 40.0 m'
refuses 65 'Joint 5 is out already (entry' pull "$JOB" joint --joint 5 --force 20 --by P

# a file: all or nothing
printf 'joint,force,started,ended\n4,30,09:12,09:22\n2,50,09:30,09:40\n' >"$HERE/pull.csv"
gives 65 pull "$JOB" joint --read "$HERE/pull.csv" --by P
warns 'line 3' 'Joint 3 comes out next, not joint 2.' 'Nothing was entered.'
# a slip is said once, and not again for every row behind it
printf 'joint,force\n4,thirty\n3,40\n2,50\n1,60\n' >"$HERE/pull.csv"
gives 65 pull "$JOB" joint --read "$HERE/pull.csv" --by P
warns 'line 2' 'has 1 error'
printf 'joint,force,started,ended\n4,30,09:12,09:22\n3,100.1,09:24,09:34\n' >"$HERE/pull.csv"
gives 0 pull "$JOB" joint --read "$HERE/pull.csv" --by P
says 'Out: 2 joints of' '3 of 5 joints are out; the head is at depth 20.0 m' '2 joints left; for how long' '1.00 m a minute'
warns 'breach: Joint 3: 100.1 kN at the rig, over the safe pull limit of 100. Stop pulling'
gives 0 pull "$JOB"
says '    3      20.0     100.1' 'OVER'
gives 2 check "$JOB"
says 'Joint 3: 100.1 kN at the rig, over the safe pull limit of 100. Stop'
gives 0 nonconformance "$JOB"
says 'pull force, joint 3'
gives 0 pull "$JOB" --json
is "$(json '$.state') $(json '$.joints_left') $(json '$.joints[2].share') $(json '$.joints[2].force')" 'running 2 1.001 100.1' \
	"the pull as JSON"

# a slip is struck out
gives 0 strike "$JOB" --entry "$(json '$.joints[2].entry')" --reason 'one nought too many' --by P
gives 0 pull "$JOB"
says 'struck out: entry' 'joint 3, 100.1 kN' '2 of 5 joints are out'
gives 1 check "$JOB"
gives 0 pull "$JOB" joint --force 40 --by P
says 'Out: joint 3, 40 kN.'

# the end
refuses 65 'The pull head is still in the hole: 2 joints are left to come out, joint 2 first.' pull "$JOB" end --coating sound \
	--by P
gives 0 pull "$JOB" joint --joint 1 --force 60 --remarks 'the gauge was dark over joint 2' --by P
refuses 64 '--coating is missing' pull "$JOB" end --by P
refuses 65 'coating' pull "$JOB" end --coating rough --by P
gives 0 pull "$JOB" end --coating scratched --extra 1 --survey 'S-9' --by P
says 'All 5 joints are out: the head is at the entry.' 'Only 1 m of pipe were pulled out past the entry, 1.5 asked.' \
	'The coating came out scratched.' 'Final survey: S-9.'
refuses 65 'The pull is ended (entry' pull "$JOB" joint --joint 2 --force 50 --by P
gives 1 check "$JOB"
says 'coating, at the entry, station' 'The coating came out scratched.'
gives 0 pull "$JOB" --json
is "$(json_names '$.struck[0]') $(json '$.struck[0].by') $(json '$.units.force')" 'entry,kind,text,by P kN' \
	"what was struck out, for scripts"
is "$(json '$.state')$(json '$.coating')$(json '$.extra')" ended"scratched1" "how it ended"
gives 0 verify "$JOB"

# Nothing missing: it begins without a reason, and nothing is warned of. Sixteen joints, past the middle of the design.
JOB=$HERE/whole.bore
sed -i 's/^\[hole\]$//; $a [hole]\nfinal_diameter = 320\n[string]\ntest_pressure = 800\n[fluid]\nweight = 1080' "$HERE/sheet/job.ini"
sed -i 's/^wall = 18$/wall = 18\nmodulus = 400\npull_stress = 8/' "$HERE/sheet/job.ini"
gives 0 new "$JOB" --sheet "$HERE/sheet" --by P
for _ in {1..16}; do gives 0 log "$JOB" --inclination 90 --azimuth 0 --by D; done
gives 0 acceptance "$JOB" --sign --capacity engineer --statement 'Accepted.' --by 'B. Hale'
gives 0 pull "$JOB"
says 'no pass of a reamer is entered' 'no joint of the string is laid out.'
{
	echo pass,joint
	for joint in {16..1}; do echo "1,$joint"; done
} >"$HERE/ream.csv"
sed 's/^1,/2,/' "$HERE/ream.csv" >"$HERE/swab.csv"
gives 0 pass "$JOB" begin --kind ream --diameter 320 --to entry --by A
refuses 65 'pass 1 is not ended, 16 joints left' pull "$JOB" begin --by A
gives 0 pass "$JOB" joint --read "$HERE/ream.csv" --by A
gives 0 pass "$JOB" end --by A
refuses 65 'no swab went through the hole since pass 1' pull "$JOB" begin --by A
gives 0 pass "$JOB" begin --kind swab --diameter 260 --to entry --by A
gives 0 pass "$JOB" joint --read "$HERE/swab.csv" --by A
gives 0 pass "$JOB" end --by A
printf 'joint,length\n1,82\n2,81\n' >"$HERE/string.csv"
printf 'kind,joint,outcome,pressure\nweld,1,good,\ninspection,1,good,\ntest,,good,820\ndrag,,good,\n' >"$HERE/records.csv"
gives 0 string "$JOB" --read "$HERE/string.csv" --by W
gives 0 string "$JOB" --read "$HERE/records.csv" --by W
says 'Nothing of the string is missing.'
gives 0 pull "$JOB"
says 'The pull has not begun. Nothing is missing: it can begin.'
gives 0 pull "$JOB" begin --by W
says 'Begun: the pull, nothing is missing. 0 of 16 joints are out;'
no_warning

# beside the estimate: above its band is a watch, back inside it the warning is past
gives 0 pull "$JOB" --json
low=$(json '$.safe_force')
is "$low" 100 "the limit of the sheet"
gives 0 pull "$JOB" joint --force 95 --by W
warns 'watch: Joint 16: 95 kN at the rig, above the estimate'
says 'The estimate is' 'it is above its band of'
gives 1 check "$JOB"
says 'pull force, joint 16, station 1+60.0, open'
gives 0 pull "$JOB" --json
estimate=$(json '$.joints[0].estimate')
gives 0 pull "$JOB" joint --force "$(printf %.3f "$estimate")" --by W
says 'within its band' 'It fell by'
gives 1 check "$JOB"
says 'pull force, joint 16, station 1+60.0'
gives 0 pull "$JOB" --json
is "$(json '$.joints[0].band') $(json '$.joints[1].band')" 'above within' "where the forces lie"
gives 0 verify "$JOB"

# what was pulled before stays entered when the pipe string is struck at
refuses 65 'stands on it' strike "$JOB" --entry "$(sql "$JOB" 'SELECT max(act) FROM pipe')" --reason why --by W

# The pilot opened again and its end pulled back: what came out of it stays readable, and harms nothing.
gives 0 acceptance "$JOB" --reopen --reason 'to see' --by 'B. Hale'
gives 0 withdraw "$JOB" --to-joint 14 --reason 'to see' --by A
gives 0 pull "$JOB"
says '0 of 14 joints are out;'
gives 0 pull "$JOB" --json
is "$(json '$.joints_left')" 14 "joints left of a shorter bore"
gives 0 history "$JOB"
says 'joint 16, 95 kN'
gives 0 verify "$JOB"
