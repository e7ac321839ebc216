/* What text and JSON of the product pipe's loads share. */
#ifndef SB_SRC_IO_PIPE_LOAD_PARTS_H
#define SB_SRC_IO_PIPE_LOAD_PARTS_H

#include "io/pipe_load.h"

struct load_page {
	const struct job *job;
	const struct solution *s;
	struct sb_str *out;
};

/* The head of both pages: pipe, hole, fluid, how far the line was read. */
void load_page_head(const struct load_page *p, const struct pipe_load *load);
void load_page_assumptions(const struct load_page *p, const struct load_given *g);
const char *load_page_station(const struct load_page *p, double metres, char text[SB_LOAD_TEXT]);
/* A radius in the job's unit; "straight" from 100 km on. */
const char *load_page_radius(const struct load_page *p, double metres, char text[SB_LOAD_TEXT]);

#endif
