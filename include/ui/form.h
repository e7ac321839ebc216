/* A form: labelled fields that take numbers, text, or one of several words. A screen may have the whole form
 * drawn, one field a row, or place each field itself.
 */
#ifndef SB_UI_FORM_H
#define SB_UI_FORM_H

#include "base/err.h"
#include "store/draft.h"
#include "ui/action.h"

#define SB_FORM_FIELDS 28
#define SB_FORM_TEXT 256

enum entry_kind {
	ENTRY_NUMBER, /* takes digits, sign, decimal point; a comma becomes a point as it is typed */
	ENTRY_TEXT,
	ENTRY_CHOICE, /* one of `choices`, or none of them */
};

struct form_field {
	/* What it is: the strings are borrowed and outlive the form. */
	const char *name; /* in the draft */
	const char *label;
	const char *unit;    /* after the field; NULL: none */
	const char *choices; /* "full|partial|none" */
	enum entry_kind kind;
	int width; /* columns to type in */
	bool required;
	bool whole; /* a text that is typed anew rather than added to, as a time of day is */
	/* What stands there. */
	char text[SB_FORM_TEXT];
	bool offered;	   /* nobody typed it: the first character typed takes its place */
	size_t at;	   /* where typing goes on, bytes */
	char problem[200]; /* what is wrong with it; "" nothing */
};

struct form {
	struct form_field fields[SB_FORM_FIELDS];
	size_t count, focus;
	/* Something was typed or moved in the focused field since the focus came to it, or since Enter. Until
	 * then the first character typed takes the place of a number (or a `whole` text) that stands there:
	 * a hand that comes back to a number means another one. Backspace and the arrows mend it instead. */
	bool editing;
	bool by_enter; /* Enter goes on from field to field, and is done at the last; see sb_form_key */
};

/* Says what is wrong with a field that was filled in, beyond what its kind says: -1 with err. */
typedef int (*form_check)(const struct form *f, size_t field, const void *context, struct sb_err *err);

enum form_step {
	FORM_PASS,    /* not a key of the form's, or not one for this field */
	FORM_MOVED,   /* to be drawn again */
	FORM_CHANGED, /* what stands there is another: keep the draft */
	FORM_DONE,    /* Enter, and nothing is wrong or wanting */
};

/* To be read in help; Enter is the owner's to explain. */
extern const struct action sb_form_keys[];	/* fields one below the other */
extern const struct action sb_form_line_keys[]; /* side by side: the owner has Up and Down */

/* A new field at the end; offered: what stands there at first, "" nothing. */
void sb_form_add(struct form *f, struct form_field field, const char *offered);

/* check may be NULL. Enter goes to the next field that is required and blank, and is done when there is
 * none; or, where it goes from field to field, to the next one. */
enum form_step sb_form_key(struct form *f, int key, form_check check, const void *context);

/* Checks all fields; the first that is wrong gets the focus. 0: none is. */
int sb_form_check(struct form *f, form_check check, const void *context);

size_t sb_form_index(const struct form *f, const char *name);	  /* count when there is none */
const char *sb_form_text(const struct form *f, const char *name); /* "" when blank */
void sb_form_put(struct form *f, const char *name, const char *text, bool offered);
bool sb_form_touched(const struct form *f); /* somebody typed into it */

/* The whole form, one field a row, scrolled to the focus. */
void sb_form_draw(const struct form *f, struct cells *out);
/* One field: its label, the place to type, its unit. Returns the column after it. */
int sb_form_draw_one(const struct form *f, size_t field, struct cells *out, int row, int column);

/* The focus goes to a field, as by Tab. */
void sb_form_focus(struct form *f, size_t field);

/* What was typed, to and from a draft. Fields that the form does not have are passed over. What comes back
 * is gone on with, not typed anew. */
void sb_form_to_draft(const struct form *f, struct draft *d);
void sb_form_from_draft(struct form *f, const struct draft *d);

#endif
