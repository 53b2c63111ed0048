/* At the machine: what is on the bobbin, whether it lasts for this hooping, and that a full one is in. */
#include <glib/gi18n.h>
#include <math.h>

#include "../paper/thread-words.h"
#include "../planning/supplies.h"
#include "machine-private.h"

static char *
metres_of (HwMachineView *view, double metres)
{
  return hw_words_thread (metres, hw_bench_get_unit (view->bench));
}

/* "leaf green, Fig branch" */
static char *
block_words (HwMachineView *view, const HwBlockStep *block)
{
  const HwMotif *motif = hw_snapshot_motif (view->work->snapshot, block->motif);

  /* Translators: a thread and the motif it is stitched in */
  return g_strdup_printf (_ ("%s, %s"), motif->threads[block->block].name, motif->name);
}

/* It ends before the hooping does: a sentence in a frame. */
static void
add_warning (HwMachineView *view, const HwSupplies *supplies, const HwHoopingSupplies *taken)
{
  g_autofree char *left = metres_of (view, supplies->bobbin_now);
  g_autofree char *needed = metres_of (view, taken->bobbin_metres);
  g_autofree char *where = block_words (view, &taken->bobbin_out_at);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 6);
  /* Translators: metres on the bobbin, metres still needed, a thread and its motif */
  g_autofree char *text = g_strdup_printf (
      _ ("The bobbin has about %s left and this hooping still takes %s: it would end in %s."), left, needed,
      where);

  gtk_widget_add_css_class (box, "machine-doubt");
  gtk_box_append (GTK_BOX (box), hw_machine_words (text, "machine-advice"));
  gtk_box_append (
      GTK_BOX (box),
      hw_machine_words (_ ("Switch off and put a full one in before you go on; the cloth stays as it "
                           "is. How, the machine's manual says."),
                        "machine-small"));
  gtk_box_append (GTK_BOX (view->page), box);
}

/* One full bobbin does not suffice: where the first one ends. */
static void
add_change (HwMachineView *view, const HwBobbinChange *change)
{
  g_autofree char *where = block_words (view, &change->block);
  g_autofree char *text = g_strdup_printf (
      change->within ? _ ("A full bobbin does not suffice: it ends in %s. Keep another at hand.")
                     : _ ("A full bobbin does not suffice: put another in after %s."),
      where);

  hw_machine_add_words (view, text, "machine-advice");
}

static void
add_amount (HwMachineView *view, const HwSupplies *supplies, const HwHoopingSupplies *taken)
{
  g_autofree char *needed = metres_of (view, taken->bobbin_metres);
  g_autofree char *full = metres_of (view, supplies->bobbin_full);
  g_autofree char *left = metres_of (view, supplies->bobbin_now);
  g_autofree char *text
      = isfinite (supplies->bobbin_now)
            ? g_strdup_printf (_ ("Bobbin: about %s left, %s still taken here."), left, needed)
            : g_strdup_printf (_ ("Bobbin: about %s still taken here; a full one has %s."), needed, full);

  hw_machine_add_words (view, text, "machine-small");
}

static void
full_cb (GtkButton *button, HwMachineView *view)
{
  hw_bench_full_bobbin (view->bench);
}

void
hw_machine_fill_bobbin (HwMachineView *view)
{
  g_autoptr (HwSupplies) supplies = hw_supplies_new (view->work->plan, 0);
  const HwHoopingSupplies *taken = hw_supplies_of_hooping (supplies, view->work->hooping);

  if (taken != NULL && isfinite (taken->bobbin_metres))
    {
      if (taken->bobbin_runs_out && isfinite (supplies->bobbin_now))
        add_warning (view, supplies, taken);
      else
        add_amount (view, supplies, taken);
      if (taken->n_changes > 0)
        add_change (view, &taken->changes[0]);
    }
  hw_machine_add_extra (view, _ ("A full bobbin is in"), "F", G_CALLBACK (full_cb));
}
