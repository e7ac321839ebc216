/* What each line and mark of the sheet means: samples drawn by the same pens, the words of the scene.
 */
#include "base/str.h"
#include "io/paper_text.h"

#include <stdio.h>

#include "drawing_parts.h"

#define COLUMNS 2
#define SAMPLE_MM 11.0

enum sample_kind { SAMPLE_LINE, SAMPLE_MARK };

static const struct sample {
	enum sample_kind kind;
	enum meaning meaning;
	enum line_kind line;
	const char *words;
} samples[] = {
	{ SAMPLE_LINE, MEANING_DRILLED, LINE_HEAVY, "as drilled" },
	{ SAMPLE_LINE, MEANING_DESIGN, LINE_DASHED, "design" },
	{ SAMPLE_LINE, MEANING_CORRIDOR, LINE_DOTTED, "corridor" },
	{ SAMPLE_LINE, MEANING_DOUBT, LINE_DOTTED, "give or take" },
	{ SAMPLE_LINE, MEANING_SUPERSEDED, LINE_DOTTED, "withdrawn" },
	{ SAMPLE_LINE, MEANING_DRILLED, LINE_SOLID, "reckoned, to the bit" },
	{ SAMPLE_LINE, MEANING_GROUND, LINE_SOLID, "ground, river bed" },
	{ SAMPLE_LINE, MEANING_OBSTACLE, LINE_SOLID, "obstacle" },
	{ SAMPLE_LINE, MEANING_OBSTACLE, LINE_DOTTED, "clearance to keep" },
	{ SAMPLE_LINE, MEANING_LIMIT, LINE_DOTTED, "cover to keep" },
	{ SAMPLE_LINE, MEANING_LIMIT, LINE_DASHED, "least radius, joint" },
	{ SAMPLE_LINE, MEANING_LIMIT, LINE_SOLID, "least radius, window" },
	{ SAMPLE_MARK, MEANING_ENTRY, LINE_SOLID, "entry, rig side" },
	{ SAMPLE_MARK, MEANING_EXIT, LINE_SOLID, "exit, pipe side" },
	{ SAMPLE_MARK, MEANING_JOINT, LINE_SOLID, "reading of a joint" },
	{ SAMPLE_MARK, MEANING_BIT, LINE_SOLID, "bit" },
	{ SAMPLE_MARK, MEANING_FIX, LINE_SOLID, "independent fix" },
	{ SAMPLE_MARK, MEANING_DESIGN, LINE_SOLID, "ends of a curve" },
	{ SAMPLE_MARK, MEANING_NONCONFORMANCE, LINE_SOLID, "non-conformance" },
};
#define SAMPLES (sizeof samples / sizeof *samples)

static void draw_sample(struct drawing *d, const struct sample *s, struct spot at, double width)
{
	struct lettering as = { FACE_PLAIN, DRAWING_SMALL, HOLD_LEFT, 0, SB_INK_BLACK };
	struct pen pen = drawing_pen(s->meaning, s->line);
	double middle = at.y - DRAWING_SMALL / 2;

	if (s->kind == SAMPLE_LINE)
		sb_paper_stroke(d->paper, &pen, at.x, middle, at.x + SAMPLE_MM - 2, middle);
	else
		drawing_mark(d->paper, s->meaning, (struct spot){ at.x + SAMPLE_MM / 2 - 1, middle });
	at.x += SAMPLE_MM;
	char words[64];
	sb_copy(words, sizeof words, s->words);
	if (s->meaning == MEANING_DOUBT)
		snprintf(words, sizeof words, "%s, %.4g %%", s->words, d->s->uncertainty.confidence * 100);
	sb_paper_text_within(d->paper, &as, DRAWING_SMALL * 0.8, width - SAMPLE_MM, at, words);
}

void drawing_legend(struct drawing *d, const struct paper *box)
{
	size_t rows = (SAMPLES + COLUMNS - 1) / COLUMNS;
	double wide = box->width / COLUMNS, high = box->height / (double)rows;

	for (size_t i = 0; i < SAMPLES; i++) {
		size_t column = i / rows, row = i % rows;
		struct spot at = { box->left + wide * (double)column,
			box->top + high * ((double)row + 0.75) };
		draw_sample(d, &samples[i], at, wide - 1);
	}
}
