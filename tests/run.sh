#!/usr/bin/env bash
# Runs tests, two at a time, shows what failed, and closes with one line that counts them.
# Usage: run.sh TEST...   a test is a program, a script, or the word "layers".
set -u
here=$(cd "$(dirname "$0")" && pwd)
out=$(mktemp -d)
trap 'rm -rf "$out"' EXIT

run_one() {
	name=$(echo "$1" | tr '/' '_')
	case "$1" in
	layers) bash "$2/layers.sh" ;;
	*.sh) timeout 300 bash "$1" ;;
	*) timeout 300 "$1" ;;
	esac >"$3/$name.out" 2>&1
	status=$?
	if [ $status = 0 ]; then
		echo "ok    $1"
		echo x >>"$3/passed"
	else
		echo "FAIL  $1 (status $status)"
		sed 's/^/      /' "$3/$name.out" | tail -60
		echo x >>"$3/failed"
	fi
}
export -f run_one
# shellcheck disable=SC2016 # the inner shell expands them
printf '%s\n' "$@" | xargs -P 2 -I{} bash -c 'run_one "$1" "$2" "$3"' _ {} "$here" "$out"
touch "$out/passed" "$out/failed"
passed=$(wc -l <"$out/passed")
failed=$(wc -l <"$out/failed")
echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
