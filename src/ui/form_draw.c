/* How a form looks. Brackets show where to type without any colour; the terminal's cursor stands in the field
 * that takes the keys. */
#include "base/str.h"
#include "ui/form.h"

#include <stdio.h>
#include <string.h>

#define GAP 2

static enum style style_of(const struct form_field *field, bool focused)
{
	if (focused)
		return STYLE_CURSOR;
	return field->offered ? STYLE_OFFERED : STYLE_ENTRY;
}

/* Columns of the text before the place where typing goes on. */
static int columns_before(const struct form_field *field)
{
	char text[SB_FORM_TEXT];

	memcpy(text, field->text, field->at);
	text[field->at] = '\0';
	return (int)sb_utf8_columns(text);
}

/* "[text  ]": long text is moved so that the cursor stays in sight, and a < says that it begins further left.
 */
static int draw_place(const struct form_field *field, bool focused, struct cells *out, int row, int column)
{
	struct cells place = sb_cells_part(out, row, column + 1, 1, field->width);
	int cursor = columns_before(field), hidden = 0;
	enum style style = style_of(field, focused);

	if (focused && cursor >= field->width)
		hidden = cursor - field->width + 1;
	sb_cells_put(out, row, column, STYLE_DIM, '[');
	sb_cells_put(out, row, column + 1 + field->width, STYLE_DIM, ']');
	sb_cells_fill(&place, style);
	if (focused)
		sb_cells_text(&place, 0, -hidden, style, field->text);
	if (hidden > 0) /* or its end would be read as all of it */
		sb_cells_put(&place, 0, 0, STYLE_WATCH, '<');
	if (focused)
		sb_cells_cursor(&place, 0, cursor - hidden);
	else
		sb_cells_fit(&place, 0, 0, field->width, style, field->text);
	return column + field->width + 2;
}

int sb_form_draw_one(const struct form *f, size_t i, struct cells *out, int row, int column)
{
	const struct form_field *field = &f->fields[i];

	column = sb_cells_text(out, row, column, STYLE_DIM, field->label);
	column = draw_place(field, i == f->focus, out, row, column + 1);
	if (field->unit && field->unit[0])
		column = sb_cells_text(out, row, column + 1, STYLE_DIM, field->unit);
	return column;
}

static int label_columns(const struct form *f)
{
	int most = 0;

	for (size_t i = 0; i < f->count; i++) {
		int columns = (int)sb_utf8_columns(f->fields[i].label);
		most = columns > most ? columns : most;
	}
	return most;
}

/* Where the field's problem begins. */
static int problem_column(const struct form_field *field, int labels)
{
	int unit = field->unit && field->unit[0] ? (int)sb_utf8_columns(field->unit) + 1 : 0;

	return 2 + labels + 1 + field->width + 2 + unit + GAP;
}

static bool fits_beside(const struct form_field *field, int labels, const struct cells *out)
{
	return (int)sb_utf8_columns(field->problem) + 2 <= out->columns - problem_column(field, labels);
}

/* "f full  p partial  n none": which letter brings which word. */
static void draw_choices(const struct form_field *field, struct cells *out, int row, int column)
{
	char word[SB_FORM_TEXT];

	for (const char *at = field->choices; *at; at += strspn(at, "|")) {
		size_t length = strcspn(at, "|");
		snprintf(word, sizeof word, "%.*s", (int)length, at);
		sb_cells_print(out, row, column, STYLE_KEY, "%c", word[0]);
		column = sb_cells_text(out, row, column + 2, STYLE_DIM, word) + 2;
		at += length;
	}
}

static void draw_row(const struct form *f, size_t i, struct cells *out, int row, int labels)
{
	const struct form_field *field = &f->fields[i];
	int column = problem_column(field, labels);

	if (i == f->focus)
		sb_cells_put(out, row, 0, STYLE_STRONG, '>');
	sb_cells_fit(out, row, 2, labels, i == f->focus ? STYLE_STRONG : STYLE_DIM, field->label);
	int end = draw_place(field, i == f->focus, out, row, 2 + labels + 1);
	if (field->unit)
		sb_cells_text(out, row, end + 1, STYLE_DIM, field->unit);
	if (field->choices)
		draw_choices(field, out, row, end + 1);
	if (field->problem[0] == '\0')
		return;
	sb_cells_text(out, row, column, STYLE_WATCH, "! ");
	if (i != f->focus || fits_beside(field, labels, out))
		sb_cells_fit(out, row, column + 2, out->columns - column - 2, STYLE_WATCH, field->problem);
}

/* The focused field's problem stands in full under the fields when it does not fit beside its own. */
void sb_form_draw(const struct form *f, struct cells *out)
{
	const struct form_field *field = &f->fields[f->focus];
	int labels = label_columns(f), below = 0;

	if (f->count == 0 || out->rows == 0)
		return;
	if (!fits_beside(field, labels, out))
		below = sb_cells_wrapped(field->problem, out->columns - 2);
	size_t rows = (size_t)(out->rows > below ? out->rows - below : 1);
	size_t first = f->focus >= rows ? f->focus - rows + 1 : 0;
	size_t end = first + rows < f->count ? first + rows : f->count;
	for (size_t i = first; i < end; i++)
		draw_row(f, i, out, (int)(i - first), labels);
	if (below) {
		sb_cells_text(out, (int)(end - first), 0, STYLE_WATCH, "! ");
		sb_cells_wrap(out, (int)(end - first), 2, out->columns - 2, STYLE_WATCH, field->problem);
	}
}
