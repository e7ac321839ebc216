/* Signal handlers, which have nothing but file-level variables to hold on to: hence these.
 *
 * 1. A handler only notes that its signal came and wakes the poll (a pipe); the loop does the rest.
 * 2. A write to a link that takes nothing blocks, and nothing gets it out: so a signal that ends the program
 *    sets an alarm, which ends it for good if it still paints by then. What was typed was kept before.
 * 3. A crash gives the terminal back before it is one. Only functions that POSIX allows in a handler are
 *    called there (tcsetattr and write are among them: POSIX.1-2017, System Interfaces, 2.4.3).
 */
#include "ui/signals.h"

#include "base/str.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#define STALL_SECONDS 2

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* By urgency. */
static const int noted[] = { SIGHUP, SIGTERM, SIGINT, SIGTSTP, SIGCONT, SIGWINCH };
static const int fatal[] = { SIGABRT, SIGSEGV, SIGBUS, SIGFPE, SIGILL };

static volatile sig_atomic_t came[NSIG];
static volatile sig_atomic_t painting, ending;
static int wake[2] = { -1, -1 };
static struct sigaction before[NSIG];
static struct termios modes;
static char way_back[128];

static void note(int signal)
{
	int saved = errno;

	came[signal] = 1;
	if (signal == SIGTERM || signal == SIGHUP || signal == SIGINT) {
		ending = signal;
		alarm(STALL_SECONDS);
	}
	if (write(wake[1], "", 1) < 0) {
		/* the pipe is full, so it wakes anyway */
	}
	errno = saved;
}

static void end_stalled(int signal)
{
	(void)signal;
	if (painting) {
		tcsetattr(STDIN_FILENO, TCSANOW, &modes);
		_exit(128 + ending);
	}
	if (ending)
		alarm(1);
}

static void give_back_and_die(int signal)
{
	struct sigaction as_usual = { .sa_handler = SIG_DFL };

	tcsetattr(STDIN_FILENO, TCSANOW, &modes);
	if (write(STDOUT_FILENO, way_back, strlen(way_back)) < 0) {
		/* nothing more can be done for it */
	}
	sigaction(signal, &as_usual, NULL);
	raise(signal);
}

static void handle(int signal, void (*handler)(int))
{
	struct sigaction action = { .sa_handler = handler };

	sigemptyset(&action.sa_mask);
	sigaction(signal, NULL, &before[signal]);
	if (before[signal].sa_handler != SIG_IGN) /* nohup, and shells without job control */
		sigaction(signal, &action, NULL);
}

int sb_signals_take_over(struct sb_err *err)
{
	if (pipe2(wake, O_NONBLOCK | O_CLOEXEC))
		return sb_fail(err, SB_IO, "No pipe to wake the screen with: %s.", strerror(errno));
	tcgetattr(STDIN_FILENO, &modes);
	for (size_t i = 0; i < NSIG; i++)
		came[i] = 0;
	painting = ending = 0;
	for (size_t i = 0; i < COUNT(noted); i++)
		handle(noted[i], note);
	for (size_t i = 0; i < COUNT(fatal); i++)
		handle(fatal[i], give_back_and_die);
	handle(SIGALRM, end_stalled);
	return 0;
}

void sb_signals_give_back(void)
{
	alarm(0);
	for (size_t i = 0; i < COUNT(noted); i++)
		sigaction(noted[i], &before[noted[i]], NULL);
	for (size_t i = 0; i < COUNT(fatal); i++)
		sigaction(fatal[i], &before[fatal[i]], NULL);
	sigaction(SIGALRM, &before[SIGALRM], NULL);
	tcsetattr(STDIN_FILENO, TCSANOW, &modes);
	close(wake[0]);
	close(wake[1]);
	wake[0] = wake[1] = -1;
}

int sb_signals_wake(void)
{
	return wake[0];
}

int sb_signals_next(void)
{
	char bytes[64];
	ssize_t got;

	do
		got = read(wake[0], bytes, sizeof bytes);
	while (got > 0);
	for (size_t i = 0; i < COUNT(noted); i++)
		if (came[noted[i]]) {
			came[noted[i]] = 0;
			return noted[i];
		}
	return 0;
}

void sb_signals_painting(bool begins)
{
	painting = begins;
}

void sb_signals_way_back(const char *text)
{
	sb_copy(way_back, sizeof way_back, text);
}

void sb_signals_stop(void)
{
	struct sigaction as_usual = { .sa_handler = SIG_DFL }, ours;

	sigaction(SIGTSTP, &as_usual, &ours);
	kill(0, SIGTSTP);
	sigaction(SIGTSTP, &ours, NULL);
	came[SIGTSTP] = came[SIGCONT] = 0;
}
