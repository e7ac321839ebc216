#!/usr/bin/env bash
# sagbend shift: a shift begins and ends, with names and remarks.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore
last() { sql "$JOB" "SELECT $1 FROM act ORDER BY id DESC LIMIT 1"; }

refuses 65 'No shift is running' shift "$JOB" --end 'quiet' --by Ed
gives 0 shift "$JOB" --begin 'Ed, Flo' --by Ed
is "$OUT" 'The shift has begun.' "what it says"
is "$(last 'kind, who, words')" 'shift-begin|Ed|Ed, Flo' "the act"
gives 0 handover "$JOB"
says 'Ed, Flo'

# Beginning one ends the one that runs.
gives 0 shift "$JOB" --begin 'Gus, Ida' --by Gus
gives 0 handover "$JOB"
says 'Gus, Ida'
gives 0 shift "$JOB" --end 'watch the mud pump' --by Gus
is "$OUT" 'The shift has ended.' "what it says"
is "$(last 'kind, who, words')" 'shift-end|Gus|watch the mud pump' "the act"
gives 0 handover "$JOB"
says 'watch the mud pump'
refuses 65 'No shift is running' shift "$JOB" --end 'twice' --by Gus

# Remarks may be empty, names may not.
gives 0 shift "$JOB" --begin 'Ed' --by Ed
gives 0 shift "$JOB" --end '' --by Ed
refuses 65 'names of the crew' shift "$JOB" --begin ' ' --by Ed
refuses 64 'either --begin NAMES or --end REMARKS' shift "$JOB" --by Ed
refuses 64 'either --begin NAMES or --end REMARKS' shift "$JOB" --begin Ed --end Ed
refuses 64 'needs a value' shift "$JOB" --begin
refuses 66 'no such' shift "$HERE/none.bore" --begin Ed --by Ed
gives 0 verify "$JOB"
