/* One question at the foot of the screen: a text answer, several, or yes and no. The screen that asks stays
 * in sight above it.
 */
#ifndef SB_UI_PROMPT_H
#define SB_UI_PROMPT_H

#include "ui/form.h"
#include "ui/screen.h"

struct prompt {
	char question[400];
	struct form form; /* no fields: yes or no */
	form_check check; /* may be NULL */
	int64_t subject;  /* the asker's own: which row, which joint */
	/* Under what name what is half typed is kept (ui/kept.h), NULL: it is not; and for which one: of
	 * another it is not taken up again. */
	const char *kept;
	int number;
	/* Called when Enter, or Y, was pressed and nothing is wrong. Returns what must follow for the
	 * asker; FOLLOW_PASS: not taken (it said why by sb_app_say): the question stays with all that was
	 * typed. */
	enum follow (*answer)(struct view *asker, const struct form *given, int64_t subject);
};

/* Esc or Ctrl-C, or N to a yes and no, takes the question back: then answer is not called, and nothing of it
 * is kept. p is copied. */
enum follow sb_prompt_ask(struct view *asker, const struct prompt *p);

extern const struct screen sb_screen_prompt, sb_screen_confirm;

#endif
