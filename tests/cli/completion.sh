#!/usr/bin/env bash
# Completion as bash does it: words before the cursor in, COMPREPLY out. That its lists are the program's is
# checked by tests/man/pages_test.c.
set -u
top=$(cd "$(dirname "$0")/../.." && pwd)
here=$(mktemp -d)
trap 'rm -rf "$here"' EXIT
failed=0

if [ -r /usr/share/bash-completion/bash_completion ]; then
	# As people have it; it may change what bash does for everybody.
	# shellcheck disable=SC1091
	. /usr/share/bash-completion/bash_completion
fi
# shellcheck source=src/cli/completion.bash
. "$top/src/cli/completion.bash"
complete -p sagbend | grep -q -- '-F _sagbend ' || {
	echo "completion is not registered"
	exit 1
}

# completes WORD... = WANTED...: the last word before = is the one that the cursor stands at.
completes() {
	COMP_WORDS=(sagbend)
	while [ "$1" != = ]; do
		COMP_WORDS+=("${1/#EQUALS/=}")
		shift
	done
	shift
	COMP_CWORD=$((${#COMP_WORDS[@]} - 1))
	COMP_LINE=${COMP_WORDS[*]} COMP_POINT=${#COMP_LINE}
	_sagbend sagbend "${COMP_WORDS[COMP_CWORD]}" "${COMP_WORDS[COMP_CWORD - 1]}" 2>"$here/.err"
	local got want
	got=$(printf '%s\n' "${COMPREPLY[@]}" | sort | paste -sd '|')
	want=$(printf '%s\n' "$@" | sort | paste -sd '|')
	if [ "$got" != "$want" ] || [ -s "$here/.err" ]; then
		printf '%s<TAB>\n  gives   %s\n  wanted  %s\n' "$COMP_LINE" "$got" "$want"
		cat "$here/.err"
		failed=1
	fi
}

cd "$here" || exit 1
mkdir sheets sheets/tern "two words"
touch tern.bore kestrel.bore notes.txt surveys.csv "two words/far.bore" sheets/tern/job.ini

# commands, and a job file in the place of one
completes wh = whatif
completes co = compute correct
completes t = tern.bore timeline "two words"
completes --v = --version
completes help ver = verify
completes nothing x =

# job files: nothing else, but folders to go through
completes log '' = tern.bore kestrel.bore sheets "two words"
completes log 'two words/' = "two words/far.bore"
completes backup tern.bore ke = kestrel.bore
completes import tern.bore s = sheets surveys.csv
completes export tern.bore '' = csv drawing dxf dxf-profile geojson gpkg json landxml report report-text segments sheet stations
completes export tern.bore csv n = notes.txt
completes note tern.bore '' =
completes path tern.bore '' =

# options: those of the command, each once
completes path tern.bore --al = --all-legs
completes path tern.bore --csv --c =
completes path --csv '' = tern.bore kestrel.bore sheets "two words"
completes check - = --json --help
completes log tern.bore --in = --inclination
completes whatif tern.bore --re = --returns --remarks
completes tern.bore --r = --read-only
completes ./tern.bore --th = --theme

# values
completes new x.bore --sheet '' = sheets "two words"
completes new x.bore --sheet sheets/ = sheets/tern
completes log tern.bore --returns '' = full partial none
completes tern.bore --theme n = night
completes compute --inclination '' = down level grade
completes log tern.bore --inclination '' =
completes acknowledge tern.bore --kind co = coating corridor cover cover-ahead
completes explain tern.bore --figure radius-w = radius-window
completes correct tern.bore --joint 4 --rea = --reason
completes correct --joint 4 ter = tern.bore

# --option=value, as bash takes it apart and as it does where = does not part words
completes tern.bore --theme EQUALS da = day
completes tern.bore --theme EQUALS = day night plain
completes tern.bore --theme EQUALS day --b = --by
completes tern.bore --theme=da = --theme=day

# after -- there are no options
completes note tern.bore -- --b =

exit $failed
