/* A locale that is not installed fails without a word into "C", where every character above ASCII vanishes
 * from the screen; so it is looked at what was meant, and C.UTF-8 (always there) stands in for it.
 *
 * What a font has cannot be asked. Of the fonts for the Linux console nearly all have box lines and hardly
 * any braille; a real terminal of the VT family has neither.
 */
#include "ui/charset.h"

#include "base/str.h"

#include <langinfo.h>
#include <locale.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

/* The name that decides: the first of these that is set. */
static const char *locale_name(void)
{
	static const char *const variables[] = { "LC_ALL", "LC_CTYPE", "LANG" };

	for (size_t i = 0; i < sizeof variables / sizeof *variables; i++) {
		const char *name = getenv(variables[i]);
		if (name && name[0])
			return name;
	}
	return "";
}

/* Never more than the character type: a decimal comma must not leak into numbers. */
static bool set_locale(void)
{
	const char *name = locale_name();

	if (setlocale(LC_CTYPE, "") && sb_same(nl_langinfo(CODESET), "UTF-8"))
		return true;
	/* None named, or one that names UTF-8 and is not installed. Any other was meant as it is. */
	bool utf8_meant = name[0] == '\0' || strcasestr(name, "utf-8") || strcasestr(name, "utf8");
	return utf8_meant && setlocale(LC_CTYPE, "C.UTF-8") != NULL;
}

static bool starts_with(const char *text, const char *start)
{
	return strncmp(text, start, strlen(start)) == 0;
}

void sb_charset_choose(const char *term, enum glyphs *best, enum glyphs *safe)
{
	bool utf8 = set_locale();

	*best = *safe = utf8 ? GLYPHS_BRAILLE : GLYPHS_ASCII;
	if (utf8 && starts_with(term, "linux"))
		*safe = GLYPHS_LINES;
	if (starts_with(term, "vt"))
		*safe = GLYPHS_ASCII;
}
