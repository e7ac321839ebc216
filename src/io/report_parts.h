/* Between the files of the as-built report: its parts, and the words that they share. */
#ifndef SB_SRC_IO_REPORT_PARTS_H
#define SB_SRC_IO_REPORT_PARTS_H

#include "base/time.h"
#include "draw/axis.h"
#include "io/report.h"

struct report {
	const struct job *job;
	const struct solution *s;
	const struct about *about;
	struct document *d;
	struct setup setup;
	const char *unit; /* "m", "ft" */
	int part;	  /* number of the last heading */
};

/* ---- the parts, in their order ---- */

void report_summary(struct report *r);
void report_measured(struct report *r);
void report_nonconformances(struct report *r);
void report_surroundings(struct report *r);
void report_fixes(struct report *r);
void report_position(struct report *r);
void report_bend(struct report *r);
void report_uncertainty(struct report *r);
void report_opening(struct report *r);
void report_fluid(struct report *r);
void report_string(struct report *r);
void report_pipe(struct report *r);
void report_pull(struct report *r);
void report_readings(struct report *r);
void report_withdrawn(struct report *r);
void report_corrections(struct report *r);
void report_acknowledgements(struct report *r);
void report_shifts(struct report *r);
void report_acceptance(struct report *r);

/* ---- what they share ---- */

void report_heading(struct report *r, const char *words); /* with its number */
/* What another page heads, from block `from` of the document on, is a part of this part. */
void report_nest(struct report *r, size_t from);
/* Entries that came with acts of these kinds and were struck out: what, by whom, why. Nothing where none was.
 */
void report_struck(struct report *r, const enum act_kind *kinds, size_t count);

#define REPORT_WORDS 64
double report_typed(const struct report *r, double metres);
/* "1.84 right"; a value that rounds to nothing has no side. Returns text. */
const char *report_side(const struct report *r, double metres, const char *positive, const char *negative,
	char text[REPORT_WORDS]);
/* "1314", "straight". */
const char *report_radius(const struct report *r, double radius_m, char text[REPORT_WORDS]);
const char *report_station(const struct report *r, double station_m, char text[REPORT_WORDS]);
/* "2026-11-25 14:32" as the clock stood where the act was done; the day alone. */
const char *report_time(const struct job *job, int64_t act, int64_t at_ms, char text[REPORT_WORDS]);
const char *report_day(const struct job *job, int64_t act, int64_t at_ms, char text[REPORT_WORDS]);

#endif
