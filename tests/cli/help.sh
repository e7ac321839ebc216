#!/usr/bin/env bash
# Every command says what it takes, in lines that fit a terminal.
set -euo pipefail
fail() {
	echo "$1" >&2
	exit 1
}

overview=$("$SAGBEND" --help)
commands=$(sed -n 's/^  \([a-z]\{1,\}\)  .*/\1/p' <<<"$overview")
[ "$(wc -w <<<"$commands")" -ge 17 ] || fail "the overview lists too few commands: $commands"

for command in $commands; do
	text=$("$SAGBEND" "$command" --help)
	[ "$text" = "$("$SAGBEND" help "$command")" ] || fail "help $command and $command --help differ"
	case $text in
	"sagbend $command "*) ;;
	*) fail "the help of $command does not begin with its usage" ;;
	esac
	grep -q '^  --help ' <<<"$text" || fail "the help of $command does not list its options"
	if grep -nE '.{81}| $' <<<"$text"; then
		fail "the help of $command has a line over 80 columns, or blanks at its end"
	fi
	# What the usage line names the list below it has.
	sed '/^$/,$d' <<<"$text" | { grep -o -- '--[a-z-]*' || true; } | while read -r option; do
		grep -q -- "^  $option\b" <<<"$text" || fail "the help of $command names $option, and does not explain it"
	done
done

if "$SAGBEND" help nothing >/dev/null 2>&1; then
	fail "help for a command that is not there exits 0"
fi
"$SAGBEND" --version | grep -qE '^sagbend [0-9]+\.[0-9]+\.[0-9]+$' || fail "--version"
