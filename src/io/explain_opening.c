/* The opening: how large the final hole has to be, and how much ground a pass has cut, worked out from what
 * was typed of the passes and of their joints. */
#include "base/measure.h"
#include "geom/angle.h"
#include "model/opening.h"

#include <math.h>

#include "explain_parts.h"

static const char *size_unit(const struct explaining *x)
{
	return sb_measure_unit(x->job->unit, MEASURE_SIZE);
}

/* ---- the final hole ---- */

void explain_final_hole(struct explaining *x)
{
	const struct job *job = x->job;
	struct opening_size kept = sb_opening_size(job);
	bool spare_given = sb_number_given(&job->opening_spare);
	double spare = spare_given ? job->opening_spare.value : job->unit == UNIT_M ? 300 : 12;
	double by_ratio = job->opening_ratio.value * job->outside_diameter.value;
	double by_spare = job->outside_diameter.value + spare, kept_typed;
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_FORMULA,
		"final_least where the contract says one; else the lesser of ratio x OD and OD + spare");
	explain_typed(x, "OD", &job->outside_diameter, size_unit(x),
		"outside diameter of the product pipe, bare: %s",
		explain_key(x, "product_pipe", "outside_diameter", where));
	explain_typed(x, "ratio", &job->opening_ratio, "", "%s", explain_key(x, "opening", "ratio", where));
	if (spare_given)
		explain_typed(x, "spare", &job->opening_spare, size_unit(x), "%s",
			explain_key(x, "opening", "spare", where));
	else
		explain_input(x, "spare", AS_NUMBER, spare, "%s, where the sheet says none", size_unit(x));
	explain_step(x, "by ratio", AS_NUMBER, by_ratio, "%s", size_unit(x));
	explain_step(x, "by spare", AS_NUMBER, by_spare, "%s", size_unit(x));
	if (kept.contract)
		explain_typed(x, "final_least", &job->opening_least, size_unit(x), "the contract's own: %s",
			explain_key(x, "opening", "final_least", where));
	kept_typed = sb_measure_typed(job->unit, MEASURE_SIZE, kept.least_m);
	explain_result(x, "final hole", AS_NUMBER,
		kept.contract ? job->opening_least.value : fmin(by_ratio, by_spare), kept_typed,
		"%s, at least", size_unit(x));
	if (!isinf(kept.most_m))
		explain_words(x, EXPLAIN_LIMIT, "The contract takes %s %s at most ([opening] final_most).",
			job->opening_most.text, size_unit(x));
	explain_words(x, EXPLAIN_SOURCE,
		"the contract; else common practice: the lesser of 1.5 times the pipe and 12 inches (300 mm) over it, good practice guidelines, second hand");
}

/* ---- what a pass has cut ---- */

static const struct pass *pass_of(const struct job *job, int number)
{
	const struct pass *p =
		number >= 1 && (size_t)number <= job->pass_count ? &job->passes[number - 1] : NULL;

	return p && !p->struck ? p : NULL;
}

static bool counts(const struct job *job, const struct pass_joint *j)
{
	return !j->struck && pass_of(job, j->pass) && sb_job_joint(job, j->joint);
}

/* The newest reamer that went through a joint. */
static const struct pass *newest(const struct job *job)
{
	for (size_t i = job->pass_joint_count; i-- > 0;)
		if (counts(job, &job->pass_joints[i]) &&
			pass_of(job, job->pass_joints[i].pass)->kind == PASS_REAM)
			return pass_of(job, job->pass_joints[i].pass);
	return NULL;
}

/* What the largest tool was that had gone through its joint before an entry, or the pilot, as typed. */
static double hole_before(const struct job *job, size_t entry)
{
	double largest = job->pilot_diameter.value;

	for (size_t i = 0; i < entry; i++) {
		const struct pass_joint *j = &job->pass_joints[i];
		if (counts(job, j) && j->joint == job->pass_joints[entry].joint)
			largest = fmax(largest, pass_of(job, j->pass)->diameter.value);
	}
	return largest;
}

struct cut {
	double length_m, low, high; /* of the hole before, as typed */
	double by_areas_m3, by_shell_m3;
	int joints;
};

static struct cut add_up(const struct job *job, const struct pass *p)
{
	struct cut c = { .low = HUGE_VAL };
	double tool_m = sb_measure_si(job->unit, MEASURE_SIZE, p->diameter.value);

	for (size_t i = 0; i < job->pass_joint_count; i++) {
		const struct pass_joint *j = &job->pass_joints[i];
		if (!counts(job, j) || pass_of(job, j->pass) != p)
			continue;
		double before = hole_before(job, i),
		       length_m = sb_job_joint(job, j->joint)->joint_length.value * sb_unit_metres(job->unit);
		double hole_m = sb_measure_si(job->unit, MEASURE_SIZE, before),
		       thick_m = fmax(tool_m - hole_m, 0) / 2;
		c.low = fmin(c.low, before);
		c.high = fmax(c.high, before);
		c.length_m += length_m;
		c.joints++;
		c.by_areas_m3 += SB_PI / 4 * fmax(tool_m * tool_m - hole_m * hole_m, 0) * length_m;
		/* Pappus: a ring is as long as its middle line */
		c.by_shell_m3 += SB_PI * (hole_m + thick_m) * thick_m * length_m;
	}
	return c;
}

static double kept_cut(const struct job *job, int pass)
{
	struct opening o;
	double cut_m3 = (double)NAN;

	sb_opening_take(job, &o);
	for (size_t k = 0; k < o.count; k++)
		if (o.list[k].number == pass)
			cut_m3 = o.list[k].cut_m3;
	sb_opening_clear(&o);
	return sb_measure_typed(job->unit, MEASURE_VOLUME, cut_m3);
}

void explain_cuttings(struct explaining *x)
{
	const struct job *job = x->job;
	const struct pass *p = newest(job);
	const char *unit = sb_measure_unit(job->unit, MEASURE_VOLUME);
	char where[EXPLAIN_WHERE];

	explain_words(x, EXPLAIN_FORMULA,
		"V = sum over its joints of pi / 4 x (D^2 - d^2) x length; d: the largest tool that went through the joint before, or the pilot; no less than 0");
	if (p == NULL || !sb_number_given(&job->pilot_diameter)) {
		explain_words(x, EXPLAIN_NOTE, "%s",
			p ? "The sheet has no pilot_diameter in [hole]: what was cut is not known."
			  : "No reamer went through a joint yet: nothing is cut.");
		return;
	}
	struct cut c = add_up(job, p);
	double volume = sb_measure_typed(job->unit, MEASURE_VOLUME, c.by_areas_m3);
	explain_typed(
		x, "D", &p->diameter, size_unit(x), "pass %d, entered by %s", (int)p->fact.id, p->fact.who);
	explain_typed(x, "pilot", &job->pilot_diameter, size_unit(x), "%s",
		explain_key(x, "hole", "pilot_diameter", where));
	explain_input(
		x, "d least", AS_NUMBER, c.low, "%s, of the hole before, over its joints", size_unit(x));
	explain_input(x, "d most", AS_NUMBER, c.high, "%s", size_unit(x));
	explain_input(x, "length", AS_LENGTH, c.length_m, "of the %d joints that it went through, as logged",
		c.joints);
	explain_result(x, "cuttings", AS_NUMBER, volume, kept_cut(job, (int)p->fact.id),
		"%s of ground in place, before it swells", unit);
	explain_check(x, AS_NUMBER, sb_measure_typed(job->unit, MEASURE_VOLUME, c.by_shell_m3), volume,
		"each ring as its middle circumference times its thickness times its length (Pappus)");
	explain_step(x, "fluid", AS_NUMBER, volume * job->fluid_ratio.value,
		"%s, at %s to 1 ([opening] fluid_ratio)", unit, job->fluid_ratio.text);
	explain_words(x, EXPLAIN_SOURCE, "geometry; the hole is taken as round and as wide as the tool");
}
