/* DXF of release 12 (AC1009), in text: what every drawing program reads. Plan: polylines in space, in the
 * job's grid coordinates, x east, y north, z elevation. Profile: x station, y elevation drawn larger, as its
 * notes say.
 *
 * A release of its time knows no units and no text beyond ASCII: what the numbers are stands in notes on the
 * layer NOTES, and letters that it cannot write become '?'. A line end in a name would begin a pair of its
 * own: what the features hold has none (sb_utf8_tame).
 */
#include "base/str.h"
#include "base/unit.h"
#include "io/features.h"
#include "io/figure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "export.h"

#define DECIMALS 4

struct making {
	const struct export *e;
	const struct features *f;
	struct sb_str *out;
	double exaggeration; /* of y */
	double low[2], high[2];
};

/* Layers: those of the features, and these. Colours are the standard's own numbers. */
enum { DRAWN_WITHDRAWN = LAYERS, DRAWN_NOTES, DRAWN_LAYERS };
static const struct {
	const char *name;
	int colour;
	const char *line;
} drawn[DRAWN_LAYERS] = {
	[LAYER_PATH] = { "DRILLED", 7, "CONTINUOUS" },
	[LAYER_JOINTS] = { "JOINTS", 7, "CONTINUOUS" },
	[LAYER_DESIGN] = { "DESIGN", 3, "DASHED" },
	[LAYER_CORRIDOR] = { "CORRIDOR", 8, "DOTTED" },
	[LAYER_GROUND] = { "GROUND", 34, "CONTINUOUS" },
	[LAYER_OBSTACLES] = { "OBSTACLES", 1, "CONTINUOUS" },
	[LAYER_FIXES] = { "FIXES", 4, "CONTINUOUS" },
	[LAYER_NONCONFORMANCES] = { "NONCONFORMANCES", 1, "CONTINUOUS" },
	[LAYER_RELEASES] = { "RELEASES", 5, "CONTINUOUS" },
	[DRAWN_WITHDRAWN] = { "WITHDRAWN", 9, "DASHED" },
	[DRAWN_NOTES] = { "NOTES", 7, "CONTINUOUS" },
};

/* ---- pairs ---- */

static void put(struct making *m, int code, const char *value)
{
	sb_str_add(m->out, "%d\r\n%s\r\n", code, value);
}

static void put_whole(struct making *m, int code, int value)
{
	sb_str_add(m->out, "%d\r\n%d\r\n", code, value);
}

static void put_real(struct making *m, int code, double value)
{
	char text[SB_FIGURE_TEXT];

	sb_figure_fixed(value, DECIMALS, text);
	sb_str_add(m->out, "%d\r\n%s%s\r\n", code, text, strchr(text, '.') ? "" : ".0");
}

/* Printable ASCII. Two % in a row begin a sign of the format's own. */
static void put_words(struct making *m, int code, const char *words)
{
	char text[250];
	size_t used = 0;
	unsigned c;

	for (size_t one; (one = sb_utf8_next(words, &c)) > 0 && used + 1 < sizeof text; words += one)
		if (c != '%' || used == 0 || text[used - 1] != '%')
			text[used++] = (char)(c >= ' ' && c < 127 ? c : '?');
	text[used] = '\0';
	put(m, code, text);
}

static void put_point(struct making *m, double x, double y, double z)
{
	put_real(m, 10, x);
	put_real(m, 20, y * m->exaggeration);
	put_real(m, 30, z);
}

/* ---- the head ---- */

static void put_line_type(struct making *m, const char *name, const char *words, double dash, double gap)
{
	put(m, 0, "LTYPE");
	put(m, 2, name);
	put_whole(m, 70, 0);
	put(m, 3, words);
	put_whole(m, 72, 65);
	put_whole(m, 73, gap > 0 ? 2 : 0);
	put_real(m, 40, dash + gap);
	if (gap > 0) {
		put_real(m, 49, dash);
		put_real(m, 49, -gap);
	}
}

static void begin_table(struct making *m, const char *name, int most)
{
	put(m, 0, "TABLE");
	put(m, 2, name);
	put_whole(m, 70, most);
}

static void put_tables(struct making *m, double text)
{
	put(m, 0, "SECTION");
	put(m, 2, "TABLES");
	begin_table(m, "LTYPE", 3);
	put_line_type(m, "CONTINUOUS", "Solid", 0, 0);
	put_line_type(m, "DASHED", "Dashed", 4 * text, 2 * text);
	put_line_type(m, "DOTTED", "Dotted", 0.5 * text, 1.5 * text);
	put(m, 0, "ENDTAB");
	begin_table(m, "LAYER", DRAWN_LAYERS + 1);
	for (int i = -1; i < DRAWN_LAYERS; i++) {
		put(m, 0, "LAYER");
		put(m, 2, i < 0 ? "0" : drawn[i].name);
		put_whole(m, 70, 0);
		put_whole(m, 62, i < 0 ? 7 : drawn[i].colour);
		put(m, 6, i < 0 ? "CONTINUOUS" : drawn[i].line);
	}
	put(m, 0, "ENDTAB");
	put(m, 0, "ENDSEC");
}

static void put_header(struct making *m)
{
	put(m, 0, "SECTION");
	put(m, 2, "HEADER");
	put(m, 9, "$ACADVER");
	put(m, 1, "AC1009");
	put(m, 9, "$EXTMIN");
	put_point(m, m->low[0], m->low[1], 0);
	put(m, 9, "$EXTMAX");
	put_point(m, m->high[0], m->high[1], 0);
	put(m, 0, "ENDSEC");
}

/* ---- entities ---- */

static void put_text(struct making *m, int layer, double x, double y, double size, const char *words)
{
	put(m, 0, "TEXT");
	put(m, 8, drawn[layer].name);
	put_real(m, 10, x);
	put_real(m, 20, y);
	put_real(m, 30, 0);
	put_real(m, 40, size);
	put_words(m, 1, words);
}

static void put_line(struct making *m, int layer, const struct feature *f)
{
	put(m, 0, "POLYLINE");
	put(m, 8, drawn[layer].name);
	put_whole(m, 66, 1);
	put_whole(m, 70, 8);
	put_point(m, 0, 0, 0);
	for (size_t i = 0; i < f->count; i++) {
		const struct feature_place *p = &m->f->places[f->first + i];
		put(m, 0, "VERTEX");
		put(m, 8, drawn[layer].name);
		put_point(m, p->e, p->n, p->z);
		put_whole(m, 70, 32);
	}
	put(m, 0, "SEQEND");
	put(m, 8, drawn[layer].name);
}

static const struct feature_value *value_of(const struct making *m, const struct feature *f, const char *name)
{
	const struct feature_sort *sort = &m->f->sorts[f->layer];

	for (size_t i = 0; i < sort->field_count; i++)
		if (sb_same(sort->fields[i].name, name))
			return &m->f->values[f->values + i];
	return NULL;
}

static void label(const struct making *m, const struct feature *f, char *to, size_t size)
{
	static const struct {
		enum feature_layer layer;
		const char *field, *before;
	} labels[] = { { LAYER_JOINTS, "joint", "" }, { LAYER_OBSTACLES, "name", "" },
		{ LAYER_FIXES, "fix", "fix " }, { LAYER_NONCONFORMANCES, "number", "non-conformance " },
		{ LAYER_RELEASES, "release", "release " } };

	to[0] = '\0';
	for (size_t i = 0; i < sizeof labels / sizeof *labels; i++) {
		const struct feature_value *v =
			labels[i].layer == f->layer ? value_of(m, f, labels[i].field) : NULL;
		if (v && v->given && v->text)
			snprintf(to, size, "%s%s", labels[i].before, v->text);
		else if (v && v->given)
			snprintf(to, size, "%s%d", labels[i].before, (int)v->number);
	}
}

static int layer_of(const struct making *m, const struct feature *f)
{
	const struct feature_value *standing = value_of(m, f, "standing");

	if (standing && standing->given && sb_same(standing->text, "withdrawn"))
		return DRAWN_WITHDRAWN;
	return (int)f->layer;
}

static void put_feature(struct making *m, const struct feature *f, double text)
{
	const struct feature_place *p = m->f->places + f->first;
	int layer = layer_of(m, f);
	char words[SB_NAME_TEXT + 32];

	if (f->count == 0)
		return;
	if (f->count > 1) {
		put_line(m, layer, f);
	} else {
		put(m, 0, "POINT");
		put(m, 8, drawn[layer].name);
		put_point(m, p->e, p->n, p->z);
	}
	label(m, f, words, sizeof words);
	if (*words)
		put_text(m, layer, p->e + 0.5 * text, p->n * m->exaggeration + 0.5 * text, text, words);
}

/* What it is about, below the drawing, a line each. */
static void put_notes(struct making *m, const char *what, double text)
{
	struct about_line notes[SB_ABOUT_LINES];
	size_t count = sb_about_lines(m->e->job, m->e->about, notes);
	double y = m->low[1] * m->exaggeration - 4 * text;
	char words[SB_ABOUT_TEXT + 64];

	put_text(m, DRAWN_NOTES, m->low[0], y, 1.5 * text, what);
	for (size_t i = 0; i < count; i++) {
		y -= 2 * text;
		snprintf(words, sizeof words, "%s: %s", notes[i].key, notes[i].text);
		put_text(m, DRAWN_NOTES, m->low[0], y, text, words);
	}
}

static void measure(struct making *m)
{
	m->low[0] = m->low[1] = HUGE_VAL;
	m->high[0] = m->high[1] = -HUGE_VAL;
	for (size_t i = 0; i < m->f->place_count; i++) {
		const struct feature_place *p = &m->f->places[i];
		m->low[0] = fmin(m->low[0], p->e);
		m->high[0] = fmax(m->high[0], p->e);
		m->low[1] = fmin(m->low[1], p->n);
		m->high[1] = fmax(m->high[1], p->n);
	}
}

static void draw(struct making *m, const char *what)
{
	/* letters that are legible when the whole drawing is on one sheet */
	double text = fmax(m->high[0] - m->low[0], m->high[1] - m->low[1]) / 400;

	put_header(m);
	put_tables(m, text);
	put(m, 0, "SECTION");
	put(m, 2, "BLOCKS");
	put(m, 0, "ENDSEC");
	put(m, 0, "SECTION");
	put(m, 2, "ENTITIES");
	for (size_t i = 0; i < m->f->count; i++)
		put_feature(m, &m->f->list[i], text);
	put_notes(m, what, text);
	put(m, 0, "ENDSEC");
	put(m, 0, "EOF");
}

int export_dxf(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct features f;
	struct making m = { .e = e, .f = &f, .out = out, .exaggeration = 1 };
	char what[200];

	(void)err; /* it can always be made */
	sb_features_make(e, PLANE_MAP, &f);
	measure(&m);
	snprintf(what, sizeof what,
		"PLAN. x easting, y northing, z elevation, %s, grid %.60s. ENTRY is the rig side.",
		sb_unit_long(e->job->unit), e->job->crs);
	draw(&m, what);
	sb_features_clear(&f);
	return 0;
}

/* The largest of 10, 5, 2 that leaves the drawing four times as long as it is high. */
static double exaggeration(const struct making *m)
{
	static const double ways[] = { 10, 5, 2 };

	for (size_t i = 0; i < 3; i++)
		if ((m->high[1] - m->low[1]) * ways[i] <= (m->high[0] - m->low[0]) / 4)
			return ways[i];
	return 1;
}

int export_dxf_profile(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct features f;
	struct making m = { .e = e, .f = &f, .out = out };
	char what[200];

	(void)err; /* it can always be made */
	sb_features_make(e, PLANE_PROFILE, &f);
	measure(&m);
	m.exaggeration = exaggeration(&m);
	snprintf(what, sizeof what, "PROFILE. x station, y elevation times %.0f, %s. ENTRY is the rig side.",
		m.exaggeration, sb_unit_long(e->job->unit));
	draw(&m, what);
	sb_features_clear(&f);
	return 0;
}
