/* A screen whose fields take letters has Esc, Ctrl-C and the function keys left; all others have plain
 * letters too, because Esc is slow over some links and function keys differ. */
#include "ui/everywhere.h"

#include "base/str.h"
#include "ui/app.h"
#include "ui/help.h"
#include "ui/prompt.h"

static enum follow help(struct view *v)
{
	struct help_topic topic = { v->screen, sb_everywhere };

	return sb_app_open(v, &sb_screen_help, &topic);
}

static enum follow quit(struct view *asker, const struct form *given, int64_t subject)
{
	(void)asker;
	(void)given;
	(void)subject;
	return FOLLOW_QUIT;
}

static enum follow leave(struct view *v)
{
	struct prompt p = { .answer = quit };

	if (sb_app_below(v))
		return FOLLOW_CLOSE;
	sb_copy(p.question, sizeof p.question,
		"Leave sagbend? What was logged is on disk; what is half typed is kept for next time.");
	return sb_prompt_ask(v, &p);
}

const struct action sb_everywhere[] = {
	{ .name = "leave",
		.keys = "Q Esc Ctrl-C",
		.label = "leave",
		.help = "Close this screen; on the first one, leave the program.",
		.act = leave },
	{ .name = "colours",
		.keys = "D F9",
		.help = "Colours for day, for night, or none.",
		.act = sb_app_next_theme },
	{ .name = "characters",
		.keys = "G F8",
		.help = "Draw pictures in dots, in lines, or in plain characters: whichever this terminal shows well.",
		.act = sb_app_next_glyphs },
	{ .name = "paint-anew",
		.keys = "Ctrl-L",
		.help = "Paint the screen anew, when something else wrote over it.",
		.act = sb_app_repaint },
	{ .name = "make-way",
		.keys = "Ctrl-Z",
		.help = "Stop for now and go back to the shell; fg comes back.",
		.act = sb_app_suspend },
	{ .name = "help", .keys = "? F1", .label = "help", .help = "This page.", .act = help },
	{ 0 },
};
