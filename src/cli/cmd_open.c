/* sagbend open: the screen. When somebody else has the job, or it may not be written to, one looks on instead
 * of being turned away.
 */
#include "base/mem.h"
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "ui/app.h"
#include "ui/everywhere.h"
#include "ui/remembered.h"
#include "ui/screens.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

static const struct option options[] = {
	{ "read-only", NULL, "look on: nothing is written, what others log shows at once", false },
	{ "by", "WHO", "who is at the keyboard; the login name when left out", false },
	{ "theme", "night|day|plain",
		"colours for the dark, for glare, or none; as last chosen when left out", false },
	{ "colour", "auto|always|never", "auto: unless NO_COLOR is set", false },
	OPTION_END,
};

static struct sb_term terminal;

static void give_terminal_back(void)
{
	if (terminal.close)
		terminal.close(terminal.self, false);
}

static int parse_colour(const struct invocation *in, enum colour_wish *wish, struct sb_err *err)
{
	static const char *const words[] = { "auto", "never", "always" };
	const char *text = sb_command_value(in, "colour");

	*wish = COLOUR_AUTO;
	for (int i = 0; text && i < 3; i++)
		if (sb_same(text, words[i])) {
			*wish = (enum colour_wish)i;
			return 0;
		}
	return text ? sb_fail(err, SB_USAGE, "--colour '%.20s' is not auto, always or never.", text) : 0;
}

/* What is asked for, else what was chosen last time, else night. */
static int parse_theme(
	const struct invocation *in, const struct remembered *last, enum theme *theme, struct sb_err *err)
{
	const char *text = sb_command_value(in, "theme");

	*theme = last->theme_known ? last->theme : THEME_NIGHT;
	if (text && sb_theme_parse(text, theme))
		return sb_fail(err, SB_USAGE, "--theme '%.20s' is not night, day or plain.", text);
	return 0;
}

/* said: why one only looks on; "" otherwise. */
static int open_job(const struct invocation *in, const char *who, struct sb_store **store,
	struct sb_err *said, struct sb_err *err)
{
	const char *path = in->positional[0];

	if (sb_command_flag(in, "read-only"))
		return sb_store_open(path, STORE_READ, who, store, err);
	if (sb_store_open(path, STORE_WRITE, who, store, err) == 0)
		return 0;
	if (err->code != SB_BUSY && err->code != SB_DENIED)
		return -1;
	*said = *err;
	return sb_store_open(path, STORE_READ, who, store, err);
}

static int show(struct sb_store *store, const char *who, enum theme theme, const struct remembered *last,
	const struct sb_err *said)
{
	char text[900] = "";
	struct sb_err err = { 0 };
	struct app_options o = { .store = store,
		.who = who,
		.theme = theme,
		.everywhere = sb_everywhere,
		.first = sb_screens[0],
		.argument = text,
		.glyphs_known = last->glyphs_known,
		.glyphs = last->glyphs,
		.theme_chosen = sb_remembered_theme,
		.glyphs_chosen = sb_remembered_glyphs };

	if (said->code)
		snprintf(text, sizeof text, "%s You are looking on.", said->text);
	sb_mem_hook(give_terminal_back);
	struct sb_app *app = sb_app_new(&terminal, &o, &err);
	if (app == NULL) {
		terminal.close(terminal.self, false);
		return sb_command_fail(&err);
	}
	int status = sb_app_run(app);
	bool gone = sb_app_gone(app);
	sb_app_free(app);
	terminal.close(terminal.self, gone);
	sb_mem_hook(NULL);
	return status;
}

static int run(const struct invocation *in)
{
	struct sb_err err = { 0 }, said = { 0 };
	struct sb_store *store = NULL;
	struct remembered last;
	enum colour_wish colour;
	enum theme theme;
	const char *who;

	sb_remembered_load(&last);
	if (sb_command_who(in, &who, &err) || parse_colour(in, &colour, &err) ||
		parse_theme(in, &last, &theme, &err))
		return sb_command_fail(&err);
	if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO)) {
		sb_fail(&err, SB_USAGE,
			"The screen needs a terminal. Without one there are path, check, handover and log: sagbend --help");
		return sb_command_fail(&err);
	}
	if (open_job(in, who, &store, &said, &err))
		return sb_command_fail(&err);
	int status = sb_term_open(colour, &terminal, &err) ? sb_command_fail(&err)
							   : show(store, who, theme, &last, &said);
	sb_store_close(store);
	return status;
}

const struct command sb_cmd_open = {
	.name = "open",
	.arguments =
		"JOB.bore [--read-only] [--by WHO] [--theme night|day|plain] [--colour auto|always|never]",
	.summary = "the screen; the same as sagbend JOB.bore",
	.detail = "When somebody else has the job open to write, or it may not be written to, you look on.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
