/* The acts on where the bore really is, and the path that follows from them. */
#include "geom/angle.h"
#include "store/stranger.h"

static struct number number(const char *text)
{
	struct number n;

	must(sb_number_parse(text, &n, &book_err));
	return n;
}

static struct sb_store *drilled(int joints)
{
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	for (int i = 0; i < joints; i++)
		must(book_log(store, "90", "90"));
	return store;
}

static int change(struct sb_store *store, const char *section, const char *key, const char *value, int from)
{
	struct change c = { .from_joint = from };

	sb_copy(c.section, sizeof c.section, section);
	sb_copy(c.key, sizeof c.key, key);
	sb_copy(c.value, sizeof c.value, value);
	book_err = (struct sb_err){ 0 };
	return sb_store_change(store, "Ida", &c, 1, "told so", &book_err);
}

static double azimuth_of(const struct sb_store *store, int joint)
{
	return sb_deg(sb_store_solution(store)->path.rows[joint].attitude.azi_rad);
}

/* The plain job reads azimuths from grid north. */
static void a_change_holds_for_what_is_logged_later_and_leaves_earlier_rows(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3);
	must(change(store, "tool", "azimuth_correction", "2.5", 4));
	for (int joint = 1; joint <= 3; joint++)
		assert_near(azimuth_of(store, joint), 90, 1e-12);
	must(book_log(store, "90", "90"));
	assert_near(azimuth_of(store, 3), 90, 1e-12);
	assert_near(azimuth_of(store, 4), 92.5, 1e-12);
	book_equals_file(store);
	/* a correction of an older row is read as that row was */
	struct reading r = book_reading(store, "90", "91");
	sb_copy(r.reason, sizeof r.reason, "misread");
	must(sb_store_correct(store, "Ida", sb_job_joint(sb_store_job(store), 2)->id, &r, &book_err));
	assert_near(azimuth_of(store, 2), 91, 1e-12);
	assert_near(azimuth_of(store, 4), 92.5, 1e-12);
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void a_change_redone_from_a_joint_moves_the_rows_from_there(void **state)
{
	(void)state;
	struct sb_store *store = drilled(4);
	must(change(store, "tool", "azimuth_correction", "2", 3));
	assert_near(azimuth_of(store, 2), 90, 1e-12);
	assert_near(azimuth_of(store, 3), 92, 1e-12);
	/* the later word holds where both do */
	must(change(store, "tool", "azimuth_correction", "1", 4));
	assert_near(azimuth_of(store, 3), 92, 1e-12);
	assert_near(azimuth_of(store, 4), 91, 1e-12);
	must(change(store, "tool", "azimuth_correction", "-1", 0));
	for (int joint = 1; joint <= 4; joint++)
		assert_near(azimuth_of(store, joint), 89, 1e-12);
	book_equals_file(store);
	sb_store_close(store);
}

static void joints_that_were_pulled_back_keep_what_held_for_them(void **state)
{
	(void)state;
	struct sb_store *store = drilled(4);
	must(sb_store_withdraw(store, "Ida", 2, "off line", &book_err));
	must(change(store, "tool", "azimuth_correction", "2", 1));
	const struct path *p = &sb_store_solution(store)->path;
	assert_int_equal(p->old_count, 2);
	assert_near(sb_deg(p->old[1].attitude.azi_rad), 90, 1e-12);
	assert_near(azimuth_of(store, 2), 92, 1e-12);
	sb_store_close(store);
}

/* A sensor 45 ft further back moves the survey depth by 45 there, and nowhere before. */
static void another_tool_moves_the_survey_depth_only_from_there(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3); /* of 31 ft each */
	must(change(store, "tool", "sensor_to_bit", "45", 4));
	must(book_log(store, "90", "90"));
	must(book_log(store, "90", "90"));
	const struct solution *s = sb_store_solution(store);
	assert_near(sb_frame_typed(&s->frame, s->path.rows[3].survey_md_m), 93, 1e-9);
	/* 124 - 45 = 79 ft lies behind the last reading: kept, and the path does not go back */
	assert_false(s->path.rows[4].on_path);
	assert_near(sb_frame_typed(&s->frame, s->path.rows[4].survey_md_m), 79, 1e-9);
	assert_true(s->path.rows[5].on_path);
	assert_near(sb_frame_typed(&s->frame, s->path.rows[5].survey_md_m), 110, 1e-9);
	assert_near(sb_frame_typed(&s->frame, s->path.rows[5].course_m), 17, 1e-9);
	book_equals_file(store);
	sb_store_close(store);
}

/* One tool's errors stand for the whole bore: those of the tool that reads now. */
static void how_sure_the_places_are_goes_by_the_tool_that_reads_now(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3);
	double before = sb_solution_last(sb_store_solution(store))->doubt.across_m;
	must(change(store, "tool", "bias_azimuth", "3", 4));
	double after = sb_solution_last(sb_store_solution(store))->doubt.across_m;
	assert_true(after > 2 * before);
	/* 3 degrees over what lies behind, with a little of the other errors */
	assert_true(after > 0.9 * 93 * 0.3048 * sb_rad(3));
	book_equals_file(store);
	sb_store_close(store);
	book_verify(0);
}

static void a_disturbed_azimuth_is_read_otherwise_or_carried_on(void **state)
{
	(void)state;
	book_new(jobs_plain);
	struct sb_store *store = book_open(STORE_WRITE);
	must(change(store, "azimuth", "convergence", "1.5", 1));
	must(change(store, "tool", "azimuth_correction", "3", 1));
	must(book_log(store, "90", "90"));
	struct reading r = book_reading(store, "90", "95");
	r.azimuth_by = AZIMUTH_BY_GYRO;
	must(sb_store_log(store, "Ida", &r, &book_err));
	r.azimuth_by = AZIMUTH_BY_COIL;
	must(sb_store_log(store, "Ida", &r, &book_err));
	r.azimuth_by = AZIMUTH_BY_HOLD;
	must(sb_store_log(store, "Ida", &r, &book_err));
	r.azimuth = (struct number){ 0 };
	must(sb_store_log(store, "Ida", &r, &book_err));
	assert_near(azimuth_of(store, 1), 93, 1e-12);
	assert_near(azimuth_of(store, 2), 93.5, 1e-12); /* true 95, grid north lies 1.5 east of true */
	assert_near(azimuth_of(store, 3), 95, 1e-12);
	assert_near(azimuth_of(store, 4), 95, 1e-12);
	assert_near(azimuth_of(store, 5), 95, 1e-12);
	assert_true(sb_store_solution(store)->path.rows[5].on_path);
	book_equals_file(store);
	sb_store_close(store);
}

static void what_cannot_change_is_refused_and_nothing_is_written(void **state)
{
	(void)state;
	struct sb_store *store = drilled(2);
	size_t acts = sb_store_job(store)->act_count;
	refused(change(store, "job", "unit", "m", 1), SB_STATE);
	refused(change(store, "azimuth", "scale_factor", "0.9996", 1), SB_STATE);
	refused(change(store, "uncertainty", "confidence", "68", 1), SB_STATE);
	refused(change(store, "azimuth", "north", "3", 1), SB_MISSING);
	refused(change(store, "azimuth", "declination", "east", 1), SB_FORMAT);
	refused(change(store, "azimuth", "declination", "400", 1), SB_RANGE);
	refused(change(store, "azimuth", "declination", "4", 4), SB_RANGE); /* the next joint is 3 */
	refused(change(store, "azimuth", "declination", "4", -1), SB_RANGE);
	/* magnetic readings need a declination */
	refused(change(store, "azimuth", "reference", "magnetic", 3), SB_FORMAT);
	refused(sb_store_change(store, "Ida", NULL, 0, "none", &book_err), SB_RANGE);
	const struct change two[] = {
		{ .section = "azimuth", .key = "declination", .value = "4", .from_joint = 3 },
		{ .section = "azimuth", .key = "convergence", .value = "?", .from_joint = 3 },
	};
	refused(sb_store_change(store, "Ida", two, 2, "half of it is wrong", &book_err), SB_FORMAT);
	refused(sb_store_change(store, "Ida", two, 1, " ", &book_err), SB_RANGE);
	assert_int_equal(sb_store_job(store)->act_count, acts);
	assert_int_equal(sb_store_job(store)->change_count, 0);
	book_equals_file(store);
	sb_store_close(store);
}

static void the_words_of_a_change_say_what_was_and_what_is(void **state)
{
	(void)state;
	struct sb_store *store = drilled(1);
	const struct change two[] = {
		{ .section = "azimuth", .key = "declination", .value = "4.40", .from_joint = 2 },
		{ .section = "tool", .key = "sensor_to_bit", .value = "12", .from_joint = 2 },
	};
	must(sb_store_change(store, "Ida", two, 2, "night crew's tool", &book_err));
	sb_store_close(store);
	assert_string_equal(stranger_reads("SELECT words FROM act WHERE kind = 'change'"),
		"azimuth declination 4.40 (was not given); tool sensor_to_bit 12 (was 0), from joint 2 on: night crew's tool");
	assert_string_equal(
		stranger_reads("SELECT group_concat(key || ' ' || value || ' ' || from_joint || ' ' ||"
			       " who) FROM settings_changed"),
		"declination 4.40 2 Ida,sensor_to_bit 12 2 Ida");
	assert_string_equal(stranger_reads("SELECT value FROM sheet WHERE key = 'sensor_to_bit'"), "0");
}

static int fix_at(struct sb_store *store, const char *depth, const char *offset, const char *sigma)
{
	struct fix f = { .kind = FIX_BEACON, .depth = number(depth) };

	if (*offset)
		f.offset = number(offset);
	if (*sigma)
		f.sigma_across = number(sigma);
	book_err = (struct sb_err){ 0 };
	return sb_store_fix(store, "Ida", &f, "", &book_err);
}

static void a_fix_is_kept_beside_the_path_set_aside_and_used_again(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3);
	double east = sb_solution_last(sb_store_solution(store))->at.e;
	must(fix_at(store, "62", "1.20", "0.5"));
	must(fix_at(store, "93", "1.40", "0.5"));
	assert_true(sb_solution_last(sb_store_solution(store))->at.e == east);
	must(sb_store_fix_use(store, "Bea", 2, false, "a train went by", &book_err));
	assert_true(sb_job_fix(sb_store_job(store), 1)->used);
	assert_false(sb_job_fix(sb_store_job(store), 2)->used);
	book_equals_file(store);
	refused(sb_store_fix_use(store, "Bea", 2, false, "again", &book_err), SB_STATE);
	refused(sb_store_fix_use(store, "Bea", 7, false, "none", &book_err), SB_MISSING);
	must(sb_store_fix_use(store, "Bea", 2, true, "measured again", &book_err));
	book_equals_file(store);
	sb_store_close(store);
	assert_string_equal(stranger_reads("SELECT group_concat(fix || ' ' || used) FROM fixes"), "1 1,2 1");
	book_verify(0);
}

static void a_fix_that_says_too_little_or_lies_past_the_bit_is_refused(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3);
	refused(fix_at(store, "93.5", "1", "0.5"), SB_RANGE);
	assert_non_null(strstr(book_err.text, "the bit is at 93.00 ft"));
	refused(fix_at(store, "62", "", ""), SB_RANGE);
	refused(fix_at(store, "62", "1", ""), SB_RANGE);
	refused(fix_at(store, "62", "", "0.5"), SB_RANGE);
	struct fix f = { .depth = number("62"), .easting = number("5000") };
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	f.northing = number("1000");
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	f.sigma_across = number("0");
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	f.sigma_across = number("0.4");
	f.offset = number("1");
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	f = (struct fix){ .depth = number("62"), .elevation = number("90") };
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	f = (struct fix){ .elevation = number("90"), .sigma_up = number("0.2") };
	refused(sb_store_fix(store, "Ida", &f, "", &book_err), SB_RANGE);
	assert_int_equal(sb_store_job(store)->fix_count, 0);
	book_equals_file(store);
	sb_store_close(store);
}

/* 93 ft straight at 80 degrees from straight down, due east; the angles turn by what is added. */
static void an_adjustment_moves_the_path_and_taking_it_back_gives_the_same_bits(void **state)
{
	(void)state;
	struct sb_store *store = drilled(0);
	for (int i = 0; i < 3; i++)
		must(book_log(store, "80", "90"));
	const struct solution *s = sb_store_solution(store);
	const double length = 93 * 0.3048, inc = sb_rad(80);
	struct vec3 before = sb_solution_last(s)->at;
	struct adjustment a = { .azimuth = number("1"), .fixes = "1" };
	refused(sb_store_adjust_back(store, "Eng", "nothing to take back", &book_err), SB_STATE);
	must(sb_store_adjust(store, "Eng", &a, "agreed with the owner", &book_err));
	struct vec3 at = sb_solution_last(s)->at;
	assert_near(before.n - at.n, length * sin(inc) * sin(sb_rad(1)), 1e-9);
	book_equals_file(store);
	a = (struct adjustment){ .stretch = number("0.001"), .inclination = number("0.5") };
	must(sb_store_adjust(store, "Eng", &a, "with the tally's too", &book_err));
	at = sb_solution_last(s)->at;
	assert_near(at.e, length * 1.001 * sin(inc + sb_rad(0.5)), 1e-9);
	assert_near(at.u - before.u, length * (cos(inc) - 1.001 * cos(inc + sb_rad(0.5))), 1e-9);
	assert_near(at.n, before.n, 1e-9); /* the later one stands alone */
	/* between the readings too, and the measured depth stays the sum of the joints */
	struct vec3 middle;
	sb_path_at(&s->path, length / 2, &middle, NULL);
	assert_near(middle.e, at.e / 2, 1e-9);
	assert_near(sb_solution_last(s)->bit_md_m, length, 1e-9);
	must(sb_store_adjust_back(store, "Eng", "the coil was on the wrong line", &book_err));
	at = sb_solution_last(s)->at;
	assert_true(at.n == before.n && at.e == before.e && at.u == before.u);
	book_equals_file(store);
	a = (struct adjustment){ .fixes = "1" };
	refused(sb_store_adjust(store, "Eng", &a, "nothing in it", &book_err), SB_RANGE);
	sb_store_close(store);
	book_verify(0);
}

static void a_repeat_never_moves_the_path(void **state)
{
	(void)state;
	struct sb_store *store = drilled(3);
	struct vec3 before = sb_solution_last(sb_store_solution(store))->at;
	struct repeat r = { .way = WAY_OUT,
		.depth = number("62.0"),
		.inclination = number("89.9"),
		.azimuth = number("97") };
	must(sb_store_repeat(store, "Ida", &r, "on the way out", &book_err));
	struct vec3 after = sb_solution_last(sb_store_solution(store))->at;
	assert_memory_equal(&before, &after, sizeof before);
	book_equals_file(store);
	r.depth = number("94");
	refused(sb_store_repeat(store, "Ida", &r, "", &book_err), SB_RANGE);
	r.depth = number("62");
	r.inclination = number("181");
	refused(sb_store_repeat(store, "Ida", &r, "", &book_err), SB_RANGE);
	sb_store_close(store);
	assert_string_equal(
		stranger_reads("SELECT way || ' ' || depth || ' ' || azimuth FROM repeat"), "out 62.0 97");
	assert_string_equal(stranger_reads("SELECT words FROM act WHERE kind = 'repeat'"),
		"on the way out at 62.0 ft, inclination 89.9, azimuth 97: on the way out");
}

static void rows_that_name_what_is_not_there_are_damage(void **state)
{
	(void)state;
	struct sb_store *store = drilled(2);
	must(fix_at(store, "31", "1.20", "0.5"));
	must(sb_store_fix_use(store, "Bea", 1, false, "a train", &book_err));
	sb_store_close(store);
	stranger_tampers("UPDATE fix_use SET fix = 9");
	refused(sb_store_open(book_path(), STORE_READ, "", &store, &book_err), SB_DAMAGED);
	stranger_tampers("UPDATE fix_use SET fix = 1; UPDATE fix SET sigma_across = '-3'");
	refused(sb_store_open(book_path(), STORE_READ, "", &store, &book_err), SB_DAMAGED);
	stranger_tampers("UPDATE fix SET sigma_across = '0.5', act = 1");
	refused(sb_store_open(book_path(), STORE_READ, "", &store, &book_err), SB_DAMAGED);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_change_holds_for_what_is_logged_later_and_leaves_earlier_rows),
		cmocka_unit_test(a_change_redone_from_a_joint_moves_the_rows_from_there),
		cmocka_unit_test(joints_that_were_pulled_back_keep_what_held_for_them),
		cmocka_unit_test(another_tool_moves_the_survey_depth_only_from_there),
		cmocka_unit_test(how_sure_the_places_are_goes_by_the_tool_that_reads_now),
		cmocka_unit_test(a_disturbed_azimuth_is_read_otherwise_or_carried_on),
		cmocka_unit_test(what_cannot_change_is_refused_and_nothing_is_written),
		cmocka_unit_test(the_words_of_a_change_say_what_was_and_what_is),
		cmocka_unit_test(a_fix_is_kept_beside_the_path_set_aside_and_used_again),
		cmocka_unit_test(a_fix_that_says_too_little_or_lies_past_the_bit_is_refused),
		cmocka_unit_test(an_adjustment_moves_the_path_and_taking_it_back_gives_the_same_bits),
		cmocka_unit_test(a_repeat_never_moves_the_path),
		cmocka_unit_test(rows_that_name_what_is_not_there_are_damage),
	};

	return run_tests(tests);
}
