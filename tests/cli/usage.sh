#!/usr/bin/env bash
# The command line itself: what is neither, what is misspelt, what is closed.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore

# Help and version are results, asked for; without a word the overview is a refusal.
gives 0 --help
says 'sagbend JOB.bore' compute 'It does not replace locating and exposing utilities'
no_warning
help=$OUT
gives 0 help
is "$OUT" "$help" "help"
gives 0 -h
is "$OUT" "$help" "-h"
gives 64
no_words
is "$ERR" "$help" "what is said to nothing"
gives 0 --version
version=$OUT
for command in new open log whatif correct withdraw note shift acknowledge import path check ahead handover export verify backup compute earth rehearse; do
	gives 0 "$command" --help
	says "sagbend $command"
	no_warning
	gives 0 "$command" --version
	is "$OUT" "$version" "$command --version"
done

refuses 64 "'lgo' is neither a command nor a job file (NAME.bore). Is log meant?" lgo
refuses 64 "'zzzzzz' is neither a command nor a job file (NAME.bore). See: sagbend --help" zzzzzz
refuses 64 'is not a command. Is check meant?' help chekc
refuses 64 'The command comes first: sagbend log' "$JOB" log
refuses 64 'Is --inclination meant?' log "$JOB" --inclinaton 90
refuses 64 'options are whole words' log "$JOB" -i 90
refuses 64 'takes no value' path "$JOB" --csv=yes
refuses 64 'needs a value' note "$JOB" hi --by
refuses 64 'given twice' note "$JOB" hi --by A --by B
refuses 64 'one word too many' path "$JOB" "$JOB"
refuses 64 'Usage: sagbend path JOB.bore' path
# After -- everything is a word.
refuses 64 "'--csv' is one word too many" path "$JOB" -- --csv
gives 0 path -- "$JOB"

# Standard output that is full or closed is noticed, and what was done stays done.
n() { sql "$JOB" 'SELECT count(*) FROM act'; }
into() { "$SAGBEND" "${@:2}" 2>"$HERE/.err" >"$1"; }
closed() { "$SAGBEND" "$@" 2>"$HERE/.err" >&-; }
for put in 'into /dev/full' closed; do
	for ask in --help --version 'log --help' "path $JOB" "path $JOB --json" "check $JOB" "handover $JOB" "verify $JOB" \
		"export $JOB csv" "whatif $JOB --inclination 90 --azimuth 0"; do
		# shellcheck disable=SC2086 # words of one command
		$put $ask
		is $? 73 "status of $put $ask"
		grep -q '^sagbend: ' "$HERE/.err" || fail "nothing is said of $put $ask"
	done
	before=$(n)
	for act in "note $JOB words" "log $JOB --inclination 90 --azimuth 0 --json" "shift $JOB --begin Ann"; do
		# shellcheck disable=SC2086
		$put $act
		is $? 73 "status of $put $act"
		grep -q '^sagbend: It is done, and on disk; only the words about it are lost' "$HERE/.err" ||
			fail "not said of $put $act: $(<"$HERE/.err")"
	done
	is "$(n)" "$((before + 3))" "acts after $put"
done
# A reader that goes away before anything is written.
mkfifo "$HERE/pipe"
for ask in "path $JOB --csv" "export $JOB json"; do
	head -c 0 <"$HERE/pipe" &
	exec 9>"$HERE/pipe"
	wait $!
	# shellcheck disable=SC2086
	"$SAGBEND" $ask >&9 2>"$HERE/.err"
	is $? 73 "status of $ask into a closed pipe"
	grep -q 'Nobody reads' "$HERE/.err" || fail "a closed pipe is not said: $(<"$HERE/.err")"
	exec 9>&-
done
# All three closed: the job file is not written to by accident.
"$SAGBEND" note "$JOB" 'in the dark' --by Ann <&- >&- 2>&-
is $? 73 "status with nothing open"
"$SAGBEND" compute <&- >/dev/null 2>"$HERE/.err" && fail "a closed standard input is not noticed"
gives 0 verify "$JOB"

# Odd names of files: a blank, a dash in front, a URI, a name that is all there is to a folder.
cp "$JOB" "$HERE/-odd name.bore"
(cd "$HERE" && "$SAGBEND" path -- '-odd name.bore' >/dev/null) || fail "a name with a dash in front"
(cd "$HERE" && "$SAGBEND" path './-odd name.bore' >/dev/null) || fail "a name with a blank"
refuses 66 'no such' path 'file:/etc/passwd?mode=ro'
refuses 66 'no such' path "$JOB/"
printf -v long '%s/' {1..3000}
run path "$long"
[[ $STATUS =~ ^6[56]$ && -n $ERR ]] || fail "status $STATUS of a name too long: $ERR"
