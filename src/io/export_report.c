/* The as-built report as a file: pages, or text. */
#include "io/report.h"

#include "export.h"

int export_report(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct document d;

	sb_report(e->job, e->solution, e->about, &d);
	int status = sb_document_pdf(&d, out, NULL, err);
	sb_document_clear(&d);
	return status;
}

int export_report_text(const struct export *e, struct sb_str *out, struct sb_err *err)
{
	struct document d;

	(void)err; /* it can always be made */
	sb_report(e->job, e->solution, e->about, &d);
	sb_document_text(&d, out);
	sb_document_clear(&d);
	return 0;
}
