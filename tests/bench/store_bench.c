/* What logging one joint costs: as the job grows, and beside the least that a disk asks for one block.
 *
 * (a) one sb_store_log (solve, facts, journal, path, warnings, commit; nothing synced) at about joint 10,000
 *     against about joint 10. Medians, taken in turns so that the machine's moods fall on both.
 * (b) one sb_store_log as it is shipped (rollback journal, synchronous EXTRA) against appending a block of
 *     4 KiB to a file in the same folder and fdatasync. Medians, in turns.
 *
 * The crossing: 10,400 joints of 31 ft on a level line, readings that scatter and stay within every limit.
 */
#include "base/str.h"
#include "store/handle.h"
#include "store/store.h"
#include "support/jobs.h"

#include <fcntl.h>
#include <libgen.h>
#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { BIG = 10000, ROUNDS = 30, EACH = 10, SMALL = 9, DURABLE = 400 };

static char folder[PATH_MAX];
static struct sb_err err;

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static void must(int status)
{
	if (status == 0)
		return;
	fprintf(stderr, "store_bench: %s\n", err.text);
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

static const char *at(const char *name)
{
	static char paths[2][PATH_MAX + 64];
	static int turn;

	turn = !turn;
	snprintf(paths[turn], sizeof paths[turn], "%s/%s", folder, name);
	return paths[turn];
}

static struct sb_store *make(const char *name, const struct gate *gate)
{
	struct job job;
	struct sb_store *store;

	jobs_plain(&job);
	job.profile_count = 0;
	jobs_set(&job, "control", "exit", "405000, 1000, 100");
	jobs_set(&job, "entry", "inclination", "90");
	jobs_row(&job, "profile", (const char *const[]){ "0", "100", "" });
	jobs_row(&job, "profile", (const char *const[]){ "400000", "100", "" });
	must(sb_handle_create(at(name), &job, "Ida", gate, &err));
	sb_job_clear(&job);
	must(sb_handle_open(at(name), true, "Ida", gate, &store, &err));
	return store;
}

/* Logs the next joint and says how long that took. */
static double log_one(struct sb_store *store)
{
	static const char *const inclinations[] = { "90.1", "89.9", "90.0" };
	static const char *const azimuths[] = { "90.2", "89.8" };
	const struct job *job = sb_store_job(store);
	size_t n = (size_t)sb_job_in_ground(job);
	struct reading r = jobs_reading(job, "", inclinations[n % 3], azimuths[n % 2]);
	double start = seconds();

	must(sb_store_log(store, "Ida", &r, &err));
	return seconds() - start;
}

static void growing(void)
{
	const struct gate unsynced = { .schema = &sb_schema, .unsynced = true };
	struct sb_store *big = make("big.bore", &unsynced);
	double few[ROUNDS * EACH], many[ROUNDS * EACH];
	size_t count = 0;

	while (sb_job_in_ground(sb_store_job(big)) < BIG - ROUNDS * EACH / 2)
		log_one(big);
	for (int round = 0; round < ROUNDS; round++) {
		struct sb_store *small = make("small.bore", &unsynced);
		for (int i = 0; i < SMALL - EACH / 2; i++)
			log_one(small);
		for (int i = 0; i < EACH; i++, count++) {
			few[count] = log_one(small);
			many[count] = log_one(big);
		}
		sb_store_close(small);
		unlink(at("small.bore"));
	}
	double at_ten = median(few, count), at_most = median(many, count);
	printf("logging one joint, not synced: median of %zu at joint %d against joint 10 (%.3f and %.3f ms)\n",
		count, BIG, 1e3 * at_most, 1e3 * at_ten);
	printf("store: growth ratio %.2f (reach: under 1.3)\n", at_most / at_ten);
	sb_store_close(big);
	unlink(at("big.bore"));
}

static void durable(void)
{
	static char block[4096];
	struct sb_store *store = make("durable.bore", &sb_gate_usual);
	double logged[DURABLE], bare[DURABLE];
	int fd = open(at("block"), O_RDWR | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);

	for (size_t i = 0; i < DURABLE; i++) {
		logged[i] = log_one(store);
		double start = seconds();
		if (pwrite(fd, block, sizeof block, (off_t)(i * sizeof block)) != sizeof block ||
			fdatasync(fd) != 0)
			exit(1);
		bare[i] = seconds() - start;
	}
	double ours = median(logged, DURABLE), least = median(bare, DURABLE);
	printf("logging one joint durably: median of %d against appending 4 KiB and fdatasync (%.3f and %.3f ms)\n",
		DURABLE, 1e3 * ours, 1e3 * least);
	printf("store: durability ratio %.2f (reach: under 4)\n", ours / least);
	close(fd);
	sb_store_close(store);
	unlink(at("durable.bore"));
	unlink(at("block"));
}

int main(int argc, char **argv)
{
	char *self = strdup(argv[0]);

	(void)argc;
	snprintf(folder, sizeof folder, "%s/store-bench-XXXXXX", dirname(self));
	free(self);
	if (mkdtemp(folder) == NULL)
		return 1;
	growing();
	durable();
	rmdir(folder);
	return 0;
}
