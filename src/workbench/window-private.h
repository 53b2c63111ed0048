/* The inside of the window, shared by the files that make it up and by no other. */
#pragma once

#include "course.h"
#include "notice-bar.h"
#include "side-pane.h"
#include "statement.h"
#include "window.h"
#include "work-keeper.h"

G_BEGIN_DECLS

struct _HwWindow
{
  GtkApplicationWindow parent_instance;

  HwBench *bench;
  HwCanvas *canvas;
  HwSidePane *side_pane;

  GtkLabel *title;
  GtkLabel *subtitle;
  GtkWidget *undo_button;
  GtkWidget *redo_button;
  GtkMenuButton *menu_button;
  GtkMenuButton *search_button;
  GtkStack *rooms; /* "table", and "machine" once it was wanted */
  GtkWidget *machine_view;
  GtkWidget *start_page;                 /* once it was wanted */
  GtkWidget *print_button, *pane_button; /* of the header */
  GtkRevealer *resume_bar;
  GtkLabel *resume;
  guint save_idle;
  GtkOverlay *table;
  GtkWidget *zoom_box;
  GtkRevealer *drawer;
  GtkBox *foot;
  GtkRevealer *message_bar;
  GtkWidget *message_box; /* an alert, spoken when it comes into view */
  GtkLabel *message;
  GMenu *recent_menu;
  GtkBox *bars; /* across the top: messages, questions */
  GtkWidget *left_bar, *changed_bar, *opened_bar, *lost_bar;
  GFile *opened; /* the scene that was opened last, or NULL */
  HwWorkKeeper *keeper;
  struct _HwWindowHints *hints;
  GPtrArray *left; /* HwLeftWork still to be asked about */
  GPtrArray *watched; /* GFileMonitor, of the folders where the scene's files lie */
  char *lost;         /* what was last said of files that can no longer be read, or NULL */
  guint look_wait;    /* source */
  GFileMonitor *monitor;
  guint settle;

  gboolean narrow;          /* the side pane lies over the table instead of beside it */
  gboolean laid_out_narrow; /* as it was last laid out */
  int laid_out_for;         /* px: the width the pane had room for */
  gboolean wants_pane;      /* as left by the person in a wide window */
  gboolean pane_open;       /* as it is now */
  gboolean has_scene; /* one was opened or begun here: not the bare bench of a window that just came up */
  gboolean leaves_for_good; /* the unsaved work was spoken of: close without asking again */
  guint layout_idle;
};

/* Called when the person has saved, or let go of, what was unsaved. */
typedef void (*HwWindowNext) (HwWindow *window, gpointer user_data);

void
hw_window_add_actions (HwWindow *window);
void
hw_window_add_file_actions (HwWindow *window);
void
hw_window_add_decisions (HwWindow *window);
void
hw_window_add_arranging (HwWindow *window);
/* Adds the action that takes the focus from one part of the window to the next. */
void
hw_window_add_going_round (HwWindow *window);
void
hw_window_add_parts (HwWindow *window);
void
hw_window_add_machine (HwWindow *window);
void
hw_window_add_handouts (HwWindow *window);
void
hw_window_add_keeping (HwWindow *window);
void
hw_window_add_opened (HwWindow *window);
/* What there is to say of the scene that was just opened from this file. */
void
hw_window_tell_of_opened (HwWindow *window, GFile *file);
void
hw_window_end_keeping (HwWindow *window);
/* Watches the files that the scene names. */
void
hw_window_add_watching (HwWindow *window);
void
hw_window_end_watching (HwWindow *window);
/* Saves, and keeps what the file held before. path NULL: where it was opened; by_itself: nobody asked for it. */
gboolean
hw_window_write (HwWindow *window, const char *path, gboolean by_itself, GError **error);
/* TRUE when the scene's file was changed by another program and the person is asked first; then nothing is to be saved now. */
gboolean
hw_window_asks_before_saving_over (HwWindow *window, const char *path);
/* Brings the actions' state in line with the bench. */
void
hw_window_update_actions (HwWindow *window);
void
hw_window_update_decisions (HwWindow *window);
void
hw_window_update_arranging (HwWindow *window);
void
hw_window_update_parts (HwWindow *window);
void
hw_window_update_machine (HwWindow *window);
void
hw_window_update_handouts (HwWindow *window);
void
hw_window_add_hints (HwWindow *window);
void
hw_window_end_hints (HwWindow *window);
/* The slip on an empty cloth, and what its buttons do. */
void
hw_window_add_bare (HwWindow *window);
/* The start page: shown by hw_window_show_start(), left for the table whenever there is a scene to be seen. */
void
hw_window_add_start (HwWindow *window);
gboolean
hw_window_is_at_start (HwWindow *window);
void
hw_window_leave_start (HwWindow *window);
/* Begins a new scene with the person's own hoops when none was opened or begun here. */
void
hw_window_need_scene (HwWindow *window);
void
hw_window_update_start (HwWindow *window);
/* window-session.c: keeps how the scene is seen, if it has a file; shows it so again, or whole when nothing is kept. */
void
hw_window_keep_seen (HwWindow *window);
void
hw_window_take_up_seen (HwWindow *window);
/* The same when the window closes, and which scene it was. */
void
hw_window_keep_last (HwWindow *window);
/* Takes and saves what is still being typed at the machine. */
void
hw_window_keep_machine (HwWindow *window);
gboolean
hw_window_is_at_machine (HwWindow *window);

/* Asks what to do with unsaved work, if there is any, then calls next; not when the person wants to go on working. */
void
hw_window_guard (HwWindow *window, HwWindowNext next, gpointer user_data, GDestroyNotify destroy);
/* Saves, asking for a place if there is none yet, then calls next (may be NULL); not when it could not be saved. */
void
hw_window_save (HwWindow *window, HwWindowNext next, gpointer user_data, GDestroyNotify destroy);
void
hw_window_update_title (HwWindow *window);
void
hw_window_fill_recent (HwWindow *window);

void
hw_window_set_pane_open (HwWindow *window, gboolean open);

G_END_DECLS
