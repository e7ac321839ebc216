/* Lines from handbooks and drawings. Lengths in the unit of the source. */
#include "line.h"

/* Army FM 5-233 (now TM 3-34.55) chapter 3, from memory: PI 18+00, I 45 degrees, D 15 degrees by the arc
 * definition (a curve turns D over 100 ft). */
static void an_army_highway_curve(void **state)
{
	double radius = 100 / sb_rad(15), c = sqrt(0.5);
	struct line l = { .pis = { { 0, 0, 0 }, { 1800, 0, radius }, { 1800 + 900 * c, 900 * c, 0 } },
		.pi_count = 3 };
	double at, offset;

	(void)state;
	line_build(&l);
	assert_near(radius, 381.97, 5e-3);
	assert_near(l.parts[1].at, 1641.78, 5e-3);    /* PC 16+41.78, so T 158.22 */
	assert_near(l.parts[1].length, 300.00, 5e-3); /* L */
	assert_near(l.parts[2].at, 1941.78, 5e-3);    /* PT 19+41.78 */
	assert_near(1 / l.parts[1].curvature, radius, 1e-10);
	struct chain_place pc = line_at(&l, l.parts[1].at), pt = line_at(&l, l.parts[2].at);
	assert_near(hypot(pt.x - pc.x, pt.y - pc.y), 292.35, 5e-3); /* long chord */
	sb_chain_project(l.parts, l.count, 1800, 0, 1800, &at, &offset);
	assert_near(offset, -31.47, 5e-3); /* external distance, on the outside */
	assert_near(at, 1791.78, 5e-3);
	sb_chain_project(l.parts, l.count, (pc.x + pt.x) / 2, (pc.y + pt.y) / 2, 1800, &at, &offset);
	assert_near(offset, 29.08, 5e-3); /* middle ordinate */
	assert_near(at, 1791.78, 5e-3);
}

/* A homework page: R 420 m, deflection 71 39, PI 4256.40. Its tangent and PC are right; it prints L 630.266
 * and PT 4583.474, which do not follow: 525.222 and 4478.430. */
static void a_homework_curve_with_a_wrong_answer(void **state)
{
	double turn = sb_rad(71 + 39 / 60.0);
	struct line l = { .pis = { { 0, 0, 0 }, { 4256.40, 0, 420 },
				  { 4256.40 + 900 * cos(turn), 900 * sin(turn), 0 } },
		.pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_near(4256.40 - l.parts[1].at, 303.19, 5e-3);
	assert_near(l.parts[1].at, 3953.208, 5e-4);
	assert_near(l.parts[1].length, 525.222, 5e-4);
	assert_near(l.parts[2].at, 4478.430, 5e-4);
	assert_true(fabs(l.parts[1].length - 630.266) > 100);
	assert_true(fabs(l.parts[2].at - 4583.474) > 100);
}

/* Crossing profiles, derived, no publication: entry down, level bottom, exit up, one radius for both. */
struct profile {
	double entry_z, entry_deg, exit_x, exit_z, exit_deg, radius, bottom;
	double at[4][2]; /* PC1, PT1, PC2, PT2 */
	double lengths[5], total;
};

static const struct profile profile_a = { 100, 12, 700, 98, 10, 800, 75,
	{ { 35.369788, 92.481919 }, { 201.699141, 75 }, { 499.569587, 75 }, { 638.488129, 87.153798 } },
	{ 36.159970, 167.551608, 297.870446, 139.626340, 62.460790 }, 703.669155 };

static const struct profile profile_b = { 500, 10, 2400, 496, 8, 2400, 440,
	{ { 133.494075, 476.461393 }, { 550.249702, 440 }, { 1833.714947, 440 },
		{ 2167.730389, 463.356635 } },
	{ 135.553437, 418.879020, 1283.465245, 335.103216, 234.552257 }, 2407.553176 };

static struct line profile_line(const struct profile *p)
{
	double in = (p->entry_z - p->bottom) / tan(sb_rad(p->entry_deg));
	double out = p->exit_x - (p->exit_z - p->bottom) / tan(sb_rad(p->exit_deg));
	struct line l = { .pis = { { 0, p->entry_z, 0 }, { in, p->bottom, p->radius },
				  { out, p->bottom, p->radius }, { p->exit_x, p->exit_z, 0 } },
		.pi_count = 4 };

	line_build(&l);
	return l;
}

static void check_profile(const struct profile *p)
{
	struct line l = profile_line(p);

	assert_int_equal(l.count, 5);
	for (size_t i = 0; i < 5; i++)
		assert_near(l.parts[i].length, p->lengths[i], 5.1e-7);
	assert_near(l.length, p->total, 5.1e-7);
	for (size_t i = 0; i < 4; i++) {
		assert_near(l.parts[i + 1].x, p->at[i][0], 5.1e-7);
		assert_near(l.parts[i + 1].y, p->at[i][1], 5.1e-7);
		assert_near(sb_chain_height(l.parts, l.count, p->at[i][0]).y, p->at[i][1], 1e-6);
	}
	assert_near(sb_chain_height(l.parts, l.count, 0).slope, -tan(sb_rad(p->entry_deg)), 1e-15);
	assert_near(sb_chain_height(l.parts, l.count, p->exit_x).slope, tan(sb_rad(p->exit_deg)), 1e-14);
	assert_near(sb_chain_height(l.parts, l.count, p->exit_x).y, p->exit_z, 1e-11);
}

static void a_crossing_in_metres(void **state)
{
	(void)state;
	check_profile(&profile_a);
}

static void a_crossing_in_feet(void **state)
{
	(void)state;
	check_profile(&profile_b);
}

/* Points built from the centre of the entry curve of profile B, (550.249702, 2840), at known places. */
static void points_about_the_centre_of_an_entry_curve_come_back(void **state)
{
	struct line l = profile_line(&profile_b);

	(void)state;
	for (double angle = 0.25; angle < 10; angle += 0.75)
		for (double off = -300; off <= 2000; off += 115) {
			double x = 550.249702 - (2400 - off) * sin(sb_rad(angle));
			double y = 2840 - (2400 - off) * cos(sb_rad(angle)), at, offset;
			sb_chain_project(l.parts, l.count, x, y, 300, &at, &offset);
			assert_near(at, 135.553437 + 2400 * sb_rad(10 - angle), 5e-6);
			assert_near(offset, off, 2e-6);
		}
}

/* A crest vertical curve of a worked example (scribd 410115058): grades +3 and -4 percent, PVI 345+60 at
 * 250 m, L 2170 m, so PVC 334+75 at 217.45 and PVT 356+45 at 206.60. It is a parabola; a circle of the same
 * tangents lies within 3 mm of it here, where the grades are small (derived), so its rows, printed to
 * 0.01, hold for a circular line to 0.01. The page writes PVT = PVI + L and means PVI + L/2. */
static void a_flat_crest_curve(void **state)
{
	static const double rows[][2] = { { 25, 218.19 }, { 125, 220.95 }, { 225, 223.38 }, { 325, 225.50 },
		{ 425, 227.29 }, { 525, 228.75 }, { 625, 229.90 }, { 725, 230.72 }, { 825, 231.22 },
		{ 925, 231.40 }, { 1025, 231.25 }, { 1125, 230.79 }, { 1225, 230.00 }, { 1325, 228.88 },
		{ 1425, 227.45 }, { 1525, 225.69 }, { 1625, 223.61 }, { 1725, 221.21 }, { 1825, 218.48 },
		{ 1925, 215.43 }, { 2025, 212.06 }, { 2125, 208.37 } };
	double half_turn = (atan(0.03) + atan(0.04)) / 2, tangent = 1085 * hypot(1, 0.03);
	struct line l = { .pis = { { 33475 - 500, 217.45 - 15, 0 }, { 34560, 250, tangent / tan(half_turn) },
				  { 35645 + 500, 206.60 - 20, 0 } },
		.pi_count = 3 };

	(void)state;
	line_build(&l);
	assert_near(l.parts[1].x, 33475, 1e-6);
	assert_near(l.parts[1].y, 217.45, 1e-6);
	assert_near(l.parts[2].x, 35645, 0.5); /* a circle's tangents are alike along the slope, not level */
	assert_near(l.parts[2].y, 206.60, 0.02);
	for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
		assert_near(sb_chain_height(l.parts, l.count, 33475 + rows[i][0]).y, rows[i][1], 0.01);
	assert_near(sb_chain_height(l.parts, l.count, 33475 + 930).slope, 0, 2e-6); /* the high point */
}

/* A fusible-PVC pipe maker's rod deflection table: R = 250 OD; a rod along the curve turns L/R and ends at a
 * slope of 100 tan(L/R) percent. Printed 30.9 and 20.3; the others recomputed. */
static void rods_along_a_curve_end_at_the_printed_slopes(void **state)
{
	static const struct {
		double radius, rod, degrees, slope;
	} table[] = { { 100, 30, 17.19, 30.9 }, { 144, 30, 11.94, 21.1 }, { 100, 20, 11.46, 20.3 },
		{ 100, 15, 8.59, 15.1 }, { 100, 10, 5.73, 10.0 } };
	static const double sizes[][2] = { { 4.80, 100 }, { 6.90, 144 }, { 9.05, 189 }, { 11.10, 231 },
		{ 13.20, 275 }, { 15.30, 319 }, { 17.40, 363 }, { 19.50, 406 }, { 21.60, 450 },
		{ 25.80, 538 }, { 32.00, 667 }, { 38.30, 798 } };

	(void)state;
	for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
		double r = table[i].radius;
		struct line l = { .pis = { { 0, 0, 0 }, { r, 0, r }, { r, 2 * r, 0 } }, .pi_count = 3 };
		line_build(&l);
		struct chain_place end = line_at(&l, table[i].rod);
		assert_near(sb_deg(end.bearing), table[i].degrees, 5.1e-3);
		assert_near(sb_chain_height(l.parts, l.count, end.x).slope * 100, table[i].slope, 0.051);
	}
	for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
		double r = 250 * sizes[i][0] / 12;
		struct line l = { .pis = { { 0, 0, 0 }, { r, 0, r }, { r, r, 0 } }, .pi_count = 3 };
		line_build(&l);
		assert_near(30 / line_at(&l, 30).bearing, sizes[i][1], 0.51);
	}
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(an_army_highway_curve),
		cmocka_unit_test(a_homework_curve_with_a_wrong_answer),
		cmocka_unit_test(a_crossing_in_metres),
		cmocka_unit_test(a_crossing_in_feet),
		cmocka_unit_test(points_about_the_centre_of_an_entry_curve_come_back),
		cmocka_unit_test(a_flat_crest_curve),
		cmocka_unit_test(rods_along_a_curve_end_at_the_printed_slopes),
	};

	return run_tests(tests);
}
