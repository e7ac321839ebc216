/* Graphs along the stations, behind the sheets: what they show is gathered by drawing_lines.c, and put on
 * pages, three at most on one, by drawing_graphs.c.
 */
#ifndef SB_SRC_IO_DRAWING_GRAPHS_H
#define SB_SRC_IO_DRAWING_GRAPHS_H

#include "draw/along.h"

#include "drawing_parts.h"

#define DRAWING_GRAPH_LINES 6
#define DRAWING_GRAPH_NAME 96
struct drawing_graph {
	char title[64], words[200]; /* "PULL FORCE", "estimated, for the engineer to verify" */
	char unit[16];
	double most; /* higher values are drawn at that; 0: none is cut */
	struct along_line lines[DRAWING_GRAPH_LINES];
	struct along_point *points[DRAWING_GRAPH_LINES];     /* theirs, owned */
	char names[DRAWING_GRAPH_LINES][DRAWING_GRAPH_NAME]; /* in the line above the picture, each with a
								sample; "": as the line before it */
	size_t count;
};

#define DRAWING_GRAPHS 12
struct drawing_graphs {
	struct drawing_graph list[DRAWING_GRAPHS];
	size_t count;
};

/* Begins the next graph; its texts are to be filled. NULL: there is no room for another. */
struct drawing_graph *drawing_graph_begin(struct drawing_graphs *all);
/* A line, or marks: its points are the graph's own, and to be filled. */
struct along_point *drawing_graph_add(struct drawing_graph *g, enum meaning meaning, enum line_kind line,
	bool marks, size_t points, const char *name);
/* Ends it: one without a point that can be drawn is none. */
void drawing_graph_finish(struct drawing_graphs *all, struct drawing_graph *g);

/* What this job has to show: nothing before the pilot is accepted. */
void drawing_lines_fill(struct drawing *d, struct drawing_graphs *all);

#endif
