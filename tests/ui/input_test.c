/* From bytes to keys: nothing that is not understood may leave a digit behind. */
#include "support/near.h"
#include "ui/input.h"

#include "base/str.h"
#include "ui/key.h"

#include <stdlib.h>
#include <string.h>

/* All keys of the bytes, as words with blanks between; they come in pieces of `piece` bytes. */
static const char *keys_in_pieces(struct input *in, const char *bytes, size_t length, size_t piece)
{
	static struct sb_str words;
	char name[SB_KEY_TEXT];

	sb_str_clear(&words);
	for (size_t at = 0; at < length || sb_input_waits(in); at += piece) {
		bool more = at < length;
		if (more)
			sb_input_add(in, bytes + at, length - at < piece ? length - at : piece);
		for (int key; (key = sb_input_next(in, !more)) != SB_KEY_NONE;)
			sb_str_add(&words, "%s%s", words.length ? " " : "", sb_key_name(key, name));
	}
	return sb_str_get(&words);
}

static const char *keys_of(const char *bytes)
{
	static struct input in;

	memset(&in, 0, sizeof in);
	return keys_in_pieces(&in, bytes, strlen(bytes), strlen(bytes));
}

static const struct {
	const char *bytes, *keys;
} known[] = {
	{ "88.1", "8 8 . 1" },
	{ "\r", "Enter" },
	{ "\n", "Enter" },
	{ "\t\033[Z", "Tab Shift-Tab" },
	{ "\b\177", "Backspace Backspace" },
	{ "\003\014", "Ctrl-C Ctrl-L" },
	{ "\033[A\033OB\033[C\033OD", "Up Down Right Left" },
	{ "\033[H\033[F\033[1~\033[4~\033[7~\033[8~", "Home End Home End Home End" },
	{ "\033[5~\033[6~\033[2~\033[3~", "PgUp PgDn Ins Del" },
	{ "\033OP\033[11~\033[[A\033[15~\033[24~", "F1 F1 F1 F5 F12" },
	/* the keypad in application mode: what is printed on its keys */
	{ "\033Op\033Oq\033Or\033Os\033Ot\033Ou\033Ov\033Ow\033Ox\033Oy", "0 1 2 3 4 5 6 7 8 9" },
	{ "\033On\033Ol\033Om\033Ok\033OM", ". , - + Enter" },
	{ "\303\251", "\303\251" },
	{ "\342\202\254", "\342\202\254" },
};

static void what_is_known_becomes_its_key(void **state)
{
	(void)state;
	for (size_t i = 0; i < sizeof known / sizeof *known; i++)
		assert_string_equal(keys_of(known[i].bytes), known[i].keys);
}

static void bytes_may_come_one_by_one(void **state)
{
	(void)state;
	for (size_t i = 0; i < sizeof known / sizeof *known; i++) {
		struct input in = { 0 };
		assert_string_equal(
			keys_in_pieces(&in, known[i].bytes, strlen(known[i].bytes), 1), known[i].keys);
	}
}

static void what_is_not_known_is_swallowed_whole(void **state)
{
	static const char *const sequences[] = {
		"\033[1;5A",	     /* with Ctrl */
		"\033[200~",	     /* the bracket before a paste */
		"\033[<0;5;5M",	     /* a mouse report */
		"\033[<0;5;5m",	     /* likewise */
		"\033[M !!",	     /* the oldest form: three characters follow */
		"\033[I",	     /* focus came */
		"\033[99;99;99u",    /* keys in another convention */
		"\033[?62;22c",	     /* what the terminal is */
		"\033O5P",	     /* a function key with Ctrl */
		"\033Oz",	     /* no key that we know */
		"\033]0;88.1\a",     /* a window's title */
		"\033]0;88.1\033\\", /* likewise */
		"\033P1$r88\033\\",  /* an answer to a question that nobody asked */
		"\033[35~",	     /* a number without a key */
		"\300\201\376",	     /* no characters at all */
		"\302\205",	     /* a control among the characters */
		"\342\200\256",	     /* one that turns text round */
	};

	(void)state;
	for (size_t i = 0; i < sizeof sequences / sizeof *sequences; i++) {
		char bytes[64];
		snprintf(bytes, sizeof bytes, "7%s8", sequences[i]);
		assert_string_equal(keys_of(bytes), "7 8");
		struct input in = { 0 };
		assert_string_equal(keys_in_pieces(&in, bytes, strlen(bytes), 1), "7 8");
	}
}

static void an_escape_alone_is_the_key_once_nothing_more_came(void **state)
{
	struct input in = { 0 };

	(void)state;
	sb_input_add(&in, "\033", 1);
	assert_int_equal(sb_input_next(&in, false), SB_KEY_NONE);
	assert_true(sb_input_waits(&in));
	assert_int_equal(sb_input_next(&in, true), SB_KEY_ESCAPE);
	assert_false(sb_input_waits(&in));
}

static void an_escape_typed_ahead_of_another_key_is_not_lost(void **state)
{
	(void)state;
	assert_string_equal(keys_of("\033q"), "Esc Q");
	assert_string_equal(keys_of("\033\0335"), "Esc Esc 5");
	assert_string_equal(keys_of("\033\033[A"), "Esc Up");
}

static void a_sequence_torn_by_a_slow_link_types_nothing(void **state)
{
	struct input in = { 0 };

	(void)state;
	sb_input_add(&in, "\033", 1);
	assert_int_equal(sb_input_next(&in, true), SB_KEY_ESCAPE);
	sb_input_add(&in, "[11~5", 5);
	assert_int_equal(sb_input_next(&in, false), SB_KEY_F1);
	assert_int_equal(sb_input_next(&in, false), '5');
}

static void half_a_sequence_is_dropped_once_nothing_more_came(void **state)
{
	struct input in = { 0 };

	(void)state;
	sb_input_add(&in, "\033[12", 4);
	assert_int_equal(sb_input_next(&in, false), SB_KEY_NONE);
	assert_int_equal(sb_input_next(&in, true), SB_KEY_NONE);
	sb_input_add(&in, "5", 1);
	assert_int_equal(sb_input_next(&in, false), '5');
}

static void a_broken_sequence_ends_where_the_next_begins(void **state)
{
	(void)state;
	assert_string_equal(keys_of("\033[12\033[A5"), "Up 5");
	assert_string_equal(keys_of("\033[12\r"), "Enter");
}

static void the_terminals_own_sequences_go_first(void **state)
{
	struct input in = { 0 };

	(void)state;
	sb_input_learn(&in, "\033OA", SB_KEY_PAGE_UP);
	sb_input_learn(&in, "\033?x1", SB_KEY_F2);
	sb_input_learn(&in, "\033?x1y", SB_KEY_F3);
	sb_input_learn(&in, "x", SB_KEY_F4);	   /* not a sequence: left out */
	sb_input_learn(&in, "\033Ox", SB_KEY_F10); /* the keypad's 8, whatever else it is called */
	assert_string_equal(keys_in_pieces(&in, "\033OA", 3, 3), "PgUp");
	assert_string_equal(keys_in_pieces(&in, "\033?x1y", 5, 1), "F3");
	assert_string_equal(keys_in_pieces(&in, "x", 1, 1), "X");
	assert_string_equal(keys_in_pieces(&in, "\033Ox", 3, 3), "8");
}

/* Any bytes in any pieces: never a key that is no key, never an end that does not come. */
static void noise_is_survived(void **state)
{
	(void)state;
	srand(7);
	for (int round = 0; round < 2000; round++) {
		struct input in = { 0 };
		char bytes[64];
		static const char likely[] = "\033\033\033[[O]P;~M1m\\\a\r8";
		for (size_t i = 0; i < sizeof bytes; i++) {
			char any = (char)(rand() % 256 - 128);
			bytes[i] = rand() % 3 ? likely[(size_t)rand() % (sizeof likely - 1)] : any;
		}
		keys_in_pieces(&in, bytes, sizeof bytes, 1 + (size_t)rand() % 9);
		assert_false(sb_input_waits(&in));
	}
}

static void more_than_fits_is_cut_off_and_typing_goes_on(void **state)
{
	struct input in = { 0 };
	char bytes[2000];

	(void)state;
	memset(bytes, '5', sizeof bytes);
	sb_input_add(&in, bytes, sizeof bytes);
	int count = 0;
	while (sb_input_next(&in, false) == '5')
		count++;
	assert_int_equal(count, sizeof in.bytes);
	memcpy(bytes, "\033[", 2); /* a sequence without end */
	sb_input_add(&in, bytes, sizeof bytes);
	while (sb_input_next(&in, true) != SB_KEY_NONE)
		continue;
	sb_input_add(&in, "7", 1);
	assert_int_equal(sb_input_next(&in, false), '7');
}

int main(void)
{
	const struct CMUnitTest tests[] = {
		cmocka_unit_test(what_is_known_becomes_its_key),
		cmocka_unit_test(bytes_may_come_one_by_one),
		cmocka_unit_test(what_is_not_known_is_swallowed_whole),
		cmocka_unit_test(an_escape_alone_is_the_key_once_nothing_more_came),
		cmocka_unit_test(an_escape_typed_ahead_of_another_key_is_not_lost),
		cmocka_unit_test(a_sequence_torn_by_a_slow_link_types_nothing),
		cmocka_unit_test(half_a_sequence_is_dropped_once_nothing_more_came),
		cmocka_unit_test(a_broken_sequence_ends_where_the_next_begins),
		cmocka_unit_test(the_terminals_own_sequences_go_first),
		cmocka_unit_test(noise_is_survived),
		cmocka_unit_test(more_than_fits_is_cut_off_and_typing_goes_on),
	};
	return run_tests(tests);
}
