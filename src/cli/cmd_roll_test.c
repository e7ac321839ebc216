/* sagbend roll-test: a tool turned in place, before it goes into the hole, shows what its sensors have wrong.
 */
#include "base/str.h"
#include "cli/acting.h"
#include "cli/commands.h"
#include "geom/angle.h"
#include "geom/odds.h"
#include "geom/roll.h"
#include "io/csv.h"
#include "io/json.h"

#include <math.h>
#include <stdio.h>

#define READINGS 512

static const struct option options[] = {
	{ "axes", "TEXT", "the tool's axes, as [tool] sensor_axes in the job sheet; x y z when left out",
		false },
	{ "json", NULL, "what was found as JSON", false },
	OPTION_END,
};

static const char *const columns[6] = { "gravity_x", "gravity_y", "gravity_z", "field_x", "field_y",
	"field_z" };

struct turned {
	struct sensor_vectors list[READINGS]; /* in our axes, the tool's units */
	size_t count;
};

static bool read_row(struct sb_csv *csv, const struct csv_row *row, const int at[6], double six[6])
{
	for (int i = 0; i < 6; i++) {
		struct sb_err err = { 0 };
		struct number n;
		if (!sb_csv_decimal(csv, row, (size_t)at[i]))
			return false;
		if (sb_number_parse(row->cells[at[i]], &n, &err)) {
			sb_csv_wrong(csv, row->line, columns[i], "%s", err.text);
			return false;
		}
		six[i] = n.value;
	}
	return true;
}

static void read_all(struct sb_csv *csv, const struct sensor_axes *axes, struct turned *t)
{
	const struct csv_row *row;
	bool whole = true;
	int at[6];

	for (int i = 0; i < 6; i++) {
		at[i] = sb_csv_find(csv, columns[i]);
		if (at[i] < 0)
			sb_csv_wrong(csv, 1, columns[i],
				"there is no such column: the header must name gravity_x, _y, _z and field_x, _y, _z.");
		whole &= at[i] >= 0;
	}
	while (whole && (row = sb_csv_next(csv)) != NULL) {
		double s[6];
		if (!read_row(csv, row, at, s))
			continue;
		if (t->count == READINGS) {
			sb_csv_wrong(
				csv, row->line, NULL, "more than %d readings: leave some out.", READINGS);
			return;
		}
		struct sensor_vectors tool = { { s[0], s[1], s[2] }, { s[3], s[4], s[5] } };
		t->list[t->count++] = sb_sensor_turn(axes, &tool);
	}
}

static int fail_fit(enum roll_status status, const char *what, const struct roll_gap *gap, struct sb_err *err)
{
	switch (status) {
	case ROLL_FEW:
		return sb_fail(err, SB_RANGE,
			"%d readings at different rolls are needed at least; six or more are better.",
			ROLL_LEAST);
	case ROLL_STEEP:
		return sb_fail(err, SB_RANGE,
			"The tool stands within 3 degrees of plumb, where gravity does not show its roll. Lay it down.");
	case ROLL_GAP:
		return sb_fail(err, SB_RANGE,
			"The rolls leave %.0f degrees without a reading: take one more with the mark at about %.0f degrees from high side.",
			sb_deg(gap->width_rad), sb_deg(sb_wrap_turn(gap->middle_rad)));
	case ROLL_FLAT:
		return sb_fail(err, SB_RANGE,
			"The %s shows no circle as the tool turns: it lies along the tool, or a sensor is dead. Lay the tool another way.",
			what);
	case ROLL_STUCK:
		return sb_fail(err, SB_RANGE,
			"No circle comes near these readings of %s: the tool was not turned in place, or something moved nearby.",
			what);
	case ROLL_OK:
	case ROLL_RANGE:
		break;
	}
	return sb_fail(err, SB_RANGE, "A reading of %s holds a number that cannot be.", what);
}

/* Sigmas of "give or take" at 95 %: the noise itself is known from a few readings only. */
static double reach(const struct roll_fit *f, size_t readings)
{
	int left = (int)readings - (f->ratio_seen ? 4 : 3), freedom = left < 2 ? 2 : left - left % 2;
	double low = 0, high = 100;

	for (int i = 0; i < 60; i++) {
		double middle = (low + high) / 2;
		*(sb_odds_student(middle * middle, 1, freedom) > 0.05 ? &low : &high) = middle;
	}
	return high;
}

static void say_fit(const char *what, const struct roll_fit *f, size_t readings, struct sb_str *out)
{
	const struct roll_values *v = &f->found, *s = &f->sigma;
	double k = reach(f, readings);
	bool sound = fabs(v->bias_x) <= k * s->bias_x && fabs(v->bias_y) <= k * s->bias_y;

	sb_str_add(out, "%s\n  bias         x %.5g give or take %.2g, y %.5g give or take %.2g: %s\n", what,
		v->bias_x, k * s->bias_x, v->bias_y, k * s->bias_y,
		sound ? "none that these readings show"
		      : "put it into the sheet, or have the tool calibrated");
	if (f->ratio_seen)
		sb_str_add(out, "  scale        y over x %.6f give or take %.2g\n", v->ratio, k * s->ratio);
	else
		sb_str_add(out, "  scale        cannot be told from so few rolls\n");
	sb_str_add(out, "  lean         z leans %.2f deg to x, %.2f deg to y, give or take %.2g\n",
		sb_deg(v->lean_x), sb_deg(v->lean_y), sb_deg(k * fmax(s->lean_x, s->lean_y)));
	sb_str_add(out, "  left over    %.3g across, %.3g along; most at reading %zu (%.3g)\n", f->noise,
		f->noise_along, f->worst + 1, f->worst_off);
}

static void say(
	const struct turned *t, const struct roll_fit fits[2], const struct roll_gap *gap, struct sb_str *out)
{
	sb_str_add(out, "%zu readings turned in place; the widest turn without one is %.0f degrees\n",
		t->count, sb_deg(gap->width_rad));
	say_fit("gravity", &fits[ROLL_GRAVITY], t->count, out);
	say_fit("field", &fits[ROLL_FIELD], t->count, out);
	sb_str_add(out,
		"for [tool] in the job sheet, or change --set:\n  gravity_bias_x = %.6g\n  gravity_bias_y = %.6g\n  field_bias_x = %.6g\n  field_bias_y = %.6g\n",
		fits[0].found.bias_x, fits[0].found.bias_y, fits[1].found.bias_x, fits[1].found.bias_y);
	sb_str_add(out,
		"Bias and scale of z, and a mark that is off, do not show when a tool is turned: check them on a staked line.\n");
}

static void put_fit(struct sb_json *j, const char *name, const struct roll_fit *f)
{
	sb_json_object(j, name);
	sb_json_exact(j, "bias_x", f->found.bias_x);
	sb_json_exact(j, "bias_y", f->found.bias_y);
	sb_json_exact(j, "sigma_bias_x", f->sigma.bias_x);
	sb_json_exact(j, "sigma_bias_y", f->sigma.bias_y);
	sb_json_exact(j, "scale_ratio", f->ratio_seen ? f->found.ratio : (double)NAN);
	sb_json_exact(j, "lean_x_degrees", sb_deg(f->found.lean_x));
	sb_json_exact(j, "lean_y_degrees", sb_deg(f->found.lean_y));
	sb_json_exact(j, "noise", f->noise);
	sb_json_whole(j, "worst_reading", (long long)f->worst + 1);
	sb_json_end(j);
}

static int answer(const struct turned *t, bool json, struct sb_err *err)
{
	static const char *const names[] = { "gravity", "the field" };
	struct roll_fit fits[2];
	struct roll_gap gap = { 0 };
	struct sb_json j = { 0 };
	struct sb_str out = { 0 };

	for (int sensor = ROLL_GRAVITY; sensor <= ROLL_FIELD; sensor++) {
		enum roll_status status =
			sb_roll_fit(t->list, t->count, (enum roll_sensor)sensor, 0, &fits[sensor], &gap);
		if (status != ROLL_OK) {
			fail_fit(status, names[sensor], &gap, err);
			return sb_command_fail(err);
		}
	}
	if (!json) {
		say(t, fits, &gap, &out);
		return sb_acting_put(&out, false);
	}
	sb_json_object(&j, NULL);
	sb_json_whole(&j, "readings", (long long)t->count);
	sb_json_fixed(&j, "widest_gap_degrees", sb_deg(gap.width_rad), 3);
	put_fit(&j, "gravity", &fits[ROLL_GRAVITY]);
	put_fit(&j, "field", &fits[ROLL_FIELD]);
	sb_json_end(&j);
	return sb_acting_put(&j.text, false);
}

static int run(const struct invocation *in)
{
	const char *path = in->positional[0], *typed = sb_command_value(in, "axes");
	struct sensor_axes axes = AXES_OURS;
	struct sb_problems problems = { 0 };
	struct sb_csv *csv = NULL;
	struct sb_err err = { 0 };
	struct turned t = { .count = 0 };

	enum axes_status status = typed ? sb_axes_parse(typed, &axes) : AXES_OK;
	if (status != AXES_OK) {
		sb_fail(&err, SB_USAGE, "--axes '%.40s' %s.", typed, sb_axes_fault(status));
		return sb_command_fail(&err);
	}
	if (sb_acting_there(path, &err))
		return sb_command_fail(&err);
	if (sb_csv_open(path, sb_same(path, "-") ? "standard input" : path, &csv, &problems) == 0)
		read_all(csv, &axes, &t);
	sb_csv_close(csv);
	bool bad = problems.errors > 0;
	sb_acting_say_problems(&problems);
	sb_problems_clear(&problems);
	return bad ? EXIT_DATA : answer(&t, sb_command_flag(in, "json"), &err);
}

const struct command sb_cmd_roll_test = {
	.name = "roll-test",
	.arguments = "FILE.csv [--axes TEXT] [--json]",
	.summary = "finds the bias of a tool's sensors from readings turned in place",
	.detail =
		"Lay the tool still, away from steel, level and across the field if you can, and read it at six or more rolls all the way round. The file, or - for standard input, has the columns gravity_x, gravity_y, gravity_z, field_x, field_y and field_z, as the tool shows them. Run it before the first joint, and again when a tool comes back.",
	.least = 1,
	.most = 1,
	.options = options,
	.run = run,
};
