/* Between the files that read a job sheet: what is known of it while it is read. */
#ifndef SB_SRC_IO_SHEET_PARTS_H
#define SB_SRC_IO_SHEET_PARTS_H

#include "base/err.h"
#include "model/setting.h"

#define SHEET_SETTINGS 224
#define SHEET_TABLES 16
#define SHEET_FILE "job.ini"

struct sheet_source {
	char file[64]; /* as [files] names it; "" not named */
	int line;      /* of job.ini */
	bool sound;    /* read without an error */
};

struct sheet {
	const char *folder;
	struct job *job;
	struct sb_problems *problems;
	int lines[SHEET_SETTINGS];		   /* line of each of sb_settings; 0: not there */
	bool loaded;				   /* job.ini is there */
	bool sound;				   /* and was read without an error */
	struct sheet_source sources[SHEET_TABLES]; /* in the order of sb_sheet_tables */
};

/* src/io/sheet_ini.c: job.ini into the job and the sources. */
void sheet_read_ini(struct sheet *s);
/* src/io/sheet_check.c: what only shows when values are seen together. */
void sheet_check(struct sheet *s);
/* Line of a key in job.ini, 0 if it is not there. */
int sheet_line(const struct sheet *s, const char *section, const char *key);

#endif
