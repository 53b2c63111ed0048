/* Work on other threads that the program's end waits for. */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

/* From now on the program's end waits for what is at work, two seconds at most, and begins nothing more: what shapes letters frees at exit() what a thread that still draws
 * a page reads. To be called once, on the main thread, when letters can be shaped. */
void
hw_at_work_add_end (void);
/* g_task_run_in_thread() for what draws or reads pictures. A task that comes to its turn when the program ends is cancelled. */
void
hw_at_work_run (GTask *task, GTaskThreadFunc run);
/* The same for other threads, between begin and end: FALSE when the program ends; then nothing is to be begun, and _end() not called. */
gboolean
hw_at_work_begin (void);
void
hw_at_work_end (void);

G_END_DECLS
