#!/usr/bin/env bash
# sagbend change: the reference and the tool change while the bore is drilled; earlier rows keep theirs.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0 90/0
JOB=$HERE/meadow.bore
right() { awk -v o="$(cell "$1" 8)" 'BEGIN { print (o > 0.1) }'; } # whether row $1 lies to the right

gives 0 change "$JOB" --set tool.azimuth_correction=5 --reason 'new tool' --by Bea
says 'tool azimuth_correction 5 (was not given)' 'from joint 4 on: new tool'
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Bea --reason 'as read'
gives 0 path "$JOB" --csv
is "$(cell 6 1),$(cell 6 6)" 4,0 "joint 4, its azimuth as read"
is "$(right 5)$(right 6)" 01 "where the joints before and after the change lie"

# Redone on purpose, from a joint on.
gives 0 change "$JOB" --set 'tool.azimuth_correction=5, tool.sensor_to_bit=0' --from-joint 2 --reason 'it was this one' --by Bea
gives 0 path "$JOB" --csv
is "$(right 3)$(right 4)" 01 "joints 1 and 2"
is "$(sql "$JOB" 'SELECT group_concat(key || from_joint) FROM settings_changed')" \
	azimuth_correction4,azimuth_correction2,sensor_to_bit2 "the changes that are kept"
gives 0 verify "$JOB"

# What cannot be is refused, and nothing changes.
refuses 64 '--set' change "$JOB" --reason x --by Bea
refuses 64 '--reason' change "$JOB" --set azimuth.declination=4 --by Bea
refuses 64 'SECTION.KEY=VALUE' change "$JOB" --set declination=4 --reason x --by Bea
refuses 64 'There is no setting [azimuth] north' change "$JOB" --set azimuth.north=4 --reason x --by Bea
refuses 65 'holds for the whole job' change "$JOB" --set job.unit=ft --reason x --by Bea
refuses 65 'not a number' change "$JOB" --set azimuth.declination=east --reason x --by Bea
refuses 65 'the next joint is 5' change "$JOB" --set azimuth.declination=4 --from-joint 6 --reason x --by Bea
refuses 65 'needs declination' change "$JOB" --set azimuth.reference=magnetic --reason x --by Bea
is "$(sql "$JOB" 'SELECT count(*) FROM settings_changed')" 3 "changes after all that"

# What is exported says what changed, and what is added to an azimuth now.
gives 0 export "$JOB" csv
says 'change_1' 'tool azimuth_correction 5' 'from joint 4 on: new tool' 'change_2' azimuth_to_grid_now '2 since the job began'

# A change that would leave a joint in the ground without an azimuth is refused by that joint: the declination that
# the magnetic reference needs holds from joint 3 on only.
bore lea 90/0 90/0
JOB=$HERE/lea.bore
gives 0 change "$JOB" --set azimuth.declination=3,azimuth.convergence=1 --reason 'known now' --by Bea
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Bea
refuses 65 'Joint 1 would be left without an azimuth' change "$JOB" --set azimuth.reference=magnetic --from-joint 1 --reason x \
	--by Bea
gives 0 change "$JOB" --set azimuth.reference=magnetic --from-joint 3 --reason 'as read' --by Bea
gives 0 verify "$JOB"
