#!/usr/bin/env bash
# The examples of sagbend-job(5) run as they stand there, on a job made of the sample data, and the chain that
# sqlite3 and b2sum make of the journal is the one that the program prints.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
here=$(mktemp -d)
trap 'rm -rf "$here"' EXIT
fail() {
	echo "$1" >&2
	exit 1
}

# The lines of the example of that name, as a reader of the page sees them.
example() {
	awk -v name="$1" '
		$0 == ".\\\" example: " name { wanted = 1 }
		wanted && /^\.Ed/ { exit }
		wanted && begun { gsub(/\\e/, "\\"); print }
		wanted && /^\.Bd/ { begun = 1 }' "$top/man/sagbend-job.5" >"$here/$1.sh"
	[ -s "$here/$1.sh" ] || fail "sagbend-job(5) has no example '$1'"
	(cd "$here" && bash -eu "$1.sh") || fail "the example '$1' of sagbend-job(5) fails"
}

cd "$here"
sheet=$top/sample-data/tern-slough
"$SAGBEND" new tern.bore --sheet "$sheet" --by "M. Okafor" >/dev/null
"$SAGBEND" import tern.bore "$sheet/surveys.csv" --by "M. Okafor" >/dev/null 2>&1
"$SAGBEND" correct tern.bore --joint 12 --remarks "sand" --reason "left out" --by "M. Okafor" >/dev/null 2>&1
"$SAGBEND" withdraw tern.bore --to-joint 33 --reason "bend too tight" --by "T. Lund" >/dev/null
"$SAGBEND" import tern.bore "$sheet/surveys-redrill.csv" --by "T. Lund" >/dev/null 2>&1

# the chain, made by other hands
head=$("$SAGBEND" verify tern.bore | sed -n 's/.*chain head //p')
chain=$(example chain)
[ "$chain" = "$head" ] || fail "sqlite3 and b2sum make another chain: $chain, not $head"

digests=$(example digest)
[ "$(wc -l <<<"$digests") $(sort -u <<<"$digests" | wc -l)" = "2 1" ] ||
	fail "the digest of leg 2 is made otherwise: $digests"

# a damage is seen by the same lines
cp tern.bore whole.bore
sqlite3 tern.bore "DROP TRIGGER journal_is_not_changed; UPDATE journal SET row_id = 1 WHERE seq = 100" 2>"$here/err" ||
	fail "$(cat "$here/err")"
example chain >rows
grep -q '^journal row 100 does not fit' rows || fail "a journal row that was changed is not seen"
mv whole.bore tern.bore

# the other queries answer
example as-drilled >rows
[ "$(wc -l <rows)" = 70 ] || fail "as_drilled gives $(wc -l <rows) lines, not a header, the entry and 68 joints"
head -1 rows | grep -q '^joint,station,offset_right_positive,' || fail "as_drilled has another header"
example history >rows
grep -q '|M. Okafor|correct|12|left out$' rows || fail "history does not tell of the correction: $(cat rows)"
grep -q '|T. Lund|withdraw|33|bend too tight$' rows || fail "history does not tell of pulling back: $(cat rows)"
example days >rows
grep -q '  73  ' rows || fail "the joints of the day are not counted: $(cat rows)"
example open >rows

# what the page says of the file's head
id=$(sqlite3 -readonly tern.bore 'PRAGMA application_id; PRAGMA user_version' | tr '\n' ' ')
grep -q "application_id is ${id% * } " "$top/man/sagbend-job.5" || fail "application_id and user_version: $id"
