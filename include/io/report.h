/* The as-built report of the pilot bore: what the engineer signs and the owner keeps.
 *
 * Summary; how it was measured; non-conformances and what came of them; independent fixes; position, bend and
 * uncertainty of every joint; the readings as they were logged; withdrawn joints; corrections,
 * acknowledgements, changes, shifts, notes; the acceptance; the file's digest and the caution. Every figure
 * is the one that `path` gives.
 */
#ifndef SB_IO_REPORT_H
#define SB_IO_REPORT_H

#include "io/about.h"
#include "io/document.h"
#include "model/solve.h"

/* Returned: out, to be written as text or pages, and cleared (sb_document_clear). */
void sb_report(
	const struct job *job, const struct solution *s, const struct about *about, struct document *out);

#endif
