/* Between the files of the pipe string. */
#ifndef SB_MODEL_PIPE_STRING_PARTS_H
#define SB_MODEL_PIPE_STRING_PARTS_H

#include "model/pipe_string.h"

/* Finds what is missing of a string that is put together. */
void pipe_string_lacks(const struct job *job, struct pipe_string *s);

#endif
