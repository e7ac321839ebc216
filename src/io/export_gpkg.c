/* GeoPackage 1.3 (OGC 12-128r17): a table a layer, in the job's own coordinates, and one with what the file
 * is about. Made in memory by SQLite, which a GeoPackage is.
 *
 * Elevations stand in the geometries' z, in the job's unit and vertical datum: the standard has no place for
 * either but words. A local grid is the standard's "undefined Cartesian" system, -1.
 */
#include "base/crs.h"
#include "base/sql.h"
#include "base/str.h"
#include "base/time.h"
#include "io/features.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "export.h"

#define LOCAL (-1)
#define WORLD 4326

struct making {
	const struct export *e;
	const struct features *f;
	struct sb_sql *db;
	int srs;
	char time[SB_TIME_TEXT]; /* of the export: the same job at the same time gives the same bytes */
	struct sb_err *err;
};

/* ---- the standard's own tables ---- */

static const char tables[] =
	"PRAGMA application_id = 1196444487;" /* 'GPKG' */
	"PRAGMA user_version = 10300;"
	"CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT NOT NULL, srs_id INTEGER NOT NULL PRIMARY KEY,"
	" organization TEXT NOT NULL, organization_coordsys_id INTEGER NOT NULL, definition TEXT NOT NULL,"
	" description TEXT);"
	"CREATE TABLE gpkg_contents (table_name TEXT NOT NULL PRIMARY KEY, data_type TEXT NOT NULL,"
	" identifier TEXT UNIQUE, description TEXT DEFAULT '', last_change DATETIME NOT NULL DEFAULT"
	" (strftime('%Y-%m-%dT%H:%M:%fZ','now')), min_x DOUBLE, min_y DOUBLE, max_x DOUBLE, max_y DOUBLE,"
	" srs_id INTEGER, CONSTRAINT fk_gc_r_srs_id FOREIGN KEY (srs_id) REFERENCES"
	" gpkg_spatial_ref_sys(srs_id));"
	"CREATE TABLE gpkg_geometry_columns (table_name TEXT NOT NULL, column_name TEXT NOT NULL,"
	" geometry_type_name TEXT NOT NULL, srs_id INTEGER NOT NULL, z TINYINT NOT NULL, m TINYINT NOT NULL,"
	" CONSTRAINT pk_geom_cols PRIMARY KEY (table_name, column_name), CONSTRAINT uk_gc_table_name UNIQUE"
	" (table_name), CONSTRAINT fk_gc_tn FOREIGN KEY (table_name) REFERENCES gpkg_contents(table_name),"
	" CONSTRAINT fk_gc_srs FOREIGN KEY (srs_id) REFERENCES gpkg_spatial_ref_sys (srs_id));"
	"INSERT INTO gpkg_spatial_ref_sys VALUES"
	" ('Undefined Cartesian', -1, 'NONE', -1, 'undefined', 'undefined Cartesian coordinate reference system'),"
	" ('Undefined geographic', 0, 'NONE', 0, 'undefined', 'undefined geographic coordinate reference system'),"
	" ('WGS 84', 4326, 'EPSG', 4326, 'GEOGCS[\"WGS 84\",DATUM[\"WGS_1984\",SPHEROID[\"WGS 84\",6378137,"
	"298.257223563,AUTHORITY[\"EPSG\",\"7030\"]],AUTHORITY[\"EPSG\",\"6326\"]],PRIMEM[\"Greenwich\",0,"
	"AUTHORITY[\"EPSG\",\"8901\"]],UNIT[\"degree\",0.0174532925199433,AUTHORITY[\"EPSG\",\"9122\"]],"
	"AUTHORITY[\"EPSG\",\"4326\"]]', 'longitude and latitude on the WGS 84 ellipsoid');"
	"CREATE TABLE about (id INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, key TEXT, words TEXT);";

static int put_system(struct making *m)
{
	struct sb_crs *crs = NULL;
	struct sb_str wkt = { 0 };

	m->srs = LOCAL;
	if (sb_crs_open(m->e->job->crs, &crs, m->err))
		return -1;
	int status = 0;
	if (!sb_crs_is_local(crs)) {
		const struct crs_about *about = sb_crs_about(crs);
		m->srs = (int)strtol(about->code + strlen("EPSG:"), NULL, 10);
		status = sb_crs_wkt(crs, &wkt, m->err);
		struct sb_query *q = sb_sql_prepare(m->db,
			"INSERT OR IGNORE INTO gpkg_spatial_ref_sys VALUES (:name, :id, 'EPSG', :id, :wkt, :area)");
		sb_sql_bind_text(q, ":name", about->name);
		sb_sql_bind_int(q, ":id", m->srs);
		sb_sql_bind_text(q, ":wkt", sb_str_get(&wkt));
		sb_sql_bind_text(q, ":area", about->area);
		status = sb_sql_run(q, status ? NULL : m->err) || status ? -1 : 0;
	}
	sb_str_clear(&wkt);
	sb_crs_close(crs);
	return status;
}

/* ---- geometries ---- */

static void put_bytes(struct sb_str *to, uint64_t value, int size)
{
	for (int i = 0; i < size; i++) {
		char byte = (char)(unsigned char)(value >> (8 * i));
		sb_str_append(to, &byte, 1);
	}
}

static void put_double(struct sb_str *to, double value)
{
	uint64_t bits;

	memcpy(&bits, &value, sizeof bits);
	put_bytes(to, bits, 8);
}

/* "GP", version 0, flags (bit 0 little-endian, bits 1-3 envelope: 1 xy), system, envelope, then ISO WKB. */
static void put_geometry(
	const struct making *m, const struct feature *f, const double box[4], struct sb_str *to)
{
	const struct feature_place *p = m->f->places + f->first;
	bool line = f->count > 1;

	sb_str_append(to, "GP", 2);
	put_bytes(to, 0, 1);
	put_bytes(to, line ? 3 : 1, 1);
	put_bytes(to, (uint32_t)m->srs, 4);
	for (int i = 0; i < 4 && line; i++)
		put_double(to, box[i]);
	put_bytes(to, 1, 1);
	put_bytes(to, line ? 1002 : 1001, 4);
	if (line)
		put_bytes(to, f->count, 4);
	for (size_t i = 0; i < f->count; i++) {
		put_double(to, p[i].e);
		put_double(to, p[i].n);
		put_double(to, p[i].z);
	}
}

/* min x, max x, min y, max y; of a feature, or widened by it. */
static void widen(const struct features *all, const struct feature *f, double box[4])
{
	for (size_t i = 0; i < f->count; i++) {
		const struct feature_place *p = &all->places[f->first + i];
		box[0] = fmin(box[0], p->e);
		box[1] = fmax(box[1], p->e);
		box[2] = fmin(box[2], p->n);
		box[3] = fmax(box[3], p->n);
	}
}

static const double nowhere[4] = { HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL };

/* ---- layers ---- */

static const char *type_name(enum feature_geometry g)
{
	return g == GEOMETRY_POINT ? "POINT" : g == GEOMETRY_LINE ? "LINESTRING" : "GEOMETRY";
}

static int make_table(struct making *m, const struct feature_sort *sort)
{
	static const char *const types[] = { "TEXT", "INTEGER", "DOUBLE" };
	struct sb_str sql = { 0 };

	sb_str_add(&sql, "CREATE TABLE \"%s\" (fid INTEGER PRIMARY KEY AUTOINCREMENT NOT NULL, geom %s",
		sort->name, type_name(sort->geometry));
	for (size_t i = 0; i < sort->field_count; i++)
		sb_str_add(&sql, ", \"%s\" %s", sort->fields[i].name, types[sort->fields[i].type]);
	sb_str_add(&sql, ")");
	int status = sb_sql_do(m->db, sb_str_get(&sql), m->err);
	sb_str_clear(&sql);
	return status;
}

static void insert_words(const struct feature_sort *sort, struct sb_str *sql)
{
	sb_str_add(sql, "INSERT INTO \"%s\" VALUES (NULL, :geom", sort->name);
	for (size_t i = 0; i < sort->field_count; i++)
		sb_str_add(sql, ", :%s", sort->fields[i].name);
	sb_str_add(sql, ")");
}

static int put_feature(
	struct making *m, const struct feature_sort *sort, const struct feature *f, const char *sql)
{
	struct sb_query *q = sb_sql_kept(m->db, sql);
	struct sb_str blob = { 0 };
	double box[4];

	memcpy(box, nowhere, sizeof box);
	widen(m->f, f, box);
	if (f->count)
		put_geometry(m, f, box, &blob);
	if (f->count)
		sb_sql_bind_bytes(q, ":geom", sb_str_get(&blob), blob.length);
	else
		sb_sql_bind_text(q, ":geom", NULL);
	for (size_t i = 0; i < sort->field_count; i++) {
		const struct feature_value *v = &m->f->values[f->values + i];
		char name[64];
		snprintf(name, sizeof name, ":%s", sort->fields[i].name);
		if (sort->fields[i].type == FEATURE_TEXT)
			sb_sql_bind_text(q, name, v->given ? v->text : NULL);
		else if (sort->fields[i].type == FEATURE_WHOLE && v->given)
			sb_sql_bind_int(q, name, (int64_t)v->number);
		else
			sb_sql_bind_real(q, name, v->given ? v->number : (double)NAN);
	}
	sb_str_clear(&blob);
	return sb_sql_run(q, m->err);
}

static int list_layer(struct making *m, const struct feature_sort *sort, const double box[4])
{
	struct sb_query *q = sb_sql_prepare(m->db,
		"INSERT INTO gpkg_contents VALUES (:name, 'features', :name, :words, :time, :a, :c, :b, :d, :srs)");
	char words[300];
	const char *unit = sb_unit_long(m->e->job->unit);

	snprintf(words, sizeof words, "%s. Lengths and elevations in %s, elevations above %.100s.",
		sort->help, unit, m->e->job->vertical_datum);
	sb_sql_bind_text(q, ":name", sort->name);
	sb_sql_bind_text(q, ":words", words);
	sb_sql_bind_text(q, ":time", m->time);
	sb_sql_bind_real(q, ":a", box[0]);
	sb_sql_bind_real(q, ":b", box[1]);
	sb_sql_bind_real(q, ":c", box[2]);
	sb_sql_bind_real(q, ":d", box[3]);
	sb_sql_bind_int(q, ":srs", m->srs);
	if (sb_sql_run(q, m->err))
		return -1;
	q = sb_sql_prepare(
		m->db, "INSERT INTO gpkg_geometry_columns VALUES (:name, 'geom', :type, :srs, 1, 0)");
	sb_sql_bind_text(q, ":name", sort->name);
	sb_sql_bind_text(q, ":type", type_name(sort->geometry));
	sb_sql_bind_int(q, ":srs", m->srs);
	return sb_sql_run(q, m->err);
}

static int put_layer(struct making *m, enum feature_layer layer)
{
	const struct feature_sort *sort = &m->f->sorts[layer];
	struct sb_str sql = { 0 };
	double box[4];
	int status = make_table(m, sort);

	memcpy(box, nowhere, sizeof box);
	insert_words(sort, &sql);
	for (size_t i = 0; i < m->f->count && status == 0; i++)
		if (m->f->list[i].layer == layer) {
			widen(m->f, &m->f->list[i], box);
			status = put_feature(m, sort, &m->f->list[i], sb_str_get(&sql));
		}
	sb_str_clear(&sql);
	return status || list_layer(m, sort, box) ? -1 : 0;
}

/* ---- what it is about ---- */

static int put_about(struct making *m)
{
	struct about_line notes[SB_ABOUT_LINES];
	size_t count = sb_about_lines(m->e->job, m->e->about, notes);

	for (size_t i = 0; i < count; i++) {
		struct sb_query *q = sb_sql_kept(m->db, "INSERT INTO about VALUES (NULL, :key, :words)");
		sb_sql_bind_text(q, ":key", notes[i].key);
		sb_sql_bind_text(q, ":words", notes[i].text);
		if (sb_sql_run(q, m->err))
			return -1;
	}
	struct sb_query *q = sb_sql_prepare(m->db,
		"INSERT INTO gpkg_contents VALUES ('about', 'attributes', 'about',"
		" 'Whose job, units, datum, method, who, when, the job file''s digest, and the caution', :time,"
		" NULL, NULL, NULL, NULL, 0)");
	sb_sql_bind_text(q, ":time", m->time);
	return sb_sql_run(q, m->err);
}

static int make(struct making *m)
{
	if (sb_sql_script(m->db, tables, m->err) || sb_sql_begin(m->db, "the export", m->err))
		return -1;
	int status = put_system(m);
	for (int layer = 0; layer < LAYERS && status == 0; layer++)
		status = put_layer(m, (enum feature_layer)layer);
	if (status || put_about(m)) {
		sb_sql_rollback(m->db);
		return -1;
	}
	return sb_sql_commit(m->db, m->err);
}

int export_gpkg(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct features f;
	struct making m = { .e = e, .f = &f, .err = err };

	if (sb_sql_open(NULL, &(struct sql_options){ .mode = SQL_MEMORY }, &m.db, err))
		return -1;
	sb_time_iso(e->about->at_ms, m.time); /* with milliseconds, as the standard wants it */
	sb_features_make(e, PLANE_MAP, &f);
	int status = make(&m) || sb_sql_image(m.db, out, err) ? -1 : 0;
	sb_features_clear(&f);
	sb_sql_close(m.db);
	return status;
}
