#!/usr/bin/env bash
# Job files that are none, or not whole, or of another time: every command refuses them by name, and changes nothing.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0 90/6
JOB=$HERE/meadow.bore

# every STATUS WORDS FILE: no command takes it, and it stays as it was.
every() {
	local before
	before=$(cksum "$3" 2>/dev/null)
	for ask in path check handover 'export csv' "log --inclination 90 --azimuth 0" 'note hello' 'shift --begin Ann' \
		'withdraw --to-joint 0 --reason why' 'correct --joint 1 --azimuth 1 --reason why' \
		'acknowledge --kind corridor --reason why' 'import sample-data/tern-slough/surveys.csv' \
		"whatif --inclination 90 --azimuth 0" "backup $HERE/copy.bore"; do
		read -r command rest <<<"$ask"
		# shellcheck disable=SC2086 # words of one command
		refuses "$1" "$2" "$command" "$3" $rest
	done
	is "$(cksum "$3" 2>/dev/null)" "$before" "the file $3"
	[ ! -e "$HERE/copy.bore" ] || fail "a copy was made of $3"
	[ ! -e "$3.lock" ] || fail "a lock was left beside $3"
}

every 66 'no such' "$HERE/none.bore"
every 66 'is not a file' "$HERE"
: >"$HERE/empty.bore"
every 66 'is empty: it is not a job file' "$HERE/empty.bore"
cp sample-data/tern-slough/job.ini "$HERE/text.bore"
every 66 'is not a job file' "$HERE/text.bore"
sqlite3 -batch "$HERE/other.bore" 'CREATE TABLE reading (id INTEGER PRIMARY KEY)'
every 66 'a database of another program' "$HERE/other.bore"

cp "$JOB" "$HERE/later.bore"
sqlite3 -batch "$HERE/later.bore" 'PRAGMA user_version = 99'
every 66 'made by a later version of this program' "$HERE/later.bore"
refuses 66 'made by a later version' verify "$HERE/later.bore"

head -c $(($(stat -c %s "$JOB") / 2)) "$JOB" >"$HERE/cut.bore"
every 66 'damaged' "$HERE/cut.bore"

# A trigger of somebody else's, that would take away what is written.
cp "$JOB" "$HERE/trap.bore"
sqlite3 -batch "$HERE/trap.bore" "CREATE TRIGGER trap AFTER INSERT ON act BEGIN SELECT RAISE(IGNORE); END"
every 66 'changed by another program, or is damaged' "$HERE/trap.bore"

# Cut at any other place, too.
size=$(stat -c %s "$JOB")
for at in 1 15 16 60 99 100 511 512 4095 4096 4097 8192 $((size - 4096)) $((size - 1)); do
	head -c "$at" "$JOB" >"$HERE/cut.bore"
	for ask in path "log --inclination 90 --azimuth 0"; do
		read -r command rest <<<"$ask"
		# shellcheck disable=SC2086
		refuses 66 cut.bore "$command" "$HERE/cut.bore" $rest
	done
done

# A link to a job is that job; a job on a disk that may only be read is read.
ln -s meadow.bore "$HERE/link.bore"
gives 0 note "$HERE/link.bore" 'by the link'
is "$(sql "$JOB" 'SELECT words FROM act ORDER BY id DESC LIMIT 1')" 'by the link' "what was noted"

# Permissions, for those on whom they bind.
mkdir "$HERE/shelf"
cp "$JOB" "$HERE/shelf/meadow.bore"
chmod 755 "$HERE"
chmod 444 "$HERE/shelf/meadow.bore"
chmod 555 "$HERE/shelf"
as_nobody true
if [ $? = 99 ]; then
	echo "files.sh: permissions were not tested: the program cannot be run by another user here"
else
	nobody() {
		as_nobody "$SAGBEND" "${@:2}" >"$HERE/.out" 2>"$HERE/.err"
		STATUS=$?
		export OUT ERR
		OUT=$(<"$HERE/.out") ERR=$(<"$HERE/.err")
		[ "$STATUS" = "$1" ] || fail "status $STATUS, not $1, of: sagbend ${*:2}: $ERR"
	}
	shelf=$HERE/shelf/meadow.bore
	for ask in path check handover verify 'export csv' 'whatif --inclination 90 --azimuth 0'; do
		read -r command rest <<<"$ask"
		# shellcheck disable=SC2086
		nobody 0 "$command" "$shelf" $rest
		no_warning
	done
	for ask in 'note hello' 'log --inclination 90 --azimuth 0' 'shift --begin Ann'; do
		read -r command rest <<<"$ask"
		# shellcheck disable=SC2086
		nobody 77 "$command" "$shelf" $rest --by Ann
		no_words
		warns permission
	done
	nobody 77 new "$HERE/shelf/a.bore" --sheet "$PWD/sample-data/tern-slough" --by Ann
	warns permission
	nobody 77 export "$shelf" csv "$HERE/shelf/a.csv"
	nobody 77 backup "$shelf" "$HERE/shelf/copy.bore"
	chmod 000 "$HERE/shelf/meadow.bore"
	nobody 77 path "$shelf"
	warns permission
	chmod 644 "$HERE/shelf/meadow.bore"
	chmod 000 "$HERE/shelf"
	nobody 77 path "$shelf"
	chmod 755 "$HERE/shelf"
	cp "$JOB" "$HERE/locked.csv"
	chmod 000 "$HERE/locked.csv"
	nobody 77 compute "$HERE/locked.csv"
fi
