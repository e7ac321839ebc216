/* The estimate with its band, for every place of the pull head: of the bore as it was drilled, by
 * model/pipe_load.h. */
#include "base/mem.h"
#include "base/str.h"
#include "model/pipe_load.h"
#include "model/pullback.h"

#include <math.h>
#include <string.h>

/* From the exit to the entry, as the head goes. */
static void take_stations(const struct pipe_load *load, struct pull_bands *out)
{
	out->list = sb_alloc((load->count + 1) * sizeof *out->list);
	for (size_t i = load->count; i-- > 0;) {
		const struct load_station *s = &load->stations[i];
		out->list[out->count++] = (struct pull_band){ s->md_m, s->force_n, s->low_n, s->high_n };
	}
}

static void take_worst(const struct pipe_load *load, struct pull_share *out)
{
	out->verdict = sb_pipe_verdict_worst(load, &out->check);
	if (!out->verdict.judged)
		return;
	const struct load_station *at = &load->stations[out->verdict.at];
	out->station_m = at->station_m;
	out->joint = out->verdict.at ? at->joint : 0;
}

void sb_pull_bands_make(const struct clearance_ask *ask, struct pull_bands *out)
{
	struct pipe_load load = { 0 };
	struct sb_err err = { 0 };

	sb_pull_bands_clear(out);
	out->made = true;
	if (sb_pipe_load_make(ask, false, &load, &err)) {
		sb_copy(out->unknown, sizeof out->unknown, err.text);
		sb_bore_line_drilled(ask, &out->line);
		return;
	}
	take_stations(&load, out);
	take_worst(&load, &out->worst);
	out->line = load.line;
	load.line = (struct bore_line){ 0 };
	sb_pipe_load_clear(&load);
}

void sb_pull_bands_clear(struct pull_bands *b)
{
	sb_free(b->list);
	sb_bore_line_clear(&b->line);
	memset(b, 0, sizeof *b);
}

struct pull_band sb_pull_band_at(const struct pull_bands *b, double head_md_m)
{
	double unknown = (double)NAN;
	size_t i = 0;

	if (b->count == 0)
		return (struct pull_band){ head_md_m, unknown, unknown, unknown };
	while (i + 1 < b->count && b->list[i + 1].head_md_m >= head_md_m)
		i++;
	if (i + 1 == b->count || head_md_m >= b->list[i].head_md_m)
		return b->list[i];
	const struct pull_band *from = &b->list[i], *to = from + 1;
	double t = (from->head_md_m - head_md_m) / (from->head_md_m - to->head_md_m);
	return (struct pull_band){ head_md_m, from->force_n + t * (to->force_n - from->force_n),
		from->low_n + t * (to->low_n - from->low_n), from->high_n + t * (to->high_n - from->high_n) };
}
