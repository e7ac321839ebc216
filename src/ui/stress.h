/* The product pipe in this hole on the screen, in parts: the big answers (stress_draw.c), the pictures along
 * the bore (stress_picture.c), and the screen that holds them (screen_stress.c).
 */
#ifndef UI_STRESS_H
#define UI_STRESS_H

#include "io/pipe_load.h"
#include "ui/screen.h"

/* What is drawn along the bore: the force, then each check (stress_picture.c). */
#define SB_STRESS_PICTURES (1 + PIPE_CHECKS)

struct stress_state {
	bool known;
	struct pipe_loads loads; /* made when the job changes, not when a frame is drawn */
	char why[512];		 /* there are none */
	int picture;
};

/* "11+22.0" */
const char *sb_stress_station(const struct job *job, double station_m, char text[32]);
/* How many pictures there are for this pipe: polyethylene has no check of all three. */
int sb_stress_pictures(const struct stress_state *s);
void sb_stress_draw(const struct view *v, struct cells *out);
/* With its title; nothing where there is no room. */
void sb_stress_picture(const struct view *v, int picture, struct cells *out);

extern const struct screen sb_screen_stress;

#endif
