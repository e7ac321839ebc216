/* Where a drawing's remarks say that curves begin and end, against the line that was found behind its
 * stations: the remarks were not used to find it, so the two vouch for one another.
 *
 * A curve leaves its tangent so slowly that its beginning shows only to some lengths: within w of the tangent
 * it stays for sqrt(2 R w). Marks that are off by several of those are another curve's, or another drawing's.
 */
#include "base/mem.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "given_parts.h"

/* So many times what rounding hides is another place. */
#define ELSEWHERE 4

/* The codes that civil drawings write: point of curvature, beginning of curve, tangent to curve, and the same
 * of vertical ones. */
static const struct {
	const char *code;
	enum given_mark mark;
} codes[] = {
	{ "PC", MARK_BEGIN },
	{ "BC", MARK_BEGIN },
	{ "TC", MARK_BEGIN },
	{ "PVC", MARK_BEGIN },
	{ "BVC", MARK_BEGIN },
	{ "VPC", MARK_BEGIN },
	{ "PT", MARK_END },
	{ "EC", MARK_END },
	{ "CT", MARK_END },
	{ "PVT", MARK_END },
	{ "EVC", MARK_END },
	{ "VPT", MARK_END },
};

enum given_mark given_mark_of(const char *remark)
{
	for (const char *c = remark; *c;) {
		size_t length = 0;
		while (isalpha((unsigned char)c[length]))
			length++;
		for (size_t i = 0; i < sizeof codes / sizeof *codes; i++)
			if (length == strlen(codes[i].code) && strncmp(c, codes[i].code, length) == 0)
				return codes[i].mark;
		c += length;
		while (*c && !isalpha((unsigned char)*c))
			c++;
	}
	return MARK_NONE;
}

/* The nearest beginning or end of a curve on one line. */
struct nearest_curve {
	double off, radius; /* off: the curve's less the mark's station */
	bool any;
};

static void look_on(const struct given_line *l, bool heights, double station, enum given_mark mark,
	struct nearest_curve *n)
{
	struct chain_part *parts = sb_alloc((2 * l->count + 1) * sizeof *parts);
	size_t made = 0;

	if (l->count > 1 && sb_chain_build(l->pis, l->count, parts, &made, NULL, NULL) < CHAIN_OK)
		made = 0;
	for (size_t i = 0; i < made; i++) {
		if (parts[i].curvature == 0)
			continue;
		double at = parts[i].at + (mark == MARK_END ? parts[i].length : 0);
		double off = (heights ? sb_chain_at(parts, made, at).x : at) - station;
		if (n->any && fabs(off) >= fabs(n->off))
			continue;
		*n = (struct nearest_curve){ off, 1 / fabs(parts[i].curvature), true };
	}
	sb_free(parts);
}

void given_check_marks(struct given *d, struct sb_problems *problems)
{
	const struct given_points *p = &d->profile_points;
	double worst = 0;
	size_t count = 0;

	for (size_t i = 0; i < p->count; i++) {
		struct nearest_curve n = { 0 };
		if (p->marks[i] == MARK_NONE)
			continue;
		count++;
		look_on(&d->profile, true, p->x[i], p->marks[i], &n);
		look_on(&d->alignment, false, p->x[i], p->marks[i], &n);
		worst = n.any ? fmax(worst, fabs(n.off)) : HUGE_VAL;
		if (n.any && fabs(n.off) <= ELSEWHERE * sqrt(2 * n.radius * d->profile.within))
			continue;
		const char *what = p->marks[i] == MARK_BEGIN ? "beginning" : "end";
		if (n.any)
			sb_problems_add(problems, 1, p->file, p->lines[i], NULL,
				"the drawing marks the %s of a curve here, the nearest of the line found is %.2f away.",
				what, fabs(n.off));
		else
			sb_problems_add(problems, 1, p->file, p->lines[i], NULL,
				"the drawing marks the %s of a curve here, and no curve was found.", what);
	}
	if (count && isfinite(worst))
		given_note(d,
			"The drawing marks %zu beginnings and ends of curves; those of the line found are within %.2f.",
			count, worst);
}
