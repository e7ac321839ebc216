/* A drawing as people check it against the paper: the points of intersection, with the curves that they make,
 * grades, and what was read, changed and left out. 80 columns hold a line.
 */
#include "base/mem.h"
#include "geom/angle.h"
#include "io/csv.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "given_parts.h"

#define DECIMALS 4
#define RADIUS_DECIMALS 3

/* As shown: what rounds to nothing has no sign. */
static double shown(double value)
{
	return fabs(value) < 5e-4 ? 0 : value;
}

/* What the chain makes of one point of intersection. */
struct curve {
	double turn, tangent, length, from, to; /* along the line; turn positive when the bearing grows */
};

static struct curve curve_at(const struct given_line *l, size_t i, double *along)
{
	struct curve c = { 0 };
	const struct chain_pi *p = &l->pis[i];

	if (i == 0)
		return c;
	double ax = p[0].x - p[-1].x, ay = p[0].y - p[-1].y;
	*along += hypot(ax, ay);
	if (i + 1 < l->count) {
		double bx = p[1].x - p[0].x, by = p[1].y - p[0].y;
		c.turn = atan2(ax * by - ay * bx, ax * bx + ay * by);
	}
	c.tangent = p->radius * tan(fabs(c.turn) / 2);
	c.length = p->radius * fabs(c.turn);
	c.from = *along - c.tangent;
	c.to = c.from + c.length;
	*along = c.to - c.tangent; /* of the point, reckoned back from where its curve ends */
	return c;
}

/* Where it is known by what the points leave open: "given" by a drawing, or found. */
static void add_open(const struct given_line *l, size_t i, struct sb_str *out)
{
	if (l->points == 0 || !(l->pis[i].radius > 0))
		return;
	sb_str_add(out, "        radius found %.2f, give or take %.2f", l->found[i], 2 * l->sigma[i]);
	if (fabs(l->found[i] - l->pis[i].radius) > 1e-6 * l->found[i])
		sb_str_add(out, "; taken as the round one, %.10g", l->pis[i].radius);
	sb_str_add(out, "\n");
}

static const char *name_of(const struct given_line *l, size_t i, char text[32])
{
	if (i == 0)
		return "entry";
	if (i + 1 == l->count)
		return "exit";
	snprintf(text, 32, "PI %zu", i + 1);
	return text;
}

/* The columns of a row that are blank at its end are not written. */
static void end_row(struct sb_str *out)
{
	while (out->length > 0 && out->text[out->length - 1] == ' ')
		out->length--;
	sb_str_add(out, "\n");
}

static void add_found(const struct given_line *l, struct sb_str *out)
{
	if (l->points == 0)
		return;
	sb_str_add(out,
		"Found from %zu points: none lies further than %.4f from the line (%.3g was allowed), root mean square %.4f.\n",
		l->points, l->worst, l->within, l->rms);
}

static void add_alignment(const struct given *d, struct sb_str *out)
{
	const struct given_line *l = &d->alignment;
	double along = 0;
	char name[32], radius[24];

	if (l->count == 0)
		return;
	sb_str_add(out, "\nAlignment%s%s%s\n%-6s %13s %13s %10s\n", d->alignment_name[0] ? " '" : "",
		d->alignment_name, d->alignment_name[0] ? "'" : "", "", d->offsets ? "along" : "northing",
		d->offsets ? "right" : "easting", "radius");
	for (size_t i = 0; i < l->count; i++) {
		struct curve c = curve_at(l, i, &along);
		snprintf(radius, sizeof radius, "%.3f", l->pis[i].radius);
		sb_str_add(out, "%-6s %13.3f %13.3f %10s", name_of(l, i, name), shown(l->pis[i].x),
			shown(l->pis[i].y), l->pis[i].radius > 0 ? radius : "");
		end_row(out);
		if (c.length > 0)
			sb_str_add(out,
				"        turns %.3f degrees %s; tangent %.3f, curve %.3f, from %.3f to %.3f along\n",
				sb_deg(fabs(c.turn)), c.turn > 0 ? "right" : "left", c.tangent, c.length,
				c.from, c.to);
		add_open(l, i, out);
	}
	sb_str_add(out, "%.3f long in plan.\n", along);
	add_found(l, out);
}

static void add_profile(const struct given *d, struct sb_str *out)
{
	const struct given_line *l = &d->profile;
	double along = 0;
	char name[32], radius[24], grade[24];

	if (l->count == 0)
		return;
	sb_str_add(out, "\nProfile%s%s%s\n%-6s %13s %13s %10s %12s\n", d->profile_name[0] ? " '" : "",
		d->profile_name, d->profile_name[0] ? "'" : "", "", "station", "elevation", "radius",
		"grade after");
	for (size_t i = 0; i < l->count; i++) {
		const struct chain_pi *p = &l->pis[i];
		struct curve c = curve_at(l, i, &along);
		bool last = i + 1 == l->count;
		snprintf(radius, sizeof radius, "%.3f", p->radius);
		snprintf(grade, sizeof grade, "%.3f %%",
			last ? 0 : shown(100 * (p[1].y - p[0].y) / (p[1].x - p[0].x)));
		sb_str_add(out, "%-6s %13.3f %13.3f %10s %12s", name_of(l, i, name), shown(p->x), shown(p->y),
			p->radius > 0 ? radius : "", last ? "" : grade);
		end_row(out);
		if (c.length > 0)
			sb_str_add(out, "        turns %.3f degrees %s; tangent %.3f, curve %.3f long\n",
				sb_deg(fabs(c.turn)), c.turn > 0 ? "up" : "down", c.tangent, c.length);
		add_open(l, i, out);
	}
	sb_str_add(out, "%.3f long along the slope.\n", along);
	add_found(l, out);
}

void sb_given_text(const struct given *d, const char *unit, struct sb_str *out)
{
	sb_str_add(out, "Lengths are in %s.\n", *unit ? unit : "the drawing's unit");
	sb_str_append(out, sb_str_get(&d->notes), d->notes.length);
	add_alignment(d, out);
	add_profile(d, out);
}

static void add_csv(const struct given_line *l, const char *const names[3], bool turned, struct sb_str *out)
{
	struct csv_out csv = { 0 };

	for (int i = 0; i < 3; i++)
		sb_csv_cell(&csv, names[i]);
	sb_csv_end(&csv);
	for (size_t i = 0; i < l->count; i++) {
		const struct chain_pi *p = &l->pis[i];
		sb_csv_cell_fixed(&csv, turned ? p->y : p->x, DECIMALS);
		sb_csv_cell_fixed(&csv, turned ? p->x : p->y, DECIMALS);
		if (p->radius > 0)
			sb_csv_cell_fixed(&csv, p->radius, RADIUS_DECIMALS);
		else
			sb_csv_cell(&csv, "");
		sb_csv_end(&csv);
	}
	sb_str_append(out, sb_str_get(&csv.text), csv.text.length);
	sb_str_clear(&csv.text);
}

void sb_given_alignment_csv(const struct given *d, struct sb_str *out)
{
	static const char *const names[] = { "easting", "northing", "radius" };

	if (d->alignment.count)
		add_csv(&d->alignment, names, true, out);
}

void sb_given_profile_csv(const struct given *d, struct sb_str *out)
{
	static const char *const names[] = { "station", "elevation", "radius" };

	if (d->profile.count)
		add_csv(&d->profile, names, false, out);
}
