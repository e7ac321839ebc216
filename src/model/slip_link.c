/* Slips on the azimuth chain. The hand types what the display shows, and what that refers to is for the job's
 * reference to say: what the display has put in already, the job puts in again.
 */
#include "model/slip_link.h"

#include "base/str.h"
#include "geom/angle.h"
#include "model/setting.h"

#include <math.h>

/* Common practice, no source: a display is set up anew with each tool, and so once or twice a bore wrongly.
 */
static const struct slip_kind declination_in = { "declination put in already", 2, 1e-3 },
			      declination_out = { "declination taken out already", 2, 3e-4 },
			      declination_not = { "declination not put in", 2, 1e-3 },
			      declination_twice = { "declination put in twice", 2, 3e-4 },
			      declination_sign = { "declination put in with its sign turned", 2, 3e-4 },
			      convergence_in = { "convergence put in already", 2, 2e-4 },
			      convergence_not = { "convergence not put in", 2, 2e-4 },
			      convergence_sign = { "convergence put in with its sign turned", 2, 1e-4 },
			      both_in = { "declination and convergence put in already", 2, 2e-4 },
			      both_not = { "declination and convergence not put in", 2, 2e-4 },
			      old_declination = { "with the declination of before", 2, 2e-3 },
			      old_convergence = { "with the convergence of before", 2, 5e-4 },
			      old_tool = { "with the tool correction of before", 2, 2e-3 };

struct links {
	struct slip_link *out;
	size_t count;
};

static void add(struct links *l, const struct slip_kind *kind, double add_deg)
{
	if (add_deg != 0 && l->count < SB_SLIP_LINKS)
		l->out[l->count++] = (struct slip_link){ kind, add_deg };
}

/* As the display shows it: what it has put in and should not have, is taken out again. */
static void add_chain(struct links *l, const struct job *as)
{
	double d = as->declination.value, c = as->convergence.value;

	switch (as->reference) {
	case REFERENCE_MAGNETIC:
	case REFERENCE_BORE:
		add(l, &declination_in, -d);
		add(l, &declination_out, d);
		if (as->reference == REFERENCE_MAGNETIC)
			add(l, &both_in, c - d);
		return;
	case REFERENCE_TRUE:
		add(l, &declination_not, d);
		add(l, &declination_twice, -d);
		add(l, &declination_sign, 2 * d);
		add(l, &convergence_in, c);
		return;
	case REFERENCE_GRID:
		break;
	}
	add(l, &declination_not, d);
	add(l, &declination_twice, -d);
	add(l, &declination_sign, 2 * d);
	add(l, &convergence_not, -c);
	add(l, &convergence_sign, -2 * c);
	add(l, &both_not, d - c);
}

static double degrees_apart(const struct job *then, const struct job *now, const char *key)
{
	const struct number *before = &then->declination, *after = &now->declination;

	if (sb_same(key, "convergence")) {
		before = &now->convergence; /* it is taken off */
		after = &then->convergence;
	} else if (sb_same(key, "azimuth_correction")) {
		before = &then->azimuth_correction;
		after = &now->azimuth_correction;
	}
	return before->value - after->value;
}

/* Settings that held before a change, newest first: the display, or the hand, may still be set to them. */
static void add_changes(struct links *l, const struct job *job, const struct job *now)
{
	static const struct {
		const char *key;
		const struct slip_kind *kind;
	} keys[] = { { "declination", &old_declination }, { "convergence", &old_convergence },
		{ "azimuth_correction", &old_tool } };

	for (size_t n = job->change_count; n-- > 0 && l->count < SB_SLIP_LINKS;)
		for (size_t k = 0; k < sizeof keys / sizeof *keys; k++) {
			struct job before = *job;
			if (!sb_same(keys[k].key, job->changes[n].key))
				continue;
			before.change_count = n;
			struct job then = sb_frame_settings(&before, NULL);
			if (then.reference == now->reference)
				add(l, keys[k].kind, degrees_apart(&then, now, keys[k].key));
		}
}

size_t sb_slip_links(const struct job *job, const struct reading *trial, struct slip_link out[SB_SLIP_LINKS])
{
	struct job now = sb_frame_settings(job, trial->logged ? trial : NULL);
	struct links l = { .out = out };

	switch (trial->azimuth_by) {
	case AZIMUTH_BY_GYRO: /* from true north */
		add(&l, &convergence_in, now.convergence.value);
		return l.count;
	case AZIMUTH_BY_COIL: /* from grid north */
		add(&l, &convergence_not, -now.convergence.value);
		return l.count;
	case AZIMUTH_BY_HOLD:
		return 0;
	case AZIMUTH_BY_TOOL:
		break;
	}
	add_chain(&l, &now);
	add_changes(&l, job, &now);
	return l.count;
}
