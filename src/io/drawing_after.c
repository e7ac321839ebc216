/* The hole after the pilot as tables: the passes with what the rig showed, the releases with their records,
 * the pull joint by joint beside its estimate. All figures are those of the commands pass, fluid and pull.
 */
#include "base/measure.h"
#include "io/opening.h"
#include "model/fact.h"
#include "model/pullback.h"
#include "model/returns.h"

#include <math.h>
#include <stdio.h>

#include "drawing_tables.h"

#define COUNT(columns) (sizeof(columns) / sizeof *(columns))

/* ---- passes ---- */

static void put_span(struct drawing_table *t, const struct opening_span *s)
{
	char text[48] = "";

	if (s->count && s->low < s->high)
		snprintf(text, sizeof text, "%.8g to %.8g", s->low, s->high);
	else if (s->count)
		snprintf(text, sizeof text, "%.8g", s->low);
	drawing_table_put(t, text);
}

static void put_whole(struct drawing_table *t, int value)
{
	char text[16];

	snprintf(text, sizeof text, "%d", value);
	drawing_table_put(t, text);
}

static void put_pass(struct drawing *d, struct drawing_table *t, const struct opening_pass *p)
{
	char text[48], when[SB_TIME_TEXT];

	put_whole(t, p->number);
	snprintf(text, sizeof text, "%s to the %s", sb_pass_kind_name(p->pass->kind),
		sb_pass_way_name(p->pass->to));
	drawing_table_put(t, text);
	snprintf(text, sizeof text, "%.20s %s", p->pass->diameter.text,
		sb_measure_unit(d->job->unit, MEASURE_SIZE));
	drawing_table_put(t, text);
	sb_time_day(p->pass->fact.at_ms, when);
	drawing_table_put(t, when);
	put_whole(t, p->done);
	put_whole(t, p->left);
	sb_opening_volume(d->job, p->cut_m3, text);
	drawing_table_put(t, text);
	sb_opening_volume(d->job, p->pumped_m3, text);
	drawing_table_put(t, p->pumped ? text : "");
	for (int k = 0; k < OPENING_VALUES; k++)
		put_span(t, &p->values[k]);
	snprintf(text, sizeof text, "%s", p->end == NULL ? "runs" : p->left ? "ended early" : "ended");
	drawing_table_put(t, text);
	drawing_table_put(t, p->pass->tool);
	drawing_table_end_row(t, ROW_PLAIN);
}

static void fill_passes(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Pass", HOLD_RIGHT, false },
		{ "What", HOLD_LEFT, false }, { "Size", HOLD_RIGHT, false }, { "Begun", HOLD_LEFT, false },
		{ "Joints\nthrough", HOLD_RIGHT, false }, { "Left", HOLD_RIGHT, false },
		{ "Ground\ncut", HOLD_RIGHT, false }, { "Fluid\npumped", HOLD_RIGHT, false },
		{ "Pull", HOLD_LEFT, false }, { "Torque", HOLD_LEFT, false }, { "Flow", HOLD_LEFT, false },
		{ "Pump\npressure", HOLD_LEFT, false }, { "Annular\npressure", HOLD_LEFT, false },
		{ "State", HOLD_LEFT, false }, { "Tool", HOLD_LEFT, true } };
	struct drawing_table *t = drawing_table_begin(all, "", columns, COUNT(columns));
	struct opening o;

	snprintf(t->title, sizeof t->title, "PASSES: pull in %s, torque in %s, flow in %s, pressures in %s",
		sb_opening_value_unit(d->job, OPENING_PULL), sb_opening_value_unit(d->job, OPENING_TORQUE),
		sb_opening_value_unit(d->job, OPENING_FLOW), sb_opening_value_unit(d->job, OPENING_PRESSURE));
	sb_opening_take(d->job, &o);
	for (size_t i = 0; i < o.count; i++)
		put_pass(d, t, &o.list[i]);
	sb_opening_clear(&o);
	drawing_table_finish(d, all, t);
}

/* ---- releases ---- */

static void put_release(struct drawing *d, struct drawing_table *t, const struct fluid_event *e)
{
	struct release r = sb_release_of(d->job, e, INT64_MAX);
	char text[48] = "", missing[96];

	put_whole(t, (int)e->fact.id);
	drawing_table_put(t, e->station.text);
	drawing_table_put(t, r.place);
	if (sb_number_given(r.volume))
		snprintf(text, sizeof text, "%.20s %s", r.volume->text,
			sb_measure_unit(d->job->unit, MEASURE_VOLUME));
	drawing_table_put(t, text);
	drawing_table_put(t, r.receiving);
	drawing_table_put(t, r.told);
	drawing_table_put(t, r.done);
	bool open = sb_release_missing(&r, missing);
	drawing_table_put(t, open ? missing : "nothing");
	drawing_table_end_row(t, open ? ROW_STRONG : ROW_PLAIN);
}

static void fill_releases(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "No.", HOLD_RIGHT, false },
		{ "Station", HOLD_RIGHT, false }, { "Where it came up", HOLD_LEFT, true },
		{ "Volume", HOLD_RIGHT, false }, { "What it ran into", HOLD_LEFT, true },
		{ "Who was told", HOLD_LEFT, true }, { "What was done", HOLD_LEFT, true },
		{ "Still missing", HOLD_LEFT, true } };
	struct drawing_table *t =
		drawing_table_begin(all, "RELEASES OF DRILLING FLUID", columns, COUNT(columns));

	for (size_t i = 0; i < d->job->fluid_event_count; i++)
		if (d->job->fluid_events[i].kind == FLUID_RELEASE && !d->job->fluid_events[i].struck)
			put_release(d, t, &d->job->fluid_events[i]);
	drawing_table_finish(d, all, t);
}

/* ---- the pull ---- */

static void put_force(struct drawing *d, struct drawing_table *t, double newton)
{
	char text[32] = "";

	if (!isnan(newton))
		snprintf(text, sizeof text, "%.*f", d->job->unit == UNIT_M ? 1 : 0,
			sb_measure_typed(d->job->unit, MEASURE_FORCE, newton));
	drawing_table_put(t, text);
}

static void put_pulled(struct drawing *d, struct drawing_table *t, const struct pulled *j)
{
	char text[SB_AXIS_TEXT];

	put_whole(t, j->entry->joint);
	sb_axis_station(j->station_m, d->job->unit, 1, text);
	drawing_table_put(t, text);
	drawing_table_put(t, j->entry->force.text);
	put_force(d, t, j->band.force_n);
	put_force(d, t, j->band.low_n);
	put_force(d, t, j->band.high_n);
	drawing_table_put(t, j->entry->torque.text);
	drawing_table_put(t, j->entry->flow.text);
	drawing_table_put(t, j->entry->annular.text);
	drawing_table_put(t, j->entry->started);
	drawing_table_put(t, j->entry->ended);
	snprintf(text, sizeof text, "%s%s", j->share > 1 ? "OVER the limit" : sb_pullback_side(j->side),
		j->jumped ? ", jump" : "");
	drawing_table_put(t, text);
	drawing_table_end_row(t, j->share > 1 ? ROW_STRONG : ROW_PLAIN);
}

static void fill_pull(struct drawing *d, struct drawing_tables *all)
{
	static const struct paper_column columns[] = { { "Joint", HOLD_RIGHT, false },
		{ "Head at\nstation", HOLD_RIGHT, false }, { "Measured\nforce", HOLD_RIGHT, false },
		{ "Estimated", HOLD_RIGHT, false }, { "Low", HOLD_RIGHT, false },
		{ "High", HOLD_RIGHT, false }, { "Torque", HOLD_RIGHT, false }, { "Flow", HOLD_RIGHT, false },
		{ "Annular\npressure", HOLD_RIGHT, false }, { "Begun", HOLD_RIGHT, false },
		{ "Out", HOLD_RIGHT, false }, { "Against\nthe band", HOLD_LEFT, true } };
	struct drawing_table *t = drawing_table_begin(all, "", columns, COUNT(columns));
	struct pull_bands bands = { 0 };
	struct pullback p;

	snprintf(t->title, sizeof t->title,
		"THE PULL: forces in %s, beside an estimate for the engineer to verify",
		sb_measure_unit(d->job->unit, MEASURE_FORCE));
	sb_pull_bands_make(&d->clear, &bands);
	sb_pullback_take(d->job, &bands, &p);
	for (size_t i = 0; i < p.count; i++)
		put_pulled(d, t, &p.list[i]);
	sb_pullback_clear(&p);
	sb_pull_bands_clear(&bands);
	drawing_table_finish(d, all, t);
}

void drawing_after_fill(struct drawing *d, struct drawing_tables *all)
{
	fill_passes(d, all);
	fill_releases(d, all);
	fill_pull(d, all);
}
