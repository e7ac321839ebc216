/* Whether an alignment leads from the job's entry to its exit; and when it does not, what would make it do
 * so: northing and easting exchanged, the ends exchanged, another unit. The slips are few, so all are tried.
 */
#include <math.h>

#include "given_parts.h"

/* How far a line's ends lie from entry and exit, the larger of the two; x and y may be exchanged, the ends
 * too, and all of it in another unit. */
struct turned {
	bool exchanged, reversed;
	double factor;
};

static double miss(const struct given_line *l, const struct job *job, const struct turned *t)
{
	const struct chain_pi *first = &l->pis[t->reversed ? l->count - 1 : 0];
	const struct chain_pi *last = &l->pis[t->reversed ? 0 : l->count - 1];
	const struct chain_pi *ends[2] = { first, last };
	const struct place *places[2] = { &job->entry, &job->exit };
	double most = 0;

	for (int i = 0; i < 2; i++) {
		double n = t->factor * (t->exchanged ? ends[i]->y : ends[i]->x);
		double e = t->factor * (t->exchanged ? ends[i]->x : ends[i]->y);
		most = fmax(most, hypot(n - places[i]->northing.value, e - places[i]->easting.value));
	}
	return most;
}

static void say_way_out(
	const struct turned *t, enum unit from, enum unit to, double off, struct sb_str *words)
{
	if (t->exchanged)
		sb_str_add(words, " Northing and easting are exchanged in it: put them right.");
	if (t->reversed)
		sb_str_add(words, " It runs from exit to entry: say --reverse.");
	if (t->factor != 1)
		sb_str_add(words, " It is in %s, not in %s: say --unit %s.", sb_unit_long(to),
			sb_unit_long(from), sb_unit_name(to));
	sb_str_add(words, " Then they are at most %.3f apart.", off);
}

/* What would make the line lead from entry to exit, if anything simple does. */
static void find_way_out(const struct given *d, const struct given_choice *c, const struct job *job,
	double within, struct sb_str *words)
{
	enum unit from = c->unit_said == GIVEN_UNIT_SAID ? c->unit
		: d->unit_said == GIVEN_UNIT_SAID	 ? d->unit
							 : job->unit;

	for (int unit = UNIT_M; unit <= UNIT_FTUS; unit++)
		for (int way = 0; way < 4; way++) {
			struct turned t = { .exchanged = way & 1,
				.reversed = way & 2,
				.factor = sb_unit_metres((enum unit)unit) / sb_unit_metres(from) };
			double off = miss(&d->alignment, job, &t);
			if (off > within)
				continue;
			say_way_out(&t, from, (enum unit)unit, off, words);
			return;
		}
}

bool given_meets_ends(const struct given *d, const struct given_choice *c, const struct job *job,
	double length, struct sb_problems *problems)
{
	const struct turned as_it_is = { .factor = 1 };
	struct sb_str words = { 0 };

	if (d->alignment.count == 0)
		return true;
	double off = miss(&d->alignment, job, &as_it_is), metre = 1 / sb_unit_metres(job->unit);
	double within = fmax(metre, 0.01 * length);
	if (off <= within)
		return true;
	find_way_out(d, c, job, metre, &words);
	sb_problems_add(problems, 0, "alignment", 0, NULL,
		"its ends lie up to %.3f from entry and exit in [control].%s", off,
		words.length ? words.text : " Is it of this crossing, and on the job's grid?");
	sb_str_clear(&words);
	return false;
}
