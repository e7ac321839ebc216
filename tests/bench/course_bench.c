/* What the path through slides costs beside the arc alone, per joint.
 *
 * Ours: sb_course_between over the stretches of a joint of a pilot bore: two pushes with the rotations around
 * them, and the tail of the joint before; from attitudes to the displacement, closed on both to 1e-14 rad.
 * Bare: sb_arc_between of the same attitudes.
 */
#include "geom/angle.h"
#include "geom/course.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { JOINTS = 300, ROUNDS = 25, REPEATS = 20, STRETCHES = 5 };

static struct attitude at[JOINTS + 1];
static struct course_stretch stretch[JOINTS][STRETCHES];

static const double length = 9.6;

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void drill(void)
{
	static const double parts[STRETCHES] = { 3, 1.5, 2.1, 1.2, 1.8 };

	for (int i = 0; i <= JOINTS; i++)
		at[i] = sb_attitude(
			sb_rad(80 + 0.06 * i + 0.1 * sin(2.3 * i)), sb_rad(40 + 0.2 * sin(3.1 * i)));
	for (int i = 0; i < JOINTS; i++)
		for (int k = 0; k < STRETCHES; k++) {
			double turn = k % 2 ? sb_rad(0.2) : sb_rad(0.01), face = 1.3 * i + k;
			stretch[i][k] =
				(struct course_stretch){ parts[k], turn * cos(face), turn * sin(face) };
		}
}

static double courses(void)
{
	double sum = 0;
	struct course c;

	for (int i = 0; i < JOINTS; i++) {
		if (sb_course_between(&at[i], &at[i + 1], length, stretch[i], STRETCHES, &c) != COURSE_OK) {
			printf("course_bench: joint %d is not laid\n", i);
			exit(1);
		}
		sum += c.step.n;
	}
	return sum;
}

static double arcs(void)
{
	double sum = 0;
	struct arc arc;

	for (int i = 0; i < JOINTS; i++) {
		sb_arc_between(&at[i], &at[i + 1], length, &arc);
		sum += arc.step.n;
	}
	return sum;
}

int main(void)
{
	double ours = HUGE_VAL, bare = HUGE_VAL, sink = 0;

	drill();
	for (int round = 0; round < ROUNDS; round++) {
		double t0 = seconds();
		for (int i = 0; i < REPEATS; i++)
			sink += courses();
		double t1 = seconds();
		for (int i = 0; i < REPEATS; i++)
			sink -= arcs();
		double t2 = seconds();
		ours = fmin(ours, t1 - t0);
		bare = fmin(bare, t2 - t1);
	}
	const double joints = REPEATS * (double)JOINTS;
	printf("The course through a joint's slides and rotations, per joint, against the arc alone.\n"
	       "  Method: %d joints of %d stretches; the quickest of %d rounds of %d each.\n"
	       "  ours %.0f ns, arc %.0f ns, ratio %.1f%s\n",
		JOINTS, STRETCHES, ROUNDS, REPEATS, ours / joints * 1e9, bare / joints * 1e9, ours / bare,
		isfinite(sink) ? "" : " NOT A NUMBER");
	return 0;
}
