#!/usr/bin/env bash
# sagbend roll-test: what a tool's sensors have wrong, from readings turned in place.
# shellcheck source=/dev/null
. "$(dirname "$0")/../support/cli.bash"

FILE=sample-data/roll-test.csv # made with bias 0.0031, -0.0012 g and 140, -60 nT

gives 0 roll-test $FILE
says '8 readings turned in place' gravity_bias_x 'do not show when a tool is turned'
gives 0 roll-test $FILE --json
about "$(json '$.gravity.bias_x')" 0.0031 0.0003 'gravity bias x'
about "$(json '$.gravity.bias_y')" -0.0012 0.0003 'gravity bias y'
about "$(json '$.field.bias_x')" 140 30 'field bias x'
about "$(json '$.field.bias_y')" -60 30 'field bias y'
is "$(json '$.readings')" 8 readings

# Other axes turn what is found with them.
gives 0 roll-test $FILE --axes '-y x z' --json
about "$(json '$.gravity.bias_x')" 0.0012 0.0003 'gravity bias x in other axes'
about "$(json '$.gravity.bias_y')" 0.0031 0.0003 'gravity bias y in other axes'

# From standard input; what is missing is said.
gives 0 roll-test - <$FILE
head -5 $FILE >"$HERE/few.csv"
refuses 65 'take one more with the mark at' roll-test "$HERE/few.csv"
head -3 $FILE >"$HERE/fewer.csv"
refuses 65 '4 readings' roll-test "$HERE/fewer.csv"
sed 's/field_z/depth/' $FILE >"$HERE/column.csv"
gives 65 roll-test "$HERE/column.csv"
warns 'field_z' 'there is no such column'
sed '3s/^[^,]*/east/' $FILE >"$HERE/word.csv"
gives 65 roll-test "$HERE/word.csv"
warns gravity_x 'not a number'
refuses 64 'x x z' roll-test $FILE --axes 'x x z'
refuses 66 'There is no' roll-test "$HERE/none.csv"
