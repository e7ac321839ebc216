/* The stretches of a joint. Pushes say where each slide was; a length slid alone counts as made in even
 * pushes all along the joint, which is how most hands do it; a blank is a rotated joint where the hand writes
 * slides down, and says nothing where he does not. */
#include "model/slides.h"

#include "geom/angle.h"

#include <math.h>
#include <string.h>

bool sb_slides_written(const struct reading *r)
{
	return sb_number_given(&r->slid) || r->pushes[0] != '\0';
}

static int decimals_of(const struct number *n)
{
	const char *point = strchr(n->text, '.');

	return point ? (int)strlen(point + 1) : 0;
}

struct number sb_slides_total(const struct reading *r)
{
	struct pushes p;
	int decimals = 0;

	if (sb_number_given(&r->slid) || r->pushes[0] == '\0' || sb_pushes_parse(r->pushes, &p, NULL))
		return r->slid;
	for (size_t i = 0; i < p.count; i++)
		if (decimals_of(&p.list[i].length) > decimals)
			decimals = decimals_of(&p.list[i].length);
	return sb_number_of(sb_pushes_slid(&p), decimals > 6 ? 6 : decimals);
}

int sb_slides_check(const struct reading *r, struct sb_err *err)
{
	struct pushes p;

	if (sb_pushes_parse(r->pushes, &p, err))
		return -1;
	if (p.count == 0)
		return 0;
	double end = sb_pushes_end(&p), slid = sb_pushes_slid(&p);
	if (sb_number_given(&r->joint_length) && end > r->joint_length.value * (1 + 1e-9))
		return sb_fail(err, SB_RANGE,
			"pushes: push %zu ends at %.10g, past the end of the joint, which is %s long.",
			p.count, end, r->joint_length.text);
	double touch = 0.5 * pow(10, -decimals_of(&r->slid)) + 1e-9;
	if (sb_number_given(&r->slid) && fabs(slid - r->slid.value) > touch)
		return sb_fail(err, SB_RANGE,
			"pushes: together they are %.10g, but %s is written as slid. Put one of them right, or leave slid blank.",
			slid, r->slid.text);
	return 0;
}

static void add(struct stretch *out, size_t *count, double from_m, double to_m, double slid_m, double face)
{
	if (to_m - from_m > 1e-9)
		out[(*count)++] = (struct stretch){ from_m, to_m, slid_m, slid_m > 0 ? face : 0 };
}

static size_t from_pushes(
	const struct reading *r, const struct frame *f, double length_m, struct stretch *out)
{
	struct pushes p;
	size_t count = 0;
	double at = 0;

	if (sb_slides_check(r, NULL) || sb_pushes_parse(r->pushes, &p, NULL))
		return 0; /* no act lets it in */
	for (size_t i = 0; i < p.count; i++) {
		double from = sb_frame_metres(f, p.list[i].from.value);
		double to = fmin(from + sb_frame_metres(f, p.list[i].length.value), length_m);
		add(out, &count, at, from, 0, 0);
		add(out, &count, from, to, to - from, sb_rad(p.list[i].face.value) + f->tool_face_offset_rad);
		at = fmax(to, at);
	}
	add(out, &count, at, length_m, 0, 0);
	return count;
}

size_t sb_slides_of(
	const struct reading *r, const struct frame *f, bool blank_is_none, struct stretch out[SB_STRETCHES])
{
	double length_m = sb_frame_metres(f, r->joint_length.value);
	double slid_m = fmin(sb_frame_metres(f, r->slid.value), length_m);
	size_t count = 0;

	if (r->pushes[0] != '\0')
		return from_pushes(r, f, length_m, out);
	if ((!sb_number_given(&r->slid) && !blank_is_none) || (slid_m > 0 && !sb_number_given(&r->tool_face)))
		return 0;
	add(out, &count, 0, length_m, slid_m, sb_rad(r->tool_face.value) + f->tool_face_offset_rad);
	return count;
}

void sb_slides_rate(const struct ground_gives *g, const struct stretch *s, double *up, double *right)
{
	double slid = s->slid_m / (s->to_m - s->from_m), c = cos(s->face_rad), z = sin(s->face_rad);

	*up = slid * (g->along * c - g->across * z) + (1 - slid) * g->drift_up;
	*right = slid * (g->along * z + g->across * c) + (1 - slid) * g->drift_right;
}
