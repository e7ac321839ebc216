/* The first page: what was drilled, where it came out, how tight and how far off it is. */
#include "base/measure.h"
#include "base/mem.h"
#include "io/pullback.h"
#include "model/acceptance.h"
#include "model/opening.h"
#include "model/period.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report_parts.h"

/* The first and the last day of the log, and who logged. */
static void put_when(struct report *r, const struct timeline *t)
{
	char from[REPORT_WORDS], to[REPORT_WORDS];

	if (t->count == 0) {
		sb_document_pair(r->d, "drilled", "nothing was logged yet");
		return;
	}
	report_day(r->job, t->list[0].reading->logged, t->list[0].at_ms, from);
	report_day(r->job, t->list[t->count - 1].reading->logged, t->list[t->count - 1].at_ms, to);
	if (sb_same(from, to))
		sb_document_pair(r->d, "logged", "on %s", from);
	else
		sb_document_pair(r->d, "logged", "%s to %s", from, to);
}

/* Adds a name that is not there yet. */
static void add_name(struct sb_str *names, const char *name)
{
	char wanted[SB_REMARK_TEXT * 2 + 8];
	struct sb_str all = { 0 };

	snprintf(wanted, sizeof wanted, "; %s;", name);
	sb_str_add(&all, "; %s;", sb_str_get(names));
	if (*name && strstr(all.text, wanted) == NULL)
		sb_str_add(names, "%s%s", names->length ? "; " : "", name);
	sb_str_clear(&all);
}

static void put_who(struct report *r)
{
	struct sb_str hands = { 0 }, crews = { 0 };

	for (size_t i = 0; i < r->job->joint_count; i++)
		add_name(&hands, r->job->readings[r->job->joints[i]].who);
	for (size_t i = 0; i < r->job->act_count; i++)
		if (r->job->acts[i].kind == ACT_SHIFT_BEGIN)
			add_name(&crews, r->job->acts[i].text);
	sb_document_pair(r->d, "logged by", "%s", sb_str_get(&hands));
	sb_document_pair(r->d, "crews", "%s", sb_str_get(&crews));
	sb_str_clear(&hands);
	sb_str_clear(&crews);
}

static void put_length(struct report *r, const struct timeline *t, const struct period *all)
{
	double in_ground = report_typed(r, sb_solution_last(r->s)->bit_md_m);

	if (t->count == 0)
		return;
	sb_document_pair(r->d, "length drilled", "%.2f %s in %d joints, the bit's depth from the entry",
		in_ground, r->unit, sb_job_in_ground(r->job));
	if (all->withdrawn)
		sb_document_pair(r->d, "withdrawn",
			"%zu joints on %zu leg%s; %.2f %s were drilled in all, on %d legs", all->withdrawn,
			r->job->leg_count, r->job->leg_count == 1 ? "" : "s", all->length, r->unit,
			sb_job_leg(r->job));
}

static void put_bit(struct report *r)
{
	const struct bit *b = &r->s->bit;
	char station[REPORT_WORDS], offset[REPORT_WORDS], height[REPORT_WORDS];

	if (!b->known || r->job->joint_count == 0)
		return;
	report_station(r, b->deviation.station_m, station);
	report_side(r, b->deviation.offset_m, "right", "left", offset);
	report_side(r, b->deviation.height_m, "high", "low", height);
	double left = report_typed(r, r->s->design.length_m - b->deviation.station_m);
	if (left > 0)
		sb_document_pair(r->d, "bit at",
			"station %s, offset %s, height %s; %.2f %s before the exit of the design", station,
			offset, height, left, r->unit);
	else
		sb_document_pair(r->d, "bit at",
			"station %s, offset %s, height %s; %.2f %s past the exit of the design", station,
			offset, height, -left, r->unit);
}

/* The one place where the truth can be seen. */
static void put_exit(struct report *r)
{
	const struct row *last = sb_solution_last_on_path(r->s);
	struct exit_survey e = sb_exit_survey(&r->setup, &r->s->fixes, last, true);
	struct sb_str miss = { 0 }, off = { 0 };

	if (!e.known) {
		sb_document_pair(r->d, "exit survey",
			"none: the exit was not tied in by land survey, so there is no misclosure to tell");
		return;
	}
	sb_exit_say(&r->setup, &e, &miss);
	sb_document_pair(r->d, "exit by land survey", "%s of the design's exit (fix %lld)", sb_str_get(&miss),
		(long long)e.fix);
	for (size_t i = 0; i < r->s->fixes.count; i++)
		if (r->s->fixes.list[i].fix == e.fix)
			sb_fixes_off(&r->setup, e.seen, r->s->fixes.list[i].read_m, &off);
	sb_document_pair(
		r->d, "exit misclosure", "%s: from the path as read to the survey", sb_str_get(&off));
	if (sb_job_adjustment(r->job)) {
		off.length = 0;
		sb_fixes_off(&r->setup, e.seen, e.off_m, &off);
		sb_document_pair(
			r->d, "once corrected", "%s: from the path in force to the survey", sb_str_get(&off));
	}
	sb_str_clear(&miss);
	sb_str_clear(&off);
}

static void put_radius(struct report *r, const char *key, const struct row *row, double radius_m,
	const struct number *limit, const char *what)
{
	char radius[REPORT_WORDS], station[REPORT_WORDS];

	if (row == NULL)
		return;
	report_radius(r, radius_m, radius);
	report_station(r, row->deviation.station_m, station);
	if (sb_number_given(limit))
		sb_document_pair(r->d, key, "%s %s at joint %d, station %s, %s; at least %s is allowed",
			radius, r->unit, row->joint, station, what, limit->text);
	else
		sb_document_pair(r->d, key, "%s %s at joint %d, station %s, %s; no limit is set", radius,
			r->unit, row->joint, station, what);
}

static void put_side(struct report *r, const char *key, const struct row *row, double metres)
{
	if (row) {
		char station[REPORT_WORDS];
		sb_document_pair(r->d, key, "%.2f %s at joint %d, station %s", report_typed(r, metres),
			r->unit, row->joint, report_station(r, row->deviation.station_m, station));
	}
}

static void put_worst(struct report *r, const struct period *all)
{
	char what[REPORT_WORDS] = "";

	put_radius(r, "tightest joint", all->tightest_joint,
		all->tightest_joint ? all->tightest_joint->radius_m : 0, &r->job->joint_minimum,
		"over one joint");
	if (all->tightest)
		snprintf(what, sizeof what, "over %d joints by the %s", all->tightest->window.joints,
			r->job->method == METHOD_SUM ? "sum of doglegs" : "angle between the ends");
	put_radius(r, "tightest window", all->tightest, all->tightest ? all->tightest->window.radius_m : 0,
		&r->job->window_minimum, what);
	put_side(r, "farthest right", all->right, all->right ? all->right->deviation.offset_m : 0);
	put_side(r, "farthest left", all->left, all->left ? -all->left->deviation.offset_m : 0);
	put_side(r, "farthest high", all->high, all->high ? all->high->deviation.height_m : 0);
	put_side(r, "farthest low", all->low, all->low ? -all->low->deviation.height_m : 0);
	if (all->farthest && isfinite(all->farthest->use.limit_m)) {
		char station[REPORT_WORDS];
		sb_document_pair(r->d, "corridor", "%.0f %% used at joint %d, station %s: %.2f of %.2f %s %s",
			fmin(all->farthest->use.share, 9.99) * 100, all->farthest->joint,
			report_station(r, all->farthest->deviation.station_m, station),
			report_typed(r, all->farthest->use.value_m),
			report_typed(r, all->farthest->use.limit_m), r->unit,
			sb_side_word(all->farthest->use.side));
	}
}

static void put_verdict(struct report *r)
{
	size_t open = sb_nonconformances_open(r->job, r->s);
	struct nonconformance *list;
	size_t count = sb_nonconformances(r->job, r->s, &list);
	struct sb_str accepted = { 0 };

	sb_free(list);
	if (count == 0)
		sb_document_pair(r->d, "non-conformances", "none");
	else
		sb_document_pair(r->d, "non-conformances", "%zu, of which %zu %s open", count, open,
			open == 1 ? "is" : "are");
	sb_acceptance_say(r->job, &accepted);
	sb_document_pair(r->d, "acceptance", "%s", sb_str_get(&accepted));
	sb_str_clear(&accepted);
}

static void put_doubt(struct report *r)
{
	const struct row *last = sb_solution_last_on_path(r->s);
	double factor = r->s->uncertainty.line_factor;

	if (last->joint == 0)
		return;
	sb_document_pair(r->d, "how sure",
		"at the last reading, joint %d: give or take %.2f %s across, %.2f in height, %.2f along (%s %%)",
		last->joint, report_typed(r, factor * last->doubt.across_m), r->unit,
		report_typed(r, factor * last->doubt.up_m), report_typed(r, factor * last->doubt.along_m),
		r->job->confidence.text);
}

static void put_place(struct report *r, const char *key, const struct place *p, const char *what)
{
	sb_document_pair(r->d, key, "easting %s, northing %s, elevation %s; %s", p->easting.text,
		p->northing.text, p->elevation.text, what);
}

/* The hole after the pilot, in two lines. */
static void put_after(struct report *r)
{
	struct pull_bands none = { 0 };
	struct opening o;
	struct pullback p;
	struct sb_str words = { 0 };

	sb_opening_take(r->job, &o);
	sb_pullback_take(r->job, &none, &p);
	for (size_t i = 0; i < o.count; i++)
		sb_str_add(&words, "%s%s of %s %s%s", i ? "; " : "", sb_pass_kind_name(o.list[i].pass->kind),
			o.list[i].pass->diameter.text, sb_measure_unit(r->job->unit, MEASURE_SIZE),
			o.list[i].end == NULL	 ? ", which runs"
				: o.list[i].left ? ", ended early"
						 : "");
	sb_document_pair(r->d, "hole opened", "%s", sb_str_get(&words));
	sb_str_clear(&words);
	if (p.ended)
		sb_pullback_end_say(r->job, &p, &words);
	else if (p.begun)
		sb_pullback_stand(r->job, &p, &words);
	sb_document_pair(r->d, "product pipe", "%s", sb_str_get(&words));
	sb_str_clear(&words);
	sb_opening_clear(&o);
	sb_pullback_clear(&p);
}

void report_summary(struct report *r)
{
	const struct span whole = { .from_ms = INT64_MIN, .to_ms = INT64_MAX };
	struct timeline t;
	struct period all;

	sb_timeline_take(r->job, &t);
	sb_period_take(r->s, &t, &whole, &all);
	report_heading(r, "Summary");
	if (r->job->rehearsal[0])
		sb_document_paragraph(r->d,
			"REHEARSAL: this bore was drilled by simulation (%s). It is not a record of any hole.",
			r->job->rehearsal);
	sb_document_pair(r->d, "crossing", "%s", r->job->name);
	sb_document_pair(r->d, "owner", "%s", r->job->owner);
	sb_document_pair(r->d, "contractor", "%s", r->job->contractor);
	put_place(r, "entry", &r->job->entry, "the rig side");
	put_place(r, "exit of the design", &r->job->exit, "the product pipe enters here");
	put_when(r, &t);
	put_who(r);
	put_length(r, &t, &all);
	put_bit(r);
	put_exit(r);
	put_worst(r, &all);
	put_doubt(r);
	put_verdict(r);
	put_after(r);
	sb_timeline_clear(&t);
}
