/* A program in a terminal of our own: a pseudo-terminal on one side, libvterm reading the screen on the
 * other.
 *
 * Tests wait for what is on the screen, with a deadline that only a broken program meets; never for time.
 */
#ifndef SUPPORT_PTY_H
#define SUPPORT_PTY_H

#include <stdbool.h>
#include <stddef.h>

struct pty;

struct pty_options {
	const char *const *argv; /* ends in NULL */
	int columns, rows;	 /* 80 x 24 when left out */
	const char *term;	 /* "xterm-256color" when left out */
	const char *lang;	 /* "C.UTF-8" when left out */
	const char *const *env;	 /* further "NAME=value", ends in NULL; or NULL */
};

/* The environment is only TERM, LANG, TZ=UTC, PATH, HOME, what sanitizers and coverage need, and env. Nothing
 * is remembered from one run to the next, unless env names a folder for it (XDG_STATE_HOME). */
struct pty *pty_start(const struct pty_options *o);
void pty_free(struct pty *p); /* ends the program if it still runs */

void pty_type(struct pty *p, const char *bytes);
void pty_resize(struct pty *p, int columns, int rows);
void pty_signal(struct pty *p, int signal);
void pty_hang_up(struct pty *p); /* the other end of the line is gone */

/* Reads until the text stands on the screen, or is gone from it. False at the deadline. */
bool pty_sees(struct pty *p, const char *text);
bool pty_loses(struct pty *p, const char *text);
/* Reads until nothing has come for a while: for counting bytes, where too short a wait counts too few. */
void pty_drain(struct pty *p);
/* Reads until the program ended, and returns its exit status (128 + signal when one ended it); -1 at the
 * deadline. */
int pty_end(struct pty *p);
/* The same without reading: the line is stalled. */
int pty_end_unread(struct pty *p);

const char *pty_row(struct pty *p, int row); /* as it is; borrowed until the next call */
bool pty_cursor(struct pty *p, int *row, int *column);
size_t pty_bytes(const struct pty *p);	  /* received so far */
const char *pty_raw(const struct pty *p); /* all of them; no NUL came, or the text ends there */
bool pty_line_mode(const struct pty *p);  /* the terminal's modes are a shell's: lines, echo */
int pty_pid(const struct pty *p);
void pty_print(struct pty *p);

#define assert_pty_sees(p, text) \
	do { \
		if (!pty_sees((p), (text))) { \
			print_error("never saw \"%s\":\n", (text)); \
			pty_print(p); \
			_fail(__FILE__, __LINE__); \
		} \
	} while (0)

#endif
