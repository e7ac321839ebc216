/* From the bytes that a terminal sends to keys.
 *
 * Whatever is not understood is swallowed whole: a function key of some other terminal, a mouse report or
 * the brackets around a paste must never leave digits in a field. Bytes may come in any pieces.
 */
#ifndef UI_INPUT_H
#define UI_INPUT_H

#include <stdbool.h>
#include <stddef.h>

#define INPUT_LEARNT 64

struct input {
	char bytes[512]; /* come, not yet understood */
	size_t length;
	size_t skip;	   /* characters still to be swallowed after a sequence */
	bool swallowing;   /* inside a string sequence without end so far */
	bool after_escape; /* the last key was Esc alone: a '[' now is the rest of a torn sequence */
	struct {
		char bytes[16];
		int key;
	} learnt[INPUT_LEARNT];
	size_t learnt_count;
};

/* A sequence of the terminal's own description, beside those that nearly all share. One that does not
 * begin with ESC, or is longer than 15 bytes, is left out. */
void sb_input_learn(struct input *in, const char *bytes, int key);

/* Takes bytes in; those that find no room are lost (512 are room for any paste of a number). */
void sb_input_add(struct input *in, const char *bytes, size_t length);

/* The next key, SB_KEY_NONE when there is none (yet).
 * Given:    waited   true: nothing more came for a while, so that an ESC alone is the Esc key and half a
 *                    sequence is dropped. */
int sb_input_next(struct input *in, bool waited);

/* Whether bytes wait for their rest. */
bool sb_input_waits(const struct input *in);

#endif
