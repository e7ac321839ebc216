/* Points that the geometry only names (pntRef): they stand as CgPoint elsewhere in the file, before or
 * behind. The file is gone through once more for them, so that of the points of a whole survey only those are
 * kept that the line needs.
 */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "landxml_parts.h"

struct search {
	struct landxml *x;
	size_t at; /* the first reference of the name of the point around; count: none */
};

static int by_name(const void *a, const void *b)
{
	return strcmp(
		((const struct landxml_reference *)a)->name, ((const struct landxml_reference *)b)->name);
}

/* The first reference of a name; count when there is none. */
static size_t first_of(const struct landxml *x, const char *name)
{
	size_t low = 0, high = x->reference_count;

	while (low < high) {
		size_t middle = low + (high - low) / 2;
		if (strcmp(x->references[middle].name, name) < 0)
			low = middle + 1;
		else
			high = middle;
	}
	return low < x->reference_count && sb_same(x->references[low].name, name) ? low : x->reference_count;
}

static bool on_start(void *data, const struct xml_element *e)
{
	struct search *s = data;
	char name[SB_GIVEN_NAME];

	s->at = s->x->reference_count;
	if (!sb_same(e->name, "CgPoint") || !sb_same(e->space, s->x->space))
		return false;
	landxml_tame(name, sb_xml_attribute(e, "name"));
	s->at = first_of(s->x, name);
	return s->at < s->x->reference_count;
}

static void on_end(void *data, const struct xml_element *e, const char *text)
{
	struct search *s = data;
	struct landxml_reference *r = s->x->references;
	double n[3];

	if (s->at >= s->x->reference_count || !sb_same(e->name, "CgPoint"))
		return;
	bool sound = landxml_numbers(text, n) > 0;
	for (size_t i = s->at; i < s->x->reference_count && sb_same(r[i].name, r[s->at].name); i++) {
		bool another = r[i].found && hypot(r[i].at[0] - n[0], r[i].at[1] - n[1]) > 0;
		if (!sound || another)
			r[i].doubtful = true;
		r[i].found = true;
		r[i].at[0] = n[0];
		r[i].at[1] = n[1];
	}
	s->at = s->x->reference_count;
}

static void put(struct landxml *x, const struct landxml_reference *r)
{
	struct landxml_course *c = &x->courses[r->course];

	if (!r->found)
		landxml_wrong(x, r->line, "pntRef", "there is no point called '%.40s' in the file.", r->name);
	else if (r->doubtful)
		landxml_wrong(x, r->line, "pntRef",
			"the file has more than one point called '%.40s', or no coordinates of it.", r->name);
	else
		landxml_put_point(c, r->place, r->at);
}

int landxml_find_points(struct landxml *x, struct sb_err *err)
{
	static const struct xml_reader reader = { on_start, on_end };
	struct search s = { .x = x };

	if (x->reference_count == 0)
		return 0;
	qsort(x->references, x->reference_count, sizeof *x->references, by_name);
	if (sb_xml_read(x->r->path, &reader, &s, err))
		return -1;
	for (size_t i = 0; i < x->reference_count && x->found.errors < LANDXML_PROBLEMS; i++)
		put(x, &x->references[i]);
	return 0;
}
