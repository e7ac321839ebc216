/* The azimuth chain in words. A sign is never shown bare: it is a side of true north, or a sum that is added
 * or taken off. */
#include "io/links.h"

#include "base/str.h"
#include "geom/angle.h"
#include "io/earth.h"

#include <math.h>
#include <stdio.h>

void sb_links_source(const struct job *job, const struct reading *r, const char *section, const char *key,
	char text[SB_LINK_SOURCE])
{
	const struct change *c = sb_azimuth_change(job, r, section, key);

	if (c == NULL)
		snprintf(text, SB_LINK_SOURCE, "job sheet");
	else
		snprintf(text, SB_LINK_SOURCE, "since joint %d, by %s", c->from_joint, c->fact.who);
}

/* "add 3.40 degrees", "take off 1.78 degrees", "add nothing" */
static void turn_words(double degrees, char text[48])
{
	double shown = round(degrees * 100) / 100;

	if (shown == 0)
		snprintf(text, 48, "add nothing");
	else
		snprintf(text, 48, "%s %.2f degrees", shown < 0 ? "take off" : "add", fabs(shown));
}

struct chain {
	const struct job *job;	   /* its changes */
	const struct job *as;	   /* the settings in force */
	const struct frame *frame; /* likewise */
	const struct reading *r;
	struct azimuth_link *out;
	size_t count;
};

static struct azimuth_link *next_link(
	struct chain *c, const char *label, const char *section, const char *key)
{
	struct azimuth_link *l = &c->out[c->count++];

	*l = (struct azimuth_link){ .label = label };
	if (key)
		sb_links_source(c->job, c->r, section, key, l->source);
	return l;
}

static void add_reference(struct chain *c)
{
	static const char *const words[] = { "grid north", "true north", "magnetic north",
		"the bore: what the tool read on the staked line stands for the line's bearing" };

	struct azimuth_link *l = next_link(c, "reading", "azimuth", "reference");
	snprintf(l->words, sizeof l->words, "refers to %s", words[c->as->reference]);
}

static void add_correction(struct chain *c)
{
	struct azimuth_link *l = next_link(c, "tool correction", "tool", "azimuth_correction");
	char turn[48];

	bool unused = c->as->reference == REFERENCE_BORE && c->as->azimuth_correction.value != 0;
	turn_words(c->as->azimuth_correction.value, turn);
	snprintf(l->words, sizeof l->words, "%s%s", turn,
		unused ? "; not used: the line was read by the same tool" : "");
}

static void add_north(struct chain *c, const char *key, const struct number *n, bool used,
	void (*words)(double radians, char text[SB_EARTH_WORDS]))
{
	struct azimuth_link *l = next_link(c, key, "azimuth", key);
	char said[SB_EARTH_WORDS];

	if (!sb_number_given(n)) {
		snprintf(l->words, sizeof l->words, "not given%s", used ? "" : ", and not used");
		l->source[0] = '\0';
		return;
	}
	words(sb_rad(n->value), said);
	snprintf(l->words, sizeof l->words, "%s%s", said, used ? "" : "; kept to compare");
}

static void add_line(struct chain *c)
{
	struct azimuth_link *l = next_link(c, "tool on the line", "azimuth", "bore_azimuth_read");

	if (sb_number_given(&c->as->bore_azimuth_read)) {
		snprintf(l->words, sizeof l->words, "read %s where the line bears %.2f on the grid%s",
			c->as->bore_azimuth_read.text, sb_deg(sb_wrap_turn(c->frame->design_bearing_rad)),
			c->as->reference == REFERENCE_BORE ? "" : "; kept to compare");
		return;
	}
	snprintf(l->words, sizeof l->words, "not laid on the staked line: nothing to compare with");
	l->source[0] = '\0';
}

static void add_fixes(struct chain *c)
{
	const struct adjustment *a = sb_job_adjustment(c->job);
	char turn[48];

	if (a == NULL)
		return;
	struct azimuth_link *l = next_link(c, "fixes", NULL, NULL);
	turn_words(a->azimuth.value, turn);
	snprintf(l->words, sizeof l->words, "%s: the correction that the fixes proposed", turn);
	snprintf(l->source, sizeof l->source, "taken by %s", a->fact.who);
}

static void add_sum(struct chain *c)
{
	struct azimuth_link *l = next_link(c, "to the grid", NULL, NULL);
	char turn[48];

	double degrees = sb_deg(sb_wrap_half(c->frame->azimuth_turn_rad));
	turn_words(degrees, turn);
	snprintf(l->words, sizeof l->words, "%s %s what the tool shows", turn,
		degrees < -0.005 ? "from" : "to");
	l->sum = true;
}

size_t sb_links(const struct job *job, const struct frame *base, const struct reading *r,
	struct azimuth_link out[SB_LINKS])
{
	struct job as = sb_frame_settings(job, r);
	struct frame frame;
	struct chain c = { job, &as, &frame, r, out, 0 };
	bool magnetic = as.reference == REFERENCE_MAGNETIC;

	sb_frame_for(job, base, r, &frame);
	add_reference(&c);
	add_correction(&c);
	add_north(&c, "declination", &as.declination, magnetic, sb_earth_declination_words);
	add_north(&c, "convergence", &as.convergence, magnetic || as.reference == REFERENCE_TRUE,
		sb_earth_convergence_words);
	add_line(&c);
	add_fixes(&c);
	add_sum(&c);
	return c.count;
}

/* ---- what changed ---- */

/* Whether a newer one of the same setting holds as well. */
static bool is_newest(const struct job *job, const struct reading *r, const struct change *c)
{
	return sb_azimuth_change(job, r, c->section, c->key) == c;
}

size_t sb_links_changed(const struct job *job, const struct reading *r, struct sb_str *out)
{
	size_t count = 0;

	for (size_t i = job->change_count; i-- > 0;) {
		const struct change *c = &job->changes[i];
		if (!is_newest(job, r, c))
			continue;
		sb_str_add(out, "%s%s %s %s, since joint %d, by %s", count ? "\n" : "", c->section, c->key,
			c->value, c->from_joint, c->fact.who);
		count++;
	}
	return count;
}

size_t sb_links_acts(const struct job *job, const struct change *out[], size_t most)
{
	size_t count = 0;

	for (size_t i = job->change_count; i-- > 0;) {
		if (i > 0 && job->changes[i - 1].fact.act == job->changes[i].fact.act)
			continue;
		if (count < most)
			out[count] = &job->changes[i];
		count++;
	}
	return count;
}
