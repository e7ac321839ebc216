#include "draw/profile.h"

#include "draw/crossing.h"
#include "draw/picture.h"

#include <locale.h>
#include <math.h>

/* Every test opens with a job, its solution and a scene, and closes them. */
struct drawn {
	struct job job;
	struct solution s;
	struct scene scene;
};

static struct drawn open_drawn(void (*make)(struct job *, struct solution *))
{
	struct drawn d = { 0 };

	make(&d.job, &d.s);
	sb_scene_init(&d.scene);
	return d;
}

static void close_drawn(struct drawn *d)
{
	sb_scene_clear(&d->scene);
	sb_solution_clear(&d->s);
	sb_job_clear(&d->job);
}

static void sheet_only(struct job *job, struct solution *s)
{
	crossing_sheet(job);
	*s = (struct solution){ 0 };
	jobs_solve(job, s);
}

static void one_joint(struct job *job, struct solution *s)
{
	crossing_sheet(job);
	crossing_drill(job, 1, 0.5, 0);
	*s = (struct solution){ 0 };
	jobs_solve(job, s);
}

static void in_the_curve(struct job *job, struct solution *s)
{
	crossing_sheet(job);
	crossing_drill(job, 16, 0.1, 0);
	*s = (struct solution){ 0 };
	jobs_solve(job, s);
}

static void draw_whole(struct drawn *d)
{
	struct draw_window w = sb_window_whole(&d->s, 80);

	sb_profile_scene(&d->job, &d->s, &w, NULL, &d->scene);
}

static struct draw_window near_bit(const struct drawn *d)
{
	return sb_window_near(&d->s, 250 * FOOT, 120 * FOOT, 200);
}

static void the_whole_crossing_is_readable_in_forty_columns(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);

	(void)state;
	draw_whole(&d);
	assert_picture(&d.scene, 40, 8, RASTER_PLAIN,
		"     entry                         exit\n"
		"500 >*===#gas main             ========<\n"
		"     **  # ==   12 ft right: pile    --\n"
		"      **    =========  ======    # --\n"
		"450     **           ==           --\n"
		"         *************O~~~~-------\n"
		"\n"
		"x10 |0+00          |10+00        |20+00\n");
	assert_picture(&d.scene, 40, 8, RASTER_BLOCKS,
		"     entry                         exit\n"
		"500 >██▀▀█▀▄                   ▄▄▄▄▄▄▄▄<\n"
		"     ▀█▄ █ gas main          ▄▀\n"
		"      ▀██   ▀▀▀▄▄▄▄▄▄  ▄▄▄▄▄▀    █ ▄█\n"
		"450     ▀█▄     12 ft right: pile ▄▀\n"
		"         ██▄▄▄▄▄▄▄▄▄▄▄O ▄▄▄▄  ▄▄▀▀\n"
		"           ▀▀▀▀▀▀▀▀▀▀▀▀\n"
		"x10 |0+00          |10+00        |20+00\n");
	close_drawn(&d);
}

static void the_whole_crossing_in_braille_tells_ground_from_design(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);

	(void)state;
	draw_whole(&d);
	assert_picture(&d.scene, 54, 9, RASTER_BRAILLE,
		"      entry                                     exit\n"
		"500  >⣏⠉⠉⠉⠉⠍⠉⠙⡄                          ⢀⠔⠒⠒⠒⠒⠒⠒⠒⠒⠒<\n"
		"      ⠹⣆   ⠃ gas main                  ⡠⠊⠁         ⠊\n"
		"       ⠘⣧⡀     ⠈⠒⠤⢄⣀                 ⡠⠊     ⢀    ⡠⠃\n"
		"        ⠈⢷⡀         ⠉⠉⠒⠒⠒⠤⠤⠤⢄⣀⠤⠤⠤⠤⠒⠒⠊          ⢀⠄\n"
		"450       ⠻⣆               12 ft right: pile  ⠐⠁\n"
		"           ⠘⠻⣶⣀⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⣀ ⣀⠤⠐⠁\n"
		"              ⠉⠙⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛O⠉ ⠒⠒\n"
		"x10  |0+00               |10+00             |20+00  ft\n");
	close_drawn(&d);
}

static void near_the_bit_the_corridor_fills_the_picture(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);
	struct draw_window w = near_bit(&d);

	(void)state;
	sb_profile_scene(&d.job, &d.s, &w, NULL, &d.scene);
	assert_picture(&d.scene, 54, 9, RASTER_BRAILLE,
		"445 ⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈\n"
		"\n"
		"       ⢀ ⠄⠐ ⠁⠈\n"
		"    ⠈ ⠁\n"
		"440 ⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉\n"
		"    ⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⣤⣤⣤⣤⣤⣤⣤⠤O ⠤⠤ ⠤⣄ ⣀⣀ ⣀⣀ ⣀⣀\n"
		"\n"
		"435 ⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀\n"
		"x10            |11+00       |12+00        |13+00    ft\n");
	assert_picture(&d.scene, 54, 9, RASTER_PLAIN,
		"445 ..................................................\n"
		"              x\n"
		"      xxxxxxxx\n"
		"    xx\n"
		"440 --------------------------------------------------\n"
		"    *********************************O~~~~~~~~~~~~~~~~\n"
		"\n"
		"435 ..................................................\n"
		"x10            |11+00       |12+00        |13+00    ft\n");
	close_drawn(&d);
}

static void heights_are_drawn_against_a_straight_design(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);
	struct draw_window w = near_bit(&d);

	(void)state;
	sb_profile_heights(&d.job, &d.s, &w, NULL, &d.scene);
	assert_picture(&d.scene, 54, 9, RASTER_BRAILLE,
		"5 high ⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈ ⠁⠈\n"
		"\n"
		"          ⢀ ⠄⠐ ⠁⠈\n"
		"       ⠈ ⠁\n"
		"     0 ⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉ ⠉⠉\n"
		"       ⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠛⠳⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⠶⢦⣤⣤⠤O⠤⠤ ⠤⠤ ⠤⠤ ⠤⣀ ⣀⣀\n"
		"\n"
		" 5 low ⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀ ⡀⢀\n"
		"x10              |11+00       |12+00      |13+00    ft\n");
	const struct stroke *design = picture_stroke(&d.scene, MEANING_DESIGN, 0);
	for (size_t i = 0; i < design->count; i++)
		assert_near(picture_point(&d.scene, design, i).y, 0, 0);
	const struct stroke *bit = picture_stroke(&d.scene, MEANING_BIT, 0);
	assert_near(picture_point(&d.scene, bit, 0).y, d.s.bit.deviation.height_m, 0);
	assert_null(picture_stroke(&d.scene, MEANING_GROUND, 0));
	close_drawn(&d);
}

static void a_reading_that_is_tried_out_is_drawn_beside_the_others(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);
	struct draw_window w = near_bit(&d);
	struct reading r = jobs_reading(&d.job, "", "92.5", "93");
	struct preview p;

	(void)state;
	assert_int_equal(sb_solve_preview(&d.job, &d.s, &r, &p, NULL), 0);
	sb_profile_heights(&d.job, &d.s, &w, &p, &d.scene);
	assert_picture(&d.scene, 54, 9, RASTER_PLAIN,
		"5 high ...............................................\n"
		"                 x\n"
		"         xxxxxxxx\n"
		"       xxx\n"
		"     0 ----------------------------------\?\?-----------\n"
		"       *****************************\?\?O\?\?~~~~~~~~~~~~~\n"
		"\n"
		" 5 low ...............................................\n"
		"x10              |11+00       |12+00      |13+00    ft\n");
	close_drawn(&d);
}

static void curves_are_drawn_within_a_tenth_of_a_dot(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);

	(void)state;
	for (int dots = 40; dots <= 4000; dots *= 10) {
		struct draw_window w = sb_window_whole(&d.s, dots);
		sb_profile_scene(&d.job, &d.s, &w, NULL, &d.scene);
		const struct stroke *line = picture_stroke(&d.scene, MEANING_DESIGN, 0);
		assert_true(line->count >= 5 && line->count < 1000);
		for (size_t i = 1; i < line->count; i++) {
			struct spot a = picture_point(&d.scene, line, i - 1),
				    b = picture_point(&d.scene, line, i);
			struct spot middle = { (a.x + b.x) / 2, (a.y + b.y) / 2 };
			double y = sb_design_at(&d.s.design, middle.x).at.u;
			assert_near(middle.y, y, w.dot_m / 10 * 1.1);
		}
	}
	close_drawn(&d);
}

static void the_path_is_drawn_through_every_reading_and_along_its_arcs(void **state)
{
	struct drawn d = open_drawn(in_the_curve);
	struct draw_window w = sb_window_near(&d.s, 60, 30, 100000);

	(void)state;
	sb_profile_scene(&d.job, &d.s, &w, NULL, &d.scene);
	const struct stroke *line = picture_stroke(&d.scene, MEANING_DRILLED, 0);
	size_t seen = 0;
	for (size_t i = 0; i < d.s.path.on_count; i++) {
		const struct row *row = &d.s.path.rows[d.s.path.on_path[i]];
		for (size_t k = 0; k < line->count; k++) {
			struct spot at = picture_point(&d.scene, line, k);
			seen += at.x == row->deviation.station_m && at.y == row->at.u;
		}
	}
	assert_true(seen >= 60 / (31 * FOOT));
	assert_true(line->count > seen); /* points between readings, on the arcs */
	for (size_t k = 1; k < line->count; k++) {
		double md = d.s.bit.md_m, best = HUGE_VAL;
		struct spot at = picture_point(&d.scene, line, k);
		for (double back = 0; back < 80; back += 0.01) {
			struct vec3 on;
			sb_path_at(&d.s.path, md - back, &on, NULL);
			best = fmin(best, hypot(on.e - at.x, on.u - at.y)); /* due east: station is easting */
		}
		assert_near(best, 0, 0.006);
	}
	close_drawn(&d);
}

static void the_corridor_narrows_in_a_step_where_the_contract_says(void **state)
{
	struct drawn d = open_drawn(sheet_only);
	struct draw_window w = { 1400 * FOOT, 1600 * FOOT, 0.1, true, NULL, NULL, false };

	(void)state;
	sb_profile_heights(&d.job, &d.s, &w, NULL, &d.scene);
	for (size_t side = 0; side < 2; side++) {
		const struct stroke *edge = picture_stroke(&d.scene, MEANING_CORRIDOR, side);
		double sign = side == 0 ? 1 : -1;
		assert_non_null(edge);
		for (size_t i = 0; i < edge->count; i++) {
			struct spot p = picture_point(&d.scene, edge, i);
			bool narrow = p.x > 1500 * FOOT + 1e-6, wide = p.x < 1500 * FOOT - 1e-6;
			if (wide)
				assert_near(p.y, sign * 6 * FOOT, 1e-9);
			if (narrow)
				assert_near(p.y, sign * 3 * FOOT, 1e-9);
		}
		/* the step itself: both limits at 15+00 */
		int at_step = 0;
		for (size_t i = 0; i < edge->count; i++)
			at_step += fabs(picture_point(&d.scene, edge, i).x - 1500 * FOOT) < 1e-6;
		assert_int_equal(at_step, 2);
	}
	close_drawn(&d);
}

static void a_side_without_a_limit_has_no_edge(void **state)
{
	struct drawn d = { 0 };

	(void)state;
	jobs_graded(&d.job); /* up 0, down 4, nothing to the sides */
	jobs_solve(&d.job, &d.s);
	sb_scene_init(&d.scene);
	struct draw_window w = sb_window_whole(&d.s, 100);
	sb_profile_heights(&d.job, &d.s, &w, NULL, &d.scene);
	const struct stroke *up = picture_stroke(&d.scene, MEANING_CORRIDOR, 0);
	assert_near(picture_point(&d.scene, up, 0).y, 0, 1e-12);
	assert_near(picture_point(&d.scene, picture_stroke(&d.scene, MEANING_CORRIDOR, 1), 0).y,
		-4 * 1200.0 / 3937, 1e-9);
	d.s.corridor.general.up_m = HUGE_VAL;
	sb_profile_heights(&d.job, &d.s, &w, NULL, &d.scene);
	assert_non_null(picture_stroke(&d.scene, MEANING_CORRIDOR, 0));
	assert_null(picture_stroke(&d.scene, MEANING_CORRIDOR, 1));
	close_drawn(&d);
}

static void a_withdrawn_stretch_leaves_the_path_where_it_left(void **state)
{
	struct drawn d = { 0 };

	(void)state;
	/* leg 1 to joint 20; back to 15; leg 2 to joint 22; back to 10, which withdraws of both; leg 3 */
	crossing_sheet(&d.job);
	crossing_drill(&d.job, 20, 0.2, 0);
	jobs_withdraw(&d.job, 15);
	crossing_drill(&d.job, 22, -0.4, 0);
	jobs_withdraw(&d.job, 10);
	crossing_drill(&d.job, 14, 0.1, 0);
	jobs_solve(&d.job, &d.s);
	sb_scene_init(&d.scene);
	draw_whole(&d);
	const struct path *p = &d.s.path;
	assert_int_equal(p->old_count, 5 + 5 + 7);
	const struct stroke *first = picture_stroke(&d.scene, MEANING_SUPERSEDED, 0);
	const struct stroke *second = picture_stroke(&d.scene, MEANING_SUPERSEDED, 1);
	const struct stroke *third = picture_stroke(&d.scene, MEANING_SUPERSEDED, 2);
	assert_non_null(third);
	assert_null(picture_stroke(&d.scene, MEANING_SUPERSEDED, 3));
	/* joints 16 to 20 of leg 1, from joint 15 of leg 1, itself withdrawn later */
	assert_near(picture_point(&d.scene, first, 0).x, p->old[9].deviation.station_m, 0);
	assert_int_equal(p->old[9].joint, 15);
	/* joints 11 to 15 of leg 1, from joint 10, which stayed */
	assert_near(picture_point(&d.scene, second, 0).x, p->rows[10].deviation.station_m, 0);
	/* joints 16 to 22 of leg 2, from joint 15 of leg 1 */
	assert_near(picture_point(&d.scene, third, 0).x, p->old[9].deviation.station_m, 0);
	close_drawn(&d);
}

static void obstacles_stand_where_they_cross_with_their_size(void **state)
{
	struct drawn d = open_drawn(sheet_only);

	(void)state;
	draw_whole(&d);
	const struct stroke *main = picture_stroke(&d.scene, MEANING_OBSTACLE, 0);
	assert_int_equal(main->kind, STROKE_ELLIPSE);
	assert_near(picture_point(&d.scene, main, 0).x, 300 * FOOT, 1e-9);
	assert_near(picture_point(&d.scene, main, 0).y, 489 * FOOT, 1e-9);
	assert_near(picture_point(&d.scene, main, 1).x, 1 * FOOT, 1e-9); /* crossed squarely: a circle */
	assert_near(picture_point(&d.scene, main, 2).y, 1 * FOOT, 1e-9);
	const struct stroke *keep = picture_stroke(&d.scene, MEANING_OBSTACLE, 1);
	assert_int_equal(keep->line, LINE_DOTTED);
	assert_near(picture_point(&d.scene, keep, 1).x, 7 * FOOT, 1e-9);
	/* the pile is not on the line: dotted, and says where it is */
	const struct stroke *pile = picture_stroke(&d.scene, MEANING_OBSTACLE, 2);
	assert_int_equal(pile->line, LINE_DOTTED);
	assert_near(picture_point(&d.scene, pile, 0).x, 2000 * FOOT, 1e-9);
	assert_true(picture_says(&d.scene, 110, 18, RASTER_PLAIN, "12 ft right: pile"));
	assert_true(picture_says(&d.scene, 110, 18, RASTER_PLAIN, "gas main"));
	close_drawn(&d);
}

static void a_pipe_crossed_aslant_is_cut_longer(void **state)
{
	struct drawn d = { 0 };

	(void)state;
	crossing_settings(&d.job);
	crossing_tables(&d.job);
	/* 30 degrees to the line: twice as long as high; 5 degrees: no more than at 15 */
	CROSSING_ROW(&d.job, "obstacles", "slant", "", "5982.679", "8010", "480", "4", "");
	CROSSING_ROW(&d.job, "obstacles", "slant", "", "6017.321", "7990", "480", "4", "");
	CROSSING_ROW(&d.job, "obstacles", "flat", "", "6000", "8010", "480", "4", "");
	CROSSING_ROW(&d.job, "obstacles", "flat", "", "6228.6", "7990", "480", "4", "");
	CROSSING_ROW(&d.job, "obstacles", "beside", "", "6000", "8010", "480", "4", "");
	CROSSING_ROW(&d.job, "obstacles", "beside", "", "6200", "8020", "485", "4", "");
	jobs_solve(&d.job, &d.s);
	sb_scene_init(&d.scene);
	draw_whole(&d);
	const struct stroke *slant = picture_stroke(&d.scene, MEANING_OBSTACLE, 3);
	assert_near(picture_point(&d.scene, slant, 0).x, 1000 * FOOT, 1e-3);
	assert_near(picture_point(&d.scene, slant, 1).x, 4 * FOOT, 1e-4);
	assert_near(picture_point(&d.scene, slant, 2).y, 2 * FOOT, 1e-9);
	const struct stroke *flat = picture_stroke(&d.scene, MEANING_OBSTACLE, 4);
	assert_near(picture_point(&d.scene, flat, 1).x, 2 * FOOT / sin(sb_rad(15)), 1e-9);
	const struct stroke *beside = picture_stroke(&d.scene, MEANING_OBSTACLE, 5);
	assert_int_equal(beside->kind, STROKE_LINE);
	assert_near(picture_point(&d.scene, beside, 1).y, 485 * FOOT, 1e-9);
	assert_true(picture_says(&d.scene, 160, 30, RASTER_PLAIN, "10 ft left: beside"));
	close_drawn(&d);
}

static void the_line_ahead_ends_just_past_where_it_leaves_the_corridor(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);

	(void)state;
	assert_true(d.s.ahead.leaves_held > 41);
	draw_whole(&d);
	const struct stroke *held = picture_stroke(&d.scene, MEANING_HELD, 0);
	struct spot from = picture_point(&d.scene, held, 0),
		    to = picture_point(&d.scene, held, held->count - 1);
	double joints = (to.x - from.x) / (31 * FOOT);
	assert_near(joints, d.s.ahead.leaves_held - 41 + 1, 0.05);
	close_drawn(&d);
}

static void the_line_ahead_stops_at_the_ground(void **state)
{
	struct drawn d = { 0 };
	double ground;

	(void)state;
	crossing_sheet(&d.job);
	crossing_drill(&d.job, 76, 0, 0);
	jobs_solve(&d.job, &d.s);
	sb_scene_init(&d.scene);
	draw_whole(&d);
	const struct stroke *held = picture_stroke(&d.scene, MEANING_HELD, 0);
	struct spot last = picture_point(&d.scene, held, held->count - 1);
	assert_true(held->count >= 2);
	if (sb_design_ground(&d.job, &d.s.frame, last.x, &ground))
		assert_true(last.y <= ground);
	close_drawn(&d);
}

static void nothing_drilled_shows_the_design_and_a_bit_at_the_entry(void **state)
{
	struct drawn d = open_drawn(sheet_only);

	(void)state;
	draw_whole(&d);
	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "entry"));
	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "exit"));
	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "====="));
	struct draw_window w = near_bit(&d);
	sb_profile_scene(&d.job, &d.s, &w, NULL, &d.scene);

	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "O~"));
	d.s.bit.known = false;
	draw_whole(&d);
	assert_null(picture_stroke(&d.scene, MEANING_BIT, 0));
	close_drawn(&d);
}

static void one_joint_shows_a_bit_just_past_the_entry(void **state)
{
	struct drawn d = open_drawn(one_joint);

	(void)state;
	draw_whole(&d);
	const struct stroke *bit = picture_stroke(&d.scene, MEANING_BIT, 0);
	assert_near(picture_point(&d.scene, bit, 0).x, 31 * FOOT * cos(sb_rad(10.3)), 0.02);
	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "O"));
	close_drawn(&d);
}

static void a_sensor_still_behind_the_entry_breaks_nothing(void **state)
{
	struct drawn d = { 0 };

	(void)state;
	jobs_graded(&d.job);
	jobs_log(&d.job, "", "-10", "4.5"); /* 20 ft in the ground, the sensor 40 ft behind */
	jobs_solve(&d.job, &d.s);
	sb_scene_init(&d.scene);
	draw_whole(&d);
	const struct stroke *bit = picture_stroke(&d.scene, MEANING_BIT, 0);
	assert_non_null(bit);
	struct reading r = jobs_reading(&d.job, "", "-9", "4.5");
	struct preview p;
	assert_int_equal(sb_solve_preview(&d.job, &d.s, &r, &p, NULL), 0);
	struct draw_window w = sb_window_near(&d.s, 20, 20, 80);
	sb_profile_scene(&d.job, &d.s, &w, &p, &d.scene);
	assert_non_null(picture_stroke(&d.scene, MEANING_TRIAL, 0));
	close_drawn(&d);
}

static void a_job_without_a_design_draws_nothing_and_does_not_fail(void **state)
{
	struct job job = { 0 };
	struct solution s = { 0 };
	struct draw_window w = sb_window_whole(&s, 80);
	struct scene scene;

	(void)state;
	sb_scene_init(&scene);
	sb_profile_scene(&job, &s, &w, NULL, &scene);
	sb_profile_heights(&job, &s, &w, NULL, &scene);
	assert_true(picture_says(&scene, 40, 8, RASTER_BRAILLE, "0+0"));
	sb_scene_clear(&scene);
}

static void positions_that_are_not_numbers_are_skipped(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);
	struct draw_window w = sb_window_whole(&d.s, 80);

	(void)state;
	d.s.path.rows[20].at.u = NAN;
	d.s.path.rows[21].deviation.station_m = HUGE_VAL;
	d.s.path.rows[22].attitude.heading.n = NAN;
	d.s.bit.at.u = NAN;
	d.job.obstacles[0].elevation.value = NAN;
	d.job.ground[3].elevation.value = HUGE_VAL;
	sb_profile_scene(&d.job, &d.s, &w, NULL, &d.scene);
	assert_true(isfinite(d.scene.view.low.y) && isfinite(d.scene.view.high.y));
	assert_true(picture_says(&d.scene, 54, 9, RASTER_PLAIN, "**"));
	for (double bad = -1; bad <= 1; bad++) {
		struct draw_window wild = { bad / 0.0, NAN, bad, true, NULL, NULL, false };
		sb_profile_scene(&d.job, &d.s, &wild, NULL, &d.scene);
		sb_profile_heights(&d.job, &d.s, &wild, NULL, &d.scene);
	}
	close_drawn(&d);
}

static void a_bore_of_ten_thousand_joints_costs_what_the_paper_shows(void **state)
{
	struct drawn d = open_drawn(crossing_drilled);
	size_t real = d.s.path.on_count;
	struct row *rows = d.s.path.rows, *many = calloc(10000, sizeof *many);
	size_t *on = d.s.path.on_path, *all = calloc(10000, sizeof *all);

	(void)state;
	for (size_t i = 0; i < 10000; i++) {
		many[i] = rows[on[i * (real - 1) / 9999]];
		many[i].deviation.station_m = d.s.bit.deviation.station_m * (double)i / 9999;
		many[i].course_m = 0.05;
		all[i] = i;
	}
	d.s.path.rows = many;
	d.s.path.on_path = all;
	d.s.path.on_count = d.s.path.count = 10000;
	draw_whole(&d);
	const struct stroke *line = picture_stroke(&d.scene, MEANING_DRILLED, 0);
	assert_true(line->count > 40 && line->count < 400);
	assert_near(picture_point(&d.scene, line, line->count - 1).x, many[9999].deviation.station_m, 1e-9);
	d.s.path.rows = rows;
	d.s.path.on_path = on;
	free(many);
	free(all);
	close_drawn(&d);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(the_whole_crossing_is_readable_in_forty_columns),
		cmocka_unit_test(the_whole_crossing_in_braille_tells_ground_from_design),
		cmocka_unit_test(near_the_bit_the_corridor_fills_the_picture),
		cmocka_unit_test(heights_are_drawn_against_a_straight_design),
		cmocka_unit_test(a_reading_that_is_tried_out_is_drawn_beside_the_others),
		cmocka_unit_test(curves_are_drawn_within_a_tenth_of_a_dot),
		cmocka_unit_test(the_path_is_drawn_through_every_reading_and_along_its_arcs),
		cmocka_unit_test(the_corridor_narrows_in_a_step_where_the_contract_says),
		cmocka_unit_test(a_side_without_a_limit_has_no_edge),
		cmocka_unit_test(a_withdrawn_stretch_leaves_the_path_where_it_left),
		cmocka_unit_test(obstacles_stand_where_they_cross_with_their_size),
		cmocka_unit_test(a_pipe_crossed_aslant_is_cut_longer),
		cmocka_unit_test(the_line_ahead_ends_just_past_where_it_leaves_the_corridor),
		cmocka_unit_test(the_line_ahead_stops_at_the_ground),
		cmocka_unit_test(nothing_drilled_shows_the_design_and_a_bit_at_the_entry),
		cmocka_unit_test(one_joint_shows_a_bit_just_past_the_entry),
		cmocka_unit_test(a_sensor_still_behind_the_entry_breaks_nothing),
		cmocka_unit_test(a_job_without_a_design_draws_nothing_and_does_not_fail),
		cmocka_unit_test(positions_that_are_not_numbers_are_skipped),
		cmocka_unit_test(a_bore_of_ten_thousand_joints_costs_what_the_paper_shows),
	};
	setlocale(LC_CTYPE, "C.UTF-8");
	return run_tests(tests);
}
