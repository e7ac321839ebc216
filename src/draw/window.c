/* Windows in stations. What comes in may be anything (a job of one point, a bit at a wild place); what goes
 * out is finite, forwards and at least a metre long.
 */
#include "draw/window.h"

#include <math.h>

#define WILD 1e9 /* metres: farther off is no place on earth */

static struct draw_window finish(double from, double to, int dots, bool close)
{
	if (!(to - from >= 1))
		to = from + 1;
	return (struct draw_window){
		.from_m = from,
		.to_m = to,
		.dot_m = (to - from) / (dots > 1 ? dots : 1),
		.close = close,
	};
}

static bool placed(const struct bit *bit)
{
	return bit->known && fabs(bit->deviation.station_m) < WILD;
}

struct draw_window sb_window_whole(const struct solution *s, int dots)
{
	double length = s->design.length_m > 0 && s->design.length_m < WILD ? s->design.length_m : 1;
	double from = 0, to = length;

	if (placed(&s->bit)) {
		from = fmin(from, s->bit.deviation.station_m);
		to = fmax(to, s->bit.deviation.station_m);
	}
	double beyond = (to - from) / 40;
	return finish(from - beyond, to + beyond, dots, false);
}

struct draw_window sb_window_near(const struct solution *s, double behind_m, double ahead_m, int dots)
{
	double at = placed(&s->bit) ? s->bit.deviation.station_m : 0;

	if (!(fabs(behind_m) < WILD && fabs(ahead_m) < WILD))
		return sb_window_whole(s, dots);
	/* Nothing is drilled before the entry or past the exit: there the window stops, and keeps its length.
	 */
	double length = behind_m + ahead_m, beyond = length / 20;
	if (at <= s->design.length_m && at + ahead_m > s->design.length_m + beyond)
		at = s->design.length_m + beyond - ahead_m;
	if (at - behind_m < -beyond)
		at = behind_m - beyond;
	return finish(at - behind_m, at + ahead_m, dots, true);
}

struct draw_window sb_window_sound(const struct draw_window *w, const struct solution *s)
{
	struct draw_window sound = *w;

	if (!(fabs(w->from_m) < WILD && fabs(w->to_m) < WILD && w->to_m > w->from_m)) {
		sound = sb_window_whole(s, 0);
		sound.close = w->close;
		sound.dot_m = w->dot_m;
		sound.plan = w->plan;
		sound.pinned = w->pinned;
		sound.detailed = w->detailed;
	}
	double length = sound.to_m - sound.from_m;
	if (!(sound.dot_m >= length / 1e4 && sound.dot_m < length))
		sound.dot_m = length / 1e3;
	return sound;
}
