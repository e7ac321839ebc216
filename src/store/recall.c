/* Reading the facts back, in the order of time: act by act, each with the reading, leg or acknowledgement
 * that came with it. The four tables are read side by side, all in the order of their acts.
 */
#include "store/recall.h"

#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "model/after.h"
#include "model/setting.h"
#include "model/warning.h"
#include "store/facts.h"

#include <assert.h>
#include <limits.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define FIRST_FIELD 5  /* of the columns that `readings` asks for */
#define FIRST_COLUMN 2 /* of those of a fact that comes with an act */
#define SORTS 24

/* A table read alongside: the row it stands at. Column 1 is the act. */
struct stream {
	struct sb_query *q;
	bool has;
};

struct recall {
	struct job *job;
	struct sb_err *err;
	struct stream readings, legs, acknowledgements, changes;
	struct stream sorts[SORTS];	    /* by sb_fact_sorts */
	const struct row_field *fields[48]; /* by column of readings, from FIRST_FIELD */
};

static int damaged(struct sb_err *err, const char *format, ...) __attribute__((format(printf, 2, 3)));

static int damaged(struct sb_err *err, const char *format, ...)
{
	char words[200];
	va_list args;

	va_start(args, format);
	vsnprintf(words, sizeof words, format, args);
	va_end(args);
	return sb_fail(err, SB_DAMAGED, "The job file does not hold together: %s. Run verify on it.", words);
}

/* What a table's own reader refused, with the place put before it. */
static int refused(struct sb_err *err, const char *table, int64_t id)
{
	if (err)
		err->code = SB_DAMAGED;
	return sb_fail_within(
		err, "The job file does not hold together: %s row %lld: ", table, (long long)id);
}

/* Text of people: must be UTF-8 and fit; control characters are made harmless. */
static int take_text(const struct sb_query *q, int column, char *to, size_t size)
{
	size_t length;
	const char *bytes = sb_sql_bytes(q, column, &length);

	if (!sb_utf8_valid(bytes, length) || length >= size)
		return -1;
	memcpy(to, bytes, length);
	to[length] = '\0';
	sb_utf8_tame(to);
	return 0;
}

/* A whole number within what an int of ours may be. */
static bool take_int(const struct sb_query *q, int column, int *to)
{
	int64_t value = sb_sql_int(q, column);

	*to = (int)value;
	return value >= 0 && value < INT_MAX / 2;
}

/* ---- the sheet ---- */

static int check_required(const bool *seen, struct sb_err *err)
{
	for (size_t i = 0; i < sb_setting_count; i++)
		if (sb_settings[i].required && !seen[i])
			return damaged(err, "the setting [%s] %s is missing", sb_settings[i].section,
				sb_settings[i].key);
	return 0;
}

/* seen: by index of sb_settings, those that the file has. */
static int recall_settings(struct sb_sql *db, struct job *job, bool *seen, struct sb_err *err)
{
	struct sb_query *q = sb_sql_prepare(
		db, "SELECT id, section, key, value FROM setting WHERE from_joint IS NULL ORDER BY id");
	int status = 0;

	while (status == 0 && sb_sql_row(q)) {
		const struct setting *s = sb_setting(sb_sql_text(q, 1), sb_sql_text(q, 2));
		if (s == NULL)
			status = sb_fail(err, SB_NEWER,
				"The job has a setting [%.40s] %.40s, which this version of the program does not know. Use the version that made it.",
				sb_sql_text(q, 1), sb_sql_text(q, 2));
		else if (sb_setting_put(s, job, sb_sql_text(q, 3), err))
			status = refused(err, "setting", sb_sql_int(q, 0));
		else
			seen[s - sb_settings] = true;
	}
	return sb_sql_done(q, status ? NULL : err) || status ? -1 : 0;
}

static int recall_row(
	const struct sheet_table *table, const struct sb_query *q, void *row, struct sb_err *err)
{
	for (size_t c = 0; c < table->column_count; c++)
		if (sb_sheet_cell_put(&table->columns[c], row, sb_sql_text(q, (int)c), err))
			return -1;
	return 0;
}

static int recall_table(struct sb_sql *db, const struct sheet_sql *sql, struct job *job, struct sb_err *err)
{
	const struct sheet_table *table = sb_sheet_table(sql->name);
	struct sb_query *q = sb_sql_prepare(db, sql->select);
	int64_t count = 0;
	int status = 0;

	while (status == 0 && sb_sql_row(q)) {
		count++;
		if (recall_row(table, q, sb_sheet_row_new(table, job), err))
			status = refused(err, sql->name, count);
	}
	return sb_sql_done(q, status ? NULL : err) || status ? -1 : 0;
}

static int recall_sheet(struct sb_sql *db, struct job *job, struct sb_err *err)
{
	bool *seen = sb_alloc(sb_setting_count * sizeof *seen);
	int status = recall_settings(db, job, seen, err) || check_required(seen, err) ? -1 : 0;

	sb_free(seen);
	if (status)
		return -1;
	for (size_t i = 0; i < sb_facts_sheet_count; i++)
		if (recall_table(db, &sb_facts_sheets[i], job, err))
			return -1;
	return 0;
}

/* ---- the log ---- */

static void go_on(struct stream *s)
{
	s->has = sb_sql_row(s->q);
}

static bool stands_at(const struct stream *s, const struct act *act)
{
	return s->has && sb_sql_int(s->q, 1) == act->id;
}

static int place_reading(const struct recall *c, const struct sb_query *q, struct reading *r)
{
	const struct reading *old = sb_job_reading(c->job, r->corrects);
	const struct reading *last =
		c->job->reading_count ? &c->job->readings[c->job->reading_count - 1] : NULL;

	if (!take_int(q, 3, &r->leg) || !take_int(q, 4, &r->joint) || r->id <= (last ? last->id : 0))
		return damaged(c->err, "reading %lld is out of order", (long long)r->id);
	if (r->corrects && (old == NULL || old->leg != r->leg || old->joint != r->joint))
		return damaged(
			c->err, "reading %lld corrects one that is not of its joint", (long long)r->id);
	if (r->corrects == 0 && (r->leg != sb_job_leg(c->job) || r->joint != sb_job_in_ground(c->job) + 1))
		return damaged(c->err, "reading %lld (leg %d joint %d) does not follow on the one before",
			(long long)r->id, r->leg, r->joint);
	return 0;
}

static int recall_reading(struct recall *c, struct act *act)
{
	const struct sb_query *q = c->readings.q;
	struct reading r = { .id = sb_sql_int(q, 0), .act = act->id, .corrects = sb_sql_int(q, 2) };

	if (place_reading(c, q, &r))
		return -1;
	for (int i = FIRST_FIELD; i < sb_sql_columns(q); i++)
		if (sb_row_field_put(c->fields[i], &r, c->job->incline, sb_sql_text(q, i), c->err))
			return refused(c->err, "reading", r.id);
	if (!sb_copy(r.reason, sizeof r.reason, act->text))
		return damaged(c->err, "the reason of act %lld is too long", (long long)act->id);
	sb_copy(r.who, sizeof r.who, act->who);
	r.at_ms = act->at_ms;
	act->subject = r.id;
	if (act->kind != (r.corrects ? ACT_CORRECT : ACT_LOG))
		return damaged(c->err, "reading %lld does not fit its act", (long long)r.id);
	sb_job_add_reading(c->job, &r);
	go_on(&c->readings);
	return 0;
}

static int recall_leg(struct recall *c, const struct act *act)
{
	const struct sb_query *q = c->legs.q;
	struct leg leg = { .act = act->id, .at_ms = act->at_ms };

	if (!take_int(q, 0, &leg.number) || !take_int(q, 2, &leg.to_joint) ||
		leg.number != sb_job_leg(c->job) + 1 || leg.to_joint >= sb_job_in_ground(c->job))
		return damaged(
			c->err, "leg %lld does not follow on the one before", (long long)sb_sql_int(q, 0));
	if (act->kind != ACT_WITHDRAW || !sb_copy(leg.reason, sizeof leg.reason, act->text))
		return damaged(c->err, "leg %d does not fit its act", leg.number);
	sb_copy(leg.who, sizeof leg.who, act->who);
	sb_job_add_leg(c->job, &leg);
	go_on(&c->legs);
	return 0;
}

static bool take_level(const char *word, int *level)
{
	for (int i = LEVEL_OK; i <= LEVEL_BREACH; i++)
		if (sb_same(word, sb_level_word((enum level)i))) {
			*level = i;
			return true;
		}
	return false;
}

static int recall_acknowledgement(struct recall *c, const struct act *act)
{
	const struct sb_query *q = c->acknowledgements.q;
	struct acknowledgement a = { .act = act->id, .at_ms = act->at_ms };
	enum warning_kind kind;

	if (act->kind != ACT_ACKNOWLEDGE || sb_warning_kind_parse(sb_sql_text(q, 2), &kind) ||
		!take_int(q, 3, &a.leg) || !take_int(q, 4, &a.joint) || !take_int(q, 5, &a.to_joint) ||
		!take_level(sb_sql_text(q, 6), &a.level) || !sb_copy(a.reason, sizeof a.reason, act->text))
		return damaged(
			c->err, "acknowledgement %lld does not fit its act", (long long)sb_sql_int(q, 0));
	sb_copy(a.kind, sizeof a.kind, sb_warning_sorts[kind].name);
	sb_copy(a.who, sizeof a.who, act->who);
	sb_job_add_acknowledgement(c->job, &a);
	go_on(&c->acknowledgements);
	return 0;
}

static void recall_head(const struct sb_query *q, const struct act *act, struct fact *head)
{
	*head = (struct fact){ .id = sb_sql_int(q, 0),
		.act = act->id,
		.at_ms = act->at_ms,
		.leg = act->leg,
		.joint = act->joint };
	sb_copy(head->who, sizeof head->who, act->who);
	sb_copy(head->words, sizeof head->words, act->text);
}

/* An act may change several settings. */
static int recall_changes(struct recall *c, const struct act *act)
{
	struct job trial = *c->job; /* borrowed; only to see that the value is one */

	while (stands_at(&c->changes, act)) {
		const struct sb_query *q = c->changes.q;
		const struct setting *s = sb_setting(sb_sql_text(q, 2), sb_sql_text(q, 3));
		struct change change;
		recall_head(q, act, &change.fact);
		if (s == NULL || !sb_setting_changeable(s) || !take_int(q, 5, &change.from_joint))
			return damaged(
				c->err, "setting %lld is not one that can change", (long long)change.fact.id);
		if (sb_setting_put(s, &trial, sb_sql_text(q, 4), c->err) ||
			!sb_copy(change.value, sizeof change.value, sb_sql_text(q, 4)))
			return refused(c->err, "setting", change.fact.id);
		sb_copy(change.section, sizeof change.section, s->section);
		sb_copy(change.key, sizeof change.key, s->key);
		sb_job_add_change(c->job, &change);
		go_on(&c->changes);
	}
	return 0;
}

/* What a fact says of another must be there. */
static bool refers_well(const struct recall *c, const struct fact_sort *sort, const union any_fact *fact)
{
	enum warning_kind kind;

	switch ((int)sort->act) {
	case ACT_FIX_USE:
		return sb_job_fix(c->job, fact->fix_use.fix) != NULL;
	case ACT_ACCEPT:
		return sb_warning_kind_parse(fact->disposition.kind, &kind) == 0;
	case ACT_TICK:
		return (size_t)fact->ticked.point <= c->job->checklist_count;
	case ACT_RETURNS:
		return fact->fluid_event.kind != FLUID_RECORD ||
			(fact->fluid_event.of >= 1 &&
				(size_t)fact->fluid_event.of <= c->job->fluid_event_count);
	case ACT_PASS_JOINT:
		return (size_t)fact->pass_joint.pass <= c->job->pass_count;
	case ACT_PASS_END:
		return (size_t)fact->pass_end.pass <= c->job->pass_count;
	case ACT_STRIKE:
		return sb_after_strikable(c->job, fact->strike.entry);
	default:
		return true;
	}
}

static int recall_sort(struct recall *c, const struct fact_sort *sort, const struct act *act)
{
	struct stream *stream = &c->sorts[sort - sb_fact_sorts];
	const struct sb_query *q = stream->q;
	union any_fact fact = { 0 };

	recall_head(q, act, &fact.fact);
	for (size_t i = 0; i < sort->column_count; i++)
		if (sb_sheet_cell_put(
			    &sort->columns[i], &fact, sb_sql_text(q, FIRST_COLUMN + (int)i), c->err))
			return refused(c->err, sort->table, fact.fact.id);
	if (!refers_well(c, sort, &fact))
		return damaged(
			c->err, "%s row %lld names what is not there", sort->table, (long long)fact.fact.id);
	sb_fact_add(c->job, act->kind, &fact);
	go_on(stream);
	return 0;
}

static int recall_act(struct recall *c, const struct sb_query *q, struct act *act)
{
	const struct job *job = c->job;
	int64_t last = job->act_count ? job->acts[job->act_count - 1].id : 0, offset = sb_sql_int(q, 3);

	*act = (struct act){ .id = sb_sql_int(q, 0), .offset_min = (int)offset };
	if (act->id <= last || sb_act_parse(sb_sql_text(q, 1), &act->kind) ||
		sb_time_parse(sb_sql_text(q, 2), &act->at_ms, NULL) || offset < -900 || offset > 900 ||
		take_text(q, 4, act->who, sizeof act->who) || act->who[0] == '\0' ||
		!take_int(q, 5, &act->leg) || !take_int(q, 6, &act->joint) ||
		take_text(q, 7, act->text, sizeof act->text))
		return damaged(c->err, "act %lld is not one that this program writes", (long long)act->id);
	return 0;
}

/* The one fact that came with an act, if its kind brings one. */
static int recall_fact(struct recall *c, struct act *act)
{
	const struct fact_sort *sort = sb_fact_sort(act->kind);

	if (sort && stands_at(&c->sorts[sort - sb_fact_sorts], act))
		return recall_sort(c, sort, act);
	switch ((int)act->kind) {
	case ACT_LOG:
	case ACT_CORRECT:
		if (stands_at(&c->readings, act))
			return recall_reading(c, act);
		break;
	case ACT_WITHDRAW:
		if (stands_at(&c->legs, act))
			return recall_leg(c, act);
		break;
	case ACT_ACKNOWLEDGE:
		if (stands_at(&c->acknowledgements, act))
			return recall_acknowledgement(c, act);
		break;
	case ACT_CHANGE:
		if (stands_at(&c->changes, act))
			return recall_changes(c, act);
		break;
	case ACT_NEW:
	case ACT_NOTE:
	case ACT_SHIFT_BEGIN:
	case ACT_SHIFT_END:
		return 0;
	}
	return damaged(
		c->err, "act %lld (%s) lacks what came with it", (long long)act->id, sb_act_name(act->kind));
}

static int recall_acts(struct recall *c, struct sb_query *q)
{
	while (sb_sql_row(q)) {
		struct act act;
		if (recall_act(c, q, &act) || recall_fact(c, &act))
			return -1;
		sb_job_add_act(c->job, &act);
	}
	return 0;
}

static int recall_log(struct sb_sql *db, struct recall *c)
{
	struct sb_query *acts = sb_sql_prepare(
		db, "SELECT id, kind, at, utc_offset, who, leg, joint, words FROM act ORDER BY id");
	int status = recall_acts(c, acts);

	if (sb_sql_done(acts, status ? NULL : c->err))
		status = -1;
	bool left = c->readings.has || c->legs.has || c->acknowledgements.has || c->changes.has;
	for (size_t i = 0; i < sb_fact_sort_count; i++)
		left |= c->sorts[i].has;
	if (status == 0 && left)
		status = damaged(c->err, "a row names no act of its kind");
	return status;
}

static void open_streams(struct sb_sql *db, struct recall *c)
{
	c->readings.q = sb_sql_prepare(db,
		"SELECT id, act, corrects, leg, joint, joint_length, inclination, azimuth, tool_face, slid, thrust,"
		" torque, flow, standpipe, annular, returns, started, ended, remarks, azimuth_by, pushes, total_gravity,"
		" total_field, dip, gravity_x, gravity_y, gravity_z, field_x, field_y, field_z FROM reading ORDER BY id");
	c->legs.q = sb_sql_prepare(db, "SELECT id, act, to_joint FROM leg ORDER BY id");
	c->acknowledgements.q = sb_sql_prepare(
		db, "SELECT id, act, kind, leg, joint, to_joint, level FROM acknowledgement ORDER BY id");
	c->changes.q = sb_sql_prepare(db,
		"SELECT id, act, section, key, value, from_joint FROM setting WHERE from_joint IS NOT NULL"
		" ORDER BY id");
	go_on(&c->readings);
	go_on(&c->legs);
	go_on(&c->acknowledgements);
	go_on(&c->changes);
	assert(sb_fact_sort_count <= SORTS);
	for (size_t i = 0; i < sb_fact_sort_count; i++) {
		c->sorts[i].q = sb_sql_prepare(db, sb_facts_sql(&sb_fact_sorts[i])->select);
		go_on(&c->sorts[i]);
	}
	for (int i = FIRST_FIELD; i < sb_sql_columns(c->readings.q); i++)
		c->fields[i] = sb_row_field(sb_sql_name(c->readings.q, i));
}

/* A stream that broke off looks like one that ended: its own words come last, and hold. */
static int close_streams(struct recall *c, int status)
{
	status |= sb_sql_done(c->readings.q, c->err);
	status |= sb_sql_done(c->legs.q, c->err);
	status |= sb_sql_done(c->acknowledgements.q, c->err);
	status |= sb_sql_done(c->changes.q, c->err);
	for (size_t i = 0; i < sb_fact_sort_count; i++)
		status |= sb_sql_done(c->sorts[i].q, c->err);
	return status;
}

int sb_recall_job(struct sb_sql *db, struct job *job, struct sb_err *err)
{
	struct recall c = { .job = job, .err = err };

	sb_setting_init(job);
	int status = recall_sheet(db, job, err);
	if (status == 0) {
		open_streams(db, &c);
		status = close_streams(&c, recall_log(db, &c));
	}
	if (status)
		sb_job_clear(job);
	return status ? -1 : 0;
}
