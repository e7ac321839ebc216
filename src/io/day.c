/* The figures of a day. Whether something belongs to it goes by the local time that was kept with its act. */
#include "io/day.h"

#include "base/mem.h"

#define DAY_MS INT64_C(86400000)

static int64_t day_of(const struct act *a)
{
	return sb_period_day(a->at_ms, a->offset_min);
}

static void date_text(int64_t day, char text[SB_TIME_TEXT])
{
	sb_time_day(day * DAY_MS, text);
}

/* Whether anything but the making of the job was done on that day; the first and the last day on which it
 * was. */
static bool find_days(const struct job *job, int64_t day, int64_t *first, int64_t *last)
{
	bool there = false, any = false;

	for (size_t i = 0; i < job->act_count; i++) {
		int64_t at = day_of(&job->acts[i]);
		if (job->acts[i].kind == ACT_NEW)
			continue;
		*first = any && *first < at ? *first : at;
		*last = any && *last > at ? *last : at;
		any = true;
		there = there || at == day;
	}
	if (!any)
		*first = INT64_MAX;
	return there;
}

static int choose_day(
	const struct job *job, const char *date, int64_t *day, bool *is_last, struct sb_err *err)
{
	int64_t ms = 0, first = 0, last = 0;
	char from[SB_TIME_TEXT], to[SB_TIME_TEXT];

	if (date && sb_time_parse_day(date, &ms, err))
		return -1;
	*day = ms / DAY_MS;
	bool there = find_days(job, *day, &first, &last);
	if (first == INT64_MAX)
		return sb_fail(
			err, SB_MISSING, "Nothing was done on this job yet, so there is no day to report.");
	if (date == NULL)
		*day = last;
	else if (!there) {
		date_text(first, from);
		date_text(last, to);
		return sb_fail(err, SB_MISSING, "Nothing was done on %s: the log has entries from %s to %s.",
			date, from, to);
	}
	*is_last = *day == last;
	return 0;
}

/* What was in the ground at the end of the day, joint by joint: legs that began by then have pulled back. */
static void take_to_date(struct day *d)
{
	const struct timeline *t = &d->timeline;
	double *lengths = sb_alloc((t->count + 1) * sizeof *lengths);
	size_t leg = 0, count = 0;

	for (size_t i = 0; i <= t->count; i++) {
		const struct joint_time *j = i < t->count ? &t->list[i] : NULL;
		if (j && sb_period_day(j->at_ms, j->offset_min) > d->span.day)
			j = NULL;
		for (; leg < d->job->leg_count; leg++) {
			const struct act *a = sb_job_act(d->job, d->job->legs[leg].act);
			bool begun = j ? d->job->legs[leg].number <= j->reading->leg
				       : a && day_of(a) <= d->span.day;
			if (!begun)
				break;
			size_t stay = (size_t)d->job->legs[leg].to_joint;
			count = stay < count ? stay : count;
		}
		if (j == NULL)
			break;
		lengths[count++] = j->reading->joint_length.value;
		d->drilled++;
		d->drilled_length += j->reading->joint_length.value;
	}
	d->in_ground = count;
	for (size_t i = 0; i < count; i++)
		d->in_ground_length += lengths[i];
	sb_free(lengths);
}

/* From the bit as it stands, of the last day; else from where the path had come to. */
static void take_left(struct day *d)
{
	const struct bit *b = &d->s->bit;

	d->left_known = d->last ? b->known : d->period.end && d->period.end->on_path;
	if (d->left_known)
		d->left_m = d->s->design.length_m -
			(d->last ? b->deviation.station_m : d->period.end->deviation.station_m);
}

int sb_day_take(const struct job *job, const struct solution *s, const char *date, int64_t now_ms,
	struct day *out, struct sb_err *err)
{
	struct day d = { .job = job, .s = s, .span = { .by_day = true } };

	if (choose_day(job, date, &d.span.day, &d.last, err))
		return -1;
	date_text(d.span.day, d.date);
	sb_timeline_take(job, &d.timeline);
	sb_period_take(s, &d.timeline, &d.span, &d.period);
	take_to_date(&d);
	take_left(&d);
	if (d.last)
		d.out = sb_timeline_out(job, s, &d.timeline, now_ms);
	*out = d;
	return 0;
}

void sb_day_clear(struct day *day)
{
	sb_timeline_clear(&day->timeline);
	*day = (struct day){ 0 };
}
