#!/usr/bin/env bash
# sagbend change: the reference and the tool change while the bore is drilled; earlier rows keep theirs.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/0 90/0
JOB=$HERE/meadow.bore

gives 0 change "$JOB" --set tool.azimuth_correction=5 --reason 'new tool' --by Bea
says 'tool azimuth_correction 5 (was not given)' 'from joint 4 on: new tool'
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by Bea --reason 'as read'
gives 0 path "$JOB" --csv
before=$(cell 5 8)
is "$(cell 5 6),$(cell 4 8)" 0,0 "azimuths as read, and the offset before the change"
is "$(awk -v o="$before" 'BEGIN { print (o > 0.1) }')" 1 "the offset after it"

# Redone on purpose, from a joint on.
gives 0 change "$JOB" --set tool.azimuth_correction=5,tool.sensor_to_bit=0 --from-joint 2 --reason 'it was this one' --by Bea
gives 0 path "$JOB" --csv
is "$(awk -v o="$(cell 4 8)" 'BEGIN { print (o > 0.1) }')" 1 "the offset of joint 2"
is "$(sql "$JOB" 'SELECT count(*) FROM settings_changed')" 3 "changes that are kept"
gives 0 verify "$JOB"

# What cannot be.
refuses 64 change "$JOB" --reason x --by Bea
refuses 64 change "$JOB" --set azimuth.declination=4 --by Bea
refuses 64 change "$JOB" --set declination=4 --reason x --by Bea
refuses 64 change "$JOB" --set azimuth.north=4 --reason x --by Bea
complains 'There is no setting \[azimuth\] north'
