/* From three deviations to a likely cause. Each suspect is a function that says whether it explains what is
 * off; they are asked in the order of how little else could look like them.
 */
#include "model/field.h"

#include "geom/angle.h"

#include <math.h>
#include <stdio.h>

const struct field_gates sb_field_gates_usual = { 0.003, 300, 0.3 * SB_PI / 180 };

/* How near a total must come to the reference in another unit, as a share. A gal is 1.02 thousandths of g,
 * and gravity does not vary by more than half a percent; fields do, near steel. */
#define GRAVITY_UNIT_NEAR 0.008
#define FIELD_UNIT_NEAR 0.2

/* A dead sensor's missing part is known from a difference of squares only: so near must it put the dip. */
#define DEAD_DIP (1 * SB_PI / 180)

/* Steel turns the dip by a degree or two at most while the total stays within its gate: at 300 nT of 50000
 * and across the field, 2 degrees would be 1750 nT that happen not to change the total. */
#define AXES_DIP (3 * SB_PI / 180)

const char *sb_field_cause_word(enum field_cause cause)
{
	static const char *const words[] = {
		[CAUSE_NONE] = "ok",
		[CAUSE_GRAVITY_UNIT] = "unit of gravity",
		[CAUSE_FIELD_UNIT] = "unit of field",
		[CAUSE_EXCHANGED] = "gravity and field exchanged",
		[CAUSE_GRAVITY_DEAD] = "accelerometer dead",
		[CAUSE_FIELD_DEAD] = "magnetometer dead",
		[CAUSE_MOVING] = "moved while read",
		[CAUSE_AXES] = "axes exchanged",
		[CAUSE_STEEL] = "steel near",
		[CAUSE_UNCLEAR] = "unclear",
	};
	return words[cause];
}

struct field_reading sb_field_reading(const struct sensor_vectors *v)
{
	struct sensor_attitude a;
	bool known = sb_sensor_attitude(v, &a) >= 0;

	return (struct field_reading){
		.gravity_g = sb_triad_length(v->gravity),
		.field_nt = sb_triad_length(v->field),
		.dip_rad = known ? a.dip_rad : (double)NAN,
		.has_vectors = true,
		.vectors = *v,
	};
}

/* One reading before the judge. */
struct hearing {
	const struct field_reading *reading;
	const struct field_reference *reference;
	const struct field_gates *gates;
	const struct tool_unit *gravity, *field;
	struct field_verdict *out;
};

static bool off(double deviation, double gate)
{
	return fabs(deviation) > gate; /* false for NAN: what was not shown is not off */
}

static void measure(struct hearing *h)
{
	struct field_verdict *v = h->out;

	v->gravity_off_share = h->reading->gravity_g / h->reference->gravity_g - 1;
	v->field_off_nt = h->reading->field_nt - h->reference->field_nt;
	v->dip_off_rad = h->reading->dip_rad - h->reference->dip_rad;
	v->gravity_out = off(v->gravity_off_share, h->gates->gravity_share);
	v->field_out = isnan(h->reference->field_nt)
		? h->reading->field_nt < SB_FIELD_LEAST || h->reading->field_nt > SB_FIELD_MOST
		: off(v->field_off_nt, h->gates->field_nt);
	v->dip_out = off(v->dip_off_rad, h->gates->dip_rad);
}

/* ---- words ---- */

#define say(h, ...) snprintf((h)->out->text, sizeof(h)->out->text, __VA_ARGS__)

struct amount {
	char text[48];
};

/* "50210 nT", in the unit that it was taken for. */
static struct amount amount(double value, const struct tool_unit *unit)
{
	struct amount a;

	snprintf(a.text, sizeof a.text, "%.*f %s", unit->decimals, value / unit->size, unit->name);
	return a;
}

/* Whether a total is near the one that is right here; where that is not known, whether the earth has it. */
static bool near_field(const struct hearing *h, double total_nt)
{
	if (isnan(h->reference->field_nt))
		return total_nt >= SB_FIELD_LEAST && total_nt <= SB_FIELD_MOST;
	return fabs(total_nt / h->reference->field_nt - 1) < FIELD_UNIT_NEAR;
}

static bool near_gravity(const struct hearing *h, double total_g, double near)
{
	return fabs(total_g / h->reference->gravity_g - 1) < near;
}

/* ---- units ---- */

static bool gravity_unit(struct hearing *h)
{
	double total = h->reading->gravity_g;

	for (size_t i = 0; i < sb_gravity_unit_count && h->out->gravity_out && h->out->unit == NULL; i++)
		if (sb_gravity_units[i].size != h->gravity->size &&
			near_gravity(
				h, total / h->gravity->size * sb_gravity_units[i].size, GRAVITY_UNIT_NEAR))
			h->out->unit = &sb_gravity_units[i];
	if (h->out->unit == NULL)
		return false;
	say(h, "Total gravity of %s cannot be: it is right in %s. Give the reading, or set the tool's unit, in %s.",
		amount(total, h->gravity).text, h->out->unit->word, h->out->unit->name);
	return true;
}

static bool field_unit(struct hearing *h)
{
	double total = h->reading->field_nt;

	for (size_t i = 0; i < sb_field_unit_count && h->out->field_out && h->out->unit == NULL; i++)
		if (sb_field_units[i].size != h->field->size &&
			near_field(h, total / h->field->size * sb_field_units[i].size))
			h->out->unit = &sb_field_units[i];
	if (h->out->unit == NULL)
		return false;
	say(h, "A total field of %s cannot be: it is right in %s. Give the reading, or set the tool's unit, in %s.",
		amount(total, h->field).text, h->out->unit->word, h->out->unit->name);
	return true;
}

static bool exchanged(struct hearing *h)
{
	double as_field = h->reading->gravity_g / h->gravity->size * h->field->size;
	double as_gravity = h->reading->field_nt / h->field->size * h->gravity->size;

	if (!near_field(h, as_field) || !near_gravity(h, as_gravity, FIELD_UNIT_NEAR))
		return false;
	say(h, "Gravity and field are exchanged: the one has the size of the other. Give each in its own place.");
	return true;
}

/* ---- dead sensors ---- */

static double *component(struct triad *t, int axis)
{
	return axis == 0 ? &t->x : axis == 1 ? &t->y : &t->z;
}

/* Whether what is missing from the total, put back where 0 is shown, puts the dip right: either sign. */
static bool revives(const struct hearing *h, bool gravity, int axis, double missing)
{
	for (int sign = -1; sign <= 1; sign += 2) {
		struct sensor_vectors v = h->reading->vectors;
		*component(gravity ? &v.gravity : &v.field, axis) = sign * missing;
		double dip = sb_field_reading(&v).dip_rad;
		if (fabs(dip - h->reference->dip_rad) < DEAD_DIP)
			return true;
	}
	return false;
}

static double missing_part(double total, double reference)
{
	return total < reference ? sqrt((reference - total) * (reference + total)) : 0;
}

static bool dead_axis(struct hearing *h, bool gravity, double missing)
{
	struct triad shown = gravity ? h->reading->vectors.gravity : h->reading->vectors.field;

	if (!h->reading->has_vectors)
		return false;
	h->out->axis = AXIS_ALL;
	if (shown.x == 0 && shown.y == 0 && shown.z == 0)
		return true;
	for (int axis = 0; axis < 3; axis++)
		if (missing > 0 && *component(&shown, axis) == 0 && revives(h, gravity, axis, missing)) {
			h->out->axis = axis;
			return true;
		}
	return false;
}

static void say_dead(struct hearing *h, const char *sensor, struct amount missing, const char *use)
{
	if (h->out->axis == AXIS_ALL)
		say(h, "All three %ss show 0: they are dead, or nothing was read. %s.", sensor, use);
	else
		say(h, "The %c %s shows 0 and %s is missing from the total: it is likely dead. %s.",
			"xyz"[h->out->axis], sensor, missing.text, use);
}

static bool gravity_dead(struct hearing *h)
{
	double missing = missing_part(h->reading->gravity_g, h->reference->gravity_g);

	if (!h->out->gravity_out || !dead_axis(h, true, missing))
		return false;
	say_dead(h, "accelerometer", amount(missing, h->gravity),
		"Neither inclination nor azimuth of this reading can be used");
	return true;
}

static bool field_dead(struct hearing *h)
{
	double missing = missing_part(h->reading->field_nt, h->reference->field_nt);

	if (!h->out->field_out || !dead_axis(h, false, missing))
		return false;
	say_dead(h, "magnetometer", amount(missing, h->field), "The azimuth of this reading cannot be used");
	return true;
}

/* ---- moving, axes, steel ---- */

static bool moving(struct hearing *h)
{
	if (!h->out->gravity_out || h->out->field_out)
		return false;
	say(h,
		"Total gravity is %s where it must be %s%s: the string moved or shook while it was read. Stop pumps "
		"and string and read again; if it stays so, the accelerometers are at fault.",
		amount(h->reading->gravity_g, h->gravity).text,
		amount(h->reference->gravity_g, h->gravity).text,
		isnan(h->out->field_off_nt) ? "" : ", and the field is right");
	return true;
}

/* How many things are changed in a set of axes: its letters out of place, and its signs; all signs together
 * are one, gravity shown upwards. */
static int changes(const struct sensor_axes *axes)
{
	int letters = 0, signs = 0;

	for (int i = 0; i < 3; i++) {
		letters += axes->axis[i] != i;
		signs += axes->sign[i] < 0;
	}
	return (letters > 0 ? letters - 1 : 0) + (signs == 3 ? 1 : signs);
}

static bool axes_fit(const struct hearing *h, const struct sensor_axes *axes)
{
	struct sensor_vectors v = h->reading->vectors;

	v.field = sb_axes_turn(axes, v.field);
	return fabs(sb_field_reading(&v).dip_rad - h->reference->dip_rad) <= h->gates->dip_rad;
}

static bool find_axes(struct hearing *h)
{
	int fewest = AXES_COUNT;

	for (int i = 1; i < AXES_COUNT; i++) {
		struct sensor_axes axes = sb_axes_nth(i);
		int count = changes(&axes);
		if (count > fewest || !axes_fit(h, &axes))
			continue;
		h->out->others = count < fewest ? 0 : h->out->others + 1;
		if (count < fewest)
			h->out->axes = axes;
		fewest = count;
	}
	/* the field turned over is gravity turned over, and that is how tools differ */
	if (fewest == 1 && h->out->axes.sign[0] + h->out->axes.sign[1] + h->out->axes.sign[2] == -3)
		h->out->axes = (struct sensor_axes){ { 0, 1, 2 }, { 1, 1, 1 }, true };
	return fewest < AXES_COUNT;
}

static void say_axes(struct hearing *h)
{
	char axes[AXES_TEXT], with[64], also[64] = "";

	sb_axes_text(&h->out->axes, axes);
	if (h->out->axes.gravity_up)
		snprintf(with, sizeof with, "gravity turned over (axes `%s`)", axes);
	else
		snprintf(with, sizeof with, "the field's axes, or gravity's, as `%s`", axes);
	if (h->out->others > 0)
		snprintf(also, sizeof also, " (%d other way%s as simple)", h->out->others,
			h->out->others > 1 ? "s are" : " is");
	say(h,
		"Gravity and field have the right size, but the dip is %.1f degrees where it must be %.1f: it is right "
		"with %s%s. Put the tool's axes right, or what was typed.",
		sb_deg(h->reading->dip_rad), sb_deg(h->reference->dip_rad), with, also);
}

static bool axes_exchanged(struct hearing *h)
{
	if (!h->reading->has_vectors || h->out->gravity_out || h->out->field_out ||
		!off(h->out->dip_off_rad, AXES_DIP) || !find_axes(h))
		return false;
	say_axes(h);
	return true;
}

/* "total field is 50640 nT where it must be 50000 nT": what is off of the two, then what is right. */
static void total_words(const struct hearing *h, char *out, size_t size)
{
	struct amount shown = amount(h->reading->field_nt, h->field);

	if (isnan(h->reading->field_nt))
		out[0] = '\0';
	else if (!h->out->field_out)
		snprintf(out, size, isnan(h->out->field_off_nt) ? "" : "total field is right");
	else if (isnan(h->out->field_off_nt))
		snprintf(out, size, "total field is %s, which the earth has nowhere", shown.text);
	else
		snprintf(out, size, "total field is %s where it must be %s", shown.text,
			amount(h->reference->field_nt, h->field).text);
}

static void dip_words(const struct hearing *h, char *out, size_t size)
{
	double shown = sb_deg(h->reading->dip_rad), must = sb_deg(h->reference->dip_rad);
	int decimals = fabs(shown - must) < 0.1 ? 2 : 1; /* never 66.1 where it must be 66.1 */

	if (isnan(h->out->dip_off_rad))
		out[0] = '\0';
	else if (!h->out->dip_out)
		snprintf(out, size, "dip is right");
	else
		snprintf(out, size, "dip is %.*f degrees where it must be %.*f", decimals, shown, decimals,
			must);
}

static void field_words(const struct hearing *h, char *out, size_t size)
{
	char total[128], dip[64];
	bool dip_first = h->out->dip_out && !h->out->field_out;

	total_words(h, total, sizeof total);
	dip_words(h, dip, sizeof dip);
	snprintf(out, size, "%s%s%s", dip_first ? dip : total, *total && *dip ? ", " : "",
		dip_first ? total : dip);
	out[0] = (char)(out[0] >= 'a' && out[0] <= 'z' ? out[0] - 'a' + 'A' : out[0]);
}

static bool steel(struct hearing *h)
{
	char words[192];

	if (h->out->gravity_out)
		return false;
	field_words(h, words, sizeof words);
	say(h, "%s%s: steel likely near, the azimuth off. Read again; if it stays, azimuth by gyro, coil or hold.",
		words, isnan(h->out->gravity_off_share) ? "" : ", gravity is right");
	return true;
}

static bool unclear(struct hearing *h)
{
	char words[192];

	field_words(h, words, sizeof words);
	say(h,
		"%s, total gravity is %s where it must be %s: moved while read with steel near, or a tool at fault. "
		"Stop pumps and string and read again.",
		words, amount(h->reading->gravity_g, h->gravity).text,
		amount(h->reference->gravity_g, h->gravity).text);
	return true;
}

static bool within(struct hearing *h)
{
	if (h->out->gravity_out || h->out->field_out || h->out->dip_out)
		return false;
	say(h, "Gravity, field and dip are within their gates.");
	return true;
}

struct field_verdict sb_field_judge(const struct field_reading *reading,
	const struct field_reference *reference, const struct field_gates *gates)
{
	static const struct {
		enum field_cause cause;
		bool (*explains)(struct hearing *h);
	} suspects[] = {
		{ CAUSE_NONE, within },
		{ CAUSE_EXCHANGED, exchanged },
		{ CAUSE_GRAVITY_UNIT, gravity_unit },
		{ CAUSE_FIELD_UNIT, field_unit },
		{ CAUSE_GRAVITY_DEAD, gravity_dead },
		{ CAUSE_FIELD_DEAD, field_dead },
		{ CAUSE_MOVING, moving },
		{ CAUSE_AXES, axes_exchanged },
		{ CAUSE_STEEL, steel },
		{ CAUSE_UNCLEAR, unclear },
	};
	struct field_verdict out = { .axes = AXES_OURS };
	struct hearing h = { reading, reference, gates,
		reading->gravity ? reading->gravity : sb_gravity_units,
		reading->field ? reading->field : sb_field_units, &out };
	size_t i = 0;

	measure(&h);
	while (!suspects[i].explains(&h))
		i++;
	out.cause = suspects[i].cause;
	return out;
}

double sb_field_gravity_g(double latitude_rad, double height_m)
{
	double square = sin(latitude_rad) * sin(latitude_rad);
	double level = 9.7803253359 * (1 + 0.00193185265241 * square) / sqrt(1 - 0.00669437999014 * square);

	return (level - 3.086e-6 * height_m) / 9.80665;
}
