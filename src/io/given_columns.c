/* The columns of a drawing's table, known by the names that drawings give them, in any order; a unit in
 * brackets behind a name is read and not only passed over. A name that could be two things is asked about.
 */
#include "io/nearest.h"

#include <stdio.h>
#include <string.h>

#include "given_table.h"

static const struct {
	enum column column;
	const char *name;
} known[] = {
	{ STATION, "station" },
	{ STATION, "sta" },
	{ STATION, "chainage" },
	{ ELEVATION, "elevation" },
	{ ELEVATION, "elev" },
	{ ELEVATION, "el" },
	{ ELEVATION, "level" },
	{ NORTHING, "northing" },
	{ NORTHING, "north" },
	{ NORTHING, "n" },
	{ EASTING, "easting" },
	{ EASTING, "east" },
	{ EASTING, "e" },
	{ OFFSET, "offset" },
	{ RADIUS, "radius" },
	{ RADIUS, "r" },
	{ RADIUS, "curve radius" },
};

/* Words beside the numbers. Of the first six, which are remarks, those that mark curves are looked at. */
#define REMARKS 6
static const char *const words[] = { "remark", "remarks", "description", "note", "notes", "comment", "name",
	"point", "pi", "no", "number", "type" };

static const struct {
	const char *word;
	enum given_unit said;
	enum unit unit;
} units[] = {
	{ "m", GIVEN_UNIT_SAID, UNIT_M },
	{ "metres", GIVEN_UNIT_SAID, UNIT_M },
	{ "meters", GIVEN_UNIT_SAID, UNIT_M },
	{ "ftUS", GIVEN_UNIT_SAID, UNIT_FTUS },
	{ "usft", GIVEN_UNIT_SAID, UNIT_FTUS },
	{ "US survey feet", GIVEN_UNIT_SAID, UNIT_FTUS },
	{ "international feet", GIVEN_UNIT_SAID, UNIT_FT },
	{ "ft", GIVEN_UNIT_FOOT, UNIT_FT },
	{ "feet", GIVEN_UNIT_FOOT, UNIT_FT },
};

bool given_has(const struct table *t, enum column c)
{
	return t->at[c] >= 0;
}

bool given_is_plan(const struct table *t)
{
	return given_has(t, NORTHING) && given_has(t, EASTING);
}

/* "station (ft)": the name, and the unit in it. */
static void split_name(const char *full, char name[64], char unit[64])
{
	size_t end = strcspn(full, "([");

	snprintf(name, 64, "%.*s", (int)(end < 63 ? end : 63), full);
	snprintf(unit, 64, "%.62s", full[end] ? full + end + 1 : "");
	unit[strcspn(unit, ")]")] = '\0';
}

static bool take_unit(struct table *t, const char *column, const char *word)
{
	for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
		if (!sb_nearest_same(word, units[i].word))
			continue;
		if (t->unit_said != GIVEN_UNIT_UNSAID &&
			(t->unit_said != units[i].said || t->unit != units[i].unit))
			sb_csv_wrong(t->csv, 0, column,
				"columns are in different units. Give all of them in one.");
		t->unit_said = units[i].said;
		t->unit = units[i].unit;
		return true;
	}
	sb_csv_wrong(t->csv, 0, column,
		"'%.30s' is not a unit that is read here: m, ft, ftUS (US survey feet) or international feet.",
		word);
	return false;
}

static bool is_word(const char *name, size_t among)
{
	for (size_t i = 0; i < among; i++)
		if (sb_nearest_same(name, words[i]))
			return true;
	return false;
}

static void look_at_stranger(struct table *t, const char *full, const char *name)
{
	struct nearest n = sb_nearest_to(name);

	if (is_word(name, sizeof words / sizeof *words))
		return;
	if (sb_nearest_same(name, "x") || sb_nearest_same(name, "y")) {
		sb_csv_wrong(t->csv, 0, full,
			"'%.20s' is east on some drawings and north on others. Name the columns easting and northing.",
			full);
		return;
	}
	for (size_t i = 0; i < sizeof known / sizeof *known; i++)
		if (strlen(known[i].name) > 3 && t->at[known[i].column] < 0)
			sb_nearest_try(&n, known[i].name);
	if (n.best)
		sb_csv_wrong(
			t->csv, 0, full, "there is no column '%.40s'. '%s' is probably meant.", full, n.best);
	else
		given_note(t->r->out, "The column '%.40s' is not used.", full);
}

static void map_column(struct table *t, size_t i)
{
	const char *full = sb_csv_column(t->csv, i);
	char name[64], unit[64];

	split_name(full, name, unit);
	for (size_t k = 0; k < sizeof known / sizeof *known; k++) {
		if (!sb_nearest_same(name, known[k].name))
			continue;
		int *at = &t->at[known[k].column];
		if (*at >= 0)
			sb_csv_wrong(t->csv, 0, full,
				"'%.30s' and '%.30s' are the same column. Take one of them out.",
				sb_csv_column(t->csv, (size_t)*at), full);
		*at = (int)i;
		if (*unit)
			take_unit(t, full, unit);
		return;
	}
}

void given_map_columns(struct table *t)
{
	for (int c = 0; c < COLUMNS; c++)
		t->at[c] = -1;
	t->remark_at = -1;
	for (size_t i = 0; i < sb_csv_columns(t->csv); i++)
		map_column(t, i);
	for (size_t i = 0; i < sb_csv_columns(t->csv); i++) {
		char name[64], unit[64];
		bool taken = false;
		split_name(sb_csv_column(t->csv, i), name, unit);
		for (int c = 0; c < COLUMNS; c++)
			taken |= t->at[c] == (int)i;
		if (!taken && t->remark_at < 0 && is_word(name, REMARKS))
			t->remark_at = (int)i;
		if (!taken)
			look_at_stranger(t, sb_csv_column(t->csv, i), name);
	}
}

static bool is_profile(const struct table *t)
{
	return given_has(t, STATION) && given_has(t, ELEVATION);
}

/* What the columns together must be to be read at all. */
void given_check_columns(struct table *t)
{
	if (given_has(t, NORTHING) != given_has(t, EASTING))
		sb_csv_wrong(t->csv, 0, NULL, "there is a column %s, but no column %s.",
			given_has(t, NORTHING) ? "northing" : "easting",
			given_has(t, NORTHING) ? "easting" : "northing");
	else if (given_has(t, RADIUS) && given_is_plan(t) && given_has(t, ELEVATION))
		sb_csv_wrong(t->csv, 0, "radius",
			"is it the radius of the curve in plan or of that in profile? Give two files: easting, northing, radius; and station, elevation, radius.");
	else if (given_is_plan(t) && given_has(t, OFFSET))
		sb_csv_wrong(t->csv, 0, "offset",
			"there are coordinates and offsets. Take one of them out: they say the same.");
	else if (given_has(t, OFFSET) && !given_has(t, STATION))
		sb_csv_wrong(t->csv, 0, NULL, "offsets need a column station: how far along they are.");
	else if (!given_is_plan(t) && !is_profile(t))
		sb_csv_wrong(t->csv, 0, NULL,
			"there is no line in these columns. A profile needs station and elevation, an alignment easting and "
			"northing; with radius they are points of intersection, without it stations along the line.%s%s%s",
			given_has(t, STATION) || given_has(t, ELEVATION) ? " Missing: " : "",
			given_has(t, STATION)		  ? "elevation"
				: given_has(t, ELEVATION) ? "station"
							  : "",
			given_has(t, STATION) || given_has(t, ELEVATION) ? "." : "");
}
