/* The person's own folder of motifs. Which one is remembered from day to day. */
#include "library-pane.h"

#include <glib/gi18n.h>

#include "dialog.h"
#include "library-list.h"
#include "settings.h"

#define PICTURE 76 /* px */
#define HEIGHT 330

struct _HwLibraryPane
{
  GtkBox parent_instance;

  GListStore *items;
  GtkStringFilter *filter;
  GtkFilterListModel *found;
  GtkWidget *folder_button;
  GtkWidget *folder_name;
  GtkWidget *search;
  GtkWidget *scroller;
  GtkWidget *words;
  GtkFileChooserNative *chooser;
  char *trouble; /* with the folder, or NULL */
};

G_DEFINE_FINAL_TYPE (HwLibraryPane, hw_library_pane, GTK_TYPE_BOX)

static void
say (HwLibraryPane *pane, const char *sentence)
{
  gtk_label_set_label (GTK_LABEL (pane->words), sentence != NULL ? sentence : "");
  gtk_widget_set_visible (pane->words, sentence != NULL);
}

static void
look (HwLibraryPane *pane)
{
  g_autofree char *folder = hw_settings_get_text (HW_SETTING_MOTIF_FOLDER);
  g_autofree char *shown = *folder != '\0' ? g_filename_display_basename (folder) : NULL;
  guint n;

  g_clear_pointer (&pane->trouble, g_free);
  gtk_label_set_label (GTK_LABEL (pane->folder_name), shown != NULL ? shown : _ ("Choose a folder…"));
  if (shown == NULL)
    {
      say (pane, _ ("Choose the folder in which your motifs are: needle lists, SVG, PNG, JPEG, PDF."));
      n = 0;
    }
  else
    {
      hw_library_list_folder (pane->items, folder, &pane->trouble);

      n = g_list_model_get_n_items (G_LIST_MODEL (pane->items));
      say (pane, pane->trouble != NULL ? pane->trouble
                 : n == 0              ? _ ("There are no motifs in this folder.")
                                       : NULL);
    }
  gtk_widget_set_visible (pane->search, n > 0);
  gtk_widget_set_visible (pane->scroller, n > 0);
}

static void
found_cb (GListModel *found, guint at, guint removed, guint added, HwLibraryPane *pane)
{
  guint all = g_list_model_get_n_items (G_LIST_MODEL (pane->items));

  if (all > 0)
    say (pane, g_list_model_get_n_items (found) == 0 ? _ ("No motif bears that name.") : pane->trouble);
}

static void
folder_picked_cb (GtkNativeDialog *dialog, int response, HwLibraryPane *pane)
{
  g_autoptr (GFile) folder = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));

  gtk_native_dialog_hide (dialog);
  if (response == GTK_RESPONSE_ACCEPT && folder != NULL && g_file_peek_path (folder) != NULL)
    {
      hw_settings_set_text (HW_SETTING_MOTIF_FOLDER, g_file_peek_path (folder));
      look (pane);
    }
  g_clear_object (&pane->chooser);
}

static void
choose_folder_cb (GtkButton *button, HwLibraryPane *pane)
{
  GtkRoot *root = gtk_widget_get_root (GTK_WIDGET (pane));
  g_autofree char *folder = hw_settings_get_text (HW_SETTING_MOTIF_FOLDER);

  if (pane->chooser != NULL)
    return;
  pane->chooser = gtk_file_chooser_native_new (_ ("Folder of motifs"), GTK_WINDOW (root),
                                               GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER, NULL, NULL);
  if (*folder != '\0')
    {
      g_autoptr (GFile) start = g_file_new_for_path (folder);

      gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (pane->chooser), start, NULL);
    }
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (pane->chooser), TRUE);
  g_signal_connect (pane->chooser, "response", G_CALLBACK (folder_picked_cb), pane);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (pane->chooser));
}

static GdkContentProvider *
drag_prepare_cb (GtkDragSource *source, double x, double y, GtkListItem *cell)
{
  HwLibraryItem *item = gtk_list_item_get_item (cell);
  GdkPaintable *picture = item != NULL ? hw_library_item_get_paintable (item) : NULL;

  if (item == NULL)
    return NULL;
  if (picture != NULL)
    gtk_drag_source_set_icon (source, picture, gdk_paintable_get_intrinsic_width (picture) / 2,
                              gdk_paintable_get_intrinsic_height (picture) / 2);
  g_autoptr (GFile) file = g_file_new_for_path (hw_library_item_get_path (item));
  g_autoptr (GSList) files = g_slist_append (NULL, file);
  GdkFileList *list = gdk_file_list_new_from_list (files);
  GdkContentProvider *content = gdk_content_provider_new_typed (GDK_TYPE_FILE_LIST, list);

  g_boxed_free (GDK_TYPE_FILE_LIST, list);
  return content;
}

static void
show_picture (HwLibraryItem *item, GtkListItem *cell)
{
  GtkWidget *box = gtk_list_item_get_child (cell);
  GtkWidget *picture = gtk_widget_get_first_child (box);

  gtk_picture_set_paintable (GTK_PICTURE (picture), hw_library_item_get_paintable (item));
  gtk_widget_set_tooltip_text (box, hw_library_item_get_trouble (item) != NULL
                                        ? hw_library_item_get_trouble (item)
                                        : hw_library_item_get_name (item));
}

static void
painted_cb (HwLibraryItem *item, GParamSpec *pspec, GtkListItem *cell)
{
  show_picture (item, cell);
}

static void
setup_cb (GtkSignalListItemFactory *factory, GtkListItem *cell, HwLibraryPane *pane)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *picture = gtk_picture_new (), *name = gtk_label_new (NULL);
  GtkDragSource *drag = gtk_drag_source_new ();

  gtk_widget_set_size_request (picture, PICTURE, PICTURE);
  gtk_picture_set_can_shrink (GTK_PICTURE (picture), TRUE);
  gtk_label_set_ellipsize (GTK_LABEL (name), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_max_width_chars (GTK_LABEL (name), 8);
  gtk_widget_add_css_class (name, "caption");
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), name);
  gtk_drag_source_set_actions (drag, GDK_ACTION_COPY);
  g_signal_connect (drag, "prepare", G_CALLBACK (drag_prepare_cb), cell);
  gtk_widget_add_controller (box, GTK_EVENT_CONTROLLER (drag));
  gtk_list_item_set_child (cell, box);
}

static void
bind_cb (GtkSignalListItemFactory *factory, GtkListItem *cell, HwLibraryPane *pane)
{
  HwLibraryItem *item = gtk_list_item_get_item (cell);
  GtkWidget *name = gtk_widget_get_last_child (gtk_list_item_get_child (cell));

  gtk_label_set_label (GTK_LABEL (name), hw_library_item_get_name (item));
  show_picture (item, cell);
  g_signal_connect (item, "notify::paintable", G_CALLBACK (painted_cb), cell);
  hw_library_item_want (item);
}

static void
unbind_cb (GtkSignalListItemFactory *factory, GtkListItem *cell, HwLibraryPane *pane)
{
  g_signal_handlers_disconnect_by_func (gtk_list_item_get_item (cell), painted_cb, cell);
}

static void
activate_cb (GtkGridView *grid, guint position, HwLibraryPane *pane)
{
  g_autoptr (HwLibraryItem) item = g_list_model_get_item (G_LIST_MODEL (pane->found), position);

  if (item != NULL)
    gtk_widget_activate_action (GTK_WIDGET (pane), "win.add-motif-file", "s",
                                hw_library_item_get_path (item));
}

static void
search_cb (GtkSearchEntry *entry, HwLibraryPane *pane)
{
  gtk_string_filter_set_search (pane->filter, gtk_editable_get_text (GTK_EDITABLE (entry)));
}

static void
map_cb (GtkWidget *widget, gpointer user_data)
{
  look (HW_LIBRARY_PANE (widget));
}

static char *
name_of (HwLibraryItem *item)
{
  return g_strdup (hw_library_item_get_name (item));
}

static GtkWidget *
make_grid (HwLibraryPane *pane)
{
  GtkExpression *name
      = gtk_cclosure_expression_new (G_TYPE_STRING, NULL, 0, NULL, G_CALLBACK (name_of), NULL, NULL);
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  GtkWidget *grid;

  pane->filter = gtk_string_filter_new (name);
  pane->found = gtk_filter_list_model_new (G_LIST_MODEL (g_object_ref (pane->items)),
                                           GTK_FILTER (g_object_ref (pane->filter)));
  g_signal_connect_object (pane->found, "items-changed", G_CALLBACK (found_cb), pane, 0);
  g_signal_connect (factory, "setup", G_CALLBACK (setup_cb), pane);
  g_signal_connect (factory, "bind", G_CALLBACK (bind_cb), pane);
  g_signal_connect (factory, "unbind", G_CALLBACK (unbind_cb), pane);
  GtkSelectionModel *selection
      = GTK_SELECTION_MODEL (gtk_single_selection_new (G_LIST_MODEL (g_object_ref (pane->found))));
  grid = gtk_grid_view_new (selection, factory);
  gtk_grid_view_set_min_columns (GTK_GRID_VIEW (grid), 3);
  gtk_grid_view_set_max_columns (GTK_GRID_VIEW (grid), 3);
  gtk_accessible_update_property (GTK_ACCESSIBLE (grid), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Motifs of the folder"), -1);
  g_signal_connect (grid, "activate", G_CALLBACK (activate_cb), pane);
  return grid;
}

static void
hw_library_pane_dispose (GObject *object)
{
  HwLibraryPane *pane = HW_LIBRARY_PANE (object);

  if (pane->chooser != NULL)
    g_signal_handlers_disconnect_by_data (pane->chooser, pane);
  g_clear_object (&pane->chooser);
  g_clear_object (&pane->found);
  g_clear_object (&pane->filter);
  g_clear_object (&pane->items);
  g_clear_pointer (&pane->trouble, g_free);
  G_OBJECT_CLASS (hw_library_pane_parent_class)->dispose (object);
}

static void
hw_library_pane_class_init (HwLibraryPaneClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = hw_library_pane_dispose;
}

static void
hw_library_pane_init (HwLibraryPane *pane)
{
  GtkBox *box = GTK_BOX (pane);
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  gtk_orientable_set_orientation (GTK_ORIENTABLE (pane), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (box, 10);
  gtk_widget_add_css_class (GTK_WIDGET (pane), "facts");
  pane->items = g_list_store_new (HW_TYPE_LIBRARY_ITEM);

  pane->folder_button = gtk_button_new ();
  pane->folder_name = gtk_label_new (NULL);
  gtk_label_set_ellipsize (GTK_LABEL (pane->folder_name), PANGO_ELLIPSIZE_MIDDLE);
  gtk_widget_set_hexpand (pane->folder_name, TRUE);
  gtk_box_append (GTK_BOX (row), gtk_image_new_from_icon_name ("hw-basket-symbolic"));
  gtk_box_append (GTK_BOX (row), pane->folder_name);
  gtk_button_set_child (GTK_BUTTON (pane->folder_button), row);
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->folder_button), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Folder of motifs"), -1);
  g_signal_connect (pane->folder_button, "clicked", G_CALLBACK (choose_folder_cb), pane);

  pane->search = gtk_search_entry_new ();
  gtk_accessible_update_property (GTK_ACCESSIBLE (pane->search), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                  _ ("Search by name"), -1);
  g_signal_connect (pane->search, "search-changed", G_CALLBACK (search_cb), pane);
  pane->words = hw_dialog_words (NULL);
  pane->scroller = gtk_scrolled_window_new ();
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (pane->scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_widget_set_size_request (pane->scroller, -1, HEIGHT);
  gtk_widget_add_css_class (pane->scroller, "my-motifs");
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (pane->scroller), make_grid (pane));

  gtk_box_append (box, pane->folder_button);
  gtk_box_append (box, pane->search);
  gtk_box_append (box, pane->words);
  gtk_box_append (box, pane->scroller);
  g_signal_connect (pane, "map", G_CALLBACK (map_cb), NULL);
}

GtkWidget *
hw_library_pane_new (void)
{
  return g_object_new (HW_TYPE_LIBRARY_PANE, NULL);
}
