/* The drilling fluid on the screen, in parts: the big answers and the list (fluid_draw.c), the pictures along
 * the bore (fluid_picture.c), what is entered of it (fluid_entry.c), and the screen that holds them
 * (screen_fluid.c).
 */
#ifndef UI_FLUID_H
#define UI_FLUID_H

#include "base/time.h"
#include "io/fluid_view.h"
#include "ui/list.h"
#include "ui/screen.h"

struct fluid_state {
	struct fluid_view view; /* made when the job changes, not when a frame is drawn */
	int picture;		/* of which stage */
	struct list list;	/* of what was entered, the newest on top */
};

/* The i-th entry from the newest; NULL past the oldest. */
const struct fluid_event *sb_fluid_event_at(const struct job *job, size_t i);

void sb_fluid_draw(const struct view *v, struct cells *out);
/* With its title; nothing where there is no room. */
void sb_fluid_picture(const struct view *v, int stage, struct cells *out);

/* ---- acts that ask first ---- */

enum follow sb_fluid_returns(struct view *v);
enum follow sb_fluid_loss(struct view *v);
enum follow sb_fluid_release(struct view *v);
/* Whether one was half typed when the program ended, and when. */
bool sb_fluid_release_waits(const struct view *v, char when[SB_TIME_TEXT]);
enum follow sb_fluid_record(struct view *v);

extern const struct screen sb_screen_fluid;

#endif
