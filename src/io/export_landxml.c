/* LandXML 1.2: the design as alignment and profile, the bore as drilled, its joints as points.
 *
 * Points are written north, east, elevation: the other way round than anywhere else. All of it lies on the
 * grid, as civil programs expect: stations and curve lengths are grid distances, the job's ground distances
 * times its scale factor; the job's own stations stand with the points. Elevations are as they are.
 */
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "base/unit.h"
#include "io/figure.h"
#include "io/rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "export.h"

#define DECIMALS 6

struct making {
	const struct export *e;
	struct sb_str *out;
};

/* ---- XML ---- */

static void put_escaped(struct sb_str *out, const char *text)
{
	for (; *text; text++)
		switch (*text) {
		case '&':
			sb_str_add(out, "&amp;");
			break;
		case '<':
			sb_str_add(out, "&lt;");
			break;
		case '>':
			sb_str_add(out, "&gt;");
			break;
		case '"':
			sb_str_add(out, "&quot;");
			break;
		default:
			sb_str_append(out, text, 1);
		}
}

static void put_attribute(struct sb_str *out, const char *name, const char *text)
{
	char *tame = sb_strdup(text);

	sb_utf8_tame(tame);
	sb_str_add(out, " %s=\"", name);
	put_escaped(out, tame);
	sb_str_add(out, "\"");
	sb_free(tame);
}

static void put_figure(struct sb_str *out, double value, const char *after)
{
	char text[SB_FIGURE_TEXT];

	sb_str_add(out, "%s%s", sb_figure_fixed(value, DECIMALS, text), after);
}

static void put_size(struct sb_str *out, const char *name, double value)
{
	sb_str_add(out, " %s=\"", name);
	put_figure(out, value, "\"");
}

/* ---- the head ---- */

static void put_units(struct making *m)
{
	enum unit unit = m->e->job->unit;
	static const char angles[] = "angularUnit=\"decimal degrees\" directionUnit=\"decimal degrees\"";

	sb_str_add(m->out, "  <Units>\n");
	if (unit == UNIT_M)
		sb_str_add(m->out,
			"    <Metric areaUnit=\"squareMeter\" linearUnit=\"meter\" volumeUnit=\"cubicMeter\" "
			"temperatureUnit=\"celsius\" pressureUnit=\"milliBars\" %s/>\n",
			angles);
	else
		sb_str_add(m->out,
			"    <Imperial areaUnit=\"squareFoot\" linearUnit=\"%s\" volumeUnit=\"cubicFeet\" "
			"temperatureUnit=\"fahrenheit\" pressureUnit=\"inHG\" %s/>\n",
			unit == UNIT_FT ? "foot" : "USSurveyFoot", angles);
	sb_str_add(m->out, "  </Units>\n");
}

static void put_head(struct making *m)
{
	const struct job *job = m->e->job;
	const char *code = strncmp(job->crs, "EPSG:", 5) == 0 ? job->crs + 5 : "";
	char time[SB_TIME_TEXT];

	sb_time_iso(m->e->about->at_ms, time);
	sb_str_add(m->out,
		"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
		"<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" version=\"1.2\" date=\"%.10s\" "
		"time=\"%.8s\" readOnly=\"false\" language=\"English\">\n",
		time, time + 11);
	put_units(m);
	sb_str_add(m->out, "  <CoordinateSystem");
	put_attribute(m->out, "name", job->crs);
	if (*code)
		put_attribute(m->out, "epsgCode", code);
	put_attribute(m->out, "verticalDatum", job->vertical_datum);
	sb_str_add(m->out, "/>\n");
}

static void put_project(struct making *m)
{
	struct about_line notes[SB_ABOUT_LINES];
	size_t count = sb_about_lines(m->e->job, m->e->about, notes);

	sb_str_add(m->out, "  <Project");
	put_attribute(m->out, "name", m->e->job->name);
	put_attribute(m->out, "desc", sb_caution);
	sb_str_add(m->out, ">\n    <Feature code=\"about\">\n");
	for (size_t i = 0; i < count; i++) {
		sb_str_add(m->out, "      <Property");
		put_attribute(m->out, "label", notes[i].key);
		put_attribute(m->out, "value", notes[i].text);
		sb_str_add(m->out, "/>\n");
	}
	sb_str_add(m->out, "    </Feature>\n  </Project>\n  <Application name=\"sagbend\"");
	put_attribute(m->out, "version", m->e->about->program + strcspn(m->e->about->program, "0123456789"));
	sb_str_add(m->out, "/>\n");
}

/* ---- the design ---- */

static double on_grid(const struct making *m, double ground_m)
{
	const struct frame *f = &m->e->solution->frame;

	return sb_frame_typed(f, ground_m) * f->scale;
}

static void put_plan_point(struct making *m, const char *name, double north_m, double east_m)
{
	double easting, northing, elevation;

	sb_frame_grid(
		&m->e->solution->frame, (struct vec3){ north_m, east_m, 0 }, &easting, &northing, &elevation);
	sb_str_add(m->out, "<%s>", name);
	put_figure(m->out, northing, " ");
	put_figure(m->out, easting, "");
	sb_str_add(m->out, "</%s>", name);
}

static void put_part(struct making *m, const struct chain_part *p)
{
	struct chain_place end = sb_chain_at(p, 1, p->at + p->length);

	if (p->curvature == 0) {
		sb_str_add(m->out, "        <Line");
		put_size(m->out, "length", on_grid(m, p->length));
	} else {
		sb_str_add(m->out, "        <Curve rot=\"%s\"", p->curvature > 0 ? "cw" : "ccw");
		put_size(m->out, "radius", on_grid(m, 1 / fabs(p->curvature)));
		put_size(m->out, "length", on_grid(m, p->length));
	}
	sb_str_add(m->out, ">");
	put_plan_point(m, "Start", p->x, p->y);
	if (p->curvature != 0) /* to the right of the start where it turns clockwise */
		put_plan_point(m, "Center", p->x - p->sin_bearing / p->curvature,
			p->y + p->cos_bearing / p->curvature);
	put_plan_point(m, "End", end.x, end.y);
	sb_str_add(m->out, p->curvature == 0 ? "</Line>\n" : "</Curve>\n");
}

/* A curve's length: the radius times the angle between the tangents. */
static double curve_length(const struct profile_pi *pi)
{
	double before = atan2(
		pi[0].elevation.value - pi[-1].elevation.value, pi[0].station.value - pi[-1].station.value);
	double after = atan2(
		pi[1].elevation.value - pi[0].elevation.value, pi[1].station.value - pi[0].station.value);

	return fabs(after - before) * pi->radius.value;
}

static void put_profile(struct making *m)
{
	const struct job *job = m->e->job;
	double scale = m->e->solution->frame.scale;

	sb_str_add(m->out, "      <Profile name=\"design\">\n        <ProfAlign name=\"design\">\n");
	for (size_t i = 0; i < job->profile_count; i++) {
		const struct profile_pi *pi = &job->profile[i];
		bool curve = i > 0 && i + 1 < job->profile_count && pi->radius.value > 0;
		sb_str_add(m->out, "          <%s", curve ? "CircCurve" : "PVI");
		if (curve) {
			put_size(m->out, "length", curve_length(pi));
			put_size(m->out, "radius", pi->radius.value);
		}
		sb_str_add(m->out, ">");
		put_figure(m->out, pi->station.value * scale, " ");
		put_figure(m->out, pi->elevation.value, "");
		sb_str_add(m->out, "</%s>\n", curve ? "CircCurve" : "PVI");
	}
	sb_str_add(m->out, "        </ProfAlign>\n      </Profile>\n");
}

static void put_design(struct making *m)
{
	const struct design *d = &m->e->solution->design;

	sb_str_add(m->out, "    <Alignment name=\"design\"");
	put_size(m->out, "length", on_grid(m, d->length_m));
	sb_str_add(m->out,
		" staStart=\"0\" desc=\"from ENTRY, the rig side, to the exit; stations are grid distances\">\n      <CoordGeom>\n");
	for (size_t i = 0; i < d->alignment_count; i++)
		put_part(m, &d->alignment[i]);
	sb_str_add(m->out, "      </CoordGeom>\n");
	put_profile(m);
	sb_str_add(m->out, "    </Alignment>\n");
}

/* ---- as drilled ---- */

static void put_place(struct making *m, const struct row *row)
{
	double easting, northing, elevation;

	sb_frame_grid(&m->e->solution->frame, row->at, &easting, &northing, &elevation);
	put_figure(m->out, northing, " ");
	put_figure(m->out, easting, " ");
	put_figure(m->out, elevation, "");
}

static const struct row *nth(const struct making *m, size_t i)
{
	const struct path *p = &m->e->solution->path;

	return &p->rows[p->on_path[i]];
}

/* From above, as far as it is chords. */
static double length_from_above(const struct making *m)
{
	double sum = 0;

	for (size_t i = 1; i < m->e->solution->path.on_count; i++) {
		struct vec3 step = sb_vec3_sub(nth(m, i)->at, nth(m, i - 1)->at);
		sum += hypot(step.n, step.e);
	}
	return on_grid(m, sum);
}

static void put_drilled(struct making *m)
{
	size_t count = m->e->solution->path.on_count;

	if (count < 2)
		return;
	sb_str_add(m->out, "    <Alignment name=\"as drilled\"");
	put_size(m->out, "length", length_from_above(m));
	sb_str_add(m->out,
		" staStart=\"0\" desc=\"the pilot bore, a vertex a joint\">\n      <CoordGeom>\n        <IrregularLine");
	put_size(m->out, "length", length_from_above(m));
	sb_str_add(m->out, "><Start>");
	put_place(m, nth(m, 0));
	sb_str_add(m->out, "</Start><End>");
	put_place(m, nth(m, count - 1));
	sb_str_add(m->out, "</End><PntList3D>");
	for (size_t i = 0; i < count; i++) {
		sb_str_add(m->out, "%s", i ? " " : "");
		put_place(m, nth(m, i));
	}
	sb_str_add(m->out, "</PntList3D></IrregularLine>\n      </CoordGeom>\n    </Alignment>\n");
}

static void put_joint(struct making *m, const struct row *row, bool present)
{
	const struct solution *s = m->e->solution;
	char name[48], station[SB_FIGURE_TEXT], offset[SB_FIGURE_TEXT], height[SB_FIGURE_TEXT];
	struct sb_str words = { 0 };

	snprintf(name, sizeof name, present ? "joint %d" : "joint %d leg %d", row->joint, row->leg);
	sb_figure_fixed(sb_frame_typed(&s->frame, row->deviation.station_m), 3, station);
	sb_figure_fixed(sb_frame_typed(&s->frame, row->deviation.offset_m), 3, offset);
	sb_figure_fixed(sb_frame_typed(&s->frame, row->deviation.height_m), 3, height);
	sb_str_add(&words,
		"%sstation %s in the ground, offset %s (right positive), height %s above the design",
		present ? "" : "withdrawn; ", station, offset, height);
	sb_str_add(m->out, "    <CgPoint");
	put_attribute(m->out, "name", name);
	put_attribute(m->out, "code", present ? "as drilled" : "withdrawn");
	put_attribute(m->out, "desc", sb_str_get(&words));
	sb_str_add(m->out, ">");
	put_place(m, row);
	sb_str_add(m->out, "</CgPoint>\n");
	sb_str_clear(&words);
}

static void put_joints(struct making *m)
{
	const struct path *p = &m->e->solution->path;
	const struct row **rows;
	size_t count = sb_rows_list(m->e->solution, true, &rows);

	sb_str_add(m->out, "  <CgPoints name=\"joints\">\n");
	for (size_t i = 0; i < count; i++)
		if (rows[i]->on_path)
			put_joint(m, rows[i], sb_path_present(p, rows[i]));
	sb_str_add(m->out, "  </CgPoints>\n");
	sb_free(rows);
}

int export_landxml(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct making m = { e, out };

	(void)err; /* it can always be made */
	put_head(&m);
	put_project(&m);
	put_joints(&m);
	sb_str_add(out, "  <Alignments>\n");
	put_design(&m);
	put_drilled(&m);
	sb_str_add(out, "  </Alignments>\n</LandXML>\n");
	return 0;
}
