/* A LandXML file of a design, written as a drawing program would: coordinates of every tangent's and curve's
 * ends, centres, and heights. Laid out by geom/chain.h, whose places the tests of that file vouch for.
 */
#ifndef TESTS_IO_LANDXML_WRITE_H
#define TESTS_IO_LANDXML_WRITE_H

#include "base/str.h"
#include "geom/angle.h"
#include "geom/chain.h"
#include "support/near.h"

struct landxml_file {
	const char *version; /* "1.2" */
	const char *units;   /* an element; "" none */
	const char *crs;     /* likewise */
	const char *before;  /* put in before the alignment */
	const char *within;  /* put in behind its lines and curves */
	double start;	     /* its staStart */
	const struct chain_pi *plan, *profile;
	size_t plan_count, profile_count;
};

static inline void landxml_write_plan(const struct landxml_file *f, struct sb_str *out)
{
	struct chain_part parts[32];
	size_t count;

	assert_true(sb_chain_build(f->plan, f->plan_count, parts, &count, NULL, NULL) >= 0);
	for (size_t i = 0; i < count; i++) {
		const struct chain_part *p = &parts[i];
		struct chain_place end = sb_chain_at(parts, count, p->at + p->length);
		double k = p->curvature;
		if (k == 0)
			sb_str_add(out,
				"<Line length=\"%.6f\"><Start>%.6f %.6f</Start><End>%.6f %.6f</End></Line>\n",
				p->length, p->x, p->y, end.x, end.y);
		else
			sb_str_add(out,
				"<Curve rot=\"%s\" crvType=\"arc\" radius=\"%.6f\" length=\"%.6f\"><Start>%.6f %.6f</Start>"
				"<Center>%.6f %.6f</Center><End>%.6f %.6f 0.0</End></Curve>\n",
				k > 0 ? "cw" : "ccw", 1 / fabs(k), p->length, p->x, p->y,
				p->x - p->sin_bearing / k, p->y + p->cos_bearing / k, end.x, end.y);
	}
}

static inline void landxml_write_profile(const struct landxml_file *f, struct sb_str *out)
{
	for (size_t i = 0; i < f->profile_count; i++) {
		const struct chain_pi *p = &f->profile[i];
		if (p->radius > 0) {
			double before = atan2(p[0].y - p[-1].y, p[0].x - p[-1].x);
			double after = atan2(p[1].y - p[0].y, p[1].x - p[0].x);
			sb_str_add(out, "<CircCurve length=\"%.6f\" radius=\"%.6f\">%.6f %.6f</CircCurve>\n",
				p->radius * fabs(after - before), p->radius, p->x + f->start, p->y);
		} else {
			sb_str_add(out, "<PVI>%.6f %.6f</PVI>\n", p->x + f->start, p->y);
		}
	}
}

static inline void landxml_write(const struct landxml_file *f, struct sb_str *out)
{
	sb_str_add(out,
		"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-%s\" version=\"%s\" date=\"2026-11-25\" time=\"08:00:00\">\n"
		"%s%s<Project name=\"test\"/>\n<Application name=\"test\"/>\n<Alignments>\n%s"
		"<Alignment name=\"bore\" length=\"0\" staStart=\"%.3f\">\n<CoordGeom>\n",
		f->version, f->version, f->units, f->crs, f->before, f->start);
	landxml_write_plan(f, out);
	sb_str_add(out, "%s</CoordGeom>\n", f->within);
	if (f->profile_count) {
		sb_str_add(out, "<Profile name=\"along\"><ProfAlign name=\"design\">\n");
		landxml_write_profile(f, out);
		sb_str_add(out, "</ProfAlign></Profile>\n");
	}
	sb_str_add(out, "</Alignment>\n</Alignments>\n</LandXML>\n");
}

#endif
