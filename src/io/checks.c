/* The list behind `check`. Every kind is in it, so that a script sees that a limit was looked at and not only
 * that nothing was said of it.
 */
#include "io/checks.h"

#include "base/mem.h"
#include "draw/axis.h"
#include "io/acceptance.h"
#include "io/json.h"
#include "io/rows.h"
#include "model/repeats.h"

#include <stdio.h>
#include <string.h>

#include "rows_parts.h"

size_t sb_checks_list(const struct solution *s, struct check **out)
{
	struct check *list = sb_alloc((s->warning_count + WARNING_KINDS) * sizeof *list);
	size_t count = 0;

	for (int k = 0; k < WARNING_KINDS; k++) {
		size_t before = count;
		for (size_t i = 0; i < s->warning_count; i++) {
			const struct warning *w = &s->warnings[i];
			if (w->kind == (enum warning_kind)k && sb_warning_counts(w))
				list[count++] = (struct check){ w->kind, w->level, w };
		}
		if (count == before && (!sb_warning_sorts[k].event || sb_warning_sorts[k].joints))
			list[count++] = (struct check){ (enum warning_kind)k, LEVEL_OK, NULL };
	}
	*out = list;
	return count;
}

#define OK_TEXT 200

static const char *clearance_words(const struct surroundings *a, char to[OK_TEXT])
{
	bool limited = false;

	for (size_t i = 0; i < a->count; i++)
		limited |= a->obstacles[i].limited;
	if (!limited)
		return a->count ? "Not judged: the sheet asks for no clearance of any obstacle."
				: "Not judged: the sheet has no obstacles.";
	snprintf(to, OK_TEXT, "Nothing on the present path, by %s.", sb_hole_word(&a->hole));
	return to;
}

static const char *cover_words(const struct solution *s, char to[OK_TEXT])
{
	const struct surroundings *a = &s->around;
	double from, until;

	if (a->range_count == 0)
		return "Not judged: the sheet asks for no cover.";
	if (a->ground.count < 2)
		return "Not judged: the sheet has no ground line.";
	size_t unknown = sb_surroundings_unknown(a, &from, &until, 1);
	int end = snprintf(to, OK_TEXT, "Nothing on the present path, by %s", sb_hole_word(&a->hole));
	if (unknown)
		snprintf(to + end, OK_TEXT - (size_t)end,
			". Not judged from station %.1f to %.1f%s: ground.csv says nothing there.",
			sb_frame_typed(&s->frame, from), sb_frame_typed(&s->frame, until),
			unknown > 1 ? " and elsewhere" : "");
	else
		snprintf(to + end, OK_TEXT - (size_t)end, ".");
	return to;
}

/* Measured pressure needs no fluid to be judged; the limit needs ground. */
static const char *annular_words(const struct job *job, const struct solution *s)
{
	if (s->around.ground.count < 2)
		return "Not judged: the sheet has no ground line.";
	if (s->around.soil.count == 0)
		return "Not judged: the sheet has no layers of soil.";
	if (!s->around.hole.pilot_given)
		return "Not judged: the sheet does not say how wide the pilot hole is.";
	if (!sb_number_given(&job->fluid_weight))
		return "Nothing on the present path. Where nothing is measured nothing is judged: [fluid] weight is missing.";
	return "Nothing on the present path.";
}

static bool has_corridor(const struct job *job)
{
	return sb_number_given(&job->up) || sb_number_given(&job->down) || sb_number_given(&job->left) ||
		sb_number_given(&job->right) || job->range_count > 0;
}

static bool has_exit_window(const struct job *job)
{
	return sb_number_given(&job->exit_long) || sb_number_given(&job->exit_short) ||
		sb_number_given(&job->exit_left) || sb_number_given(&job->exit_right);
}

/* What is said of a kind with nothing to say; "not judged" where the contract sets no limit for it. As long
 * as there are kinds: each is named, so that a new one does not build before it was thought of here. */
static const char *ok_words(
	const struct job *job, const struct solution *s, enum warning_kind kind, char room[OK_TEXT])
{
	switch (kind) {
	case WARNING_CORRIDOR:
	case WARNING_LEAVES:
		if (!has_corridor(job))
			return "Not judged: the sheet sets no corridor.";
		break;
	case WARNING_EXIT:
		if (!has_exit_window(job))
			return "Not judged: the sheet sets no exit window.";
		break;
	case WARNING_JOINT_BEND:
		if (!sb_number_given(&job->joint_minimum))
			return "Not judged: the sheet sets no radius for one joint.";
		break;
	case WARNING_WINDOW_BEND:
		if (!sb_number_given(&job->window_minimum))
			return "Not judged: the sheet sets no radius over the window.";
		break;
	case WARNING_NO_FIX:
		if (!sb_number_given(&job->fix_every))
			return "Not judged: the sheet asks for none.";
		break;
	case WARNING_FIELD:
		if (!sb_number_given(&job->site_field) && !sb_number_given(&job->site_dip))
			return "Not judged: the sheet has no field for the site.";
		break;
	case WARNING_CLEARANCE:
	case WARNING_CLEARANCE_AHEAD:
		return clearance_words(&s->around, room);
	case WARNING_COVER:
	case WARNING_COVER_AHEAD:
		return cover_words(s, room);
	case WARNING_ANNULAR:
		return annular_words(job, s);
	case WARNING_FIX:
	case WARNING_RESPONSE:
	case WARNING_BLUNDER:
	case WARNING_MISSING:
	case WARNING_AZIMUTH:
	case WARNING_OPENING:
	case WARNING_RETURNS:
	case WARNING_RELEASE:
	case WARNING_PIPE_SHARE:
	case WARNING_PIPE_STRING:
	case WARNING_PULL_FORCE:
	case WARNING_COATING:
	case WARNING_KINDS:
		break;
	}
	return "Nothing on the present path.";
}

static void put_check(
	struct sb_json *j, const struct job *job, const struct solution *s, const struct check *c)
{
	const struct warning *w = c->warning;

	sb_json_object(j, NULL);
	sb_json_text(j, "kind", sb_warning_sorts[c->kind].name);
	sb_json_text(j, "level", sb_level_word(c->level));
	if (w) {
		sb_json_whole(j, "joint", w->worst_joint);
		sb_json_fixed(j, "station", sb_frame_typed(&s->frame, w->station_m), 6);
		rows_warning_values(j, w);
		sb_json_text(j, "text", w->text);
		sb_json_whole(j, "leg", w->leg);
		sb_json_bool(j, "open", w->open);
		sb_json_text_or_null(j, "acknowledged_by", w->acknowledged_by);
	} else {
		static const char *const nothing[] = { "joint", "station", "value", "limit" };
		char room[OK_TEXT];
		for (size_t i = 0; i < 4; i++)
			sb_json_null(j, nothing[i]);
		sb_json_text(j, "text", ok_words(job, s, c->kind, room));
		sb_json_null(j, "leg");
		sb_json_bool(j, "open", false);
		sb_json_null(j, "acknowledged_by");
	}
	sb_json_end(j);
}

/* How sure the bit's place is, at the contract's confidence. */
static void put_uncertainty(struct sb_json *j, const struct job *job, const struct solution *s)
{
	const struct frame *f = &s->frame;
	const struct bit *bit = &s->bit;
	double factor = s->uncertainty.line_factor;

	sb_json_object(j, "uncertainty");
	sb_json_typed(j, "confidence_percent", &job->confidence);
	sb_json_text(j, "judge", job->judge == JUDGE_MEAN ? "mean" : "confidence");
	sb_json_fixed(j, "along", sb_frame_typed(f, factor * bit->doubt.along_m), 6);
	sb_json_fixed(j, "across", sb_frame_typed(f, factor * bit->doubt.across_m), 6);
	sb_json_fixed(j, "up", sb_frame_typed(f, factor * bit->doubt.up_m), 6);
	sb_json_fixed(j, "chance_outside", bit->outside, 6);
	sb_json_end(j);
}

void sb_checks_json(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct sb_json j = { .text = *out };
	struct check *list;
	size_t count = sb_checks_list(s, &list);

	sb_json_object(&j, NULL);
	sb_json_text(&j, "level", sb_level_word(s->level));
	sb_json_array(&j, "checks");
	for (size_t i = 0; i < count; i++)
		put_check(&j, job, s, &list[i]);
	sb_json_end(&j);
	put_uncertainty(&j, job, s);
	sb_nonconformances_put(&j, job, s);
	sb_json_end(&j);
	sb_free(list);
	*out = j.text;
}

/* "joints 35-38 (worst 36)". */
static void joints_words(const struct warning *w, char to[64])
{
	if (w->last_joint == 0)
		snprintf(to, 64, "at the entry");
	else if (w->joint == w->last_joint)
		snprintf(to, 64, "joint %d", w->joint);
	else
		snprintf(to, 64, "joints %d-%d, worst %d", w->joint, w->last_joint, w->worst_joint);
}

static void put_text(
	struct sb_str *out, const struct job *job, const struct solution *s, const struct check *c)
{
	const struct warning *w = c->warning;
	char joints[64], station[SB_AXIS_TEXT];

	sb_str_add(out, "%-6s  %s", sb_level_word(c->level), sb_warning_sorts[c->kind].label);
	if (w == NULL) {
		char room[OK_TEXT];
		const char *words = ok_words(job, s, c->kind, room);
		if (strlen(words) + strlen(sb_warning_sorts[c->kind].label) + 10 <= 80) {
			sb_str_add(out, ": %s\n", words);
		} else {
			sb_str_add(out, "\n");
			sb_str_wrap(out, words, 8, 80);
		}
		return;
	}
	joints_words(w, joints);
	sb_axis_station(w->station_m, job->unit, 1, station);
	sb_str_add(out, ", %s, station %s%s", joints, station, w->open ? ", open" : "");
	if (w->acknowledged)
		sb_str_add(out, ", acknowledged by %.24s", w->acknowledged_by);
	sb_str_add(out, "\n");
	sb_str_wrap(out, w->text, 8, 80);
}

static void put_sure(struct sb_str *out, const struct job *job, const struct solution *s)
{
	int d = job->unit == UNIT_M ? 2 : 1;
	double factor = s->uncertainty.line_factor;

	if (!s->bit.known)
		return;
	sb_str_add(out, "The bit: give or take %.*f %s across, %.*f %s in height (%s %%).\n", d,
		sb_frame_typed(&s->frame, factor * s->bit.doubt.across_m), sb_unit_short(job->unit), d,
		sb_frame_typed(&s->frame, factor * s->bit.doubt.up_m), sb_unit_short(job->unit),
		job->confidence.text);
}

/* What readings taken again say of the noise that all doubts rest on. */
static void put_repeats(struct sb_str *out, const struct job *job, const struct solution *s)
{
	struct sb_str words = { 0 };

	if (sb_repeat_noise_words(job, s, &words))
		sb_str_add(out, "%s\n", sb_str_get(&words));
	sb_str_clear(&words);
}

/* Those that the engineer has to settle before the pilot can be accepted. */
static void put_breaches(struct sb_str *out, const struct job *job, const struct solution *s)
{
	size_t open = sb_nonconformances_open(job, s);

	if (open)
		sb_str_add(out, "%zu non-conformance%s open: see nonconformance.\n", open,
			open == 1 ? " is" : "s are");
}

void sb_checks_text(const struct job *job, const struct solution *s, struct sb_str *out)
{
	struct check *list;
	size_t count = sb_checks_list(s, &list);

	sb_str_add(out, "%s: %s\n", job->name, sb_level_word(s->level));
	for (size_t i = 0; i < count; i++)
		put_text(out, job, s, &list[i]);
	put_sure(out, job, s);
	put_repeats(out, job, s);
	put_breaches(out, job, s);
	sb_free(list);
}
