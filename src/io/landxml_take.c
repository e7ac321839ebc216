/* What the elements of LandXML say, taken as it stands; what they must say and do not is a problem with its
 * line.
 */
#include "base/mem.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "landxml_parts.h"

#define SPACE "http://www.landxml.org/schema/LandXML-1."

void landxml_tame(char to[SB_GIVEN_NAME], const char *from)
{
	sb_copy(to, SB_GIVEN_NAME, from ? from : "");
	sb_utf8_tame(to);
}

/* ---- numbers ---- */

/* One number of XML Schema's double, without its words for what is none. */
static bool take_number(const char **from, double *out)
{
	char *end;
	size_t length = strspn(*from, "+-.0123456789eE");

	double value = strtod(*from, &end);
	if (length == 0 || end != *from + length || !(fabs(value) < 1e9))
		return false;
	*out = value;
	*from = end + strspn(end, " \t\r\n");
	return true;
}

int landxml_numbers(const char *text, double out[3])
{
	int count = 0;

	for (text += strspn(text, " \t\r\n"); *text && count < 3; count++)
		if (!take_number(&text, &out[count]))
			return 0;
	return *text == '\0' && count >= 2 ? count : 0;
}

/* An attribute that holds a length; 0 when it is not there, or says so little. Radii of vertical curves have
 * a sign in some countries' files, which the grades say too. */
static double length_of(struct landxml *x, const struct xml_element *e, const char *name)
{
	const char *text = sb_xml_attribute(e, name), *at = text;
	double value = 0;

	if (text == NULL)
		return 0;
	at += strspn(at, " \t\r\n");
	if (!take_number(&at, &value) || *at != '\0' || (value < 0 && !sb_same(e->name, "CircCurve"))) {
		landxml_wrong(x, e->line, name, "'%.30s' is not a length.", text);
		return 0;
	}
	return fabs(value);
}

/* ---- what stands around the geometry ---- */

void landxml_take_root(struct landxml *x, const struct xml_element *e)
{
	size_t length = strlen(SPACE);

	sb_copy(x->space, sizeof x->space, e->space);
	if (strncmp(e->space, SPACE, length) == 0 && strchr("012", e->space[length]) && e->space[length] &&
		e->space[length + 1] == '\0') {
		given_note(&x->heard, "LandXML 1.%c.", e->space[length]);
		return;
	}
	landxml_wrong(x, e->line, NULL,
		"this LandXML is of the schema '%.80s'. Versions 1.0, 1.1 and 1.2 are read: export it as one of them.",
		e->space);
}

void landxml_take_unit(struct landxml *x, const struct xml_element *e)
{
	static const struct {
		const char *word;
		enum unit unit;
	} units[] = { { "meter", UNIT_M }, { "foot", UNIT_FT }, { "USSurveyFoot", UNIT_FTUS } };
	const char *word = sb_xml_attribute(e, "linearUnit");

	for (size_t i = 0; word && i < sizeof units / sizeof *units; i++)
		if (sb_same(word, units[i].word)) {
			x->heard.unit_said = GIVEN_UNIT_SAID;
			x->heard.unit = units[i].unit;
			return;
		}
	landxml_wrong(x, e->line, "linearUnit",
		"'%.40s' is not a unit that is read here: meter, foot or USSurveyFoot. Export the file in one of them.",
		word ? word : "");
}

void landxml_take_crs(struct landxml *x, const struct xml_element *e)
{
	const char *code = sb_xml_attribute(e, "epsgCode"), *name = sb_xml_attribute(e, "name");

	if (code && strspn(code, "0123456789") == strlen(code) && strlen(code) >= 4 && strlen(code) <= 6)
		snprintf(x->heard.crs, sizeof x->heard.crs, "EPSG:%s", code);
	else
		landxml_tame(x->heard.crs, name && *name ? name : sb_xml_attribute(e, "desc"));
}

static void add_name(struct sb_str *names, const char *name)
{
	if (names->length < 300)
		sb_str_add(names, "%s'%.60s'", names->length ? ", " : "", name);
	else if (names->text[names->length - 1] != '.')
		sb_str_add(names, " ...");
}

void landxml_take_alignment(struct landxml *x, const struct xml_element *e)
{
	const char *wanted = x->r->choice->alignment, *start = sb_xml_attribute(e, "staStart");
	char name[SB_GIVEN_NAME];

	landxml_tame(name, sb_xml_attribute(e, "name"));
	x->alignments++;
	add_name(&x->names, name);
	const char *best = x->nearest.best;
	sb_nearest_try(&x->nearest, name);
	if (x->nearest.best != best)
		sb_copy(x->nearest_name, sizeof x->nearest_name, name);
	x->nearest.best = x->nearest.best ? x->nearest_name : NULL;
	x->reading = wanted ? sb_same(wanted, name) : x->alignments == 1;
	x->matching += x->reading;
	if (!x->reading || x->matching > 1)
		return;
	sb_copy(x->heard.alignment_name, sizeof x->heard.alignment_name, name);
	if (start && (!take_number(&start, &x->heard.start) || *start != '\0'))
		landxml_wrong(x, e->line, "staStart", "'%.30s' is not a station.", start);
}

void landxml_take_profile(struct landxml *x, const struct xml_element *e)
{
	const char *wanted = x->r->choice->profile, *own = sb_xml_attribute(e, "name");
	char name[SB_GIVEN_NAME];

	landxml_tame(name, own && *own ? own : x->profile_around);
	x->profiles++;
	add_name(&x->profile_names, name);
	x->reading_heights = wanted ? sb_same(wanted, name) : x->profiles == 1;
	x->profiles_matching += x->reading_heights;
	if (x->reading_heights && x->profiles_matching == 1)
		sb_copy(x->heard.profile_name, sizeof x->heard.profile_name, name);
}

/* ---- the geometry ---- */

void landxml_begin_course(struct landxml *x, const struct xml_element *e, bool arc)
{
	const char *way = sb_xml_attribute(e, "rot");

	x->courses = sb_grow(x->courses, x->course_count, &x->course_room, sizeof *x->courses);
	x->courses[x->course_count++] = (struct landxml_course){ .line = e->line,
		.arc = arc,
		.right = way && sb_same(way, "cw"),
		.radius = arc ? length_of(x, e, "radius") : 0,
		.length = length_of(x, e, "length") };
	if (arc && (way == NULL || (!sb_same(way, "cw") && !sb_same(way, "ccw"))))
		landxml_wrong(x, e->line, "rot",
			"the curve does not say whether it turns right (cw) or left (ccw).");
}

/* A point may stand elsewhere in the file and only be named here. */
void landxml_look_for_reference(struct landxml *x, const struct xml_element *e, enum spot place)
{
	const char *name = sb_xml_attribute(e, "pntRef");

	x->referred = name != NULL;
	if (name == NULL)
		return;
	x->references = sb_grow(x->references, x->reference_count, &x->reference_room, sizeof *x->references);
	struct landxml_reference *r = &x->references[x->reference_count++];
	*r = (struct landxml_reference){ .course = x->course_count - 1, .place = place, .line = e->line };
	landxml_tame(r->name, name);
}

void landxml_put_point(struct landxml_course *c, enum spot place, const double at[2])
{
	double *to = place == POINT_START ? c->start : place == POINT_END ? c->end : c->center;
	bool *has = place == POINT_START ? &c->has_start : place == POINT_END ? &c->has_end : &c->has_center;

	to[0] = at[0];
	to[1] = at[1];
	*has = true;
}

/* Coordinates go before a name; the name alone is looked up later. */
void landxml_take_point(struct landxml *x, const struct xml_element *e, enum spot place, const char *text)
{
	double n[3];

	if (text[strspn(text, " \t\r\n")] == '\0' && x->referred)
		return;
	if (x->referred)
		x->reference_count--;
	if (landxml_numbers(text, n) == 0)
		landxml_wrong(x, e->line, e->name,
			"'%.60s' is not a point. It should be northing and easting, with decimal points and a space between.",
			text + strspn(text, " \t\r\n"));
	else
		landxml_put_point(&x->courses[x->course_count - 1], place, n);
}

void landxml_begin_height(struct landxml *x, const struct xml_element *e, enum spot place)
{
	x->heights = sb_grow(x->heights, x->height_count, &x->height_room, sizeof *x->heights);
	x->heights[x->height_count++] = (struct landxml_height){ .line = e->line,
		.kind = place == PVI	      ? HEIGHT_PVI
			: place == CIRC_CURVE ? HEIGHT_ARC
					      : HEIGHT_PARABOLA,
		.length = length_of(x, e, "length"),
		.radius = length_of(x, e, "radius") };
	if (place == CIRC_CURVE && !(x->heights[x->height_count - 1].radius > 0))
		landxml_wrong(x, e->line, "radius", "the curve has no radius.");
}

void landxml_take_height(struct landxml *x, const struct xml_element *e, const char *text)
{
	double n[3];
	struct landxml_height *h = &x->heights[x->height_count - 1];

	if (landxml_numbers(text, n) != 2) {
		landxml_wrong(x, e->line, e->name,
			"'%.60s' is not a station and an elevation, with decimal points and a space between.",
			text + strspn(text, " \t\r\n"));
		return;
	}
	h->station = n[0];
	h->elevation = n[1];
}
