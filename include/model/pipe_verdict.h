/* How the product pipe stands in this hole, in the three words of all warnings: each check, and the pull
 * against the contract's safe force.
 *
 * A breach is over what is allowed as everything is given; a watch is from [pull] watch of it on, or would be
 * over it at the top of the force's band. All of it is an estimate (model/pipe_load.h): its warning asks for
 * the engineer's word before the pull, and is judged when a pass begins or ends and when the pull begins.
 */
#ifndef SB_MODEL_PIPE_VERDICT_H
#define SB_MODEL_PIPE_VERDICT_H

#include "model/pipe_load.h"
#include "model/warning.h"

struct pipe_verdict {
	bool judged; /* false: nothing says what is allowed; the rest is 0 */
	enum level level;
	size_t at;    /* station where the share is largest */
	double ratio; /* the share there; over 1 it is not kept */
	double high;  /* the largest anywhere with the force at the top of its band */
};

struct pipe_verdict sb_pipe_verdict_check(const struct pipe_load *load, enum pipe_check check);
/* The largest force against the contract's safe force. */
struct pipe_verdict sb_pipe_verdict_force(const struct pipe_load *load);

/* The worst of the checks: by level, then by share. *check says which; unchanged where none is judged. */
struct pipe_verdict sb_pipe_verdict_worst(const struct pipe_load *load, enum pipe_check *check);

#endif
