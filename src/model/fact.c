/* The columns of the facts that come one with an act. */
#include "model/fact.h"

#include "base/str.h"

#include <string.h>

#define BIG 1e9
#define NUM(type, member, required, low, high, unit, help) \
	{ \
#member, COLUMN_NUMBER, offsetof(struct type, member), 0, required, low, high, unit, help, \
			NULL \
	}

static const char *const ways[] = { "again", "out", NULL };
static const char *const fix_kinds[] = { "coil", "beacon", "walk-over", "gyro", "exit", NULL };

static const struct sheet_column repeat_columns[] = {
	{ "way", COLUMN_CHOICE, offsetof(struct repeat, way), 0, 1, 0, 0, "",
		"again: at the same place once more; out: on the way out of the hole", ways },
	NUM(repeat, depth, 1, 0, BIG, "length", "of the sensor, along the hole from the entry"),
	NUM(repeat, inclination, 1, -50000, 50000, "the job's convention", "as read"),
	NUM(repeat, azimuth, 0, 0, 360, "degrees", "as the tool read it"),
	NUM(repeat, tool_face, 0, 0, 360, "degrees", "clockwise from high side, looking ahead"),
	NUM(repeat, total_gravity, 0, 0, 1e7, "", "as the tool showed it"),
	NUM(repeat, total_field, 0, 0, 1e7, "", "as the tool showed it"),
	NUM(repeat, dip, 0, -90, 90, "degrees", "as the tool showed it"),
};
static const struct sheet_column fix_columns[] = {
	{ "kind", COLUMN_CHOICE, offsetof(struct fix, kind), 0, 1, 0, 0, "", "what gave the position",
		fix_kinds },
	NUM(fix, depth, 1, 0, BIG, "length", "of the point that it fixes, along the hole from the entry"),
	NUM(fix, easting, 0, -BIG, BIG, "length", "grid easting, with northing"),
	NUM(fix, northing, 0, -BIG, BIG, "length", "grid northing, with easting"),
	NUM(fix, station, 0, -BIG, BIG, "length", "along the alignment from the entry"),
	NUM(fix, offset, 0, -BIG, BIG, "length", "from the alignment, right positive"),
	NUM(fix, elevation, 0, -BIG, BIG, "length", "elevation"),
	NUM(fix, sigma_along, 0, 1e-6, 1e6, "length", "one sigma along the alignment; blank: not observed"),
	NUM(fix, sigma_across, 0, 1e-6, 1e6, "length", "one sigma square to it; blank: not observed"),
	NUM(fix, sigma_up, 0, 1e-6, 1e6, "length", "one sigma of the elevation; blank: not observed"),
};
static const struct sheet_column fix_use_columns[] = {
	{ "fix", COLUMN_WHOLE, offsetof(struct fix_use, fix), 0, 1, 1, 1e9, "", "number of the fix", NULL },
	{ "used", COLUMN_WHOLE, offsetof(struct fix_use, used), 0, 1, 0, 1, "", "0 set aside, 1 used again",
		NULL },
};
static const struct sheet_column adjustment_columns[] = {
	{ "taken", COLUMN_WHOLE, offsetof(struct adjustment, taken), 0, 1, 0, 1, "", "0 taken back", NULL },
	NUM(adjustment, inclination, 0, -45, 45, "degrees", "added to every inclination, up positive"),
	NUM(adjustment, azimuth, 0, -180, 180, "degrees", "added to every azimuth, clockwise positive"),
	NUM(adjustment, stretch, 0, -0.1, 0.1, "", "lengths grow by this share"),
	{ "fixes", COLUMN_TEXT, offsetof(struct adjustment, fixes), SB_NAME_TEXT, 0, 0, 0, "",
		"numbers of the fixes that it rests on", NULL },
};

static const struct sheet_column disposition_columns[] = {
	{ "kind", COLUMN_TEXT, offsetof(struct disposition, kind), 32, 1, 0, 0, "",
		"of the breach, as in warning", NULL },
	{ "from_leg", COLUMN_WHOLE, offsetof(struct disposition, from_leg), 0, 1, 1, 1e6, "",
		"leg where it began", NULL },
	{ "from_joint", COLUMN_WHOLE, offsetof(struct disposition, from_joint), 0, 1, 0, 1e6, "",
		"joint where it began", NULL },
	NUM(disposition, value, 1, -BIG, BIG, "as in warning", "the worst that it was then"),
	{ "accepted", COLUMN_WHOLE, offsetof(struct disposition, accepted), 0, 1, 0, 1, "",
		"1 accepted by the engineer, 0 open again", NULL },
	{ "reference", COLUMN_TEXT, offsetof(struct disposition, reference), SB_NAME_TEXT, 0, 0, 0, "",
		"the calculation or letter that it rests on", NULL },
};
static const struct sheet_column ticked_columns[] = {
	{ "point", COLUMN_WHOLE, offsetof(struct ticked, point), 0, 1, 1, 1e6, "",
		"number of the checklist's point", NULL },
	{ "done", COLUMN_WHOLE, offsetof(struct ticked, done), 0, 1, 0, 1, "", "1 done, 0 taken back", NULL },
	{ "reference", COLUMN_TEXT, offsetof(struct ticked, reference), SB_NAME_TEXT, 0, 0, 0, "",
		"where it is kept", NULL },
};
static const struct sheet_column acceptance_columns[] = {
	{ "accepted", COLUMN_WHOLE, offsetof(struct acceptance, accepted), 0, 1, 0, 1, "",
		"1 the pilot is accepted and closed, 0 open again", NULL },
	{ "capacity", COLUMN_TEXT, offsetof(struct acceptance, capacity), SB_NAME_TEXT, 0, 0, 0, "",
		"in which who signed", NULL },
};

static void add_repeat(struct job *job, const void *fact)
{
	sb_job_add_repeat(job, fact);
}

static void add_fix(struct job *job, const void *fact)
{
	sb_job_add_fix(job, fact);
}

static void add_fix_use(struct job *job, const void *fact)
{
	sb_job_add_fix_use(job, fact);
}

static void add_adjustment(struct job *job, const void *fact)
{
	sb_job_add_adjustment(job, fact);
}

static void add_disposition(struct job *job, const void *fact)
{
	sb_job_add_disposition(job, fact);
}

static void add_ticked(struct job *job, const void *fact)
{
	sb_job_add_ticked(job, fact);
}

static void add_acceptance(struct job *job, const void *fact)
{
	sb_job_add_acceptance(job, fact);
}

#define SORT(table, act, also, columns) \
	{ \
#table, act, also, columns, sizeof(columns) / sizeof *(columns), sizeof(struct table), \
			add_##table \
	}

const struct fact_sort sb_fact_sorts[] = {
	SORT(repeat, ACT_REPEAT, ACT_REPEAT, repeat_columns),
	SORT(fix, ACT_FIX, ACT_FIX, fix_columns),
	SORT(fix_use, ACT_FIX_USE, ACT_FIX_USE, fix_use_columns),
	SORT(adjustment, ACT_ADJUST, ACT_ADJUST_BACK, adjustment_columns),
	SORT(disposition, ACT_ACCEPT, ACT_ACCEPT_BACK, disposition_columns),
	SORT(ticked, ACT_TICK, ACT_TICK_BACK, ticked_columns),
	SORT(acceptance, ACT_SIGN, ACT_REOPEN, acceptance_columns),
};
const size_t sb_fact_sort_count = sizeof sb_fact_sorts / sizeof *sb_fact_sorts;

const struct fact_sort *sb_fact_sort(enum act_kind act)
{
	for (size_t i = 0; i < sb_fact_sort_count; i++)
		if (sb_fact_sorts[i].act == act || sb_fact_sorts[i].also == act)
			return &sb_fact_sorts[i];
	return NULL;
}

const char *sb_fact_column(const struct fact_sort *s, size_t i, const void *fact, char buffer[SB_NUMBER_TEXT])
{
	return sb_sheet_cell_get(&s->columns[i], fact, buffer);
}

static const struct sheet_column *find(const struct fact_sort *s, const char *column)
{
	for (size_t i = 0; i < s->column_count; i++)
		if (sb_same(s->columns[i].name, column))
			return &s->columns[i];
	return NULL;
}

bool sb_fact_has(const struct fact_sort *s, const char *column)
{
	return find(s, column) != NULL;
}

int sb_fact_put(
	const struct fact_sort *s, void *fact, const char *column, const char *text, struct sb_err *err)
{
	const struct sheet_column *c = find(s, column);

	if (c == NULL)
		return sb_fail(err, SB_MISSING, "%s has no column %s.", s->table, column);
	return sb_sheet_cell_put(c, fact, text, err) ? sb_fail_within(err, "%s: ", column) : 0;
}

const char *sb_fix_kind_name(enum fix_kind kind)
{
	return fix_kinds[kind];
}
