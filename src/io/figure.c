/* Numbers as text. printf writes them: the program stays in the "C" numeric locale. */
#include "io/figure.h"

#include "base/str.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

const char *sb_figure_fixed(double value, int decimals, char text[SB_FIGURE_TEXT])
{
	assert(decimals >= 0 && decimals <= 12);
	text[0] = '\0';
	if (!(fabs(value) < 1e15))
		return text;
	int length = snprintf(text, SB_FIGURE_TEXT, "%.*f", decimals, value);
	if (decimals > 0) {
		while (text[length - 1] == '0')
			text[--length] = '\0';
		if (text[length - 1] == '.')
			text[--length] = '\0';
	}
	if (sb_same(text, "-0"))
		sb_copy(text, SB_FIGURE_TEXT, "0");
	return text;
}

const char *sb_figure_exact(double value, char text[SB_FIGURE_TEXT])
{
	text[0] = '\0';
	if (!isfinite(value))
		return text;
	for (int digits = 15; digits <= 17; digits++) {
		snprintf(text, SB_FIGURE_TEXT, "%.*g", digits, value);
		if (strtod(text, NULL) == value)
			break;
	}
	if (sb_same(text, "-0"))
		sb_copy(text, SB_FIGURE_TEXT, "0");
	return text;
}
