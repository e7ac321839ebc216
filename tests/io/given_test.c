/* Designs out of CSV: points of intersection, and stations whose line is found. */
#include "io/given.h"

#include "../geom/random.h"
#include "geom/chain.h"
#include "io/sheet.h"
#include "scratch.h"
#include "support/jobs.h"

static const struct given_choice plainly = { 0 };

static void say_all(const struct sb_problems *p)
{
	for (size_t i = 0; i < p->count; i++)
		print_error("%s %d %s: %s\n", p->list[i].file, p->list[i].line, p->list[i].column,
			p->list[i].text);
}

static void read_as(const char *text, const struct given_choice *choice, struct given *d)
{
	struct sb_problems problems = { 0 };

	*d = (struct given){ 0 };
	if (sb_given_read(scratch_text("drawing.csv", text), choice, d, &problems) || problems.count) {
		say_all(&problems);
		fail();
	}
}

static void read_text(const char *text, struct given *d)
{
	read_as(text, &plainly, d);
}

static void read_and_find(const char *text, const struct given_choice *choice, struct given *d)
{
	struct sb_problems problems = { 0 };

	read_as(text, choice, d);
	if (sb_given_turn(d, choice, &problems) || problems.count) {
		say_all(&problems);
		fail();
	}
}

/* Reading it, or finding its line, is refused with these words at that line (0: any). */
static void assert_refused(const char *text, int line, const char *words)
{
	struct sb_problems problems = { 0 };
	struct given d = { 0 };
	bool found = false;

	int failed = sb_given_read(scratch_text("drawing.csv", text), &plainly, &d, &problems);
	if (!failed)
		failed = sb_given_turn(&d, &plainly, &problems);
	assert_int_equal(failed, -1);
	for (size_t i = 0; i < problems.count; i++)
		found |= strstr(problems.list[i].text, words) && (line == 0 || problems.list[i].line == line);
	if (!found) {
		say_all(&problems);
		fail_msg("no problem says '%s' at line %d", words, line);
	}
	sb_problems_clear(&problems);
	sb_given_clear(&d);
}

static void columns_come_in_any_order_and_by_the_names_of_drawings(void **state)
{
	static const char *const profiles[] = { "station,elevation,radius\n0,20,\n80,6,400\n160,20,0\n",
		"Radius;Elev (m);Sta\n;20,0;0,0\n400;6,0;80,0\n;20,0;160,0\n",
		"PI,Chainage,Level,Curve radius,Remarks\n1,0+000,20,,entry\n2,0+080.0,6,400,\n3,0+160,20,,exit\n",
		"STA.,ELEV,R\n" };
	struct given d;

	(void)state;
	for (size_t i = 0; i < 3; i++) {
		read_text(profiles[i], &d);
		assert_int_equal(d.profile.count, 3);
		assert_int_equal(d.alignment.count, 0);
		assert_near(d.profile.pis[1].x, 80, 0);
		assert_near(d.profile.pis[1].y, 6, 0);
		assert_near(d.profile.pis[1].radius, 400, 0);
		assert_near(d.profile.pis[0].radius, 0, 0);
		assert_int_equal(d.unit_said, i == 1 ? GIVEN_UNIT_SAID : GIVEN_UNIT_UNSAID);
		sb_given_clear(&d);
	}
	for (int turned = 0; turned < 2; turned++) {
		read_text(
			turned ? "N,E,R\n5000,300,\n5160,420,500\n5260,580,\n"
			       : "radius,easting (ftUS),northing (ftUS)\n,300,5000\n500,420,5160\n,580,5260\n",
			&d);
		assert_int_equal(d.alignment.count, 3);
		assert_near(d.alignment.pis[1].x, 5160, 0);
		assert_near(d.alignment.pis[1].y, 420, 0);
		assert_near(d.alignment.pis[1].radius, 500, 0);
		if (!turned)
			assert_int_equal(d.unit, UNIT_FTUS);
		sb_given_clear(&d);
	}
}

/* 12+41.20 in hundreds of feet is 1241.20, and so is 1+241.20 in kilometres: the digits tell them apart. */
static void stations_of_both_worlds_are_read(void **state)
{
	struct given d;

	(void)state;
	read_text("station,elevation,radius\n12+00.00,20,\n12+41.20,6,50\n13+00,20,\n", &d);
	assert_near(d.start, 1200, 0);
	assert_near(d.profile.pis[1].x, 41.2, 1e-9);
	sb_given_clear(&d);
	read_text("station,elevation,radius\n1+200.00,20,\n1+241.20,6,50\n1+300,20,\n", &d);
	assert_near(d.profile.pis[1].x, 41.2, 1e-9);
	sb_given_clear(&d);
	assert_refused("station,elevation,radius\n1+2,20,\n1+9,6,\n", 2, "");
}

static void what_is_missing_or_could_be_two_things_is_asked_for(void **state)
{
	(void)state;
	assert_refused("station,radius\n0,\n1,\n", 0, "Missing: elevation");
	assert_refused("elevation,radius\n0,\n1,\n", 0, "Missing: station");
	assert_refused("northing,radius\n0,\n1,\n", 0, "no column easting");
	assert_refused("easting,elevation\n0,1\n1,2\n", 0, "no column northing");
	assert_refused("x,y,radius\n0,1,\n1,2,\n", 0, "east on some drawings and north on others");
	assert_refused(
		"station,elevation,northing,easting,radius\n0,1,2,3,\n", 0, "in plan or of that in profile");
	assert_refused("station,northing,easting,offset,elevation\n0,1,2,3,4\n", 0, "they say the same");
	assert_refused("offset,elevation\n0,1\n0,2\n", 0, "how far along");
	assert_refused("station,elevatoin,radius\n0,1,\n", 0, "'elevation' is probably meant");
	assert_refused("station (m),elevation (ft),radius\n0,1,\n", 0, "different units");
	assert_refused("station (yards),elevation,radius\n0,1,\n", 0, "'yards' is not a unit");
	assert_refused("station,sta,elevation\n0,1,2\n", 0, "the same column");
	assert_refused("weather,mood\nfair,good\n", 0, "no line in these columns");
	assert_refused("station,elevation,radius\n0,1,\n", 0, "fewer than two rows");
	assert_refused("station,elevation,radius\n", 0, "no rows");
	assert_refused("station,elevation,radius\n0,1,\n5,,3\n9,1,\n", 3, "nothing is written here");
	assert_refused("station,elevation,radius\n0,1,\n5,nan,3\n9,1,\n", 3, "");
	assert_refused("station,elevation,radius\n0,1,\n5,2,-3\n9,1,\n", 3, "-3 cannot be");
	assert_refused("station,elevation,radius\n0,1,\n5,99999999999,3\n9,1,\n", 3, "cannot be");
	assert_refused("station;elevation;radius\n0;1;\n5;1,234;3\n9;1.5;\n", 4, "decimals differently");
	assert_refused("", 0, "nothing in this file");
}

/* ---- stations ---- */

/* Kestrel Road's profile and alignment (sample-data), and the derived profile A: entry 0, 100 at 12
 * degrees, bottom 75, exit 700, 98 at 10 degrees, R 800: points of intersection 25 / tan 12 = 117.61575
 * before and 23 / tan 10 = 130.43948 behind the bottom. */
static const struct chain_pi kestrel[] = { { 0, 21.4, 0 }, { 44.12, 10.4, 250 }, { 360.25, 10.4, 250 },
	{ 420, 23.1, 0 } };
static const struct chain_pi kestrel_plan[] = { { 5932845.200, 563210.400, 0 },
	{ 5932998.469, 563322.576, 400 }, { 5933145.956, 563499.596, 0 } };
static const struct chain_pi derived_a[] = { { 0, 100, 0 }, { 117.61575273, 75, 800 },
	{ 569.56051988, 75, 800 }, { 700, 98, 0 } };

/* Rows of stations at an interval, with the extra rows that drawings have where curves begin and end. */
static void list_profile(const struct chain_pi *pis, size_t count, double start, double every, int decimals,
	struct sb_str *out)
{
	struct chain_part parts[16];
	size_t made, next = 1;
	double end = pis[count - 1].x;

	assert_int_equal(sb_chain_build(pis, count, parts, &made, NULL, NULL), CHAIN_OK);
	sb_str_add(out, "Remarks,Station,Elevation\n");
	for (double at = 0;; at += every) {
		for (; next < made && parts[next].x < fmin(at, end); next++)
			if (parts[next].x > at - every)
				sb_str_add(out, "%s,%.*f,%.*f\n", parts[next].curvature != 0 ? "PC" : "PT",
					decimals, parts[next].x + start, decimals, parts[next].y);
		double x = fmin(at, end);
		sb_str_add(out, ",%.*f,%.*f\n", decimals, x + start, decimals,
			sb_chain_height(parts, made, x).y);
		if (at >= end)
			return;
	}
}

static void assert_line(const struct given_line *l, const struct chain_pi *pis, size_t count, double within)
{
	assert_int_equal(l->count, count);
	for (size_t i = 0; i < count; i++) {
		assert_near(l->pis[i].x, pis[i].x, within);
		assert_near(l->pis[i].y, pis[i].y, within);
		assert_near(l->pis[i].radius, pis[i].radius, 0); /* the round one, to the digit */
	}
}

static void a_listed_profile_gives_back_its_points_and_round_radii(void **state)
{
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	list_profile(kestrel, 4, 1000, 10, 2, &text);
	read_and_find(text.text, &plainly, &d);
	assert_line(&d.profile, kestrel, 4, 0.03);
	assert_near(d.start, 1000, 0);
	assert_near(d.profile.within, 0.01, 1e-12);
	assert_true(d.profile.worst < 0.0075 && d.profile.rms < 0.004); /* what two decimals round away */
	assert_true(d.profile.sigma[1] > 0.01 && d.profile.sigma[1] < 1);
	assert_near(d.profile.found[1], 250, 4 * d.profile.sigma[1]);
	sb_given_clear(&d);
	text.length = 0;
	list_profile(derived_a, 4, 0, 5, 3, &text);
	read_and_find(text.text, &plainly, &d);
	assert_line(&d.profile, derived_a, 4, 0.005);
	sb_given_clear(&d);
	sb_str_clear(&text);
}

/* The remarks PC and PT of the list are where its curves begin and end; they were not used to find the line.
 * One that stands elsewhere, and one of a straight, are said. */
static void marks_of_curves_vouch_for_the_line_that_was_found(void **state)
{
	static const struct given_choice backwards = { .reversed = true };
	struct sb_problems problems = { 0 };
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	list_profile(kestrel, 4, 0, 10, 3, &text);
	for (int turned = 0; turned < 2; turned++) {
		read_and_find(text.text, turned ? &backwards : &plainly, &d);
		const char *said = strstr(d.notes.text, "marks 4 beginnings and ends of curves");
		assert_non_null(said);
		assert_non_null(strstr(said, "are within 0.0"));
		sb_given_clear(&d);
	}
	char *mark = strstr(text.text, ",200.000,");
	assert_non_null(mark);
	struct sb_str wrong = { 0 };
	sb_str_add(&wrong, "%.*sPT%s", (int)(mark - text.text), text.text, mark);
	read_text(wrong.text, &d);
	assert_int_equal(sb_given_turn(&d, &plainly, &problems), 0);
	assert_int_equal(problems.count, 1);
	assert_true(problems.list[0].warning && problems.list[0].line == 24);
	assert_non_null(strstr(problems.list[0].text, "marks the end of a curve here"));
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	read_text("station,elevation,note\n0,1,\n5,2,BVC at the road\n9,2.8,\n", &d);
	assert_int_equal(sb_given_turn(&d, &plainly, &problems), 0);
	assert_int_equal(problems.count, 1);
	assert_non_null(strstr(problems.list[0].text, "no curve was found"));
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	sb_str_clear(&text);
	sb_str_clear(&wrong);
}

static void radii_stay_as_found_when_that_is_asked_for(void **state)
{
	const struct given_choice as_found = { .radii_as_found = true };
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	list_profile(kestrel, 4, 0, 10, 2, &text);
	read_and_find(text.text, &as_found, &d);
	assert_true(fabs(d.profile.pis[1].radius - 250) > 1e-3);
	assert_near(d.profile.pis[1].radius, d.profile.found[1], 1e-3);
	sb_given_clear(&d);
	sb_str_clear(&text);
}

static void a_row_that_is_off_is_named_and_a_rougher_drawing_needs_a_word(void **state)
{
	struct number rough;
	const struct given_choice roughly = { .within = &rough };
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	list_profile(kestrel, 4, 0, 10, 2, &text);
	char *row = strstr(text.text, "200.00,10.40");
	assert_non_null(row);
	row[10] = '7';
	int line = 1;
	for (const char *c = text.text; c < row; c++)
		line += *c == '\n';
	assert_refused(text.text, line, "lies 0.");
	assert_refused(text.text, line, "--within");
	assert_int_equal(sb_number_parse("0.5", &rough, NULL), 0);
	read_and_find(text.text, &roughly, &d);
	assert_near(d.profile.within, 0.5, 0);
	assert_true(d.profile.worst > 0.1);
	sb_given_clear(&d);
	sb_str_clear(&text);
	assert_refused("station,elevation\n0,1\n9,1\n5,1\n", 4, "does not lie past");
	assert_refused("station,elevation\n0,1\n5,1\n5,2\n", 4, "does not lie past");
	text.length = 0;
	sb_str_add(&text, "station,elevation\n");
	for (int i = 0; i < 300; i++)
		sb_str_add(&text, "%d,%d\n", i, i % 20 < 10 ? i % 20 : 20 - i % 20);
	assert_refused(text.text, 0, "follow no row of tangents and circular curves");
	for (int i = 300; i < 5200; i++)
		sb_str_add(&text, "%d,1\n", i);
	assert_refused(text.text, 0, "more than 5000 rows");
	sb_str_clear(&text);
}

/* Kestrel Road as a list of points on its map, and as stations and offsets from the straight between its
 * ends. along: distances from the entry in the ground. */
static void list_points(const char *kind, struct sb_str *out)
{
	struct chain_pi ground[3];
	struct chain_part plan[8], heights[8];
	size_t made, heights_made;
	double scale = 0.99965, n0 = kestrel_plan[0].x, e0 = kestrel_plan[0].y;
	double dn = kestrel_plan[2].x - n0, de = kestrel_plan[2].y - e0, map = hypot(dn, de);

	for (size_t i = 0; i < 3; i++)
		ground[i] = (struct chain_pi){ (kestrel_plan[i].x - n0) / scale,
			(kestrel_plan[i].y - e0) / scale, kestrel_plan[i].radius };
	assert_int_equal(sb_chain_build(ground, 3, plan, &made, NULL, NULL), CHAIN_OK);
	assert_int_equal(sb_chain_build(kestrel, 4, heights, &heights_made, NULL, NULL), CHAIN_OK);
	sb_str_add(out, "%s\n", kind);
	double length = sb_chain_length(plan, made);
	for (double at = 0;; at = fmin(at + 5, length)) {
		struct chain_place p = sb_chain_at(plan, made, at);
		double n = p.x * scale, e = p.y * scale, up = sb_chain_height(heights, heights_made, at).y;
		if (kind[0] == 'n')
			sb_str_add(out, "%.3f,%.3f,%.3f\n", n0 + n, e0 + e, up);
		else
			sb_str_add(out, "%.3f,%.3f,%.3f\n", (n * dn + e * de) / map, (e * dn - n * de) / map,
				up);
		if (at >= length)
			return;
	}
}

static void a_listed_line_in_space_gives_back_both_lines(void **state)
{
	static const char *const kinds[] = { "northing,easting,elevation", "station,offset,elevation" };

	(void)state;
	for (size_t k = 0; k < 2; k++) {
		struct sb_str text = { 0 };
		struct sb_problems problems = { 0 };
		struct given d;
		struct job job;
		assert_int_equal(sb_sheet_settings("sample-data/kestrel-road", &job, &problems), 0);
		list_points(kinds[k], &text);
		read_text(text.text, &d);
		if (sb_given_place(&d, &plainly, &job, &problems)) {
			say_all(&problems);
			fail();
		}
		assert_line(&d.alignment, kestrel_plan, 3, 0.01);
		assert_int_equal(d.profile.count, 4);
		for (size_t i = 0; i < 4; i++) {
			assert_near(d.profile.pis[i].x, kestrel[i].x, 0.02);
			assert_near(d.profile.pis[i].y, kestrel[i].y, 0.005);
			assert_near(d.profile.pis[i].radius, kestrel[i].radius, 0);
		}
		assert_near(job.alignment[1].radius.value, 400, 0);
		sb_given_clear(&d);
		sb_job_clear(&job);
		sb_problems_clear(&problems);
		sb_str_clear(&text);
	}
}

/* Kestrel Road's profile alone, with stations as its map has them: the sheet's own alignment, 419.854 m there
 * and 420.001 m in the ground, tells that. */
static void a_profile_alone_is_measured_by_the_sheet_s_alignment(void **state)
{
	struct sb_problems problems = { 0 };
	struct given d;
	struct job job;

	(void)state;
	for (int map = 0; map < 2; map++) {
		struct sb_str text = { 0 };
		double by = map ? 0.99965 : 1;
		sb_str_add(&text,
			"station,elevation,radius\n0,21.4,\n%.4f,10.4,250\n%.4f,10.4,250\n%.4f,23.1,\n",
			44.12 * by, 360.25 * by, 420 * by);
		assert_int_equal(sb_sheet_settings("sample-data/kestrel-road", &job, &problems), 0);
		read_text(text.text, &d);
		assert_int_equal(sb_given_place(&d, &plainly, &job, &problems), 0);
		assert_int_equal(problems.count, 0);
		for (size_t i = 0; i < 4; i++)
			assert_near(d.profile.pis[i].x, kestrel[i].x, 1.1e-4);
		assert_int_equal(strstr(d.notes.text, "lengths on the map") != NULL, map);
		sb_given_clear(&d);
		sb_job_clear(&job);
		sb_str_clear(&text);
	}
}

/* In a job in metres a list in feet is fitted as closely as feet are listed, and round feet stay round. 1200
 * ft is 365.76 m. */
static void a_list_in_another_unit_keeps_its_own_digits_and_round_numbers(void **state)
{
	static const struct chain_pi feet[] = { { 0, 328.1, 0 }, { 400, 250, 1200 }, { 984.252, 328.1, 0 } };
	const struct given_choice in_feet = { .unit_said = GIVEN_UNIT_SAID, .unit = UNIT_FT };
	struct sb_problems problems = { 0 };
	struct sb_str text = { 0 };
	struct given d;

	(void)state;
	struct job job;
	jobs_plain(&job);
	jobs_set(&job, "job", "unit", "m");
	jobs_set(&job, "control", "entry", "1000, 5000, 100");
	jobs_set(&job, "control", "exit", "1000, 5300, 100");
	list_profile(feet, 3, 0, 20, 2, &text);
	read_text(text.text, &d);
	if (sb_given_place(&d, &in_feet, &job, &problems)) {
		say_all(&problems);
		fail();
	}
	assert_near(d.profile.within, 0.01 * 0.3048, 1e-12);
	assert_near(d.profile.pis[1].x, 400 * 0.3048, 0.01);
	assert_near(d.profile.pis[1].radius, 365.76, 1e-9);
	sb_given_clear(&d);
	sb_problems_clear(&problems);
	sb_job_clear(&job);
	sb_str_clear(&text);
}

static void two_files_make_one_design_and_not_two_of_a_kind(void **state)
{
	struct sb_problems problems = { 0 };
	struct given d = { 0 };

	(void)state;
	char *a = strdup(scratch_text("a.csv", "station,elevation,radius\n0,20,\n80,6,400\n160,20,\n"));
	char *b = strdup(scratch_text("b.csv", "easting,northing,radius\n0,0,\n0,160,\n"));
	assert_int_equal(sb_given_read(a, &plainly, &d, &problems), 0);
	assert_int_equal(sb_given_read(b, &plainly, &d, &problems), 0);
	assert_int_equal(d.profile.count, 3);
	assert_int_equal(d.alignment.count, 2);
	assert_int_equal(sb_given_read(a, &plainly, &d, &problems), -1);
	assert_non_null(strstr(problems.list[0].text, "another file has given"));
	assert_int_equal(d.profile.count, 3);
	free(a);
	free(b);
	sb_problems_clear(&problems);
	sb_given_clear(&d);
}

/* Good tables with bytes changed anywhere: a design or problems, never a crash, and never both. */
static void broken_tables_never_crash_it(void **state)
{
	struct random chance = { 1125 };
	struct sb_str text = { 0 };

	(void)state;
	list_profile(kestrel, 4, 0, 10, 2, &text);
	char *copy = malloc(text.length);
	assert_non_null(copy);
	for (int i = 0; i < 600; i++) {
		struct sb_problems problems = { 0 };
		struct given d = { 0 };
		memcpy(copy, text.text, text.length);
		for (int k = 0; k < 1 + i % 4; k++) {
			size_t at = (size_t)(random_unit(&chance) * (double)text.length);
			copy[at] = "0123456789.-,;+\"\n \0\xFF"[(int)(random_unit(&chance) * 20)];
		}
		int failed = sb_given_read(scratch_bytes("broken.csv", copy, text.length), &plainly, &d,
				     &problems) ||
			sb_given_turn(&d, &plainly, &problems);
		assert_int_equal(failed != 0, problems.errors > 0);
		sb_problems_clear(&problems);
		sb_given_clear(&d);
	}
	free(copy);
	sb_str_clear(&text);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(columns_come_in_any_order_and_by_the_names_of_drawings),
		cmocka_unit_test(stations_of_both_worlds_are_read),
		cmocka_unit_test(what_is_missing_or_could_be_two_things_is_asked_for),
		cmocka_unit_test(a_listed_profile_gives_back_its_points_and_round_radii),
		cmocka_unit_test(marks_of_curves_vouch_for_the_line_that_was_found),
		cmocka_unit_test(radii_stay_as_found_when_that_is_asked_for),
		cmocka_unit_test(a_row_that_is_off_is_named_and_a_rougher_drawing_needs_a_word),
		cmocka_unit_test(a_listed_line_in_space_gives_back_both_lines),
		cmocka_unit_test(a_profile_alone_is_measured_by_the_sheet_s_alignment),
		cmocka_unit_test(a_list_in_another_unit_keeps_its_own_digits_and_round_numbers),
		cmocka_unit_test(two_files_make_one_design_and_not_two_of_a_kind),
		cmocka_unit_test(broken_tables_never_crash_it),
	};

	return run_tests(tests);
}
