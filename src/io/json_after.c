/* Units and struck entries as JSON. */
#include "json_after.h"

void json_after_units(struct sb_json *j, const struct job *job, const struct json_unit *units, size_t count)
{
	sb_json_object(j, "units");
	for (size_t i = 0; i < count; i++)
		sb_json_text(j, units[i].name, sb_measure_unit(job->unit, units[i].measure));
	sb_json_end(j);
}

static void put_struck(struct sb_json *j, const struct job *job, const struct fact *f)
{
	sb_json_object(j, NULL);
	sb_json_whole(j, "entry", f->act);
	sb_json_text(j, "kind", sb_act_name(sb_job_act(job, f->act)->kind));
	sb_json_text_or_null(j, "text", f->words);
	sb_json_text(j, "by", f->who);
	sb_json_end(j);
}

void json_after_struck(struct sb_json *j, const struct job *job, const enum act_kind *kinds, size_t count)
{
	sb_json_array(j, "struck");
	for (size_t k = 0; k < count; k++) {
		const struct fact_sort *sort = sb_fact_sort(kinds[k]);
		for (size_t i = 0; i < sb_fact_count(sort, job); i++) {
			const struct fact *f = sb_fact_row(sort, job, i);
			if (sb_fact_struck(sort, f))
				put_struck(j, job, f);
		}
	}
	sb_json_end(j);
}
