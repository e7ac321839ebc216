# bash completion for sagbend: commands, options, values, job files and folders.
#
# The lists between the marks are the program's own tables: after a change there, `make man` writes them
# again. Nothing of this needs the program to run.

_sagbend_commands()
{
	# make man: completion-commands
	echo 'design new open log whatif correct withdraw repeat fix adjust change note shift acknowledge strike nonconformance acceptance fluid pass string pull import path check explain ahead clearance stress history timeline handover day export verify backup compute earth roll-test rehearse'
	# make man: end
}

_sagbend_formats()
{
	# make man: completion-formats
	echo 'csv json sheet drawing geojson gpkg dxf dxf-profile landxml stations segments report report-text'
	# make man: end
}

# What can follow a command: words by their place, options that take no value, options that do.
_sagbend_follow()
{
	places='' flags='' options=''
	case $1 in
	# make man: completion-places
	design)
		places='file file'
		flags='--replace --reverse --parabolas-as-arcs --radii-as-found --help'
		options='--into --alignment --profile --unit --within'
		;;
	new)
		places='job'
		flags='--help'
		options='--sheet --by'
		;;
	open)
		places='job'
		flags='--read-only --help'
		options='--by --theme --colour'
		;;
	log)
		places='job'
		flags='--no-reading --json --help'
		options='--joint-length --inclination --azimuth --tool-face --slid --thrust --torque --flow --standpipe --annular --returns --started --ended --remarks --azimuth-by --pushes --total-gravity --total-field --dip --gravity-x --gravity-y --gravity-z --field-x --field-y --field-z --gravity --field --bit-depth --survey-depth --joint --reason --by'
		;;
	whatif)
		places='job'
		flags='--json --help'
		options='--joint-length --inclination --azimuth --tool-face --slid --thrust --torque --flow --standpipe --annular --returns --started --ended --remarks --azimuth-by --pushes --total-gravity --total-field --dip --gravity-x --gravity-y --gravity-z --field-x --field-y --field-z --gravity --field'
		;;
	correct)
		places='job'
		flags='--json --help'
		options='--joint-length --inclination --azimuth --tool-face --slid --thrust --torque --flow --standpipe --annular --returns --started --ended --remarks --azimuth-by --pushes --total-gravity --total-field --dip --gravity-x --gravity-y --gravity-z --field-x --field-y --field-z --gravity --field --joint --leg --reason --by'
		;;
	withdraw)
		places='job'
		flags='--help'
		options='--to-joint --reason --by'
		;;
	repeat)
		places='job'
		flags='--help'
		options='--depth --way --inclination --azimuth --tool-face --total-gravity --total-field --dip --remarks --by'
		;;
	fix)
		places='job'
		flags='--list --json --help'
		options='--depth --kind --easting --northing --station --offset --elevation --sigma-along --sigma-across --sigma-up --remarks --set-aside --use --reason --by'
		;;
	adjust)
		places='job'
		flags='--take --back --json --help'
		options='--reason --by'
		;;
	change)
		places='job'
		flags='--help'
		options='--set --from-joint --reason --by'
		;;
	note)
		places='job words'
		flags='--help'
		options='--by'
		;;
	shift)
		places='job'
		flags='--help'
		options='--begin --end --by'
		;;
	acknowledge)
		places='job'
		flags='--help'
		options='--kind --joint --reason --by'
		;;
	strike)
		places='job'
		flags='--help'
		options='--entry --reason --by'
		;;
	nonconformance)
		places='job'
		flags='--json --help'
		options='--accept --back --reference --reason --by'
		;;
	acceptance)
		places='job'
		flags='--sign --reopen --json --help'
		options='--tick --untick --capacity --statement --reference --reason --by'
		;;
	fluid)
		places='job event level'
		flags='--design --json --help'
		options='--station --volume --place --receiving --told --done --release --remarks --pass --by'
		;;
	pass)
		places='job step'
		flags='--json --help'
		options='--kind --diameter --to --tool --joint --pull --torque --flow --pressure --annular --started --ended --returns --read --remarks --pass --by'
		;;
	string)
		places='job step'
		flags='--json --help'
		options='--joint --length --mark --outcome --pressure --hours --reference --read --remarks --by'
		;;
	pull)
		places='job step'
		flags='--json --help'
		options='--joint --force --torque --flow --annular --started --ended --read --coating --extra --survey --remarks --by'
		;;
	import)
		places='job csv'
		flags='--help'
		options='--reason --by'
		;;
	path)
		places='job'
		flags='--all-legs --as-read --csv --json --help'
		options='--every'
		;;
	check)
		places='job'
		flags='--json --help'
		options=''
		;;
	explain)
		places='job'
		flags='--json --help'
		options='--figure --joint --leg --fix'
		;;
	ahead)
		places='job'
		flags='--json --help'
		options='--tool-face --slid --back-at'
		;;
	clearance)
		places='job'
		flags='--json --help'
		options=''
		;;
	stress)
		places='job'
		flags='--design --json --help'
		options=''
		;;
	history)
		places='job'
		flags='--decisions --edits --accepted --json --help'
		options='--who --shift'
		;;
	timeline)
		places='job'
		flags='--json --help'
		options=''
		;;
	handover)
		places='job'
		flags='--replace --help'
		options='--pdf --by'
		;;
	day)
		places='job'
		flags='--replace --json --help'
		options='--date --pdf --by'
		;;
	export)
		places='job format file'
		flags='--replace --help'
		options='--every --by --paper'
		;;
	verify)
		places='job'
		flags='--help'
		options=''
		;;
	backup)
		places='job job'
		flags='--help'
		options=''
		;;
	compute)
		places='csv'
		flags='--help'
		options='--inclination --start'
		;;
	earth)
		places='job'
		flags='--json --help'
		options='--crs --at --latitude --longitude --height --height-unit --date'
		;;
	roll-test)
		places='csv'
		flags='--json --help'
		options='--axes'
		;;
	rehearse)
		places='job'
		flags='--vary --json --help'
		options='--sheet --ground --by --seed --bores --fix'
		;;
	# make man: end
	esac
}

# What can be the value of an option. Where nothing is listed it is free text.
_sagbend_value()
{
	words='' folders='' files=''
	case $1:$2 in
	# make man: completion-values
	design:--into) folders=yes ;;
	design:--unit) words='m ft ftUS' ;;
	new:--sheet) folders=yes ;;
	open:--theme) words='night day plain' ;;
	open:--colour) words='auto always never' ;;
	log:--returns) words='full partial none' ;;
	log:--azimuth-by) words='gyro coil hold' ;;
	whatif:--returns) words='full partial none' ;;
	whatif:--azimuth-by) words='gyro coil hold' ;;
	correct:--returns) words='full partial none' ;;
	correct:--azimuth-by) words='gyro coil hold' ;;
	repeat:--way) words='again out' ;;
	fix:--kind) words='coil beacon walk-over gyro exit' ;;
	acknowledge:--kind) words='corridor exit-window joint-bend window-bend leaves-corridor blunder missing-survey azimuth-reference response fix no-fix magnetic-field clearance clearance-ahead cover cover-ahead opening annular-pressure returns release pipe-share pipe-string pull-force coating' ;;
	pass:--kind) words='ream swab' ;;
	pass:--to) words='entry exit' ;;
	pass:--returns) words='full partial none' ;;
	pass:--read) files=yes ;;
	string:--outcome) words='good bad' ;;
	string:--read) files=yes ;;
	pull:--read) files=yes ;;
	pull:--coating) words='sound scratched damaged' ;;
	explain:--figure) words='depth inclination azimuth northing easting elevation station offset height dogleg radius-joint radius-window shift corridor-share clearance cover bending pull pipe-share fluid-pressure formation-limit give-or-take chance-outside bit bit-give-or-take leaves-at clearance-ahead cover-ahead exit bend-budget slide-turn drift face-error next-joint withdraw misclosure adjustment final-hole cuttings field-gate declination convergence scale' ;;
	handover:--pdf) files=yes ;;
	day:--pdf) files=yes ;;
	compute:--inclination) words='down level grade' ;;
	earth:--height-unit) words='m ft ftUS' ;;
	rehearse:--sheet) folders=yes ;;
	rehearse:--by) words='advice aim informed' ;;
	# make man: end
	esac
}

# Offers each line of what is read that begins as it was typed.
_sagbend_offer()
{
	local line

	while IFS= read -r line; do
		COMPREPLY+=("$prefix$line")
	done
}

# Offers words.
_sagbend_words()
{
	_sagbend_offer < <(compgen -W "$1" -- "$cur")
}

# Offers folders, and the files whose names match: '*.bore', '*' for all, nothing for none.
_sagbend_files()
{
	compopt -o filenames 2>/dev/null
	_sagbend_offer < <({
		compgen -d -- "$cur"
		[ -z "$1" ] || compgen -f -X "!$1" -- "$cur"
	} | sort -u)
}

# Goes through the words before the one that is typed: which command, how many words stood in their places,
# and which option waits for its value.
_sagbend_walk()
{
	local word

	for word in "$@"; do
		if [ "$word" = = ]; then
			continue
		elif [ -n "$waits" ]; then
			waits=''
		elif [ -z "$command" ]; then
			command=$word
			case $word in
			*.bore | */*) command=open at=1 ;;
			-*) command=open ;;
			esac
			_sagbend_follow "$command"
		elif [ -z "$words_only" ] && [ "$word" = -- ]; then
			words_only=yes
		elif [ -z "$words_only" ] && [[ $word == --* ]]; then
			given+=" $word"
			[[ " $options " == *" $word "* ]] && waits=$word
		else
			at=$((at + 1))
		fi
	done
}

_sagbend_place()
{
	local -a place
	local format=''

	read -ra place <<<"$places"
	case ${place[at]-} in
	job) _sagbend_files '*.bore' ;;
	csv) _sagbend_files '*.csv' ;;
	file) _sagbend_files '*' ;;
	format) format=$(_sagbend_formats) ;;
	step) format='begin joint end' ;;
	event) format='returns loss release record' ;;
	level) format='full partial none' ;;
	esac
	[ -z "$format" ] || _sagbend_words "$format"
}

_sagbend_options()
{
	local option left=''

	for option in $options $flags; do
		[[ " $given " == *" $option "* ]] || left+=" $option"
	done
	_sagbend_words "$left"
}

_sagbend()
{
	local cur=${COMP_WORDS[COMP_CWORD]} prefix='' command='' waits='' given='' words_only='' at=0
	local places='' flags='' options='' words='' folders='' files=''

	COMPREPLY=()
	_sagbend_walk "${COMP_WORDS[@]:1:COMP_CWORD-1}"
	if [ "$cur" = = ]; then
		cur=''
	elif [ -z "$waits" ] && [[ $cur == --*=* ]]; then
		waits=${cur%%=*} prefix=${cur%%=*}= cur=${cur#*=}
	fi
	if [ -z "$command" ]; then
		_sagbend_words "$(_sagbend_commands) help --help --version"
		_sagbend_files '*.bore'
	elif [ "$command" = help ]; then
		[ "$at" = 0 ] && _sagbend_words "$(_sagbend_commands)"
	elif [ -n "$waits" ]; then
		_sagbend_value "$command" "$waits"
		_sagbend_words "$words"
		[ -z "$folders" ] || _sagbend_files ''
		[ -z "$files" ] || _sagbend_files '*'
	elif [[ $cur == -* && -z $words_only ]]; then
		_sagbend_options
	else
		_sagbend_place
	fi
}

complete -F _sagbend sagbend
