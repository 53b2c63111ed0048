/* The photos of the scene and a way to any other, behind one button. */
#include "photo-menu.h"

#include <glib/gi18n.h>

#include "photo-chooser.h"
#include "photo-file.h"

typedef struct
{
  HwBench *bench;
  HwPhotoPicked picked;
  GWeakRef owner;
  GtkWidget *button, *popover;
} Menu;

static void
menu_free (gpointer data)
{
  Menu *menu = data;

  g_object_unref (menu->bench);
  g_weak_ref_clear (&menu->owner);
  g_free (menu);
}

static void
pick (Menu *menu, const HwPhoto *photo, const char *folder)
{
  g_autoptr (GObject) owner = g_weak_ref_get (&menu->owner);

  if (owner != NULL)
    menu->picked (photo, folder, owner);
}

static void
scene_photo_cb (GtkButton *item, Menu *menu)
{
  GPtrArray *photos = hw_scene_get_photos (hw_bench_get_scene (menu->bench));
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (item), "photo"));

  gtk_popover_popdown (GTK_POPOVER (menu->popover));
  if (index < photos->len)
    pick (menu, g_ptr_array_index (photos, index), hw_bench_get_folder (menu->bench));
}

static void
chosen (GFile *file, gpointer button)
{
  Menu *menu = g_object_get_data (button, "photo-menu");
  g_autoptr (HwPhoto) photo = hw_photo_of_file (file);

  if (photo != NULL && gtk_widget_get_mapped (button))
    pick (menu, photo, NULL);
}

static void
other_cb (GtkButton *item, Menu *menu)
{
  gtk_popover_popdown (GTK_POPOVER (menu->popover));
  hw_photo_choose (GTK_WINDOW (gtk_widget_get_root (menu->button)), _ ("Photo of the cloth"),
                   hw_bench_get_folder (menu->bench), chosen, G_OBJECT (menu->button));
}

static GtkWidget *
add_item (GtkWidget *box, const char *label)
{
  GtkWidget *item = gtk_button_new_with_label (label);

  gtk_widget_add_css_class (item, "flat");
  gtk_label_set_xalign (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (item))), 0);
  gtk_box_append (GTK_BOX (box), item);
  return item;
}

GtkWidget *
hw_photo_menu_button_new (HwBench *bench, const char *label, HwPhotoPicked picked, GObject *owner)
{
  GtkWidget *button = gtk_menu_button_new (), *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GPtrArray *photos;
  Menu *menu;

  g_return_val_if_fail (HW_IS_BENCH (bench) && label != NULL && picked != NULL && G_IS_OBJECT (owner),
                        button);

  photos = hw_scene_get_photos (hw_bench_get_scene (bench));
  menu = g_new0 (Menu, 1);
  menu->bench = g_object_ref (bench);
  menu->picked = picked;
  g_weak_ref_init (&menu->owner, owner);
  menu->button = button;
  menu->popover = gtk_popover_new ();
  for (guint i = 0; i < photos->len; i++)
    {
      GtkWidget *item = add_item (box, ((HwPhoto *)g_ptr_array_index (photos, i))->name);

      g_object_set_data (G_OBJECT (item), "photo", GUINT_TO_POINTER (i));
      g_signal_connect (item, "clicked", G_CALLBACK (scene_photo_cb), menu);
    }
  g_signal_connect (add_item (box, _ ("Another photo…")), "clicked", G_CALLBACK (other_cb), menu);
  gtk_popover_set_child (GTK_POPOVER (menu->popover), box);
  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), label);
  gtk_menu_button_set_popover (GTK_MENU_BUTTON (button), menu->popover);
  g_object_set_data_full (G_OBJECT (button), "photo-menu", menu, menu_free);
  return button;
}
