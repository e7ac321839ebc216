/* The exit: one window, two ways to know where the bore comes out. */
#include "model/exit.h"

#include "base/str.h"

#include <math.h>
#include <stdio.h>

static bool known_at(const struct fix *f, const struct row *row, bool last)
{
	return last || f->fact.joint <= row->joint || f->fact.leg < row->leg;
}

/* The place of a fix beside the design's exit. A fix by station and offset says them alone. */
static struct exit_miss miss_of(const struct setup *s, const struct fix *f)
{
	const struct design *d = s->design;
	struct exit_miss m = { 0 };
	double station = sb_frame_metres(s->frame, f->station.value);

	if (sb_number_given(&f->easting)) {
		struct vec3 at = sb_frame_ground(s->frame, f->easting.value, f->northing.value, 0);
		station = sb_design_station(d, at, d->length_m, &m.right_m);
	} else {
		m.right_m = sb_frame_metres(s->frame, f->offset.value);
	}
	m.long_m = station - d->length_m;
	m.high_m = sb_frame_metres(s->frame, f->elevation.value) - d->exit_elevation_m;
	return m;
}

struct exit_survey sb_exit_survey(
	const struct setup *s, const struct fixes *f, const struct row *row, bool last)
{
	struct exit_survey e = { 0 };

	for (size_t i = f->count; i-- > 0 && !e.known;) {
		const struct fix_view *v = &f->list[i];
		const struct fix *fix = sb_job_fix(s->job, v->fix);
		if (fix->kind != FIX_EXIT || v->standing != FIX_STANDS || !known_at(fix, row, last))
			continue;
		e.known = true;
		e.fix = v->fix;
		e.plan = v->seen[FIX_ALONG] && v->seen[FIX_ACROSS];
		e.level = v->seen[FIX_UP];
		e.miss = miss_of(s, fix);
		for (int k = 0; k < FIX_AXES; k++) {
			e.seen[k] = v->seen[k];
			e.off_m[k] = v->off_m[k];
		}
	}
	return e;
}

bool sb_exit_outside(const struct corridor *c, const struct exit_miss *miss, double *value_m, double *limit_m,
	const char **word)
{
	const struct {
		double miss, limit;
		const char *word;
	} sides[] = {
		{ miss->long_m, c->exit_long_m, "long" },
		{ -miss->long_m, c->exit_short_m, "short" },
		{ miss->right_m, c->exit_right_m, "right" },
		{ -miss->right_m, c->exit_left_m, "left" },
	};
	double worst = -HUGE_VAL;

	*word = "";
	*value_m = *limit_m = 0;
	for (size_t i = 0; i < 4; i++)
		if (!isinf(sides[i].limit) && sides[i].miss - sides[i].limit > worst) {
			worst = sides[i].miss - sides[i].limit;
			*value_m = sides[i].miss;
			*limit_m = sides[i].limit;
			*word = sides[i].word;
		}
	return worst > 1e-9;
}

void sb_exit_judge(const struct setup *s, const struct fixes *f, const struct row *row, bool last,
	const struct bit *bit, const struct ahead *ahead, struct verdict *v)
{
	struct exit_survey survey = sb_exit_survey(s, f, row, last);
	struct exit_miss miss = { ahead->exit_long_m, ahead->exit_right_m, 0 };
	const char *word, *unit = sb_unit_short(s->job->unit);
	double value_m, limit_m;

	if (survey.plan)
		miss = survey.miss;
	else if (!ahead->exit_known)
		return;
	bool outside = sb_exit_outside(s->corridor, &miss, &value_m, &limit_m, &word);
	bool out = survey.plan || bit->at.u >= s->design->exit_elevation_m;
	v->value = sb_frame_typed(s->frame, value_m);
	v->limit = sb_frame_typed(s->frame, limit_m);
	if (!outside)
		return;
	v->level = out ? LEVEL_BREACH : LEVEL_WATCH;
	int d = sb_warning_decimals(s, v->value, v->limit);
	if (survey.plan)
		snprintf(v->text, sizeof v->text,
			"By land survey (fix %lld) the bore came out %.*f %s %s; %.*f is allowed. Ask the engineer.",
			(long long)survey.fix, d, v->value, unit, word, d, v->limit);
	else
		snprintf(v->text, sizeof v->text,
			out ? "The bore came out %.*f %s %s; %.*f is allowed. Ask the engineer."
			    : "As it heads, the bore comes out %.*f %s %s; %.*f is allowed. Steer for the exit.",
			d, v->value, unit, word, d, v->limit);
}

void sb_exit_say(const struct setup *s, const struct exit_survey *e, struct sb_str *out)
{
	const struct {
		bool seen;
		double miss_m;
		const char *more, *less;
	} parts[] = {
		{ e->seen[FIX_ALONG], e->miss.long_m, "long", "short" },
		{ e->seen[FIX_ACROSS], e->miss.right_m, "right", "left" },
		{ e->seen[FIX_UP], e->miss.high_m, "high", "low" },
	};
	int left = parts[0].seen + parts[1].seen + parts[2].seen;
	bool begun = false;

	for (size_t i = 0; i < 3; i++) {
		if (!parts[i].seen)
			continue;
		left--;
		double value = sb_frame_typed(s->frame, parts[i].miss_m);
		sb_str_add(out, "%s%.2f %s %s",
			!begun	       ? ""
				: left ? ", "
				       : " and ",
			fabs(value), sb_unit_short(s->job->unit), value < 0 ? parts[i].less : parts[i].more);
		begun = true;
	}
}
