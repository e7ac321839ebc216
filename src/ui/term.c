/* The real terminal. The only file that knows curses.
 *
 * Curses paints: it knows how to get from what is on the screen to what shall be there in the fewest bytes.
 * It does not read: bytes are read here and understood in ui/input.c, because curses hands on the pieces of
 * a sequence that it does not know as if they had been typed.
 *
 * 1. Nothing is painted while the link takes nothing (ui/signals.h for a link that stops in mid-frame).
 * 2. However the program ends, the terminal is given back as it was.
 */
#include "ui/term.h"

#include "base/mem.h"
#include "base/str.h"
#include "ui/charset.h"
#include "ui/input.h"
#include "ui/key.h"
#include "ui/signals.h"

#include <assert.h>
#include <curses.h>
#include <errno.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <term.h>
#include <termios.h>
#include <unistd.h>
#include <wchar.h>

#undef columns /* term.h makes macros of common words */

#define REST_MS 40 /* how long the rest of a sequence may take, and so how long a lone Esc is waited for */

struct real {
	SCREEN *screen;
	struct input input;
	struct cell *shown; /* what curses was told, to tell it only what differs */
	int rows, columns;
	int colours;
	bool direct; /* colours are 0xRRGGBB, not numbers of a palette */
	enum theme theme;
	bool themed;	      /* `theme` is set up */
	int pairs[STYLES][2]; /* curses' number of the colours of a style, as it is and chosen; 0: none */
	enum glyphs best, glyphs;
};

static bool taken; /* one at a time; and the memory hook's only hold */

/* Setting up */

static const char *described(const char *capability)
{
	const char *text = tigetstr(capability);

	return text == NULL || (intptr_t)text == -1 ? "" : text;
}

static int refuse_what_cannot(struct sb_err *err)
{
	const char *term = getenv("TERM");
	int found = 0;

	if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO))
		return sb_fail(err, SB_USAGE,
			"The screen needs a terminal for its keys and its picture, but one of the two goes to a "
			"file or a pipe. The commands work without: see sagbend --help.");
	if (term == NULL || term[0] == '\0')
		return sb_fail(err, SB_USAGE,
			"TERM is not set, so it is not known what this terminal understands. Set it, for example "
			"TERM=xterm-256color, or use the commands: see sagbend --help.");
	if (setupterm(NULL, STDOUT_FILENO, &found) != OK)
		return sb_fail(err, SB_USAGE,
			"This machine does not know the terminal type '%.40s'. Set TERM to one that it knows, for "
			"example TERM=xterm-256color, or use the commands: see sagbend --help.",
			term);
	bool can = *described("cup") != '\0';
	del_curterm(cur_term);
	if (!can)
		return sb_fail(err, SB_USAGE,
			"A terminal of type '%.40s' cannot place text on its screen. Use another one, or the "
			"commands: see sagbend --help.",
			term);
	return 0;
}

/* Keys come one by one and all of them: no Ctrl-S that freezes, no Ctrl-C that kills, no Ctrl-V. */
static void set_modes(void)
{
	struct termios modes;

	cbreak();
	noecho();
	nonl();
	keypad(stdscr, TRUE); /* tells the terminal to send the keypad's own keys */
	typeahead(-1);	      /* whole frames */
	tcgetattr(STDIN_FILENO, &modes);
	modes.c_iflag &= ~(tcflag_t)(IXON | ICRNL | INLCR | IGNCR | ISTRIP);
	modes.c_lflag &= ~(tcflag_t)(ISIG | IEXTEN);
	modes.c_cc[VMIN] = 1;
	modes.c_cc[VTIME] = 0;
	tcsetattr(STDIN_FILENO, TCSADRAIN, &modes);
	def_prog_mode();
}

static const struct {
	const char *capability;
	int key;
} described_keys[] = {
	{ "kcuu1", SB_KEY_UP },
	{ "kcud1", SB_KEY_DOWN },
	{ "kcub1", SB_KEY_LEFT },
	{ "kcuf1", SB_KEY_RIGHT },
	{ "khome", SB_KEY_HOME },
	{ "kend", SB_KEY_END },
	{ "kpp", SB_KEY_PAGE_UP },
	{ "knp", SB_KEY_PAGE_DOWN },
	{ "kich1", SB_KEY_INSERT },
	{ "kdch1", SB_KEY_DELETE },
	{ "kcbt", SB_KEY_BACKTAB },
	{ "kent", SB_KEY_ENTER },
	{ "kbs", SB_KEY_BACKSPACE },
};

static void learn_keys(struct input *in)
{
	char name[8];

	for (size_t i = 0; i < sizeof described_keys / sizeof *described_keys; i++)
		sb_input_learn(in, described(described_keys[i].capability), described_keys[i].key);
	for (int i = 0; i < 12; i++) {
		snprintf(name, sizeof name, "kf%d", i + 1);
		sb_input_learn(in, described(name), SB_KEY_F1 + i);
	}
}

static void set_colours(struct real *t, enum colour_wish wish)
{
	const char *no = getenv("NO_COLOR");

	t->colours = 0;
	if (wish == COLOUR_NEVER || (wish == COLOUR_AUTO && no && no[0]) || !has_colors())
		return;
	start_color();
	use_default_colors(); /* what curses falls back to after each frame: the shortest way there */
	if (COLORS >= 8 && COLOR_PAIRS > 2 * STYLES) /* pair 0 is not ours */
		t->colours = COLORS;
	t->direct = COLORS > 256 && tigetflag("RGB") > 0;
}

/* Put together beforehand: a crash must not ask curses for anything. */
static void remember_way_back(void)
{
	static const char *const capabilities[] = { "sgr0", "cnorm", "rmkx", "rmcup" };
	struct sb_str s = { 0 };

	for (size_t i = 0; i < sizeof capabilities / sizeof *capabilities; i++)
		if (strstr(described(capabilities[i]), "$<") == NULL) /* no padding in here */
			sb_str_add(&s, "%s", described(capabilities[i]));
	sb_str_add(&s, "\r\n");
	sb_signals_way_back(sb_str_get(&s));
	sb_str_clear(&s);
}

/* The terminal may have wrapped its old text anew for the new size, so nothing of it is believed. */
static void measure(struct real *t)
{
	struct winsize size;

	clearok(curscr, TRUE);
	if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_row && size.ws_col)
		resize_term(size.ws_row, size.ws_col);
	getmaxyx(stdscr, t->rows, t->columns);
	sb_free(t->shown);
	t->shown = sb_alloc((size_t)t->rows * (size_t)t->columns * sizeof *t->shown);
}

/* Somebody else may have had the terminal in between. */
static void regain(struct real *t)
{
	reset_prog_mode();
	measure(t);
}

static void restore_for_memory(void)
{
	if (taken && !isendwin())
		endwin();
}

/* Waiting */

static const struct {
	int signal;
	enum event_kind kind;
	void (*first)(struct real *t);
} signal_events[] = {
	{ SIGHUP, EVENT_GONE, NULL },
	{ SIGTERM, EVENT_STOP, NULL },
	{ SIGINT, EVENT_STOP, NULL },
	{ SIGTSTP, EVENT_SUSPEND, NULL },
	{ SIGCONT, EVENT_RESIZE, regain },
	{ SIGWINCH, EVENT_RESIZE, measure },
};

static bool take_signal(struct real *t, struct event *e)
{
	int signal = sb_signals_next();

	for (size_t i = 0; i < sizeof signal_events / sizeof *signal_events; i++)
		if (signal_events[i].signal == signal) {
			if (signal_events[i].first)
				signal_events[i].first(t);
			*e = (struct event){ .kind = signal_events[i].kind, .signal = signal };
			return true;
		}
	return false;
}

/* Reads what is there. False when the terminal is gone. */
static bool read_bytes(struct real *t)
{
	char bytes[256];
	ssize_t got = read(STDIN_FILENO, bytes, sizeof bytes);

	if (got > 0)
		sb_input_add(&t->input, bytes, (size_t)got);
	return got > 0 || (got < 0 && (errno == EINTR || errno == EAGAIN));
}

static bool take_input(struct real *t, bool waited, struct event *e)
{
	int key = sb_input_next(&t->input, waited);

	*e = (struct event){ .kind = EVENT_KEY, .key = key };
	return key != SB_KEY_NONE;
}

static void term_wait(void *self, int timeout_ms, struct event *out)
{
	struct real *t = self;

	for (;;) {
		if (take_signal(t, out) || take_input(t, false, out))
			return;
		struct pollfd fds[] = { { .fd = STDIN_FILENO, .events = POLLIN },
			{ .fd = sb_signals_wake(), .events = POLLIN } };
		bool torn = sb_input_waits(&t->input) && timeout_ms >= REST_MS;
		int ready = poll(fds, 2, torn ? REST_MS : timeout_ms);
		if (ready == 0 && torn && take_input(t, true, out))
			return;
		if (ready == 0 && !torn) {
			*out = (struct event){ .kind = EVENT_TIME };
			return;
		}
		bool lost = ready > 0 && fds[0].revents & (POLLHUP | POLLERR | POLLNVAL);
		if (lost || (ready > 0 && fds[0].revents & POLLIN && !read_bytes(t))) {
			*out = (struct event){ .kind = EVENT_GONE };
			return;
		}
	}
}

/* Showing */

static int colour_number(const struct real *t, int number)
{
	return t->direct && number >= 16 ? (int)sb_theme_rgb(number) : number;
}

static void as_curses(const struct real *t, const struct cell *cell, cchar_t *out)
{
	struct look look = sb_theme_look(t->theme, t->colours, (enum style)cell->style, cell->chosen);
	int pair = t->pairs[cell->style][cell->chosen];
	wchar_t text[3] = { (wchar_t)cell->character, (wchar_t)cell->mark, 0 };
	attr_t how = WA_NORMAL;

	if (look.bold)
		how |= WA_BOLD;
	if (look.underline)
		how |= WA_UNDERLINE;
	if (look.reverse)
		how |= WA_REVERSE;
	setcchar(out, text, how, (short)pair, NULL);
}

/* The pair that shows these colours; looks that share colours share it, so that going from one to the other
 * costs no bytes. */
static int pair_for(struct real *t, enum theme theme, int i)
{
	struct look look = sb_theme_look(theme, t->colours, (enum style)(i / 2), i % 2);

	if (look.ink < 0)
		return 0;
	for (int j = 0; j < i; j++) {
		struct look other = sb_theme_look(theme, t->colours, (enum style)(j / 2), j % 2);
		if (other.ink == look.ink && other.ground == look.ground)
			return t->pairs[j / 2][j % 2];
	}
	init_extended_pair(i + 1, colour_number(t, look.ink), colour_number(t, look.ground));
	return i + 1;
}

/* From now on curses knows the theme's colours, and clears to its ground. */
static void set_theme(struct real *t, enum theme theme)
{
	const struct cell blank = { .character = ' ', .style = STYLE_PLAIN };
	cchar_t ground;

	for (int i = 0; i < 2 * STYLES; i++)
		t->pairs[i / 2][i % 2] = pair_for(t, theme, i);
	t->theme = theme;
	t->themed = true;
	as_curses(t, &blank, &ground);
	bkgrndset(&ground);
	memset(t->shown, 0, (size_t)t->rows * (size_t)t->columns * sizeof *t->shown);
}

static bool same_cell(const struct cell *a, const struct cell *b)
{
	return a->character == b->character && a->mark == b->mark && a->style == b->style &&
		a->chosen == b->chosen;
}

static void tell_cells(struct real *t, const struct cells *cells)
{
	int rows = cells->rows < t->rows ? cells->rows : t->rows;
	int columns = cells->columns < t->columns ? cells->columns : t->columns;

	for (int row = 0; row < rows; row++) {
		const struct cell *from = cells->at + (ptrdiff_t)row * cells->stride;
		struct cell *shown = t->shown + (ptrdiff_t)row * t->columns;
		for (int column = 0; column < columns; column++) {
			if (same_cell(&from[column], &shown[column]))
				continue;
			shown[column] = from[column];
			if (from[column].character == 0)
				continue;
			cchar_t c;
			as_curses(t, &from[column], &c);
			mvadd_wch(row, column, &c);
		}
	}
}

static bool link_takes(void)
{
	struct pollfd out = { .fd = STDOUT_FILENO, .events = POLLOUT };

	return poll(&out, 1, 0) == 1 && (out.revents & POLLOUT);
}

static bool term_show(void *self, const struct cells *cells, enum theme theme)
{
	struct real *t = self;
	const struct cells_cursor *cursor = cells->cursor;

	if (!link_takes())
		return false;
	if (!t->themed || theme != t->theme)
		set_theme(t, theme);
	tell_cells(t, cells);
	sb_signals_painting(true);
	curs_set(cursor->shown ? 1 : 0);
	if (cursor->shown)
		move(cursor->row, cursor->column);
	wnoutrefresh(stdscr);
	doupdate();
	sb_signals_painting(false);
	return true;
}

static void term_repaint(void *self)
{
	(void)self;
	clearok(curscr, TRUE);
}

static void term_facts(void *self, struct term_facts *out)
{
	const struct real *t = self;

	*out = (struct term_facts){ t->rows, t->columns, t->colours, t->best, t->glyphs };
}

static void term_suspend(void *self)
{
	sb_signals_painting(true);
	endwin();
	sb_signals_painting(false);
	sb_signals_stop();
	regain(self);
}

static void term_close(void *self, bool gone)
{
	struct real *t = self;

	sb_signals_painting(true);
	if (!gone)
		endwin();
	sb_signals_painting(false);
	sb_signals_give_back();
	sb_mem_hook(NULL);
	taken = false;
	delscreen(t->screen);
	sb_free(t->shown);
	sb_free(t);
}

int sb_term_open(enum colour_wish colour, struct sb_term *out, struct sb_err *err)
{
	assert(!taken);
	if (refuse_what_cannot(err) || sb_signals_take_over(err)) /* curses leaves handlers that are there */
		return -1;
	unsetenv("LINES"); /* curses would believe them before the terminal itself */
	unsetenv("COLUMNS");
	struct real *t = sb_alloc(sizeof *t);
	sb_charset_choose(getenv("TERM"), &t->best, &t->glyphs); /* before curses looks at the locale */
	t->screen = newterm(NULL, stdout, stdin);
	if (t->screen == NULL) {
		sb_signals_give_back();
		sb_free(t);
		return sb_fail(err, SB_IO, "The terminal could not be set up.");
	}
	set_modes();
	learn_keys(&t->input);
	set_colours(t, colour);
	remember_way_back();
	measure(t);
	taken = true;
	sb_mem_hook(restore_for_memory);
	*out = (struct sb_term){ t, term_wait, term_facts, term_show, term_repaint, term_suspend,
		term_close };
	return 0;
}
