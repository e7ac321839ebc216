/* The pseudo-terminal harness. What the program asks the terminal (cursor position and the like) libvterm
 * answers. */
#include "support/pty.h"

#include "base/mem.h"
#include "base/str.h"
#include "support/near.h"
#include "ui/glyph.h"

#include <errno.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>
#include <vterm.h>

#define DEADLINE_S 20
#define QUIET_MS 120

struct pty {
	int master, pid;
	int columns, rows;
	bool ended;
	int status; /* of waitpid */
	VTerm *vterm;
	VTermScreen *screen;
	struct sb_str raw;
	char text[4096];
	struct {
		int row, column;
		bool shown;
	} cursor;
};

static int cursor_moved(VTermPos pos, VTermPos old, int visible, void *user)
{
	struct pty *p = user;

	(void)old;
	(void)visible;
	p->cursor.row = pos.row;
	p->cursor.column = pos.col;
	return 1;
}

static int property_set(VTermProp prop, VTermValue *value, void *user)
{
	struct pty *p = user;

	if (prop == VTERM_PROP_CURSORVISIBLE)
		p->cursor.shown = value->boolean;
	return 1;
}

static const VTermScreenCallbacks callbacks = { .movecursor = cursor_moved, .settermprop = property_set };

static void keep_variable(const char *name, char *buffer, size_t size)
{
	const char *value = getenv(name);

	snprintf(buffer, size, "%s", value ? value : "");
}

static void set_environment(const struct pty_options *o)
{
	static const char *const kept[] = { "PATH", "HOME", "ASAN_OPTIONS", "UBSAN_OPTIONS",
		"LD_LIBRARY_PATH", "TERMINFO" };
	char values[sizeof kept / sizeof *kept][512];

	for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
		keep_variable(kept[i], values[i], sizeof values[i]);
	clearenv();
	for (size_t i = 0; i < sizeof kept / sizeof *kept; i++)
		if (values[i][0])
			setenv(kept[i], values[i], 1);
	setenv("TERM", o->term ? o->term : "xterm-256color", 1);
	setenv("LANG", o->lang ? o->lang : "C.UTF-8", 1);
	setenv("TZ", "UTC", 1);
	setenv("XDG_STATE_HOME", "/dev/null", 1);
	for (size_t i = 0; o->env && o->env[i]; i++) {
		char *copy = sb_strdup(o->env[i]); /* putenv keeps it */
		putenv(copy);
	}
}

static char *const *argument_list(const char *const *argv)
{
	size_t count = 0;

	while (argv[count])
		count++;
	char **list = sb_alloc((count + 1) * sizeof *list);
	for (size_t i = 0; i < count; i++)
		list[i] = sb_strdup(argv[i]);
	return list;
}

static void start_screen(struct pty *p, const struct pty_options *o)
{
	p->vterm = vterm_new(p->rows, p->columns);
	vterm_set_utf8(p->vterm, o->lang == NULL || strcasestr(o->lang, "utf") != NULL);
	p->screen = vterm_obtain_screen(p->vterm);
	p->cursor.shown = true;
	vterm_screen_set_callbacks(p->screen, &callbacks, p);
	vterm_screen_enable_altscreen(p->screen, 1);
	vterm_screen_reset(p->screen, 1);
}

struct pty *pty_start(const struct pty_options *o)
{
	struct pty *p = sb_alloc(sizeof *p);

	p->columns = o->columns ? o->columns : 80;
	p->rows = o->rows ? o->rows : 24;
	start_screen(p, o);
	struct winsize size = { .ws_row = (unsigned short)p->rows, .ws_col = (unsigned short)p->columns };
	p->pid = forkpty(&p->master, NULL, NULL, &size);
	if (p->pid == 0) {
		set_environment(o);
		char *const *argv = argument_list(o->argv);
		execvp(argv[0], argv);
		_exit(127);
	}
	assert_true(p->pid > 0);
	return p;
}

/* Waiting */

static double now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static void answer(struct pty *p)
{
	char bytes[256];
	size_t length;

	while ((length = vterm_output_read(p->vterm, bytes, sizeof bytes)) > 0)
		if (write(p->master, bytes, length) < 0)
			return;
}

/* Reads what comes within so long. False when nothing did, or the other side is closed. */
static bool read_some(struct pty *p, int timeout_ms)
{
	struct pollfd fd = { .fd = p->master, .events = POLLIN };
	char bytes[4096];

	if (p->master < 0 || poll(&fd, 1, timeout_ms) <= 0)
		return false;
	ssize_t got = read(p->master, bytes, sizeof bytes);
	if (got <= 0)
		return false;
	sb_str_append(&p->raw, bytes, (size_t)got);
	vterm_input_write(p->vterm, bytes, (size_t)got);
	answer(p);
	return true;
}

static bool stands(struct pty *p, const char *text)
{
	for (int row = 0; row < p->rows; row++)
		if (strstr(pty_row(p, row), text))
			return true;
	return false;
}

static bool wait_for(struct pty *p, const char *text, bool there)
{
	double deadline = now() + DEADLINE_S;

	while (stands(p, text) != there) {
		if (now() > deadline)
			return false;
		if (!read_some(p, 200) && p->ended)
			return false;
		if (!p->ended && waitpid(p->pid, &p->status, WNOHANG) == p->pid)
			p->ended = true; /* what it wrote last may still be read */
	}
	return true;
}

bool pty_sees(struct pty *p, const char *text)
{
	return wait_for(p, text, true);
}

bool pty_loses(struct pty *p, const char *text)
{
	return wait_for(p, text, false);
}

void pty_drain(struct pty *p)
{
	while (read_some(p, QUIET_MS))
		continue;
}

static int exit_status(int status)
{
	return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

static int wait_end(struct pty *p, bool reading)
{
	double deadline = now() + DEADLINE_S;

	while (!p->ended && now() < deadline) {
		if (waitpid(p->pid, &p->status, WNOHANG) == p->pid)
			p->ended = true;
		else if (!reading || !read_some(p, 20))
			poll(NULL, 0, 5);
	}
	while (reading && read_some(p, 0))
		continue;
	return p->ended ? exit_status(p->status) : -1;
}

int pty_end(struct pty *p)
{
	return wait_end(p, true);
}

int pty_end_unread(struct pty *p)
{
	return wait_end(p, false);
}

/* Doing */

void pty_type(struct pty *p, const char *bytes)
{
	size_t left = strlen(bytes);

	while (left > 0) {
		ssize_t sent = write(p->master, bytes, left);
		if (sent <= 0)
			return;
		bytes += sent;
		left -= (size_t)sent;
	}
}

void pty_resize(struct pty *p, int columns, int rows)
{
	struct winsize size = { .ws_row = (unsigned short)rows, .ws_col = (unsigned short)columns };

	p->columns = columns;
	p->rows = rows;
	vterm_set_size(p->vterm, rows, columns);
	ioctl(p->master, TIOCSWINSZ, &size);
}

void pty_signal(struct pty *p, int signal)
{
	kill(p->pid, signal);
}

void pty_hang_up(struct pty *p)
{
	close(p->master);
	p->master = -1;
}

void pty_free(struct pty *p)
{
	if (!p->ended) {
		kill(p->pid, SIGKILL);
		waitpid(p->pid, &p->status, 0);
	}
	if (p->master >= 0)
		close(p->master);
	vterm_free(p->vterm);
	sb_str_clear(&p->raw);
	sb_free(p);
}

/* Looking */

/* One cell as UTF-8, at the end of a text. */
static int add_cell(struct pty *p, int row, int column, struct sb_str *out)
{
	VTermScreenCell cell;
	char bytes[SB_GLYPH_BYTES];

	vterm_screen_get_cell(p->screen, (VTermPos){ .row = row, .col = column }, &cell);
	for (size_t i = 0; i < VTERM_MAX_CHARS_PER_CELL && cell.chars[i]; i++)
		sb_str_append(out, bytes, sb_glyph_encode(cell.chars[i], bytes));
	if (cell.chars[0] == 0)
		sb_str_append(out, " ", 1);
	return cell.width > 0 ? cell.width : 1;
}

const char *pty_row(struct pty *p, int row)
{
	struct sb_str s = { 0 };

	for (int column = 0; column < p->columns;)
		column += add_cell(p, row, column, &s);
	while (s.length > 0 && s.text[s.length - 1] == ' ')
		s.text[--s.length] = '\0';
	sb_copy(p->text, sizeof p->text, sb_str_get(&s));
	sb_str_clear(&s);
	return p->text;
}

bool pty_cursor(struct pty *p, int *row, int *column)
{
	*row = p->cursor.row;
	*column = p->cursor.column;
	return p->cursor.shown;
}

size_t pty_bytes(const struct pty *p)
{
	return p->raw.length;
}

const char *pty_raw(const struct pty *p)
{
	return sb_str_get(&p->raw);
}

bool pty_line_mode(const struct pty *p)
{
	struct termios modes;

	return tcgetattr(p->master, &modes) == 0 && (modes.c_lflag & ICANON) && (modes.c_lflag & ECHO);
}

int pty_pid(const struct pty *p)
{
	return p->pid;
}

void pty_print(struct pty *p)
{
	for (int row = 0; row < p->rows; row++)
		print_error("%3d |%s\n", row, pty_row(p, row));
}
