/* Tables of actions: looking up keys, and the footer. */
#include "ui/action.h"

#include "base/str.h"
#include "ui/key.h"

bool sb_action_takes(const struct action *a, int key)
{
	const char *keys = a->keys;

	for (int one; (one = sb_key_next(&keys)) != SB_KEY_NONE;)
		if (sb_key_same(one, key))
			return true;
	return false;
}

const struct action *sb_action_find(const struct action *table, int key)
{
	for (; table && table->name; table++)
		if (table->act && sb_action_takes(table, key))
			return table;
	return NULL;
}

static bool taken_by(const struct action *table, int key)
{
	for (; table && table->name; table++)
		if (sb_action_takes(table, key))
			return true;
	return false;
}

int sb_action_next_key(const struct action_tables *t, bool everywhere, const char **keys)
{
	for (int key; (key = sb_key_next(keys)) != SB_KEY_NONE;)
		if (!everywhere || !((t->letters && sb_key_types(key)) || taken_by(t->own, key)))
			return key;
	return SB_KEY_NONE;
}

/* The key that stands in the footer. */
static int shown_key(const struct action_tables *t, const struct action *a, bool everywhere)
{
	const char *keys = a->keys;

	if (a->label == NULL || (a->writes && !t->writes))
		return SB_KEY_NONE;
	return sb_action_next_key(t, everywhere, &keys);
}

struct label {
	int key;
	const char *text;
};

#define LABELS_MOST 24

static size_t collect(const struct action_tables *t, struct label out[LABELS_MOST])
{
	const struct action *tables[] = { t->own, t->everywhere };
	size_t count = 0;

	for (size_t i = 0; i < 2; i++)
		for (const struct action *a = tables[i]; a && a->name && count < LABELS_MOST; a++) {
			int key = shown_key(t, a, i == 1);
			if (key != SB_KEY_NONE)
				out[count++] = (struct label){ key, a->label };
		}
	return count;
}

/* "Enter log" */
static int columns_of(const struct label *l)
{
	char key[SB_KEY_TEXT];

	return (int)(sb_utf8_columns(sb_key_name(l->key, key)) + 1 + sb_utf8_columns(l->text));
}

static void draw_one(struct cells *out, int column, const struct label *l)
{
	char key[SB_KEY_TEXT];

	column = sb_cells_text(out, 0, column, STYLE_KEY, sb_key_name(l->key, key));
	sb_cells_text(out, 0, column + 1, STYLE_DIM, l->text);
}

/* Blanks between labels: two where all of them find room so, else one. */
static int gap_between(const struct label *labels, size_t count, int columns)
{
	for (size_t i = 0; i < count; i++)
		columns -= columns_of(&labels[i]) + 2;
	return columns >= -1 ? 2 : 1; /* one blank before the first, none after the last */
}

size_t sb_action_footer(struct cells *out, const struct action_tables *tables)
{
	struct label labels[LABELS_MOST];
	size_t count = collect(tables, labels), left_out = 0;
	int column = 1, gap = gap_between(labels, count, out->columns);

	if (count == 0)
		return 0;
	const struct label *last = &labels[count - 1];
	int room = out->columns - columns_of(last);
	for (size_t i = 0; i + 1 < count; i++) {
		int width = columns_of(&labels[i]) + gap;
		if (column + width > room) {
			left_out++;
			continue;
		}
		draw_one(out, column, &labels[i]);
		column += width;
	}
	draw_one(out, column, last);
	return left_out;
}
