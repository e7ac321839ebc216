/* A design as a drawing gives it: a LandXML file, a CSV of points of intersection, or a CSV of stations at
 * close intervals; and how it becomes the alignment and profile of a job sheet.
 *
 * Three steps, each saying what it finds: reading (in the drawing's own unit), placing (in the job's unit and
 * frame, held against its entry and exit), writing. Nothing of the geometry is passed over in silence: what
 * is not understood is a problem with its line, what is not needed is named in the notes.
 */
#ifndef SB_IO_GIVEN_H
#define SB_IO_GIVEN_H

#include "base/str.h"
#include "geom/chain.h"
#include "model/job.h"

#define SB_GIVEN_POINTS 5000 /* of a line; a drawing of one crossing has some hundreds */
#define SB_GIVEN_NAME 128

/* One of the two lines: x north, y east, or x station, y elevation. */
struct given_line {
	struct chain_pi *pis;
	int *lines; /* of the file, one for each */
	size_t count, room;
	/* found from listed points; points is 0 of a line that the drawing gives itself */
	size_t points;
	double worst, rms, within; /* distances of the points from the line, and what was allowed */
	double *found, *sigma;	   /* radius before it was made a round one, and its one sigma; by point */
};

enum given_mark { MARK_NONE, MARK_BEGIN, MARK_END };

/* Points of a line as a drawing lists them, row by row; the line behind them is found when it is placed. */
struct given_points {
	double *x, *y;
	int *lines;
	size_t count, room;
	double within; /* how far a point may lie from the line, drawing's unit: as said, or one in the last
			  decimal */
	double unit;   /* of the drawing, in the unit that x and y are in now */
	enum given_mark *
		marks; /* a row's remark says that a curve begins (MARK_BEGIN) or ends there; 0 it does not */
	char file[64];
};

enum given_unit {
	GIVEN_UNIT_UNSAID,
	GIVEN_UNIT_SAID,
	GIVEN_UNIT_FOOT, /* feet, and not which */
};

struct given {
	struct given_line alignment, profile;
	struct given_points alignment_points, profile_points;
	bool measured; /* how far along the profile's points are is where the alignment's, row by row, lie
			  along it */
	enum given_unit unit_said;
	enum unit unit;		 /* GIVEN_UNIT_SAID */
	char crs[SB_GIVEN_NAME]; /* "EPSG:2278"; what else the file calls it; "" unsaid */
	char alignment_name[SB_GIVEN_NAME], profile_name[SB_GIVEN_NAME];
	double start; /* what the drawing calls the station of the beginning; profile's x count from there */
	bool offsets; /* the alignment is station along, and offset right of, the straight from entry to exit
		       */
	bool grid;    /* radii of the alignment are lengths on the map, as its coordinates are */
	bool placed;  /* in the job's unit and frame */
	struct sb_str notes; /* what was understood, changed or left out: a sentence a line */
};

/* What the reader is told besides the file. */
struct given_choice {
	const char *alignment, *profile; /* by name; NULL: the only one */
	const struct number *within; /* how far a listed point may lie from the line, drawing's unit; NULL or
					not given: one in the last decimal */
	enum given_unit unit_said;   /* SAID: unit holds whatever the file says */
	enum unit unit;
	bool arcs;	     /* parabolas are taken for arcs with tangents of the same length */
	bool radii_as_found; /* not rounded */
	bool reversed;	     /* the drawing runs from exit to entry */
};

/* Adds what a file says to the drawing, which starts zeroed and may take an alignment and a profile from two
 * files. -1: problems say why, and the drawing is as it was but for notes. sb_given_clear when done. */
int sb_given_read(
	const char *path, const struct given_choice *choice, struct given *out, struct sb_problems *problems);
void sb_given_clear(struct given *d);

/* Turns the drawing into the job's unit, ground and direction, finds the lines behind listed points, and puts
 * them into the job's tables in place of those that are there. The line is then built as it will be drilled
 * along, and held against entry and exit. -1 when problems has errors; the job's tables may be changed then.
 */
int sb_given_place(
	struct given *d, const struct given_choice *choice, struct job *job, struct sb_problems *problems);
/* Without a job: direction and stations alone. */
int sb_given_turn(struct given *d, const struct given_choice *choice, struct sb_problems *problems);

/* The drawing as tables for people. unit: that of its numbers, "" when it is not known. */
void sb_given_text(const struct given *d, const char *unit, struct sb_str *out);

/* Writes the rows as alignment.csv and profile.csv of a folder, those that the drawing has: all of them or
 * none. -1 with err: one is there and may not be replaced, the folder is missing, the disk is full. */
int sb_given_write(const struct given *d, const char *folder, bool replace, struct sb_err *err);

/* The rows as a file of the job sheet; "" when the drawing has none. */
void sb_given_alignment_csv(const struct given *d, struct sb_str *out);
void sb_given_profile_csv(const struct given *d, struct sb_str *out);

#endif
