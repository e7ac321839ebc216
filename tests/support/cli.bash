# What the scripts under tests/cli share: a folder of their own, running the program, and comparing.
#
# A script sources this first, calls `gives`, `says` and the others, and ends; what did not hold is printed with its
# line, and the exit status is 1. Nothing stops at the first failure.

[ -n "${SAGBEND:-}" ] || {
	echo "SAGBEND must be the absolute path of the program"
	exit 1
}
export TZ=UTC LC_ALL=C.UTF-8 LOGNAME=tester
unset NO_COLOR LANG LANGUAGE
cd "$(dirname "${BASH_SOURCE[0]}")/../.." || exit 1

HERE=$(mktemp -d)
FAILED=0
HOLDER=
OUT='' ERR='' STATUS=0
export HERE

# shellcheck disable=SC2317 # called by the trap
clean_up() {
	local status=$?
	[ -z "$HOLDER" ] || kill -9 "$HOLDER" 2>/dev/null
	chmod -R u+rwx "$HERE" 2>/dev/null
	rm -rf "$HERE"
	[ $status != 0 ] || status=$FAILED
	exit $status
}
trap clean_up EXIT

# Says what did not hold, with the line of the script.
fail() {
	local i=0
	while [ "${BASH_SOURCE[i + 1]:-}" = "${BASH_SOURCE[0]}" ]; do i=$((i + 1)); done
	echo "${BASH_SOURCE[i + 1]##*/}:${BASH_LINENO[i]}: $*"
	FAILED=1
}

# run ARGUMENTS...: runs sagbend; OUT, ERR and STATUS are what came of it. Standard input is nothing unless the
# caller gives some.
run() {
	"$SAGBEND" "$@" >"$HERE/.out" 2>"$HERE/.err"
	STATUS=$?
	# A NUL would be lost here, and none belongs into words or tables.
	OUT=$(<"$HERE/.out") ERR=$(<"$HERE/.err")
}
exec </dev/null

# gives STATUS ARGUMENTS...: runs sagbend, which must end with that status.
gives() {
	local want=$1
	shift
	run "$@"
	[ "$STATUS" = "$want" ] || fail "status $STATUS, not $want, of: sagbend $*
  stdout: $OUT
  stderr: $ERR"
}

# says WORDS..., warns WORDS...: each stands in what the last command put on stdout, stderr.
says() {
	local words
	for words in "$@"; do
		[[ $OUT == *"$words"* ]] || fail "stdout lacks '$words': $OUT"
	done
}
warns() {
	local words
	for words in "$@"; do
		[[ $ERR == *"$words"* ]] || fail "stderr lacks '$words': $ERR"
	done
}
# The last command put nothing there.
no_words() { [ -z "$OUT" ] || fail "stdout is not empty: $OUT"; }
no_warning() { [ -z "$ERR" ] || fail "stderr is not empty: $ERR"; }

# refuses STATUS WORDS ARGUMENTS...: the usual refusal: that status, nothing on stdout, and one message on stderr
# that begins with the program's name, has the words, and ends as a sentence does.
refuses() {
	local want=$1 words=$2
	shift 2
	gives "$want" "$@"
	no_words
	warns "$words"
	[[ $ERR == "sagbend: "* && $ERR != *$'\n'* ]] || fail "not one message: $ERR"
	[[ $ERR == *[.\?\)] || $ERR == *" --"* || $ERR == *"Usage: "* ]] || fail "not a sentence: $ERR"
}

# is GOT WANTED WHAT
is() { [ "$1" = "$2" ] || fail "$3 is '$1', not '$2'"; }

# about GOT WANTED WITHIN WHAT: numbers
about() {
	awk -v a="$1" -v b="$2" -v d="$3" 'BEGIN { exit !(a ~ /^-?[0-9.]+$/ && a - b <= d && b - a <= d) }' ||
		fail "$4 is '$1', not $2 within $3"
}

# json PATH: what stands there in the JSON on stdout; "length PATH" and other SQL of one value too.
json() {
	sqlite3 -batch :memory: "SELECT json_extract(CAST(readfile('$HERE/.out') AS TEXT), '$1')"
}
json_sql() {
	sqlite3 -batch :memory: "WITH o(j) AS (SELECT CAST(readfile('$HERE/.out') AS TEXT)) $1"
}
# The names in the object at PATH, in order.
json_names() {
	json_sql "SELECT group_concat(key) FROM o, json_each(j, '$1')"
}

# Rows of a table of the job file.
sql() { sqlite3 -batch -readonly "$1" "$2"; }

# cell ROW COLUMN: of the CSV on stdout, counted from 1 (row 1 the header); for files without quotes.
cell() { awk -F, -v r="$1" -v c="$2" 'NR == r { sub(/\r$/, ""); print $c }' "$HERE/.out"; }

# A job sheet that is easily reckoned with: metres, straight north on the level, no sensor behind the bit.
# sheet FOLDER [LINE...]: lines are put in at the end of their section, as in "[bend] joint_minimum = 90".
sheet() {
	local folder=$1 line
	shift
	mkdir -p "$folder"
	cat >"$folder/job.ini" <<-'END'
		[job]
		name = Level Meadow
		owner = Nobody Gas
		contractor = Nobody Drilling
		unit = m
		inclination = down
		[control]
		crs = local
		vertical_datum = site
		entry = 1000, 5000, 100
		exit = 1000, 5300, 100
		[azimuth]
		reference = grid
		[tool]
		sensor_to_bit = 0
		[drill_pipe]
		joint_length = 10
		minimum_radius = 50
		[product_pipe]
		material = pe
		outside_diameter = 200
		wall = 18
		[bend]
		joint_minimum = 80
		window_minimum = 120
		[corridor]
		up = 2
		down = 2
		left = 40
		right = 40
		[entry]
		inclination = 90
		azimuth = 0
		[files]
		profile = profile.csv
	END
	for line in "$@"; do
		sed -i "s/^\\${line%% *}\$/&\n${line#* }/" "$folder/job.ini"
	done
	printf 'station,elevation,radius\n0,100,\n300,100,\n' >"$folder/profile.csv"
}

# job NAME: a job file of that sheet, as $HERE/NAME.bore
job() {
	sheet "$HERE/.sheet"
	"$SAGBEND" new "$HERE/$1.bore" --sheet "$HERE/.sheet" --by maker >/dev/null 2>"$HERE/.err" ||
		fail "no job: $(<"$HERE/.err")"
}

# bore NAME INCLINATION/AZIMUTH...: that job with so many joints of 10 m
bore() {
	local name=$1 angles
	shift
	job "$name"
	for angles in "$@"; do
		"$SAGBEND" log "$HERE/$name.bore" --inclination "${angles%/*}" --azimuth "${angles#*/}" --by driller \
			>/dev/null 2>"$HERE/.err" || fail "joint $angles was not logged: $(<"$HERE/.err")"
	done
}

# waits WORDS COMMAND...: until the command succeeds; only a broken program meets the deadline.
waits() {
	local words=$1 i
	shift
	for i in {1..300}; do
		if "$@" >/dev/null 2>&1; then return 0; fi
		sleep 0.1
	done
	fail "waited in vain: $words"
	return 1
}

# hold FILE WHO: somebody has the job open on a screen in the background, until `release FILE`.
hold() {
	mkfifo "$HERE/.keys"
	TERM=xterm-256color script -qefc "stty columns 80 rows 24; exec '$SAGBEND' open '$1' --by '$2'" /dev/null \
		<"$HERE/.keys" >"$HERE/.screen" 2>&1 &
	HOLDER=$!
	exec 8>"$HERE/.keys"
	waits "the screen of $2" grep -q "^who=$2\$" "$1.lock"
	waits "the screen's footer" grep -qa 'what if' "$HERE/.screen"
}
release() {
	printf 'QY' >&8
	waits "the end of the screen" test ! -e "$1.lock" || kill -9 "$HOLDER"
	exec 8>&-
	wait "$HOLDER"
	HOLDER=
	rm -f "$HERE/.keys"
}

# as_nobody COMMAND...: without the rights of the superuser, on whom permissions do not bind. Status 99: that cannot be
# done here.
as_nobody() {
	if [ "$(id -u)" != 0 ]; then
		"$@"
		return
	fi
	setpriv --reuid=65534 --regid=65534 --clear-groups -- "$SAGBEND" --version >/dev/null 2>&1 || return 99
	setpriv --reuid=65534 --regid=65534 --clear-groups -- "$@"
}
