/* Each stage after the pilot in one line, as it stands: the fluid, the opening, the pipe string, the pull,
 * the product pipe in this hole.
 */
#ifndef UI_STAGES_H
#define UI_STAGES_H

#include "ui/screen.h"

#define SB_STAGES 5

struct stage {
	const char *key, *name; /* that opens it */
	char text[200];
	bool judged; /* level says something */
	enum level level;
};

/* Made when the job changes, not when a frame is drawn. */
struct stages {
	struct stage list[SB_STAGES];
};
void sb_stages_make(const struct view *v, struct stages *out);
/* SB_STAGES rows from the first on. */
void sb_stages_draw(const struct stages *s, struct cells *out, int row);

#endif
