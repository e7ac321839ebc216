/* GeoJSON (RFC 7946): every feature of the crossing, in longitude and latitude on WGS84.
 *
 * The standard allows no other system and no vertical datum but the ellipsoid, so grid coordinates and
 * elevations stand as attributes: easting, northing, elevation of a point, `vertices` of a line, each
 * [easting, northing, elevation]. What the file is about is its member `about`.
 */
#include "base/crs.h"
#include "base/str.h"
#include "io/features.h"

#include "export.h"

#define DEGREES 7 /* decimals: a hundredth of a metre */
#define LENGTHS 6

struct making {
	struct sb_json j;
	const struct features *f;
	struct sb_crs *crs;
	struct sb_err *err;
	bool failed;
};

static void put_place(struct making *m, const struct feature_place *p, const char *name)
{
	struct geographic at;

	if (m->failed || sb_crs_to_world(m->crs, p->e, p->n, &at, m->err)) {
		m->failed = true;
		return;
	}
	const double degree = 3.14159265358979323846 / 180;
	sb_json_array(&m->j, name);
	sb_json_fixed(&m->j, NULL, at.longitude_rad / degree, DEGREES);
	sb_json_fixed(&m->j, NULL, at.latitude_rad / degree, DEGREES);
	sb_json_end(&m->j);
}

static void put_geometry(struct making *m, const struct feature *f)
{
	const struct feature_place *p = m->f->places + f->first;

	if (f->count == 0) {
		sb_json_null(&m->j, "geometry");
		return;
	}
	sb_json_object(&m->j, "geometry");
	sb_json_text(&m->j, "type", f->count > 1 ? "LineString" : "Point");
	if (f->count == 1) {
		put_place(m, p, "coordinates");
	} else {
		sb_json_array(&m->j, "coordinates");
		for (size_t i = 0; i < f->count; i++)
			put_place(m, p + i, NULL);
		sb_json_end(&m->j);
	}
	sb_json_end(&m->j);
}

/* Grid coordinates: of a point as members, of a line as a list. Joints have them among their columns. */
static void put_grid(struct making *m, const struct feature *f)
{
	const struct feature_place *p = m->f->places + f->first;

	if (f->count == 1 && f->layer != LAYER_JOINTS) {
		sb_json_fixed(&m->j, "easting", p->e, LENGTHS);
		sb_json_fixed(&m->j, "northing", p->n, LENGTHS);
		sb_json_fixed(&m->j, "elevation", p->z, LENGTHS);
	}
	if (f->count < 2)
		return;
	sb_json_array(&m->j, "vertices");
	for (size_t i = 0; i < f->count; i++) {
		sb_json_array(&m->j, NULL);
		sb_json_fixed(&m->j, NULL, p[i].e, LENGTHS);
		sb_json_fixed(&m->j, NULL, p[i].n, LENGTHS);
		sb_json_fixed(&m->j, NULL, p[i].z, LENGTHS);
		sb_json_end(&m->j);
	}
	sb_json_end(&m->j);
}

static void put_attribute(struct sb_json *j, const struct feature_field *field, const struct feature_value *v)
{
	if (!v->given)
		sb_json_null(j, field->name);
	else if (field->type == FEATURE_TEXT)
		sb_json_text(j, field->name, v->text);
	else if (field->type == FEATURE_WHOLE)
		sb_json_whole(j, field->name, (long long)v->number);
	else
		sb_json_fixed(j, field->name, v->number, LENGTHS);
}

static void put_feature(struct making *m, const struct feature *f)
{
	const struct feature_sort *sort = &m->f->sorts[f->layer];

	sb_json_object(&m->j, NULL);
	sb_json_text(&m->j, "type", "Feature");
	put_geometry(m, f);
	sb_json_object(&m->j, "properties");
	sb_json_text(&m->j, "layer", sort->name);
	for (size_t i = 0; i < sort->field_count; i++)
		put_attribute(&m->j, &sort->fields[i], &m->f->values[f->values + i]);
	put_grid(m, f);
	sb_json_end(&m->j);
	sb_json_end(&m->j);
}

static int open_map(const struct job *job, struct sb_crs **crs, struct sb_err *err)
{
	if (sb_crs_open(job->crs, crs, err))
		return -1;
	if (sb_crs_is_local(*crs))
		return sb_fail(err, SB_STATE,
			"GeoJSON knows only longitude and latitude, and the job's coordinates are local: nothing ties them to the earth. Export gpkg or dxf, which take them as they are.");
	return sb_crs_takes_unit(*crs, job->unit, err);
}

int export_geojson(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct features f;
	struct making m = { .f = &f, .err = err };

	if (open_map(e->job, &m.crs, err)) {
		sb_crs_close(m.crs);
		return -1;
	}
	sb_features_make(e, PLANE_MAP, &f);
	sb_json_object(&m.j, NULL);
	sb_json_text(&m.j, "type", "FeatureCollection");
	sb_json_text(&m.j, "name", e->job->name);
	sb_about_put(&m.j, "about", e->job, e->about);
	sb_json_array(&m.j, "features");
	for (size_t i = 0; i < f.count && !m.failed; i++)
		put_feature(&m, &f.list[i]);
	while (m.j.depth > 0)
		sb_json_end(&m.j);
	if (!m.failed)
		sb_str_append(out, sb_str_get(&m.j.text), m.j.text.length);
	sb_str_clear(&m.j.text);
	sb_features_clear(&f);
	sb_crs_close(m.crs);
	return m.failed ? -1 : 0;
}
