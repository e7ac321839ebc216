/* Writing facts: a row of a fact table and its row in the journal, inside the transaction of an act. */
#ifndef SB_STORE_FACTS_H
#define SB_STORE_FACTS_H

#include "model/fact.h"
#include "store/chain.h"

/* The tables of the job sheet, by the names of sb_sheet_tables; columns are bound and read by theirs. */
struct sheet_sql {
	const char *name, *insert, *select;
};
extern const struct sheet_sql sb_facts_sheets[];
extern const size_t sb_facts_sheet_count;

/* The facts that come one with an act: id and act, then the sort's columns in their order. */
struct fact_sql {
	const char *insert, *select;
};
const struct fact_sql *sb_facts_sql(const struct fact_sort *sort);

/* Each adds to the chain too. Facts name their act, so the act comes first. */
int sb_facts_act(
	struct sb_sql *db, struct chain_end *end, const struct act *a, const char *uid, struct sb_err *err);
int sb_facts_reading(struct sb_sql *db, struct chain_end *end, const struct reading *r, struct sb_err *err);
int sb_facts_leg(struct sb_sql *db, struct chain_end *end, const struct leg *l, struct sb_err *err);
int sb_facts_acknowledgement(struct sb_sql *db, struct chain_end *end, int64_t id,
	const struct acknowledgement *a, struct sb_err *err);
int sb_facts_change(
	struct sb_sql *db, struct chain_end *end, int64_t id, const struct change *c, struct sb_err *err);
/* A fact that comes one with an act. */
int sb_facts_sort(struct sb_sql *db, struct chain_end *end, const struct fact_sort *sort, const void *fact,
	struct sb_err *err);
/* All settings and all rows of the sheet's tables. */
int sb_facts_sheet(
	struct sb_sql *db, struct chain_end *end, const struct job *job, int64_t act, struct sb_err *err);

#endif
