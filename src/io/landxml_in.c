/* A design from LandXML 1.0, 1.1 or 1.2: one Alignment with its CoordGeom (Line, circular Curve) and one
 * ProfAlign (PVI, CircCurve). Source: the schemas at http://www.landxml.org/schema/.
 *
 * The file is a stream of elements (base/xml.h). Where each stands is a place in a table, reached from the
 * place of the element around it; what the table does not know is an error inside the geometry, where it
 * would leave a hole in the line, and a note elsewhere. All alignments are walked through so that each is
 * named; the numbers are kept of one.
 */
#include "base/mem.h"

#include <string.h>

#include "landxml_parts.h"

#define NOTES 20

static const struct {
	enum spot in;
	const char *name;
	enum spot is;
	bool text; /* wanted */
} places[] = {
	{ FILE_ITSELF, "LandXML", LANDXML, false },
	{ LANDXML, "Units", UNITS, false },
	{ UNITS, "Metric", UNIT, false },
	{ UNITS, "Imperial", UNIT, false },
	{ LANDXML, "CoordinateSystem", CRS, false },
	{ LANDXML, "Alignments", ALIGNMENTS, false },
	{ ALIGNMENTS, "Alignment", ALIGNMENT, false },
	{ ALIGNMENT, "StaEquation", EQUATION, false },
	{ ALIGNMENT, "CoordGeom", GEOMETRY, false },
	{ GEOMETRY, "Line", LINE, false },
	{ GEOMETRY, "Curve", CURVE, false },
	{ LINE, "Start", POINT_START, true },
	{ LINE, "End", POINT_END, true },
	{ CURVE, "Start", POINT_START, true },
	{ CURVE, "End", POINT_END, true },
	{ CURVE, "Center", POINT_CENTER, true },
	{ CURVE, "PI", POINT_OTHER, false },
	{ ALIGNMENT, "Profile", PROFILE, false },
	{ PROFILE, "ProfAlign", PROF_ALIGN, false },
	{ PROF_ALIGN, "PVI", PVI, true },
	{ PROF_ALIGN, "CircCurve", CIRC_CURVE, true },
	{ PROF_ALIGN, "ParaCurve", PARA_CURVE, true },
};

/* What is always there and says nothing of the line. */
static const char *const expected[] = { "Project", "Application", "Start" };

/* ---- elements ---- */

static void note_unread(struct landxml *x, const struct xml_element *e)
{
	for (size_t i = 0; i < sizeof expected / sizeof *expected; i++)
		if (sb_same(e->name, expected[i]))
			return;
	if (++x->noted == NOTES)
		given_note(&x->heard, "More elements than these are not read.");
	if (x->noted < NOTES)
		given_note(&x->heard, "Not read: %.60s (line %d).", e->name, e->line);
}

/* Inside the geometry what is not understood would be a hole in the line; another program's own data, which
 * the schema keeps in Feature, is none. */
static void look_at_stranger(struct landxml *x, const struct xml_element *e, enum spot around)
{
	bool geometry = around == GEOMETRY || (around == PROF_ALIGN && x->reading_heights);

	if ((around == LINE || around == CURVE) && !sb_same(e->name, "Feature"))
		landxml_wrong(x, e->line, e->name, "this is not understood within a line or curve.");
	else if (geometry && sb_same(e->name, "Spiral"))
		landxml_wrong(x, e->line, e->name,
			"a spiral: a bore is laid out in straights and circular curves. Ask the designer for an alignment of those.");
	else if (geometry && sb_same(e->name, "UnsymParaCurve"))
		landxml_wrong(x, e->line, e->name,
			"a parabola of two lengths: a bore follows arcs of circles. Ask the designer for a profile of those.");
	else if (geometry && !sb_same(e->name, "Feature"))
		landxml_wrong(x, e->line, e->name,
			"this is not understood in the geometry: Line and Curve, PVI and CircCurve are.");
	else if (around == LANDXML || around == ALIGNMENT || around == PROFILE || geometry)
		note_unread(x, e);
}

static enum spot place_of(const struct landxml *x, const struct xml_element *e, bool *text)
{
	enum spot around = x->stack[e->depth - 1];

	if (e->depth > 1 && !sb_same(e->space, x->space))
		return OUTSIDE;
	for (size_t i = 0; i < sizeof places / sizeof *places; i++)
		if (places[i].in == around && sb_same(places[i].name, e->name)) {
			*text = places[i].text;
			return places[i].is;
		}
	return OUTSIDE;
}

/* Whether the element is one of those that are walked through, not read. */
static bool is_passed(const struct landxml *x, enum spot around)
{
	if (around == OUTSIDE)
		return true;
	if (around < ALIGNMENT)
		return false;
	return !x->reading || (around >= PROF_ALIGN && !x->reading_heights);
}

static void begin_element(struct landxml *x, const struct xml_element *e, enum spot place)
{
	switch (place) {
	case LANDXML:
		landxml_take_root(x, e);
		return;
	case UNIT:
		landxml_take_unit(x, e);
		return;
	case CRS:
		landxml_take_crs(x, e);
		return;
	case ALIGNMENT:
		landxml_take_alignment(x, e);
		return;
	case EQUATION:
		landxml_wrong(x, e->line, e->name,
			"a station equation: stations ahead and back of it are not the same. Ask for stations that run through.");
		return;
	case GEOMETRY:
		x->has_geometry = true;
		return;
	case LINE:
	case CURVE:
		landxml_begin_course(x, e, place == CURVE);
		return;
	case POINT_START:
	case POINT_END:
	case POINT_CENTER:
		landxml_look_for_reference(x, e, place);
		return;
	case PROFILE:
		landxml_tame(x->profile_around, sb_xml_attribute(e, "name"));
		return;
	case PROF_ALIGN:
		landxml_take_profile(x, e);
		return;
	case PVI:
	case CIRC_CURVE:
	case PARA_CURVE:
		landxml_begin_height(x, e, place);
		return;
	case OUTSIDE:
	case FILE_ITSELF:
	case UNITS:
	case ALIGNMENTS:
	case POINT_OTHER:
		return;
	}
}

/* Enough is enough: of problems, and of lines and curves, which a hostile file has by the million. */
static bool is_full(struct landxml *x, const struct xml_element *e)
{
	bool many = x->course_count >= SB_GIVEN_POINTS || x->height_count >= SB_GIVEN_POINTS ||
		x->reference_count >= (size_t)3 * SB_GIVEN_POINTS;

	if (many && !x->full)
		landxml_wrong(x, e->line, NULL,
			"more than %d lines and curves: this is not a drawing of one crossing.",
			SB_GIVEN_POINTS);
	x->full |= many || x->found.errors >= LANDXML_PROBLEMS;
	return x->full;
}

static bool on_start(void *data, const struct xml_element *e)
{
	struct landxml *x = data;
	enum spot around = x->stack[e->depth - 1];
	bool text = false;

	if (is_full(x, e)) {
		x->stack[e->depth] = OUTSIDE;
		return false;
	}
	enum spot place = is_passed(x, around) ? OUTSIDE : place_of(x, e, &text);

	x->stack[e->depth] = place;
	if (place != OUTSIDE)
		begin_element(x, e, place);
	else if (around == FILE_ITSELF)
		landxml_wrong(x, e->line, NULL, "the file is XML, but not LandXML: it begins with <%.40s>.",
			e->name);
	else if (!is_passed(x, around))
		look_at_stranger(x, e, around);
	return text;
}

static void on_end(void *data, const struct xml_element *e, const char *text)
{
	struct landxml *x = data;
	enum spot place = x->stack[e->depth];

	if (place == POINT_START || place == POINT_END || place == POINT_CENTER)
		landxml_take_point(x, e, place, text);
	else if (place == PVI || place == CIRC_CURVE || place == PARA_CURVE)
		landxml_take_height(x, e, text);
	else if (place == ALIGNMENT)
		x->reading = false;
	else if (place == PROF_ALIGN)
		x->reading_heights = false;
}

/* ---- the file ---- */

struct naming {
	const char *what, *option, *wanted; /* "alignment", "--alignment", what was asked for */
	size_t count, matching;
	const char *names, *nearest;
};

static int say_choice(const struct given_reading *r, const struct naming *n)
{
	if (n->wanted ? n->matching == 1 : n->count <= 1)
		return 0;
	if (n->count == 0)
		sb_problems_add(r->problems, 0, r->file, 0, NULL,
			"there is no %s in it, so none called '%.60s'.", n->what, n->wanted);
	else if (n->matching == 0)
		sb_problems_add(r->problems, 0, r->file, 0, NULL,
			"no %s is called '%.60s'. In the file: %s.%s%.60s%s", n->what, n->wanted, n->names,
			n->nearest ? " '" : "", n->nearest ? n->nearest : "",
			n->nearest ? "' is probably meant." : "");
	else
		sb_problems_add(r->problems, 0, r->file, 0, NULL,
			"there are %zu %ss%s: %s. Say which with %s NAME.",
			n->wanted ? n->matching : n->count, n->what, n->wanted ? " of that name" : "",
			n->names, n->option);
	return -1;
}

/* Exactly one alignment, and at most one profile in it, are read; every problem of theirs is handed on. */
static int check_choice(struct landxml *x)
{
	const struct given_choice *c = x->r->choice;
	const struct naming alignments = { "alignment", "--alignment", c->alignment, x->alignments,
		x->matching, sb_str_get(&x->names), x->nearest.best };
	const struct naming profiles = { "profile", "--profile", c->profile, x->profiles,
		x->profiles_matching, sb_str_get(&x->profile_names), NULL };

	if (say_choice(x->r, &alignments) || say_choice(x->r, &profiles))
		return -1;
	if (x->alignments == 0 && x->found.errors == 0)
		sb_problems_add(x->r->problems, 0, x->r->file, 0, NULL,
			"there is no Alignment in the file. Export the crossing's alignment with its profile.");
	for (size_t i = 0; i < x->found.count; i++) {
		const struct sb_problem *p = &x->found.list[i];
		sb_problems_add(x->r->problems, p->warning, p->file, p->line, p->column, "%s", p->text);
	}
	return x->found.errors || x->alignments == 0 ? -1 : 0;
}

static int hand_over(struct landxml *x)
{
	struct given *d = x->r->out;
	size_t before = x->r->problems->errors;

	if (d->alignment.count || d->profile.count) {
		sb_problems_add(x->r->problems, 0, x->r->file, 0, NULL,
			"a LandXML file gives alignment and profile together: read it alone.");
		return -1;
	}
	if (!x->has_geometry && x->height_count == 0)
		sb_problems_add(x->r->problems, 0, x->r->file, 0, NULL,
			"the alignment '%.60s' has neither a CoordGeom nor a ProfAlign: there is no line in it.",
			x->heard.alignment_name);
	d->start = x->heard.start;
	landxml_lay_courses(x->r, x->courses, x->course_count);
	landxml_lay_heights(x->r, x->heights, x->height_count);
	if (x->r->problems->errors > before) {
		given_line_clear(&d->alignment);
		given_line_clear(&d->profile);
		return -1;
	}
	d->unit_said = x->heard.unit_said;
	d->unit = x->heard.unit;
	d->grid = true;
	memcpy(d->crs, x->heard.crs, sizeof d->crs);
	memcpy(d->alignment_name, x->heard.alignment_name, sizeof d->alignment_name);
	memcpy(d->profile_name, x->heard.profile_name, sizeof d->profile_name);
	sb_str_append(&d->notes, sb_str_get(&x->heard.notes), x->heard.notes.length);
	return 0;
}

int given_read_landxml(struct given_reading *r)
{
	static const struct xml_reader reader = { on_start, on_end };
	struct landxml x = { .r = r, .stack = { FILE_ITSELF } };
	struct sb_err err = { 0 };

	x.nearest = sb_nearest_to(r->choice->alignment ? r->choice->alignment : "");
	int failed = sb_xml_read(r->path, &reader, &x, &err);
	if (!failed)
		failed = landxml_find_points(&x, &err);
	if (failed)
		sb_problems_add(r->problems, 0, r->file, 0, NULL, "%s", err.text);
	else
		failed = check_choice(&x) || hand_over(&x) ? -1 : 0;
	sb_problems_clear(&x.found);
	sb_str_clear(&x.names);
	sb_str_clear(&x.profile_names);
	sb_given_clear(&x.heard);
	sb_free(x.courses);
	sb_free(x.heights);
	sb_free(x.references);
	return failed;
}
