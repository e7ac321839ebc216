/* Between the files that read a drawing. */
#ifndef SB_SRC_IO_GIVEN_PARTS_H
#define SB_SRC_IO_GIVEN_PARTS_H

#include "io/given.h"

struct given_reading {
	const char *path, *file; /* as opened; as named in problems */
	const struct given_choice *choice;
	struct given *out;
	struct sb_problems *problems;
};

/* src/io/landxml_in.c, src/io/given_csv.c */
int given_read_landxml(struct given_reading *r);
int given_read_csv(struct given_reading *r);

/* src/io/given.c */
void given_add(struct given_line *l, double x, double y, double radius, int line);
void given_line_clear(struct given_line *l);
void given_note(struct given *d, const char *format, ...) __attribute__((format(printf, 2, 3)));

void given_points_add(struct given_points *p, double x, double y, int line);
void given_points_clear(struct given_points *p);
double given_length(const struct given_line *l); /* of the line laid out; 0 if it cannot be */

/* src/io/given_stations.c: the tangents and curves behind the drawing's points, if it has any, in the
 * ground. Given: scale   of its coordinates, map over ground map     length of the line on the map, if the
 * drawing has no alignment of its own; 0 unknown */
int given_find(struct given *d, const struct given_choice *choice, double scale, double map,
	struct sb_problems *problems);
/* Whether a length of the drawing is one on the map rather than one in the ground: the nearer of the two,
 * where they can be told apart. */
bool given_is_map_length(double length, double map, double scale);

/* src/io/given_ends.c: length of the line, job unit; false with a problem that says what would help. */
bool given_meets_ends(const struct given *d, const struct given_choice *c, const struct job *job,
	double length, struct sb_problems *problems);

/* src/io/given_marks.c: what a remark says of its row, MARK_BEGIN, MARK_END or MARK_NONE; and the marks of a
 * drawing against the line that was found. */
enum given_mark given_mark_of(const char *remark);
void given_check_marks(struct given *d, struct sb_problems *problems);

/* src/io/landxml_lines.c: what stands in a CoordGeom and in a ProfAlign. */
struct landxml_course {
	int line;
	bool arc, right; /* the bearing grows */
	bool has_center, has_start, has_end;
	double start[2], end[2], center[2]; /* north, east */
	double radius, length;		    /* as the file says; 0 where it does not */
};
struct landxml_height {
	int line;
	enum { HEIGHT_PVI, HEIGHT_ARC, HEIGHT_PARABOLA } kind;
	double station, elevation, length, radius; /* 0: not said */
};
int landxml_lay_courses(struct given_reading *r, const struct landxml_course *c, size_t count);
int landxml_lay_heights(struct given_reading *r, const struct landxml_height *h, size_t count);

#endif
