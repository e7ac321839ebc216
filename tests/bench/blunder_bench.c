/* What a look for slips costs, against the preview that each key of the entry line makes.
 *
 * Both on the same log, in turn, in one run: slides written down at every joint, so that what is expected is
 * reckoned; an honest reading, and one whose slip has to be named out of some hundred that could be. The look
 * is made once a joint, by Enter, and never by a key.
 */
#include "model/blunder.h"
#include "support/jobs.h"

#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { LOOKS = 400 };

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static struct reading reading(const struct job *job, const char *azimuth)
{
	struct reading r = jobs_reading(job, "", "80.2", azimuth);

	sb_row_field_put(sb_row_field("slid"), &r, job->incline, "10", NULL);
	sb_row_field_put(sb_row_field("tool_face"), &r, job->incline, "0", NULL);
	return r;
}

struct costs {
	double preview, honest, slip;
	int held;
};

static struct costs measure(int joints)
{
	struct job job;
	struct solution s = { 0 };
	struct preview preview;
	struct suspicion found[SB_SUSPICIONS];
	struct costs c = { 0 };

	jobs_plain(&job);
	for (int i = 0; i < joints; i++) {
		struct reading r = reading(&job, i % 2 ? "90.1" : "90.0");
		r.id = i + 1;
		sb_job_add_reading(&job, &r);
	}
	jobs_solve(&job, &s);
	struct reading good = reading(&job, "90.1"), bad = reading(&job, "60.1");
	for (int i = 0; i < LOOKS; i++) {
		double begin = seconds();
		sb_solve_preview(&job, &s, &good, &preview, NULL);
		double previewed = seconds();
		sb_blunder_look(&job, &s, &good, NULL, found);
		double looked = seconds();
		c.held += sb_blunder_look(&job, &s, &bad, NULL, found) > 0 && found[0].held;
		double named = seconds();
		c.preview += previewed - begin;
		c.honest += looked - previewed;
		c.slip += named - looked;
	}
	sb_solution_clear(&s);
	sb_job_clear(&job);
	return c;
}

int main(void)
{
	struct costs few = measure(100), many = measure(3000);

	if (few.held != LOOKS || many.held != LOOKS) {
		printf("blunder_bench: the slip is not held\n");
		return EXIT_FAILURE;
	}
	printf("a look for slips, with what the slides should have brought, at 3,000 joints\n"
	       "  an honest reading, against its preview                    %.2f\n"
	       "  a slip that is named, against the preview                 %.2f\n"
	       "  the slip at 3,000 joints against 100                      %.2f  (reach: under 1.5)\n",
		many.honest / many.preview, many.slip / many.preview, many.slip / few.slip);
	return EXIT_SUCCESS;
}
