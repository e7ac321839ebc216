/* The nearest known name, by the number of slips of the pen between the two: a letter left out, added or
 * changed, or two neighbours swapped (the distance of Damerau 1964, in its form by optimal alignment). Names
 * are short, so the whole table of the alignment is kept.
 */
#include "io/nearest.h"

#include <string.h>

static char lower(char c)
{
	static const char upper[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ", small[] = "abcdefghijklmnopqrstuvwxyz";
	const char *at = c ? strchr(upper, c) : NULL;

	if (at)
		return small[at - upper];
	return c;
}

static void plain(const char *from, char to[SB_NEAREST_TEXT])
{
	size_t used = 0;

	memset(to, 0, SB_NEAREST_TEXT);
	for (; *from && used + 1 < SB_NEAREST_TEXT; from++)
		if (*from != ' ' && *from != '\t' && *from != '_' && *from != '-')
			to[used++] = lower(*from);
}

bool sb_nearest_same(const char *a, const char *b)
{
	char one[SB_NEAREST_TEXT], other[SB_NEAREST_TEXT];

	plain(a, one);
	plain(b, other);
	return strcmp(one, other) == 0;
}

static size_t least(size_t a, size_t b)
{
	return a < b ? a : b;
}

static size_t slips_between(const char *a, const char *b)
{
	size_t t[SB_NEAREST_TEXT][SB_NEAREST_TEXT];
	size_t rows = strlen(a), columns = strlen(b);

	for (size_t i = 0; i <= rows; i++)
		t[i][0] = i;
	for (size_t j = 0; j <= columns; j++)
		t[0][j] = j;
	for (size_t i = 1; i <= rows; i++)
		for (size_t j = 1; j <= columns; j++) {
			size_t changed = t[i - 1][j - 1] + (a[i - 1] != b[j - 1]);
			t[i][j] = least(changed, least(t[i - 1][j], t[i][j - 1]) + 1);
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
				t[i][j] = least(t[i][j], t[i - 2][j - 2] + 1);
		}
	return t[rows][columns];
}

struct nearest sb_nearest_to(const char *word)
{
	struct nearest n = { .best = NULL };

	plain(word, n.word);
	return n;
}

struct nearest sb_nearest_without_unit(const char *word)
{
	struct nearest n = sb_nearest_to(word);
	size_t name = strcspn(n.word, "([");

	if (name > 0)
		n.word[name] = '\0';
	return n;
}

void sb_nearest_try(struct nearest *n, const char *name)
{
	char known[SB_NEAREST_TEXT];

	plain(name, known);
	size_t slips = slips_between(n->word, known);
	size_t longer = strlen(known) > strlen(n->word) ? strlen(known) : strlen(n->word);
	if (slips * 3 > longer || (n->best && slips >= n->slips))
		return;
	n->best = name;
	n->slips = slips;
}
