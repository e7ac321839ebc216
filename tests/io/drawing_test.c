/* The plan-and-profile sheet before it is drawn: scales, sheets, the room of each picture; and names, which
 * must never stand on one another: asked of poppler, where the words have come to lie. What the whole looks
 * like is asked in tests/cli/export_sheet.sh. */
#include "io/drawing_parts.h"

#include "io/bore.h"
#include "io/format.h"
#include "io/scratch.h"

static struct job job;
static struct solution s;

static int tidy(void **state)
{
	(void)state;
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return 0;
}

static struct drawing laid_out(const char *paper)
{
	struct drawing d = { .job = &job, .s = &s, .size = *drawing_size(paper, job.unit) };

	drawing_lay_out(&d);
	return d;
}

static void tern(void)
{
	bore_tern(&job);
	bore_solve(&job, &s);
}

/* 31.2 ft joints: at 1 in = 80 ft they stand 9.9 mm apart, and 2111 ft need two sheets of some 1200 ft. */
static void a_bore_in_feet_comes_to_eleven_by_seventeen_at_an_engineers_scale(void **state)
{
	char words[DRAWING_SCALE_TEXT];

	(void)state;
	tern();
	struct drawing d = laid_out(NULL);
	assert_string_equal(d.size.name, "11x17");
	assert_near(d.denominator, 960, 0);
	assert_int_equal(d.sheets, 2);
	assert_near(drawing_sheet_at(&d, 1).to_m, 1100 * 0.3048, 1e-9);
	drawing_scale_words(&d, d.denominator, words);
	assert_string_equal(words, "1 in = 80 ft (1:960)");
}

static void sheets_meet_at_round_stations_and_hold_the_whole_bore_on_any_paper(void **state)
{
	static const char *const papers[] = { "a3", "A2", "A1", "11x17", "22x34" };

	(void)state;
	tern();
	for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
		struct drawing d = laid_out(papers[i]);
		double last = 0;
		for (size_t n = 1; n <= d.sheets; n++) {
			struct drawing_sheet sheet = drawing_sheet_at(&d, n);
			assert_near(sheet.from_m, last, 1e-9);
			double hundreds = sheet.from_m / (50 * 0.3048);
			assert_near(hundreds, round(hundreds), 1e-9);
			last = sheet.to_m;
			assert_true(
				drawing_x(&d, &sheet, sheet.from_m) >= d.profile.left + DRAWING_PAD - 1e-9);
			assert_true(drawing_x(&d, &sheet, sheet.to_m) <=
				d.profile.left + d.profile.width - DRAWING_PAD + 1e-9);
		}
		assert_near(last, fmax(s.design.length_m, s.bit.deviation.station_m), 1e-9);
	}
	assert_null(drawing_size("A5", UNIT_M));
}

static void the_pictures_stand_one_below_another_within_the_border(void **state)
{
	static const char *const papers[] = { "A3", "A2", "A1", "11x17", "22x34" };

	(void)state;
	tern();
	for (size_t i = 0; i < sizeof papers / sizeof *papers; i++) {
		struct drawing d = laid_out(papers[i]);
		const struct paper *stack[] = { &d.plan, &d.profile, &d.band, &d.heights, &d.offsets,
			&d.bends, &d.block };
		double y = d.inner.top;
		for (size_t k = 0; k < sizeof stack / sizeof *stack; k++) {
			assert_true(stack[k]->top >= y + 1); /* with room for a title, or for the stations */
			assert_true(stack[k]->height > 10);
			y = stack[k]->top + stack[k]->height;
			if (k + 1 < sizeof stack / sizeof *stack)
				assert_true(stack[k]->left + stack[k]->width <= d.inner.left + d.inner.width);
		}
		assert_near(y, d.inner.top + d.inner.height, 1e-9);
	}
}

/* What has to be seen of every sheet fits into the profile at the scale that was found. */
static void the_profile_is_exaggerated_as_far_as_it_fits(void **state)
{
	(void)state;
	tern();
	struct drawing d = laid_out(NULL);
	double tall_m =
		(52.1 + 54.5) * 0.3048; /* sheet 2: from below the corridor's floor to the levee's crest */

	assert_near(d.exaggeration, 1.6, 1e-9); /* 1 in = 50 ft */
	assert_true(tall_m * d.scale * d.exaggeration <= d.profile.height);
	assert_true(tall_m * d.scale * 2 > d.profile.height - 3); /* 1 in = 40 ft would not */
	assert_true(d.heights_exaggeration >= 2);
}

static void a_long_bore_is_drawn_smaller_rather_than_on_hundreds_of_sheets(void **state)
{
	(void)state;
	tern();
	s.design.length_m = 96000; /* ten thousand joints */
	struct drawing d = laid_out(NULL);
	assert_in_range(d.sheets, 2, 60);
	s.design.length_m = 40; /* and a short one on one sheet */
	s.path.on_count = 1;
	s.bit.known = false;
	d = laid_out(NULL);
	assert_int_equal(d.sheets, 1);
}

static void steps_are_one_two_or_five_times_a_power_of_ten(void **state)
{
	(void)state;
	assert_near(drawing_round_down(1), 1, 0);
	assert_near(drawing_round_down(1.99), 1, 0);
	assert_near(drawing_round_down(2), 2, 0);
	assert_near(drawing_round_down(49), 20, 1e-12);
	assert_near(drawing_round_down(50), 50, 1e-12);
	assert_near(drawing_round_down(0.0099), 0.005, 1e-15);
	assert_near(drawing_round_down(1000), 1000, 1e-9);
}

static void the_same_job_is_the_same_bytes(void **state)
{
	static const char *const formats[] = { "sheet", "drawing" };
	const struct about about = { "tern-slough.bore", "00ff", "E. Engineer", BORE_CLOCK, "sagbend test" };

	(void)state;
	tern();
	for (int i = 0; i < 2; i++) {
		struct export e = { .job = &job, .solution = &s, .about = &about };
		struct sb_str first = { 0 }, second = { 0 };
		assert_int_equal(sb_format(formats[i])->write(&e, &first, NULL), 0);
		assert_int_equal(sb_format(formats[i])->write(&e, &second, NULL), 0);
		assert_int_equal(first.length, second.length);
		assert_memory_equal(first.text, second.text, first.length);
		sb_str_clear(&first);
		sb_str_clear(&second);
	}
}

/* ---- names ---- */

struct word {
	double left, top, right, bottom;
};

static size_t words_of(const char *path, struct word *out, size_t most)
{
	char command[PATH_MAX + 64], line[512];
	size_t count = 0;

	snprintf(command, sizeof command, "pdftotext -bbox '%s' -", path);
	FILE *f = popen(command, "r");
	assert_non_null(f);
	while (fgets(line, sizeof line, f)) {
		struct word w;
		const char *at = strstr(line, "<word");
		if (at && count < most &&
			sscanf(at, "<word xMin=\"%lf\" yMin=\"%lf\" xMax=\"%lf\" yMax=\"%lf\"", &w.left,
				&w.top, &w.right, &w.bottom) == 4)
			out[count++] = w;
	}
	assert_int_equal(pclose(f), 0);
	return count;
}

#define NAMES 60

/* Along a line of few millimetres, more names than can stand at their points. */
static void names_never_stand_on_one_another(void **state)
{
	static const struct paper_note note = { .title = "names" };
	const struct paper box = { 20, 20, 160, 60 };
	static struct word words[NAMES + 1];
	struct sb_paper *p;
	struct sb_str bytes = { 0 };

	(void)state;
	assert_int_equal(sb_paper_new(PAPER_PDF, &note, &p, NULL), 0);
	sb_paper_page(p, 200, 100, NULL);
	struct drawing_labels *l = drawing_labels_new(p, &box);
	drawing_labels_stroke(l, (struct spot){ -1e9, 50 }, (struct spot){ 1e9, 50 }, 9);
	drawing_labels_stroke(l, (struct spot){ NAN, 50 }, (struct spot){ 10, 50 }, 9);
	drawing_labels_taken(l, &(struct paper){ 20, 20, 40, 20 });
	for (int i = 0; i < NAMES; i++) {
		struct drawing_label label = { .as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0,
						       SB_INK_BLACK },
			.at = { 22 + i * 2.6, 50 + i % 3 },
			.side = (enum anchor)(i % 5),
			.weight = DRAWING_NEEDED + i % 2,
			.ringed = i % 7 == 0 };
		snprintf(label.text, sizeof label.text, label.ringed ? "%d" : "name%d", i);
		drawing_labels_add(l, &label);
	}
	struct drawing_label away = { .text = "away", .at = { 500, 50 } };
	drawing_labels_add(l, &away); /* not on the picture: no name of it */
	size_t without = drawing_labels_draw(l);
	assert_int_equal(sb_paper_end(p, &bytes, NULL), 0);
	size_t count = words_of(scratch_bytes("names.pdf", bytes.text, bytes.length), words, NAMES + 1);
	sb_str_clear(&bytes);
	assert_int_equal(count + without, NAMES); /* all are needed */
	assert_in_range(count, NAMES / 2, NAMES);
	for (size_t i = 0; i < count; i++) {
		double high =
			words[i].bottom - words[i].top; /* poppler's boxes reach from ascent to descent */
		words[i].top += high * 0.3;
		words[i].bottom -= high * 0.27;
		assert_true(words[i].left * 25.4 / 72 >= 20 && words[i].right * 25.4 / 72 <= 180);
		assert_false(words[i].left * 25.4 / 72 < 60 && words[i].top * 25.4 / 72 < 40);
		for (size_t k = 0; k < i; k++)
			assert_false(words[i].left < words[k].right && words[k].left < words[i].right &&
				words[i].top < words[k].bottom && words[k].top < words[i].bottom);
	}
}

static void a_name_stands_at_its_point_where_there_is_room(void **state)
{
	static const struct paper_note note = { .title = "name" };
	const struct paper box = { 20, 20, 160, 60 };
	struct word word;
	struct sb_paper *p;
	struct sb_str bytes = { 0 };

	(void)state;
	assert_int_equal(sb_paper_new(PAPER_PDF, &note, &p, NULL), 0);
	sb_paper_page(p, 200, 100, NULL);
	struct drawing_labels *l = drawing_labels_new(p, &box);
	struct drawing_label label = { .text = "sewer",
		.as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK },
		.at = { 100, 50 },
		.side = ANCHOR_RIGHT };
	drawing_labels_add(l, &label);
	assert_int_equal(drawing_labels_draw(l), 0);
	assert_int_equal(sb_paper_end(p, &bytes, NULL), 0);
	assert_int_equal(words_of(scratch_bytes("name.pdf", bytes.text, bytes.length), &word, 1), 1);
	sb_str_clear(&bytes);
	assert_true(word.left * 25.4 / 72 > 100 && word.left * 25.4 / 72 < 103);
	assert_true(word.top * 25.4 / 72 < 50 && word.bottom * 25.4 / 72 > 50);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test_teardown(
			a_bore_in_feet_comes_to_eleven_by_seventeen_at_an_engineers_scale, tidy),
		cmocka_unit_test_teardown(
			sheets_meet_at_round_stations_and_hold_the_whole_bore_on_any_paper, tidy),
		cmocka_unit_test_teardown(the_pictures_stand_one_below_another_within_the_border, tidy),
		cmocka_unit_test_teardown(the_profile_is_exaggerated_as_far_as_it_fits, tidy),
		cmocka_unit_test_teardown(
			a_long_bore_is_drawn_smaller_rather_than_on_hundreds_of_sheets, tidy),
		cmocka_unit_test_teardown(the_same_job_is_the_same_bytes, tidy),
		cmocka_unit_test(steps_are_one_two_or_five_times_a_power_of_ten),
		cmocka_unit_test(names_never_stand_on_one_another),
		cmocka_unit_test(a_name_stands_at_its_point_where_there_is_room),
	};

	return run_tests(tests);
}
