/* What was said and done, as tables: the lines that go with every export, the non-conformances and what came
 * of them, the legs, how the hole passes the obstacles, the independent fixes. All words come from where the
 * screens have theirs.
 */
#include "base/str.h"
#include "base/time.h"
#include "model/fixes.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "drawing_tables.h"

/* A table with nothing in it says so. */
static void say_none(struct drawing_table *t, size_t column, const char *words)
{
	for (size_t i = 0; i < t->paper.column_count; i++)
		drawing_table_put(t, i == column ? words : "");
	drawing_table_end_row(t, ROW_PLAIN);
}

/* "file_digest" as "File digest" */
static void put_key(struct drawing_table *t, const char *key)
{
	char words[48];

	sb_copy(words, sizeof words, key);
	for (char *c = words; (c = strchr(c, '_')) != NULL;)
		*c = ' ';
	if (words[0] >= 'a' && words[0] <= 'z')
		words[0] = (char)(words[0] - 'a' + 'A');
	drawing_table_put(t, words);
}

static void fill_notes(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "About", HOLD_LEFT, false },
		{ "Note", HOLD_LEFT, true } };
	struct drawing_table *t = drawing_table_begin(all, "NOTES", columns, 2);

	drawing_table_put(t, "Acceptance");
	drawing_table_put(t, d->acceptance.text);
	drawing_table_end_row(t, ROW_STRONG);
	for (size_t i = 0; i < d->line_count; i++) {
		put_key(t, d->lines[i].key);
		drawing_table_put(t, d->lines[i].text);
		drawing_table_end_row(t, ROW_PLAIN);
	}
	drawing_table_finish(d, all, t);
}

/* ---- non-conformances ---- */

static void fill_breaches(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "No.", HOLD_RIGHT, false },
		{ "Kind", HOLD_LEFT, false }, { "Leg", HOLD_RIGHT, false }, { "Where", HOLD_LEFT, false },
		{ "Station", HOLD_RIGHT, false }, { "What was found", HOLD_LEFT, true },
		{ "Disposition", HOLD_LEFT, true } };
	struct drawing_table *t = drawing_table_begin(all, "NON-CONFORMANCES", columns, 7);

	if (d->breach_count == 0)
		say_none(t, 5, "None: no limit was broken.");
	for (size_t i = 0; i < d->breach_count; i++) {
		const struct nonconformance *n = &d->breaches[i];
		struct sb_str joints = { 0 }, came = { 0 };
		char text[SB_AXIS_TEXT];
		sb_nonconformance_joints(n, &joints);
		sb_nonconformance_say(n, &came);
		snprintf(text, sizeof text, "%d", n->number);
		drawing_table_put(t, text);
		drawing_table_put(t, sb_warning_sorts[n->warning->kind].label);
		snprintf(text, sizeof text, "%d", n->warning->leg);
		drawing_table_put(t, text);
		drawing_table_put(t, sb_str_get(&joints));
		sb_axis_station(n->warning->station_m, d->job->unit, 1, text);
		drawing_table_put(t, text);
		drawing_table_put(t, n->warning->text);
		drawing_table_put(t, sb_str_get(&came));
		drawing_table_end_row(t, n->state == DISPOSITION_OPEN ? ROW_STRONG : ROW_PLAIN);
		sb_str_clear(&joints);
		sb_str_clear(&came);
	}
	drawing_table_finish(d, all, t);
}

/* ---- legs ---- */

static void fill_legs(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Leg", HOLD_RIGHT, false },
		{ "Joints left in the ground", HOLD_LEFT, false }, { "Began", HOLD_LEFT, false },
		{ "By", HOLD_LEFT, false }, { "Because", HOLD_LEFT, true } };
	struct drawing_table *t = drawing_table_begin(all, "WITHDRAWN AND REDRILLED", columns, 5);

	for (size_t i = 0; i < d->job->leg_count; i++) {
		const struct leg *leg = &d->job->legs[i];
		char text[48];
		if (leg->number < 2)
			continue;
		snprintf(text, sizeof text, "%d", leg->number);
		drawing_table_put(t, text);
		snprintf(text, sizeof text, "1 to %d", leg->to_joint);
		drawing_table_put(t, leg->to_joint > 0 ? text : "none");
		sb_time_day(leg->at_ms, text);
		drawing_table_put(t, text);
		drawing_table_put(t, leg->who);
		drawing_table_put(t, leg->reason);
		drawing_table_end_row(t, ROW_PLAIN);
	}
	drawing_table_finish(d, all, t);
}

/* ---- fixes ---- */

static void fill_fixes(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Fix", HOLD_RIGHT, false },
		{ "Station", HOLD_RIGHT, false }, { "Verdict", HOLD_LEFT, false },
		{ "Against the path", HOLD_LEFT, true } };
	struct setup setup = sb_solution_setup(d->job, d->s);
	struct drawing_table *t = drawing_table_begin(all, "INDEPENDENT FIXES", columns, 4);

	if (d->s->fixes.count == 0)
		say_none(t, 3, "None: nothing but the readings says where the hole is.");
	for (size_t i = 0; i < d->s->fixes.count; i++) {
		const struct fix_view *v = &d->s->fixes.list[i];
		struct sb_str said = { 0 };
		char text[SB_AXIS_TEXT];
		snprintf(text, sizeof text, "%lld", (long long)v->fix);
		drawing_table_put(t, text);
		sb_axis_station(v->station_m, d->job->unit, 1, text);
		drawing_table_put(t, v->standing == FIX_STANDS ? text : "");
		drawing_table_put(t, sb_fixes_verdict(v));
		sb_fixes_say(&setup, &d->s->fixes, v, &said);
		drawing_table_put(t, sb_str_get(&said));
		drawing_table_end_row(t, v->standing == FIX_STANDS ? ROW_PLAIN : ROW_FAINT);
		sb_str_clear(&said);
	}
	drawing_table_finish(d, all, t);
}

/* ---- obstacles ---- */

static void fill_obstacle(struct drawing *d, struct drawing_table *t, size_t i)
{
	const struct obstacle *o = &d->s->around.obstacles[i];
	struct passing p = sb_clearance_drilled(&d->clear, i);
	char text[SB_AXIS_TEXT] = "", side[48] = "";

	drawing_table_put(t, o->name);
	drawing_table_put(t, o->kind);
	if (p.known) {
		sb_axis_station(p.station_m, d->job->unit, 1, text);
		sb_passing_side(&p, side);
	}
	drawing_table_put(t, text);
	drawing_table_put(t, side);
	drawing_table_put_length(d, t, p.known, p.wall_m);
	drawing_table_put_length(d, t, p.known, p.sigma_m * d->s->uncertainty.line_factor);
	drawing_table_put_length(d, t, p.known, p.required_m);
	drawing_table_put(t,
		!p.known		      ? "not reached"
			: isnan(p.required_m) ? "not judged"
					      : sb_level_word(p.level));
	drawing_table_end_row(t, p.known && p.level == LEVEL_BREACH ? ROW_STRONG : ROW_PLAIN);
}

static void fill_obstacles(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Obstacle", HOLD_LEFT, false },
		{ "Kind", HOLD_LEFT, false }, { "Nearest\nat station", HOLD_RIGHT, false },
		{ "There the\nhole is", HOLD_LEFT, false }, { "Clear", HOLD_RIGHT, false },
		{ "Give or\ntake", HOLD_RIGHT, false }, { "Asked\nfor", HOLD_RIGHT, false },
		{ "Verdict", HOLD_LEFT, false } };
	struct drawing_table *t = drawing_table_begin(all, "", columns, sizeof columns / sizeof *columns);

	snprintf(t->title, sizeof t->title, "OBSTACLES, AS DRILLED: clear of the wall of %s",
		sb_hole_word(&d->s->around.hole));
	if (!d->s->around.hole.final_given && !d->s->around.hole.pilot_given)
		snprintf(t->title, sizeof t->title, "OBSTACLES, AS DRILLED: clear of the hole's centre line");
	for (size_t i = 0; i < d->s->around.count; i++)
		fill_obstacle(d, t, i);
	drawing_table_finish(d, all, t);
}

void drawing_records_fill(struct drawing *d, struct drawing_tables *all)
{
	fill_notes(d, all);
	fill_breaches(d, all);
	fill_legs(d, all);
	fill_obstacles(d, all);
	fill_fixes(d, all);
}
