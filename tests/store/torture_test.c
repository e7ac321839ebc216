/* Killed while joints are being logged.
 *
 * A child logs joint after joint, and after each that was acknowledged writes its number to a pipe. It is
 * killed
 * (-9) at a moment that nobody chose. Then the file must open and verify, hold every joint that was
 * acknowledged, in order and as typed, and at most one more (committed, but killed before it could say so).
 *
 * 30 kills; with TORTURE=long in the environment 600.
 */
#include "store/book.h"

#include <signal.h>
#include <sys/wait.h>
#include <time.h>

/* The n-th joint's readings, so that what is found can be checked. */
static void readings_of(int joint, char inclination[16], char azimuth[16])
{
	snprintf(inclination, 16, "%d.%02d", 79 + joint % 3, joint * 7 % 100);
	snprintf(azimuth, 16, "%d.%d", 89 + joint % 2, joint * 3 % 10);
}

static int log_joint(struct sb_store *store, int joint)
{
	char inclination[16], azimuth[16];

	readings_of(joint, inclination, azimuth);
	struct reading r = book_reading(store, inclination, azimuth);
	sb_copy(r.remarks, sizeof r.remarks, "under torture");
	return sb_store_log(store, "Ida", &r, &book_err);
}

/* In the child: logs until it is killed. Every tenth joint it pulls back one, so that this is tortured too;
 * the number told is how many acts there are. */
static void log_for_ever(int pipe_end)
{
	struct sb_store *store;

	if (sb_store_open(book_path(), STORE_WRITE, "Ida", &store, &book_err))
		_exit(1);
	for (;;) {
		int joint = sb_job_in_ground(sb_store_job(store)) + 1;
		int acts = (int)sb_store_job(store)->act_count;
		int status = acts % 10 == 0
			? sb_store_withdraw(store, "Ida", joint - 2, "off line", &book_err)
			: log_joint(store, joint);
		if (status)
			_exit(2);
		acts++;
		if (write(pipe_end, &acts, sizeof acts) != sizeof acts)
			_exit(3);
	}
}

/* Takes one acknowledgement; false when the pipe has ended. */
static bool hear(int pipe_end, int *last)
{
	int acts;

	if (read(pipe_end, &acts, sizeof acts) != sizeof acts)
		return false;
	assert_int_equal(acts, *last + 1);
	*last = acts;
	return true;
}

static void check_joints(const struct job *job)
{
	for (int joint = 1; joint <= sb_job_in_ground(job); joint++) {
		char inclination[16], azimuth[16];
		readings_of(joint, inclination, azimuth);
		assert_string_equal(sb_job_joint(job, joint)->inclination.text, inclination);
		assert_string_equal(sb_job_joint(job, joint)->azimuth.text, azimuth);
		assert_string_equal(sb_job_joint(job, joint)->remarks, "under torture");
	}
}

/* One life and death of a child: killed at any moment of it, or at any moment after its first act. Returns
 * how many acts the file holds now. */
static int kill_once(int before, long delay_ns, bool in_full_swing)
{
	int ends[2], told = before, status = 0;

	assert_int_equal(pipe(ends), 0);
	pid_t child = fork();
	if (child == 0) {
		close(ends[0]);
		log_for_ever(ends[1]);
	}
	close(ends[1]);
	if (in_full_swing)
		assert_true(hear(ends[0], &told));
	nanosleep(&(struct timespec){ .tv_nsec = delay_ns }, NULL);
	kill(child, SIGKILL);
	while (hear(ends[0], &told))
		continue;
	close(ends[0]);
	waitpid(child, &status, 0);
	assert_true(WIFSIGNALED(status)); /* not that it gave up by itself */
	book_verify(0);
	struct sb_store *store = book_open(STORE_WRITE);
	int acts = (int)sb_store_job(store)->act_count;
	if (acts != told && acts != told + 1)
		print_error("%d acts acknowledged, %d in the file\n", told, acts);
	assert_true(acts == told || acts == told + 1);
	check_joints(sb_store_job(store));
	sb_store_close(store);
	return acts;
}

static void a_joint_acknowledged_survives_any_kill(void **state)
{
	(void)state;
	const char *how = getenv("TORTURE");
	int kills = how && sb_same(how, "long") ? 600 : 30;
	unsigned seed = (unsigned)time(NULL);
	int acts = 1, worked = 0;

	print_message("%d kills, seed %u\n", kills, seed);
	book_new(jobs_plain);
	for (int i = 0; i < kills; i++) {
		/* A fresh file now and then, so that a long run stays about kills and not about size. */
		if (acts > 400) {
			book_new(jobs_plain);
			acts = 1;
		}
		seed = seed * 1103515245u + 12345u;
		int before = acts;
		acts = kill_once(acts, (long)(seed >> 16) % 60000 * 1000, i % 2);
		worked += acts > before;
	}
	assert_true(worked >= kills / 2);
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(a_joint_acknowledged_survives_any_kill),
	};

	return run_tests(tests);
}
