/* The line is drawn through a list of stations: the ends of the stretch, every end of a tangent or curve,
 * enough stations on curves that the chord leaves the arc by less than a tenth of a dot, and every end of a
 * corridor range. The list is short (a crossing has some ten parts) and never more than STATIONS_MOST.
 */
#include "draw/line.h"

#include "base/mem.h"

#include <math.h>
#include <stdlib.h>

#define STATIONS_MOST 4000
#define CURVE_MOST 200 /* stations in one curve */

struct stations {
	double *list;
	size_t count, room;
	double from, to;
};

static void add(struct stations *s, double station)
{
	if (!(station >= s->from && station <= s->to) || s->count >= STATIONS_MOST)
		return;
	s->list = sb_grow(s->list, s->count, &s->room, sizeof *s->list);
	s->list[s->count++] = station;
}

static void add_part(const struct plane *p, struct stations *s, double from, double to, double curvature)
{
	double low = fmax(from, s->from), high = fmin(to, s->to);

	add(s, from);
	add(s, to);
	if (curvature == 0 || !(low < high))
		return;
	/* chord c of a circle: sagitta c^2 k / 8 */
	double chord = sqrt(8 * (p->window.dot_m / 10) / fabs(curvature));
	int pieces = (int)fmin(ceil((high - low) / chord), CURVE_MOST);
	for (int i = 1; i < pieces; i++)
		add(s, low + (high - low) * i / pieces);
}

static int ascending(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

/* Where the plane bends the line: the profile's curves in elevation, the alignment's on a map; straightened
 * planes have none. */
static struct stations stations_of(const struct plane *p)
{
	const struct design *d = &p->s->design;
	struct stations s = {
		.from = fmax(p->window.from_m, 0),
		.to = fmin(p->window.to_m, d->length_m),
	};

	add(&s, s.from);
	add(&s, s.to);
	for (size_t i = 0; p->kind == PLANE_ELEVATION && i < d->profile_count; i++) {
		const struct chain_part *part = &d->profile[i];
		double to = i + 1 < d->profile_count ? d->profile[i + 1].x : d->length_m;
		add_part(p, &s, part->x, to, part->curvature);
	}
	for (size_t i = 0; p->kind == PLANE_MAP && i < d->alignment_count; i++) {
		const struct chain_part *part = &d->alignment[i];
		add_part(p, &s, part->at, part->at + part->length, part->curvature);
	}
	return s;
}

static void sort(struct stations *s)
{
	size_t kept = 0;

	if (s->count == 0)
		return;
	qsort(s->list, s->count, sizeof *s->list, ascending);
	for (size_t i = 1; i < s->count; i++)
		if (s->list[i] > s->list[kept])
			s->list[++kept] = s->list[i];
	s->count = kept + 1;
}

void sb_line_design(const struct plane *p)
{
	struct stations s = stations_of(p);

	sort(&s);
	sb_scene_line(p->scene, MEANING_DESIGN, LINE_DASHED);
	for (size_t i = 0; i < s.count; i++) {
		struct spot at = sb_plane_beside(p, s.list[i], 0, 0);
		sb_scene_point(p->scene, at.x, at.y);
	}
	sb_free(s.list);
}

enum edge { EDGE_UP, EDGE_DOWN, EDGE_LEFT, EDGE_RIGHT };

static struct spot edge_at(const struct plane *p, enum edge e, double station, double limit)
{
	switch (e) {
	case EDGE_UP:
		return sb_plane_beside(p, station, 0, limit);
	case EDGE_DOWN:
		return sb_plane_beside(p, station, 0, -limit);
	case EDGE_LEFT:
		return sb_plane_beside(p, station, -limit, 0);
	case EDGE_RIGHT:
		break;
	}
	return sb_plane_beside(p, station, limit, 0);
}

static double limit_of(const struct corridor_limits *l, enum edge e)
{
	const double limits[] = { l->up_m, l->down_m, l->left_m, l->right_m };

	return limits[e];
}

/* Within a pair of neighbouring stations the limit does not change: it is asked for in the middle. */
static void draw_edge(const struct plane *p, const struct stations *s, enum edge e)
{
	bool open = false;

	for (size_t i = 1; i < s->count; i++) {
		double from = s->list[i - 1], to = s->list[i];
		struct corridor_limits l = sb_corridor_at(&p->s->corridor, from + (to - from) / 2);
		double limit = limit_of(&l, e);
		if (!isfinite(limit)) {
			open = false;
			continue;
		}
		if (!open)
			sb_scene_line(p->scene, MEANING_CORRIDOR, LINE_DOTTED);
		open = true;
		sb_scene_beside(p->scene, limit);
		struct spot a = edge_at(p, e, from, limit), b = edge_at(p, e, to, limit);
		sb_scene_point(p->scene, a.x, a.y);
		sb_scene_point(p->scene, b.x, b.y);
	}
}

void sb_line_corridor(const struct plane *p)
{
	bool upright = p->kind == PLANE_ELEVATION || p->kind == PLANE_HEIGHT;
	struct stations s = stations_of(p);

	for (size_t i = 0; i < p->s->corridor.count; i++) {
		add(&s, p->s->corridor.pieces[i].from_m);
		add(&s, p->s->corridor.pieces[i].to_m);
	}
	sort(&s);
	draw_edge(p, &s, upright ? EDGE_UP : EDGE_LEFT);
	draw_edge(p, &s, upright ? EDGE_DOWN : EDGE_RIGHT);
	sb_free(s.list);
}

static void draw_end(const struct plane *p, enum meaning m, double station, enum anchor anchor)
{
	struct spot at = sb_plane_beside(p, station, 0, 0);

	if (!sb_plane_near(p, station))
		return;
	const char *word = sb_scene_word(m);
	if (p->window.detailed)
		word = m == MEANING_ENTRY ? "ENTRY, rig side" : "EXIT, pipe side";
	sb_scene_mark(p->scene, m, at);
	sb_scene_text(p->scene, MEANING_LABEL, anchor, at, word);
}

void sb_line_exit_window(const struct plane *p)
{
	const struct corridor *c = &p->s->corridor;
	double exit = p->s->design.length_m, from = exit - c->exit_short_m, to = exit + c->exit_long_m;

	if (!isfinite(from) || !isfinite(to) || !isfinite(c->exit_left_m) || !isfinite(c->exit_right_m))
		return;
	struct spot corners[] = {
		sb_plane_beside(p, from, -c->exit_left_m, 0),
		sb_plane_beside(p, to, -c->exit_left_m, 0),
		sb_plane_beside(p, to, c->exit_right_m, 0),
		sb_plane_beside(p, from, c->exit_right_m, 0),
	};
	sb_scene_line(p->scene, MEANING_CORRIDOR, LINE_SOLID);
	for (int i = 0; i <= 4; i++)
		sb_scene_point(p->scene, corners[i % 4].x, corners[i % 4].y);
}

void sb_line_ends(const struct plane *p)
{
	draw_end(p, MEANING_ENTRY, 0, ANCHOR_RIGHT);
	draw_end(p, MEANING_EXIT, p->s->design.length_m, ANCHOR_LEFT);
}
