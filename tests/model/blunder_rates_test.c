/* How often slips of the pen are caught, and how seldom an honest reading is held, over many bores drilled by
 * chance. The figures are printed.
 */
#include "model/blunder.h"

#include "base/str.h"
#include "drill.h"

static struct suspicion found[SB_SUSPICIONS];
static size_t count;

static void a_forgotten_joint_is_trapped_every_time_when_the_rigs_depth_is_given(void **state)
{
	struct random r = { 1212 };
	int trapped = 0;

	(void)state;
	for (int i = 0; i < 100; i++) {
		struct bore b;
		bore_begin(&b, &pipes[(size_t)i % PIPES], random_between(&r, 0, 360), 0.7);
		int forgotten = 2 + (int)random_between(&r, 0, 25);
		double depth = 0;
		for (int joint = 1; joint <= forgotten; joint++) {
			double length = round(b.pipe->joint * random_between(&r, 0.97, 1.03) * 100) / 100;
			jobs_row(&b.job, "tally", (const char *const[]){ typed(joint, 0), typed(length, 2) });
			depth += length;
			bore_drill(&b, &r);
			struct reading reading = bore_read(&b, &r);
			if (joint < forgotten)
				bore_log(&b, &reading);
		}
		/* The next joint is down too, and its reading is typed with the depth that the rig shows. */
		double next = round(b.pipe->joint * random_between(&r, 0.97, 1.03) * 100) / 100;
		jobs_row(&b.job, "tally", (const char *const[]){ typed(forgotten + 1, 0), typed(next, 2) });
		bore_drill(&b, &r);
		struct reading reading = bore_read(&b, &r);
		struct depth_check depths = { 0 };
		sb_number_parse(typed(depth + next, 1), &depths.bit_depth, NULL);
		count = sb_blunder_look(&b.job, &b.s, &reading, &depths, found);
		for (size_t k = 0; k < count; k++)
			trapped += found[k].held && sb_same(found[k].slip, "a joint forgotten");
		bore_end(&b);
	}
	assert_int_equal(trapped, 100);
}

static size_t honest(
	const struct drill_pipe *p, double steer, double scatter, struct random *r, size_t *joints)
{
	size_t held = 0;

	for (int k = 0; k < 8; k++) {
		struct bore b;
		bore_begin(&b, p, 17 + 43 * k, steer);
		b.scatter = scatter;
		while (bore_goes_on(&b)) {
			bore_drill(&b, r);
			struct reading reading = bore_read(&b, r);
			count = sb_blunder_look(&b.job, &b.s, &reading, NULL, found);
			held += count > 0 && found[0].held;
			bore_log(&b, &reading);
			(*joints)++;
		}
		bore_end(&b);
	}
	return held;
}

/* Wild: every joint turns by chance, up to nearly all that the contract lets a joint turn. Before a bore was
 * measured by its own turns 0.22, 0.32 and 1.05 percent were held, and of the swaps below 84 percent. */
static void an_honest_reading_is_seldom_held(void **state)
{
	static const struct {
		const char *name;
		double steer, scatter, share, share_of_one;
	} hands[] = { { "calm", 0.7, 0.1, 0.001, 0.004 }, { "busy", 0.7, 0.3, 0.003, 0.01 },
		{ "wild", 0.95, 0.3, 0.008, 0.025 } };
	struct random r = { 2013 };

	(void)state;
	for (size_t h = 0; h < 3; h++) {
		size_t all = 0, all_held = 0;
		for (size_t i = 0; i < PIPES; i++) {
			size_t joints = 0,
			       held = honest(&pipes[i], hands[h].steer, hands[h].scatter, &r, &joints);
			assert_true((double)held <= hands[h].share_of_one * (double)joints);
			all += joints;
			all_held += held;
		}
		print_message("%s steering: %zu of %zu honest readings held, %.2f %%\n", hands[h].name,
			all_held, all, 100 * (double)all_held / (double)all);
		assert_true(all > 2000);
		assert_true((double)all_held <= hands[h].share * (double)all);
	}
}

/* Swaps the digits before and after place i; false where that changes nothing or cannot be typed. */
static bool swap(const struct number *from, size_t i, double high, struct number *to)
{
	char text[SB_NUMBER_TEXT];
	size_t j = from->text[i + 1] == '.' ? i + 2 : i + 1;

	sb_copy(text, sizeof text, from->text);
	if (text[i] == '-' || text[i] == text[j])
		return false;
	char c = text[i];
	text[i] = text[j];
	text[j] = c;
	return sb_number_parse(text, to, NULL) == 0 && to->value <= high;
}

/* Of all swaps of neighbouring digits in ordinary bores, those that seem to turn the hole further than the
 * hand ever does, and further than noise. */
static void nearly_every_swap_that_matters_is_held_and_put_right(void **state)
{
	struct random r = { 77 };
	size_t matter = 0, held = 0, right = 0;

	(void)state;
	for (size_t i = 0; i < PIPES; i++) {
		struct bore b;
		bore_begin(&b, &pipes[i], 23 + 29 * (double)i, 0.7);
		b.scatter = 0.1;
		while (bore_goes_on(&b)) {
			bore_drill(&b, &r);
			struct reading good = bore_read(&b, &r), bad = good;
			bool inclination = random_unit(&r) < 0.5;
			struct number *slip = inclination ? &bad.inclination : &bad.azimuth;
			const struct number *meant = inclination ? &good.inclination : &good.azimuth;
			size_t digits = strlen(meant->text) - 2;
			size_t at = (size_t)random_between(&r, 0, (double)digits - 0.01);
			double off = 0;
			if (swap(meant, at, inclination ? 170 : 360, slip))
				off = fabs(slip->value - meant->value);
			if (off > sb_deg(b.most_rad) && off > 1.2 && b.job.reading_count > 3) {
				matter++;
				count = sb_blunder_look(&b.job, &b.s, &bad, NULL, found);
				held += count > 0 && found[0].held;
				right += count > 0 && found[0].has_likely &&
					sb_same(found[0].likely.text, meant->text);
			}
			bore_log(&b, &good);
		}
		bore_end(&b);
	}
	print_message(
		"of %zu swaps that matter %zu were held, %zu with the right value\n", matter, held, right);
	assert_true(matter > 150);
	assert_true((double)held > 0.93 * (double)matter);
	assert_true((double)right > 0.9 * (double)matter);
}

static const struct CMUnitTest tests[] = {
	cmocka_unit_test(a_forgotten_joint_is_trapped_every_time_when_the_rigs_depth_is_given),
	cmocka_unit_test(an_honest_reading_is_seldom_held),
	cmocka_unit_test(nearly_every_swap_that_matters_is_held_and_put_right),
};

int main(void)
{
	return run_tests(tests);
}
