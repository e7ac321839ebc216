/* A grid by its definition (a PROJ string or WKT), for the grids of published examples that no code stands
 * for: the checks of crs.c are held against them. Jobs name a code.
 */
#ifndef SB_BASE_CRS_DEFINE_H
#define SB_BASE_CRS_DEFINE_H

#include "base/crs.h"

/* As sb_crs_open. */
int sb_crs_define(const char *definition, struct sb_crs **out, struct sb_err *err);

#endif
