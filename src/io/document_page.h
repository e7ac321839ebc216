/* A page of a document while it is laid: where the next line stands, and lettering in a few sizes. */
#ifndef SB_SRC_IO_DOCUMENT_PAGE_H
#define SB_SRC_IO_DOCUMENT_PAGE_H

#include "io/document.h"
#include "io/paper.h"

/* Millimetres. */
#define PAGE_SIDE 18.0

/* A size of lettering, and from one line to the next. */
struct size {
	enum face face;
	double capital_mm, line_mm;
};
extern const struct size page_title, page_heading, page_subheading, page_body, page_key, page_small;
extern const struct ink page_grey;

struct layout {
	const struct document *d;
	struct sb_paper *paper;
	double width, height, y; /* y: where the next line's top is */
	size_t page, pages;	 /* pages: 0 while they are counted */
	bool fresh;		 /* nothing stands on the page yet */
};

/* name: in the list of contents; NULL: not there. */
void page_begin(struct layout *l, const char *name);
double page_room(const struct layout *l); /* across */
double page_left(const struct layout *l); /* down to the foot */
bool page_fits(const struct layout *l, double height);
/* Room between two things; none at the top of a page. */
void page_space(struct layout *l, double height);
/* The baseline of the next line, whose height is taken. */
double page_line(struct layout *l, const struct size *size);

void page_letter(struct layout *l, const struct size *size, enum hold hold, struct ink ink, double x,
	double baseline, const char *text);
void page_rule(struct layout *l, double y, double width_mm, struct ink ink);
struct lettering page_lettering(const struct size *size);

/* How many lines a text takes, which are added to lines, each with its end. */
size_t page_lines_of(
	struct layout *l, const struct size *size, double room, const char *text, struct sb_str *lines);
/* A page is begun first where not even so many of its lines would stand on this one. */
void page_lines(
	struct layout *l, const struct size *size, double x, double room, const char *text, size_t together);

#endif
