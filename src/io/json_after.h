/* What the JSON of the commands beside and after the pilot has in common: the units of its measures, and what
 * was struck out.
 */
#ifndef IO_JSON_AFTER_H
#define IO_JSON_AFTER_H

#include "base/measure.h"
#include "io/json.h"
#include "model/fact.h"

struct json_unit {
	const char *name;
	enum measure measure;
};

/* A member "units": {"force": "kN", ...}. */
void json_after_units(struct sb_json *j, const struct job *job, const struct json_unit *units, size_t count);

/* A member "struck": [{"entry", "kind", "text", "by"}], the entries of these kinds of acts that do not count,
 * kind by kind. */
void json_after_struck(struct sb_json *j, const struct job *job, const enum act_kind *kinds, size_t count);

#endif
