/* The choice between the ways to the azimuth: asked at the foot of the screen, kept as a change of settings.
 */
#include "base/str.h"
#include "ui/app.h"
#include "ui/azimuth.h"
#include "ui/entry.h"
#include "ui/prompt.h"

#include <math.h>
#include <stdio.h>

int sb_change_from(const struct job *job, const char *typed, int *joint, struct sb_err *err)
{
	int next = sb_job_in_ground(job) + 1;
	struct number n;

	if (sb_number_parse(typed, &n, err))
		return sb_fail_within(err, "from joint: ");
	if (n.value != floor(n.value) || n.value < 0 || n.value > next)
		return sb_fail(err, SB_RANGE,
			"From joint %.20s cannot be: 0 to %d is right, and %d is the next joint: what is in the ground stays.",
			typed, next, next);
	*joint = (int)n.value;
	return 0;
}

static void set(struct change *c, const char *key, const char *value, int from)
{
	*c = (struct change){ .section = "azimuth", .from_joint = from };
	sb_copy(c->key, sizeof c->key, key);
	sb_copy(c->value, sizeof c->value, value);
}

/* The chain that is meant where the readings referred to the bore is the magnetic one. */
static const char *chain_reference(const struct job *job)
{
	struct job as = sb_frame_settings(job, NULL);

	return as.reference == REFERENCE_GRID ? "grid" : as.reference == REFERENCE_TRUE ? "true" : "magnetic";
}

static int take_choice(const struct job *job, const struct form *given, struct change *c, struct sb_err *err)
{
	const char *holds = sb_form_text(given, "holds"), *declination = sb_form_text(given, "declination");
	int from = 0;

	if (sb_change_from(job, sb_form_text(given, "from"), &from, err))
		return -1;
	if (sb_same(holds, "chain"))
		set(c, "reference", chain_reference(job), from);
	else if (sb_same(holds, "tool"))
		set(c, "reference", "bore", from);
	else if (declination[0])
		set(c, "declination", declination, from);
	else
		return sb_fail(err, SB_USAGE, "Type the declination that holds.");
	return 0;
}

static enum follow settle_it(struct view *v, const struct form *given, int64_t subject)
{
	struct change c = { 0 };
	struct sb_err err = { 0 };

	(void)subject;
	if (take_choice(v->job, given, &c, &err) ||
		sb_store_change(
			v->store, sb_form_text(given, "who"), &c, 1, sb_form_text(given, "reason"), &err)) {
		sb_app_fail(v, &err);
		return FOLLOW_PASS;
	}
	const struct solution *s = sb_store_solution(v->store);
	if (s->open[WARNING_AZIMUTH] >= 0)
		sb_app_say(v, LEVEL_WATCH,
			"On disk. With it the two ways still differ by %.2f degrees: the watch stays.",
			s->warnings[s->open[WARNING_AZIMUTH]].value);
	else
		sb_app_say(v, LEVEL_OK, "On disk: settled, from joint %d on.", c.from_joint);
	return FOLLOW_JOB_CHANGED;
}

enum follow sb_azimuth_settle(struct view *v, double declination)
{
	struct prompt p = { .answer = settle_it };
	struct form_field holds = { .name = "holds",
		.label = "what holds",
		.kind = ENTRY_CHOICE,
		.width = 12,
		.choices = "chain|tool|declination",
		.required = true };
	struct form_field other = { .name = "declination",
		.label = "declination",
		.unit = "deg, if that holds",
		.kind = ENTRY_NUMBER,
		.width = 12 };
	struct form_field from = {
		.name = "from", .label = "from joint", .kind = ENTRY_NUMBER, .width = 12, .required = true
	};
	char found[SB_NUMBER_TEXT] = "", next[16];

	if (!isnan(declination))
		sb_copy(found, sizeof found, sb_number_of(declination, 2).text);
	snprintf(next, sizeof next, "%d", sb_job_in_ground(v->job) + 1);
	snprintf(p.question, sizeof p.question,
		"Which holds: the chain of declination and convergence, the tool on the staked line, or another declination? "
		"It holds from the next joint on, or is redone from an earlier one. Why?");
	sb_form_add(&p.form, holds, "");
	sb_form_add(&p.form, other, found);
	sb_form_add(&p.form, from, next);
	sb_entry_words(&p.form, "reason", "why", 60, true);
	sb_entry_who(&p.form, v);
	return sb_prompt_ask(v, &p);
}
