/* What the screens and questions share that enter an act: the keys of their form, the words and the name that
 * go with every act, and facts that are typed column by column.
 */
#ifndef SB_UI_ENTRY_H
#define SB_UI_ENTRY_H

#include "model/fact.h"
#include "ui/form.h"
#include "ui/screen.h"

/* A key for a screen that is one form. changed: what follows when something was typed; NULL: nothing. done:
 * what Enter does once nothing is wrong or wanting; NULL: nothing. */
enum follow sb_entry_key(struct view *v, struct form *f, int key, form_check check, const void *context,
	void (*changed)(struct view *v), enum follow (*done)(struct view *v));

/* A field for a number, its unit after it (NULL: none) and what is offered in it. */
void sb_entry_number(struct form *f, const char *name, const char *label, const char *unit, int width,
	bool required, const char *offered);
/* A field for words; and the one for the name that the act is signed with, v->who offered. */
void sb_entry_words(struct form *f, const char *name, const char *label, int width, bool required);
void sb_entry_who(struct form *f, const struct view *v);

/* Of a form whose fields bear the names of a fact's columns; fields that are none of them are the owner's.
 * sb_entry_check is a form_check whose context is the struct fact_sort. */
int sb_entry_check(const struct form *f, size_t field, const void *sort, struct sb_err *err);
/* Puts all of them into the fact; blank ones stay as they are. */
int sb_entry_take(const struct form *f, const struct fact_sort *sort, void *fact, struct sb_err *err);

/* How the warnings stood before an act. */
struct stood {
	size_t count;
	enum level level[WARNING_KINDS]; /* of the episode that lasts; LEVEL_OK: none */
};
struct stood sb_entry_stood(const struct view *v);
/* The worst warning that came with the newest act: one that it opened, one that says something else by it,
 * or an episode that grew. NULL: none. */
const struct warning *sb_entry_brought(const struct view *v, const struct stood *before);

/* After an act: what is on disk, and the worst warning that came with it. */
enum follow sb_entry_said(struct view *v, const char *what, const struct stood *before);

/* Asks why an entry beside or after the pilot is struck out, by the act that brought it, and strikes it out.
 */
enum follow sb_entry_strike(struct view *v, int64_t act);

#endif
