/* Shares over 1, as everything is given and at the top of the band; and near it. */
#include "model/pipe_verdict.h"

#include <math.h>

static enum level level_of(const struct load_given *g, const struct pipe_verdict *v)
{
	return v->ratio > 1 ? LEVEL_BREACH : v->high > 1 || v->ratio >= g->watch ? LEVEL_WATCH : LEVEL_OK;
}

struct pipe_verdict sb_pipe_verdict_check(const struct pipe_load *load, enum pipe_check check)
{
	struct pipe_verdict v = { 0 };

	if (load->worst[check] == SIZE_MAX)
		return v;
	v.judged = true;
	v.at = load->worst[check];
	v.ratio = load->stations[v.at].ratio[check];
	for (size_t i = 0; i < load->count; i++) {
		struct load_station s = load->stations[i];
		s.force_n = s.high_n;
		sb_pipe_load_check(&load->given, &s);
		v.high = fmax(v.high, s.ratio[check]);
	}
	v.level = level_of(&load->given, &v);
	return v;
}

struct pipe_verdict sb_pipe_verdict_force(const struct pipe_load *load)
{
	struct pipe_verdict v = { .at = load->most };

	if (!(load->given.safe_n > 0)) /* NAN too */
		return (struct pipe_verdict){ 0 };
	v.judged = true;
	v.ratio = load->stations[v.at].force_n / load->given.safe_n;
	for (size_t i = 0; i < load->count; i++)
		v.high = fmax(v.high, load->stations[i].high_n / load->given.safe_n);
	v.level = level_of(&load->given, &v);
	return v;
}

struct pipe_verdict sb_pipe_verdict_worst(const struct pipe_load *load, enum pipe_check *check)
{
	struct pipe_verdict worst = { 0 };

	for (int k = 0; k < PIPE_CHECKS; k++) {
		struct pipe_verdict v = sb_pipe_verdict_check(load, (enum pipe_check)k);
		if (!v.judged ||
			(worst.judged &&
				(v.level < worst.level ||
					(v.level == worst.level && v.ratio <= worst.ratio))))
			continue;
		worst = v;
		*check = (enum pipe_check)k;
	}
	return worst;
}
