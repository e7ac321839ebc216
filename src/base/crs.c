/* PROJ behind one door.
 *
 * 1. Two ways lead out of a grid: to its own datum, which is the projection alone and exact; and to WGS84,
 * which is looked for when it is first asked, because finding it takes longer than all the rest.
 * 2. Easting and northing go by what the axes say they are, whichever the table puts first.
 * 3. Convergence and scale are measured, not asked: PROJ 9.1 gives rubbish without an error for systems in
 * feet (its issue 3824). A short piece of meridian is projected, and one of the parallel to see whether the
 *    scale is the same both ways.
 * 4. Its messages are not shown: what goes wrong is said here.
 */
#include "base/crs.h"

#include "base/mem.h"
#include "base/str.h"

#include "base/late.h"
#include "crs_define.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define PI 3.14159265358979323846
#define DEGREES (180 / PI)

#define REACH_M 20.0 /* half the piece of meridian: rounding and curvature both under 1e-10 of it */
#define UNEQUAL 1e-6 /* of the scale, from which a projection is not taken for conformal */
#define MARGIN_DEGREES \
	1.0 /* outside the area: beyond it a slip, not a border. Common practice, no source. \
	     */

struct way {
	PJ *pj;						/* from the grid to longitude and latitude */
	double latitude_unit, longitude_unit, meridian; /* radians in its units; of Greenwich */
};

struct sb_crs {
	PJ_CONTEXT *context;
	PJ *grid;
	struct way own, world;
	bool world_sought;
	struct geod_geodesic ellipsoid;
	struct crs_about about;
};

/* ---- opening ---- */

static void take_text(char *to, size_t size, const char *from)
{
	sb_copy(to, size, from ? from : "");
	sb_utf8_tame(to);
}

static int check_code(const char *code, struct sb_err *err)
{
	size_t digits = strncmp(code, "EPSG:", 5) == 0 ? strspn(code + 5, "0123456789") : 0;

	if (digits >= 4 && digits <= 6 && code[5 + digits] == '\0')
		return 0;
	return sb_fail(err, SB_FORMAT,
		"'%.40s' is not a coordinate system. Write EPSG: and its number, like EPSG:32615, or local.",
		code);
}

static int fail_unknown(const struct sb_crs *c, struct sb_err *err)
{
	if (sb_late()->context_get_database_path(c->context) == NULL)
		return sb_fail(err, SB_MISSING,
			"The table of coordinate systems (proj.db) was not found, so %s cannot be looked up. Install PROJ's "
			"data (package proj-data), or write local.",
			c->about.code);
	return sb_fail(err, SB_RANGE, "%s is not in the table of coordinate systems (%s). Check the number.",
		c->about.code, c->about.table[0] ? c->about.table : "version unknown");
}

/* A compound system is named with what would be right: its part in plan. */
static int fail_kind(const struct sb_crs *c, struct sb_err *err)
{
	PJ_TYPE type = sb_late()->get_type(c->grid);
	PJ *plan = type == PJ_TYPE_COMPOUND_CRS ? sb_late()->crs_get_sub_crs(c->context, c->grid, 0) : NULL;
	const char *code = plan ? sb_late()->get_id_code(plan, 0) : NULL;

	if (code)
		sb_fail(err, SB_RANGE,
			"%s (%s) holds heights too. Write the system of its plan alone, EPSG:%.10s; the vertical datum has "
			"a place of its own.",
			c->about.code, c->about.name, code);
	else if (type == PJ_TYPE_GEOGRAPHIC_2D_CRS || type == PJ_TYPE_GEOGRAPHIC_3D_CRS)
		sb_fail(err, SB_RANGE,
			"%s (%s) is latitude and longitude, not a grid. Write the projected system that easting and northing "
			"are in, like EPSG:32615.",
			c->about.code, c->about.name);
	else
		sb_fail(err, SB_RANGE,
			"%s (%s) is not a grid of eastings and northings. Write the projected system that they are in.",
			c->about.code, c->about.name);
	sb_late()->destroy(plan);
	return -1;
}

static int take_unit(struct sb_crs *c, double metres, const char *name, struct sb_err *err)
{
	for (int u = UNIT_M; u <= UNIT_FTUS; u++)
		if (fabs(metres / sb_unit_metres((enum unit)u) - 1) < 1e-12) {
			c->about.unit = (enum unit)u;
			return 0;
		}
	return sb_fail(err, SB_RANGE,
		"%s (%s) is in units that no job is kept in (%.30s): m, ft and ftUS are. Convert the coordinates to "
		"another system.",
		c->about.code, c->about.name, name);
}

/* One axis to the east and one to the north, in either order: eastings and northings go by their names here.
 */
static int check_axes(struct sb_crs *c, struct sb_err *err)
{
	PJ *cs = sb_late()->crs_get_coordinate_system(c->context, c->grid);
	const char *first = "", *second = "", *unit = "";
	double metres = 0;

	if (cs == NULL ||
		!sb_late()->cs_get_axis_info(
			c->context, cs, 0, NULL, NULL, &first, &metres, &unit, NULL, NULL) ||
		!sb_late()->cs_get_axis_info(c->context, cs, 1, NULL, NULL, &second, NULL, NULL, NULL, NULL))
		first = second = "unknown";
	bool usual = (sb_same(first, "east") && sb_same(second, "north")) ||
		(sb_same(first, "north") && sb_same(second, "east"));
	int failed = usual
		? take_unit(c, metres, unit, err)
		: sb_fail(err, SB_RANGE,
			  "The axes of %s (%s) point %.20s and %.20s, not east and north: bearings on it would "
			  "mislead. Use a system with eastings and northings.",
			  c->about.code, c->about.name, first, second);
	sb_late()->destroy(cs);
	return failed;
}

static void take_about(struct sb_crs *c)
{
	struct crs_about *a = &c->about;
	const char *area = NULL;
	PJ *datum = sb_late()->crs_get_datum_forced(c->context, c->grid);

	take_text(a->name, sizeof a->name, sb_late()->get_name(c->grid));
	take_text(a->datum, sizeof a->datum, datum ? sb_late()->get_name(datum) : NULL);
	sb_late()->destroy(datum);
	a->withdrawn = sb_late()->is_deprecated(c->grid) != 0;
	a->bounded = sb_late()->get_area_of_use(
			     c->context, c->grid, &a->west, &a->south, &a->east, &a->north, &area) &&
		a->west >= -180 && a->south >= -90 && a->east <= 180 && a->north <= 90;
	take_text(a->area, sizeof a->area, area);
}

/* The way from the grid to a geographic system, and the units of its end. NULL pj when there is none. */
static struct way find_way(struct sb_crs *c, PJ *target)
{
	static const char *const options[] = { "ALLOW_BALLPARK=NO", NULL };
	struct way w = { .latitude_unit = 1 / DEGREES, .longitude_unit = 1 / DEGREES };
	PJ *cs = sb_late()->crs_get_coordinate_system(c->context, target);
	PJ *meridian = sb_late()->get_prime_meridian(c->context, target);
	PJ *found = sb_late()->create_crs_to_crs_from_pj(c->context, c->grid, target, NULL, options);
	double degrees = 0, unit = 0;

	if (cs && sb_late()->cs_get_axis_info(c->context, cs, 0, NULL, NULL, NULL, &unit, NULL, NULL, NULL))
		w.latitude_unit = w.longitude_unit = unit;
	if (meridian && sb_late()->prime_meridian_get_parameters(c->context, meridian, &degrees, &unit, NULL))
		w.meridian = degrees * unit;
	if (found)
		w.pj = sb_late()->normalize_for_visualization(c->context, found);
	sb_late()->destroy(found);
	sb_late()->destroy(meridian);
	sb_late()->destroy(cs);
	return w;
}

static int take_own(struct sb_crs *c, struct sb_err *err)
{
	PJ *base = sb_late()->crs_get_geodetic_crs(c->context, c->grid);
	PJ *ellipsoid = sb_late()->get_ellipsoid(c->context, c->grid);
	double major = 0, inverse = 0;

	if (base)
		c->own = find_way(c, base);
	if (ellipsoid)
		sb_late()->ellipsoid_get_parameters(c->context, ellipsoid, &major, NULL, NULL, &inverse);
	sb_late()->geodesic_init(&c->ellipsoid, major, inverse > 0 ? 1 / inverse : 0);
	sb_late()->destroy(ellipsoid);
	sb_late()->destroy(base);
	if (c->own.pj && major > 0)
		return 0;
	return sb_fail(err, SB_RANGE,
		"%s (%s) is known, but PROJ cannot compute with it. Use another system.", c->about.code,
		c->about.name);
}

static void say_nothing(void *unused, int level, const char *text)
{
	(void)unused, (void)level, (void)text;
}

static int look_up(struct sb_crs *c, const char *definition, struct sb_err *err)
{
	if (sb_late_load(err))
		return -1;
	c->context = sb_late()->context_create();
	if (c->context == NULL)
		return sb_fail(err, SB_STATE, "PROJ does not start: no coordinate system can be looked up.");
	sb_late()->log_func(c->context, NULL, say_nothing);
	sb_late()->context_set_enable_network(c->context, 0);
	c->grid = sb_late()->create(c->context, definition);
	const char *version = sb_late()->context_get_database_metadata(c->context, "EPSG.VERSION");
	if (version)
		snprintf(c->about.table, sizeof c->about.table, "EPSG %.32s", version);
	if (c->grid == NULL)
		return fail_unknown(c, err);
	take_about(c);
	if (sb_late()->get_type(c->grid) != PJ_TYPE_PROJECTED_CRS)
		return fail_kind(c, err);
	if (check_axes(c, err))
		return -1;
	return take_own(c, err);
}

/* definition: NULL of a local grid. */
static int open_one(const char *code, const char *definition, struct sb_crs **out, struct sb_err *err)
{
	struct sb_crs *c = sb_alloc(sizeof *c);

	sb_copy(c->about.code, sizeof c->about.code, code);
	if (definition && look_up(c, definition, err)) {
		sb_crs_close(c);
		return -1;
	}
	*out = c;
	return 0;
}

int sb_crs_open(const char *code, struct sb_crs **out, struct sb_err *err)
{
	if (sb_same(code, "local"))
		return open_one(code, NULL, out, err);
	return check_code(code, err) ? -1 : open_one(code, code, out, err);
}

int sb_crs_define(const char *definition, struct sb_crs **out, struct sb_err *err)
{
	return open_one("defined", definition, out, err);
}

void sb_crs_close(struct sb_crs *c)
{
	if (c == NULL)
		return;
	if (c->context) {
		sb_late()->destroy(c->world.pj);
		sb_late()->destroy(c->own.pj);
		sb_late()->destroy(c->grid);
		sb_late()->context_destroy(c->context);
	}
	sb_free(c);
}

const struct crs_about *sb_crs_about(const struct sb_crs *c)
{
	return &c->about;
}

bool sb_crs_is_local(const struct sb_crs *c)
{
	return c->grid == NULL;
}

int sb_crs_wkt(struct sb_crs *c, struct sb_str *out, struct sb_err *err)
{
	static const char *const options[] = { "MULTILINE=NO", NULL };
	const char *text =
		sb_crs_is_local(c) ? NULL : sb_late()->as_wkt(c->context, c->grid, PJ_WKT1_GDAL, options);

	if (text == NULL)
		return sb_fail(err, SB_STATE, "%s cannot be written as text (WKT).", c->about.code);
	sb_str_add(out, "%s", text);
	return 0;
}

int sb_crs_takes_unit(const struct sb_crs *c, enum unit job, struct sb_err *err)
{
	if (sb_crs_is_local(c) || job == c->about.unit)
		return 0;
	return sb_fail(err, SB_RANGE,
		"The job is in %s, but %s (%s) is in %s. Either the unit or the coordinate system is wrong.",
		sb_unit_long(job), c->about.code, c->about.name, sb_unit_long(c->about.unit));
}

/* ---- there and back ---- */

static int check_given(const struct sb_crs *c, double a, double b, struct sb_err *err)
{
	if (sb_crs_is_local(c))
		return sb_fail(err, SB_RANGE,
			"The coordinates are local: no projection ties them to latitude and longitude.");
	if (isfinite(a) && isfinite(b))
		return 0;
	return sb_fail(err, SB_RANGE, "A coordinate is not a number.");
}

/* How many degrees a value lies outside of a range. */
static double beyond(double value, double low, double high)
{
	return fmax(0, fmax(low - value, value - high));
}

static double outside_degrees(const struct crs_about *a, const struct geographic *g)
{
	double longitude = g->longitude_rad * DEGREES;
	double east = a->east < a->west ? a->east + 360 : a->east;

	if (!a->bounded)
		return 0;
	double across = fmin(beyond(longitude, a->west, east),
		fmin(beyond(longitude + 360, a->west, east), beyond(longitude - 360, a->west, east)));
	return fmax(across, beyond(g->latitude_rad * DEGREES, a->south, a->north));
}

static int check_area(const struct sb_crs *c, const struct geographic *g, struct sb_err *err)
{
	const struct crs_about *a = &c->about;

	if (outside_degrees(a, g) <= MARGIN_DEGREES)
		return 0;
	return sb_fail(err, SB_RANGE,
		"The point lies at latitude %.2f, longitude %.2f, far outside the area of %s (%s): latitude %.2f to %.2f, "
		"longitude %.2f to %.2f. Are easting and northing swapped, or in other units, or of another zone?",
		g->latitude_rad * DEGREES, g->longitude_rad * DEGREES, a->code, a->name, a->south, a->north,
		a->west, a->east);
}

static int fail_point(const struct sb_crs *c, struct sb_err *err)
{
	return sb_fail(err, SB_RANGE,
		"%s (%s) has no such point: PROJ finds no answer. Are easting and northing swapped, or in other units?",
		c->about.code, c->about.name);
}

static bool forth(const struct way *w, double easting, double northing, struct geographic *out)
{
	sb_late()->errno_reset(w->pj);
	PJ_COORD at = sb_late()->trans(w->pj, PJ_FWD, (PJ_COORD){ { easting, northing, 0, HUGE_VAL } });
	double latitude = at.xy.y * w->latitude_unit;
	double longitude = at.xy.x * w->longitude_unit + w->meridian;

	if (sb_late()->errno_of(w->pj) || !isfinite(longitude) || !(fabs(latitude) <= PI / 2 + 1e-12))
		return false;
	*out = (struct geographic){ latitude, remainder(longitude, 2 * PI) };
	return true;
}

static bool back(const struct way *w, const struct geographic *g, double *easting, double *northing)
{
	double longitude = remainder(g->longitude_rad - w->meridian, 2 * PI);

	sb_late()->errno_reset(w->pj);
	PJ_COORD at = sb_late()->trans(w->pj, PJ_INV,
		(PJ_COORD){
			{ longitude / w->longitude_unit, g->latitude_rad / w->latitude_unit, 0, HUGE_VAL } });
	if (sb_late()->errno_of(w->pj) || !isfinite(at.xy.x) || !isfinite(at.xy.y))
		return false;
	*easting = at.xy.x;
	*northing = at.xy.y;
	return true;
}

static int seek_world(struct sb_crs *c, struct sb_err *err)
{
	if (!c->world_sought) {
		PJ *wgs84 = sb_late()->create(c->context, "EPSG:4326");
		c->world_sought = true;
		if (wgs84)
			c->world = find_way(c, wgs84);
		sb_late()->destroy(wgs84);
	}
	if (c->world.pj)
		return 0;
	return sb_fail(err, SB_STATE, "How the datum of %s (%s) lies to WGS84 is not known here.",
		c->about.code, c->about.name);
}

static int to(struct sb_crs *c, const struct way *w, double easting, double northing, struct geographic *out,
	struct sb_err *err)
{
	struct geographic g;

	if (!forth(w, easting, northing, &g))
		return fail_point(c, err);
	if (check_area(c, &g, err))
		return -1;
	*out = g;
	return 0;
}

static int from(struct sb_crs *c, const struct way *w, const struct geographic *at, double *easting,
	double *northing, struct sb_err *err)
{
	if (fabs(at->latitude_rad) > PI / 2)
		return sb_fail(err, SB_RANGE, "A latitude is from -90 to 90 degrees.");
	if (check_area(c, at, err))
		return -1;
	return back(w, at, easting, northing) ? 0 : fail_point(c, err);
}

int sb_crs_to_own(
	struct sb_crs *c, double easting, double northing, struct geographic *out, struct sb_err *err)
{
	return check_given(c, easting, northing, err) ? -1 : to(c, &c->own, easting, northing, out, err);
}

int sb_crs_to_world(
	struct sb_crs *c, double easting, double northing, struct geographic *out, struct sb_err *err)
{
	if (check_given(c, easting, northing, err) || seek_world(c, err))
		return -1;
	return to(c, &c->world, easting, northing, out, err);
}

int sb_crs_from_own(
	struct sb_crs *c, const struct geographic *at, double *easting, double *northing, struct sb_err *err)
{
	if (check_given(c, at->latitude_rad, at->longitude_rad, err))
		return -1;
	return from(c, &c->own, at, easting, northing, err);
}

int sb_crs_from_world(
	struct sb_crs *c, const struct geographic *at, double *easting, double *northing, struct sb_err *err)
{
	if (check_given(c, at->latitude_rad, at->longitude_rad, err) || seek_world(c, err))
		return -1;
	return from(c, &c->world, at, easting, northing, err);
}

/* ---- how the grid lies ---- */

/* What the grid makes of a short line on the ellipsoid through a point, along an azimuth: its bearing on the
 * grid and its length over the true one. */
static bool lay(
	struct sb_crs *c, const struct geographic *at, double azimuth_degrees, double *bearing, double *scale)
{
	struct geographic end[2];
	double e[2], n[2];

	for (int i = 0; i < 2; i++) {
		double latitude, longitude;
		sb_late()->geodesic_direct(&c->ellipsoid, at->latitude_rad * DEGREES,
			at->longitude_rad * DEGREES, azimuth_degrees, i ? REACH_M : -REACH_M, &latitude,
			&longitude, NULL);
		end[i] = (struct geographic){ latitude / DEGREES, longitude / DEGREES };
		if (!back(&c->own, &end[i], &e[i], &n[i]))
			return false;
	}
	*bearing = atan2(e[1] - e[0], n[1] - n[0]);
	*scale = hypot(e[1] - e[0], n[1] - n[0]) * sb_unit_metres(c->about.unit) / (2 * REACH_M);
	return true;
}

/* The mean of the radii along the meridian and across it. */
static double mean_radius(const struct geod_geodesic *e, double latitude_rad)
{
	double square = e->f * (2 - e->f), sine = sin(latitude_rad);

	return e->a * sqrt(1 - square) / (1 - square * sine * sine);
}

static void find_world(struct sb_crs *c, double easting, double northing, struct crs_point *p)
{
	p->world = p->own;
	p->accuracy_m = (double)NAN;
	if (seek_world(c, NULL) || !forth(&c->world, easting, northing, &p->world))
		return;
	PJ *used = sb_late()->trans_get_last_used_operation(c->world.pj);
	double accuracy = used ? sb_late()->pj_info(used).accuracy : -1;
	sb_late()->destroy(used);
	p->accuracy_m = accuracy >= 0 ? accuracy : (double)NAN;
}

int sb_crs_at(struct sb_crs *c, double easting, double northing, double height_m, struct crs_point *out,
	struct sb_err *err)
{
	struct crs_point p = { 0 };
	double north, east, scale_east;

	if (sb_crs_to_own(c, easting, northing, &p.own, err))
		return -1;
	if (!(fabs(height_m) <= 100000))
		return sb_fail(err, SB_RANGE, "The height is not one on this earth.");
	if (!lay(c, &p.own, 0, &north, &p.scale) || !lay(c, &p.own, 90, &east, &scale_east) || !(p.scale > 0))
		return fail_point(c, err);
	double radius = mean_radius(&c->ellipsoid, p.own.latitude_rad);
	p.convergence_rad = 0 - north;
	p.conformal = fabs(scale_east / p.scale - 1) < UNEQUAL &&
		fabs(remainder(east - north - PI / 2, 2 * PI)) < UNEQUAL;
	p.height_factor = radius / (radius + height_m);
	p.combined = p.scale * p.height_factor;
	p.outside = outside_degrees(&c->about, &p.own) > 0;
	find_world(c, easting, northing, &p);
	*out = p;
	return 0;
}
