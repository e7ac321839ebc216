/* A disk that fails when it is told to: an SQLite VFS named "fault" over the system's own.
 *
 * The nth operation of one kind fails, once or from then on. "Late" faults have done their work first: a sync
 * that happened and yet reports failure, a delete that took place, a write that wrote half; a late lock is
 * one that somebody else holds.
 */
#ifndef SUPPORT_FAULT_H
#define SUPPORT_FAULT_H

#include <stdbool.h>

#define FAULT_VFS "fault"

enum fault_kind { FAULT_WRITE, FAULT_SYNC, FAULT_OPEN, FAULT_DELETE, FAULT_LOCK, FAULT_FULL, FAULT_KINDS };
const char *fault_name(enum fault_kind kind);

void fault_register(void);
void fault_arm(enum fault_kind kind, int nth, bool for_good, bool late);
/* Back to a disk that works. Returns whether the fault was reached. */
bool fault_disarm(void);
/* How many operations of the kind that was armed there were until it was disarmed, failed ones too. */
int fault_seen(void);

#endif
