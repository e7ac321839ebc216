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
/* The act's words: what was done, then why, cut where the file's column ends. */
void sb_deed_compose(struct deed *d, const char *what, const char *why);
/* What a fact takes over from its act. */
void sb_deed_sign(struct fact *f, const struct deed *d);
/* Carries out a deed that brings one fact of sb_fact_sort(kind): what and why become the act's words (what
 * may be ""). from: the fact, its columns given. */
int sb_deed_enter(struct sb_store *store, struct deed *d, const void *from, int64_t id, const char *what,
	const char *why, struct sb_err *err);
/* All of it, or nothing: 0 when it is on the disk. */
int sb_deed_carry_out(struct sb_store *store, struct deed *d, struct sb_err *err);

#endif
