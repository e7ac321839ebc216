/* The bore as a chain of stretches. All that consumers need stands in the stretch, so that nobody lays the
 * path again. */
#include "model/bore_line.h"

#include "base/mem.h"
#include "geom/bend.h"

#include <math.h>
#include <string.h>

/* Shorter is rounding, metres. */
#define LEAST 1e-6

struct maker {
	const struct clearance_ask *ask;
	struct bore_line *line;
	double piece_m; /* the longest that a stretch may be */
};

/* ---- adding ---- */

static const struct bore_stretch *last_of(const struct bore_line *line)
{
	return line->count ? &line->stretches[line->count - 1] : NULL;
}

/* `one` with its ends, headings, length, joint, part and projected; the rest follows. */
static void add(struct maker *m, struct bore_stretch one)
{
	struct bore_line *line = m->line;
	const struct bore_stretch *before = last_of(line);

	if (!(one.length_m > LEAST))
		return;
	one.md_m = line->length_m;
	one.station_m =
		sb_design_station(m->ask->setup.design, one.from, before ? before->station_m : 0, NULL);
	one.turn_rad = sb_vec3_angle(one.heading_from, one.heading_to);
	one.radius_m = sb_bend_radius(one.length_m, one.turn_rad);
	line->stretches = sb_grow(line->stretches, line->count, &line->room, sizeof *line->stretches);
	line->stretches[line->count++] = one;
	line->length_m += one.length_m;
}

static int pieces_of(const struct maker *m, double length_m)
{
	return (int)fmin(fmax(ceil(length_m / m->piece_m - 1e-9), 1), 1000);
}

/* ---- what was drilled ---- */

/* An entry that was not staked heads as its first reading does: the course is straight. */
static bool borrowed(const struct row *from)
{
	return from->joint == 0 && !from->taken;
}

static void place_on_course(const struct maker *m, const struct row *from, const struct row *to, double s_m,
	struct vec3 *at, struct vec3 *heading)
{
	struct vec3 offset;

	if (borrowed(from)) {
		*heading = to->attitude.heading;
		offset = sb_vec3_scale(sb_vec3_sub(to->at, from->at), s_m / to->course_m);
	} else {
		sb_path_course_at(m->ask->path, from, to, s_m, &offset, heading);
	}
	*at = sb_vec3_add(from->at, offset);
}

static void add_course(struct maker *m, const struct row *from, const struct row *to)
{
	int pieces = pieces_of(m, to->course_m);
	struct bore_stretch one = { .joint = to->joint, .part = -1 };

	/* A course by slides bends unevenly. */
	if (to->slides.count > 0)
		pieces *= 4;
	one.length_m = to->course_m / pieces;
	place_on_course(m, from, to, 0, &one.from, &one.heading_from);
	for (int i = 1; i <= pieces; i++) {
		place_on_course(m, from, to, to->course_m * i / pieces, &one.to, &one.heading_to);
		add(m, one);
		one.from = one.to;
		one.heading_from = one.heading_to;
	}
}

static void add_to_bit(struct maker *m)
{
	const struct row *last = sb_path_back(m->ask->path, 0);
	const struct bit *bit = m->ask->bit;

	if (!bit->known || bit->md_m - m->line->length_m <= LEAST)
		return;
	add(m,
		(struct bore_stretch){ .joint = m->ask->path->rows[m->ask->path->count - 1].joint,
			.part = -1,
			.projected = true,
			.length_m = bit->md_m - m->line->length_m,
			.from = last->at,
			.to = bit->at,
			.heading_from = bit->by == PROJECTION_CURVE && last->joint > 0
				? last->attitude.heading
				: bit->attitude.heading,
			.heading_to = bit->attitude.heading });
}

/* ---- from the bit to the exit ---- */

static struct vec3 unit(struct vec3 a)
{
	return sb_vec3_scale(a, 1 / sb_vec3_length(a));
}

/* Per metre of station. */
static struct vec3 per_station(const struct design_place *p)
{
	return sb_vec3_scale(p->heading, 1 / hypot(p->heading.n, p->heading.e));
}

/* From the design line at a station to the line that comes back to it: a cubic in the station. */
struct way_back {
	const struct design *design;
	double from_m, length_m;
	struct vec3 off, turn; /* off the design line at its beginning: place, and per metre of station */
};

static void way_back_at(const struct way_back *w, double station_m, struct vec3 *at, struct vec3 *heading)
{
	struct design_place p = sb_design_at(w->design, station_m);
	double t = (station_m - w->from_m) / w->length_m, r = 1 - t;
	double place = r * r * (1 + 2 * t), slope = -6 * t * r / w->length_m;
	double turned = w->length_m * t * r * r, turning = r * (1 - 3 * t);

	*at = sb_vec3_add(p.at, sb_vec3_add(sb_vec3_scale(w->off, place), sb_vec3_scale(w->turn, turned)));
	*heading = unit(sb_vec3_add(
		per_station(&p), sb_vec3_add(sb_vec3_scale(w->off, slope), sb_vec3_scale(w->turn, turning))));
}

/* The length of the arc between two places with their headings: chord / (sin(b/2) / (b/2)). */
static double arc_length(const struct bore_stretch *one)
{
	double half = sb_vec3_angle(one->heading_from, one->heading_to) / 2;
	double chord = sb_vec3_length(sb_vec3_sub(one->to, one->from));

	return half > 1e-8 ? chord * half / sin(half) : chord;
}

static int joint_at(const struct maker *m, double past_bit_m)
{
	double nominal = sb_frame_metres(m->ask->setup.frame, m->ask->setup.job->joint_length.value);

	return m->ask->path->rows[m->ask->path->count - 1].joint + 1 + (int)(past_bit_m / nominal);
}

static void add_way_back(struct maker *m, const struct way_back *w, double bit_m)
{
	int pieces = pieces_of(m, w->length_m);
	struct bore_stretch one = { .part = -1, .projected = true };

	way_back_at(w, w->from_m, &one.from, &one.heading_from);
	for (int i = 1; i <= pieces; i++) {
		way_back_at(w, w->from_m + w->length_m * i / pieces, &one.to, &one.heading_to);
		one.length_m = arc_length(&one);
		one.joint = joint_at(m, m->line->length_m + one.length_m / 2 - bit_m);
		add(m, one);
		one.from = one.to;
		one.heading_from = one.heading_to;
	}
}

static void hold_to_surface(struct maker *m, const struct bit *bit)
{
	double rise = m->ask->setup.design->exit_elevation_m - bit->at.u, climb = bit->attitude.heading.u;
	double length = climb > 0.01 ? rise / climb : 0;
	int pieces = pieces_of(m, length);
	struct bore_stretch one = { .part = -1,
		.projected = true,
		.length_m = length / pieces,
		.from = bit->at,
		.heading_from = bit->attitude.heading,
		.heading_to = bit->attitude.heading };

	for (int i = 0; i < pieces; i++) {
		one.to = sb_vec3_add(one.from, sb_vec3_scale(one.heading_from, one.length_m));
		one.joint = joint_at(m, (i + 0.5) * one.length_m);
		add(m, one);
		one.from = one.to;
	}
}

static void add_to_exit(struct maker *m)
{
	const struct bit *bit = m->ask->bit;
	const struct design *d = m->ask->setup.design;
	struct way_back w = { .design = d };

	if (bit->known) {
		w.from_m = bit->deviation.station_m;
		struct design_place p = sb_design_at(d, w.from_m);
		double level = hypot(bit->attitude.heading.n, bit->attitude.heading.e);
		w.off = sb_vec3_sub(bit->at, p.at);
		w.turn = sb_vec3_sub(
			sb_vec3_scale(bit->attitude.heading, 1 / fmax(level, 0.01)), per_station(&p));
	}
	w.length_m = d->length_m - w.from_m;
	if (w.length_m > 3 * sb_frame_metres(m->ask->setup.frame, m->ask->setup.job->joint_length.value) ||
		!bit->known)
		add_way_back(m, &w, m->line->bit_m);
	else
		hold_to_surface(m, bit);
}

static bool is_out(const struct clearance_ask *ask)
{
	const struct design *d = ask->setup.design;

	return ask->bit->known && ask->path->count > 1 && ask->bit->at.u >= d->exit_elevation_m &&
		ask->bit->deviation.station_m > d->length_m / 2;
}

static struct maker begin(const struct clearance_ask *ask, struct bore_line *out)
{
	double joint_m = sb_frame_metres(ask->setup.frame, ask->setup.job->joint_length.value);

	sb_bore_line_clear(out);
	return (struct maker){ ask, out, 1.5 * joint_m };
}

/* A land survey can say that it is out where the readings fall a little short of the surface. */
static bool surveyed_out(const struct clearance_ask *ask)
{
	const struct fixes *fixes = ask->fixes;

	for (size_t i = 0; fixes && i < fixes->count; i++)
		if (fixes->list[i].standing == FIX_STANDS &&
			sb_job_fix(ask->setup.job, fixes->list[i].fix)->kind == FIX_EXIT)
			return ask->bit->known;
	return false;
}

void sb_bore_line_drilled(const struct clearance_ask *ask, struct bore_line *out)
{
	struct maker m = begin(ask, out);
	const struct path *p = ask->path;

	for (size_t i = 1; i < p->on_count; i++)
		add_course(&m, &p->rows[p->on_path[i - 1]], &p->rows[p->on_path[i]]);
	out->projected_from_m = out->length_m;
	add_to_bit(&m);
	out->bit_m = out->length_m;
	out->out = is_out(ask) || surveyed_out(ask);
	if (!out->out)
		add_to_exit(&m);
}

/* ---- the design ---- */

/* Length along the profile's line, which is the length in space, to a station. */
static double along_at(const struct design *d, double station_m)
{
	size_t i = 0;

	while (i + 1 < d->profile_count && d->profile[i + 1].x <= station_m)
		i++;
	const struct chain_part *part = &d->profile[i];
	if (part->curvature == 0)
		return part->at + (station_m - part->x) / part->cos_bearing;
	double slope = sb_chain_height(d->profile, d->profile_count, station_m).slope;
	return part->at + (atan(slope) - part->bearing) / part->curvature;
}

/* Where the next part of alignment or profile begins after a station; the exit at last. */
static double next_break(const struct design *d, double station_m)
{
	double next = d->length_m;

	for (size_t i = 0; i < d->alignment_count; i++)
		if (d->alignment[i].at > station_m + LEAST)
			next = fmin(next, d->alignment[i].at);
	for (size_t i = 0; i < d->profile_count; i++)
		if (d->profile[i].x > station_m + LEAST)
			next = fmin(next, d->profile[i].x);
	return next;
}

/* Headings at the ends of a part are its own: taken a hair inside, for the line may have a corner there. */
static void add_part(struct maker *m, double from_m, double to_m, int part)
{
	const struct design *d = m->ask->setup.design;
	const double hair = LEAST / 10;
	double begins = along_at(d, from_m + hair), ends = along_at(d, to_m - hair);
	int pieces = pieces_of(m, ends - begins);
	struct bore_stretch one = { .part = part };
	struct design_place p = sb_design_at(d, from_m + hair);

	one.from = p.at;
	one.heading_from = p.heading;
	for (int i = 1; i <= pieces; i++) {
		double a = from_m + (to_m - from_m) * (i - 1) / pieces,
		       b = from_m + (to_m - from_m) * i / pieces;
		p = sb_design_at(d, i == pieces ? b - hair : b);
		one.to = p.at;
		one.heading_to = p.heading;
		one.length_m = along_at(d, i == pieces ? b - hair : b) - along_at(d, i == 1 ? a + hair : a);
		add(m, one);
		one.from = one.to;
		one.heading_from = one.heading_to;
	}
}

void sb_bore_line_design(const struct clearance_ask *ask, struct bore_line *out)
{
	struct maker m = begin(ask, out);
	double end = ask->setup.design->length_m, from = 0;

	out->design = true;
	for (int part = 0; from < end - LEAST; part++) {
		double to = next_break(ask->setup.design, from);
		add_part(&m, from, to, part);
		from = to;
	}
	out->projected_from_m = out->bit_m = out->length_m;
}

void sb_bore_line_clear(struct bore_line *line)
{
	sb_free(line->stretches);
	memset(line, 0, sizeof *line);
}

/* ---- asking ---- */

size_t sb_bore_line_find(const struct bore_line *line, double md_m)
{
	size_t low = 0, high = line->count;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;
		if (line->stretches[middle].md_m <= md_m)
			low = middle;
		else
			high = middle;
	}
	return low;
}

/* On the arc between the ends of a stretch: by its sagitta, square to the chord, and its headings. */
void sb_bore_line_at(const struct bore_line *line, double md_m, struct vec3 *at, struct vec3 *heading)
{
	const struct bore_stretch *b = &line->stretches[sb_bore_line_find(line, md_m)];
	double t = fmin(fmax((md_m - b->md_m) / b->length_m, 0), 1), half = b->turn_rad / 2;
	double first = half > 1e-8 ? sin((1 - t) * b->turn_rad) / sin(b->turn_rad) : 1 - t;
	double second = half > 1e-8 ? sin(t * b->turn_rad) / sin(b->turn_rad) : t;

	if (heading)
		*heading = unit(sb_vec3_add(
			sb_vec3_scale(b->heading_from, first), sb_vec3_scale(b->heading_to, second)));
	if (at == NULL)
		return;
	/* (to - from) t, and the sag: the arc's bow is (t1 - t2) L t (1 - t) / 2 to the second order of its
	 * turn */
	struct vec3 bow =
		sb_vec3_scale(sb_vec3_sub(b->heading_from, b->heading_to), b->length_m * t * (1 - t) / 2);
	*at = sb_vec3_add(b->from, sb_vec3_add(sb_vec3_scale(sb_vec3_sub(b->to, b->from), t), bow));
}

double sb_bore_line_station(const struct bore_line *line, double md_m)
{
	size_t i = sb_bore_line_find(line, md_m);
	const struct bore_stretch *b = &line->stretches[i];
	double to = i + 1 < line->count ? line->stretches[i + 1].station_m
					: b->station_m + hypot(b->to.n - b->from.n, b->to.e - b->from.e);

	return b->station_m + (to - b->station_m) * fmin(fmax((md_m - b->md_m) / b->length_m, 0), 1);
}
