/* One act and what comes with it, from the check to the commit. */
#ifndef SB_STORE_DEED_H
#define SB_STORE_DEED_H

#include "store/facts.h"
#include "store/store.h"

/* NULL: nothing of that kind. */
struct deed {
	struct act act;
	char uid[SB_CHAIN_UID];
	struct reading *reading;
	struct leg *leg;
	struct acknowledgement *acknowledgement;
	struct change *changes; /* change_count of them */
	size_t change_count;
	const struct fact_sort *sort; /* of fact */
	union any_fact *fact;
	struct chain_end before; /* the chain before this act */
};

/* Ready to write, and the deed begun. */
int sb_deed_prepare(
	struct sb_store *store, const char *who, enum act_kind kind, struct deed *d, struct sb_err *err);
/* what: "The reason", for the sentence that refuses. */
int sb_deed_check_words(const char *words, size_t size, bool required, const char *what, struct sb_err *err);
/* The act's words, with line ends and control characters made harmless, as they will be read back. */
void sb_deed_put_words(struct deed *d, const char *words);
/* All of it, or nothing: 0 when it is on the disk. */
int sb_deed_carry_out(struct sb_store *store, struct deed *d, struct sb_err *err);

#endif
