/* Words of the program's tables as mdoc(7). */
#include "man/pages.h"

#include <ctype.h>
#include <string.h>

#define LINE 78

/* Two hyphens begin an option: they must stay what one types. */
static void escape(struct sb_str *out, const char *text)
{
	char before = ' ';

	for (; *text; before = *text++)
		if (*text == '\\')
			sb_str_add(out, "\\e");
		else if (*text == '-' && (text[1] == '-' || before == '-'))
			sb_str_add(out, "\\-");
		else
			sb_str_append(out, text, 1);
}

/* How much of the text makes one line: to the end of a sentence, or as many words as fit. */
static size_t line_length(const char *text, bool *sentence)
{
	size_t fits = 0;

	*sentence = false;
	for (size_t i = 0; text[i]; i++) {
		if (text[i] != ' ')
			continue;
		if (i > LINE && fits > 0)
			return fits;
		fits = i;
		*sentence = i > 1 && text[i - 1] == '.' && text[i - 2] != '.';
		if (*sentence)
			return i;
	}
	return strlen(text) > LINE && fits > 0 ? fits : strlen(text);
}

/* A line that ends in a mark ends a sentence, if it is not told otherwise. */
static bool looks_like_end(char last)
{
	return last == '.' || last == '!' || last == '?';
}

void mdoc_wrap(struct sb_str *out, const char *text)
{
	bool sentence;

	while (*text) {
		size_t length = line_length(text, &sentence);
		bool goes_on = text[length] != '\0' && !sentence && looks_like_end(text[length - 1]);
		sb_str_add(out, "%s%.*s%s\n", *text == '.' || *text == '\'' ? "\\&" : "", (int)length, text,
			goes_on ? "\\&" : "");
		text += length;
		text += strspn(text, " ");
	}
}

void mdoc_text(struct sb_str *out, const char *text)
{
	struct sb_str escaped = { 0 };

	escape(&escaped, text);
	mdoc_wrap(out, sb_str_get(&escaped));
	sb_str_clear(&escaped);
}

void mdoc_sentence(struct sb_str *out, const char *words)
{
	struct sb_str text = { 0 };

	if (*words == '\0')
		return;
	sb_str_add(&text, "%c%s%s", toupper((unsigned char)words[0]), words + 1,
		words[strlen(words) - 1] == '.' ? "" : ".");
	mdoc_text(out, text.text);
	sb_str_clear(&text);
}

void mdoc_item(struct sb_str *out, const char *name, const char *unit)
{
	sb_str_add(out, ".It Cm %s", name);
	if (*unit)
		sb_str_add(out, " Pq %s", unit);
	sb_str_add(out, "\n");
}

void mdoc_list(struct sb_str *out)
{
	sb_str_add(out, ".Bl -tag -width Ds\n");
}

void mdoc_list_end(struct sb_str *out)
{
	sb_str_add(out, ".El\n");
}
