/* make man: writes the lists into the documents. */
#include "man/pages.h"

#include "io/write.h"

#include <stdio.h>

int main(void)
{
	struct sb_err err;

	for (size_t i = 0; pages[i]; i++) {
		struct sb_str old = { 0 }, new = { 0 };
		pages_fill(pages[i], &old, &new);
		if (!sb_same(sb_str_get(&old), sb_str_get(&new))) {
			if (sb_write_whole(pages[i], true, sb_str_get(&new), new.length, &err))
				pages_die("%s", err.text);
			printf("%s: written\n", pages[i]);
		}
		sb_str_clear(&old);
		sb_str_clear(&new);
	}
	return 0;
}
