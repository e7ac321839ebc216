/* The warning on the main screen: of those that wait the one that is needed most, in full words, because they
 * end in what to do; while a reading is tried, the worst that it would open. */
#include "base/str.h"
#include "ui/log.h"
#include "ui/theme.h"

#include <stdio.h>
#include <string.h>

const struct warning *sb_log_waiting(const struct solution *s, size_t *waiting)
{
	const struct warning *worst = NULL;

	*waiting = 0;
	for (size_t i = 0; i < s->warning_count; i++) {
		const struct warning *w = &s->warnings[i];
		if (w->acknowledged || w->superseded)
			continue;
		(*waiting)++;
		/* What holds now goes before what is past, then the worse, then the newer. */
		if (worst == NULL || (w->open && !worst->open) ||
			(w->open == worst->open && w->level >= worst->level))
			worst = w;
	}
	return worst;
}

static const struct warning *worst_of(const struct warning *list, size_t count)
{
	const struct warning *worst = NULL;

	for (size_t i = 0; i < count; i++)
		if (worst == NULL || list[i].level > worst->level)
			worst = &list[i];
	return worst;
}

/* The warning that waits most, in words; while a reading is tried, the worst that it would open. */
static enum level warning_words(const struct view *v, char *text, size_t size)
{
	const struct log_state *s = v->state;
	bool tried = s->trial && s->known;
	size_t waiting;
	const struct warning *w = sb_log_waiting(v->solution, &waiting);
	char others[40] = "";

	if (tried) {
		waiting = s->preview.warning_count;
		w = worst_of(s->preview.warnings, waiting);
	}
	if (w == NULL) {
		sb_copy(text, size, tried ? "this reading would open no warning" : "no warning waits");
		return LEVEL_OK;
	}
	if (waiting > 1)
		snprintf(others, sizeof others, " (and %zu more)", waiting - 1);
	snprintf(
		text, size, "%s %s%s: %s", sb_theme_mark(w->level), sb_level_word(w->level), others, w->text);
	return w->level;
}

/* How many rows the warning takes: as many as its words need, up to two, for a breach three. */
int sb_log_warning_rows(const struct view *v, int columns)
{
	char text[400];
	enum level level = warning_words(v, text, sizeof text);
	int most = level == LEVEL_BREACH ? 3 : 2, rows = sb_cells_wrapped(text, columns - 2);

	return rows > most ? most : rows;
}

/* Words that do not fit lose their end, and say so. */
void sb_log_warning_draw(const struct view *v, struct cells *out)
{
	char text[400];
	enum level level = warning_words(v, text, sizeof text);
	enum style style = level == LEVEL_OK ? STYLE_DIM : sb_theme_level(level);

	for (char *blank;
		sb_cells_wrapped(text, out->columns - 2) > out->rows && (blank = strrchr(text, ' '));)
		snprintf(blank, sizeof text - (size_t)(blank - text), "\u2026");
	sb_cells_wrap(out, 0, 1, out->columns - 2, style, text);
}
