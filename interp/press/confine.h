/* confine.h - what the press gives up before it reads its text: writing, all files but fonts, other programs,
 * connections. What the kernel cannot keep it from (base/landlock.h, base/call_filter.h) is done without. */
#ifndef PRESS_CONFINE_H
#define PRESS_CONFINE_H

/* Reads the settings and the list of fonts; from here on only fonts can be opened, for reading. */
void confine_to_fonts(void);

/* Nothing can be opened but standard output again, by its name in /proc. */
void confine_to_output(void);

#endif
