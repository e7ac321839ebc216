/* The keys of a job sheet: one table that reads them, writes them into the job file and back, explains
 * them in the man page, and says what would be right when they are wrong.
 */
#ifndef SB_MODEL_SETTING_H
#define SB_MODEL_SETTING_H

#include "model/job.h"

enum setting_type {
	SETTING_TEXT,
	SETTING_NUMBER,
	SETTING_PLACE,	/* E, N, elevation */
	SETTING_CHOICE, /* one of `choices`, into an enum */
	SETTING_AXES,	/* a tool's axes (geom/axes.h) */
};

struct setting {
	const char *section, *key;
	enum setting_type type;
	size_t offset;	     /* into struct job */
	size_t size;	     /* of text members */
	const char *choices; /* "m|ft|ftUS" */
	int required;
	double low, high;   /* inclusive */
	const char *preset; /* what holds when it is left out; NULL: not given */
	const char *unit;   /* for the man page: "length", "degrees", "" */
	const char *help;
};

extern const struct setting sb_settings[];
extern const size_t sb_setting_count;

/* An empty job with the presets of the table. sb_job_clear when done. */
void sb_setting_init(struct job *job);

const struct setting *sb_setting(const char *section, const char *key); /* NULL if there is none */

/* Whether it may change while the bore is drilled: what the azimuths refer to, the tool. */
bool sb_setting_changeable(const struct setting *s);

/* Puts text as written in the sheet; -1 with err saying what would be right. */
int sb_setting_put(const struct setting *s, struct job *job, const char *text, struct sb_err *err);

/* The text as it stands, for the job file and for reports; false when not given. */
bool sb_setting_get(const struct setting *s, const struct job *job, char *text, size_t size);

/* The tables of the sheet, likewise: one row of text a line. */
struct sheet_column {
	const char *name;
	enum { COLUMN_NUMBER, COLUMN_TEXT, COLUMN_WHOLE, COLUMN_CHOICE, COLUMN_CLOCK } type;
	size_t offset;
	size_t size;  /* of text members */
	int required; /* a blank cell is refused */
	double low, high;
	const char *unit, *help;
	const char *const *words; /* of COLUMN_CHOICE, by the enum's value from 0, ended by NULL */
};

struct sheet_table {
	const char *name; /* key in [files] and name in the job file: "profile" */
	const struct sheet_column *columns;
	size_t column_count;
	size_t row_size;
	size_t line_offset; /* of the row's `line` */
	int required;
	const char *help;
	/* where the job keeps it */
	size_t rows_offset, count_offset, room_offset;
};

extern const struct sheet_table sb_sheet_tables[];
extern const size_t sb_sheet_table_count;

const struct sheet_table *sb_sheet_table(const char *name);
/* A new, empty row at the end of the table. Borrowed until the next one. */
void *sb_sheet_row_new(const struct sheet_table *t, struct job *job);
size_t sb_sheet_rows(const struct sheet_table *t, const struct job *job);
const void *sb_sheet_row(const struct sheet_table *t, const struct job *job, size_t i);
int sb_sheet_cell_put(const struct sheet_column *c, void *row, const char *text, struct sb_err *err);
/* The text as typed; "" when blank. buffer serves whole numbers. */
const char *sb_sheet_cell_get(const struct sheet_column *c, const void *row, char buffer[SB_NUMBER_TEXT]);

#endif
