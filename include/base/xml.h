/* Reading XML as a stream of elements, whatever its encoding: nothing of the file is kept but what the reader
 * of it takes, so a file of any allowed size costs the same memory.
 *
 * The one door to libxml2, which is loaded when the first file is read. A file may be hostile: it is refused
 * by size, by depth, by the length of one text, and as soon as it declares a document type, before any entity
 * of it is known; nothing outside the file is ever opened, on this machine or another.
 */
#ifndef SB_BASE_XML_H
#define SB_BASE_XML_H

#include "base/err.h"

#include <stdbool.h>
#include <stddef.h>

#define SB_XML_FILE (64u << 20) /* bytes of a file */
#define SB_XML_DEPTH 60		/* elements within one another */
#define SB_XML_TEXT (1u << 20)	/* bytes of a text that is wanted, and of the attributes of one element */

struct xml_attributes;

struct xml_element {
	const char *name;			 /* without a prefix */
	const char *space;			 /* its namespace, "" if it has none */
	int line;				 /* of its start tag's end, or its end tag's */
	int depth;				 /* 1: the root */
	const struct xml_attributes *attributes; /* of a start */
};

/* The value of an attribute without a prefix, as the file has it, UTF-8; NULL if there is none. Borrowed
 * until the start is over. */
const char *sb_xml_attribute(const struct xml_element *e, const char *name);

struct xml_reader {
	/* true: the text directly within the element is wanted at its end */
	bool (*start)(void *data, const struct xml_element *e);
	/* text: "" unless it was wanted and no element stood within */
	void (*end)(void *data, const struct xml_element *e, const char *text);
};

/* Reads a file ("-": standard input) from its first element to its last. -1 with err, which names the line:
 * it cannot be read (SB_MISSING, SB_DENIED, SB_IO), it is not whole XML (SB_FORMAT), it is beyond the bounds
 * above (SB_RANGE), libxml2 is not installed (SB_MISSING). What came before the failure has been given to the
 * reader. */
int sb_xml_read(const char *path, const struct xml_reader *reader, void *data, struct sb_err *err);

#endif
