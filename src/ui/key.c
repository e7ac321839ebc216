/* The words for keys. */
#include "ui/key.h"

#include "base/str.h"
#include "ui/glyph.h"

#include <stdio.h>
#include <string.h>

static const struct {
	int key;
	const char *word;
} names[] = {
#define KEY_NAME(name, word) { SB_KEY_##name, word },
	SB_KEYS(KEY_NAME)
#undef KEY_NAME
		{ ' ', "Space" },
};

static int capital(int key)
{
	return key >= 'a' && key <= 'z' ? key - 'a' + 'A' : key;
}

char *sb_key_name(int key, char text[SB_KEY_TEXT])
{
	for (size_t i = 0; i < sizeof names / sizeof *names; i++)
		if (names[i].key == key) {
			sb_copy(text, SB_KEY_TEXT, names[i].word);
			return text;
		}
	if (key > 0 && key < ' ')
		snprintf(text, SB_KEY_TEXT, "Ctrl-%c", key + '@');
	else
		sb_glyph_encode((unsigned)capital(key), text);
	return text;
}

int sb_key_parse(const char *word, size_t length)
{
	char text[SB_KEY_TEXT];
	unsigned character;

	if (length == 0 || length >= sizeof text)
		return SB_KEY_NONE;
	memcpy(text, word, length);
	text[length] = '\0';
	for (size_t i = 0; i < sizeof names / sizeof *names; i++)
		if (sb_same_word(names[i].word, text))
			return names[i].key;
	if (length == 6 && strncmp(text, "Ctrl-", 5) == 0 && capital(text[5]) > '@' &&
		capital(text[5]) < 0x60)
		return capital(text[5]) - '@';
	if (sb_utf8_next(text, &character) == length && sb_glyph_safe(character))
		return (int)character;
	return SB_KEY_NONE;
}

int sb_key_next(const char **list)
{
	*list += strspn(*list, " ");
	size_t length = strcspn(*list, " ");
	int key = sb_key_parse(*list, length);
	*list += length;
	return key;
}

bool sb_key_same(int a, int b)
{
	return capital(a) == capital(b);
}

bool sb_key_types(int key)
{
	return key >= ' ' && key < SB_KEY_BEFORE_FIRST && sb_glyph_safe((unsigned)key);
}
