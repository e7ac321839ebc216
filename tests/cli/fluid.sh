#!/usr/bin/env bash
# sagbend fluid: annular pressure along the bore, returns, losses, and a release from first word to acceptance.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

SHEET=sample-data/tern-slough
JOB=$HERE/tern.bore
gives 0 new "$JOB" --sheet "$SHEET" --by P
gives 0 fluid "$JOB"
says 'An estimate' 'for the engineer to verify' 'Nothing was entered'
gives 0 import "$JOB" "$SHEET/surveys.csv" --by A

# the page: assumptions, both ways beside the exact one, the tightest place, every joint; 80 columns
gives 0 fluid "$JOB"
says 'Ground has been seen to break out' 'between plates' "by the field's formula" 'pilot, measured' 'Joint by joint, psi' \
	'soft silt' 'taken up to the ground' 'ground water stands over the ground, by up to 18.5 ft'
is "$(awk 'length > 80' "$HERE/.out" | wc -l)" 0 "lines over 80 columns"
gives 0 fluid "$JOB" --json
is "$(json '$.estimate') $(json '$.units.pressure')" "1 psi" "what it is"
is "$(json_sql "SELECT count(*) FROM o, json_each(j, '\$.stages[0].points') WHERE json_extract(value, '\$.measured') IS NOT NULL")" \
	37 "joints that were measured"
is "$(json_sql "SELECT group_concat(json_extract(value, '\$.stage')) FROM o, json_each(j, '\$.stages')")" pilot,opening,pull stages
# the field's formula is over the exact loss, the plates a hair
is "$(json_sql "SELECT json_extract(j, '\$.stages[0].to_entry.loss_by_field_formula') > 1.2 * json_extract(j, '\$.stages[0].to_entry.loss')
	AND json_extract(j, '\$.stages[0].to_entry.loss_between_plates') BETWEEN json_extract(j, '\$.stages[0].to_entry.loss')
	AND 1.03 * json_extract(j, '\$.stages[0].to_entry.loss') FROM o")" 1 "the three losses"

# along the design nothing is measured, and there are no joints
gives 0 fluid "$JOB" --design
says 'along the design' 'at the design line'
gives 0 fluid "$JOB" --design --json
is "$(json_sql "SELECT json_extract(j, '\$.design') || '/' || count(json_extract(value, '\$.measured')) FROM o, json_each(j, '\$.stages[0].points')")" \
	1/0 "the design's"

# returns and a loss
gives 0 fluid "$JOB" returns partial --by A
says 'Entered: returns partial.'
warns 'only a part of the drilling fluid comes back'
gives 0 fluid "$JOB" loss --volume 300 --station 1140 --by A
warns '300 gal of drilling fluid went into the ground'
gives 0 fluid "$JOB" returns full --by A
refuses 64 'full, partial or none' fluid "$JOB" returns
refuses 64 "'spill' is no event" fluid "$JOB" spill
refuses 64 'is too much' fluid "$JOB" loss lots
refuses 64 '--place is of a release' fluid "$JOB" loss --place here
refuses 64 '--volume is of a loss' fluid "$JOB" returns full --volume 3
refuses 64 '--release N goes with record' fluid "$JOB" loss --release 1
refuses 64 '--release' fluid "$JOB" record --done x
refuses 66 'There is no release 9' fluid "$JOB" record --release 9 --done x
refuses 66 'There is no pass 1' fluid "$JOB" --pass 1

# a release: a non-conformance that nobody can accept before it is recorded
gives 0 fluid "$JOB" release --place 'ditch west of the levee' --volume 40 --remarks 'seen by the walker' --by A
warns 'what it ran into, who was told and when, what was done'
RELEASE=$(sql "$JOB" "SELECT max(id) FROM fluid_event WHERE kind = 'release'")
gives 2 check "$JOB" --json
is "$(json_sql "SELECT json_extract(value, '\$.level') FROM o, json_each(j, '\$.checks') WHERE json_extract(value, '\$.kind') = 'release'")" \
	breach "the release"
gives 0 nonconformance "$JOB" --json
NUMBER=$(json_sql "SELECT json_extract(value, '\$.number') FROM o, json_each(j, '\$.nonconformances') WHERE json_extract(value, '\$.kind') = 'release'")
refuses 65 "Release $RELEASE cannot be accepted before it is recorded: what it ran into" \
	nonconformance "$JOB" --accept "$NUMBER" --reference C-9 --reason 'cleaned up' --by E
gives 0 fluid "$JOB" record --release "$RELEASE" --receiving 'dry ditch' --told 'county, 14:10' --by A
gives 0 fluid "$JOB" record --release "$RELEASE" --done 'bermed, pumped off' --by A
gives 0 fluid "$JOB"
says "release $RELEASE" 'dry ditch' 'county, 14:10' 'bermed, pumped off' 'whole'
# a record that was a slip is struck out, and missed again
ENTRY=$(sql "$JOB" "SELECT max(act) FROM fluid_event")
gives 0 strike "$JOB" --entry "$ENTRY" --reason 'of another place' --by A
refuses 65 'what was done' nonconformance "$JOB" --accept "$NUMBER" --reference C-9 --reason 'cleaned up' --by E
gives 0 fluid "$JOB" record --release "$RELEASE" --done 'bermed, pumped off, raked' --by A
gives 0 nonconformance "$JOB" --accept "$NUMBER" --reference C-9 --reason 'cleaned up' --by E
says 'accepted by E'
gives 0 fluid "$JOB" --json
is "$(json_sql "SELECT json_extract(value, '\$.record.whole') FROM o, json_each(j, '\$.events') WHERE json_extract(value, '\$.kind') = 'release'")" \
	1 "the record"
gives 0 verify "$JOB"

# what the sheet does not say is named, and the rest is there
cp -r "$SHEET" "$HERE/bare"
sed -i -e '/^weight = /d; /^return_weight = /d; /^yield_point = /d' "$HERE/bare/job.ini"
sed -i -e '/soft silt/d' "$HERE/bare/soil.csv"
gives 0 new "$HERE/bare.bore" --sheet "$HERE/bare" --by P
gives 0 fluid "$HERE/bare.bore"
says '[fluid] weight is missing'
cp -r "$SHEET" "$HERE/gap"
sed -i -e '/^soil = /d; /^yield_point = /d' "$HERE/gap/job.ini"
gives 0 new "$HERE/gap.bore" --sheet "$HERE/gap" --by P
gives 0 fluid "$HERE/gap.bore"
says 'The sheet has no soil.csv' "plastic_viscosity or yield_point is missing: only the fluid's own weight"

# fluid that cannot be
sheet_with() {
	rm -rf "$HERE/odd"
	cp -r "$SHEET" "$HERE/odd"
	sed -i -e "$1" "$HERE/odd/job.ini"
}
sheet_with 's/^weight = .*/weight = 1080/'
run new "$HERE/odd.bore" --sheet "$HERE/odd" --by P
warns '1080 lb/gal is no drilling fluid: water has 8.345'
sheet_with 's/^weight = .*/weight = 8.1/'
gives 0 new "$HERE/odd.bore" --sheet "$HERE/odd" --by P
warns '8.1 lb/gal is lighter than water'
sheet_with 's/^outside_diameter = 5$/outside_diameter = 13/'
run new "$HERE/odd2.bore" --sheet "$HERE/odd" --by P
warns 'a drill pipe of 13 does not go into a pilot hole of 12.25'
sheet_with 's/^return_weight = .*/return_weight = 8.5/'
gives 0 new "$HERE/odd3.bore" --sheet "$HERE/odd" --by P
warns 'cuttings only make the fluid heavier'
