/* Reading the pushes of a joint. What is wrong is said with the push in which it is, since a hand wrote them
 * one after another. */
#include "model/pushes.h"

#include <string.h>

static const char form[] = "Write FROM:LENGTH@FACE, like 0:8@60; 20:6@75.";

/* One of the three numbers, from `text` up to `end`. */
static int take_number(const char *text, const char *end, const char *what, size_t nth, struct number *out,
	struct sb_err *err)
{
	char word[SB_NUMBER_TEXT + 8];
	size_t length = (size_t)(end - text);

	if (length >= sizeof word)
		return sb_fail(err, SB_FORMAT, "pushes: the %s of push %zu is too long. %s", what, nth, form);
	memcpy(word, text, length);
	word[length] = '\0';
	if (sb_number_parse(word, out, NULL))
		return sb_fail(err, SB_FORMAT, "pushes: the %s of push %zu, '%s', is not a number. %s", what,
			nth, word, form);
	return 0;
}

static int check(const struct noted_push *p, size_t nth, struct sb_err *err)
{
	if (p->from.value < 0)
		return sb_fail(err, SB_RANGE,
			"pushes: push %zu begins at %s, before the joint does: FROM counts from the joint's start.",
			nth, p->from.text);
	if (!(p->length.value > 0))
		return sb_fail(err, SB_RANGE,
			"pushes: push %zu is %s long: leave out a push that was not made.", nth,
			p->length.text);
	if (!(p->face.value >= 0 && p->face.value <= 360))
		return sb_fail(err, SB_RANGE,
			"pushes: push %zu has a tool face of %s: it lies between 0 and 360 degrees.", nth,
			p->face.text);
	return 0;
}

/* The push that lies between text and end. */
static int take_push(
	const char *text, const char *end, size_t nth, struct noted_push *out, struct sb_err *err)
{
	const char *colon = memchr(text, ':', (size_t)(end - text));
	const char *at = memchr(text, '@', (size_t)(end - text));

	if (colon == NULL || at == NULL || at < colon)
		return sb_fail(err, SB_FORMAT, "pushes: push %zu, '%.*s', cannot be understood. %s", nth,
			end - text > 40 ? 40 : (int)(end - text), text, form);
	if (take_number(text, colon, "beginning", nth, &out->from, err) ||
		take_number(colon + 1, at, "length", nth, &out->length, err) ||
		take_number(at + 1, end, "tool face", nth, &out->face, err))
		return -1;
	return check(out, nth, err);
}

static int take_next(const char *text, const char *end, struct pushes *out, struct sb_err *err)
{
	if (out->count == SB_PUSHES)
		return sb_fail(err, SB_RANGE, "pushes: there are more than %d.", SB_PUSHES);
	struct noted_push *p = &out->list[out->count];
	if (take_push(text, end, out->count + 1, p, err))
		return -1;
	double before = sb_pushes_end(out), touch = 1e-9 * (1 + before);
	if (p->from.value < before - touch)
		return sb_fail(err, SB_RANGE,
			"pushes: push %zu begins at %s, but push %zu ends at %.10g. Write them in order, without an overlap.",
			out->count + 1, p->from.text, out->count, before);
	out->count++;
	return 0;
}

int sb_pushes_parse(const char *text, struct pushes *out, struct sb_err *err)
{
	out->count = 0;
	while (*text) {
		const char *end = text + strcspn(text, ";");
		text += strspn(text, " \t");
		/* a ; at the end does no harm */
		if (text < end && take_next(text, end, out, err))
			return -1;
		text = *end ? end + 1 : end;
	}
	return 0;
}

double sb_pushes_slid(const struct pushes *p)
{
	double slid = 0;

	for (size_t i = 0; i < p->count; i++)
		slid += p->list[i].length.value;
	return slid;
}

double sb_pushes_end(const struct pushes *p)
{
	const struct noted_push *last = p->count ? &p->list[p->count - 1] : NULL;

	return last ? last->from.value + last->length.value : 0;
}
