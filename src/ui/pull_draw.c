/* How the pull looks: the force at the rig in figures that are read across the cabin, what it is beside the
 * limit and the estimate, what it may mean; and the picture of all of it.
 */
#include "pull.h"

#include "base/measure.h"
#include "base/str.h"
#include "ui/big.h"
#include "ui/curves.h"
#include "ui/theme.h"

#include <math.h>
#include <stdio.h>

#define ENTRY_ROWS 3
#define HEAD_ROWS 5 /* the rule, three rows of figures, and where the head is */

/* ---- the answers ---- */

static enum level level_of(const struct pulled *p)
{
	return p->share > 1						      ? LEVEL_BREACH
		: p->jumped || p->side == BAND_ABOVE || p->side == BAND_BELOW ? LEVEL_WATCH
									      : LEVEL_OK;
}

static void draw_force(const struct view *v, const struct pulled *p, struct cells *out)
{
	const struct job *job = v->job;
	const char *unit = sb_measure_unit(job->unit, MEASURE_FORCE);
	enum level level = level_of(p);
	char big[16], band[3][SB_PULL_FORCE];

	/* what was typed, unless it has more digits than there is room for */
	if (!sb_copy(big, 8, p->entry->force.text))
		snprintf(big, sizeof big, "%.0f", p->entry->force.value);
	int column = sb_big_number(out, 0, 1, sb_theme_level(level), v->glyphs, big) + 2;
	sb_cells_print(out, 0, column, STYLE_STRONG, "%s at the rig, joint %d", unit, p->entry->joint);
	sb_cells_print(out, 0, out->columns - 10, sb_theme_level(level), "%-2s %s", sb_theme_mark(level),
		sb_level_word(level));
	if (isnan(p->share))
		sb_cells_text(out, 1, column, STYLE_DIM, "the contract gives no safe pull limit");
	else
		sb_cells_print(out, 1, column, p->share > 1 ? STYLE_BREACH : STYLE_PLAIN,
			"%.0f %% of the safe pull limit of %s", 100 * p->share, job->safe_force.text);
	if (p->side == BAND_UNKNOWN) {
		sb_cells_text(out, 2, column, STYLE_DIM, "no estimate");
		return;
	}
	sb_pullback_force(job, p->band.force_n, band[0]);
	sb_pullback_force(job, p->band.low_n, band[1]);
	sb_pullback_force(job, p->band.high_n, band[2]);
	sb_cells_print(out, 2, column, p->side == BAND_WITHIN ? STYLE_PLAIN : STYLE_WATCH,
		"estimate %s; %s its band, %s to %s", band[0], sb_pullback_side(p->side), band[1], band[2]);
}

/* Where the head is, and how long it takes yet. */
static void draw_stand(const struct view *v, const struct pullback *p, struct cells *out)
{
	struct sb_str words = { 0 };

	sb_pullback_stand(v->job, p, &words);
	sb_str_add(&words, ".");
	sb_cells_fit(out, 0, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&words));
	sb_str_clear(&words);
}

/* What it may mean, else how long it takes yet, else why there is no estimate. Returned: rows that it takes.
 */
static int draw_meaning(const struct view *v, const struct pullback *p, struct cells *out)
{
	const struct pull_state *s = v->state;
	struct sb_str words = { 0 };
	int rows = 0;

	sb_pullback_time(v->job, p, &words);
	if (words.length) {
		sb_str_add(&words, ".");
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_PLAIN, sb_str_get(&words));
		sb_str_clear(&words);
	}
	if (p->count)
		sb_pullback_means(v->job, &s->bands, &p->list[p->count - 1], &words);
	if (words.length)
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_WATCH, sb_str_get(&words));
	else if (*s->bands.unknown)
		rows += sb_cells_wrap(out, rows, 1, out->columns - 2, STYLE_DIM, s->bands.unknown);
	sb_str_clear(&words);
	return rows;
}

/* ---- the picture ---- */

static double typed_force(const struct job *job, double newton)
{
	return sb_measure_typed(job->unit, MEASURE_FORCE, newton);
}

enum which { WHICH_LOW, WHICH_HIGH, WHICH_ESTIMATE };

/* The estimate, or an end of its band. */
static void add_band(struct curves *c, const struct pull_state *s, const struct job *job, enum which which)
{
	static const char *const names[] = { "low", "high", "estimate" };
	const struct pull_bands *b = &s->bands;
	struct along_point *to = sb_curves_add(c, which == WHICH_ESTIMATE ? MEANING_ESTIMATE : MEANING_DOUBT,
		which == WHICH_ESTIMATE ? LINE_SOLID : LINE_DOTTED, names[which], b->count);

	for (size_t i = 0; i < b->count; i++) {
		const struct pull_band *at = &b->list[i];
		double newton = which == WHICH_LOW ? at->low_n
			: which == WHICH_HIGH	   ? at->high_n
						   : at->force_n;
		to[i] = (struct along_point){ sb_bore_line_station(&b->line, at->head_md_m),
			typed_force(job, newton) };
	}
}

static void add_measured(struct curves *c, const struct job *job, const struct pullback *p)
{
	struct along_point *to = p->count < 2
		? sb_curves_marks(c, MEANING_MEASURED, "measured", p->count)
		: sb_curves_add(c, MEANING_MEASURED, LINE_SOLID, "measured", p->count);

	for (size_t i = 0; i < p->count; i++)
		to[i] = (struct along_point){ p->list[i].station_m, typed_force(job, p->list[i].force_n) };
}

static void draw_picture(const struct view *v, const struct pullback *p, struct cells *out)
{
	const struct pull_state *s = v->state;
	const struct bore_line *line = &s->bands.line;
	struct curves c = { 0 };

	if (out->rows < 4 || line->count == 0)
		return;
	double from = line->stretches[0].station_m, to = sb_bore_line_station(line, line->length_m);
	double limit = typed_force(v->job, p->safe_n);
	for (enum which which = WHICH_LOW; which <= WHICH_ESTIMATE; which++)
		add_band(&c, s, v->job, which);
	struct along_point *limits = sb_curves_add(&c, MEANING_LIMIT, LINE_DASHED, "limit", 2);
	limits[0] = (struct along_point){ from, limit };
	limits[1] = (struct along_point){ to, limit };
	add_measured(&c, v->job, p);
	sb_cells_rule(
		out, 0, "force at the rig by where the head is: measured, estimate with its band, limit");
	struct cells area = sb_cells_part(out, 1, 0, out->rows - 1, out->columns);
	sb_curves_draw(&c, from, to, sb_measure_unit(v->job->unit, MEASURE_FORCE), 0, v->job->unit, v->glyphs,
		&area);
	sb_curves_clear(&c);
}

/* ---- before, after, and the line where it is typed ---- */

static void draw_waiting(const struct view *v, struct cells *out)
{
	struct lacks lacks;
	int row = 3;

	sb_pullback_lacks(v->job, &lacks);
	sb_cells_text(out, 1, 1, STYLE_STRONG, "The pull has not begun.");
	if (lacks.count == 0)
		sb_cells_text(out, row++, 1, STYLE_OK, "Nothing is missing: B begins it.");
	else
		sb_cells_text(out, row++, 1, STYLE_PLAIN,
			"It waits for this; B begins it all the same, with a reason and a name:");
	for (size_t i = 0; i < lacks.count; i++) {
		sb_cells_text(out, row, 1, STYLE_BREACH, sb_theme_mark(LEVEL_BREACH));
		row += sb_cells_wrap(out, row, 4, out->columns - 5, STYLE_PLAIN, lacks.text[i]);
	}
}

static void draw_ended(const struct view *v, const struct pullback *p, struct cells *out)
{
	struct sb_str words = { 0 };

	sb_cells_rule(out, 0, "the end");
	sb_pullback_end_say(v->job, p, &words);
	sb_cells_wrap(out, 1, 1, out->columns - 2, STYLE_STRONG, sb_str_get(&words));
	sb_str_clear(&words);
}

void sb_pull_draw(const struct view *v, struct cells *out)
{
	struct pull_state *s = v->state;
	struct pullback p;

	sb_pullback_take(v->job, &s->bands, &p);
	sb_cells_rule(out, 0, "the pull");
	int foot = p.begun == NULL ? 0 : p.ended ? 5 : ENTRY_ROWS;
	if (p.begun == NULL) {
		draw_waiting(v, out);
	} else {
		struct cells part = sb_cells_part(out, 1, 0, 3, out->columns);
		if (p.count)
			draw_force(v, &p.list[p.count - 1], &part);
		else
			sb_cells_text(&part, 1, 1, STYLE_PLAIN, "No joint is out yet.");
		part = sb_cells_part(out, 4, 0, 1, out->columns);
		draw_stand(v, &p, &part);
		part = sb_cells_part(out, HEAD_ROWS, 0, out->rows - HEAD_ROWS - foot, out->columns);
		int row = HEAD_ROWS + draw_meaning(v, &p, &part);
		part = sb_cells_part(out, row, 0, out->rows - row - foot, out->columns);
		draw_picture(v, &p, &part);
		part = sb_cells_part(out, out->rows - foot, 0, foot, out->columns);
		if (p.ended)
			draw_ended(v, &p, &part);
		else
			sb_pull_entry_draw(v, &part);
	}
	sb_pullback_clear(&p);
}
