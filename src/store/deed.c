/* Carrying out an act: one transaction of facts, journal, path and warnings.
 *
 * 1. Before anything is written the act is checked against the job as it is.
 * 2. When anything fails the transaction is taken back and job and solution are read from the file again.
 * 3. A commit that fails may have happened all the same (the last sync is what failed). Every act has an id
 * of its own, made before; after a failure the file is opened again and the id looked up. It is never entered
 *    a second time.
 *
 *    check -> begin -> write facts -> add to job -> solve -> publish -> commit
 *                 \____________________ failed: undo __________________/
 */
#include "store/deed.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "model/after.h"
#include "store/handle.h"

#include <string.h>

/* ---- before ---- */

int sb_deed_check_words(const char *words, size_t size, bool required, const char *what, struct sb_err *err)
{
	if (words == NULL || words[strspn(words, " \t\n")] == '\0')
		return required ? sb_fail(err, SB_RANGE, "%s is missing.", what) : 0;
	if (!sb_utf8_valid(words, strlen(words)))
		return sb_fail(err, SB_FORMAT, "%s is not UTF-8 text.", what);
	if (strlen(words) >= size)
		return sb_fail(err, SB_RANGE, "%s is too long by %zu bytes: %zu fit.", what,
			strlen(words) - size + 1, size - 1);
	return 0;
}

/* What may still be done when the pilot is accepted: words, shifts, opening it again, and all that comes
 * after it. */
static bool outlives_the_pilot(enum act_kind kind)
{
	return sb_after_is(kind) || kind == ACT_STRIKE || kind == ACT_NOTE || kind == ACT_ACKNOWLEDGE ||
		kind == ACT_SHIFT_BEGIN || kind == ACT_SHIFT_END || kind == ACT_REOPEN;
}

static int check_open(const struct job *job, enum act_kind kind, struct sb_err *err)
{
	const struct acceptance *a = sb_job_accepted(job);

	if (a == NULL || outlives_the_pilot(kind))
		return 0;
	return sb_fail(err, SB_STATE,
		"%.63s accepted the pilot: it is closed. Whoever has to change it opens it again first, with a reason (acceptance).",
		a->fact.who);
}

int sb_deed_prepare(
	struct sb_store *store, const char *who, enum act_kind kind, struct deed *d, struct sb_err *err)
{
	if (!store->writes)
		return sb_fail(
			err, SB_DENIED, "%s was opened to look on. Open it to write.", sb_handle_name(store));
	if (sb_handle_check_who(who, err) || sb_handle_revive(store, err) || sb_handle_there(store, err))
		return -1;
	const struct job *job = &store->job;
	if (check_open(job, kind, err))
		return -1;
	*d = (struct deed){ .act = { .kind = kind, .at_ms = sb_time_now() } };
	d->act.id = job->act_count ? job->acts[job->act_count - 1].id + 1 : 1;
	d->act.offset_min = sb_time_offset(d->act.at_ms);
	d->act.leg = sb_job_leg(job);
	d->act.joint = sb_job_in_ground(job);
	sb_copy(d->act.who, sizeof d->act.who, who);
	sb_chain_uid(d->act.at_ms, d->uid);
	return 0;
}

void sb_deed_put_words(struct deed *d, const char *words)
{
	if (words == NULL || words[strspn(words, " \t\n")] == '\0')
		return;
	sb_copy(d->act.text, sizeof d->act.text, words);
	sb_utf8_tame(d->act.text);
}

/* ---- the steps ---- */

/* The write lock is held from here on, so the file is and stays what was read, or else somebody wrote in
 * between and the act was decided on something that is no longer so. */
static int begin(struct sb_store *store, const struct deed *d, struct sb_err *err)
{
	int64_t seen;

	if (sb_sql_begin(store->db, sb_act_name(d->act.kind), err))
		return -1;
	int status = sb_sql_changed(store->db, &seen, err);
	if (status == 0 && seen == store->seen)
		return 0;
	sb_sql_rollback(store->db);
	if (status || sb_handle_load(store, err))
		return -1;
	return sb_fail(err, SB_STATE,
		"Another program changed %s in the meantime. Nothing was entered: look at it again first.",
		sb_handle_name(store));
}

static int write_facts(struct sb_store *store, const struct deed *d, struct sb_err *err)
{
	struct sb_sql *db = store->db;
	struct chain_end *end = &store->end;

	if (sb_facts_act(db, end, &d->act, d->uid, err))
		return -1;
	if (d->reading && sb_facts_reading(db, end, d->reading, err))
		return -1;
	if (d->leg && sb_facts_leg(db, end, d->leg, err))
		return -1;
	int64_t id = (int64_t)store->job.acknowledgement_count + 1;
	if (d->acknowledgement && sb_facts_acknowledgement(db, end, id, d->acknowledgement, err))
		return -1;
	for (size_t i = 0; i < d->change_count; i++)
		if (sb_facts_change(db, end, d->changes[i].fact.id, &d->changes[i], err))
			return -1;
	return d->sort ? sb_facts_sort(db, end, d->sort, d->fact, err) : 0;
}

static void add_to_job(struct job *job, const struct deed *d)
{
	if (d->reading)
		sb_job_add_reading(job, d->reading);
	if (d->leg)
		sb_job_add_leg(job, d->leg);
	if (d->acknowledgement)
		sb_job_add_acknowledgement(job, d->acknowledgement);
	for (size_t i = 0; i < d->change_count; i++)
		sb_job_add_change(job, &d->changes[i]);
	if (d->sort)
		sb_fact_add(job, d->act.kind, d->fact);
	sb_job_add_act(job, &d->act);
}

/* What an act may move of what is computed. */
enum moves { MOVES_NOTHING, MOVES_JOINT, MOVES_WARNINGS, MOVES_MARKS, MOVES_ALL };

static enum moves moved_by(enum act_kind kind)
{
	switch (kind) {
	case ACT_LOG: /* a joint more costs the same however many there are */
		return MOVES_JOINT;
	case ACT_CORRECT:
	case ACT_WITHDRAW:
	case ACT_CHANGE:
	case ACT_FIX:
	case ACT_FIX_USE:
	case ACT_ADJUST:
	case ACT_ADJUST_BACK:
		return MOVES_ALL;
	case ACT_RETURNS: /* the path stays, and what is warned of may not */
	case ACT_PASS:
	case ACT_PASS_JOINT:
	case ACT_PASS_END:
	case ACT_PIPE:
	case ACT_PIPE_RECORD:
	case ACT_PULL:
	case ACT_PULL_JOINT:
	case ACT_PULL_END:
	case ACT_STRIKE:
		return MOVES_WARNINGS;
	case ACT_ACKNOWLEDGE:
		return MOVES_MARKS;
	case ACT_NEW:
	case ACT_NOTE:
	case ACT_REPEAT: /* it never moves the path */
	case ACT_ACCEPT: /* nor do words on it */
	case ACT_ACCEPT_BACK:
	case ACT_TICK:
	case ACT_TICK_BACK:
	case ACT_SIGN:
	case ACT_REOPEN:
	case ACT_SHIFT_BEGIN:
	case ACT_SHIFT_END:
		break;
	}
	return MOVES_NOTHING;
}

/* *from: the first warning that may be another now. */
static int solve_again(struct sb_store *store, enum moves moves, size_t *from, struct sb_err *err)
{
	*from = 0;
	if (moves == MOVES_JOINT) {
		*from = store->solution.warning_count;
		return sb_solve_joint(&store->job, &store->solution, from, err);
	}
	if (moves == MOVES_MARKS) {
		sb_solve_acknowledged(&store->job, &store->solution);
		return 0;
	}
	return sb_solve(&store->job, &store->solution, NULL, err);
}

/* Writes as much of the computed tables as the act moved; all of them where they were not what solving gives.
 */
static int solve_and_publish(struct sb_store *store, enum act_kind kind, struct sb_err *err)
{
	enum moves moves = moved_by(kind);
	size_t from;

	if (moves == MOVES_NOTHING)
		return 0;
	if (solve_again(store, moves, &from, err))
		return -1;
	if (moves == MOVES_ALL || store->stale) {
		if (sb_publish_all(store->db, &store->job, &store->solution, &store->published, err))
			return -1;
		store->stale = false;
		return 0;
	}
	if (moves == MOVES_JOINT && sb_publish_joint(store->db, &store->job, &store->solution, err))
		return -1;
	return sb_publish_warnings(store->db, &store->solution, from, &store->published, err);
}

/* ---- when it failed ---- */

/* Takes one act out of the job in memory: for when the file cannot even be read. */
static void forget(struct sb_store *store, int64_t act)
{
	struct job old = store->job, *job = &store->job;

	job->readings = NULL;
	job->joints = job->ground_joints = NULL;
	job->legs = NULL;
	job->acts = NULL;
	job->acknowledgements = NULL;
	sb_fact_forget(job, act); /* the act is the last one, so what came with it stands last too */
	while (job->change_count > 0 && job->changes[job->change_count - 1].fact.act == act)
		job->change_count--;
	job->reading_count = job->reading_room = job->joint_count = job->joint_room = 0;
	job->in_ground = job->in_ground_room = job->leg_count = job->leg_room = 0;
	job->act_count = job->act_room = job->acknowledgement_count = job->acknowledgement_room = 0;
	for (size_t a = 0, r = 0, l = 0, k = 0; a < old.act_count && old.acts[a].id != act; a++) {
		int64_t id = old.acts[a].id;
		if (r < old.reading_count && old.readings[r].act == id)
			sb_job_add_reading(job, &old.readings[r++]);
		if (l < old.leg_count && old.legs[l].act == id)
			sb_job_add_leg(job, &old.legs[l++]);
		if (k < old.acknowledgement_count && old.acknowledgements[k].act == id)
			sb_job_add_acknowledgement(job, &old.acknowledgements[k++]);
		sb_job_add_act(job, &old.acts[a]);
	}
	sb_free(old.readings);
	sb_free(old.joints);
	sb_free(old.ground_joints);
	sb_free(old.legs);
	sb_free(old.acts);
	sb_free(old.acknowledgements);
	/* The sheet was solved before, and solving it again cannot fail. */
	sb_solve(job, &store->solution, NULL, NULL);
}

/* The file could not be opened again after a failure: the store is lost until it can be. */
static int undo_without_file(struct sb_store *store, const struct deed *d, struct sb_err *err)
{
	forget(store, d->act.id);
	store->end = d->before;
	sb_copy(store->unclear, sizeof store->unclear, d->uid);
	return sb_fail_within(err,
		"It is not known whether this was saved, and %s cannot be read at this moment; before anything more is entered it is read again. ",
		sb_handle_name(store));
}

/* The act is in the file though an error was returned: what failed is making the removal of SQLite's journal
 * durable. Without that a power cut could bring the journal back, and take the act away. */
static int make_sure(const struct sb_store *store, struct sb_err *err)
{
	if (sb_beside_sync(store->path, err) == 0)
		return 0;
	return sb_fail_within(err,
		"This was entered, but the disk does not confirm that it is safe. Do not enter it again; make a backup on another disk now. ");
}

static int undo(struct sb_store *store, const struct deed *d, struct sb_err *err)
{
	struct sb_err again = { 0 };

	if (sb_sql_within(store->db))
		sb_sql_rollback(store->db);
	if (sb_handle_reopen(store, &again))
		return undo_without_file(store, d, err);
	int found = sb_handle_find(store, d->uid, &again);
	if (found < 0) {
		sb_sql_close(store->db);
		store->db = NULL;
		return undo_without_file(store, d, err);
	}
	return found ? make_sure(store, err) : -1; /* err still says why */
}

int sb_deed_carry_out(struct sb_store *store, struct deed *d, struct sb_err *err)
{
	struct sb_err own = { 0 };

	if (err == NULL)
		err = &own;
	if (begin(store, d, err))
		return -1;
	d->before = store->end;
	int status = write_facts(store, d, err);
	if (status == 0) {
		add_to_job(&store->job, d);
		status = solve_and_publish(store, d->act.kind, err);
	}
	if (status == 0)
		status = sb_sql_commit(store->db, err);
	return status ? undo(store, d, err) : 0;
}
