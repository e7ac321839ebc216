/* Lines sampled as drawings list them, rounded as drawings round, and got back. */
#include "geom/chain_fit.h"

#include "geom/angle.h"
#include "random.h"
#include "support/near.h"

#include <string.h>

#define MOST 6000

/* A drawing: what it was drawn from, how closely it lists stations, and to how many decimals. */
struct drawn {
	const char *name;
	struct chain_pi pis[8];
	size_t count;
	double every, unit_of_last_digit;
	bool heights;
};

static double xs[MOST], ys[MOST];
static struct fit_room room[MOST];
static struct random chance;

static double rounded(double value, double to)
{
	return to > 0 ? round(value / to) * to : value;
}

/* Stations at an interval, as drawings give them, and the last one. Returns how many. */
static size_t sample(const struct drawn *d)
{
	struct chain_part parts[16];
	size_t count, n = 0;

	assert_int_equal(sb_chain_build(d->pis, d->count, parts, &count, NULL, NULL), CHAIN_OK);
	double length = d->heights ? d->pis[d->count - 1].x - d->pis[0].x : sb_chain_length(parts, count);
	for (double at = 0; n < MOST; at = fmin(at + d->every, length)) {
		struct chain_place p = sb_chain_at(parts, count, at);
		double x = d->pis[0].x + at;
		xs[n] = rounded(d->heights ? x : p.x, d->unit_of_last_digit);
		ys[n] = rounded(d->heights ? sb_chain_height(parts, count, x).y : p.y, d->unit_of_last_digit);
		n++;
		if (at >= length)
			return n;
	}
	fail();
	return 0;
}

static enum fit_status fit_drawn(const struct drawn *d, struct chain_fit *fit)
{
	size_t n = sample(d);
	double within = d->unit_of_last_digit > 0 ? d->unit_of_last_digit : 1e-6;

	return sb_chain_fit(xs, ys, n, d->heights, within, room, fit);
}

/* How far a line may lie from the one it was drawn from: the rounding, and less the more points there are;
 * radii as far as the fit itself says, three sigma. */
static void assert_got_back(const struct drawn *d, const struct chain_fit *fit, double place, double radius)
{
	print_message("%s\n", d->name);
	assert_int_equal(fit->count, d->count);
	for (size_t i = 0; i < d->count; i++) {
		bool end = i == 0 || i + 1 == d->count;
		assert_near(fit->pis[i].x, d->pis[i].x, place);
		assert_near(fit->pis[i].y, d->pis[i].y, place);
		if (!end)
			assert_near(
				fit->pis[i].radius, d->pis[i].radius, fmax(radius, 4 * fit->radius_sigma[i]));
	}
}

/* Profiles A and B are derived, no publication: entry down, level bottom, exit up. Points of intersection
 * from the angles: A 25/tan 12 deg = 117.6158 before the bottom, 23/tan 10 deg = 130.4395 before the exit; B
 * 60/tan 10 deg = 340.2769, 56/tan 8 deg = 398.4607. */
#define PROFILE_A { { 0, 100, 0 }, { 117.61575273, 75, 800 }, { 569.56051988, 75, 800 }, { 700, 98, 0 } }, 4
#define PROFILE_B \
	{ { 0, 500, 0 }, { 340.27690918, 440, 2400 }, { 2001.53929502, 440, 2400 }, { 2400, 496, 0 } }, 4
/* The samples' own: Kestrel Road's profile and alignment, Tern Slough's profile. */
#define KESTREL { { 0, 21.4, 0 }, { 44.12, 10.4, 250 }, { 360.25, 10.4, 250 }, { 420, 23.1, 0 } }, 4
#define KESTREL_PLAN { { 2845.200, 3210.400, 0 }, { 2998.469, 3322.576, 400 }, { 3145.956, 3499.596, 0 } }, 3
#define TERN { { 0, 38.5, 0 }, { 437.29, -46.5, 2400 }, { 1470.29, -46.5, 2400 }, { 2100, 42, 0 } }, 4

static const struct drawn exact[] = {
	{ "profile A, every 10", PROFILE_A, 10, 0, true },
	{ "profile B, every 25", PROFILE_B, 25, 0, true },
	{ "Kestrel, every 5", KESTREL, 5, 0, true },
	{ "Kestrel's plan, every 10", KESTREL_PLAN, 10, 0, false },
	{ "Tern, every 50", TERN, 50, 0, true },
};

static void designs_listed_with_every_digit_come_back(void **state)
{
	struct chain_fit fit;

	(void)state;
	for (size_t i = 0; i < sizeof exact / sizeof *exact; i++) {
		assert_int_equal(fit_drawn(&exact[i], &fit), FIT_OK);
		assert_got_back(&exact[i], &fit, 1e-5, 1e-3);
		assert_true(fit.worst < 1e-6);
	}
}

static const struct drawn listed[] = {
	{ "profile A, every 5, 3 decimals", PROFILE_A, 5, 0.001, true },
	{ "profile A, every 10, 2 decimals", PROFILE_A, 10, 0.01, true },
	{ "profile B, every 10, 2 decimals", PROFILE_B, 10, 0.01, true },
	{ "profile B, every 25, 1 decimal", PROFILE_B, 25, 0.1, true },
	{ "Kestrel, every 2, 2 decimals", KESTREL, 2, 0.01, true },
	{ "Kestrel, every 10, 2 decimals", KESTREL, 10, 0.01, true },
	{ "Kestrel's plan, every 5, 3 decimals", KESTREL_PLAN, 5, 0.001, false },
	{ "Kestrel's plan, every 10, 2 decimals", KESTREL_PLAN, 10, 0.01, false },
	{ "Tern, every 10, 2 decimals", TERN, 10, 0.01, true },
	{ "Tern, every 31.2, 1 decimal", TERN, 31.2, 0.1, true },
};

static void designs_listed_as_drawings_round_come_back(void **state)
{
	struct chain_fit fit;

	(void)state;
	for (size_t i = 0; i < sizeof listed / sizeof *listed; i++) {
		const struct drawn *d = &listed[i];
		assert_int_equal(fit_drawn(d, &fit), FIT_OK);
		/* A point of intersection is as sure as the two tangents are; they meet at some ten degrees,
		 * so along the line it is off by several times what it is off across. */
		assert_got_back(d, &fit, 8 * d->unit_of_last_digit, d->unit_of_last_digit);
		assert_true(fit.worst <= d->unit_of_last_digit);
	}
}

static const struct drawn shapes[] = {
	{ "a straight", { { 0, 0, 0 }, { 300, 40, 0 } }, 2, 10, 0.01, false },
	{ "a reverse bend without a tangent between", /* T 43.6610 each way, 100 apart less 12.678 */
		{ { 0, 0, 0 }, { 150, 0, 500 }, { 236.9918, 7.6108, 500 }, { 390, 7.6108, 0 } }, 4, 5, 0,
		false },
	{ "a curve from the first point to the last", /* R 300, 40 degrees: T 109.1911 */
		{ { 0, 0, 0 }, { 109.1911, 0, 300 }, { 192.8363, 70.1867, 0 } }, 3, 5, 0, false },
	{ "a plan that turns by 80 degrees", { { 0, 0, 0 }, { 500, 0, 300 }, { 600, 567.1281820, 0 } }, 3, 10,
		0.001, false },
	{ "four curves",
		{ { 0, 10, 0 }, { 80, -10, 300 }, { 250, -12, 600 }, { 400, -4, 500 }, { 560, -6, 400 },
			{ 700, 20, 0 } },
		6, 5, 0.001, true },
};

static void other_shapes_come_back(void **state)
{
	struct chain_fit fit;

	(void)state;
	for (size_t i = 0; i < sizeof shapes / sizeof *shapes; i++) {
		const struct drawn *d = &shapes[i];
		assert_int_equal(fit_drawn(d, &fit), FIT_OK);
		assert_got_back(d, &fit, fmax(0.01, 8 * d->unit_of_last_digit), 0.05);
	}
}

/* Down, along the bottom with up to two bends more, and up again: angles, lengths and radii by chance, radii
 * to the metre. Every curve leaves its neighbours a tangent. */
static void draw_by_chance(struct drawn *d)
{
	double slope = -tan(sb_rad(8 + 8 * random_unit(&chance))), x = 0, y = 50;

	*d = (struct drawn){ .name = "by chance", .heights = true, .every = 2 + 6 * random_unit(&chance) };
	d->unit_of_last_digit = random_unit(&chance) < 0.5 ? 0.01 : 0.001;
	size_t inner = 2 + (size_t)(3 * random_unit(&chance));
	double before = 0; /* tangent of the curve behind */
	for (size_t i = 0; i <= inner + 1; i++) {
		double next = i == inner ? tan(sb_rad(8 + 8 * random_unit(&chance)))
					 : tan(sb_rad(-3 + 6 * random_unit(&chance)));
		double turn = i == 0 || i > inner ? 0 : fabs(atan(next) - atan(slope));
		double radius = turn > sb_rad(2) ? 250 + floor(800 * random_unit(&chance)) : 0;
		double tangent = radius * tan(turn / 2);
		if (i > 0) {
			double leg = before + tangent + 25 + 60 * random_unit(&chance);
			x += leg * cos(atan(slope));
			y += leg * sin(atan(slope));
		}
		if (i == 0 || i > inner || radius > 0)
			d->pis[d->count++] = (struct chain_pi){ x, y, radius };
		if (radius > 0)
			slope = next;
		before = radius > 0 ? tangent : 0;
	}
}

static void whatever_is_drawn_comes_back(void **state)
{
	struct chain_fit fit;
	struct drawn d;

	(void)state;
	chance.state = 20261125;
	for (int i = 0; i < 300; i++) {
		draw_by_chance(&d);
		assert_int_equal(fit_drawn(&d, &fit), FIT_OK);
		assert_int_equal(fit.count, d.count);
		for (size_t k = 1; k + 1 < d.count; k++) {
			/* Tangents of 25 m that are known to a digit meet at a few degrees: the point of
			 * intersection slides along them, by more the flatter they meet. */
			double flat = fmax(0.05,
				fabs(atan2(d.pis[k + 1].y - d.pis[k].y, d.pis[k + 1].x - d.pis[k].x) -
					atan2(d.pis[k].y - d.pis[k - 1].y, d.pis[k].x - d.pis[k - 1].x)));
			assert_near(fit.pis[k].x, d.pis[k].x, 6 * d.unit_of_last_digit / flat);
			assert_near(fit.pis[k].y, d.pis[k].y, 4 * d.unit_of_last_digit);
			assert_near(fit.pis[k].radius, d.pis[k].radius, 5 * fit.radius_sigma[k] + 1e-6);
		}
	}
}

/* A round radius is tried by holding it and fitting everything else again. */
static void a_radius_can_be_held(void **state)
{
	struct chain_fit fit;

	(void)state;
	size_t n = sample(&listed[5]);
	assert_int_equal(sb_chain_fit(xs, ys, n, true, 0.01, room, &fit), FIT_OK);
	for (size_t i = 1; i < 3; i++) {
		fit.held[i] = true;
		fit.pis[i].radius = 250;
	}
	assert_int_equal(sb_chain_refit(xs, ys, n, true, 0.01, &fit), FIT_OK);
	assert_near(fit.pis[1].radius, 250, 0);
	assert_near(fit.radius_sigma[1], 0, 0);
	assert_near(fit.pis[1].x, 44.12, 0.03);
	fit.pis[1].radius = 300;
	assert_int_equal(sb_chain_refit(xs, ys, n, true, 0.01, &fit), FIT_OFF);
	assert_true(fit.worst > 0.05);
}

/* One slip of the pen, a tenth of a metre in one elevation, is not fitted away, and is the place that is
 * named. */
static void a_point_that_is_off_is_named(void **state)
{
	struct chain_fit fit;

	(void)state;
	size_t n = sample(&listed[1]);
	ys[40] += 0.1;
	assert_int_equal(sb_chain_fit(xs, ys, n, true, 0.01, room, &fit), FIT_OFF);
	assert_int_equal(fit.worst_at, 40);
	assert_true(fit.worst > 0.05 && fit.worst < 0.1);
}

/* A parabola of 200 m is no arc: the nearest arcs of it miss by more than a centimetre. Grades -20 and 20
 * percent, so the arc of equal tangents has a radius of 516 m and lies 0.13 m inside. */
static void a_parabola_is_no_curve(void **state)
{
	struct chain_fit fit;
	size_t n = 0;

	(void)state;
	for (double x = 0; x <= 400; x += 5, n++) {
		double in = fmin(fmax(x - 100, 0), 200);
		xs[n] = x;
		ys[n] = 100 - 0.2 * x + 0.001 * in * in + 0.4 * fmax(x - 300, 0);
	}
	assert_true(sb_chain_fit(xs, ys, n, true, 0.01, room, &fit) != FIT_OK || fit.count > 3);
}

static void what_is_no_line_is_refused(void **state)
{
	double x[] = { 0, 10, 20, 20, 30 }, y[] = { 0, 1, 2, 2, 3 };
	struct chain_fit fit;

	(void)state;
	assert_int_equal(sb_chain_fit(x, y, 2, true, 0.01, room, &fit), FIT_FEW);
	assert_int_equal(sb_chain_fit(x, y, 5, true, 0.01, room, &fit), FIT_SAME);
	assert_int_equal(fit.worst_at, 3);
	y[3] = 5;
	assert_int_equal(sb_chain_fit(x, y, 5, true, 0.01, room, &fit), FIT_SAME); /* straight up */
	y[1] = NAN;
	assert_int_equal(sb_chain_fit(x, y, 5, true, 0.01, room, &fit), FIT_RANGE);
	assert_int_equal(fit.worst_at, 1);
	chance.state = 7;
	for (size_t i = 0; i < 400; i++) {
		xs[i] = (double)i;
		ys[i] = 10 * random_unit(&chance);
	}
	assert_true(sb_chain_fit(xs, ys, 400, true, 0.01, room, &fit) != FIT_OK);
	for (size_t i = 0; i < 400; i++)
		ys[i] = (double)(i % 20 < 10 ? i % 20 : 20 - i % 20);
	assert_int_equal(sb_chain_fit(xs, ys, 400, true, 0.01, room, &fit), FIT_MANY);
	assert_int_equal(fit.count, 0);
}

static void curves_that_overlap_by_a_hair_are_eased(void **state)
{
	struct chain_pi pis[] = { { 0, 0, 0 }, { 100, 0, 300 }, { 200, 60, 300 }, { 300, 60, 0 } };
	struct chain_part parts[8];
	size_t count;

	(void)state;
	double taken = sb_chain_ease(pis, 4);
	assert_true(taken > 0);
	assert_near(pis[1].radius, 300 * (1 - taken), 1e-9);
	assert_near(pis[2].radius, pis[1].radius, 1e-9);
	assert_int_equal(sb_chain_build(pis, 4, parts, &count, NULL, NULL), CHAIN_OK);
	assert_near(sb_chain_ease(pis, 4), 0, 1e-12);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(designs_listed_with_every_digit_come_back),
		cmocka_unit_test(designs_listed_as_drawings_round_come_back),
		cmocka_unit_test(other_shapes_come_back),
		cmocka_unit_test(whatever_is_drawn_comes_back),
		cmocka_unit_test(a_radius_can_be_held),
		cmocka_unit_test(a_point_that_is_off_is_named),
		cmocka_unit_test(a_parabola_is_no_curve),
		cmocka_unit_test(what_is_no_line_is_refused),
		cmocka_unit_test(curves_that_overlap_by_a_hair_are_eased),
	};

	return run_tests(tests);
}
