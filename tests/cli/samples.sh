#!/usr/bin/env bash
# The sample crossings from sheet to export and back in: the demo twice, the same bore after a round trip, and the
# exports read by SQLite, which knows nothing of them.
set -u
cd "$(dirname "$0")/../.." || exit 1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
failed=0

fail() {
	echo "samples.sh: $*"
	failed=1
}

# expect WORDS COMMAND...: the command succeeds and its output has the words
expect() {
	words=$1
	shift
	out=$("$@" 2>&1)
	status=$?
	[ $status = 0 ] || fail "status $status of: $*: $out"
	grep -qF -- "$words" <<<"$out" || fail "'$words' is not in the output of: $*: $out"
}

# refuse STATUS WORDS COMMAND...: it fails with that status (or one of several: 65|73) and says so on stderr, with nothing on stdout
refuse() {
	want=$1
	words=$2
	shift 2
	out=$("$@" 2>"$folder/err" </dev/null)
	status=$?
	[[ $status =~ ^($want)$ ]] || fail "status $status, wanted $want, of: $*"
	[ -z "$out" ] || fail "output '$out' of: $*"
	grep -qF -- "$words" "$folder/err" || fail "'$words' is not said by: $*: $(cat "$folder/err")"
}

# The demo, from scratch each time.
mkdir "$folder/build"
ln -s "$SAGBEND" "$folder/build/sagbend"
for run in 1 2; do
	BUILD=$folder/build sh sample-data/demo.sh >"$folder/demo$run" 2>&1 </dev/null || fail "demo run $run: $(tail -3 "$folder/demo$run")"
done
grep -qF 'exit status 2' "$folder/demo1" || fail 'the demo shows no breach'
grep -qF 'Pulled back to joint 33' "$folder/demo1" || fail 'the demo does not withdraw'
grep -qF '68/2' "$folder/demo1" || fail 'the demo does not reach the exit'
[ "$(grep -c '^\$ sagbend' "$folder/demo1")" -ge 10 ] || fail 'the demo does not say its commands'
job=$folder/build/demo/tern-slough.bore

# What is exported goes in again as the same bore. The shift by slides, and with it how sure a place is, rests on what
# the ground was known to give; joints that were pulled back had taught that too, and are not in the second bore.
expect 'made from' "$SAGBEND" new "$folder/again.bore" --sheet sample-data/tern-slough --by T
expect '68 joints logged' "$SAGBEND" import "$folder/again.bore" "$folder/build/demo/tern-slough.csv" --by T
"$SAGBEND" path "$job" --csv | cut -d, -f1,3-16 >"$folder/first"
"$SAGBEND" path "$folder/again.bore" --csv | cut -d, -f1,3-16 >"$folder/second"
cmp -s "$folder/first" "$folder/second" || fail "the bore changed: $(diff "$folder/first" "$folder/second" | head -4)"
[ "$(wc -l <"$folder/first")" = 70 ] || fail 'the path has not 69 rows'

# Commas, semicolons and a pipe.
expect 'made from' "$SAGBEND" new "$folder/kestrel.bore" --sheet sample-data/kestrel-road --by T
out=$("$SAGBEND" import "$folder/kestrel.bore" - --by T <sample-data/kestrel-road/surveys.csv 2>&1) || fail "import from a pipe: $out"
expect 'Kestrel Road: ok' "$SAGBEND" check "$folder/kestrel.bore"

# SQLite reads the exports.
read -r rows wide < <(sqlite3 :memory: -cmd '.mode list' -cmd '.separator " "' \
	".import --csv $folder/build/demo/tern-slough.csv t" \
	"SELECT count(*), sum(length(about_value) > 0) FROM t WHERE standing <> ''")
[ "$rows" = 74 ] || fail "SQLite finds $rows rows in the CSV, not 74"
[ "$wide" -ge 20 ] || fail "SQLite finds $wide lines of what it is about"
sum=$(sqlite3 :memory: "SELECT round(sum(json_extract(value, '\$.joint_length')), 2)
	FROM json_each(readfile('$folder/build/demo/tern-slough.json'), '\$.rows')
	WHERE json_extract(value, '\$.standing') = 'path'")
tally=$(awk -F, 'NR > 1 && NR <= 69 { s += $2 } END { printf "%.2f", s }' sample-data/tern-slough/tally.csv)
[ "$sum" = "$tally" ] || fail "the JSON's joints make $sum, the tally $tally"

# Targets: nothing is overwritten, no disk is full in silence.
refuse '65|73' 'there already' "$SAGBEND" export "$job" csv "$folder/build/demo/tern-slough.csv"
refuse 73 'no room' "$SAGBEND" export "$job" csv /dev/full
"$SAGBEND" path "$job" --csv >/dev/full 2>"$folder/err" && fail 'a full standard output was not noticed'
grep -qF 'no room' "$folder/err" || fail "a full standard output is not said: $(cat "$folder/err")"
expect 'joint,leg' "$SAGBEND" export "$job" csv
before=$(find "$folder" | wc -l)
(
	ulimit -f 4
	"$SAGBEND" export "$job" json "$folder/limited.json" 2>"$folder/err"
) && fail 'a limit on file sizes was not noticed'
[ "$(find "$folder" | wc -l)" = "$before" ] || fail 'a failed export left something behind'

# A sheet with errors is refused as a whole, with all of them.
cp -r sample-data/tern-slough "$folder/sheet"
sed -i 's/^unit = ft/unit = feet/; s/^wall = .*/wall = half/' "$folder/sheet/job.ini"
printf '2,31.x\n' >>"$folder/sheet/tally.csv"
refuse 65 'tally.csv line 78' "$SAGBEND" new "$folder/bad.bore" --sheet "$folder/sheet" --by T
grep -qF ', unit:' "$folder/err" || fail 'the unit is not named'
grep -qF ', wall:' "$folder/err" || fail 'the wall is not named'
[ ! -e "$folder/bad.bore" ] || fail 'a job file was made of a bad sheet'

exit $failed
