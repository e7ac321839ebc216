/* Drawing through cairo, in points under a scale of millimetres. The pages of an SVG are drawn one below
 * another on one long page, whose size is written when all of them are known.
 */
#include "io/paper.h"

#include "base/mem.h"
#include "base/time.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "paper_parts.h"
#include "paper_svg.h"

#define POINTS (72 / 25.4) /* a millimetre in points */
#define RULER 1000.0	   /* the size at which text is measured */
#define LEAST_MM 10.0	   /* of a page */
#define MOST_MM 5000.0
#define APART_MM 5.0 /* between the pages of an SVG */
#define LONG_MM 2e6  /* an SVG before its size is known: cairo's 24 bits before the point end at 2.9 km */

static const struct {
	const char *family;
	cairo_font_weight_t weight;
	double em[3]; /* advances of M, g and i, of 2048: the font's own table, by which it is known */
} faces[FACES] = {
	[FACE_PLAIN] = { "DejaVu Sans", CAIRO_FONT_WEIGHT_NORMAL, { 1767, 1300, 569 } },
	[FACE_BOLD] = { "DejaVu Sans", CAIRO_FONT_WEIGHT_BOLD, { 2038, 1466, 702 } },
	[FACE_MONO] = { "DejaVu Sans Mono", CAIRO_FONT_WEIGHT_NORMAL, { 1233, 1233, 1233 } },
	[FACE_MONO_BOLD] = { "DejaVu Sans Mono", CAIRO_FONT_WEIGHT_BOLD, { 1233, 1233, 1233 } },
};

static cairo_status_t keep(void *paper, const unsigned char *bytes, unsigned length)
{
	struct sb_paper *p = paper;

	sb_str_append(&p->bytes, (const char *)bytes, length);
	return CAIRO_STATUS_SUCCESS;
}

/* Remembers the first failure of something that is let go. */
static void note_failure(struct sb_paper *p, cairo_status_t status)
{
	if (p->failed == CAIRO_STATUS_SUCCESS)
		p->failed = status;
}

/* Lettering is laid out as the fonts' designers drew it, at no screen's pixels: so it is the same at any size
 * and on any machine. */
static cairo_t *new_pen(struct sb_paper *p, cairo_surface_t *surface)
{
	const struct paper_cairo *c = p->cairo;
	cairo_t *pen = c->create(surface);
	cairo_font_options_t *options = c->font_options_create();

	c->font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
	c->font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
	c->set_font_options(pen, options);
	c->font_options_destroy(options);
	return pen;
}

static void drop_pen(struct sb_paper *p)
{
	if (p->pen == NULL)
		return;
	note_failure(p, p->cairo->status(p->pen));
	p->cairo->destroy(p->pen);
	p->pen = NULL;
}

void paper_choose_face(struct sb_paper *p, cairo_t *pen, enum face face)
{
	p->cairo->select_font_face(pen, faces[face].family, CAIRO_FONT_SLANT_NORMAL, faces[face].weight);
}

double paper_measure(struct sb_paper *p, enum face face, const char *text)
{
	cairo_text_extents_t extents = { 0 };

	paper_choose_face(p, p->ruler, face);
	p->cairo->set_font_size(p->ruler, RULER);
	p->cairo->text_extents(p->ruler, text, &extents);
	return extents.x_advance / RULER;
}

/* A font that is missing is replaced without a word by whatever there is, or by nothing; but no other font
 * that people have is as wide in all its letters. */
static int check_fonts(struct sb_paper *p, struct sb_err *err)
{
	static const char *const letters[] = { "M", "g", "i" };

	for (int face = 0; face < FACES; face++)
		for (int i = 0; i < 3; i++)
			if (!(fabs(paper_measure(p, (enum face)face, letters[i]) - faces[face].em[i] / 2048) <
				    1e-3))
				return sb_fail(err, SB_MISSING,
					"The lettering '%s' is not installed, so no sheet or report can be drawn. Install package fonts-dejavu-core.",
					faces[face].family);
	return 0;
}

/* Cairo 1.16 leaves out the D: that ISO 32000-1, 7.9.4, wants before a date. Nothing in a PDF may change its
 * length when it is written, so two spaces behind the name of the program before it make room. */
#define AS_WRITTEN "  )\n   /CreationDate ("
#define AS_WANTED ")\n   /CreationDate (D:"
_Static_assert(sizeof AS_WRITTEN == sizeof AS_WANTED, "bytes are put in the place of as many");

static void mend_date(struct sb_str *pdf)
{
	char *at = memmem(pdf->text, pdf->length, AS_WRITTEN, sizeof AS_WRITTEN - 1);

	if (at)
		memcpy(at, AS_WANTED, sizeof AS_WANTED - 1);
}

static void describe_pdf(struct sb_paper *p, const struct paper_note *note)
{
	char program[64];
	snprintf(program, sizeof program, "%.60s  ", note->program ? note->program : "");
	const struct {
		cairo_pdf_metadata_t key;
		const char *text;
	} lines[] = {
		{ CAIRO_PDF_METADATA_TITLE, note->title },
		{ CAIRO_PDF_METADATA_AUTHOR, note->author },
		{ CAIRO_PDF_METADATA_SUBJECT, note->subject },
		{ CAIRO_PDF_METADATA_KEYWORDS, note->keywords },
		{ CAIRO_PDF_METADATA_CREATOR, program },
	};
	char time[SB_TIME_TEXT];

	for (size_t i = 0; i < sizeof lines / sizeof *lines; i++)
		if (lines[i].text && *lines[i].text)
			p->cairo->pdf_set_metadata(p->surface, lines[i].key, lines[i].text);
	sb_time_iso(note->at_ms, time);
	sb_copy(strchr(time, '.'), 2, "Z"); /* to the second */
	p->cairo->pdf_set_metadata(p->surface, CAIRO_PDF_METADATA_CREATE_DATE, time);
}

int sb_paper_new(
	enum paper_kind kind, const struct paper_note *note, struct sb_paper **out, struct sb_err *err)
{
	if (paper_cairo_load(err))
		return -1;
	struct sb_paper *p = sb_alloc(sizeof *p);
	p->cairo = paper_cairo();
	p->kind = kind;
	cairo_surface_t *scratch = p->cairo->recording_create(CAIRO_CONTENT_COLOR_ALPHA, NULL);
	p->ruler = new_pen(p, scratch);
	p->cairo->surface_destroy(scratch); /* the ruler holds it */
	if (check_fonts(p, err)) {
		sb_paper_abandon(p);
		return -1;
	}
	if (kind == PAPER_PDF) {
		p->surface = p->cairo->pdf_create_for_stream(keep, p, LEAST_MM, LEAST_MM);
		describe_pdf(p, note);
	} else {
		p->surface = p->cairo->svg_create_for_stream(keep, p, MOST_MM * POINTS, LONG_MM * POINTS);
		p->pen = new_pen(p, p->surface);
		paper_svg_head(note, &p->head);
	}
	*out = p;
	return 0;
}

static void begin_pdf_page(struct sb_paper *p, double width_mm, double height_mm, const char *name)
{
	char link[32];

	if (p->page_count > 0)
		p->cairo->show_page(p->pen);
	drop_pen(p);
	p->cairo->pdf_set_size(p->surface, width_mm * POINTS, height_mm * POINTS);
	p->pen = new_pen(p, p->surface);
	snprintf(link, sizeof link, "page=%zu", ++p->page_count);
	if (name && *name)
		p->cairo->pdf_add_outline(
			p->surface, CAIRO_PDF_OUTLINE_ROOT, name, link, (cairo_pdf_outline_flags_t)0);
}

static void begin_svg_page(struct sb_paper *p, double width_mm, double height_mm)
{
	if (p->page_count++ > 0) {
		p->cairo->restore(p->pen);
		p->high_mm += APART_MM;
	}
	p->cairo->save(p->pen);
	p->cairo->translate(p->pen, 0, p->high_mm * POINTS);
	p->cairo->rectangle(p->pen, 0, 0, width_mm * POINTS, height_mm * POINTS);
	p->cairo->clip(p->pen);
	p->high_mm += height_mm;
	p->wide_mm = fmax(p->wide_mm, width_mm);
}

void sb_paper_page(struct sb_paper *p, double width_mm, double height_mm, const char *name)
{
	assert(width_mm >= LEAST_MM && width_mm <= MOST_MM && height_mm >= LEAST_MM && height_mm <= MOST_MM);
	if (p->kind == PAPER_PDF)
		begin_pdf_page(p, width_mm, height_mm, name);
	else
		begin_svg_page(p, width_mm, height_mm);
	p->cairo->scale(p->pen, POINTS, POINTS);
	sb_paper_fill(p, SB_INK_WHITE, &(struct paper){ 0, 0, width_mm, height_mm });
}

int sb_paper_end(struct sb_paper *p, struct sb_str *out, struct sb_err *err)
{
	assert(p->page_count > 0);
	p->cairo->show_page(p->pen);
	drop_pen(p);
	p->cairo->surface_finish(p->surface);
	note_failure(p, p->cairo->surface_status(p->surface));
	note_failure(p, p->cairo->status(p->ruler));
	int failed = p->failed == CAIRO_STATUS_SUCCESS ? 0 : -1;
	if (failed)
		sb_fail(err, SB_IO, "The pages could not be drawn: %s.",
			p->cairo->status_to_string(p->failed));
	else if (p->kind == PAPER_SVG)
		paper_svg_finish(&p->bytes, &p->head, p->wide_mm * POINTS, p->high_mm * POINTS, out);
	else {
		mend_date(&p->bytes);
		sb_str_append(out, p->bytes.text, p->bytes.length);
	}
	sb_paper_abandon(p);
	return failed;
}

void sb_paper_abandon(struct sb_paper *p)
{
	if (p == NULL)
		return;
	drop_pen(p);
	p->cairo->destroy(p->ruler);
	if (p->surface)
		p->cairo->surface_destroy(p->surface);
	sb_str_clear(&p->bytes);
	sb_str_clear(&p->head);
	sb_free(p);
}
