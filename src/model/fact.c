/* The columns of the facts that come one with an act. */
#include "model/fact.h"

#include "base/mem.h"
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

#define WHOLE(type, member, required, low, high, help) \
	{ \
#member, COLUMN_WHOLE, offsetof(struct type, member), 0, required, low, high, "", help, NULL \
	}
#define TEXT(type, member, required, help) \
	{ \
#member, COLUMN_TEXT, offsetof(struct type, member), sizeof(((struct type *)0)->member), \
			required, 0, 0, "", help, NULL \
	}
#define CHOICE(type, member, words, required, help) \
	{ \
#member, COLUMN_CHOICE, offsetof(struct type, member), 0, required, 0, 0, "", help, words \
	}
#define CLOCK(type, member, help) \
	{ \
#member, COLUMN_CLOCK, offsetof(struct type, member), SB_CLOCK_TEXT, 0, 0, 0, "", help, NULL \
	}

static const char *const fluid_kinds[] = { "full", "partial", "none", "loss", "release", "record", NULL };
static const char *const pass_kinds[] = { "ream", "swab", NULL };
static const char *const pass_ways[] = { "entry", "exit", NULL };
static const char *const returns_words[] = { "", "full", "partial", "none", NULL };
static const char *const record_kinds[] = { "weld", "inspection", "coating", "test", "drag", NULL };
static const char *const outcomes[] = { "good", "bad", NULL };
static const char *const coatings[] = { "sound", "scratched", "damaged", NULL };

static const struct sheet_column fluid_event_columns[] = {
	CHOICE(fluid_event, kind, fluid_kinds, 1,
		"returns (full, partial, none), a loss, a release to the surface, or a record of what was missing of a release"),
	NUM(fluid_event, station, 0, -BIG, BIG, "length", "where; blank: at the bit or the tool"),
	NUM(fluid_event, volume, 0, 0, BIG, "m3 or gal", "how much, lost or released"),
	TEXT(fluid_event, place, 0, "where it came up"),
	TEXT(fluid_event, receiving, 0, "what it ran into: land, wetland, water"),
	TEXT(fluid_event, told, 0, "who was told, and when"),
	TEXT(fluid_event, done, 0, "how it was contained and cleaned up"),
	WHOLE(fluid_event, of, 0, 0, 1e9, "of a record: the number of its release"),
};
static const struct sheet_column pass_columns[] = {
	CHOICE(pass, kind, pass_kinds, 1, "ream or swab"),
	CHOICE(pass, to, pass_ways, 1, "the side it goes to: entry (the rig side) or exit"),
	NUM(pass, diameter, 1, 0.1, 10000, "mm or inches", "of the tool"),
	TEXT(pass, tool, 0, "what it is"),
};
static const struct sheet_column pass_joint_columns[] = {
	WHOLE(pass_joint, pass, 1, 1, 1e9, "number of the pass"),
	WHOLE(pass_joint, joint, 1, 1, 1e6, "the joint that the tool went through, as numbered in the pilot"),
	NUM(pass_joint, pull, 0, -1e7, 1e7, "kN or lbf", "axial load, pulling positive"),
	NUM(pass_joint, torque, 0, 0, 1e7, "kN m or ft lbf", "rotary torque"),
	NUM(pass_joint, flow, 0, 0, 1e5, "L/min or gal/min", "drilling fluid pumped"),
	NUM(pass_joint, pressure, 0, 0, 1e5, "kPa or psi", "pump pressure"),
	NUM(pass_joint, annular, 0, 0, 1e5, "kPa or psi", "annular pressure, measured at the tool"),
	CLOCK(pass_joint, started, "local time the joint began, hh:mm"),
	CLOCK(pass_joint, ended, "local time the joint was through, hh:mm"),
	CHOICE(pass_joint, returns, returns_words, 0, "full, partial or none"),
};
static const struct sheet_column pass_end_columns[] = {
	WHOLE(pass_end, pass, 1, 1, 1e9, "number of the pass"),
};
static const struct sheet_column pipe_columns[] = {
	WHOLE(pipe, joint, 1, 1, 1e6, "number in the string, 1 behind the pull head"),
	NUM(pipe, length, 1, 0.01, 10000, "length", "measured"),
	TEXT(pipe, mark, 0, "what is painted on it: heat, pipe number"),
};
static const struct sheet_column pipe_record_columns[] = {
	CHOICE(pipe_record, kind, record_kinds, 1, "what was done"),
	WHOLE(pipe_record, joint, 0, 0, 1e6,
		"weld N is between joints N and N + 1; 0: the whole string (test, drag)"),
	CHOICE(pipe_record, outcome, outcomes, 1, "good or bad"),
	NUM(pipe_record, pressure, 0, 0, 1e6, "kPa or psi", "of a test: held"),
	NUM(pipe_record, hours, 0, 0, 1e5, "hours", "of a test: for how long"),
	TEXT(pipe_record, reference, 0, "where the record is kept"),
};
static const struct sheet_column pull_begin_columns[] = {
	TEXT(pull_begin, missing, 0, "what was missing when it began"),
};
static const struct sheet_column pull_joint_columns[] = {
	WHOLE(pull_joint, joint, 1, 1, 1e6,
		"the joint of drill pipe that came out, as numbered in the pilot"),
	NUM(pull_joint, force, 1, 0, 1e8, "kN or lbf", "pull force at the rig"),
	NUM(pull_joint, torque, 0, 0, 1e7, "kN m or ft lbf", "rotary torque"),
	NUM(pull_joint, flow, 0, 0, 1e5, "L/min or gal/min", "drilling fluid pumped"),
	NUM(pull_joint, annular, 0, 0, 1e5, "kPa or psi", "annular pressure, measured at the pull head"),
	CLOCK(pull_joint, started, "local time the joint began, hh:mm"),
	CLOCK(pull_joint, ended, "local time the joint was out, hh:mm"),
};
static const struct sheet_column pull_end_columns[] = {
	NUM(pull_end, extra, 0, 0, 1e6, "length", "pulled past what is needed, to be looked at"),
	CHOICE(pull_end, coating, coatings, 1, "how the coating came out: sound, scratched, damaged"),
	TEXT(pull_end, survey, 0, "where the final survey is kept"),
};
static const struct sheet_column strike_columns[] = {
	WHOLE(strike, entry, 1, 1, 1e9, "number of the act whose entry is struck out"),
};

/* A fix is used until somebody sets it aside. */
static void mark_fix(struct job *job, void *fact)
{
	(void)job;
	((struct fix *)fact)->used = true;
}

static void mark_fix_use(struct job *job, void *fact)
{
	const struct fix_use *u = fact;
	struct fix *f = sb_job_fix(job, u->fix);

	if (f)
		f->used = u->used != 0;
}

static bool *struck_of(const struct fact_sort *s, void *fact)
{
	return (bool *)(void *)((char *)fact + s->struck_at);
}

static void set_struck(const struct job *job, int entry, bool struck)
{
	const struct act *a = sb_job_act(job, entry);
	const struct fact_sort *s = a ? sb_fact_sort(a->kind) : NULL;
	void *fact = s && s->struck_at ? sb_fact_of(job, a->kind, a->id) : NULL;

	if (fact)
		*struck_of(s, fact) = struck;
}

static void mark_strike(struct job *job, void *fact)
{
	set_struck(job, ((const struct strike *)fact)->entry, true);
}

#define SORT(type, list, list_count, list_room, act, also, columns, struck_at, mark) \
	{ \
#type, act, also, columns, sizeof(columns) / sizeof *(columns), sizeof(struct type), \
			offsetof(struct job, list), offsetof(struct job, list_count), \
			offsetof(struct job, list_room), struck_at, mark \
	}
#define PLAIN(type, list, act, also, mark) \
	SORT(type, list, type##_count, type##_room, act, also, type##_columns, 0, mark)
#define ENTRY(type, list, act) \
	SORT(type, list, type##_count, type##_room, act, act, type##_columns, offsetof(struct type, struck), \
		NULL)

const struct fact_sort sb_fact_sorts[] = {
	PLAIN(repeat, repeats, ACT_REPEAT, ACT_REPEAT, NULL),
	PLAIN(fix, fixes, ACT_FIX, ACT_FIX, mark_fix),
	PLAIN(fix_use, fix_uses, ACT_FIX_USE, ACT_FIX_USE, mark_fix_use),
	PLAIN(adjustment, adjustments, ACT_ADJUST, ACT_ADJUST_BACK, NULL),
	PLAIN(disposition, dispositions, ACT_ACCEPT, ACT_ACCEPT_BACK, NULL),
	PLAIN(ticked, ticked, ACT_TICK, ACT_TICK_BACK, NULL),
	PLAIN(acceptance, acceptances, ACT_SIGN, ACT_REOPEN, NULL),
	ENTRY(fluid_event, fluid_events, ACT_RETURNS),
	ENTRY(pass, passes, ACT_PASS),
	ENTRY(pass_joint, pass_joints, ACT_PASS_JOINT),
	ENTRY(pass_end, pass_ends, ACT_PASS_END),
	ENTRY(pipe, pipes, ACT_PIPE),
	ENTRY(pipe_record, pipe_records, ACT_PIPE_RECORD),
	ENTRY(pull_begin, pull_begins, ACT_PULL),
	ENTRY(pull_joint, pull_joints, ACT_PULL_JOINT),
	ENTRY(pull_end, pull_ends, ACT_PULL_END),
	PLAIN(strike, strikes, ACT_STRIKE, ACT_STRIKE, mark_strike),
};
const size_t sb_fact_sort_count = sizeof sb_fact_sorts / sizeof *sb_fact_sorts;

/* ---- the lists in the job ---- */

/* The list is the job's; what is in it may be marked by whoever has the job to change. */
static struct fact *row_of(const struct fact_sort *s, const struct job *job, size_t i)
{
	void *const *rows = (void *const *)(const void *)((const char *)job + s->rows_at);

	return (struct fact *)(void *)((char *)*rows + i * s->size);
}

static size_t *count_of(const struct fact_sort *s, struct job *job)
{
	return (size_t *)(void *)((char *)job + s->count_at);
}

const void *sb_fact_row(const struct fact_sort *s, const struct job *job, size_t i)
{
	return row_of(s, job, i);
}

bool sb_fact_struck(const struct fact_sort *s, const void *fact)
{
	return s->struck_at && *(const bool *)(const void *)((const char *)fact + s->struck_at);
}

size_t sb_fact_count(const struct fact_sort *s, const struct job *job)
{
	return *(const size_t *)(const void *)((const char *)job + s->count_at);
}

void sb_fact_add(struct job *job, enum act_kind act, const void *fact)
{
	const struct fact_sort *s = sb_fact_sort(act);
	size_t *count = count_of(s, job), *room = (size_t *)(void *)((char *)job + s->room_at);

	void **rows = (void **)(void *)((char *)job + s->rows_at);
	*rows = sb_grow(*rows, *count, room, s->size);
	void *row = row_of(s, job, (*count)++);
	memcpy(row, fact, s->size);
	if (s->mark)
		s->mark(job, row);
}

void *sb_fact_of(const struct job *job, enum act_kind kind, int64_t act)
{
	const struct fact_sort *s = sb_fact_sort(kind);

	for (size_t i = s ? sb_fact_count(s, job) : 0; i-- > 0 && row_of(s, job, i)->act >= act;)
		if (row_of(s, job, i)->act == act)
			return row_of(s, job, i);
	return NULL;
}

/* What the facts that are left say of one another, afresh. */
static void mark_again(struct job *job)
{
	for (size_t i = 0; i < job->fix_count; i++)
		mark_fix(job, &job->fixes[i]);
	for (size_t i = 0; i < job->fix_use_count; i++)
		mark_fix_use(job, &job->fix_uses[i]);
}

void sb_fact_forget(struct job *job, int64_t act)
{
	for (size_t i = 0; i < sb_fact_sort_count; i++) {
		const struct fact_sort *s = &sb_fact_sorts[i];
		size_t *count = count_of(s, job);
		while (*count > 0 && row_of(s, job, *count - 1)->act == act) {
			if (s->act == ACT_STRIKE)
				set_struck(job, job->strikes[*count - 1].entry, false);
			--*count;
		}
	}
	mark_again(job);
}

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

const char *sb_fluid_event_name(enum fluid_event_kind kind)
{
	return fluid_kinds[kind];
}

const char *sb_pass_kind_name(enum pass_kind kind)
{
	return pass_kinds[kind];
}

const char *sb_pass_way_name(enum pass_way way)
{
	return pass_ways[way];
}

const char *sb_pipe_record_name(enum pipe_record_kind kind)
{
	return record_kinds[kind];
}

const char *sb_outcome_name(enum outcome outcome)
{
	return outcomes[outcome];
}

const char *sb_coating_name(enum coating_seen seen)
{
	return coatings[seen];
}
