/* Where a joint is beside the design: station, offset, height, and the share of the corridor that it uses. */
#include "geom/angle.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>

#include "explain_parts.h"

/* The place of the joint, as it was worked out, put as inputs. */
static struct vec3 put_place(struct explaining *x, bool plan, bool level)
{
	struct vec3 at = explain_place(x, x->trail_count - 1);

	if (plan) {
		explain_input(x, "n", AS_LENGTH, at.n,
			"north of the entry in the ground, of the sensor at joint %d (explain northing)",
			x->row->joint);
		explain_input(x, "e", AS_LENGTH, at.e, "east of the entry, likewise (explain easting)");
	}
	if (level)
		explain_input(x, "z", AS_LENGTH, at.u,
			"elevation of the sensor at joint %d (explain elevation)", x->row->joint);
	return at;
}

static struct deviation deviation_of(const struct explaining *x, struct vec3 at)
{
	size_t i = x->trail_count - 1, before = explain_before(x, i);
	double near = before == SIZE_MAX ? 0 : x->trail[before]->deviation.station_m;

	return sb_deviation(&x->s->design, at, NULL, near);
}

/* The piece of a line that a distance along it lies in. */
static size_t part_at(const struct chain_part *parts, size_t count, double at)
{
	size_t i = 0;

	while (i + 1 < count && at >= parts[i + 1].at)
		i++;
	return i;
}

static size_t part_at_x(const struct chain_part *parts, size_t count, double x)
{
	size_t i = 0;

	while (i + 1 < count && x >= parts[i + 1].x)
		i++;
	return i;
}

static void put_part(struct explaining *x, const struct chain_part *p, size_t which, size_t count)
{
	explain_input(x, "s0", AS_LENGTH, p->at,
		"station where piece %zu of %zu of the alignment begins: a %s%s", which + 1, count,
		p->curvature == 0 ? "tangent" : "curve to the ",
		p->curvature == 0	   ? ""
			: p->curvature > 0 ? "right"
					   : "left");
	explain_input(x, "n0", AS_LENGTH, p->x, "north of the entry, there: %s",
		x->job->alignment_count ? "alignment.csv" : "[control] entry and exit, a straight line");
	explain_input(x, "e0", AS_LENGTH, p->y, "east of the entry, there");
	explain_input(x, "B", AS_ANGLE, sb_wrap_turn(p->bearing), "grid bearing of the alignment, there");
	if (p->curvature != 0)
		explain_input(
			x, "R", AS_LENGTH, fabs(1 / p->curvature), "radius of the curve, in the ground");
}

/* Along and beside one piece, by the piece alone. Past its curve's centre the angle is turned by whole turns;
 * the pieces of a bore are short of half a turn. */
static void foot_on(const struct chain_part *p, struct vec3 at, double *station, double *offset)
{
	double n = at.n - p->x, e = at.e - p->y;
	double along = n * p->cos_bearing + e * p->sin_bearing,
	       across = e * p->cos_bearing - n * p->sin_bearing;

	if (p->curvature == 0) {
		*station = p->at + along;
		*offset = across;
		return;
	}
	double radius = 1 / p->curvature; /* the centre is so far to the right */
	double angle = p->curvature > 0 ? atan2(along, radius - across) : atan2(along, across - radius);
	*station = p->at + fabs(radius) * angle;
	*offset = p->curvature > 0 ? radius - hypot(along, radius - across)
				   : radius + hypot(along, across - radius);
}

/* On the end's tangent, before the entry or past the exit, the piece is straight. */
static struct chain_part piece_of(const struct design *d, double station_m, size_t *which)
{
	*which = part_at(d->alignment, d->alignment_count, station_m);
	struct chain_part p = d->alignment[*which];

	if (station_m >= 0 && station_m <= d->length_m)
		return p;
	struct chain_place end = sb_chain_at(d->alignment, d->alignment_count, station_m);
	p = (struct chain_part){ .at = station_m,
		.x = end.x,
		.y = end.y,
		.bearing = end.bearing,
		.cos_bearing = end.cos_bearing,
		.sin_bearing = end.sin_bearing };
	return p;
}

static void put_foot(struct explaining *x, bool station)
{
	const struct design *d = &x->s->design;
	struct vec3 at = put_place(x, true, false);
	struct deviation off = deviation_of(x, at);
	size_t which;
	struct chain_part p = piece_of(d, off.station_m, &which);
	double n = at.n - p.x, e = at.e - p.y, second_station, second_offset;

	put_part(x, &p, which, d->alignment_count);
	explain_step(x, "along", AS_LENGTH, n * p.cos_bearing + e * p.sin_bearing,
		"(n - n0) cos B + (e - e0) sin B");
	explain_step(x, "across", AS_LENGTH, e * p.cos_bearing - n * p.sin_bearing,
		"(e - e0) cos B - (n - n0) sin B");
	foot_on(&p, at, &second_station, &second_offset);
	if (station)
		explain_result(x, sb_path_columns[PATH_STATION].name, AS_LENGTH, off.station_m,
			x->row->deviation.station_m,
			"where the square from the sensor meets the alignment, of all its pieces the nearest");
	else
		explain_result(x, sb_path_columns[PATH_OFFSET].name, AS_LENGTH, off.offset_m,
			x->row->deviation.offset_m, "%s of the alignment, looking from entry to exit",
			off.offset_m < 0 ? "left" : "right");
	explain_check(x, AS_LENGTH, station ? second_station : second_offset,
		station ? off.station_m : off.offset_m,
		p.curvature == 0 ? "by this piece alone: %s"
				 : "by this piece alone, around the centre of its curve: %s",
		station ? (p.curvature == 0 ? "s0 + along" : "s0 + R times the angle at the centre")
			: (p.curvature == 0 ? "across" : "R less the distance from the centre"));
	if (x->row->deviation.doubtful)
		explain_words(x, EXPLAIN_NOTE,
			"Two feet were equally near: the one nearer to the station before was taken.");
	explain_words(x, EXPLAIN_SOURCE,
		"projection on the alignment; tangents and circular curves as in US Army TM 3-34.55, chapter 3");
}

void explain_station(struct explaining *x)
{
	explain_words(x, EXPLAIN_FORMULA,
		"on a tangent: station = s0 + (n - n0) cos B + (e - e0) sin B; on a curve: s0 + R times the angle at its centre");
	put_foot(x, true);
}

void explain_offset(struct explaining *x)
{
	explain_words(x, EXPLAIN_FORMULA,
		"on a tangent: offset = (e - e0) cos B - (n - n0) sin B; on a curve: R less the distance from its centre; right positive");
	put_foot(x, false);
}

/* ---- height ---- */

/* The design's elevation at a station by its piece alone: a straight line, or the circle below or above it.
 */
static double design_elevation(const struct chain_part *p, double station)
{
	double along = station - p->x;

	if (p->curvature == 0)
		return p->y + along * p->sin_bearing / p->cos_bearing;
	double radius = 1 / p->curvature; /* positive: the centre is above */
	double centre_x = p->x - radius * p->sin_bearing, centre_y = p->y + radius * p->cos_bearing;
	double off = station - centre_x, drop = sqrt(radius * radius - off * off);
	return centre_y - (radius > 0 ? drop : -drop);
}

void explain_height(struct explaining *x)
{
	const struct design *d = &x->s->design;

	explain_words(x, EXPLAIN_FORMULA, "height = z - design elevation at that station; high positive");
	struct vec3 at = put_place(x, false, true);
	struct deviation off = deviation_of(x, at);
	size_t which = part_at_x(d->profile, d->profile_count, off.station_m);
	const struct chain_part *p = &d->profile[which];
	double design = sb_chain_height(d->profile, d->profile_count, off.station_m).y;

	explain_input(x, "s", AS_LENGTH, off.station_m, "station of the sensor (explain station)");
	explain_input(x, "x0", AS_LENGTH, p->x,
		"station where piece %zu of %zu of the profile begins: a %s, profile.csv", which + 1,
		d->profile_count,
		p->curvature == 0	   ? "tangent"
			: p->curvature > 0 ? "curve upwards"
					   : "curve downwards");
	explain_input(x, "z0", AS_LENGTH, p->y, "design elevation there");
	explain_input(x, "slope", AS_PERCENT, p->sin_bearing / p->cos_bearing,
		"of the design, there; rising positive");
	if (p->curvature != 0)
		explain_input(x, "R", AS_LENGTH, fabs(1 / p->curvature), "radius of the curve");
	explain_step(x, "design", AS_LENGTH, design, "design elevation at station s");
	explain_result(x, sb_path_columns[PATH_HEIGHT].name, AS_LENGTH, off.height_m,
		x->row->deviation.height_m, "%s of the design line", off.height_m < 0 ? "low" : "high");
	if (off.station_m >= p->x && off.station_m <= d->length_m)
		explain_check(x, AS_LENGTH, at.u - design_elevation(p, off.station_m), off.height_m,
			p->curvature == 0 ? "by this piece alone: z - (z0 + slope (s - x0))"
					  : "by this piece alone, from the centre of its circle");
	explain_words(x, EXPLAIN_SOURCE,
		"vertical profile of tangents and circular curves, as in US Army TM 3-34.55, chapter 3");
}

/* ---- the corridor ---- */

/* Where the limits at a station come from. */
static const char *limits_source(const struct explaining *x, double station_m, char text[EXPLAIN_WHERE])
{
	const double touch = 1e-9;
	const struct corridor *c = &x->s->corridor;
	int pieces = 0;

	for (size_t i = 0; i < c->count; i++)
		if (station_m >= c->pieces[i].from_m - touch && station_m <= c->pieces[i].to_m + touch) {
			if (pieces++ == 0)
				snprintf(text, EXPLAIN_WHERE, "corridor.csv, station %.6g to %.6g, job sheet",
					sb_frame_typed(&x->s->frame, c->pieces[i].from_m),
					sb_frame_typed(&x->s->frame, c->pieces[i].to_m));
		}
	if (pieces == 0)
		sb_copy(text, EXPLAIN_WHERE, "[corridor], job sheet");
	else if (pieces > 1)
		sb_copy(text, EXPLAIN_WHERE, "corridor.csv, the narrower of two ranges that meet here");
	return text;
}

static void put_limit(struct explaining *x, const char *symbol, double limit_m, const char *source)
{
	if (isinf(limit_m))
		explain_choice(x, symbol, "none", "the contract sets none on that side");
	else
		explain_input(x, symbol, AS_LENGTH, limit_m, "allowed %s: %s", symbol, source);
}

struct corridor_limits explain_limits(struct explaining *x, double station_m)
{
	struct corridor_limits l = sb_corridor_at(&x->s->corridor, station_m);
	char source[EXPLAIN_WHERE];

	limits_source(x, station_m, source);
	put_limit(x, "up", l.up_m, source);
	put_limit(x, "down", l.down_m, source);
	put_limit(x, "left", l.left_m, source);
	put_limit(x, "right", l.right_m, source);
	return l;
}

static void put_share_verdict(struct explaining *x, double share)
{
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_LIMIT, "1 is the limit itself; watch from %s on (%s).", x->job->near.text,
		explain_key(x, "corridor", "near", where));
	explain_words(x, EXPLAIN_LIMIT, "%s",
		share > 1 + 1e-9		       ? "breach: outside the corridor."
			: share >= x->s->corridor.near ? "watch: near the limit."
						       : "ok: inside, and not near the limit.");
	if (x->job->judge == JUDGE_CONFIDENCE)
		explain_words(x, EXPLAIN_NOTE,
			"This contract judges by the chance of being outside ([uncertainty] judge): explain chance-outside.");
}

void explain_share(struct explaining *x)
{
	explain_words(x, EXPLAIN_FORMULA,
		"share = the larger of |offset| / limit on that side and |height| / limit on that side");
	struct vec3 at = explain_place(x, x->trail_count - 1);
	struct deviation off = deviation_of(x, at);
	explain_input(x, "s", AS_LENGTH, off.station_m, "station of the sensor at joint %d (explain station)",
		x->row->joint);
	explain_input(x, "offset", AS_LENGTH, off.offset_m, "right positive (explain offset)");
	explain_input(x, "height", AS_LENGTH, off.height_m, "high positive (explain height)");
	struct corridor_limits l = explain_limits(x, off.station_m);
	struct corridor_use use = sb_corridor_use(&l, off.offset_m, off.height_m);
	double across = off.offset_m < 0 ? l.left_m : l.right_m, up = off.height_m < 0 ? l.down_m : l.up_m;
	explain_step(x, "across", AS_NUMBER, fabs(off.offset_m) / across, "|offset| / limit on the %s",
		off.offset_m < 0 ? "left" : "right");
	explain_step(x, "in height", AS_NUMBER, fabs(off.height_m) / up, "|height| / limit %s",
		off.height_m < 0 ? "down" : "up");
	explain_result(x, sb_path_columns[PATH_CORRIDOR_SHARE].name, AS_NUMBER, use.share, x->row->use.share,
		use.side == SIDE_NONE ? "on the line (%s)" : "on the worst side: %s",
		use.side == SIDE_NONE ? "nothing is used" : sb_side_word(use.side));
	put_share_verdict(x, use.share);
	explain_words(x, EXPLAIN_SOURCE, "the contract's corridor; definition of this program");
}
