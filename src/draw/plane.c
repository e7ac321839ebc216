/* Four planes and their arithmetic. Right of the line is downwards in PLANE_ALONG: the picture is the
 * ground seen from above with the rig on the left, drilling to the right.
 */
#include "draw/plane.h"

#include <math.h>

struct spot sb_plane_beside(const struct plane *p, double station_m, double offset_m, double height_m)
{
	struct design_place at;

	switch (p->kind) {
	case PLANE_HEIGHT:
		return (struct spot){ station_m, height_m };
	case PLANE_ALONG:
		return (struct spot){ station_m, -offset_m };
	case PLANE_ELEVATION:
		at = sb_design_at(&p->s->design, station_m);
		return (struct spot){ station_m, at.at.u + height_m };
	case PLANE_MAP:
		break;
	}
	/* The right hand of a bearing is a quarter turn clockwise from it. */
	at = sb_design_at(&p->s->design, station_m);
	return (struct spot){ at.at.e + offset_m * cos(at.azi_rad), at.at.n - offset_m * sin(at.azi_rad) };
}

static struct spot of(const struct plane *p, const struct deviation *d, struct vec3 at)
{
	switch (p->kind) {
	case PLANE_ELEVATION:
		return (struct spot){ d->station_m, at.u };
	case PLANE_HEIGHT:
		return (struct spot){ d->station_m, d->height_m };
	case PLANE_ALONG:
		return (struct spot){ d->station_m, -d->offset_m };
	case PLANE_MAP:
		break;
	}
	return (struct spot){ at.e, at.n };
}

struct spot sb_plane_row(const struct plane *p, const struct row *row)
{
	return of(p, &row->deviation, row->at);
}

struct spot sb_plane_bit(const struct plane *p, const struct bit *bit)
{
	return of(p, &bit->deviation, bit->at);
}

double sb_plane_sigma(const struct plane *p, const struct doubt *d)
{
	return p->kind == PLANE_ELEVATION || p->kind == PLANE_HEIGHT ? d->up_m : d->across_m;
}

struct spot sb_plane_off(
	const struct plane *p, struct spot at, double station_m, const struct doubt *d, double factor)
{
	double off = factor * sb_plane_sigma(p, d);
	struct spot line = sb_plane_beside(p, station_m, 0, 0),
		    there = sb_plane_beside(p, station_m, off, off);

	return (struct spot){ at.x + there.x - line.x, at.y + there.y - line.y };
}

double sb_plane_offset(const struct plane *p, struct vec3 at, double *station_m)
{
	double offset = 0;

	*station_m = sb_design_station(&p->s->design, at, *station_m, &offset);
	return offset;
}

struct spot sb_plane_ground(const struct plane *p, struct vec3 at, double *station_m)
{
	const struct design *d = &p->s->design;
	struct deviation where = { 0 };

	if (p->kind != PLANE_MAP) {
		where.offset_m = sb_plane_offset(p, at, station_m);
		where.station_m = *station_m;
	}
	if (p->kind == PLANE_HEIGHT)
		where.height_m = at.u - sb_chain_height(d->profile, d->profile_count, *station_m).y;
	return of(p, &where, at);
}

bool sb_plane_near(const struct plane *p, double station_m)
{
	double margin = (p->window.to_m - p->window.from_m) / 10;

	return station_m >= p->window.from_m - margin && station_m <= p->window.to_m + margin;
}
