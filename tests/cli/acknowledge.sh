#!/usr/bin/env bash
# sagbend acknowledge: a warning is accepted with a name and a reason; it stays in the file and in every report.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

# Joint 2 goes without a reading; joint 4 turns 8.5 degrees in 10 m, a radius of 67 m where 80 is allowed.
bore meadow 90/0
JOB=$HERE/meadow.bore
gives 0 log "$JOB" --no-reading --by driller
gives 0 log "$JOB" --inclination 90 --azimuth 0 --by driller
gives 0 log "$JOB" --inclination 90 --azimuth 8.5 --by driller
gives 2 check "$JOB" --json
kinds() { json_sql "SELECT group_concat(json_extract(value, '\$.kind') || ' ' || json_extract(value, '\$.joint') || ' ' ||
	coalesce(json_extract(value, '\$.acknowledged_by'), '-')) FROM o, json_each(j, '\$.checks')
	WHERE json_extract(value, '\$.level') <> 'ok'"; }
is "$(kinds)" 'joint-bend 4 -,missing-survey 2 -' "what is open"

refuses 64 '--kind KIND is missing' acknowledge "$JOB" --reason why
refuses 64 "no kind of warning called 'bendy'" acknowledge "$JOB" --kind bendy --reason why
refuses 64 '--reason TEXT is missing' acknowledge "$JOB" --kind joint-bend
refuses 66 'No corridor warning waits' acknowledge "$JOB" --kind corridor --reason why
refuses 66 'at that joint' acknowledge "$JOB" --kind joint-bend --joint 3 --reason why
refuses 64 'whole number' acknowledge "$JOB" --kind joint-bend --joint x --reason why
refuses 66 'no such' acknowledge "$HERE/none.bore" --kind corridor --reason why

gives 0 acknowledge "$JOB" --kind joint-bend --joint 4 --reason 'engineer accepts, letter 14' --by 'E. Engel'
says 'Acknowledged: Joint 4 bends to 67 m'
is "$(sql "$JOB" 'SELECT kind, who, words FROM act ORDER BY id DESC LIMIT 1')" \
	'acknowledge|E. Engel|engineer accepts, letter 14' "the act"

# Accepted, not undone: it counts as before, and says by whom.
gives 2 check "$JOB" --json
is "$(kinds)" 'joint-bend 4 E. Engel,missing-survey 2 -' "what is open"
gives 0 handover "$JOB"
says 'letter 14' 'E. Engel'
refuses 66 'waits to be acknowledged' acknowledge "$JOB" --kind joint-bend --reason again

# Without --joint, the newest of its kind that nobody has acknowledged.
gives 0 acknowledge "$JOB" --kind missing-survey --reason 'battery changed' --by Ann
gives 2 check "$JOB" --json
is "$(kinds)" 'joint-bend 4 E. Engel,missing-survey 2 Ann' "what is open"

# What log then warns of are the others.
gives 0 log "$JOB" --inclination 90 --azimuth 8.5 --by driller
[[ $ERR != *'Joint 4'* ]] || fail "an acknowledged warning is said again: $ERR"
gives 0 verify "$JOB"
