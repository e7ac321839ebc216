/* The main screen, in parts: what is typed (log_entry.c) and how it looks (log_line.c), the warning that
 * waits (log_warning.c), the plan (log_plan.c), the acts that ask something first (log_acts.c), the table
 * (log_table.c), and the screen that holds them (screen_log.c).
 */
#ifndef UI_LOG_H
#define UI_LOG_H

#include "model/blunder.h"
#include "model/steering.h"
#include "ui/form.h"
#include "ui/pictures.h"
#include "ui/screen.h"

struct log_state {
	/* what is typed for the next joint */
	struct form entry;  /* the five fields of the entry line */
	struct form more;   /* all others that a row can carry */
	int leg, joint;	    /* what it is typed for */
	bool trial;	    /* what if: the answers and pictures speak of what is typed; nothing is logged */
	struct form before; /* the entry line as it was when what-if began, and will be again */
	bool known;	    /* preview holds */
	struct preview preview;
	/* what is looked at */
	bool marked; /* a row of the table is chosen: */
	size_t back; /* which, counted from the newest */
	size_t rows; /* how many the table had when it was last looked at */
	enum picture picture;
	enum reach reach;
	struct pictures pictures;
	struct plan plan; /* made when the job changes */
	struct withdrawal withdrawal;
	bool followed; /* what would follow from the reading that is tried is known: */
	struct plan then;
	struct withdrawal then_back;
	size_t then_slides; /* that it was learnt from */
	struct plan pinned;
	bool pinned_known;
};

/* ---- what is typed ---- */

/* Empties both forms for the next joint: the tally's length is offered, all else is blank. */
void sb_log_begin(struct view *v);
/* One row field as a form field. */
struct form_field sb_log_field(const struct row_field *f, const struct job *job, int width);
/* form_check of row fields; context is the job. */
int sb_log_check(const struct form *f, size_t field, const void *context, struct sb_err *err);
/* Puts the fields of a form into a reading. */
int sb_log_take(const struct form *f, enum incline incline, struct reading *r, struct sb_err *err);
/* The reading that the two forms make; taken: false leaves the angles out. */
int sb_log_reading(const struct view *v, bool taken, struct reading *r, struct sb_err *err);
/* After each change: the draft to disk, the preview anew. */
void sb_log_changed(struct view *v);
void sb_log_save_draft(const struct view *v, bool sync);
/* Takes a draft up again, if there is one for this joint. Says so. */
void sb_log_load_draft(struct view *v);
/* What if: begins, or ends with the entry line as it was before. */
void sb_log_trial(struct view *v, bool on);
/* Logs what is typed; taken: false leaves the angles out; the reason is for a reading that looks like a
 * slip. FOLLOW_JOB_CHANGED when it is on disk; else it said why not, and all that was typed still stands. */
enum follow sb_log_commit(struct view *v, bool taken, const char *reason);
/* Asks what to do about what is held. */
enum follow sb_log_hold(struct view *v, const struct suspicion *found, size_t count);
/* What is typed looks like a slip; returns how many suspicions, held ones first. */
size_t sb_log_look(const struct view *v, const struct reading *r, struct suspicion found[SB_SUSPICIONS]);

/* Three rows: the rule over it, the fields, what they mean. */
#define SB_LOG_LINE_ROWS 3
void sb_log_line_draw(const struct view *v, struct cells *out);

/* ---- acts that ask first: the rows of the table of actions ---- */

enum follow sb_log_pull_back(struct view *v);
enum follow sb_log_note(struct view *v);
enum follow sb_log_no_reading(struct view *v);

/* ---- the table ---- */

/* The reading of the chosen row; without a choice the last joint in the ground, else the newest row. NULL
 * when there is none. */
const struct reading *sb_log_table_chosen(const struct view *v);
bool sb_log_table_newest_stands(const struct job *job); /* the newest row is in the ground */
/* The solved row of a reading, withdrawn or not; NULL when it was replaced. */
const struct row *sb_log_table_row(const struct solution *s, const struct reading *r);
void sb_log_table_draw(const struct view *v, struct cells *out);
/* ---- the warning and the plan ---- */

/* A warning that waits: one that holds now before one that is past, then the worse, then the newer; NULL:
 * none does. waiting: how many. */
const struct warning *sb_log_waiting(const struct solution *s, size_t *waiting);
int sb_log_warning_rows(const struct view *v, int columns); /* that its words need, three at most */
void sb_log_warning_draw(const struct view *v, struct cells *out);

/* What to do next: made anew when the job changes, not when a frame is drawn. */
void sb_log_plan(struct view *v);
/* The plan that would follow from a reading, as if it were logged. */
void sb_log_plan_then(struct view *v, const struct reading *r);
enum follow sb_log_drill(struct view *v); /* an act: of rehearsals alone */

extern const struct screen sb_screen_log, sb_screen_steering, sb_screen_more, sb_screen_held,
	sb_screen_doubted, sb_screen_correct, sb_screen_joint, sb_screen_warnings, sb_screen_history,
	sb_screen_handover, sb_screen_timeline, sb_screen_repeat, sb_screen_clearance;

#endif
