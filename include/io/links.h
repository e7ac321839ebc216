/* The links from an azimuth as the tool shows it to one on the grid: each in words, with whose word it is;
 * and what changed of the settings since the job began.
 */
#ifndef SB_IO_LINKS_H
#define SB_IO_LINKS_H

#include "base/str.h"
#include "model/azimuth.h"

#define SB_LINK_WORDS 240
#define SB_LINK_SOURCE 160

struct azimuth_link {
	const char *label;	     /* "declination" */
	char words[SB_LINK_WORDS];   /* "magnetic north lies 3.40 degrees east of true north" */
	char source[SB_LINK_SOURCE]; /* "job sheet", "since joint 22, by M. Okafor"; "" where it is none's
					word */
	bool sum;		     /* the one number that is added to a reading */
};

/* In the order in which they are applied, the sum last. Given: r  the reading (NULL: the next joint) */
#define SB_LINKS 7
size_t sb_links(const struct job *job, const struct frame *base, const struct reading *r,
	struct azimuth_link out[SB_LINKS]);

/* "job sheet", or "since joint 22, by M. Okafor". */
void sb_links_source(const struct job *job, const struct reading *r, const char *section, const char *key,
	char text[SB_LINK_SOURCE]);

/* What had changed for a reading (NULL: the next joint), each setting once, newest first: "tool sensor_to_bit
 * 42.5, since joint 22, by M. Okafor". Returned: how many were put, one a line. */
size_t sb_links_changed(const struct job *job, const struct reading *r, struct sb_str *out);

/* The acts that changed settings, the newest first, each by its first change: out gets `most` at most. Words
 * and names are in the fact. Returned: how many there are. */
size_t sb_links_acts(const struct job *job, const struct change *out[], size_t most);

#endif
