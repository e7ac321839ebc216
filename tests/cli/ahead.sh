#!/usr/bin/env bash
# sagbend ahead: the plan in words and as JSON, from before the first joint to past the exit, on the sample crossings too;
# an order of one's own; where pulling back is the way.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

JOINT=joint,length,inclination,azimuth,tool_face,slid,station,offset,height

# What scripts rely on, whatever the job: the members that are promised, each of its type, and joints that follow one
# another from JOINT on.
promised() {
	local path
	for path in unit bit.depth bit.station bit.offset bit.height bit.inclination bit.azimuth corridor.level corridor.share \
		bend_budget.degrees bend_budget.up bend_budget.down bend_budget.left bend_budget.right; do
		[ -n "$(json "\$.$path")" ] || fail "$1: no $path"
	done
	# and no others: nothing that is another at the next call, as the time it took
	is "$(json_names '$')" unit,bit,corridor,bend_budget,response,plan,withdraw,clearances,cover "$1: members"
	is "$(json_names '$.plan')" feasible,rejoins_at_joint,for_exit,limit,short_by,words,joints "$1: members of the plan"
	is "$(json_sql "SELECT json_type(j, '\$.corridor.leaves_at_joint') IN ('integer', 'null') AND
		json_type(j, '\$.plan.feasible') IN ('true', 'false') AND
		json_type(j, '\$.plan.rejoins_at_joint') IN ('integer', 'null') AND
		json_type(j, '\$.withdraw') IN ('object', 'null') FROM o")" 1 "$1: types"
	is "$(json_names '$.plan.joints[0]' | cut -d, -f1-9)" "$JOINT" "$1: members of a joint"
	is "$(json '$.plan.joints[0].joint')" "$2" "$1: the first joint"
	is "$(json_sql "SELECT count(*) FROM o, json_each(j, '\$.plan.joints') AS k WHERE
		json_extract(k.value, '\$.joint') <> $2 + k.key OR
		(json_extract(k.value, '\$.slid') = 0) <> (json_type(k.value, '\$.tool_face') = 'null') OR
		json_extract(k.value, '\$.slid') NOT BETWEEN 0 AND json_extract(k.value, '\$.length') + 1e-9 OR
		json_extract(k.value, '\$.tool_face') NOT BETWEEN 0 AND 359.999999999 OR
		(k.key > 0 AND json_extract(k.value, '\$.station') <= json_extract(j, '\$.plan.joints[' || (k.key - 1) || '].station'))")" \
		0 "$1: joints that make no sense"
}

# ---- the sample crossings, at the start, on the way and at the end of their surveys ----

for sample in tern-slough kestrel-road; do
	surveys=sample-data/$sample/surveys.csv
	gives 0 new "$HERE/$sample.bore" --sheet "sample-data/$sample" --by maker
	for joints in 0 1 12 30; do
		cp "$HERE/$sample.bore" "$HERE/part.bore"
		if [ "$joints" != 0 ]; then
			head -$((joints + 1)) "$surveys" >"$HERE/part.csv"
			gives 0 import "$HERE/part.bore" "$HERE/part.csv" --by driller
		fi
		cp "$HERE/part.bore" "$HERE/before.bore"
		gives 0 ahead "$HERE/part.bore" --json
		no_warning
		promised "$sample after $joints joints" $((joints + 1))
		cp "$HERE/.out" "$HERE/first.json"
		gives 0 ahead "$HERE/part.bore" --json
		cmp -s "$HERE/.out" "$HERE/first.json" || fail "$sample after $joints joints: another answer when asked again"
		gives 0 ahead "$HERE/part.bore"
		no_warning
		says 'ground   ' 'why      '
		cmp -s "$HERE/part.bore" "$HERE/before.bore" || fail "ahead wrote to the file"
	done
done

# ---- an own job: 30 joints of 10 m on the level ----

# Before the first joint, from the staked entry: nothing to do but rotate.
job fresh
gives 0 ahead "$HERE/fresh.bore" --json
promised fresh 1
is "$(json '$.unit') $(json '$.bit.depth') $(json '$.bit.station')" 'm 0 0' "the staked entry"
is "$(json '$.bit.inclination') $(json '$.bit.azimuth')" '90 0' "its attitude"
is "$(json '$.plan.feasible') $(json '$.plan.joints[0].slid')" '1 0' "nothing to steer"
is "$(json '$.response.guess') $(json '$.withdraw')" '1 ' "the guess"
gives 0 ahead "$HERE/fresh.bore"
says 'no guess in the job sheet; taken from the bend limit' 'joint 1  rotate the joint' 'why      The bit is on the line'

# 0.52 m right and heading 3 degrees right: back to the left, and on the line in the end.
bore off 90/0 90/3 90/6 90/3
JOB=$HERE/off.bore
gives 0 ahead "$JOB" --json
promised off 5
is "$(json '$.plan.feasible')" 1 feasible
about "$(json '$.plan.joints[0].tool_face')" 270 5 "nine o'clock"
[ "$(json '$.plan.rejoins_at_joint')" -gt 5 ] || fail "does not say when it is back"
# what is too little to steer for is left as it is
about "$(json '$.plan.joints[#-1].offset')" 0 0.3 "on the line in the end"
about "$(json '$.plan.joints[#-1].azimuth')" 360 0.5 "and along it"

# An order of one's own: all of the joint at three o'clock turns further right, by what the ground is thought to give.
gives 0 ahead "$JOB" --tool-face 90 --slid 10 --json
promised tried 5
is "$(json '$.plan.joints[0].tool_face') $(json '$.plan.joints[0].slid')" '90 10' "the order as given"
turned=$(json_sql "SELECT json_extract(j, '\$.plan.joints[0].azimuth') - json_extract(j, '\$.bit.azimuth') FROM o")
about "$turned" "$(json_sql "SELECT 10 * json_extract(j, '\$.response.slide_turn') FROM o")" 0.3 "degrees turned"
gives 0 ahead "$JOB" --tool-face 90 --slid 0 --json
is "$(json '$.plan.joints[0].slid')" 0 "nothing slid"

# A joint of one's own to be back by: one that can be, one too soon, one behind, one past the exit.
gives 0 ahead "$JOB" --back-at 25 --json
is "$(json '$.plan.feasible')" 1 "by joint 25"
[ "$(json '$.plan.rejoins_at_joint')" -le 25 ] || fail "not back by joint 25"
gives 0 ahead "$JOB" --back-at 6
says 'Not on the line by joint 6: ' 'is the soonest.'
gives 0 ahead "$JOB" --back-at 4
says "Joint 4 is not ahead any more; the plan is the program's."
gives 0 ahead "$JOB" --back-at 4000
says "the plan is the program's."
gives 0 ahead "$JOB" --back-at 6 --tool-face 90 --slid 10
says 'joint 5  slide 10.0 m at' 'Not on the line by joint 6: '
refuses 64 "--back-at 'soon' is not a whole number." ahead "$JOB" --back-at soon
refuses 64 '--back-at 0 cannot be: a whole number from 1 to 1000000 is right.' ahead "$JOB" --back-at 0

# A tool face goes with a length, and a length with a tool face; neither can be what it cannot be.
refuses 64 '--tool-face and --slid go together: which way, and how far.' ahead "$JOB" --tool-face 90
refuses 64 '--tool-face and --slid go together: which way, and how far.' ahead "$JOB" --slid 3
refuses 65 '--slid 10.5: joint 5 is 10 m long, and no more of it can be slid.' ahead "$JOB" --slid 10.5 --tool-face 90
refuses 65 'A tool face from 0 to 360' ahead "$JOB" --slid 3 --tool-face 400
refuses 65 'A tool face from 0 to 360' ahead "$JOB" --slid=-1 --tool-face 40
refuses 65 "'much' is not a number" ahead "$JOB" --slid much --tool-face 40
refuses 66 'no such' ahead "$HERE/none.bore"
refuses 64 'does not know the option --by' ahead "$JOB" --by Ann
refuses 64 'Usage: ' ahead

# And what log takes of them: half an order is logged with a note, more than the joint is held.
cp "$JOB" "$HERE/half.bore"
gives 0 log "$HERE/half.bore" --inclination 90 --azimuth 3 --tool-face 30 --by driller
warns 'note: A tool face of 30, but nothing slid: how far is not known.'
gives 0 log "$HERE/half.bore" --inclination 90 --azimuth 3 --slid 3 --by driller
warns 'note: Slid 3 m, but no tool face: which way is not known.'
refuses 3 'more than there is' log "$HERE/half.bore" --inclination 90 --azimuth 3 --slid 12 --tool-face 0 --by driller
gives 0 ahead "$HERE/half.bore" --json
promised half 7

# ---- no way ----

# 1.4 m high with 0.6 m left above, heading 8 degrees up: at 120 m of radius it takes 120 (1 - cos 8), 1.2 m more.
bore lost 90/0 94/0 98/0
gives 0 ahead "$HERE/lost.bore" --json
no_warning
promised lost 4
is "$(json '$.plan.feasible') $(json '$.plan.rejoins_at_joint')" '0 ' "no way"
[ -n "$(json '$.plan.limit')" ] || fail "no limit is named"
[ "$(json '$.withdraw.joints')" -gt 0 ] || fail "no joint to pull back to"
is "$(json_sql "SELECT json_extract(j, '\$.withdraw.joints') + json_extract(j, '\$.withdraw.to_joint') FROM o")" 3 "joints that stay and go"
is "$(json '$.withdraw.plan.feasible')" 1 "the plan from there"
is "$(json_names '$.withdraw')" joints,to_joint,plan "members of a withdrawal"
is "$(json_sql "SELECT json_extract(j, '\$.withdraw.plan.joints[0].joint') - json_extract(j, '\$.withdraw.to_joint') FROM o")" 1 "its first joint"
back=$(json '$.withdraw.to_joint')
gives 0 ahead "$HERE/lost.bore"
says 'why      There is no way back inside every limit:' "to joint $back: from there it can be done."
# Pulled back to there, there is a plan.
gives 0 withdraw "$HERE/lost.bore" --to-joint "$back" --reason 'off line' --by driller
gives 0 ahead "$HERE/lost.bore" --json
promised 'pulled back' $((back + 1))
is "$(json '$.plan.feasible')" 1 "pulled back"

# Limits that contradict one another: the drill pipe may not bend as tightly as the design does.
sheet "$HERE/stiff" '[drill_pipe] sensor = 0'
sed -i '/^sensor = 0/d; s/^minimum_radius = 50/minimum_radius = 900/' "$HERE/stiff/job.ini"
printf 'station,elevation,radius\n0,100,\n100,100,400\n300,120,\n' >"$HERE/stiff/profile.csv"
sed -i 's/^exit = .*/exit = 1000, 5300, 120/' "$HERE/stiff/job.ini"
run new "$HERE/stiff.bore" --sheet "$HERE/stiff" --by maker
for _ in 1 2 3 4 5 6 7; do run log "$HERE/stiff.bore" --inclination 90 --azimuth 0 --by driller; done
gives 0 ahead "$HERE/stiff.bore" --json
is "$(json '$.plan.feasible') $(json '$.plan.limit')" '0 the bend limit of one joint' "the limit that the design breaks"

# ---- past the exit ----

sheet "$HERE/short"
sed -i 's/^exit = .*/exit = 1000, 5020, 100/' "$HERE/short/job.ini"
printf 'station,elevation,radius\n0,100,\n20,100,\n' >"$HERE/short/profile.csv"
gives 0 new "$HERE/short.bore" --sheet "$HERE/short" --by maker
for _ in 1 2; do gives 0 log "$HERE/short.bore" --inclination 90 --azimuth 0 --by driller; done
gives 0 log "$HERE/short.bore" --inclination 90 --azimuth 0 --by driller
gives 0 ahead "$HERE/short.bore"
is "$OUT" 'The bit is past the exit: there is nothing to plan.' "past the exit"
gives 0 ahead "$HERE/short.bore" --json
is "$(json '$.plan.feasible') $(json '$.plan.joints') $(json '$.withdraw')" '0 [] ' "past the exit"
