/* Between the files that read LandXML: what is known while a file is read, and where in it an element stands.
 */
#ifndef SB_SRC_IO_LANDXML_PARTS_H
#define SB_SRC_IO_LANDXML_PARTS_H

#include "base/xml.h"
#include "io/nearest.h"

#include "given_parts.h"

enum spot {
	OUTSIDE, /* of everything that is known; nothing in it is looked at */
	FILE_ITSELF,
	LANDXML,
	UNITS,
	UNIT,
	CRS,
	ALIGNMENTS,
	ALIGNMENT,
	GEOMETRY,
	LINE,
	CURVE,
	POINT_START,
	POINT_END,
	POINT_CENTER,
	POINT_OTHER, /* of intersection: follows from the others */
	PROFILE,
	PROF_ALIGN,
	PVI,
	CIRC_CURVE,
	PARA_CURVE,
	EQUATION,
};

/* A point of the geometry that is given by its name. */
struct landxml_reference {
	char name[SB_GIVEN_NAME];
	size_t course; /* of the list */
	enum spot place;
	int line;
	bool found, doubtful; /* doubtful: found twice, or no point */
	double at[2];
};

#define LANDXML_PROBLEMS 100 /* listed of one file */

struct landxml {
	struct given_reading *r;
	struct sb_problems found; /* of the alignment that is read */
	bool full; /* and there are too many of them, or too much of it: nothing more is taken */
	enum spot stack[SB_XML_DEPTH + 1];
	char space[80];

	bool reading; /* the alignment around is the one */
	size_t alignments, matching;
	struct sb_str names; /* of the alignments, as a list in words */
	struct nearest nearest;
	char nearest_name[SB_GIVEN_NAME];

	bool reading_heights;
	size_t profiles, profiles_matching;
	struct sb_str profile_names;
	char profile_around[SB_GIVEN_NAME];

	struct given heard; /* unit, names, start */
	bool has_geometry;
	size_t noted;
	struct landxml_course *courses;
	size_t course_count, course_room;
	struct landxml_height *heights;
	size_t height_count, height_room;
	struct landxml_reference *references;
	size_t reference_count, reference_room;
	bool referred; /* the point around is one of them */
};

#define landxml_wrong(x, line, column, ...) \
	sb_problems_add(&(x)->found, 0, (x)->r->file, line, column, __VA_ARGS__)

/* src/io/landxml_take.c: what elements say. */
void landxml_tame(char to[SB_GIVEN_NAME], const char *from);
void landxml_take_root(struct landxml *x, const struct xml_element *e);
void landxml_take_unit(struct landxml *x, const struct xml_element *e);
void landxml_take_crs(struct landxml *x, const struct xml_element *e);
void landxml_take_alignment(struct landxml *x, const struct xml_element *e);
void landxml_take_profile(struct landxml *x, const struct xml_element *e);
void landxml_begin_course(struct landxml *x, const struct xml_element *e, bool arc);
void landxml_look_for_reference(struct landxml *x, const struct xml_element *e, enum spot place);
void landxml_take_point(struct landxml *x, const struct xml_element *e, enum spot place, const char *text);
void landxml_begin_height(struct landxml *x, const struct xml_element *e, enum spot place);
void landxml_take_height(struct landxml *x, const struct xml_element *e, const char *text);
void landxml_put_point(struct landxml_course *c, enum spot place, const double at[2]);
/* Two or three numbers, as a point has. Returns how many; 0 when it is not that. */
int landxml_numbers(const char *text, double out[3]);

/* src/io/landxml_points.c: the points that the geometry only names, into its courses; problems name those
 * that are not there. -1 with err when the file cannot be gone through again. */
int landxml_find_points(struct landxml *x, struct sb_err *err);

#endif
