/* The inside of the "At the machine" view, shared by the files that make it up and by no other. */
#pragma once

#include "../planning/marks.h"
#include "machine-picture.h"
#include "machine-view.h"
#include "machine-work.h"
#include "readings-fields.h"

G_BEGIN_DECLS

struct _HwMachineView
{
  GtkBox parent_instance;

  HwBench *bench;
  HwMachineWork *work; /* NULL: no hooping is in the machine */

  GtkWidget *bead;
  GtkWidget *title;
  GtkWidget *saved;
  GtkWidget *strip;
  GtkWidget *strip_words[HW_N_WORK_STEPS];
  GtkWidget *picture;
  GtkWidget *scroller;
  GtkWidget *page; /* a box, filled anew for each step */
  GtkWidget *back;
  GtkWidget *next;
  GtkWidget *next_words;
  GtkWidget *extras; /* what else can be done at this step */

  /* Of the page shown, else NULL. */
  char *shown; /* tells whether the page has to be made anew */
  HwReadingsFields *readings;
  GtkWidget *answer;    /* a box below the readings */
  GtkWidget *question;  /* the buttons that answer a doubt; or NULL */
  GtkWidget *taken_off; /* the check that the template is off */
  GtkWidget *taken_off_hint;
  GtkWidget *note;
  HwWorkStep note_step;

  gboolean roomy; /* in a large window the type is larger still */
  guint roomy_idle, show_idle;
  char *mark;     /* the letter spoken of */
  char *accepted; /* the doubtful readings the person said are right */
};

/* Fills the page for the step of the work, or for none. machine-pages.c. */
void
hw_machine_fill_page (HwMachineView *view);
/* The page for reading the needle and what follows from it. machine-readings.c. */
void
hw_machine_fill_readings (HwMachineView *view);
void
hw_machine_update_readings (HwMachineView *view);
void
hw_machine_update_answer (HwMachineView *view);
/* The hooping's marks where the plan has them, letter and design. Returns: (transfer full): n of them */
HwReading *
hw_machine_marks (HwMachineView *view, guint *n);
/* Asks for a photo of the hooped cloth. machine-photo.c. */
void
hw_machine_read_photo_cb (GtkButton *button, HwMachineView *view);
/* Whether readings stand there that cannot be meant and were not said to be right. */
gboolean
hw_machine_readings_are_doubtful (HwMachineView *view);
void
hw_machine_accept_readings (HwMachineView *view);
/* Does what a doubt suggests: takes inches, exchanges letters, turns ways. */
void
hw_machine_mend_readings (HwMachineView *view);
void
hw_machine_fill_correction (HwMachineView *view);
/* The page for the threads. machine-threads.c. */
void
hw_machine_fill_threads (HwMachineView *view);
/* What the threads' page says of the bobbin. machine-bobbin.c. */
void
hw_machine_fill_bobbin (HwMachineView *view);
/* The page between two hoopings. machine-between.c. */
void
hw_machine_fill_between (HwMachineView *view);
/* Whether the plan at hand is one for what is stitched by now. */
gboolean
hw_machine_plan_is_of_today (HwBench *bench);
/* The hooping to begin next, or -1: not known yet, or none is left. */
int
hw_machine_next_hooping (HwBench *bench);

/* Verbs of the view, called by buttons and keys. */
void
hw_machine_go_on (HwMachineView *view);
void
hw_machine_go_back (HwMachineView *view);

void
hw_machine_leave (HwMachineView *view);
/* machine-keys.c */
gboolean
hw_machine_key_cb (
    GtkEventControllerKey *controller, guint keyval, guint code, GdkModifierType state, HwMachineView *view);
/* Lays out the picture and, beside it, the words. machine-layout.c */
GtkLayoutManager *
hw_machine_layout_new (void);

/* Parts. */
GtkWidget *
hw_machine_words (const char *text, const char *css_class);
GtkWidget *
hw_machine_add_words (HwMachineView *view, const char *text, const char *css_class);
/* A button whose words go on a second line where there is no room. */
GtkWidget *
hw_machine_button (const char *words);
/* A button among the extras that says its key. */
GtkWidget *
hw_machine_add_extra (HwMachineView *view, const char *label, const char *key, GCallback clicked);
/* What the button that goes on says. */
void
hw_machine_name_next (HwMachineView *view, const char *label);
/* A square of thread in its colour, side px. */
GtkWidget *
hw_thread_swatch_new (HwColour colour, int side);

G_END_DECLS
