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

static bool in_footer(const struct action *a, bool writes)
{
	return a->label && (writes || !a->writes);
}

static const char *first_key(const struct action *a, char text[SB_KEY_TEXT])
{
	const char *keys = a->keys;

	return sb_key_name(sb_key_next(&keys), text);
}

/* "Enter log" and two blanks. */
static int columns_of(const struct action *a)
{
	char key[SB_KEY_TEXT];

	return (int)(sb_utf8_columns(first_key(a, key)) + 1 + sb_utf8_columns(a->label) + 2);
}

static int draw_one(struct cells *out, int column, const struct action *a)
{
	char key[SB_KEY_TEXT];

	column = sb_cells_text(out, 0, column, STYLE_KEY, first_key(a, key));
	return sb_cells_text(out, 0, column + 1, STYLE_DIM, a->label) + 2;
}

size_t sb_action_footer(
	struct cells *out, const struct action *table, const struct action *everywhere, bool writes)
{
	const struct action *tables[] = { table, everywhere }, *last = NULL;
	int column = 1, room = out->columns;
	size_t left_out = 0;

	for (const struct action *a = everywhere; a && a->name; a++)
		if (in_footer(a, writes))
			last = a;
	if (last)
		room -= columns_of(last) - 2;
	for (size_t i = 0; i < 2; i++)
		for (const struct action *a = tables[i]; a && a->name; a++) {
			if (!in_footer(a, writes) || a == last)
				continue;
			if (column + columns_of(a) > room)
				left_out++;
			else
				column = draw_one(out, column, a);
		}
	if (last)
		draw_one(out, column, last);
	return left_out;
}
