#!/usr/bin/env bash
# sagbend note: words kept with the joint that was drilled last.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

bore meadow 90/0
JOB=$HERE/meadow.bore
last() { sql "$JOB" "SELECT $1 FROM act ORDER BY id DESC LIMIT 1"; }

gives 0 note "$JOB" 'pump seal changed, 40 min' --by Dee
is "$OUT" Noted. "what it says"
is "$(last 'kind, who, joint, words')" 'note|Dee|1|pump seal changed, 40 min' "the act"
[[ $(last at) == 20??-??-??T??:??:??*Z ]] || fail "the time: $(last at)"

# Other letters, words like options, quotes and such are words; control characters are made harmless.
gives 0 note "$JOB" 'Kies, Ø 63 – «hart» 🪨' --by 'Łukasz'
is "$(last 'who, words')" 'Łukasz|Kies, Ø 63 – «hart» 🪨' "the act"
gives 0 note "$JOB" --by Dee -- '--by the way; DROP TABLE act; "quoted"'
is "$(last words)" '--by the way; DROP TABLE act; "quoted"' "the words"
gives 0 note "$JOB" $'one\ntwo\tthree\033[31m' --by Dee
is "$(last words)" 'one two three?[31m' "the words"
printf -v long 'n%.0s' {1..511}
gives 0 note "$JOB" "$long" --by Dee
is "$(last words)" "$long" "the longest note"

n=$(last id)
refuses 65 'too long by 1 byte' note "$JOB" "${long}n" --by Dee
refuses 65 'missing' note "$JOB" '  ' --by Dee
refuses 65 'not UTF-8' note "$JOB" $'\xc3\x28' --by Dee
refuses 64 'Usage: sagbend note JOB.bore TEXT' note "$JOB"
refuses 64 'in quotes' note "$JOB" two words
refuses 66 'no such' note "$HERE/none.bore" hello

# Who: as said, else who is logged in; nobody signs for nobody.
refuses 64 'carries a name' note "$JOB" hello --by ''
refuses 64 'too long' note "$JOB" hello --by "$(printf 'x%.0s' {1..64})"
refuses 64 'not text' note "$JOB" hello --by $'a\033b'
is "$(last id)" "$n" "the last act after these refusals"
gives 0 note "$JOB" hello
is "$(last who)" tester "who, by the login name"
LOGNAME='' USER=night gives 0 note "$JOB" hello
is "$(last who)" night "who, by USER"
gives 0 verify "$JOB"
