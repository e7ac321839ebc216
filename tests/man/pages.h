/* The documents whose lists are the program's own tables: the man pages, the shell completion, the tour of
 * the sources. `make man` writes the lists into them, and pages_test fails where they differ.
 *
 * In such a document a comment line "make man: NAME ARGUMENT" opens a section and "make man: end" closes it.
 * What stands between is written by the section of that name; all else is written by hand and left alone.
 */
#ifndef TESTS_MAN_PAGES_H
#define TESTS_MAN_PAGES_H

#include "base/str.h"

struct page_section {
	const char *name;
	void (*write)(struct sb_str *out);
	/* Or, where it needs to know them: argument, what follows the name; old, what stands in the section.
	 * Both "" when nothing does. */
	void (*fill)(const char *argument, const char *old, struct sb_str *out);
};

/* Each list ends in a row without a name. */
extern const struct page_section program_sections[]; /* sagbend(1) */
extern const struct page_section sheet_sections[];   /* sagbend-job(5): the job sheet */
extern const struct page_section schema_sections[];  /* sagbend-job(5): the job file */
extern const struct page_section completion_sections[];
extern const struct page_section tour_sections[]; /* DEVELOPERS.md */

/* The documents, from the top of the tree; ends in NULL. */
extern const char *const pages[];

/* Returned: old    the document as it is
 *           new    as it should be
 * Ends the program with a sentence when it cannot be done: a document or a section that is not there. */
void pages_fill(const char *path, struct sb_str *old, struct sb_str *new);

void pages_die(const char *format, ...) __attribute__((format(printf, 1, 2), noreturn));

/* ---- mdoc(7) ---- */

/* Text in lines of at most 78 bytes, each sentence on lines of its own; nothing in it is taken for a command.
 */
void mdoc_text(struct sb_str *out, const char *text);
/* The same of text that has its escapes already. */
void mdoc_wrap(struct sb_str *out, const char *text);
/* A few words of a table as sentences: begun with a capital, closed with a full stop. */
void mdoc_sentence(struct sb_str *out, const char *words);
/* ".It Cm name (unit)". */
void mdoc_item(struct sb_str *out, const char *name, const char *unit);
void mdoc_list(struct sb_str *out);
void mdoc_list_end(struct sb_str *out);

#endif
