#!/usr/bin/env bash
# sagbend verify: the whole file, and each damaged row by name; exit status 4 when there is damage.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6 95/6
JOB=$HERE/meadow.bore
gives 0 verify "$JOB"
no_warning
says "$JOB: whole." "$(sql "$JOB" 'SELECT count(*) FROM journal') journal rows" \
	"chain head $(sql "$JOB" 'SELECT chain FROM journal ORDER BY seq DESC LIMIT 1')"

# One figure of an old row, changed by another program that knows no better than to take the trigger away first.
cp "$JOB" "$HERE/changed.bore"
trigger=$(sql "$JOB" "SELECT sql FROM sqlite_schema WHERE name = 'reading_is_not_changed'")
sqlite3 -batch "$HERE/changed.bore" "DROP TRIGGER reading_is_not_changed; UPDATE reading SET azimuth = '5' WHERE id = 2; $trigger;"
gives 4 verify "$HERE/changed.bore"
says 'reading 2' 'driller' 'damage' 'Go back to the last good backup'
no_warning

# A row more, a row less, an end that is cut off: compared with the head that was printed.
cp "$JOB" "$HERE/less.bore"
trigger=$(sql "$JOB" "SELECT sql FROM sqlite_schema WHERE name = 'reading_is_not_deleted'")
sqlite3 -batch "$HERE/less.bore" "DROP TRIGGER reading_is_not_deleted; DELETE FROM reading WHERE id = 3; $trigger;"
gives 4 verify "$HERE/less.bore"
says 'reading 3'
# A trigger that is not ours is named, whatever it does.
cp "$JOB" "$HERE/trap.bore"
sqlite3 -batch "$HERE/trap.bore" "CREATE TRIGGER trap AFTER INSERT ON reading BEGIN SELECT 1; END;"
gives 4 verify "$HERE/trap.bore"
says trap

# A byte in the middle, any of many: found or without meaning, never a crash; a cut at any place is refused.
size=$(stat -c %s "$JOB")
for i in {1..40}; do
	at=$((i * size / 41))
	cp "$JOB" "$HERE/byte.bore"
	printf '\245' | dd of="$HERE/byte.bore" bs=1 seek=$at conv=notrunc status=none
	run verify "$HERE/byte.bore"
	[[ $STATUS =~ ^(0|4|66)$ ]] || fail "status $STATUS with byte $at changed: $OUT $ERR"
	head -c $at "$JOB" >"$HERE/cut.bore"
	run verify "$HERE/cut.bore"
	[[ $STATUS =~ ^(4|66)$ ]] || fail "status $STATUS cut at $at: $OUT $ERR"
done

# What is no job at all.
refuses 66 'no such' verify "$HERE/none.bore"
echo 'easting,northing' >"$HERE/table.bore"
refuses 66 'not a job file' verify "$HERE/table.bore"
: >"$HERE/empty.bore"
refuses 66 'is empty' verify "$HERE/empty.bore"
refuses 66 'is not a file' verify "$HERE"
refuses 64 'JOB.bore' verify

# It does not disturb who writes.
hold "$JOB" Holger
gives 0 verify "$JOB"
release
