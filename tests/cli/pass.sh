#!/usr/bin/env bash
# sagbend pass: begin, joint, end; what is refused, what needs a reason, what is warned of; files, JSON, striking out.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

SHEET=sample-data/tern-slough
JOB=$HERE/tern.bore
gives 0 new "$JOB" --sheet "$SHEET" --by P
gives 0 pass "$JOB"
says 'final hole    36 in or more, 1.5 times the pipe of 24 in; 38 in at most' 'No pass has begun.'
gives 0 import "$JOB" "$SHEET/surveys.csv" --by A
gives 0 withdraw "$JOB" --to-joint 33 --reason bend --by P
gives 0 import "$JOB" "$SHEET/surveys-redrill.csv" --by A
gives 0 fix "$JOB" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --by S

# a hold point: no reason opens it
refuses 65 'The pilot is not accepted: that is a hold point' pass "$JOB" begin --kind ream --diameter 24 --to entry --by A
refuses 65 'The pilot is not accepted' pass "$JOB" begin --kind ream --diameter 24 --to entry --remarks 'we are late' --by A
for point in 1 2 3; do gives 0 acceptance "$JOB" --tick $point --reference "letter $point" --by A; done
gives 0 acceptance "$JOB" --sign --capacity 'engineer of the owner' --statement 'Accepted for reaming.' --by 'B. Hale'

# the command line
refuses 64 "'ream' is no step of a pass: begin, joint or end." pass "$JOB" ream --by A
refuses 64 '--kind is missing' pass "$JOB" begin --diameter 24 --to entry --by A
refuses 64 '--diameter is missing' pass "$JOB" begin --kind ream --to entry --by A
refuses 64 '--to is missing' pass "$JOB" begin --kind ream --diameter 24 --by A
refuses 65 "'push' is not one of ream, swab" pass "$JOB" begin --kind push --diameter 24 --to entry --by A
refuses 65 '-3 cannot be' pass "$JOB" begin --kind ream --diameter=-3 --to entry --by A
refuses 65 'No pass runs: begin one first.' pass "$JOB" joint --by A
refuses 65 'No pass runs' pass "$JOB" end --by A
refuses 66 'There is no pass 1.' pass "$JOB" --pass 1

# a pass, joint by joint, over midnight
gives 0 pass "$JOB" begin --kind ream --diameter 24.0 --to entry --tool 'fly cutter' --by A
says 'Begun: ream of 24.0 in to the entry, fly cutter. Pass 1: 0 of 68 joints through, joint 68 next.' \
	'Time left: best 27 h 12 min, likely 37 h 47 min, by the sheet'
no_warning
refuses 65 'Pass 1 runs, 68 joints are left: end it first.' pass "$JOB" begin --kind ream --diameter 30 --to entry --by A
gives 0 pass "$JOB" joint --pull 13800 --torque 7600 --flow 410 --pressure 540 --annular 3.2 --started 23:20 --ended 23:50 --by A
says 'Opened: pass 1, joint 68. Pass 1: 1 of 68 joints through, joint 67 next.'
gives 0 pass "$JOB" joint --joint 67 --flow 400 --started 23:58 --ended 00:30 --returns partial --by A
refuses 65 'Joint 66 comes next in pass 1, not joint 60. If it is so, say why in the remarks.' pass "$JOB" joint --joint 60 --by A
refuses 65 'Pass 1 went through joint 67 already (entry' pass "$JOB" joint --joint 67 --by A
refuses 65 'There is no joint 69: the bore has joints 1 to 68.' pass "$JOB" joint --joint 69 --remarks why --by A
refuses 64 'whole number' pass "$JOB" joint --joint last --by A
refuses 65 'torque: ' pass "$JOB" joint --torque much --by A
refuses 65 'started: ' pass "$JOB" joint --started 25:00 --by A
refuses 65 'Pass 1 has 66 joints left, joint 66 first. If it ends all the same' pass "$JOB" end --by A
gives 0 pass "$JOB" joint --joint 67 --remarks 'tight: worked through once more' --by A
says '2 of 68 joints through, joint 66 next'
is "$(sql "$JOB" 'SELECT group_concat(diameter || joint, " ") FROM opening')" '24.068 24.067 24.067' "the view"
gives 0 pass "$JOB" --json
is "$(json '$.passes[0].joints[1].minutes')" 40 "minutes over midnight"
is "$(json '$.passes[0].joints[2].again')" 1 "the joint once more"
is "$(json '$.running')" 1 "the pass that runs"
# 31.21 ft of a ring from 12.25 to 24 in, 7.48051948 gal to the cubic foot: by another program
length=$(sql "$JOB" "SELECT joint_length FROM reading WHERE joint = 68 ORDER BY id DESC LIMIT 1")
about "$(json '$.passes[0].joints[0].cut')" \
	"$(awk -v l="$length" 'BEGIN { print atan2(0, -1) / 4 * (24 ^ 2 - 12.25 ^ 2) / 144 * l * 1728 / 231 }')" 0.001 "cuttings"
about "$(json '$.passes[0].pumped')" $((30 * 410 + 32 * 400)) 0.01 "what was pumped"
is "$(json '$.passes[0].best.left_min')" 1584 "66 joints at 2.5 an hour"

gives 0 pass "$JOB"
says 'through       best 2' ', without a break'

# struck out, and entered again
entry=$(sql "$JOB" 'SELECT max(act) FROM pass_joint')
gives 0 strike "$JOB" --entry "$entry" --reason 'not worked after all' --by A
gives 0 pass "$JOB"
says 'Struck out: counts for nothing' "entry $entry  pass 1, joint 67: tight: worked through once more (A)"
gives 0 pass "$JOB" --json
is "$(json '$.struck[0].entry') $(json '$.passes[0].done') $(json '$.checks')" "$entry 2 []" "what was struck out, for scripts"
gives 0 pass "$JOB" end --remarks 'cutters worn out' --by A
says 'Ended: pass 1, with 66 joints left.'
warns 'watch: Pass 1 was ended with 66 joints that it did not open, from joint 1 on'
gives 1 check "$JOB"

# a file, all or nothing
gives 0 pass "$JOB" begin --kind ream --diameter 24 --to entry --by A
warns 'watch: Pass 1 was ended with 66 joints'
sed 's/^1,/2,/' "$SHEET/pass-1.csv" >"$HERE/joints.csv"
sed '5d' "$HERE/joints.csv" >"$HERE/gap.csv"
gives 65 pass "$JOB" joint --read "$HERE/gap.csv" --by A
warns 'line 5' 'Joint 65 comes next in pass 2, not joint 64' 'Nothing was entered.'
refuses 66 'There is no' pass "$JOB" joint --read "$HERE/none.csv" --by A
gives 0 pass "$JOB" joint --read "$HERE/joints.csv" --by A
says 'Opened: 68 joints of' 'Pass 2 is through all 68 joints: end it.'
refuses 65 'Pass 2 is through all joints: end it.' pass "$JOB" joint --by A
gives 0 pass "$JOB" end --by A
says 'Ended: pass 2, through the whole bore.'

# the contract's limits are breaches, and non-conformances by themselves
gives 0 pass "$JOB" begin --kind ream --diameter 40 --to exit --by A
warns 'breach: Pass 3' '1 more: see pass.'
gives 2 check "$JOB" --json
is "$(json_sql "SELECT count(*) FROM o, json_each(j, '\$.checks') WHERE json_extract(value, '\$.kind') = 'opening' AND
	json_extract(value, '\$.level') = 'breach'")" 1 "the breach in check"
gives 0 nonconformance "$JOB"
says 'opening the hole' 'Pass 3'
gives 0 pass "$JOB"
says 'breach        Pass 3 opens the hole to 40 in; the contract takes 38 at most.' \
	'breach        Pass 3 reams towards the exit, which the contract forbids without'
gives 0 strike "$JOB" --entry "$(sql "$JOB" 'SELECT max(act) FROM pass')" --reason 'wrong pass' --by A
gives 0 pass "$JOB"
says 'rules         ok: the passes keep'
gives 0 nonconformance "$JOB"
says '0 of 1 open.'

# swab before the hole is wide enough
gives 0 pass "$JOB" begin --kind swab --diameter 20 --to entry --by A
warns 'breach: The largest reamer was 24.0 in; 36 in is asked for round a pipe of 24.'
gives 0 verify "$JOB"

# two final diameters in a sheet that do not go together
mkdir "$HERE/odd"
cp "$SHEET"/*.csv "$HERE/odd"
sed 's/^final_diameter = 36/final_diameter = 34/' "$SHEET/job.ini" >"$HERE/odd/job.ini"
gives 0 new "$HERE/odd.bore" --sheet "$HERE/odd" --by P
warns 'The final_diameter of [hole] is 34 in, and good practice asks for 36 or more round a pipe of 24'
gives 0 pass "$HERE/odd.bore"
says 'The final_diameter of [hole] is 34 in'
sed 's/^final_most = 38/final_most = 35/' "$SHEET/job.ini" >"$HERE/odd/job.ini"
gives 65 new "$HERE/odd2.bore" --sheet "$HERE/odd" --by P
warns 'final_most' 'a final hole of 35 at most is smaller than the smallest that [opening] takes, 36.'

# a product pipe that the hole would load beyond what it may bear: said when a pass begins, before anything is pulled
sed 's/^yield = 60000/yield = 18000/' "$SHEET/job.ini" >"$HERE/odd/job.ini"
WEAK=$HERE/weak.bore
gives 0 new "$WEAK" --sheet "$HERE/odd" --by P
gives 0 import "$WEAK" "$SHEET/surveys.csv" --by A
gives 0 withdraw "$WEAK" --to-joint 33 --reason bend --by P
gives 0 import "$WEAK" "$SHEET/surveys-redrill.csv" --by A
gives 0 fix "$WEAK" --kind exit --depth 2112.8 --easting 657260.74 --northing 1565209.80 --elevation 42.06 \
	--sigma-along 0.05 --sigma-across 0.05 --sigma-up 0.03 --by S
gives 1 check "$WEAK"
for point in 1 2 3; do gives 0 acceptance "$WEAK" --tick $point --reference "letter $point" --by A; done
gives 0 acceptance "$WEAK" --sign --capacity engineer --statement 'Accepted for reaming.' --by 'B. Hale'
gives 0 pass "$WEAK" begin --kind ream --diameter 36 --to entry --by A
warns 'breach: Estimate: 1.' 'may bear (tension, bending and outside pressure), at station 616.2, joint 21; 1 is allowed' 'The engineer decides before pipe goes in'
gives 2 check "$WEAK" --json
is "$(json_sql "SELECT json_extract(value, '\$.joint') || ' ' || json_extract(value, '\$.limit')
	FROM o, json_each(j, '\$.checks') WHERE json_extract(value, '\$.kind') = 'pipe-share'")" '21 1' "the share that is judged"
gives 0 nonconformance "$WEAK"
says 'product pipe, joint 21'
gives 0 explain "$WEAK" --figure pipe-share --joint 21
gives 0 verify "$WEAK"

# a file that cannot be written
chmod a-w "$JOB"
[ "$(id -u)" = 0 ] || refuses 77 'permission' pass "$JOB" joint --by A
