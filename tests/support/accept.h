/* The pilot is signed as it is, whatever is missing: for tests of what comes after it.
 */
#ifndef SUPPORT_ACCEPT_H
#define SUPPORT_ACCEPT_H

#include "model/job.h"
#include "store/deed.h"
#include "store/store.h"

static inline int accept_as_it_is(struct sb_store *store, struct sb_err *err)
{
	struct deed d = { 0 };
	struct acceptance a = { .accepted = 1, .capacity = "engineer" };
	int64_t id = (int64_t)sb_store_job(store)->acceptance_count + 1;

	return sb_deed_prepare(store, "Ida", ACT_SIGN, &d, err) ||
			sb_deed_enter(store, &d, &a, id, "", "Accepted.", err)
		? -1
		: 0;
}

#endif
