/* The acts: each one transaction of facts, journal, path and warnings.
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
#include "store/store.h"

#include "base/beside.h"
#include "base/mem.h"
#include "base/str.h"
#include "base/time.h"
#include "store/facts.h"
#include "store/handle.h"

#include <string.h>

/* One act and what comes with it; NULL: nothing of that kind. */
struct deed {
	struct act act;
	char uid[SB_CHAIN_UID];
	struct reading *reading;
	struct leg *leg;
	struct acknowledgement *acknowledgement;
	struct chain_end before; /* the chain before this act */
};

/* ---- before ---- */

static int check_words(const char *words, size_t size, bool required, const char *what, struct sb_err *err)
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

/* Ready to write, and the deed begun. */
static int prepare(
	struct sb_store *store, const char *who, enum act_kind kind, struct deed *d, struct sb_err *err)
{
	if (!store->writes)
		return sb_fail(
			err, SB_DENIED, "%s was opened to look on. Open it to write.", sb_handle_name(store));
	if (sb_handle_check_who(who, err) || sb_handle_revive(store, err) || sb_handle_there(store, err))
		return -1;
	const struct job *job = &store->job;
	*d = (struct deed){ .act = { .kind = kind, .at_ms = sb_time_now() } };
	d->act.id = job->act_count ? job->acts[job->act_count - 1].id + 1 : 1;
	d->act.offset_min = sb_time_offset(d->act.at_ms);
	d->act.leg = sb_job_leg(job);
	d->act.joint = sb_job_in_ground(job);
	sb_copy(d->act.who, sizeof d->act.who, who);
	sb_chain_uid(d->act.at_ms, d->uid);
	return 0;
}

/* The act's words, with line ends and control characters made harmless, as they will be read back. */
static void put_words(struct deed *d, const char *words)
{
	if (words == NULL || words[strspn(words, " \t\n")] == '\0')
		return;
	sb_copy(d->act.text, sizeof d->act.text, words);
	sb_utf8_tame(d->act.text);
}

/* Takes the fields through the same door that reading the file back goes through, so that memory and file
 * hold the same and no reading is written that cannot be read. */
static int take_fields(
	const struct sb_store *store, const struct reading *from, struct reading *to, struct sb_err *err)
{
	if (!sb_number_given(&from->joint_length))
		return sb_fail(err, SB_RANGE, "The length of the joint is missing.");
	for (size_t i = 0; i < sb_row_field_count; i++) {
		const struct row_field *f = &sb_row_fields[i];
		if (sb_row_field_put(f, to, store->job.incline, sb_row_field_get(f, from), err))
			return -1;
	}
	return 0;
}

static int64_t next_reading(const struct job *job)
{
	return job->reading_count ? job->readings[job->reading_count - 1].id + 1 : 1;
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
	return 0;
}

static void add_to_job(struct job *job, const struct deed *d)
{
	if (d->reading)
		sb_job_add_reading(job, d->reading);
	if (d->leg)
		sb_job_add_leg(job, d->leg);
	if (d->acknowledgement)
		sb_job_add_acknowledgement(job, d->acknowledgement);
	sb_job_add_act(job, &d->act);
}

/* A joint more costs the same however many there are; what reaches back is solved from the start. */
static int solve_and_publish(struct sb_store *store, enum act_kind kind, struct sb_err *err)
{
	struct job *job = &store->job;
	struct solution *s = &store->solution;
	size_t from = s->warning_count;

	switch (kind) {
	case ACT_LOG:
		if (sb_solve_joint(job, s, &from, err))
			return -1;
		if (store->stale)
			break;
		return sb_publish_joint(store->db, job, s, err) ||
				sb_publish_warnings(store->db, s, from, &store->published, err)
			? -1
			: 0;
	case ACT_CORRECT:
	case ACT_WITHDRAW:
		if (sb_solve(job, s, NULL, err))
			return -1;
		break;
	case ACT_ACKNOWLEDGE:
		sb_solve_acknowledged(job, s);
		if (store->stale)
			break;
		return sb_publish_warnings(store->db, s, 0, &store->published, err);
	case ACT_NEW:
	case ACT_NOTE:
	case ACT_SHIFT_BEGIN:
	case ACT_SHIFT_END:
		return 0;
	}
	if (sb_publish_all(store->db, job, s, &store->published, err))
		return -1;
	store->stale = false;
	return 0;
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

static int carry_out(struct sb_store *store, struct deed *d, struct sb_err *err)
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

/* ---- the acts ---- */

/* What a reading takes over from its act. */
static void sign(struct reading *r, struct deed *d)
{
	r->act = d->act.id;
	r->at_ms = d->act.at_ms;
	d->act.subject = r->id;
	d->act.leg = r->leg;
	d->act.joint = r->joint;
	sb_copy(r->who, sizeof r->who, d->act.who);
	sb_copy(r->reason, sizeof r->reason, d->act.text);
	d->reading = r;
}

int sb_store_log(struct sb_store *store, const char *who, const struct reading *r, struct sb_err *err)
{
	struct reading row = { 0 };
	struct deed d = { 0 };

	if (prepare(store, who, ACT_LOG, &d, err) || take_fields(store, r, &row, err) ||
		check_words(r->reason, SB_REMARK_TEXT, false, "The reason", err))
		return -1;
	put_words(&d, r->reason);
	row.id = next_reading(&store->job);
	row.leg = sb_job_leg(&store->job);
	row.joint = sb_job_in_ground(&store->job) + 1;
	sign(&row, &d);
	return carry_out(store, &d, err);
}

int sb_store_correct(
	struct sb_store *store, const char *who, int64_t reading, const struct reading *r, struct sb_err *err)
{
	struct reading row = { 0 };
	struct deed d = { 0 };

	if (prepare(store, who, ACT_CORRECT, &d, err) || take_fields(store, r, &row, err) ||
		check_words(r->reason, SB_REMARK_TEXT, true, "The reason for the correction", err))
		return -1;
	const struct reading *old = sb_job_reading(&store->job, reading);
	if (old == NULL)
		return sb_fail(err, SB_MISSING, "There is no reading %lld.", (long long)reading);
	if (sb_job_replaced(&store->job, old))
		return sb_fail(err, SB_STATE,
			"Reading %lld of joint %d was corrected already. Correct the newest one.",
			(long long)reading, old->joint);
	put_words(&d, r->reason);
	row.id = next_reading(&store->job);
	row.corrects = old->id;
	row.leg = old->leg;
	row.joint = old->joint;
	sign(&row, &d);
	return carry_out(store, &d, err);
}

int sb_store_withdraw(
	struct sb_store *store, const char *who, int to_joint, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct leg leg = { .to_joint = to_joint };

	if (prepare(store, who, ACT_WITHDRAW, &d, err) ||
		check_words(reason, SB_REMARK_TEXT, true, "The reason for pulling back", err))
		return -1;
	int in_ground = sb_job_in_ground(&store->job);
	if (in_ground == 0)
		return sb_fail(err, SB_STATE, "There is no joint in the ground to pull back.");
	if (to_joint < 0 || to_joint >= in_ground)
		return sb_fail(err, SB_RANGE,
			"The last joint to stay cannot be %d: %d %s in the ground, so it lies between 0 and %d.",
			to_joint, in_ground, in_ground == 1 ? "joint is" : "joints are", in_ground - 1);
	put_words(&d, reason);
	leg.number = sb_job_leg(&store->job) + 1;
	leg.act = d.act.id;
	leg.at_ms = d.act.at_ms;
	sb_copy(leg.who, sizeof leg.who, d.act.who);
	sb_copy(leg.reason, sizeof leg.reason, d.act.text);
	d.act.leg = leg.number;
	d.act.joint = to_joint;
	d.leg = &leg;
	return carry_out(store, &d, err);
}

/* An act that is words alone. */
static int say(struct sb_store *store, const char *who, enum act_kind kind, const char *words, bool required,
	const char *what, struct sb_err *err)
{
	struct deed d = { 0 };

	if (prepare(store, who, kind, &d, err) || check_words(words, sizeof d.act.text, required, what, err))
		return -1;
	put_words(&d, words);
	return carry_out(store, &d, err);
}

int sb_store_note(struct sb_store *store, const char *who, const char *text, struct sb_err *err)
{
	return say(store, who, ACT_NOTE, text, true, "The text of the note", err);
}

int sb_store_shift_begin(struct sb_store *store, const char *who, const char *names, struct sb_err *err)
{
	return say(store, who, ACT_SHIFT_BEGIN, names, true, "The names of the crew", err);
}

int sb_store_shift_end(struct sb_store *store, const char *who, const char *remarks, struct sb_err *err)
{
	if (sb_job_shift(&store->job) == NULL)
		return sb_fail(err, SB_STATE, "No shift is running that could end.");
	return say(store, who, ACT_SHIFT_END, remarks, false, "The remarks", err);
}

int sb_store_acknowledge(
	struct sb_store *store, const char *who, size_t warning, const char *reason, struct sb_err *err)
{
	struct deed d = { 0 };
	struct acknowledgement a = { 0 };

	if (prepare(store, who, ACT_ACKNOWLEDGE, &d, err) ||
		check_words(reason, SB_REMARK_TEXT, true, "The reason for the acknowledgement", err))
		return -1;
	if (warning >= store->solution.warning_count)
		return sb_fail(err, SB_MISSING, "There is no such warning.");
	const struct warning *w = &store->solution.warnings[warning];
	if (w->acknowledged)
		return sb_fail(
			err, SB_STATE, "%.64s has acknowledged this warning already.", w->acknowledged_by);
	put_words(&d, reason);
	a = (struct acknowledgement){ .act = d.act.id,
		.leg = w->leg,
		.joint = w->joint,
		.to_joint = w->last_joint,
		.level = (int)w->level,
		.at_ms = d.act.at_ms };
	sb_copy(a.kind, sizeof a.kind, sb_warning_sorts[w->kind].name);
	sb_copy(a.who, sizeof a.who, d.act.who);
	sb_copy(a.reason, sizeof a.reason, d.act.text);
	d.act.leg = w->leg;
	d.act.joint = w->joint;
	d.acknowledgement = &a;
	return carry_out(store, &d, err);
}
