/* The second sense against bores whose truth is known: how often an honest reading is held or remarked on in
 * each ground, and which slips it catches. The figures are printed; what they are beside is said where they
 * are asserted.
 */
#include "base/str.h"
#include "geom/angle.h"
#include "geom/random.h"
#include "model/blunder.h"
#include "model/rehearsal.h"
#include "support/jobs.h"
#include "support/near.h"

#include <math.h>
#include <string.h>

static struct suspicion found[SB_SUSPICIONS];
static size_t count;

/* An azimuth of 97.4 on the compass is 90 on the grid. */
static void make_sheet(struct job *job)
{
	jobs_plain(job);
	jobs_set(job, "tool", "sensor_to_bit", "20");
	jobs_set(job, "steering", "slide_turn", "0.08");
	jobs_set(job, "steering", "droop", "0.004");
	jobs_set(job, "azimuth", "reference", "magnetic");
	jobs_set(job, "azimuth", "declination", "-9.4");
	jobs_set(job, "azimuth", "convergence", "-2.0");
	jobs_set(job, "entry", "azimuth", "97.4");
}

/* A bore that was drilled in the ground, and the same job to be logged anew, joint by joint. */
struct bore {
	struct job drilled, job;
	struct solution s;
	size_t next;
};

static void bore_begin(struct bore *b, const struct rehearsal_ground *g, unsigned long long seed, bool vary)
{
	struct rehearsal_figures f;
	struct sb_err err = { 0 };

	memset(b, 0, sizeof *b);
	make_sheet(&b->drilled);
	make_sheet(&b->job);
	struct rehearsal *truth = sb_rehearsal_new(&b->job, g, seed, vary, &err);
	assert_non_null(truth);
	assert_int_equal(sb_rehearsal_run(truth, &b->drilled, &b->s, BY_AIM, &f, &err), 0);
	sb_rehearsal_free(truth);
	sb_solution_clear(&b->s);
	jobs_solve(&b->job, &b->s);
}

static void bore_end(struct bore *b)
{
	sb_solution_clear(&b->s);
	sb_job_clear(&b->job);
	sb_job_clear(&b->drilled);
}

static const struct reading *bore_next(const struct bore *b, size_t ahead)
{
	return b->next + ahead < b->drilled.reading_count ? &b->drilled.readings[b->next + ahead] : NULL;
}

static void bore_log(struct bore *b)
{
	size_t changed;

	sb_job_add_reading(&b->job, bore_next(b, 0));
	assert_int_equal(sb_solve_joint(&b->job, &b->s, &changed, NULL), 0);
	b->next++;
}

static void look(const struct bore *b, const struct reading *r)
{
	count = sb_blunder_look(&b->job, &b->s, r, NULL, found);
}

enum { SEEDS = 100 };

/* Asked for: noise and ground alone hold one reading in 10,000, and one in 500 is remarked on, in ground and
 * with a tool that are about as the sheet has them. What a bore meets that its sheet does not know (noise two
 * and a half times as large, soil that gives 60 percent) may cost a few more before it is learnt. */
static void an_honest_reading_is_hardly_ever_held_in_any_ground(void **state)
{
	size_t all = 0, all_held = 0;

	(void)state;
	for (size_t g = 0; g < sb_rehearsal_measured_count; g++) {
		size_t joints = 0, held = 0, said = 0;
		for (unsigned long long seed = 1; seed <= SEEDS; seed++) {
			struct bore b;
			bore_begin(&b, &sb_rehearsal_scenarios[g].ground, seed, seed % 2 == 0);
			for (; bore_next(&b, 0); bore_log(&b), joints++) {
				look(&b, bore_next(&b, 0));
				held += count > 0 && found[0].held;
				said += count > 0 && !found[0].held;
			}
			bore_end(&b);
		}
		print_message("%-12s of 1,000 honest readings %.2f held, %.2f remarked on (%zu joints)\n",
			sb_rehearsal_scenarios[g].name, 1e3 * (double)held / (double)joints,
			1e3 * (double)said / (double)joints, joints);
		bool noisy = sb_same(sb_rehearsal_scenarios[g].name, "noisy");
		assert_true(1e3 * (double)held <= 0.8 * (double)joints);
		assert_true(1e3 * (double)said <= (noisy ? 20 : 4) * (double)joints);
		all += joints;
		all_held += held;
	}
	print_message("of all %zu honest readings %zu held\n", all, all_held);
	assert_true(all > 15000);
	assert_true(1e4 * (double)all_held <= 2 * (double)all);
}

/* ---- slips ---- */

static const char *text_of(double value)
{
	static char texts[8][SB_NUMBER_TEXT];
	static size_t next;
	char *text = texts[next++ % 8];

	snprintf(text, SB_NUMBER_TEXT, "%.1f", value);
	return text;
}

static bool put(struct number *n, const char *text, double high)
{
	return sb_number_parse(text, n, NULL) == 0 && n->value >= 0 && n->value <= high;
}

static bool swap(struct number *n, struct random *r, double high)
{
	char text[SB_NUMBER_TEXT];
	sb_copy(text, sizeof text, n->text);
	size_t i = (size_t)random_between(r, 0, (double)strlen(text) - 2.01),
	       j = text[i + 1] == '.' ? i + 2 : i + 1;
	if (text[i] == '.' || text[i] == text[j])
		return false;
	char c = text[i];
	text[i] = text[j];
	text[j] = c;
	return put(n, text, high);
}

static bool wrong(struct number *n, struct random *r, double high)
{
	char text[SB_NUMBER_TEXT];
	sb_copy(text, sizeof text, n->text);
	size_t i = (size_t)random_between(r, 0, (double)strlen(text) - 0.01);
	char c = (char)('0' + (int)random_between(r, 0, 9.99));
	if (text[i] == '.' || text[i] == c)
		return false;
	text[i] = c;
	return put(n, text, high);
}

static bool drop(struct number *n, struct random *r, double high)
{
	char text[SB_NUMBER_TEXT];
	sb_copy(text, sizeof text, n->text);
	size_t i = (size_t)random_between(r, 0, (double)strlen(text) - 0.01);
	if (text[i] == '.')
		return false;
	memmove(text + i, text + i + 1, strlen(text + i));
	return put(n, text, high);
}

static bool move_point(struct number *n, double high)
{
	char text[SB_NUMBER_TEXT];
	sb_copy(text, sizeof text, n->text);
	char *point = strchr(text, '.');
	if (point == NULL || point == text + 1)
		return false;
	*point = point[-1];
	point[-1] = '.';
	return put(n, text, high);
}

/* With 250 seeds 2 of 49,296 honest readings were held. Of slips more than a degree and a half out, in shares
 * of those made. A turn that was not made, and one that was made unseen, are as small as any: by the angles
 * alone the last reading typed again and a joint forgotten hardly show (their depths do,
 * blunder_depths_test.c). */
enum slip {
	SWAPPED,
	WRONG,
	DROPPED,
	POINT,
	FROM_LEVEL,
	EXCHANGED,
	REVERSED,
	DECLINATION,
	BOTH_LINKS,
	AGAIN,
	FORGOTTEN,
	SLIPS
};

static const struct {
	const char *name;
	double held, said, right; /* at least */
} slips[SLIPS] = {
	[SWAPPED] = { "two digits swapped", 0.6, 0.9, 0.55 },
	[WRONG] = { "one digit wrong", 0.6, 0.9, 0.5 },
	[DROPPED] = { "a digit left out", 0.98, 0.99, 0.7 },
	[POINT] = { "decimal point misplaced", 0.98, 0.99, 0.75 },
	[FROM_LEVEL] = { "read from level", 0.98, 0.99, 0.85 },
	[EXCHANGED] = { "exchanged", 0.7, 0.95, 0.7 },
	[REVERSED] = { "180 degrees round", 0.99, 0.99, 0.99 },
	[DECLINATION] = { "declination put in already", 0.95, 0.99, 0.7 },
	[BOTH_LINKS] = { "and convergence", 0.7, 0.98, 0.45 },
	[AGAIN] = { "the last reading again", 0.005, 0.03, 0.03 },
	[FORGOTTEN] = { "a joint forgotten", 0, 0.15, 0 },
};

/* The reading as a hand would type it who makes that slip; false where it makes no difference or cannot be
 * typed. */
static bool slip_of(const struct bore *b, enum slip slip, struct random *r, struct reading *out)
{
	bool inclination = random_unit(r) < 0.5;
	const struct reading *last = sb_job_joint(&b->job, (int)b->next);
	*out = *bore_next(b, 0);
	struct number *n = inclination ? &out->inclination : &out->azimuth;
	double high = inclination ? 180 : 360, v = out->azimuth.value;

	switch (slip) {
	case SWAPPED:
		return swap(n, r, high);
	case WRONG:
		return wrong(n, r, high);
	case DROPPED:
		return drop(n, r, high);
	case POINT:
		return move_point(n, high);
	case FROM_LEVEL:
		return put(&out->inclination, text_of(fabs(out->inclination.value - 90)), 180);
	case EXCHANGED:
		out->inclination = bore_next(b, 0)->azimuth;
		out->azimuth = bore_next(b, 0)->inclination;
		return true;
	case REVERSED:
		return put(&out->azimuth, text_of(fmod(v + 180, 360)), 360);
	case DECLINATION:
		return put(&out->azimuth, text_of(v - 9.4), 360);
	case BOTH_LINKS:
		return put(&out->azimuth, text_of(v - 7.4), 360);
	case AGAIN:
		out->inclination = last->inclination;
		out->azimuth = last->azimuth;
		return true;
	case FORGOTTEN:
		if (bore_next(b, 1) == NULL)
			return false;
		*out = *bore_next(b, 1);
		return true;
	case SLIPS:
		break;
	}
	return false;
}

static bool named(enum slip slip, const struct bore *b)
{
	const struct reading *meant = bore_next(b, 0);

	if (count == 0)
		return false;
	if (slip == AGAIN)
		return sb_same(found[0].slip, "the last reading again");
	if (slip == FORGOTTEN)
		return sb_same(found[0].slip, "a joint forgotten");
	if (slip == EXCHANGED)
		return sb_same(found[0].slip, "inclination and azimuth exchanged");
	const struct number *is = sb_same(found[0].field, "azimuth") ? &meant->azimuth : &meant->inclination;
	return found[0].has_likely && fabs(found[0].likely.value - is->value) < 0.051;
}

/* More than a degree and a half out, or nobody could tell it from noise. */
static bool matters(const struct bore *b, const struct reading *bad)
{
	const struct reading *good = bore_next(b, 0);

	return hypot(bad->inclination.value - good->inclination.value,
		       sb_deg(sb_wrap_half(sb_rad(bad->azimuth.value - good->azimuth.value)))) > 1.5;
}

static void slips_are_caught_and_named(void **state)
{
	size_t made[SLIPS] = { 0 }, held[SLIPS] = { 0 }, said[SLIPS] = { 0 }, right[SLIPS] = { 0 };
	struct random r = { 4711 };

	(void)state;
	for (unsigned long long seed = 1; seed <= SEEDS; seed++) {
		struct bore b;
		bore_begin(&b, &sb_rehearsal_scenarios[seed % sb_rehearsal_measured_count].ground,
			1000 + seed, true);
		for (; bore_next(&b, 0); bore_log(&b))
			for (int k = 0; k < SLIPS && b.next > 3; k++) {
				struct reading bad;
				if (!slip_of(&b, (enum slip)k, &r, &bad) || (k < AGAIN && !matters(&b, &bad)))
					continue;
				look(&b, &bad);
				made[k]++;
				held[k] += count > 0 && found[0].held;
				said[k] += count > 0;
				right[k] += named((enum slip)k, &b);
			}
		bore_end(&b);
	}
	for (int k = 0; k < SLIPS; k++) {
		print_message(
			"%-28s of 1,000 (%zu made) %4.0f held, %4.0f held or remarked on, %4.0f named right\n",
			slips[k].name, made[k], 1e3 * (double)held[k] / (double)made[k],
			1e3 * (double)said[k] / (double)made[k], 1e3 * (double)right[k] / (double)made[k]);
		assert_true(made[k] > 500);
		assert_true((double)held[k] >= slips[k].held * (double)made[k]);
		assert_true((double)said[k] >= slips[k].said * (double)made[k]);
		assert_true((double)right[k] >= slips[k].right * (double)made[k]);
	}
}

/* ---- in words ---- */

static struct job job;
static struct solution solution;

static int setup(void **state)
{
	(void)state;
	make_sheet(&job);
	memset(&solution, 0, sizeof solution);
	count = 0;
	return 0;
}

static int teardown(void **state)
{
	(void)state;
	sb_solution_clear(&solution);
	sb_job_clear(&job);
	return 0;
}

static struct reading slid_joint(
	const char *inclination, const char *azimuth, const char *face, const char *slid)
{
	struct reading r = jobs_reading(&job, "", inclination, azimuth);

	assert_int_equal(sb_row_field_put(sb_row_field("tool_face"), &r, job.incline, face, NULL), 0);
	assert_int_equal(sb_row_field_put(sb_row_field("slid"), &r, job.incline, slid, NULL), 0);
	return r;
}

/* Ten joints that answer as the sheet guesses: 15.5 ft slid a joint at 0.08 deg/ft turn 1.24 degrees, up. */
static void drill_up(int joints)
{
	for (int i = 0; i < joints; i++) {
		struct reading r = slid_joint(text_of(80 + 1.2 * i), "97.4", "0", "15.5");
		r.id = (int64_t)job.reading_count + 1;
		sb_job_add_reading(&job, &r);
	}
	sb_solution_clear(&solution);
	jobs_solve(&job, &solution);
}

static void look_here(const struct reading *r)
{
	count = sb_blunder_look(&job, &solution, r, NULL, found);
}

static void assert_starts(const char *text, const char *start, const char *end)
{
	if (strncmp(text, start, strlen(start)) != 0 || strstr(text, end) == NULL)
		print_error("%s\n", text);
	assert_true(strncmp(text, start, strlen(start)) == 0);
	assert_non_null(strstr(text, end));
}

static void what_is_out_is_said_beside_what_the_slides_would_bring(void **state)
{
	(void)state;
	drill_up(10);
	struct reading r = slid_joint("92.0", "97.4", "0", "15.5");
	look_here(&r);
	assert_int_equal(count, 0);
	r = slid_joint("92.0", "79.4", "0", "15.5");
	look_here(&r);
	assert_int_equal(count, 1);
	assert_true(found[0].held);
	assert_string_equal(found[0].slip, "two digits swapped");
	assert_string_equal(found[0].likely.text, "97.4");
	assert_starts(found[0].text,
		"Azimuth 79.4 is 18.0 deg left of what the slides since the last reading would bring (97.",
		"Meant 97.4? (two digits swapped)");
	r = slid_joint("29.0", "97.4", "0", "15.5");
	look_here(&r);
	assert_true(found[0].held);
	assert_string_equal(found[0].likely.text, "92.0");
	assert_starts(found[0].text, "Inclination 29.0 points ",
		"lower than what the slides since the last reading would bring");
}

/* A degree and a half up is nothing to a slide; but the last 11 ft of the course were rotated, as far as the
 * log knows. */
static void a_slide_that_was_not_written_down_is_asked_for_and_holds_nobody_up(void **state)
{
	(void)state;
	drill_up(12);
	struct reading r = slid_joint("93.8", "97.4", "", "");
	look_here(&r);
	assert_int_equal(count, 0);
	r = slid_joint("95.4", "97.4", "", "");
	look_here(&r);
	assert_int_equal(count, 1);
	assert_string_equal(found[0].field, "slid");
	assert_false(found[0].held);
	assert_starts(found[0].text,
		"Inclination 95.4 points 1.5 deg higher than what the slides since the last reading would bring (93.9, ",
		"A slide would explain it: was one not written down?");
}

/* Once, each reading after one that was logged with a reason was held until the filter came round to it. */
static void who_stood_by_a_reading_is_not_asked_again_at_each_joint(void **state)
{
	(void)state;
	drill_up(10);
	for (int i = 0; i < 8; i++) {
		struct reading r = slid_joint("92.0", "103.4", "", "0");
		look_here(&r);
		if (i == 0) {
			assert_int_equal(count, 1);
			sb_copy(r.reason, sizeof r.reason, "read three times");
		} else {
			assert_false(count > 0 && found[0].held);
		}
		r.id = (int64_t)job.reading_count + 1;
		sb_job_add_reading(&job, &r);
		sb_solution_clear(&solution);
		jobs_solve(&job, &solution);
	}
}

static void a_held_azimuth_is_not_judged(void **state)
{
	(void)state;
	drill_up(10);
	struct reading r = slid_joint("92.0", "17.4", "0", "15.5");
	r.azimuth_by = AZIMUTH_BY_HOLD;
	look_here(&r);
	assert_int_equal(count, 0);
	memset(&r.azimuth, 0, sizeof r.azimuth);
	look_here(&r);
	assert_int_equal(count, 0);
	r.inclination = slid_joint("29.0", "0", "", "").inclination;
	look_here(&r);
	assert_true(found[0].held);
	assert_string_equal(found[0].likely.text, "92.0");
}

/* The grid is at 90: a gyro reads from true north, two degrees less; a coil from the grid. */
static void a_gyro_and_a_coil_are_turned_into_the_same_frame(void **state)
{
	(void)state;
	drill_up(10);
	struct reading r = slid_joint("92.0", "88.0", "0", "15.5");
	r.azimuth_by = AZIMUTH_BY_GYRO;
	look_here(&r);
	assert_int_equal(count, 0);
	r = slid_joint("92.0", "90.0", "0", "15.5");
	r.azimuth_by = AZIMUTH_BY_COIL;
	look_here(&r);
	assert_int_equal(count, 0);
	r = slid_joint("92.0", "09.0", "0", "15.5");
	r.azimuth_by = AZIMUTH_BY_COIL;
	look_here(&r);
	assert_true(found[0].held);
	assert_starts(found[0].text, "Azimuth 09.0 is ", "(90.0, give or take");
}

/* Another tool came before joint 1, and its display was left as it was once: 6.3 degrees between the two. */
static void the_declination_of_before_is_named(void **state)
{
	struct change c = { .fact = { .id = 1, .act = 2, .leg = 1 },
		.section = "azimuth",
		.key = "declination",
		.value = "-3.1",
		.from_joint = 0 };

	(void)state;
	sb_job_add_change(&job, &c);
	drill_up(10);
	struct reading r = slid_joint("92.0", "97.4", "0", "15.5");
	look_here(&r);
	assert_int_equal(count, 0);
	r = slid_joint("92.0", "103.7", "0", "15.5");
	look_here(&r);
	assert_int_equal(count, 1);
	assert_true(found[0].held);
	assert_string_equal(found[0].slip, "with the declination of before");
	assert_string_equal(found[0].likely.text, "97.4");
}

#define HERE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_honest_reading_is_hardly_ever_held_in_any_ground),
		cmocka_unit_test(slips_are_caught_and_named),
		HERE(what_is_out_is_said_beside_what_the_slides_would_bring),
		HERE(a_slide_that_was_not_written_down_is_asked_for_and_holds_nobody_up),
		HERE(who_stood_by_a_reading_is_not_asked_again_at_each_joint),
		HERE(a_held_azimuth_is_not_judged),
		HERE(a_gyro_and_a_coil_are_turned_into_the_same_frame),
		HERE(the_declination_of_before_is_named),
	};
	return run_tests(tests);
}
