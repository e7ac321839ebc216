/* Fixes in words, for the screen, the commands and the warnings. */
#include "model/fixes.h"

#include "geom/angle.h"
#include "geom/odds.h"
#include "model/fact.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fixes_parts.h"

static const char *const by[] = { "the coil", "the beacon", "the walk-over", "the gyro", "the exit survey" };

void sb_fixes_name(const struct job *job, const struct fix *f, struct sb_str *out)
{
	sb_str_add(out, "%s at %s %s (fix %lld)", by[f->kind], f->depth.text, sb_unit_short(job->unit),
		(long long)f->fact.id);
}

static int decimals(const struct setup *s)
{
	return s->job->unit == UNIT_M ? 2 : 1;
}

/* "1.2 ft"; what is less than the last digit shown is said as that. */
static void put_length(const struct setup *s, double m, struct sb_str *out)
{
	sb_str_add(
		out, "%.*f %s", decimals(s), fabs(sb_frame_typed(s->frame, m)), sb_unit_short(s->job->unit));
}

void sb_fixes_off(
	const struct setup *s, const bool seen[FIX_AXES], const double off_m[FIX_AXES], struct sb_str *out)
{
	static const int order[] = { FIX_ACROSS, FIX_UP, FIX_ALONG };
	static const char *const more[] = { "further on", "right", "high" },
				 *const less[] = { "short", "left", "low" };
	int said = 0, left = seen[0] + seen[1] + seen[2];

	for (int i = 0; i < FIX_AXES; i++) {
		int k = order[i];
		if (!seen[k])
			continue;
		left--;
		sb_str_add(out, "%s", said++ == 0 ? "" : left ? ", " : " and ");
		put_length(s, off_m[k], out);
		sb_str_add(out, " %s", off_m[k] < 0 ? less[k] : more[k]);
	}
}

static void put_claims(
	const struct setup *s, const struct fixes *f, const struct fix_view *v, struct sb_str *out)
{
	static const int order[] = { FIX_ACROSS, FIX_UP, FIX_ALONG };
	static const char *const way[] = { "along", "across", "in height" };
	bool first = true;

	for (int i = 0; i < FIX_AXES; i++) {
		int k = order[i];
		if (!v->seen[k])
			continue;
		sb_str_add(out, "%s", first ? "" : ", ");
		put_length(s, f->factor * v->both_sigma_m[k], out);
		sb_str_add(out, " %s", way[k]);
		first = false;
	}
}

static void put_chance(double chance, struct sb_str *out)
{
	if (chance < 1e-6)
		sb_str_add(out, "less than one in a million");
	else
		sb_str_add(out, "%.2g %%", 100 * chance);
}

static void say_no_place(const struct fix_view *v, struct sb_str *out)
{
	switch (v->standing) {
	case FIX_PULLED_BACK:
		sb_str_add(out,
			" was taken on a stretch that was pulled back since: it says nothing of this hole.");
		return;
	case FIX_BEYOND:
		sb_str_add(out,
			" lies past the bit: the joints are shorter than when it was taken. Check its depth.");
		return;
	case FIX_AT_ENTRY:
		sb_str_add(
			out, " lies at the entry, where the path begins: it says nothing of the readings.");
		return;
	case FIX_NO_PATH:
	case FIX_STANDS:
	case FIX_ASIDE:
		break;
	}
	sb_str_add(out, " cannot be held against the path: nothing was read yet.");
}

/* " says that the bore came out 3.2 ft long, 0.4 ft right and 0.1 ft low of the planned exit point." */
static void say_exit(const struct setup *s, const struct fix_view *v, struct sb_str *out)
{
	static const char *const more[] = { "long", "right", "high" },
				 *const less[] = { "short", "left", "low" };
	const struct design *d = s->design;
	double off[FIX_AXES];
	int left = v->seen[0] + v->seen[1] + v->seen[2];

	off[FIX_ALONG] = sb_design_station(d, v->fixed, v->station_m, &off[FIX_ACROSS]) - d->length_m;
	off[FIX_UP] = v->fixed.u - d->exit_elevation_m;
	sb_str_add(out, " says that the bore came out ");
	for (int k = 0, said = 0; k < FIX_AXES; k++) {
		if (!v->seen[k])
			continue;
		left--;
		sb_str_add(out, "%s", said++ == 0 ? "" : left ? ", " : " and ");
		put_length(s, off[k], out);
		sb_str_add(out, " %s", off[k] < 0 ? less[k] : more[k]);
	}
	sb_str_add(out, " of the planned exit point.");
}

void sb_fixes_say(const struct setup *s, const struct fixes *f, const struct fix_view *v, struct sb_str *out)
{
	const struct fix *fix = sb_job_fix(s->job, v->fix);
	size_t begin = out->length;
	bool corrected = sb_job_adjustment(s->job) != NULL;

	sb_fixes_name(s->job, fix, out);
	if (out->text[begin] >= 'a')
		out->text[begin] = (char)(out->text[begin] - 'a' + 'A');
	if (v->standing != FIX_STANDS && v->standing != FIX_ASIDE) {
		say_no_place(v, out);
		return;
	}
	if (fix->kind == FIX_EXIT)
		say_exit(s, v, out);
	sb_str_add(out, "%s", fix->kind == FIX_EXIT ? " It puts the hole " : " puts the hole ");
	sb_fixes_off(s, v->seen, v->off_m, out);
	sb_str_add(out, " of where the %s it; both together claim give or take ",
		corrected ? "corrected path has" : "readings put");
	put_claims(s, f, v, out);
	sb_str_add(out, " (%.3g %%): ", 100 * f->confidence);
	sb_str_add(out, v->agrees ? "they agree." : "they do not agree (by chance: ");
	if (!v->agrees) {
		put_chance(v->probability, out);
		sb_str_add(out, ").");
	}
	if (v->standing == FIX_ASIDE)
		sb_str_add(out, " It is set aside.");
}

const char *sb_fixes_verdict(const struct fix_view *v)
{
	switch (v->standing) {
	case FIX_STANDS:
		return v->agrees ? "agrees" : "does not agree";
	case FIX_ASIDE:
		return "set aside";
	case FIX_PULLED_BACK:
		return "pulled back";
	case FIX_BEYOND:
		return "past the bit";
	case FIX_AT_ENTRY:
		return "at the entry";
	case FIX_NO_PATH:
		break;
	}
	return "no reading yet";
}

/* ---- the proposal ---- */

void sb_fixes_say_term(const struct fixes *f, int term, struct sb_str *out)
{
	static const char *const name[] = { "azimuth", "inclination", "depth" };
	static const char *const more[] = { "to the right", "up", "longer" },
				 *const less[] = { "to the left", "down", "shorter" };
	const struct proposal *p = &f->proposal;
	double value = p->estimate[term], give = f->factor * p->sigma[term];
	const char *way = value < 0 ? less[term] : more[term];

	if (!p->told[term])
		sb_str_add(out, "%s: these fixes do not tell.", name[term]);
	else if (term == CORRECT_STRETCH)
		sb_str_add(out, "%s: all lengths %.2f per thousand %s, give or take %.2f.", name[term],
			fabs(value) * 1000, way, give * 1000);
	else
		sb_str_add(out, "%s: every reading %.2f degrees %s, give or take %.2f.", name[term],
			fabs(sb_deg(value)), way, sb_deg(give));
}

/* "the coil at 310.00 ft (fix 1), the beacon at 340 ft (fix 2) and ..." */
static void name_suspects(const struct job *job, const struct fixes *f, struct sb_str *out)
{
	const struct proposal *p = &f->proposal;
	size_t said = 0;

	for (size_t k = 0; k < p->count; k++) {
		if (!p->fixes[k].suspect)
			continue;
		sb_str_add(out, "%s", said == 0 ? "" : said + 1 == p->suspects ? " and " : ", ");
		sb_fixes_name(job, sb_job_fix(job, f->list[p->fixes[k].view].fix), out);
		said++;
	}
}

static void say_made(const struct job *job, const struct fixes *f, struct sb_str *out)
{
	const struct proposal *p = &f->proposal;

	if (p->fits) {
		sb_str_add(out,
			"The fix%s and the readings fit together within what they claim (chi-square %.2f of %d, chance %.*f %%).",
			p->count == 1 ? "" : "es", p->chi_square, p->freedom, p->probability < 0.1 ? 1 : 0,
			100 * p->probability);
		return;
	}
	if (p->suspects == 0) {
		sb_str_add(out,
			"Fixes and readings contradict one another, more than any one fix explains (by chance: ");
		put_chance(p->probability, out);
		sb_str_add(out,
			"). Check the sigmas, the depths and the azimuth reference before a correction is taken.");
		return;
	}
	size_t begin = out->length;
	name_suspects(job, f, out);
	out->text[begin] = (char)(out->text[begin] - 'a' + 'A');
	if (p->suspects > 1)
		sb_str_add(out,
			" contradict one another: without one of them the rest agrees. Find out which is wrong, and set it aside.");
	else if (p->count == 1)
		sb_str_add(out,
			" and the readings contradict one another. Take a second fix before a correction is taken.");
	else
		sb_str_add(out,
			" stands out: without it all others agree. Check it, and set it aside if it is wrong.");
}

void sb_fixes_say_fit(const struct job *job, const struct fixes *f, struct sb_str *out)
{
	const struct proposal *p = &f->proposal;

	switch (p->status) {
	case PROPOSAL_NO_FIX:
		sb_str_add(out, "There is no fix to correct the path by.");
		return;
	case PROPOSAL_CERTAIN:
		sb_str_add(out,
			"The sheet claims that the readings share no error: there is nothing to correct. "
			"Give bias_azimuth, bias_inclination or depth_scale.");
		return;
	case PROPOSAL_UNSOLVED:
		sb_str_add(out,
			"The fixes cannot be adjusted: two of them lie at one place and one of them claims to be without "
			"error, or a sigma is far too small. Set it aside and enter it again.");
		return;
	case PROPOSAL_MADE:
		say_made(job, f, out);
	}
}

/* ---- warnings ---- */

/* Whether the fix was known when the row was the last: it was entered there or before, or in an older leg. */
static bool known_at(const struct fix *f, const struct row *row, bool last)
{
	return last || f->fact.joint <= row->joint || f->fact.leg < row->leg;
}

static void judge_agreement(const struct setup *s, const struct fix_view *v, struct verdict *out)
{
	const struct fix *f = sb_job_fix(s->job, v->fix);
	struct sb_str name = { 0 }, off = { 0 };
	double square = 0;

	for (int k = 0; k < FIX_AXES; k++)
		square += v->off_m[k] * v->off_m[k];
	out->level = LEVEL_WATCH;
	out->value = sb_frame_typed(s->frame, sqrt(square));
	sb_fixes_name(s->job, f, &name);
	sb_fixes_off(s, v->seen, v->off_m, &off);
	name.text[0] = 'T';
	snprintf(out->text, sizeof out->text,
		"%.60s puts the hole %.70s of the path: more than both claim. Check it, set it aside, or take the correction that the fixes propose.",
		sb_str_get(&name), sb_str_get(&off));
	sb_str_clear(&name);
	sb_str_clear(&off);
}

static void judge_silence(const struct setup *s, const struct row *row, int since, struct verdict *out)
{
	const struct number *every = &s->job->fix_every;

	if (!sb_number_given(every) || row->joint - since < every->value)
		return;
	out->level = LEVEL_WATCH;
	out->value = row->joint - since;
	out->limit = every->value;
	snprintf(out->text, sizeof out->text,
		"No independent fix for %d joints, since %s%.0d; one every %s joints is asked for. Get a fix before much more is drilled.",
		row->joint - since, since ? "joint " : "the entry", since, every->text);
}

void sb_fixes_judge(const struct setup *s, const struct fixes *f, const struct row *row, bool last,
	struct verdict verdicts[WARNING_KINDS])
{
	const struct fix_view *worst = NULL;
	int since = 0;

	for (size_t i = 0; i < f->count; i++) {
		const struct fix_view *v = &f->list[i];
		if (v->standing != FIX_STANDS || !known_at(sb_job_fix(s->job, v->fix), row, last))
			continue;
		if (v->joint <= row->joint && v->joint > since)
			since = v->joint;
		if (!v->agrees && (worst == NULL || v->probability < worst->probability))
			worst = v;
	}
	if (worst) {
		judge_agreement(s, worst, &verdicts[WARNING_FIX]);
		/* what would still be within the claims, in the same direction */
		verdicts[WARNING_FIX].limit = verdicts[WARNING_FIX].value *
			sqrt(sb_odds_chi_square_critical(1 - f->confidence, worst->freedom) /
				worst->chi_square);
	}
	judge_silence(s, row, since, &verdicts[WARNING_NO_FIX]);
}
