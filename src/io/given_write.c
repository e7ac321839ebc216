/* The files of a design, together or not at all. Each is written beside its place and synced before either
 * gets its name (io/write.h); should the second then not get it, the first is taken back: what stood there
 * before is written again, or nothing is left.
 */
#include "io/load.h"
#include "io/write.h"

#include <stdio.h>
#include <unistd.h>

#include "given_parts.h"

#define OLD_FILE (1u << 20) /* bytes of a table that is replaced and may have to be put back */

struct target {
	char path[4096];
	struct sb_str text, old;
	bool was_there;
	struct sb_write *beside;
};

static int begin(struct target *t, bool replace, struct sb_err *err)
{
	t->was_there = access(t->path, F_OK) == 0;
	if (sb_write_begin(t->path, replace, &t->beside, err)) {
		t->beside = NULL;
		if (err && err->code == SB_EXISTS)
			return sb_fail(err, SB_EXISTS,
				"'%.300s' is there already and was left as it is. Say --replace if it may be replaced. Nothing was written.",
				t->path);
		return -1;
	}
	if (t->was_there && sb_load(t->path, OLD_FILE, &t->old, err))
		return sb_fail_within(err, "%.200s is there, and is no table: ", t->path);
	sb_write_put(t->beside, t->text.text, t->text.length);
	return sb_write_sync(t->beside, err);
}

static void take_back(const struct target *t)
{
	if (t->was_there)
		sb_write_whole(t->path, true, sb_str_get(&t->old), t->old.length, NULL);
	else
		unlink(t->path);
}

static int write_targets(struct target *t, size_t count, bool replace, struct sb_err *err)
{
	int failed = 0;

	for (size_t i = 0; i < count && !failed; i++)
		failed = begin(&t[i], replace, err);
	for (size_t i = 0; i < count && !failed; i++) {
		struct sb_write *w = t[i].beside;
		t[i].beside = NULL;
		failed = sb_write_end(w, err);
		if (failed && i > 0)
			take_back(&t[0]);
	}
	for (size_t i = 0; i < count; i++)
		sb_write_abandon(t[i].beside);
	return failed;
}

int sb_given_write(const struct given *d, const char *folder, bool replace, struct sb_err *err)
{
	struct target targets[2] = { 0 };
	size_t count = 0;

	if (d->alignment.count) {
		snprintf(targets[count].path, sizeof targets[count].path, "%s/alignment.csv", folder);
		sb_given_alignment_csv(d, &targets[count++].text);
	}
	if (d->profile.count) {
		snprintf(targets[count].path, sizeof targets[count].path, "%s/profile.csv", folder);
		sb_given_profile_csv(d, &targets[count++].text);
	}
	int failed = write_targets(targets, count, replace, err);
	for (size_t i = 0; i < count; i++) {
		sb_str_clear(&targets[i].text);
		sb_str_clear(&targets[i].old);
	}
	return failed;
}
