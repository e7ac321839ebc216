/* What a reading stands for: on the present path, or in the log only. */
#ifndef SB_IO_STANDING_H
#define SB_IO_STANDING_H

enum standing { STANDING_ENTRY, STANDING_PATH, STANDING_WITHDRAWN, STANDING_REPLACED };
#define SB_STANDINGS 4

/* "entry", "path", "withdrawn", "replaced": the column `standing` of what is exported. */
const char *sb_standing_name(enum standing s);
/* -1 when it is none of them. */
int sb_standing_parse(const char *name, enum standing *s);

#endif
