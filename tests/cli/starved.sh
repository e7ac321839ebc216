#!/usr/bin/env bash
# No room, or no turn: what cannot be written is said, nothing is half done, and afterwards all goes on.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6
JOB=$HERE/meadow.bore
chain() {
	gives 0 verify "$1"
	is "${OUT##* }" "$2" "the chain of $1"
}
gives 0 verify "$JOB"
head=${OUT##* }

# A limit on the size of files, for every size up to that of the job and its journal.
size=$(($(stat -c %s "$JOB") / 1024))
for kilobytes in 0 1 4 8 16 32 64 $((size - 4)) $((size - 1)); do
	for ask in 'log --inclination 90 --azimuth 6' 'note hello'; do
		read -r command rest <<<"$ask"
		(
			ulimit -f "$kilobytes"
			# shellcheck disable=SC2086 # words of one command
			"$SAGBEND" "$command" "$JOB" $rest --by Ann >"$HERE/none" 2>&1
		)
		status=$?
		# Past the journal's first pages the act may fit: then it is told of.
		[ "$status" = 73 ] || [ "$status" = 0 ] || fail "status $status at $kilobytes KiB: $ask"
		if [ "$status" = 0 ]; then
			gives 0 verify "$JOB"
			head=${OUT##* }
		else
			chain "$JOB" "$head"
		fi
	done
done
(
	ulimit -f 4
	"$SAGBEND" log "$JOB" --inclination 90 --azimuth 6 >"$HERE/.out2" 2>/dev/null
)
[ $? = 73 ] || fail "a limit of 4 KiB is not noticed"
chain "$JOB" "$head"
(
	ulimit -f 8
	"$SAGBEND" new "$HERE/fresh.bore" --sheet "$HERE/.sheet" >/dev/null 2>&1
)
is $? 73 "status of new at a size limit"
is "$(find "$HERE" -name '*fresh*')" "" "what new left"

# A disk that is full.
mkdir "$HERE/disk"
if [ "$(id -u)" = 0 ] && mount -t tmpfs -o size=400k none "$HERE/disk" 2>/dev/null; then
	ended=0
	trap 'ended=$?; umount "$HERE/disk" 2>/dev/null; (exit $ended); clean_up' EXIT
	cp "$JOB" "$HERE/disk/meadow.bore"
	cat /dev/zero >"$HERE/disk/fill" 2>/dev/null
	full=$HERE/disk/meadow.bore
	refuses 73 'full' log "$full" --inclination 90 --azimuth 6
	refuses 73 'full' note "$full" hello
	refuses 73 'no room' export "$full" csv "$HERE/disk/a.csv"
	refuses 73 'full' backup "$full" "$HERE/disk/copy.bore"
	refuses 73 'full' new "$HERE/disk/a.bore" --sheet "$HERE/.sheet"
	gives 0 path "$full" --csv
	chain "$full" "$head"
	is "$(find "$HERE/disk" -type f | sed 's,.*/,,' | sort | paste -sd ' ')" 'fill meadow.bore' "files on the full disk"
	rm "$HERE/disk/fill"
	gives 0 log "$full" --inclination 90 --azimuth 6
	umount "$HERE/disk"
else
	echo "starved.sh: a full disk was not tested: no file system of our own can be mounted here"
fi

# Somebody has the job open: who, where and since when, and what one can do; reading goes on.
cp "$JOB" "$HERE/held.bore"
HELD=$HERE/held.bore
hold "$HELD" 'H. Holger'
for ask in 'log --inclination 90 --azimuth 6' 'note hello' 'shift --begin Ann' 'withdraw --to-joint 0 --reason why' \
	'correct --joint 1 --azimuth 1 --reason why' 'acknowledge --kind corridor --reason why' \
	'import sample-data/tern-slough/surveys.csv'; do
	read -r command rest <<<"$ask"
	# shellcheck disable=SC2086
	refuses 75 'H. Holger has held.bore open for writing (on this machine' "$command" "$HELD" $rest --by Ann
	warns 'Only one can write' 'since '
done
for ask in path check handover verify 'export csv' 'whatif --inclination 90 --azimuth 6' "backup $HERE/copy.bore"; do
	read -r command rest <<<"$ask"
	# shellcheck disable=SC2086
	gives 0 "$command" "$HELD" $rest
done
release
gives 0 note "$HELD" 'free again'

# A writer that was killed leaves its lock file behind, which holds nobody up.
hold "$HELD" 'H. Holger'
kill -9 "$(sed -n 's/^pid=//p' "$HELD.lock")"
wait "$HOLDER" 2>/dev/null
HOLDER=
exec 8>&-
rm -f "$HERE/.keys"
[ -e "$HELD.lock" ] || fail "a killed writer took its lock file along"
gives 0 note "$HELD" 'after the kill'
[ ! -e "$HELD.lock" ] || fail "the dead lock was left"
gives 0 verify "$HELD"

# Another program in the middle of writing to the file.
mkfifo "$HERE/sql"
sqlite3 -batch "$HELD" <"$HERE/sql" >"$HERE/.sql" 2>&1 &
other=$!
exec 9>"$HERE/sql"
printf 'BEGIN IMMEDIATE;\nSELECT 1;\n' >&9
waits "the other program's lock" grep -q 1 "$HERE/.sql"
refuses 75 'Another program is using' note "$HELD" hello
gives 0 path "$HELD" --csv
exec 9>&-
wait "$other"
gives 0 note "$HELD" 'after the other program'
