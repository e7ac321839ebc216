/* Two roots, one inside the other: where the plug lies for a gradient, and which gradient drives the flow.
 * Both are of functions that only grow, between bounds that are known, so neither search can miss. */
#include "geom/bingham.h"

#include "geom/angle.h"

#include <float.h>
#include <math.h>
#include <stddef.h>

/* Where laminar flow may end; common practice, no source. */
#define TURBULENT 2100.0
/* In a gap narrower than this share of the hole the closed forms lose their digits, and the slot is the
 * annulus to seven of them. */
#define NARROW 2e-3
/* Below this share of what viscosity does, a yield stress is felt in its first term alone. */
#define THIN 1e-12

static enum bingham_status check(const struct bingham *f, const struct annulus *a, double flow)
{
	bool fluid = f->yield_pa >= 0 && f->viscosity_pas >= 0 && f->density_kgm3 > 0 &&
		isfinite(f->yield_pa) && isfinite(f->viscosity_pas) && isfinite(f->density_kgm3);

	if (!(a->inner_m > 0) || !(a->outer_m > a->inner_m) || !isfinite(a->outer_m))
		return BINGHAM_NO_ROOM;
	return fluid && flow >= 0 && isfinite(flow) ? BINGHAM_OK : BINGHAM_BAD;
}

static double gap_of(const struct annulus *a)
{
	return a->outer_m - a->inner_m;
}

static double speed_of(const struct annulus *a, double flow)
{
	return flow / (SB_PI * gap_of(a) * (a->outer_m + a->inner_m));
}

/* ---- a root between two bounds ---- */

typedef double curve(const void *data, double x);

/* Ridders' method (1979): regula falsi on the curve divided by the exponential that straightens it. low and
 * high always hold the root; ends when they, or the steps, are within `share` of it. */
static double root(curve *f, const void *data, double low, double high, double share)
{
	double at_low = f(data, low), at_high = f(data, high), last = high;

	for (int i = 0; i < 100 && at_low < 0 && at_high > 0; i++) {
		double middle = low + (high - low) / 2, at = f(data, middle);
		double s = sqrt(at * at - at_low * at_high);
		if (!(s > 0))
			return middle;
		double x = middle - (middle - low) * at / s, at_x = f(data, x);
		if (fabs(x - last) <= share * fabs(x) || at_x == 0)
			return x;
		last = x;
		if (at < 0 && middle > low)
			low = middle, at_low = at;
		else if (at > 0)
			high = middle, at_high = at;
		if (at_x < 0 && x > low)
			low = x, at_low = at_x;
		else if (at_x > 0 && x < high)
			high = x, at_high = at_x;
		if (high - low <= share * fabs(high))
			break;
	}
	return fabs(at_low) < fabs(at_high) ? low : high;
}

/* ---- the annulus ---- */

/* A plug from r to r + width, under a gradient. */
struct plug {
	const struct bingham *fluid;
	const struct annulus *a;
	double gradient, width;
};

/* What the plug's sides move at, both times the viscosity: by the shear between it and the pipe, and between
 * the hole's wall and it. Integrals of |G/2 (r - k/r)| - yield, k = r (r + width). */
static double faster_inside(const void *data, double r)
{
	const struct plug *p = data;
	double in = p->a->inner_m, out = p->a->outer_m, end = r + p->width, k = r * end;
	double half = p->gradient / 2, yield = p->fluid->yield_pa;
	double inside = half * (k * log(r / in) - (r - in) * (r + in) / 2) - yield * (r - in);
	double outside = half * ((out - end) * (out + end) / 2 - k * log(out / end)) - yield * (out - end);

	return inside - outside;
}

static double cube(double x)
{
	return x * x * x;
}

/* The flow, with the plug at r: 2 pi times the integral of speed r, by parts that of r^2 times the shear. */
static double flow_with(const struct plug *p, double r)
{
	double in = p->a->inner_m, out = p->a->outer_m, end = r + p->width, k = r * end;
	double half = p->gradient / 2, third = p->fluid->yield_pa / 3;
	double in2 = in * in, out2 = out * out, r2 = r * r, end2 = end * end;
	double inside = half * (r2 - in2) * (2 * k - r2 - in2) / 4 - third * (cube(r) - cube(in));
	double outside = half * (out2 - end2) * (out2 + end2 - 2 * k) / 4 - third * (cube(out) - cube(end));

	return SB_PI * (outside - inside) / p->fluid->viscosity_pas;
}

double sb_bingham_flow(const struct bingham *fluid, const struct annulus *a, double gradient_pam)
{
	struct plug p = { fluid, a, gradient_pam, 2 * fluid->yield_pa / gradient_pam };

	if (!(p.width < gap_of(a)))
		return 0;
	double r = root(faster_inside, &p, a->inner_m, a->outer_m - p.width, 4 * DBL_EPSILON);
	return fmax(flow_with(&p, r), 0);
}

struct wanted {
	const struct bingham *fluid;
	const struct annulus *a;
	double flow;
};

static double more_than_wanted(const void *data, double gradient)
{
	const struct wanted *w = data;

	return sb_bingham_flow(w->fluid, w->a, gradient) - w->flow;
}

enum bingham_status sb_bingham_annulus(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam)
{
	struct wanted w = { fluid, a, flow_m3s };
	double high;
	enum bingham_status status = sb_bingham_slot(fluid, a, flow_m3s, &high);

	if (status != BINGHAM_OK)
		return status;
	double low = 2 * fluid->yield_pa / gap_of(a);
	if (!(fluid->viscosity_pas > 0) || !(high > low) || gap_of(a) < NARROW * a->outer_m) {
		*gradient_pam = high; /* at rest, so slow that nothing lies between, or a slot */
		return BINGHAM_OK;
	}
	/* the slot is an upper bound; where rounding says otherwise, next to rest, it is the answer */
	*gradient_pam = root(more_than_wanted, &w, low, high, 1e-11);
	return BINGHAM_OK;
}

/* ---- the slot, and the field's formula ---- */

/* The cubic is x^3 - (b + 3/2) x^2 + 1/2 = 0, x the stress on the wall over the yield stress and b what
 * viscosity alone would make of it. Its largest root by the cosine of a third of an angle; that angle by its
 * half's tangent, so that slow flow, b next to 0, keeps its digits. */
static double wall_stress(double viscous, double yield)
{
	if (yield <= THIN * viscous)
		return viscous + 1.5 * yield;
	double b = viscous / yield, a = b + 1.5;
	double angle = 2 * atan2(sqrt(6.75), sqrt(2 * b * (b * b + 4.5 * b + 6.75)));

	return yield * a / 3 * (1 + 2 * cos(angle / 3));
}

enum bingham_status sb_bingham_slot(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam)
{
	enum bingham_status status = check(fluid, a, flow_m3s);

	if (status != BINGHAM_OK)
		return status;
	double viscous = 6 * fluid->viscosity_pas * speed_of(a, flow_m3s) / gap_of(a);
	*gradient_pam = 2 * wall_stress(viscous, fluid->yield_pa) / gap_of(a);
	return BINGHAM_OK;
}

enum bingham_status sb_bingham_field(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, double *gradient_pam)
{
	enum bingham_status status = check(fluid, a, flow_m3s);

	if (status != BINGHAM_OK)
		return status;
	double gap = gap_of(a);
	*gradient_pam =
		12 * fluid->viscosity_pas * speed_of(a, flow_m3s) / (gap * gap) + 3 * fluid->yield_pa / gap;
	return BINGHAM_OK;
}

/* A smooth wall, by the hydraulic diameter of a slot: twice the gap. */
static double turbulent_loss(const struct bingham *f, double gap, double speed)
{
	double reynolds = f->density_kgm3 * speed * 2 * gap / f->viscosity_pas;

	return 0.0791 * pow(reynolds, -0.25) * f->density_kgm3 * speed * speed / gap;
}

enum bingham_status sb_bingham_loss(
	const struct bingham *fluid, const struct annulus *a, double flow_m3s, struct bingham_loss *out)
{
	struct bingham_loss loss = { 0 };
	enum bingham_status status = sb_bingham_annulus(fluid, a, flow_m3s, &loss.laminar_pam);

	if (status != BINGHAM_OK)
		return status;
	sb_bingham_slot(fluid, a, flow_m3s, &loss.slot_pam);
	sb_bingham_field(fluid, a, flow_m3s, &loss.field_pam);
	double gap = gap_of(a), stress = loss.laminar_pam * gap / 2;
	loss.speed_ms = speed_of(a, flow_m3s);
	if (stress > 0)
		loss.reynolds = 12 * fluid->density_kgm3 * loss.speed_ms * loss.speed_ms / stress;
	else if (loss.speed_ms > 0)
		loss.reynolds = HUGE_VAL; /* neither yield nor viscosity */
	loss.turbulent = loss.reynolds > TURBULENT;
	loss.gradient_pam = loss.laminar_pam;
	if (loss.turbulent && fluid->viscosity_pas > 0)
		loss.gradient_pam = fmax(loss.laminar_pam, turbulent_loss(fluid, gap, loss.speed_ms));
	*out = loss;
	return BINGHAM_OK;
}
