#!/usr/bin/env bash
# sagbend strike: what is no entry that can be struck out is refused by name. Entries themselves are struck out in the
# tests of the commands that enter them.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore

refuses 66 'no entry 99' strike "$JOB" --entry 99 --reason slip --by Dee
refuses 65 'a reading is corrected' strike "$JOB" --entry 2 --reason slip --by Dee
refuses 64 '--entry' strike "$JOB" --reason slip --by Dee
refuses 64 '--reason' strike "$JOB" --entry 2 --by Dee
is "$(sql "$JOB" 'SELECT count(*) FROM strike')" 0 "what was struck out"
