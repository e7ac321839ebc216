/* The four words of the column `standing`, which exports write and imports read. */
#include "io/standing.h"

#include "base/str.h"

static const char *const names[SB_STANDINGS] = { "entry", "path", "withdrawn", "replaced" };

const char *sb_standing_name(enum standing s)
{
	return names[s];
}

int sb_standing_parse(const char *name, enum standing *s)
{
	for (int i = 0; i < SB_STANDINGS; i++)
		if (sb_same_word(name, names[i])) {
			*s = (enum standing)i;
			return 0;
		}
	return -1;
}
