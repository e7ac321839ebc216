/* What exporting costs, each export as the program does it: open the job, solve it, write the file.
 *
 * (a) every format of a job of 300 joints, one after another, against GDAL's ogr2ogr making a GeoPackage of
 * the CSV among them. Medians of some rounds, in turns. (b) the most memory that a format takes at 10,000
 * joints against at 1,000, both less what the program takes to export an empty job in that format: 10 is
 * linear.
 *
 * The crossing: joints of 31 ft on a level line in Oregon's grid (EPSG:2992), readings that scatter and stay
 * within every limit.
 */
#include "base/str.h"
#include "io/format.h"
#include "store/handle.h"
#include "store/store.h"
#include "support/jobs.h"

#include <fcntl.h>
#include <libgen.h>
#include <limits.h>
#include <math.h>
#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ROUNDS = 5, FORMATS_MOST = 32, ARGUMENTS_MOST = 16 };

static char folder[PATH_MAX], text[8][PATH_MAX + 64];
static struct sb_err err;
static const char *program;

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void must(int status, const char *what)
{
	if (status == 0)
		return;
	fprintf(stderr, "export_bench: %s: %s\n", what, err.text);
	exit(1);
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static double median(double *list, size_t count)
{
	qsort(list, count, sizeof *list, by_size);
	return list[count / 2];
}

static const char *at(const char *name, const char *extension)
{
	static int turn;

	turn = (turn + 1) % 8;
	snprintf(text[turn], sizeof text[turn], "%s/%s.%s", folder, name, extension);
	return text[turn];
}

/* ---- the jobs ---- */

/* As long as that many joints need, and a little more. */
static void lay_out(struct job *job, int joints)
{
	char exit_at[64], length[32];
	int feet = 32 * joints + 1000;

	snprintf(exit_at, sizeof exit_at, "%d, 1566000, 100", 655000 + feet);
	snprintf(length, sizeof length, "%d", feet);
	jobs_plain(job);
	job->profile_count = 0;
	jobs_set(job, "control", "crs", "EPSG:2992");
	jobs_set(job, "control", "entry", "655000, 1566000, 100");
	jobs_set(job, "control", "exit", exit_at);
	jobs_set(job, "entry", "inclination", "90");
	jobs_row(job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(job, "profile", (const char *const[]){ length, "100", "" });
}

static void make(const char *name, int joints)
{
	static const char *const inclinations[] = { "90.1", "89.9", "90.0" };
	static const char *const azimuths[] = { "90.2", "89.8" };
	const struct gate unsynced = { .schema = &sb_schema, .unsynced = true };
	const char *path = at(name, "bore");
	struct sb_store *store;
	struct job job;

	lay_out(&job, joints);
	must(sb_handle_create(path, &job, "Ida", &unsynced, &err), name);
	sb_job_clear(&job);
	must(sb_handle_open(path, true, "Ida", &unsynced, &store, &err), name);
	for (int n = 0; n < joints; n++) {
		struct reading r =
			jobs_reading(sb_store_job(store), "", inclinations[n % 3], azimuths[n % 2]);
		must(sb_store_log(store, "Ida", &r, &err), name);
	}
	sb_store_close(store);
}

/* A process that logged ten thousand joints is large, and who it starts seems as large as it is: made aside.
 */
static void make_aside(const char *name, int joints)
{
	int status;
	pid_t pid = fork();

	if (pid == 0) {
		make(name, joints);
		_exit(0);
	}
	if (pid < 0 || waitpid(pid, &status, 0) != pid || status != 0)
		exit(1);
}

/* ---- running ---- */

struct run {
	double seconds, megabytes; /* the most that it had in memory */
};

static struct run start(const char *const *words)
{
	extern char **environ;
	char *argv[ARGUMENTS_MOST + 1] = { NULL };
	struct rusage used;
	struct run run;
	int status;
	pid_t pid;

	for (size_t i = 0; i < ARGUMENTS_MOST && words[i]; i++)
		argv[i] = strdup(words[i]);
	double begin = seconds();
	must(posix_spawnp(&pid, argv[0], NULL, NULL, argv, environ), argv[0]);
	if (wait4(pid, &status, 0, &used) != pid || status != 0)
		must(-1, argv[0]);
	run = (struct run){ seconds() - begin, (double)used.ru_maxrss / 1024 };
	for (size_t i = 0; argv[i]; i++)
		free(argv[i]);
	return run;
}

static struct run export_one(const char *job, const struct format *f)
{
	const char *path = at(job, "bore");

	return start((const char *const[]){ program, "export", path, f->name, at(f->name, f->extension),
		"--replace", "--by", "Ida", NULL });
}

static bool has_ogr2ogr(void)
{
	return system("command -v ogr2ogr > /dev/null 2>&1") ==
		0; /* NOLINT(cert-env33-c): no argument of anybody's */
}

static double convert(void)
{
	return start((const char *const[]){ "ogr2ogr", "-f", "GPKG", "-overwrite", "-oo",
			     "X_POSSIBLE_NAMES=easting", "-oo", "Y_POSSIBLE_NAMES=northing", "-oo",
			     "AUTODETECT_TYPE=YES", "-a_srs", "EPSG:2992", at("theirs", "gpkg"),
			     at("csv", "csv"), NULL })
		.seconds;
}

/* ---- the two questions ---- */

static void time_all(void)
{
	double each[FORMATS_MOST][ROUNDS], all[ROUNDS], theirs[ROUNDS];
	bool compare = has_ogr2ogr();

	make_aside("three", 300);
	for (int round = 0; round < ROUNDS; round++) {
		all[round] = 0;
		for (size_t i = 0; i < sb_format_count; i++)
			all[round] += each[i][round] = export_one("three", &sb_formats[i]).seconds;
		if (compare)
			theirs[round] = convert();
	}
	double ours = median(all, ROUNDS);
	printf("exports of 300 joints, each a run of the program, medians of %d:", ROUNDS);
	for (size_t i = 0; i < sb_format_count; i++)
		printf(" %s %.3f s%s", sb_formats[i].name, median(each[i], ROUNDS),
			i + 1 < sb_format_count ? "," : "\n");
	printf("exports: all %zu together %.2f s\n", sb_format_count, ours);
	if (!compare) {
		puts("exports: not compared, there is no ogr2ogr here");
		return;
	}
	double one = median(theirs, ROUNDS);
	for (size_t i = 0; i < sb_format_count; i++)
		if (strcmp(sb_formats[i].name, "gpkg") == 0)
			printf("exports: our GeoPackage of eight layers against ogr2ogr making one layer of the CSV %.2f "
			       "(reach: under 1; %.3f s against %.3f s)\n",
				median(each[i], ROUNDS) / one, median(each[i], ROUNDS), one);
	printf("exports: all together against that %.2f\n", ours / one);
}

static void weigh_all(void)
{
	double ten = 0, twice = 0;

	make_aside("none", 0);
	make_aside("thousand", 1000);
	make_aside("many", 10000);
	make_aside("most", 20000);
	printf("memory at 1,000, 10,000 and 20,000 joints, less that of an empty job, MB:");
	for (size_t i = 0; i < sb_format_count; i++) {
		const struct format *f = &sb_formats[i];
		double none = export_one("none", f).megabytes;
		double some = export_one("thousand", f).megabytes - none;
		double many = export_one("many", f).megabytes - none;
		double most = export_one("most", f).megabytes - none;
		ten = fmax(ten, many / some);
		twice = fmax(twice, most / many);
		printf(" %s %.1f %.1f %.1f%s", f->name, some, many, most,
			i + 1 < sb_format_count ? "," : "\n");
		fflush(stdout);
	}
	printf("exports: memory of ten times the joints, the worst format %.1f (10 is linear; arrays grow in steps)\n"
	       "exports: memory of 20,000 joints against 10,000, the worst format %.2f (2 is linear; reach: under 2.4)\n",
		ten, twice);
}

int main(int argc, char **argv)
{
	char *self = strdup(argv[0]), remove_all[PATH_MAX + 32];

	(void)argc;
	program = getenv("SAGBEND");
	if (program == NULL || sb_format_count > FORMATS_MOST) {
		fputs("SAGBEND must name the program\n", stderr);
		return 1;
	}
	snprintf(folder, sizeof folder, "%s/export-bench-XXXXXX", dirname(self));
	free(self);
	if (mkdtemp(folder) == NULL)
		return 1;
	time_all();
	weigh_all();
	snprintf(remove_all, sizeof remove_all, "rm -r '%s'", folder);
	return system(remove_all) == 0 ? 0 : 1; /* NOLINT(cert-env33-c): our own folder */
}
