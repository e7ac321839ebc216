/* What the screen costs.
 *
 * Each figure is a ratio, or bytes, or megabytes, that another machine should find again; the method stands
 * above it.
 */
#include "support/files.h"
#include "support/jobs.h"
#include "support/near.h"
#include "support/pty.h"
#include "support/script.h"
#include "ui/everywhere.h"
#include "ui/screens.h"

#include <spawn.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { KEYS = 400, STARTS = 25 };

static const char *program;

static double seconds(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static double middle(double *list, size_t count)
{
	qsort(list, count, sizeof *list, by_size);
	return list[count / 2];
}

/* ---- key to finished frame ---- */

/* The job in a script: the real loop, keys in, a frame of cells out. Times each digit typed and each choice
 * of an older row. */
static void time_keys(int joints, double times[KEYS])
{
	static const char *const keys[] = { "8", "Backspace", "Up", "Down" };
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct script s;
	struct files f;

	files_make(&f, jobs_plain, joints);
	assert_int_equal(sb_store_open(f.job, STORE_WRITE, "Ida", &store, &err), 0);
	script_init(&s, 80, 24);
	script_start(&s,
		&(struct app_options){
			.store = store, .who = "Ida", .everywhere = sb_everywhere, .first = sb_screens[0] });
	for (int i = 0; i < KEYS; i++) {
		int frames = s.frames;
		double begin = seconds();
		script_keys(&s, keys[i % 4]);
		times[i] = seconds() - begin;
		assert_true(s.frames > frames);
	}
	script_end(&s);
	sb_store_close(store);
	files_remove(&f);
}

static void key_to_frame(void)
{
	static double few[KEYS], many[KEYS];

	time_keys(100, few);
	time_keys(10000, many);
	double ratio = middle(many, KEYS) / middle(few, KEYS);
	printf("key to finished frame: a digit, a deletion, an older row, a newer one, in turn, through the real loop\n"
	       "  at 10,000 joints against 100, medians of %d keys          %.2f  (reach: under 1.5)\n"
	       "  p99 at 10,000 joints                                      %.2f ms\n",
		KEYS, ratio, many[KEYS * 99 / 100] * 1e3);
}

/* ---- bytes on the line ---- */

static struct pty *start(const char *job)
{
	const char *const argv[] = { program, "open", job, "--by", "Ida", NULL };

	return pty_start(&(struct pty_options){ .argv = argv });
}

static void bytes_for_a_digit(void)
{
	struct files f;
	size_t most = 0, sum = 0;
	const char digits[] = "88.4";

	files_make(&f, jobs_plain, 20);
	struct pty *p = start(f.job);
	assert_pty_sees(p, "joint 21");
	pty_drain(p);
	for (size_t i = 0; digits[i]; i++) {
		size_t before = pty_bytes(p);
		pty_type(p, (char[]){ digits[i], '\0' });
		pty_drain(p);
		size_t sent = pty_bytes(p) - before;
		most = sent > most ? sent : most;
		sum += sent;
	}
	pty_free(p);
	printf("bytes sent to the terminal for one typed digit: counted at the other end of a pseudo-terminal\n"
	       "  mean of four, and the most                                %.0f, %zu  (reach: under 100)\n",
		(double)sum / 4, most);
	files_remove(&f);
}

/* ---- start and size ---- */

static double peak_megabytes(int pid)
{
	char path[64], line[256];
	double kilobytes = 0;

	snprintf(path, sizeof path, "/proc/%d/status", pid);
	FILE *status = fopen(path, "r");
	while (status && fgets(line, sizeof line, status))
		if (strncmp(line, "VmHWM:", 6) == 0)
			kilobytes = strtod(line + 6, NULL);
	if (status)
		fclose(status);
	return kilobytes / 1024;
}

/* The sqlite3 shell opens the same file and reads every table of it. */
static double time_shell(const char *job)
{
	char words[3][160] = { "sh", "-c", "exec sqlite3 -readonly \"$0\" .dump > /dev/null" }, file[160];
	char *const argv[] = { words[0], words[1], words[2], file, NULL };
	extern char **environ;
	double begin = seconds();
	int status;
	pid_t pid;

	snprintf(file, sizeof file, "%s", job);
	assert_int_equal(posix_spawn(&pid, "/bin/sh", NULL, NULL, argv, environ), 0);
	assert_int_equal(waitpid(pid, &status, 0), pid);
	assert_int_equal(status, 0);
	return seconds() - begin;
}

static void start_to_frame(void)
{
	static double ours[STARTS], theirs[STARTS];
	double megabytes = 0;
	struct files f;

	files_make(&f, jobs_plain, 300);
	for (int i = 0; i < STARTS; i++) {
		double begin = seconds();
		struct pty *p = start(f.job);
		assert_pty_sees(p, "joint 301");
		ours[i] = seconds() - begin;
		megabytes = peak_megabytes(pty_pid(p));
		pty_free(p);
		theirs[i] = time_shell(f.job);
	}
	double a = middle(ours, STARTS), b = middle(theirs, STARTS);
	printf("start to first frame: 300 joints, from fork to the entry line read off a pseudo-terminal; against the sqlite3\n"
	       "shell opening the same file and reading all its tables; medians of %d, in turn\n"
	       "  ratio                                                     %.2f  (reach: under 3; %.1f ms against %.1f ms)\n"
	       "peak memory at 300 joints: VmHWM of the program with its screen shown\n"
	       "  megabytes                                                 %.1f  (reach: under 20)\n",
		STARTS, a / b, a * 1e3, b * 1e3, megabytes);
	files_remove(&f);
}

int main(void)
{
	program = getenv("SAGBEND");
	if (program == NULL) {
		fputs("SAGBEND must name the program\n", stderr);
		return 1;
	}
	key_to_frame();
	bytes_for_a_digit();
	start_to_frame();
	return 0;
}
