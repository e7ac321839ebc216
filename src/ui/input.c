/* Bytes to keys, as a state machine over a small buffer.
 *
 * Sources: ECMA-48, 5th edition (1991), section 5.4 (control sequences: parameter bytes 30 to 3F,
 * intermediate bytes 20 to 2F, final byte 40 to 7E) and 5.6 (control strings); DEC VT220 Programmer
 * Reference Manual, chapter 3 (keypad in application mode: SS3 and a letter; editing and function keys: CSI
 * number ~); Linux console_codes(4) (F1 to F5: ESC [ [ and a letter).
 */
#include "ui/input.h"

#include "base/str.h"
#include "ui/glyph.h"
#include "ui/key.h"

#include <stdlib.h>
#include <string.h>

#define ESC '\033'

void sb_input_add(struct input *in, const char *bytes, size_t length)
{
	size_t room = sizeof in->bytes - in->length;

	if (length > room)
		length = room;
	memcpy(in->bytes + in->length, bytes, length);
	in->length += length;
}

bool sb_input_waits(const struct input *in)
{
	return in->length > 0 || in->skip > 0 || in->swallowing;
}

static void take(struct input *in, size_t length)
{
	memmove(in->bytes, in->bytes + length, in->length - length);
	in->length -= length;
}

struct meant {
	char final;
	int key;
};

static int look_up(const struct meant *table, char final)
{
	for (; table->final; table++)
		if (table->final == final)
			return table->key;
	return SB_KEY_NONE;
}

/* After ESC O. The keypad's own keys mean what is printed on them. */
static const struct meant of_ss3[] = { { 'A', SB_KEY_UP }, { 'B', SB_KEY_DOWN }, { 'C', SB_KEY_RIGHT },
	{ 'D', SB_KEY_LEFT }, { 'H', SB_KEY_HOME }, { 'F', SB_KEY_END }, { 'P', SB_KEY_F1 },
	{ 'Q', SB_KEY_F2 }, { 'R', SB_KEY_F3 }, { 'S', SB_KEY_F4 }, { 'M', SB_KEY_ENTER },
	{ 'I', SB_KEY_TAB }, { 'X', '=' }, { 'j', '*' }, { 'k', '+' }, { 'l', ',' }, { 'm', '-' },
	{ 'n', '.' }, { 'o', '/' }, { 'p', '0' }, { 'q', '1' }, { 'r', '2' }, { 's', '3' }, { 't', '4' },
	{ 'u', '5' }, { 'v', '6' }, { 'w', '7' }, { 'x', '8' }, { 'y', '9' }, { 0, 0 } };

/* A keypad's own key has what is printed on it, also where the terminal's description calls it F10. */
static bool is_keypad(const char *bytes)
{
	return bytes[1] == 'O' && bytes[3] == '\0' && sb_key_types(look_up(of_ss3, bytes[2]));
}

void sb_input_learn(struct input *in, const char *bytes, int key)
{
	size_t length = strlen(bytes);

	if (length < 2 || length >= sizeof in->learnt[0].bytes || bytes[0] != ESC ||
		in->learnt_count == INPUT_LEARNT || is_keypad(bytes))
		return;
	sb_copy(in->learnt[in->learnt_count].bytes, sizeof in->learnt[0].bytes, bytes);
	in->learnt[in->learnt_count++].key = key;
}

static const struct meant of_csi[] = { { 'A', SB_KEY_UP }, { 'B', SB_KEY_DOWN }, { 'C', SB_KEY_RIGHT },
	{ 'D', SB_KEY_LEFT }, { 'H', SB_KEY_HOME }, { 'F', SB_KEY_END }, { 'Z', SB_KEY_BACKTAB }, { 0, 0 } };

static const struct meant of_console[] = { { 'A', SB_KEY_F1 }, { 'B', SB_KEY_F2 }, { 'C', SB_KEY_F3 },
	{ 'D', SB_KEY_F4 }, { 'E', SB_KEY_F5 }, { 0, 0 } };

/* ESC [ number ~, by number. */
static const int of_number[] = { [1] = SB_KEY_HOME,
	[2] = SB_KEY_INSERT,
	[3] = SB_KEY_DELETE,
	[4] = SB_KEY_END,
	[5] = SB_KEY_PAGE_UP,
	[6] = SB_KEY_PAGE_DOWN,
	[7] = SB_KEY_HOME,
	[8] = SB_KEY_END,
	[11] = SB_KEY_F1,
	[12] = SB_KEY_F2,
	[13] = SB_KEY_F3,
	[14] = SB_KEY_F4,
	[15] = SB_KEY_F5,
	[17] = SB_KEY_F6,
	[18] = SB_KEY_F7,
	[19] = SB_KEY_F8,
	[20] = SB_KEY_F9,
	[21] = SB_KEY_F10,
	[23] = SB_KEY_F11,
	[24] = SB_KEY_F12 };

/* What one step came to. */
enum step { STEP_KEY, STEP_SWALLOWED, STEP_MORE };

/* A whole sequence ESC [ parameters final of `length` bytes. */
static int csi_key(const char *bytes, size_t length)
{
	char final = bytes[length - 1];
	size_t digits = length - 3;

	if (digits == 0)
		return look_up(of_csi, final);
	if (final != '~' || digits > 2 || strspn(bytes + 2, "0123456789") != digits)
		return SB_KEY_NONE; /* with Shift, Ctrl, Alt; or no key at all */
	unsigned long number = strtoul(bytes + 2, NULL, 10);
	return number < sizeof of_number / sizeof *of_number ? of_number[number] : SB_KEY_NONE;
}

static enum step step_csi(struct input *in, int *key)
{
	size_t at = 2;

	if (in->length > 2 && in->bytes[2] == '[') { /* the Linux console's F1 to F5 */
		if (in->length < 4)
			return STEP_MORE;
		*key = look_up(of_console, in->bytes[3]);
		take(in, 4);
		return STEP_KEY;
	}
	while (at < in->length && in->bytes[at] >= 0x20 && in->bytes[at] < 0x40)
		at++;
	if (at == in->length) {
		if (at < sizeof in->bytes)
			return STEP_MORE;
		in->length = 0;
		return STEP_SWALLOWED;
	}
	if (in->bytes[at] == 'M' && at == 2)
		in->skip = 3; /* a mouse report in the oldest form: button, column, row */
	*key = in->bytes[at] >= 0x40 && in->bytes[at] < 0x7F ? csi_key(in->bytes, at + 1) : SB_KEY_NONE;
	/* a byte that belongs to no sequence ends it, and counts for itself */
	take(in, in->bytes[at] >= 0x40 && in->bytes[at] < 0x7F ? at + 1 : at);
	return STEP_KEY;
}

static enum step step_ss3(struct input *in, int *key)
{
	size_t at = 2;

	while (at < in->length && at < 6 && (strchr("0123456789;", in->bytes[at]) && in->bytes[at]))
		at++;
	if (at == in->length)
		return STEP_MORE;
	*key = at == 2 ? look_up(of_ss3, in->bytes[at]) : SB_KEY_NONE;
	take(in, at + 1);
	return STEP_KEY;
}

/* Inside a control string (title, palette, answer of the terminal): up to BEL or ESC \. */
static enum step step_string(struct input *in)
{
	for (size_t at = 0; at < in->length; at++) {
		bool ends = in->bytes[at] == '\a' ||
			(at > 0 && in->bytes[at - 1] == ESC && in->bytes[at] == '\\');
		if (ends) {
			take(in, at + 1);
			in->swallowing = false;
			return STEP_SWALLOWED;
		}
	}
	bool torn = in->length > 0 && in->bytes[in->length - 1] == ESC;
	take(in, torn ? in->length - 1 : in->length);
	return STEP_MORE;
}

/* The terminal's own sequences first: the longest that matches. STEP_SWALLOWED: none does. */
static enum step step_learnt(struct input *in, bool waited, int *key)
{
	size_t best = 0;
	bool could_grow = false;

	for (size_t i = 0; i < in->learnt_count; i++) {
		size_t length = strlen(in->learnt[i].bytes);
		size_t both = length < in->length ? length : in->length;
		if (memcmp(in->learnt[i].bytes, in->bytes, both) != 0)
			continue;
		if (length > in->length)
			could_grow = true;
		else if (length > best) {
			best = length;
			*key = in->learnt[i].key;
		}
	}
	if (could_grow && !waited)
		return STEP_MORE;
	take(in, best);
	return best > 0 ? STEP_KEY : STEP_SWALLOWED;
}

/* Something that begins with ESC. */
static enum step step_escape(struct input *in, bool waited, int *key)
{
	enum step learnt = step_learnt(in, waited, key);

	if (learnt != STEP_SWALLOWED)
		return learnt;
	if (in->length < 2)
		return STEP_MORE;
	switch (in->bytes[1]) {
	case '[':
		return step_csi(in, key);
	case 'O':
		return step_ss3(in, key);
	case 'P':
	case 'X':
	case ']':
	case '^':
	case '_':
		take(in, 2);
		in->swallowing = true;
		return STEP_SWALLOWED;
	default: /* Esc, and then another key */
		take(in, 1);
		*key = SB_KEY_ESCAPE;
		return STEP_KEY;
	}
}

static int control_key(char byte)
{
	switch (byte) {
	case '\r':
	case '\n':
		return SB_KEY_ENTER;
	case '\t':
		return SB_KEY_TAB;
	case '\b':
	case 0x7F:
		return SB_KEY_BACKSPACE;
	default:
		return byte;
	}
}

static enum step step_character(struct input *in, int *key)
{
	unsigned char first = (unsigned char)in->bytes[0];
	char text[5] = { 0 };
	unsigned character;

	if (first < 0x20 || first == 0x7F) {
		*key = control_key(in->bytes[0]);
		take(in, 1);
		return STEP_KEY;
	}
	size_t want = first < 0xC2 || first > 0xF4 ? 1 : first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
	for (size_t i = 1; i < want; i++) {
		if (i == in->length)
			return STEP_MORE;
		if (((unsigned char)in->bytes[i] & 0xC0) != 0x80)
			want = i; /* broken off: what follows counts for itself */
	}
	memcpy(text, in->bytes, want);
	size_t got = sb_utf8_next(text, &character);
	take(in, got);
	*key = got == want && sb_glyph_safe(character) && character != 0xFFFD ? (int)character : SB_KEY_NONE;
	return STEP_KEY;
}

static enum step step_input(struct input *in, bool waited, int *key)
{
	if (in->swallowing)
		return step_string(in);
	if (in->after_escape && in->bytes[0] == '[' && in->length < sizeof in->bytes) {
		memmove(in->bytes + 1, in->bytes, in->length++);
		in->bytes[0] = ESC;
	}
	in->after_escape = false;
	if (in->skip > 0) {
		in->skip--;
		take(in, 1);
		return STEP_SWALLOWED;
	}
	return in->bytes[0] == ESC ? step_escape(in, waited, key) : step_character(in, key);
}

/* Nothing more came: an ESC alone is the key; half a sequence is no key. */
static int give_up(struct input *in)
{
	bool alone = in->length == 1 && in->bytes[0] == ESC && !in->swallowing;

	in->after_escape = alone;
	in->swallowing = false;
	in->length = in->skip = 0;
	return alone ? SB_KEY_ESCAPE : SB_KEY_NONE;
}

int sb_input_next(struct input *in, bool waited)
{
	while (in->length > 0) {
		int key = SB_KEY_NONE;
		enum step step = step_input(in, waited, &key);
		if (step == STEP_MORE)
			return waited ? give_up(in) : SB_KEY_NONE;
		if (key != SB_KEY_NONE)
			return key;
	}
	return waited ? give_up(in) : SB_KEY_NONE;
}
