#!/usr/bin/env bash
# sagbend backup: a checked copy, also while the job is in use.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6 95/6
JOB=$HERE/meadow.bore
gives 0 backup "$JOB" "$HERE/stick copy é.bore"
is "$OUT" "$HERE/stick copy é.bore: a whole copy, checked and on the disk." "what it says"
no_warning
gives 0 verify "$HERE/stick copy é.bore"
copy=${OUT#*: }
gives 0 verify "$JOB"
is "${OUT#*: }" "$copy" "what verify says of the two"
gives 0 path "$JOB" --csv
path=$OUT
gives 0 path "$HERE/stick copy é.bore" --csv
is "$OUT" "$path" "the path in the copy"

# The copy is a job of its own.
gives 0 log "$HERE/stick copy é.bore" --inclination 95 --azimuth 6
gives 0 path "$JOB" --csv
is "$OUT" "$path" "the path of the first"

# While somebody writes.
hold "$JOB" Holger
gives 0 backup "$JOB" "$HERE/second.bore"
release
gives 0 verify "$HERE/second.bore"

# Nothing is written over, nothing is left behind.
echo precious >"$HERE/there.bore"
before=$(find "$HERE" | sort)
refuses 73 'is there already' backup "$JOB" "$HERE/there.bore"
is "$(<"$HERE/there.bore")" precious "the file that was there"
refuses 73 'is there already' backup "$JOB" "$JOB"
refuses 73 'is there already' backup "$JOB" "$HERE"
refuses 66 'no such' backup "$JOB" "$HERE/nowhere/copy.bore"
refuses 66 'no such' backup "$HERE/none.bore" "$HERE/copy.bore"
refuses 64 'COPY.bore' backup "$JOB"
(
	ulimit -f 8
	"$SAGBEND" backup "$JOB" "$HERE/limited.bore" >/dev/null 2>&1
)
is $? 73 "status at a size limit"
is "$(find "$HERE" | sort)" "$before" "files after the refusals"
echo 'no job' >"$HERE/other.bore"
refuses 66 'not a job file' backup "$HERE/other.bore" "$HERE/copy.bore"
[ ! -e "$HERE/copy.bore" ] || fail "a copy was made of what is no job"
