#!/usr/bin/env bash
# An azimuth by gyro is from true north: every way in refuses it while the job has no convergence, and says how to mend it.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore
printf 'inclination,azimuth,azimuth_by\n90,0,\n90,358,gyro\n' >"$HERE/gyro.csv"

refuses 65 'this job has no convergence' log "$JOB" --inclination 90 --azimuth 358 --azimuth-by gyro --by Bea
warns 'sagbend earth'
refuses 65 'this job has no convergence' whatif "$JOB" --inclination 90 --azimuth 358 --azimuth-by gyro
refuses 65 'this job has no convergence' correct "$JOB" --joint 1 --azimuth 358 --azimuth-by gyro --reason 'by gyro' --by Bea
gives 65 import "$JOB" "$HERE/gyro.csv" --by Bea
warns 'Nothing was logged' 'line 3, azimuth_by' 'this job has no convergence'
is "$(sql "$JOB" 'SELECT count(*) FROM reading')" 1 "readings after all that"

# With one it is turned: 358 from true north is 0 on a grid whose north lies 2 degrees west.
gives 0 change "$JOB" --set azimuth.convergence=-2 --reason 'sagbend earth' --by Bea
gives 0 log "$JOB" --inclination 90 --azimuth 358 --azimuth-by gyro --by Bea
gives 0 path "$JOB" --csv
about "$(cell 4 8)" 0 0.011 "offset by gyro"
