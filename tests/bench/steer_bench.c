/* How well the steering steers, on bores whose truth is known.
 *
 * Every scenario is drilled with the same seeds (the same ground, wander, tool-face scatter and reading
 * noise) in four ways: by the program's advice; by a simple rule that is a good one (aim: straight at the
 * design point four joints ahead, its own orders not yet surveyed counted, with the sheet's guess); by the
 * plan told the ground's true mean response (informed); and by the plan told where the bit truly is and heads
 * as well (seeing). All is measured on the true hole. A bore is clean when it never leaves the corridor,
 * comes out in its window and breaks no window bend limit.
 *
 * Beside a reach stands what bounds it: what the simple rule leaves to be gained (all bores clean), what a
 * plan comes to that is told the truth, the sliding that the design's own curves need, and whether chance
 * alone could have missed the reach.
 *
 * Two crossings, both invented. The first table is each scenario as it stands; the second shifts ground,
 * pushes, tool and noise from bore to bore, so that what was fitted to one simulator would show. BORES=n
 * drills n bores a row instead of 200, FIRST=n begins with other seeds. Two processes, for two cores.
 */
#include "geom/angle.h"
#include "model/rehearsal.h"
#include "model/steering.h"
#include "support/jobs.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { WAYS = 6, WORKERS = 2, MOST_SCENARIOS = 8 };
enum { ADVICE, AIM, INFORMED, SEEING, ONE_FIX, FIX_TOLD };
static const struct {
	const char *name;
	enum rehearsal_by by;
	bool fixed; /* one fix at mid-bore, and its correction taken; with a bias only */
} ways[WAYS] = { { "advice", BY_ADVICE, false }, { "aim", BY_AIM, false }, { "informed", BY_INFORMED, false },
	{ "seeing", BY_SEEING, false }, { "one fix", BY_ADVICE, true }, { "and told", BY_INFORMED, true } };

/* What owners ask of a guidance system: two per cent of the depth and two feet to the side (model
 * specifications for polyethylene and for steel crossings, second hand); as most of what is claimed of
 * instruments, taken for two sigmas. */
static const struct fix_accuracy coil = { .level_m = 0.305, .up_m = 0.05, .up_of_depth = 0.01 };

struct tally {
	long bores, clean, in_window, windows, broken, bores_broken, home;
	double outside, exit_long, exit_right, slid, turning, least_slid;
};

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* ---- the crossings ---- */

static void limits(struct job *job, const char *const *pairs)
{
	for (; *pairs; pairs += 3)
		jobs_set(job, pairs[0], pairs[1], pairs[2]);
}

/* A 24-inch steel line under a river: 1,920 ft, 10 degrees down, 8 up, curves of 2,400 ft. */
static void river(struct job *job)
{
	static const char *const set[] = { "control", "exit", "6920, 1000, 100", "tool", "sensor_to_bit",
		"25", "bend", "joint_minimum", "900", "bend", "window_minimum", "1500", "corridor", "up", "3",
		"corridor", "down", "3", "corridor", "left", "5", "corridor", "right", "5", "steering",
		"slide_turn", "0.06", "steering", "droop", "0.004", "steering", "walk", "0.001", NULL };

	jobs_plain(job);
	limits(job, set);
	job->profile_count = 0;
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ "340.277", "40", "2400" });
	jobs_row(job, "profile", (const char *const[]){ "1493.078", "40", "2400" });
	jobs_row(job, "profile", (const char *const[]){ "1920", "100", "" });
}

/* A 12-inch line in metres, bending both ways: 387 m, curves of 400 and 500 m that overlap. */
static void bend(struct job *job)
{
	static const char *const set[] = { "tool", "sigma_inclination", "0.1", "tool", "sigma_azimuth", "0.3",
		"corridor", "exit_long", "6", "corridor", "exit_short", "3", "corridor", "exit_left", "3",
		"corridor", "exit_right", "3", "steering", "slide_turn", "0.3", "steering", "droop", "0.013",
		"steering", "walk", "0.004", NULL };

	jobs_curved(job);
	limits(job, set);
}

static const struct crossing {
	const char *name;
	void (*sheet)(struct job *);
} crossings[] = {
	{ "1,920 ft under a river, 24-inch steel, curves of 2,400 ft", river },
	{ "387 m with a horizontal curve, 12-inch steel, curves of 400 and 500 m", bend },
};

/* ---- drilling ---- */

/* The share of the design's length that has to be slid to follow its own curves, metre by metre, where the
 * ground gives its true mean everywhere: of k = (1 - s) d + s y (s the share slid, d the drift, k the turn a
 * metre) |k - (1 - s) d| = s |y|, solved for s. No noise, no correction, no wander;
 * who cuts corners inside the corridor needs a little less. */
static double least_slid(const struct rehearsal *r, const struct solution *s)
{
	const double step = 1;
	struct response mean = s->response;
	double sum = 0, station = 0;

	sb_rehearsal_true_response(r, &mean);
	double y = mean.yield, u = mean.drift_up, w = mean.drift_right;
	for (; station + step <= s->design.length_m; station += step) {
		struct design_place a = sb_design_at(&s->design, station),
				    b = sb_design_at(&s->design, station + step);
		double length = step / fmax(hypot(a.heading.n, a.heading.e), 0.2);
		double up = (b.inc_rad - a.inc_rad) / length - u;
		double right = sb_wrap_half(b.azi_rad - a.azi_rad) * sin(a.inc_rad) / length - w;
		double along = up * u + right * w, rest = y * y - u * u - w * w;
		double share = rest > 0
			? (along + sqrt(along * along + rest * (up * up + right * right))) / rest
			: 1;
		sum += fmin(share, 1) * step;
	}
	return sum / station;
}

static int first_bore; /* others than those that a choice was made on show whether it holds */

static void drill(const struct crossing *c, size_t scenario, int way, int bore, bool vary, struct tally *t)
{
	unsigned long long seed =
		1000 * (unsigned long long)(first_bore + bore) + scenario + (vary ? 500 : 1);
	struct rehearsal_figures f;
	struct solution s = { 0 };
	struct sb_err err = { 0 };
	struct job job;

	c->sheet(&job);
	struct rehearsal *r =
		sb_rehearsal_new(&job, &sb_rehearsal_scenarios[scenario].ground, seed, vary, &err);
	int status = r == NULL	  ? -1
		: ways[way].fixed ? sb_rehearsal_run_fixed(r, &job, &s, ways[way].by, &coil, &f, &err)
				  : sb_rehearsal_run(r, &job, &s, ways[way].by, &f, &err);
	if (status) {
		fprintf(stderr, "steer_bench: %s\n", err.text);
		_exit(1);
	}
	t->bores++;
	t->clean += f.clean;
	t->in_window += f.exit_in_window;
	t->home += f.exit_in_window && f.broken_windows == 0 && f.inside_from < 0.75;
	t->windows += f.windows;
	t->broken += f.broken_windows;
	t->bores_broken += f.broken_windows > 0;
	t->outside += f.outside_share;
	t->exit_long += fabs(f.exit_long_m);
	t->exit_right += fabs(f.exit_right_m);
	t->slid += f.slid_share;
	t->turning += f.turning_rad;
	t->least_slid += least_slid(r, &s);
	sb_rehearsal_free(r);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* Rows of a table: scenario by way. */
typedef struct tally tallies[MOST_SCENARIOS][WAYS];

static void add(struct tally *to, const struct tally *t)
{
	to->bores += t->bores;
	to->clean += t->clean;
	to->in_window += t->in_window;
	to->home += t->home;
	to->windows += t->windows;
	to->broken += t->broken;
	to->bores_broken += t->bores_broken;
	to->outside += t->outside;
	to->exit_long += t->exit_long;
	to->exit_right += t->exit_right;
	to->slid += t->slid;
	to->turning += t->turning;
	to->least_slid += t->least_slid;
}

static bool is_biased_name(const char *name)
{
	return strcmp(name, "azimuth-bias") == 0;
}

static bool is_biased(size_t scenario)
{
	return is_biased_name(sb_rehearsal_scenarios[scenario].name);
}

static void drill_all(const struct crossing *c, int bores, bool vary, tallies sums)
{
	tallies *shared = mmap(
		NULL, WORKERS * sizeof *shared, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
	pid_t children[WORKERS];

	if (shared == MAP_FAILED)
		exit(1);
	fflush(stdout);
	for (int w = 0; w < WORKERS; w++) {
		children[w] = fork();
		if (children[w] != 0)
			continue;
		for (int bore = w; bore < bores; bore += WORKERS)
			for (size_t i = 0; i < sb_rehearsal_measured_count; i++)
				for (int way = 0; way < WAYS; way++) {
					if (ways[way].fixed && !is_biased(i))
						continue;
					drill(c, i, way, bore, vary, &shared[w][i][way]);
				}
		_exit(0);
	}
	for (int w = 0; w < WORKERS; w++) {
		int status;
		if (children[w] < 0 || waitpid(children[w], &status, 0) < 0 || status != 0)
			exit(1);
		for (size_t i = 0; i < sb_rehearsal_measured_count; i++)
			for (int way = 0; way < WAYS; way++)
				add(&sums[i][way], &shared[w][i][way]);
	}
	munmap(shared, WORKERS * sizeof *shared);
}

/* ---- tables ---- */

static double per_thousand(const struct tally *t)
{
	return t->windows ? 1000.0 * (double)t->broken / (double)t->windows : 0;
}

static double clean(const struct tally *t)
{
	return 100.0 * (double)t->clean / (double)t->bores;
}

/* Clean again in the last quarter. */
static double home(const struct tally *t)
{
	return 100.0 * (double)t->home / (double)t->bores;
}

static void print_row(const char *scenario, const char *way, const struct tally *t)
{
	double n = (double)t->bores;

	printf("  %-13s %-9s %6.1f %8.2f %7.1f %7.2f %7.2f %8.2f %6.3f %8.1f\n", scenario, way, clean(t),
		100 * t->outside / n, 100.0 * (double)t->in_window / n, t->exit_long / n, t->exit_right / n,
		per_thousand(t), t->slid / n, sb_deg(t->turning / n));
}

/* One comparison: the figure, its reach, whether it is reached, and what bounds it. possible: false where
 * what bounds it rules it out. */
static void reach(const char *what, double value, const char *than, double limit, bool at_most, bool possible,
	const char *beside)
{
	bool met = at_most ? value <= limit + 1e-9 : value >= limit - 1e-9;

	printf("      %-58s %7.2f   reach: %s %g   %s%s%s\n", what, value, than, limit,
		met		   ? "reached"
			: possible ? "NOT REACHED"
				   : "CANNOT BE REACHED",
		*beside ? "; " : "", beside);
}

static double ratio(double a, double b)
{
	return b > 0 ? a / b : a > 0 ? HUGE_VAL : 1;
}

/* The chance that of `both` bores with a broken window, which either way of drilling may have broken, at
 * least `ours` are ours when we truly break a quarter as many as the other: binomial, one in five. Bores and
 * not windows are counted: windows overlap, and a bend too sharp breaks several. */
static double chance_of(long ours, long both)
{
	double sum = 0;

	for (long i = ours; i <= both; i++)
		sum += exp(lgamma((double)both + 1) - lgamma((double)i + 1) - lgamma((double)(both - i) + 1) +
			(double)i * log(0.2) + (double)(both - i) * log(0.8));
	return fmin(sum, 1);
}

static void reach_broken(
	const char *what, const struct tally *advice, const struct tally *aim, const struct tally *informed)
{
	char beside[200];
	long ours = advice->bores_broken, theirs = aim->bores_broken;
	double chance = chance_of(ours, ours + theirs);

	/* None is at most a quarter of none. */
	double share = advice->broken ? ratio(per_thousand(advice), per_thousand(aim)) : 0;
	snprintf(beside, sizeof beside,
		"by bores, %ld of %ld against %ld: %s (%.2g, were it a quarter); the informed breaks %ld",
		ours, advice->bores, theirs,
		chance < 0.05 ? "more than chance explains" : "no more than chance may do", chance,
		informed->bores_broken);
	reach(what, share, "at most", 0.25, true, true, beside);
}

static void reach_clean(const char *name, double nominal, const struct tally t[WAYS])
{
	double advice = clean(&t[ADVICE]), aim = clean(&t[AIM]), informed = clean(&t[INFORMED]);
	bool bias = is_biased_name(name);
	char beside[160];

	snprintf(beside, sizeof beside, "below the seeing %.1f", clean(&t[SEEING]) - advice);
	reach(bias ? "clean: points below informed (no reading shows a bias)"
		   : "clean: points below informed",
		informed - advice, "at most", bias ? 0 : 10, true, true, beside);
	/* until the fix nothing shows the bias; a quarter of the bore is left to come back in */
	if (bias) {
		double ours = home(&t[ONE_FIX]), told = home(&t[FIX_TOLD]);
		snprintf(beside, sizeof beside,
			"told the ground, with the same fix: %.1f, the advice is %.1f below that",
			nominal - told, told - ours);
		reach("with one fix at mid-bore: points below informed in nominal", nominal - ours, "at most",
			10, true, true, beside);
	}
	if (strcmp(name, "face-error") != 0)
		return;
	snprintf(beside, sizeof beside, "with every bore clean it would be %.2f, the seeing gets %.2f",
		ratio(100, aim), ratio(clean(&t[SEEING]), aim));
	reach("clean: times aim", ratio(advice, aim), "at least", 3, false, 3 * aim <= 100, beside);
}

static void print_reaches(const char *name, double nominal, const struct tally t[WAYS])
{
	const struct tally *advice = &t[ADVICE], *aim = &t[AIM], *informed = &t[INFORMED];
	char beside[160];

	reach_clean(name, nominal, t);
	reach("broken windows in 1,000", per_thousand(advice), "at most", 3, true, true, "");
	reach_broken("broken windows: share of aim's", advice, aim, informed);
	snprintf(beside, sizeof beside, "the design's curves alone need %.2f, the seeing slides %.2f",
		ratio(aim->least_slid, aim->slid), ratio(t[SEEING].slid, aim->slid));
	reach("slid: share of aim's", ratio(advice->slid, aim->slid), "at most", 0.7, true,
		fmin(aim->least_slid, t[SEEING].slid) <= 0.7 * aim->slid, beside);
	reach("turning: share of informed's", ratio(advice->turning, informed->turning), "at most", 1.3, true,
		true, "");
}

static void table(const struct crossing *c, int bores, bool vary)
{
	static tallies sums;
	double begun = seconds();

	memset(sums, 0, sizeof sums);
	drill_all(c, bores, vary, sums);
	printf("%s\n  %s; %d bores a row, %.0f s\n  %-13s %-9s %6s %8s %7s %7s %7s %8s %6s %8s\n", c->name,
		vary ? "ground, pushes, tool and noise shifted from bore to bore"
		     : "each scenario as it stands",
		bores, seconds() - begun, "ground", "way", "clean%", "outside%", "window%", "long m",
		"side m", "broken/k", "slid", "turn deg");
	for (size_t i = 0; i < sb_rehearsal_measured_count; i++) {
		for (int w = 0; w < WAYS && sums[i][w].bores; w++)
			print_row(w ? "" : sb_rehearsal_scenarios[i].name, ways[w].name, &sums[i][w]);
		print_reaches(sb_rehearsal_scenarios[i].name, clean(&sums[0][INFORMED]), sums[i]);
	}
	static struct tally whole[WAYS];
	memset(whole, 0, sizeof whole);
	for (size_t i = 0; i < sb_rehearsal_measured_count; i++)
		for (int w = 0; w < WAYS; w++)
			add(&whole[w], &sums[i][w]);
	reach_broken("broken windows of all grounds: share of aim's", &whole[ADVICE], &whole[AIM],
		&whole[INFORMED]);
}

/* ---- time ---- */

/* The quickest of several plans, s. */
static double best_plan(const struct job *job, const struct solution *s, struct plan *plan)
{
	struct setup setup = sb_solution_setup(job, s);
	double best = HUGE_VAL;

	for (int i = 0; i < 15; i++) {
		sb_steering_make(&setup, &s->path, &s->response, plan);
		best = fmin(best, plan->seconds);
	}
	return best;
}

/* A bore twice as long, in a corridor wide enough to be so far off that the way back takes 40 joints. */
static void time_long_plan(void)
{
	static struct plan plan;
	static const char *const set[] = { "control", "exit", "8920, 1000, 100", "corridor", "up", "20",
		"corridor", "down", "20", "corridor", "left", "100", "corridor", "right", "100", NULL };
	struct solution s = { 0 };
	struct job job;

	river(&job);
	limits(&job, set);
	job.profile_count = 0;
	jobs_row(&job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(&job, "profile", (const char *const[]){ "340.277", "40", "2400" });
	jobs_row(&job, "profile", (const char *const[]){ "3493.078", "40", "2400" });
	jobs_row(&job, "profile", (const char *const[]){ "3920", "100", "" });
	jobs_follow(&job, 28);
	for (int i = 0; i < 20; i++)
		jobs_log(&job, "", "90", "95");
	jobs_solve(&job, &s);
	double best = best_plan(&job, &s, &plan);
	printf("One plan of %zu joints, %s: %.2f ms (reach: under 5 for 40 joints)\n", plan.count,
		plan.feasible ? "feasible" : "not feasible", best * 1e3);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

/* A bore that is too far off its line to come back: that there is no way, what can be done best, and the
 * search for where to pull back to. */
static void time_no_way(void)
{
	static struct plan plan;
	static struct withdrawal w;
	struct solution s = { 0 };
	double best = HUGE_VAL;
	struct job job;

	river(&job);
	jobs_follow(&job, 14);
	for (int i = 0; i < 3; i++)
		jobs_log(&job, "", "88.5", "90.6");
	for (int i = 0; i < 8; i++)
		jobs_log(&job, "", "84", "93.5");
	jobs_solve(&job, &s);
	struct setup setup = sb_solution_setup(&job, &s);
	double none = best_plan(&job, &s, &plan);
	printf("No way, and what can be done best, %zu joints: %.2f ms (reach: under 50)\n", plan.count,
		none * 1e3);
	for (int i = 0; i < 8; i++) {
		sb_steering_withdraw(&setup, &s.path, &s.response, &w);
		best = fmin(best, w.seconds);
	}
	printf("The search for where to pull back to (%s where it stands, %d joints back): %.2f ms (reach: under 50)\n",
		plan.feasible ? "feasible" : "not feasible", w.joints, best * 1e3);
	sb_solution_clear(&s);
	sb_job_clear(&job);
}

int main(void)
{
	const char *asked = getenv("BORES"), *first = getenv("FIRST");
	int bores = asked ? atoi(asked) : 200;

	first_bore = first ? atoi(first) : 0;
	time_long_plan();
	time_no_way();
	for (size_t i = 0; i < sizeof crossings / sizeof *crossings; i++) {
		table(&crossings[i], bores, false);
		table(&crossings[i], bores, true);
	}
	return 0;
}
