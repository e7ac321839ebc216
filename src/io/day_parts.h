/* Between the files of the day's report: the hole after the pilot. */
#ifndef SB_SRC_IO_DAY_PARTS_H
#define SB_SRC_IO_DAY_PARTS_H

#include "io/day.h"
#include "io/json.h"

#include "report_parts.h"

/* Passes, drilling fluid, pipe string and pull of the day: nothing of what did not go on then. */
void day_after_document(struct report *r, const struct day *day);
/* Members "passes", "fluid", "string" and "pull". */
void day_after_json(struct sb_json *j, const struct day *day);

#endif
