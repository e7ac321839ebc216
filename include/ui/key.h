/* Keys: what a terminal sends, understood. A key is a character (Unicode), a control character (Ctrl-A is
 * 1), or one of the names below. In tables and scripts keys are written as words: "A", "5", ".", "Enter",
 * "Ctrl-L", "Space".
 */
#ifndef SB_UI_KEY_H
#define SB_UI_KEY_H

#include <stdbool.h>
#include <stddef.h>

#define SB_KEYS(X) \
	X(ENTER, "Enter") \
	X(TAB, "Tab") \
	X(BACKTAB, "Shift-Tab") \
	X(ESCAPE, "Esc") \
	X(BACKSPACE, "Backspace") \
	X(UP, "Up") \
	X(DOWN, "Down") \
	X(LEFT, "Left") \
	X(RIGHT, "Right") \
	X(HOME, "Home") \
	X(END, "End") \
	X(PAGE_UP, "PgUp") \
	X(PAGE_DOWN, "PgDn") \
	X(INSERT, "Ins") \
	X(DELETE, "Del") \
	X(F1, "F1") \
	X(F2, "F2") \
	X(F3, "F3") \
	X(F4, "F4") \
	X(F5, "F5") \
	X(F6, "F6") \
	X(F7, "F7") \
	X(F8, "F8") \
	X(F9, "F9") \
	X(F10, "F10") \
	X(F11, "F11") \
	X(F12, "F12")

/* SB_KEY_ENTER and so on; above every character. */
#define SB_KEY_ENUM(name, word) SB_KEY_##name,
enum { SB_KEY_NONE = 0, SB_KEY_BEFORE_FIRST = 0x10FFFF, SB_KEYS(SB_KEY_ENUM) SB_KEY_AFTER_LAST };
#undef SB_KEY_ENUM

#define SB_KEY_TEXT 16

/* The key's word: letters as capitals. Returned: text. */
char *sb_key_name(int key, char text[SB_KEY_TEXT]);

/* One word of a table; SB_KEY_NONE when it is no key. Names match whatever their case. */
int sb_key_parse(const char *word, size_t length);

/* Takes the next word of a list of keys with blanks between. Returned: the key, SB_KEY_NONE at the end. */
int sb_key_next(const char **list);

/* Whether two keys are the same to a table of actions: letters match whatever their case (a cabin has a
 * caps lock too). */
bool sb_key_same(int a, int b);

/* A character that one types into a text. */
bool sb_key_types(int key);

#endif
