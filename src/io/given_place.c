/* A drawing in the job's unit, ground and direction.
 *
 * Four things lie between what a drawing says and what the job sheet means, and each is done only where it
 * must be and said with its number: another unit; a drawing that runs from exit to entry; stations and radii
 * that are lengths on the map and not in the ground; offsets from the straight between entry and exit.
 */
#include "base/mem.h"
#include "geom/chain_fit.h"
#include "io/figure.h"
#include "model/design.h"
#include "model/frame.h"

#include <math.h>
#include <string.h>

#include "given_parts.h"

#define DECIMALS 4	  /* of coordinates and stations: a tenth of a millimetre, or less */
#define RADIUS_DECIMALS 3 /* of radii */

/* ---- unit ---- */

static void scale_line(struct given_line *l, double by)
{
	for (size_t i = 0; i < l->count; i++) {
		l->pis[i].x *= by;
		l->pis[i].y *= by;
		l->pis[i].radius *= by;
		l->found[i] *= by;
		l->sigma[i] *= by;
	}
	l->worst *= by;
	l->rms *= by;
	l->within *= by;
}

static void scale_points(struct given_points *p, double by)
{
	for (size_t i = 0; i < p->count; i++) {
		p->x[i] *= by;
		p->y[i] *= by;
	}
	p->unit *= by;
}

static int convert(struct given *d, const struct given_choice *c, enum unit job, struct sb_problems *problems)
{
	enum given_unit said = c->unit_said == GIVEN_UNIT_SAID ? c->unit_said : d->unit_said;
	enum unit unit = c->unit_said == GIVEN_UNIT_SAID ? c->unit : d->unit;

	if (said == GIVEN_UNIT_FOOT && job == UNIT_M) {
		sb_problems_add(problems, 0, "the drawing", 0, NULL,
			"it is in feet, the job is in metres, and there are two feet: say --unit ft (international) or --unit ftUS (US survey).");
		return -1;
	}
	if (said != GIVEN_UNIT_SAID) {
		given_note(d,
			"The drawing does not say its unit%s: taken for the job's, %s. If it is another, say --unit.",
			said == GIVEN_UNIT_FOOT ? " but 'feet'" : "", sb_unit_long(job));
		return 0;
	}
	double factor = sb_unit_metres(unit) / sb_unit_metres(job);
	if (unit == job) {
		given_note(d, "The drawing is in %s, as the job is.", sb_unit_long(job));
		return 0;
	}
	given_note(d, "The drawing is in %s, the job in %s: every length is multiplied by %.12g.",
		sb_unit_long(unit), sb_unit_long(job), factor);
	scale_line(&d->alignment, factor);
	scale_line(&d->profile, factor);
	scale_points(&d->alignment_points, factor);
	scale_points(&d->profile_points, factor);
	d->start *= factor;
	return 0;
}

/* ---- direction ---- */

static void swap_ends(struct given_line *l)
{
	for (size_t i = 0, k = l->count; i + 1 < k; i++) {
		k--;
		struct chain_pi pi = l->pis[i];
		double found = l->found[i], sigma = l->sigma[i];
		int line = l->lines[i];
		l->pis[i] = l->pis[k];
		l->found[i] = l->found[k];
		l->sigma[i] = l->sigma[k];
		l->lines[i] = l->lines[k];
		l->pis[k] = pi;
		l->found[k] = found;
		l->sigma[k] = sigma;
		l->lines[k] = line;
	}
}

static enum given_mark other_mark(enum given_mark mark)
{
	return mark == MARK_BEGIN ? MARK_END : mark == MARK_END ? MARK_BEGIN : MARK_NONE;
}

static void swap_points(struct given_points *p)
{
	for (size_t i = 0; i < p->count; i++)
		p->marks[i] = other_mark(p->marks[i]);
	for (size_t i = 0, k = p->count; i + 1 < k; i++) {
		k--;
		double x = p->x[i], y = p->y[i];
		int line = p->lines[i];
		enum given_mark mark = p->marks[i];
		p->marks[i] = p->marks[k];
		p->marks[k] = mark;
		p->x[i] = p->x[k];
		p->y[i] = p->y[k];
		p->lines[i] = p->lines[k];
		p->x[k] = x;
		p->y[k] = y;
		p->lines[k] = line;
	}
}

/* Stations from the other end: of a drawing that has an alignment, from the end of that. */
static void reverse(struct given *d)
{
	struct given_line *l = &d->profile;
	struct given_points *p = &d->profile_points, *a = &d->alignment_points;
	double length = d->alignment.count ? given_length(&d->alignment)
		: l->count		   ? l->pis[l->count - 1].x
					   : 0;

	for (size_t i = 0; i < l->count; i++)
		l->pis[i].x = length - l->pis[i].x;
	for (size_t i = 0, last = p->count; i < p->count; i++)
		p->x[i] = (i + 1 == last ? 0 : p->x[last - 1] - p->x[i]);
	for (size_t i = 0, last = a->count; d->offsets && i < last; i++) {
		a->x[i] = (i + 1 == last ? 0 : a->x[last - 1] - a->x[i]);
		a->y[i] = -a->y[i];
	}
	swap_ends(&d->profile);
	swap_ends(&d->alignment);
	swap_points(a);
	swap_points(p);
	given_note(
		d, "The drawing runs from exit to entry: turned about, so that stations begin at the entry.");
}

/* ---- digits ---- */

static double rounded(double value, int decimals)
{
	double by = pow(10, decimals);

	return round(value * by) / by + 0.0; /* never -0 */
}

/* As the files will have it; radii that then overlap by a digit give it up. scale: of the coordinates, for
 * lines whose radii are ground lengths. */
static void round_line(struct given_line *l, double scale)
{
	struct chain_pi *laid = sb_alloc((l->count + 1) * sizeof *laid);
	double down = pow(10, RADIUS_DECIMALS);

	for (size_t i = 0; i < l->count; i++) {
		struct chain_pi *p = &l->pis[i];
		*p = (struct chain_pi){ rounded(p->x, DECIMALS), rounded(p->y, DECIMALS),
			rounded(p->radius, RADIUS_DECIMALS) };
		laid[i] = (struct chain_pi){ p->x / scale, p->y / scale, p->radius };
	}
	double taken = sb_chain_ease(laid, l->count);
	for (size_t i = 0; taken > 0 && taken < 0.01 && i < l->count; i++)
		if (laid[i].radius < l->pis[i].radius)
			l->pis[i].radius = floor(laid[i].radius * down) / down;
	sb_free(laid);
}

static void say_start(struct given *d)
{
	if (fabs(d->start) > 0)
		given_note(d,
			"Stations of the drawing begin at %.3f, those of the job at 0: the difference is taken off.",
			d->start);
}

int sb_given_turn(struct given *d, const struct given_choice *choice, struct sb_problems *problems)
{
	if (choice->reversed)
		reverse(d);
	say_start(d);
	if (given_find(d, choice, 1, 0, problems))
		return -1;
	round_line(&d->alignment, 1);
	round_line(&d->profile, 1);
	return 0;
}

/* ---- map and ground ---- */

/* Of the line on the map: the drawing's own, else the sheet's, else the straight from entry to exit. */
static double map_length(const struct job *job, const struct given *d, double scale)
{
	double de = job->exit.easting.value - job->entry.easting.value;
	double dn = job->exit.northing.value - job->entry.northing.value;
	struct given_line of_sheet = { 0 };

	if (d->alignment.count)
		return given_length(&d->alignment);
	for (size_t i = 0; i < job->alignment_count; i++) {
		const struct alignment_pi *p = &job->alignment[i];
		given_add(&of_sheet, p->northing.value, p->easting.value, p->radius.value * scale, 0);
	}
	double length = of_sheet.count ? given_length(&of_sheet) : hypot(de, dn);
	given_line_clear(&of_sheet);
	return length;
}

/* What the drawing itself says in lengths on the map: the radii of an alignment, and stations that end where
 * it ends on the map. */
static void bring_down(struct given *d, double scale, double map)
{
	struct given_line *a = &d->alignment, *p = &d->profile;

	for (size_t i = 0; d->grid && i < a->count; i++)
		a->pis[i].radius /= scale;
	if (scale == 1 || p->count < 2 ||
		!given_is_map_length(p->pis[p->count - 1].x - p->pis[0].x, map, scale))
		return;
	for (size_t i = 0; i < p->count; i++)
		p->pis[i].x /= scale;
	given_note(d,
		"Stations of the drawing are lengths on the map: divided by the job's scale_factor, %.10g, to be lengths in the "
		"ground. The line is %.3f long there.",
		scale, map / scale);
}

/* Stations along the straight from entry to exit, and offsets right of it, become coordinates. */
static int place_offsets(struct given *d, const struct job *job, double scale, struct sb_problems *problems)
{
	double de = job->exit.easting.value - job->entry.easting.value;
	double dn = job->exit.northing.value - job->entry.northing.value, map = hypot(de, dn);
	struct given_points *a = &d->alignment_points;

	if (!(map > 0)) {
		sb_problems_add(problems, 0, "job.ini", 0, "exit", "entry and exit are the same place.");
		return -1;
	}
	double by = given_is_map_length(a->x[a->count - 1], map, scale) ? 1 : scale;
	for (size_t i = 0; i < a->count; i++) {
		double x = a->x[i] * by, y = a->y[i] * by;
		a->x[i] = job->entry.northing.value + (x * dn - y * de) / map;
		a->y[i] = job->entry.easting.value + (x * de + y * dn) / map;
	}
	given_note(
		d, "Offsets are taken from the straight between entry and exit of job.ini, right positive.");
	d->offsets = false;
	return 0;
}

/* ---- into the job ---- */

static void compare_crs(struct given *d, const struct job *job, struct sb_problems *problems)
{
	if (d->crs[0] == '\0' || d->alignment.count == 0)
		return;
	if (sb_same_word(d->crs, job->crs))
		given_note(d, "The drawing's grid is %s, as the job's is.", d->crs);
	else if (strncmp(d->crs, "EPSG:", 5) == 0 && !sb_same(job->crs, "local"))
		sb_problems_add(problems, 1, "the drawing", 0, "crs",
			"its grid is %.40s, the job's is %.40s. If its coordinates really are on that one, have them converted.",
			d->crs, job->crs);
	else
		given_note(d, "The drawing calls its grid '%.80s'; the job's is %.40s.", d->crs, job->crs);
}

static struct number typed(double value, int decimals)
{
	char text[SB_FIGURE_TEXT];
	struct number n = { 0 };

	if (sb_number_parse(sb_figure_fixed(value, decimals, text), &n, NULL))
		n = sb_number_of(value, decimals);
	return n;
}

static void put_rows(const struct given *d, struct job *job)
{
	const struct given_line *a = &d->alignment, *p = &d->profile;

	for (size_t i = 0; i < a->count; i++) {
		if (i == 0)
			job->alignment_count = 0;
		job->alignment = sb_grow(
			job->alignment, job->alignment_count, &job->alignment_room, sizeof *job->alignment);
		job->alignment[job->alignment_count++] = (struct alignment_pi){ typed(a->pis[i].y, DECIMALS),
			typed(a->pis[i].x, DECIMALS), typed(a->pis[i].radius, RADIUS_DECIMALS), 0 };
	}
	for (size_t i = 0; i < p->count; i++) {
		if (i == 0)
			job->profile_count = 0;
		job->profile =
			sb_grow(job->profile, job->profile_count, &job->profile_room, sizeof *job->profile);
		job->profile[job->profile_count++] = (struct profile_pi){ typed(p->pis[i].x, DECIMALS),
			typed(p->pis[i].y, DECIMALS), typed(p->pis[i].radius, RADIUS_DECIMALS), 0 };
	}
}

static void build(const struct job *job, struct given *d, struct sb_problems *problems)
{
	struct frame frame;
	struct design design;
	struct sb_err err;

	if (job->profile_count == 0) {
		given_note(d,
			"The sheet has no profile yet: only the ends of the alignment are held against entry and exit.");
		return;
	}
	if (sb_frame_init(job, &frame, &err)) {
		sb_problems_add(problems, 0, "job.ini", 0, NULL, "%s", err.text);
		return;
	}
	sb_design_build(job, &frame, &design, problems);
	sb_design_clear(&design);
}

int sb_given_place(
	struct given *d, const struct given_choice *choice, struct job *job, struct sb_problems *problems)
{
	double scale = sb_number_given(&job->scale_factor) ? job->scale_factor.value : 1;
	size_t before = problems->errors;

	if (convert(d, choice, job->unit, problems))
		return -1;
	if (choice->reversed)
		reverse(d);
	if (d->offsets && place_offsets(d, job, scale, problems))
		return -1;
	say_start(d);
	compare_crs(d, job, problems);
	bring_down(d, scale, map_length(job, d, scale));
	if (given_find(d, choice, scale, map_length(job, d, scale), problems) ||
		!given_meets_ends(d, choice, job, map_length(job, d, 1), problems))
		return -1;
	round_line(&d->alignment, scale);
	round_line(&d->profile, 1);
	put_rows(d, job);
	d->placed = true;
	build(job, d, problems);
	return problems->errors > before ? -1 : 0;
}
