/* What maps and drawings are made of, and that nothing typed by anybody can break a file that is made of it.
 */
#include "io/features.h"

#include "base/mem.h"
#include "io/bore.h"

#include <sqlite3.h>

static struct job job;
static struct solution s;
static struct features f;
static struct sb_str text;
static const struct about about = { "tern-slough.bore", "00ff", "E. Engineer", BORE_CLOCK, "sagbend 1.0" };
static const struct export whole = { .job = &job, .solution = &s, .about = &about };

static int begin(void **state)
{
	(void)state;
	bore_tern(&job);
	bore_solve(&job, &s);
	return 0;
}

static int tidy(void **state)
{
	(void)state;
	sb_features_clear(&f);
	sb_str_clear(&text);
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static size_t count_of(enum feature_layer layer, const struct feature **first)
{
	size_t count = 0;

	for (size_t i = 0; i < f.count; i++)
		if (f.list[i].layer == layer && count++ == 0)
			*first = &f.list[i];
	return count;
}

static void every_row_is_a_joint_and_the_line_has_a_vertex_for_each_that_was_read(void **state)
{
	(void)state;
	const struct feature *first = NULL;
	sb_features_make(&whole, PLANE_MAP, &f);
	assert_int_equal(count_of(LAYER_JOINTS, &first), s.path.count + s.path.old_count);
	assert_true(count_of(LAYER_PATH, &first) >= 1);
	assert_int_equal(first->count, s.path.on_count);
	double e, n, z;
	sb_frame_grid(&s.frame, sb_path_back(&s.path, 0)->at, &e, &n, &z);
	const struct feature_place *end = &f.places[first->first + first->count - 1];
	assert_near(end->e, e, 1e-9);
	assert_near(end->n, n, 1e-9);
	assert_near(end->z, z, 1e-9);
}

/* Chords of the design line leave its curves by at most 5 mm: halfway between two vertices is the furthest.
 */
static void the_design_line_has_as_many_vertices_as_its_curves_need(void **state)
{
	(void)state;
	const struct feature *first = NULL;
	sb_features_make(&whole, PLANE_MAP, &f);
	assert_int_equal(count_of(LAYER_DESIGN, &first), 1);
	for (size_t i = 0; i + 1 < first->count; i++) {
		const struct feature_place *a = &f.places[first->first + i], *b = a + 1;
		struct vec3 middle =
			sb_frame_ground(&s.frame, (a->e + b->e) / 2, (a->n + b->n) / 2, (a->z + b->z) / 2);
		struct deviation d = sb_deviation(&s.design, middle, NULL, 0);
		assert_true(d.square_m < 0.0051);
	}
}

static void the_corridor_lies_its_limits_beside_the_design(void **state)
{
	(void)state;
	const struct feature *first = NULL;
	sb_features_make(&whole, PLANE_MAP, &f);
	assert_true(count_of(LAYER_CORRIDOR, &first) >= 4);
	for (size_t i = 0; i < f.count; i++) {
		if (f.list[i].layer != LAYER_CORRIDOR)
			continue;
		const char *side = f.values[f.list[i].values].text;
		for (size_t k = 0; k < f.list[i].count; k++) {
			const struct feature_place *p = &f.places[f.list[i].first + k];
			struct vec3 at = sb_frame_ground(&s.frame, p->e, p->n, p->z);
			struct deviation d = sb_deviation(&s.design, at, NULL, 0);
			struct corridor_limits l = sb_corridor_at(&s.corridor, d.station_m);
			double want = *side == 'u' ? l.up_m
				: *side == 'd'	   ? -l.down_m
				: *side == 'l'	   ? -l.left_m
						   : l.right_m;
			/* at the very step of a limit either side of it is right */
			struct corridor_limits near = sb_corridor_at(&s.corridor, d.station_m + 1e-5);
			double also = *side == 'u' ? near.up_m
				: *side == 'd'	   ? -near.down_m
				: *side == 'l'	   ? -near.left_m
						   : near.right_m;
			double got = *side == 'u' || *side == 'd' ? d.height_m : d.offset_m;
			assert_true(fabs(got - want) < 1e-6 || fabs(got - also) < 1e-6);
		}
	}
}

static void in_the_profile_places_are_station_and_elevation(void **state)
{
	(void)state;
	const struct feature *first = NULL;
	sb_features_make(&whole, PLANE_PROFILE, &f);
	count_of(LAYER_PATH, &first);
	for (size_t i = 0; i < first->count; i++) {
		const struct row *row = &s.path.rows[s.path.on_path[i]];
		assert_near(f.places[first->first + i].e, sb_frame_typed(&s.frame, row->deviation.station_m),
			1e-6);
		assert_near(f.places[first->first + i].n, sb_frame_typed(&s.frame, row->at.u), 1e-6);
	}
}

static void the_same_job_at_the_same_time_gives_the_same_bytes(void **state)
{
	(void)state;
	for (size_t i = 0; i < sb_format_count; i++) {
		struct sb_str again = { 0 };
		struct sb_err err = { 0 };
		text.length = 0;
		if (sb_formats[i].write(&whole, &text, &err) || sb_formats[i].write(&whole, &again, &err))
			fail_msg("%s: %s", sb_formats[i].name, err.text);
		if (text.length != again.length || memcmp(text.text, again.text, text.length) != 0)
			fail_msg("%s differs", sb_formats[i].name);
		sb_str_clear(&again);
	}
}

static const char *written(const char *format)
{
	struct sb_err err = { 0 };

	text.length = 0;
	if (sb_format(format)->write(&whole, &text, &err))
		fail_msg("%s: %s", format, err.text);
	return sb_str_get(&text);
}

/* A name that is a piece of every format. */
static void nothing_that_was_typed_breaks_a_file(void **state)
{
	(void)state;
	sb_copy(job.obstacles[0].name, sizeof job.obstacles[0].name,
		"duct\r\n0\r\nEOF\r\n</CgPoint>\"'&\\%%d \xc3\xa9\x01");
	sb_copy(job.name, sizeof job.name, "Tern \"<Slough>\" & Co\n  0\nEOF");
	const char *dxf = written("dxf");
	size_t lines = 0, ends = 0;
	for (const char *at = dxf; *at; lines++) {
		size_t length = strcspn(at, "\r\n");
		ends += lines % 2 == 1 && length == 3 && memcmp(at, "EOF", 3) == 0;
		if (lines % 2 == 0)
			assert_true(strspn(at, "0123456789") == length && length > 0);
		for (size_t i = 0; i < length; i++)
			assert_true(at[i] >= ' ' && at[i] < 127);
		at += length + strspn(at + length, "\r\n");
	}
	assert_int_equal(lines % 2, 0);
	assert_int_equal(ends, 1);
	const char *xml = written("landxml");
	assert_non_null(strstr(xml, "name=\"Tern &quot;&lt;Slough&gt;&quot; &amp; Co"));
	assert_null(strstr(xml, "<Slough>"));
	sqlite3 *db;
	sqlite3_stmt *q;
	assert_int_equal(sqlite3_open(":memory:", &db), SQLITE_OK);
	written("geojson");
	sqlite3_prepare_v2(db, "SELECT json_valid(?)", -1, &q, NULL);
	sqlite3_bind_text(q, 1, text.text, (int)text.length, SQLITE_STATIC);
	assert_int_equal(sqlite3_step(q), SQLITE_ROW);
	assert_int_equal(sqlite3_column_int(q, 0), 1);
	sqlite3_finalize(q);
	sqlite3_close(db);
}

static void an_empty_log_has_its_design_all_the_same(void **state)
{
	(void)state;
	job.joint_count = job.in_ground = job.reading_count = job.leg_count = 0;
	sb_solution_clear(&s);
	bore_solve(&job, &s);
	const struct feature *first = NULL;
	sb_features_make(&whole, PLANE_MAP, &f);
	assert_int_equal(count_of(LAYER_PATH, &first), 0);
	assert_int_equal(count_of(LAYER_JOINTS, &first), 1); /* the entry */
	assert_int_equal(count_of(LAYER_DESIGN, &first), 1);
	for (size_t i = 0; i < sb_format_count; i++) {
		struct sb_err err = { 0 };
		text.length = 0;
		if (sb_formats[i].write(&whole, &text, &err))
			fail_msg("%s: %s", sb_formats[i].name, err.text);
		assert_true(text.length > 0);
	}
}

int main(void)
{
#define fresh(test) cmocka_unit_test_setup_teardown(test, begin, tidy)
	const struct CMUnitTest tests[] = {
		fresh(every_row_is_a_joint_and_the_line_has_a_vertex_for_each_that_was_read),
		fresh(the_design_line_has_as_many_vertices_as_its_curves_need),
		fresh(the_corridor_lies_its_limits_beside_the_design),
		fresh(in_the_profile_places_are_station_and_elevation),
		fresh(the_same_job_at_the_same_time_gives_the_same_bytes),
		fresh(nothing_that_was_typed_breaks_a_file),
		fresh(an_empty_log_has_its_design_all_the_same),
	};
	return cmocka_run_group_tests(tests, NULL, NULL) ? 1 : 0;
}
