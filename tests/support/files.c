/* Job files in a folder that is removed with all that stands in it. */
#include "support/files.h"

#include "support/jobs.h"
#include "support/near.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* The design's attitude beside the end of the path, scattered by a repeatable tenth of a degree. */
static struct reading next_reading(const struct job *job, const struct solution *s)
{
	const struct row *last = sb_solution_last(s);
	double station = last->deviation.station_m +
		sb_frame_metres(&s->frame, sb_job_tally(job, last->joint + 1).value);
	/* Long jobs run on past the exit along its tangent; going round the crossing again keeps them in the
	 * ground. */
	while (station > s->design.length_m * 0.9)
		station -= s->design.length_m * 0.7;
	struct design_place p = sb_design_at(&s->design, station);
	double scatter = (double)(last->joint * 7919 % 21 - 10) / 100;
	struct number inc = sb_number_of(sb_frame_inc_typed(&s->frame, p.inc_rad) + scatter, 1);
	struct number azi = sb_number_of(sb_frame_azi_typed(&s->frame, p.azi_rad) + scatter, 1);

	return jobs_reading(job, "", inc.text, azi.text);
}

void files_log(struct sb_store *store, int joints)
{
	struct sb_err err = { 0 };

	for (int i = 0; i < joints; i++) {
		struct reading r = next_reading(sb_store_job(store), sb_store_solution(store));
		if (sb_store_log(store, "Ida", &r, &err)) {
			print_error("joint %d: %s\n", i + 1, err.text);
			fail();
		}
	}
}

void files_make(struct files *f, void (*make)(struct job *job), int joints)
{
	struct sb_store *store = NULL;
	struct sb_err err = { 0 };
	struct job job;

	snprintf(f->folder, sizeof f->folder, "/tmp/sagbend-test-XXXXXX");
	assert_non_null(mkdtemp(f->folder));
	snprintf(f->job, sizeof f->job, "%s/job.bore", f->folder);
	make(&job);
	if (sb_store_create(f->job, &job, "Ida", &err) ||
		sb_store_open(f->job, STORE_WRITE, "Ida", &store, &err)) {
		print_error("%s\n", err.text);
		fail();
	}
	sb_job_clear(&job);
	files_log(store, joints);
	sb_store_close(store);
}

void files_remove(struct files *f)
{
	DIR *folder = opendir(f->folder);

	for (struct dirent *e; folder && (e = readdir(folder)) != NULL;)
		if (e->d_name[0] != '.' || strlen(e->d_name) > 2)
			unlinkat(dirfd(folder), e->d_name, 0);
	if (folder)
		closedir(folder);
	rmdir(f->folder);
}
