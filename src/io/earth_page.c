/* The page that `sagbend earth` prints, and the same as JSON. */
#include "io/earth.h"

#include "base/time.h"
#include "geom/angle.h"
#include "io/json.h"
#include "io/site.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#define LABEL 18 /* columns */
#define WIDTH 80

static const char local_steel[] =
	"The model is of the earth's core and of the map: it knows nothing of steel nearby, of iron in the ground, of "
	"power lines, or of magnetic storms. Check it against the tool itself, away from steel.";

/* ---- for people ---- */

/* Bytes of the text that fit on what is left of a line. */
static size_t fitting(const char *text)
{
	size_t bytes = 0, cut = 0, columns = 0;
	unsigned c;

	while (text[bytes] && columns < WIDTH - LABEL) {
		if (text[bytes] == ' ')
			cut = bytes;
		bytes += sb_utf8_next(text + bytes, &c);
		columns++;
	}
	return text[bytes] == '\0' || text[bytes] == ' ' || cut == 0 ? bytes : cut;
}

/* A label and a sentence, wrapped beside it. */
__attribute__((format(printf, 3, 4))) static void put(
	struct sb_str *out, const char *label, const char *format, ...)
{
	char text[640];
	va_list list;

	va_start(list, format);
	vsnprintf(text, sizeof text, format, list);
	va_end(list);
	for (const char *at = text; *at; label = "") {
		size_t bytes = fitting(at);
		sb_str_add(out, "%-*s%.*s\n", LABEL, label, (int)bytes, at);
		at += bytes;
		at += strspn(at, " ");
	}
}

static void put_place(struct sb_str *out, const struct earth_page *page, const struct earth *e)
{
	double latitude = sb_deg(e->place.latitude_rad), longitude = sb_deg(e->place.longitude_rad);

	assert(page->crs != NULL || !e->mapped);
	if (e->mapped)
		put(out, e->name[0] ? e->name : "place", "easting %.3f, northing %.3f %s", e->easting,
			e->northing, sb_unit_long(page->crs->unit));
	put(out, e->mapped ? "" : "place", "latitude %.6f %s, longitude %.6f %s (WGS84), height %.1f m",
		fabs(latitude), latitude < 0 ? "south" : "north", fabs(longitude),
		longitude < 0 ? "west" : "east", e->height_m);
}

static void put_magnet(struct sb_str *out, const struct magnet *m)
{
	const struct magnet_field *f = &m->field, *y = &m->yearly, *s = &m->sigma;
	char words[SB_EARTH_WORDS];

	sb_earth_declination_words(f->declination_rad, words);
	put(out, "declination", "%s, give or take %.2f; it moves %.2f degrees %s a year", words,
		sb_deg(s->declination_rad), fabs(sb_deg(y->declination_rad)),
		y->declination_rad < 0 ? "west" : "east");
	put(out, "dip", "%.2f degrees %s, give or take %.2f; %.2f %s a year", fabs(sb_deg(f->dip_rad)),
		f->dip_rad < 0 ? "up from level" : "down from level", sb_deg(s->dip_rad),
		fabs(sb_deg(y->dip_rad)), (y->dip_rad < 0) == (f->dip_rad < 0) ? "more" : "less");
	put(out, "total field", "%.0f nT, give or take %.0f; %.0f %s a year", f->total_nt, s->total_nt,
		fabs(y->total_nt), y->total_nt < 0 ? "less" : "more");
	put(out, "level part", "%.0f nT, give or take %.0f; %.0f %s a year", f->level_nt, s->level_nt,
		fabs(y->level_nt), y->level_nt < 0 ? "less" : "more");
}

static void put_grid(struct sb_str *out, const struct earth *e)
{
	char words[SB_EARTH_WORDS];

	sb_earth_convergence_words(e->grid.convergence_rad, words);
	put(out, "convergence", "%s", words);
	put(out, "point scale", "%.8f, grid over ellipsoid", e->grid.scale);
	put(out, "height factor", "%.8f, ellipsoid over ground", e->grid.height_factor);
	put(out, "combined factor", "%.8f: grid distance = ground distance x this", e->grid.combined);
	sb_earth_turn_words(e->magnet.field.declination_rad, e->grid.convergence_rad, words);
	put(out, "magnetic to grid", "%s; give or take %.2f", words, sb_deg(e->magnet.sigma.declination_rad));
}

static const char settle[] = ". Settle which holds before drilling";

/* What the job has, held against what is found at its entry. */
static void put_angle_of_job(
	struct sb_str *out, const char *what, const struct number *typed, double found_rad, double limit)
{
	double apart = fabs(sb_deg(sb_wrap_half(sb_rad(typed->value) - found_rad)));

	if (!sb_number_given(typed))
		put(out, "", "%s: none; %.2f is found at the entry", what, sb_deg(found_rad));
	else
		put(out, "", "%s: %s; %.2f is found at the entry, %.2f degrees apart%s", what, typed->text,
			sb_deg(found_rad), apart, apart > limit ? settle : "");
}

static void put_line_of_job(struct sb_str *out, const struct job *job)
{
	struct comparison all[HELD_COUNT];
	struct frame f;

	if (sb_frame_init(job, &f, NULL))
		return;
	sb_site_compare(job, &f, NULL, all);
	if (all[HELD_LINE].known)
		put(out, "", "tool on the line: %s%s", all[HELD_LINE].words,
			all[HELD_LINE].level == LEVEL_OK ? "" : settle);
}

static void put_job(struct sb_str *out, const struct earth_page *page)
{
	const struct job *job = page->job;
	double found = (page->points[0].grid.combined + page->points[1].grid.combined) / 2;
	double apart = fabs(job->scale_factor.value - found);

	put(out, "the job has",
		"these of its own, of its sheet or changed since; they are what it computes with");
	put_angle_of_job(out, "declination", &job->declination, page->points[0].magnet.field.declination_rad,
		SB_AZIMUTH_APART);
	put_angle_of_job(out, "convergence", &job->convergence, page->points[0].grid.convergence_rad,
		SB_SITE_CONVERGENCE_APART);
	if (sb_number_given(&job->scale_factor))
		put(out, "",
			"scale factor: %s; %.8f is found, the mean of both ends: %.0f mm apart in a kilometre%s",
			job->scale_factor.text, found, apart * 1e6,
			apart > SB_SITE_SCALE_APART ? settle : "");
	put_line_of_job(out, job);
	sb_str_add(out, "\n");
}

static void put_warnings(struct sb_str *out, const struct earth_page *page)
{
	for (size_t i = 0; i < page->count; i++)
		for (size_t k = 0; k < page->points[i].warning_count; k++) {
			const char *text = page->points[i].warnings[k];
			bool said = i > 0 && k < page->points[0].warning_count &&
				sb_same(text, page->points[0].warnings[k]);
			if (!said)
				put(out, "note", "%s", text);
		}
}

void sb_earth_text(const struct earth_page *page, struct sb_str *out)
{
	char day[SB_TIME_TEXT];

	sb_time_day(page->ms, day);
	if (page->job)
		put(out, "job", "%s", page->job->name);
	put(out, "day", "%s", day);
	if (page->crs)
		put(out, "map", "%s, %s", page->crs->code, page->crs->name);
	sb_str_add(out, "\n");
	for (size_t i = 0; i < page->count; i++) {
		put_place(out, page, &page->points[i]);
		put_magnet(out, &page->points[i].magnet);
		if (page->points[i].mapped)
			put_grid(out, &page->points[i]);
		sb_str_add(out, "\n");
	}
	if (page->job)
		put_job(out, page);
	put_warnings(out, page);
	put(out, "from",
		"%s, the World Magnetic Model of NOAA and the British Geological Survey for 2025.0 to 2030.0; give "
		"or take is its one sigma",
		SB_MAGNET_MODEL);
	if (page->crs)
		put(out, "",
			"the projection by PROJ with its table %s; heights are taken for heights above the ellipsoid",
			page->crs->table);
	put(out, "caution", "%s", local_steel);
}

/* ---- as JSON ---- */

static void json_element(struct sb_json *j, const char *name, double value, double sigma, double yearly)
{
	sb_json_object(j, name);
	sb_json_fixed(j, "value", value, 6);
	sb_json_fixed(j, "sigma", sigma, 6);
	sb_json_fixed(j, "yearly", yearly, 6);
	sb_json_end(j);
}

static void json_magnet(struct sb_json *j, const struct magnet *m)
{
	static const char *const zones[] = { "clear", "caution", "blackout" };
	const struct magnet_field *f = &m->field, *s = &m->sigma, *y = &m->yearly;

	json_element(j, "declination", sb_deg(f->declination_rad), sb_deg(s->declination_rad),
		sb_deg(y->declination_rad));
	json_element(j, "dip", sb_deg(f->dip_rad), sb_deg(s->dip_rad), sb_deg(y->dip_rad));
	json_element(j, "total_field", f->total_nt, s->total_nt, y->total_nt);
	json_element(j, "level_field", f->level_nt, s->level_nt, y->level_nt);
	json_element(j, "north_field", f->north_nt, s->north_nt, y->north_nt);
	json_element(j, "east_field", f->east_nt, s->east_nt, y->east_nt);
	json_element(j, "down_field", f->down_nt, s->down_nt, y->down_nt);
	sb_json_text(j, "zone", zones[m->zone]);
}

static void json_grid(struct sb_json *j, const struct earth *e)
{
	sb_json_fixed(j, "convergence", sb_deg(e->grid.convergence_rad), 8);
	sb_json_fixed(j, "scale", e->grid.scale, 10);
	sb_json_fixed(j, "height_factor", e->grid.height_factor, 10);
	sb_json_fixed(j, "combined_factor", e->grid.combined, 10);
	sb_json_object(j, "magnetic_to_grid");
	sb_json_fixed(j, "value",
		sb_deg(sb_earth_turn(e->magnet.field.declination_rad, e->grid.convergence_rad)), 6);
	sb_json_fixed(j, "sigma", sb_deg(e->magnet.sigma.declination_rad), 6);
	sb_json_end(j);
	sb_json_fixed(j, "position_accuracy", e->grid.accuracy_m, 3);
}

static void json_point(struct sb_json *j, const struct earth *e)
{
	sb_json_object(j, NULL);
	sb_json_text_or_null(j, "name", e->name);
	sb_json_exact(j, "easting", e->mapped ? e->easting : (double)NAN);
	sb_json_exact(j, "northing", e->mapped ? e->northing : (double)NAN);
	sb_json_fixed(j, "height_m", e->height_m, 6);
	sb_json_fixed(j, "latitude", sb_deg(e->place.latitude_rad), 10);
	sb_json_fixed(j, "longitude", sb_deg(e->place.longitude_rad), 10);
	json_magnet(j, &e->magnet);
	if (e->mapped)
		json_grid(j, e);
	sb_json_array(j, "warnings");
	for (size_t i = 0; i < e->warning_count; i++)
		sb_json_text(j, NULL, e->warnings[i]);
	sb_json_end(j);
	sb_json_end(j);
}

static void json_crs(struct sb_json *j, const struct crs_about *crs)
{
	if (crs == NULL) {
		sb_json_null(j, "crs");
		return;
	}
	sb_json_object(j, "crs");
	sb_json_text(j, "code", crs->code);
	sb_json_text(j, "name", crs->name);
	sb_json_text_or_null(j, "datum", crs->datum);
	sb_json_text(j, "unit", sb_unit_name(crs->unit));
	sb_json_text_or_null(j, "table", crs->table);
	sb_json_end(j);
}

static void json_job(struct sb_json *j, const struct job *job)
{
	if (job == NULL) {
		sb_json_null(j, "job");
		return;
	}
	sb_json_object(j, "job");
	sb_json_text(j, "name", job->name);
	sb_json_typed(j, "declination", &job->declination);
	sb_json_typed(j, "convergence", &job->convergence);
	sb_json_typed(j, "scale_factor", &job->scale_factor);
	sb_json_end(j);
}

void sb_earth_json(const struct earth_page *page, struct sb_str *out)
{
	struct sb_json j = { 0 };
	char day[SB_TIME_TEXT];

	sb_time_day(page->ms, day);
	sb_json_object(&j, NULL);
	sb_json_text(&j, "model", SB_MAGNET_MODEL);
	sb_json_exact(&j, "model_from", SB_MAGNET_EPOCH);
	sb_json_exact(&j, "model_to", SB_MAGNET_END);
	sb_json_text(&j, "date", day);
	sb_json_fixed(&j, "year", page->points[0].year, 6);
	json_crs(&j, page->crs);
	json_job(&j, page->job);
	sb_json_array(&j, "points");
	for (size_t i = 0; i < page->count; i++)
		json_point(&j, &page->points[i]);
	sb_json_end(&j);
	sb_json_text(&j, "caution", local_steel);
	sb_json_end(&j);
	sb_str_append(out, sb_str_get(&j.text), j.text.length);
	sb_str_clear(&j.text);
}
