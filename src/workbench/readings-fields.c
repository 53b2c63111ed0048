/* Readings as they are typed standing at the machine. Each mark has a figure across and one along, each with a button that says which way it goes; the way the
 * plan has it is offered first, and a letter typed after the figure ("41.3 l") turns it. A machine's minus sign is understood across,
 * where it means left on all of them; along, machines differ, so there the word decides. */
#include "readings-fields.h"

#include <glib/gi18n.h>
#include <math.h>

#include "reading-text.h"

#define ENOUGH_TO_LEAVE_ONE 3 /* marks */

enum
{
  ACROSS,
  ALONG,
  N_WAYS
};

typedef struct
{
  HwReadingsFields *fields;
  GtkWidget *entry;
  GtkWidget *way;  /* the button with the word */
  GtkWidget *hint; /* what the plan says */
  GtkEventController *focus;
  gboolean along;
  gboolean negative; /* left, away from you */
  gboolean empty;
  double value; /* mm, not negative */
} Figure;

typedef struct
{
  HwReadingsFields *fields;
  HwReading mark; /* letter and design */
  GtkWidget *letter;
  GtkWidget *by;  /* says that it was read in a photo */
  GtkWidget *out; /* leave out */
  Figure figures[N_WAYS];
  gboolean told; /* a reading was told of */
  HwPoint at;    /* the one told */
} Row;

struct _HwReadingsFields
{
  GtkBox parent_instance;

  HwBench *bench;
  GtkWidget *grid;
  GtkWidget *trouble;
  GPtrArray *rows; /* Row */
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (HwReadingsFields, hw_readings_fields, GTK_TYPE_BOX)

enum
{
  READ,
  FORGOTTEN,
  LEFT_OUT,
  AT_MARK,
  FINISHED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

static const char *
way_word (const Figure *figure)
{
  if (figure->along)
    return figure->negative ? _ ("away") : _ ("towards");
  return figure->negative ? _ ("left") : _ ("right");
}

static void
show_way (Figure *figure)
{
  gtk_button_set_label (GTK_BUTTON (figure->way), way_word (figure));
}

static void
show_figure (Figure *figure)
{
  g_autofree char *text = figure->empty
                              ? g_strdup ("")
                              : hw_length_text (figure->value, hw_bench_get_unit (figure->fields->bench));
  gboolean before = figure->fields->updating;

  figure->fields->updating = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (figure->entry), text);
  gtk_editable_set_position (GTK_EDITABLE (figure->entry), -1);
  figure->fields->updating = before;
  show_way (figure);
  gtk_widget_remove_css_class (figure->entry, "error");
}

/* Reads the entry into the figure. FALSE when it holds no length. */
static gboolean
take_figure (Figure *figure)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (figure->entry));
  HwUnit unit = hw_bench_get_unit (figure->fields->bench);
  g_autofree char *shown = figure->empty ? g_strdup ("") : hw_length_text (figure->value, unit);
  gboolean negative = figure->negative;
  double value;

  if (g_str_equal (text, shown))
    return TRUE;
  switch (hw_reading_text_parse (text, figure->along, unit, &value, &negative))
    {
    case HW_READING_TEXT_EMPTY:
      figure->empty = TRUE;
      break;
    case HW_READING_TEXT_LENGTH:
      figure->empty = FALSE;
      figure->value = value;
      figure->negative = negative;
      break;
    case HW_READING_TEXT_NONE:
      gtk_widget_add_css_class (figure->entry, "error");
      return FALSE;
    }
  show_figure (figure);
  return TRUE;
}

static double
value_of (const Figure *figure)
{
  return figure->negative ? -figure->value : figure->value;
}

static void
tell_trouble (HwReadingsFields *fields, gboolean trouble)
{
  gtk_widget_set_visible (fields->trouble, trouble);
}

/* Tells of the row as far as it is another than before. FALSE when a field holds no length. */
static gboolean
take_row (Row *row)
{
  gboolean fine = TRUE;

  for (guint w = 0; w < N_WAYS; w++)
    fine = take_figure (&row->figures[w]) && fine;
  tell_trouble (row->fields, !fine);
  if (!fine)
    return FALSE;

  gboolean whole = !row->figures[ACROSS].empty && !row->figures[ALONG].empty;
  HwPoint at = { value_of (&row->figures[ACROSS]), value_of (&row->figures[ALONG]) };
  if (whole && (!row->told || at.x != row->at.x || at.y != row->at.y))
    {
      row->told = TRUE;
      row->at = at;
      g_signal_emit (row->fields, signals[READ], 0, row->mark.letter, at.x, at.y);
    }
  else if (!whole && row->told)
    {
      row->told = FALSE;
      g_signal_emit (row->fields, signals[FORGOTTEN], 0, row->mark.letter);
    }
  gtk_widget_set_visible (row->out, row->told && row->fields->rows->len >= ENOUGH_TO_LEAVE_ONE);
  return TRUE;
}

static Row *
row_of (Figure *figure)
{
  HwReadingsFields *fields = figure->fields;

  for (guint i = 0; i < fields->rows->len; i++)
    {
      Row *row = g_ptr_array_index (fields->rows, i);
      if (figure == &row->figures[ACROSS] || figure == &row->figures[ALONG])
        return row;
    }
  g_assert_not_reached ();
}

/* The word follows the letter as it is typed. */
static void
changed_cb (GtkEditable *entry, Figure *figure)
{
  gboolean negative = figure->negative;
  double value;

  if (figure->fields->updating)
    return;
  hw_reading_text_parse (gtk_editable_get_text (entry), figure->along,
                         hw_bench_get_unit (figure->fields->bench), &value, &negative);
  gtk_widget_remove_css_class (figure->entry, "error");
  if (negative == figure->negative)
    return;
  figure->negative = negative;
  show_way (figure);
}

static void
way_cb (GtkButton *button, Figure *figure)
{
  figure->negative = !figure->negative;
  show_way (figure);
  take_row (row_of (figure));
}

static void
go_on (HwReadingsFields *fields, Figure *from)
{
  gboolean found = FALSE;

  for (guint i = 0; i < fields->rows->len; i++)
    {
      Row *row = g_ptr_array_index (fields->rows, i);
      for (guint w = 0; w < N_WAYS; w++)
        {
          if (found)
            {
              gtk_widget_grab_focus (row->figures[w].entry);
              return;
            }
          found = &row->figures[w] == from;
        }
    }
  g_signal_emit (fields, signals[FINISHED], 0);
}

static void
activate_cb (GtkEntry *entry, Figure *figure)
{
  if (take_row (row_of (figure)))
    go_on (figure->fields, figure);
}

static void
enter_cb (GtkEventControllerFocus *focus, Figure *figure)
{
  g_signal_emit (figure->fields, signals[AT_MARK], 0, row_of (figure)->mark.letter);
}

static void
leave_cb (GtkEventControllerFocus *focus, Figure *figure)
{
  if (gtk_widget_in_destruction (figure->entry) || !gtk_widget_get_mapped (figure->entry))
    return;
  take_row (row_of (figure));
}

static void
out_cb (GtkCheckButton *check, Row *row)
{
  if (!row->fields->updating)
    g_signal_emit (row->fields, signals[LEFT_OUT], 0, row->mark.letter, gtk_check_button_get_active (check));
}

static void
make_figure (Row *row, guint way, int line)
{
  Figure *figure = &row->figures[way];
  GtkWidget *grid = row->fields->grid;
  GtkEventController *focus = gtk_event_controller_focus_new ();
  double planned = way == ALONG ? row->mark.design.y : row->mark.design.x;
  g_autofree char *length = hw_length_text (fabs (planned), hw_bench_get_unit (row->fields->bench));
  g_autofree char *name = g_strdup_printf (
      way == ALONG ? _ ("Mark %s, away or towards you") : _ ("Mark %s, right or left"), row->mark.letter);
  g_autofree char *turn = g_strdup_printf (way == ALONG ? _ ("Mark %s: turn away and towards you")
                                                        : _ ("Mark %s: turn right and left"),
                                           row->mark.letter);

  figure->fields = row->fields;
  figure->along = way == ALONG;
  figure->negative = planned < 0;
  figure->empty = TRUE;
  figure->entry = gtk_entry_new ();
  gtk_editable_set_width_chars (GTK_EDITABLE (figure->entry), 8);
  gtk_editable_set_max_width_chars (GTK_EDITABLE (figure->entry), 8);
  gtk_entry_set_alignment (GTK_ENTRY (figure->entry), 1);
  gtk_widget_add_css_class (figure->entry, "reading");
  gtk_accessible_update_property (GTK_ACCESSIBLE (figure->entry), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (figure->entry, "changed", G_CALLBACK (changed_cb), figure);
  g_signal_connect (figure->entry, "activate", G_CALLBACK (activate_cb), figure);
  g_signal_connect (focus, "enter", G_CALLBACK (enter_cb), figure);
  g_signal_connect (focus, "leave", G_CALLBACK (leave_cb), figure);
  gtk_widget_add_controller (figure->entry, focus);
  figure->focus = focus;

  figure->way = gtk_button_new_with_label ("");
  gtk_widget_add_css_class (figure->way, "way");
  gtk_widget_set_tooltip_text (figure->way, turn);
  g_signal_connect (figure->way, "clicked", G_CALLBACK (way_cb), figure);
  show_way (figure);

  g_autofree char *hint = g_strdup_printf (_ ("planned %s %s"), length, way_word (figure));
  figure->hint = gtk_label_new (hint);
  gtk_label_set_xalign (GTK_LABEL (figure->hint), 0);
  gtk_widget_add_css_class (figure->hint, "quiet");
  gtk_widget_add_css_class (figure->hint, "planned");

  gtk_grid_attach (GTK_GRID (grid), figure->entry, 1 + 2 * (int)way, line, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), figure->way, 2 + 2 * (int)way, line, 1, 1);
  gtk_grid_attach (GTK_GRID (grid), figure->hint, 1 + 2 * (int)way, line + 1, 2, 1);
}

static Row *
row_new (HwReadingsFields *fields, const HwReading *mark, int line)
{
  Row *row = g_new0 (Row, 1);
  g_autofree char *name = g_strdup_printf (_ ("Leave mark %s out"), mark->letter);

  row->fields = fields;
  row->mark = *mark;
  row->letter = gtk_label_new (mark->letter);
  gtk_widget_add_css_class (row->letter, "mark-letter");
  gtk_grid_attach (GTK_GRID (fields->grid), row->letter, 0, line, 1, 1);
  row->by = gtk_label_new (_ ("photo"));
  gtk_widget_set_tooltip_text (row->by, _ ("Found in a photo and approved, not read at the needle"));
  gtk_widget_add_css_class (row->by, "quiet");
  gtk_widget_add_css_class (row->by, "planned");
  gtk_widget_set_visible (row->by, FALSE);
  gtk_grid_attach (GTK_GRID (fields->grid), row->by, 0, line + 1, 1, 1);
  make_figure (row, ACROSS, line);
  make_figure (row, ALONG, line);
  row->out = gtk_check_button_new_with_label (_ ("leave this one out"));
  gtk_accessible_update_property (GTK_ACCESSIBLE (row->out), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_signal_connect (row->out, "toggled", G_CALLBACK (out_cb), row);
  gtk_widget_set_visible (row->out, FALSE);
  gtk_grid_attach (GTK_GRID (fields->grid), row->out, 1, line + 2, 4, 1);
  return row;
}

static void
row_let_go (Row *row)
{
  for (guint w = 0; w < N_WAYS; w++)
    {
      Figure *figure = &row->figures[w];

      g_signal_handlers_disconnect_by_data (figure->entry, figure);
      g_signal_handlers_disconnect_by_data (figure->way, figure);
      g_signal_handlers_disconnect_by_data (figure->focus, figure);
    }
  g_signal_handlers_disconnect_by_data (row->out, row);
}

static void
clear_rows (HwReadingsFields *fields)
{
  GtkWidget *child;

  /* The fields speak once more when the keyboard leaves them: no longer to rows that go with them. */
  for (guint i = 0; i < fields->rows->len; i++)
    row_let_go (g_ptr_array_index (fields->rows, i));
  while ((child = gtk_widget_get_first_child (fields->grid)) != NULL)
    gtk_grid_remove (GTK_GRID (fields->grid), child);
  g_ptr_array_set_size (fields->rows, 0);
}

static gboolean
same_marks (HwReadingsFields *fields, const HwReading *marks, guint n)
{
  if (fields->rows->len != n)
    return FALSE;
  for (guint i = 0; i < n; i++)
    {
      const Row *row = g_ptr_array_index (fields->rows, i);
      if (!g_str_equal (row->mark.letter, marks[i].letter)
          || hw_point_distance (row->mark.design, marks[i].design) > 1e-9)
        return FALSE;
    }
  return TRUE;
}

static void
show_reading (Row *row, const HwReading *reading)
{
  double parts[N_WAYS] = { reading != NULL ? reading->at.x : 0, reading != NULL ? reading->at.y : 0 };

  /* What is being typed is left alone unless the reading itself is another. */
  if (reading != NULL && row->told && row->at.x == reading->at.x && row->at.y == reading->at.y)
    goto out;
  if (reading == NULL && !row->told)
    goto out;
  row->told = reading != NULL;
  for (guint w = 0; w < N_WAYS; w++)
    {
      Figure *figure = &row->figures[w];

      figure->empty = reading == NULL;
      figure->value = fabs (parts[w]);
      if (reading != NULL)
        figure->negative = parts[w] < 0;
      show_figure (figure);
    }
  if (reading != NULL)
    row->at = reading->at;
out:
  gtk_widget_set_visible (row->by, reading != NULL && reading->by_photo);
  gtk_widget_set_visible (row->out, row->told && row->fields->rows->len >= ENOUGH_TO_LEAVE_ONE);
  gtk_check_button_set_active (GTK_CHECK_BUTTON (row->out), reading != NULL && reading->left_out);
}

static const HwReading *
find_reading (const HwReading *readings, guint n, const char *letter)
{
  for (guint i = 0; i < n; i++)
    if (g_str_equal (readings[i].letter, letter))
      return &readings[i];
  return NULL;
}

void
hw_readings_fields_set (HwReadingsFields *fields,
                        const HwReading *marks,
                        guint n_marks,
                        const HwReading *readings,
                        guint n_readings)
{
  g_return_if_fail (HW_IS_READINGS_FIELDS (fields));

  fields->updating = TRUE;
  if (!same_marks (fields, marks, n_marks))
    {
      clear_rows (fields);
      for (guint i = 0; i < n_marks; i++)
        g_ptr_array_add (fields->rows, row_new (fields, &marks[i], 3 * (int)i));
    }
  for (guint i = 0; i < n_marks; i++)
    show_reading (g_ptr_array_index (fields->rows, i), find_reading (readings, n_readings, marks[i].letter));
  fields->updating = FALSE;
}

gboolean
hw_readings_fields_commit (HwReadingsFields *fields)
{
  g_return_val_if_fail (HW_IS_READINGS_FIELDS (fields), FALSE);

  for (guint i = 0; i < fields->rows->len; i++)
    {
      Row *row = g_ptr_array_index (fields->rows, i);
      if (!take_row (row))
        {
          for (guint w = 0; w < N_WAYS; w++)
            if (gtk_widget_has_css_class (row->figures[w].entry, "error"))
              gtk_widget_grab_focus (row->figures[w].entry);
          return FALSE;
        }
    }
  return TRUE;
}

void
hw_readings_fields_focus (HwReadingsFields *fields)
{
  GtkWidget *first = NULL;

  g_return_if_fail (HW_IS_READINGS_FIELDS (fields));

  for (guint i = 0; i < fields->rows->len; i++)
    {
      Row *row = g_ptr_array_index (fields->rows, i);
      for (guint w = 0; w < N_WAYS; w++)
        {
          if (row->figures[w].empty)
            {
              gtk_widget_grab_focus (row->figures[w].entry);
              return;
            }
          if (first == NULL)
            first = row->figures[w].entry;
        }
    }
  if (first != NULL)
    gtk_widget_grab_focus (first);
}

static void
unit_cb (HwBench *bench, GParamSpec *pspec, HwReadingsFields *fields)
{
  for (guint i = 0; i < fields->rows->len; i++)
    {
      Row *row = g_ptr_array_index (fields->rows, i);
      for (guint w = 0; w < N_WAYS; w++)
        {
          Figure *figure = &row->figures[w];
          double planned = w == ALONG ? row->mark.design.y : row->mark.design.x;
          g_autofree char *length = hw_length_text (fabs (planned), hw_bench_get_unit (bench));
          Figure as_planned = { .along = figure->along, .negative = planned < 0 };
          g_autofree char *hint = g_strdup_printf (_ ("planned %s %s"), length, way_word (&as_planned));

          gtk_label_set_label (GTK_LABEL (figure->hint), hint);
          show_figure (figure);
        }
    }
}

static void
hw_readings_fields_dispose (GObject *object)
{
  HwReadingsFields *fields = HW_READINGS_FIELDS (object);

  if (fields->rows->len > 0)
    clear_rows (fields);
  g_clear_object (&fields->bench);
  G_OBJECT_CLASS (hw_readings_fields_parent_class)->dispose (object);
}

static void
hw_readings_fields_finalize (GObject *object)
{
  g_ptr_array_unref (HW_READINGS_FIELDS (object)->rows);
  G_OBJECT_CLASS (hw_readings_fields_parent_class)->finalize (object);
}

static void
hw_readings_fields_class_init (HwReadingsFieldsClass *klass)
{
  GType type = G_TYPE_FROM_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = hw_readings_fields_dispose;
  G_OBJECT_CLASS (klass)->finalize = hw_readings_fields_finalize;
  signals[READ] = g_signal_new ("read", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 3,
                                G_TYPE_STRING, G_TYPE_DOUBLE, G_TYPE_DOUBLE);
  signals[FORGOTTEN] = g_signal_new ("forgotten", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE,
                                     1, G_TYPE_STRING);
  signals[LEFT_OUT] = g_signal_new ("left-out", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 2,
                                    G_TYPE_STRING, G_TYPE_BOOLEAN);
  signals[AT_MARK]
      = g_signal_new ("at-mark", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  signals[FINISHED] = g_signal_new ("finished", type, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL, G_TYPE_NONE, 0);
}

static void
hw_readings_fields_init (HwReadingsFields *fields)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (fields), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (fields), 6);
  gtk_widget_add_css_class (GTK_WIDGET (fields), "readings");
  fields->rows = g_ptr_array_new_with_free_func (g_free);
  fields->grid = gtk_grid_new ();
  gtk_grid_set_column_spacing (GTK_GRID (fields->grid), 8);
  gtk_grid_set_row_spacing (GTK_GRID (fields->grid), 4);
  gtk_box_append (GTK_BOX (fields), fields->grid);
  fields->trouble = gtk_label_new (_ ("That is no length. Type a figure such as 41.3, with mm or in if you "
                                      "like, and right, left, away or towards."));
  gtk_label_set_wrap (GTK_LABEL (fields->trouble), TRUE);
  gtk_label_set_xalign (GTK_LABEL (fields->trouble), 0);
  gtk_widget_add_css_class (fields->trouble, "trouble");
  gtk_widget_set_visible (fields->trouble, FALSE);
  gtk_box_append (GTK_BOX (fields), fields->trouble);
}

GtkWidget *
hw_readings_fields_new (HwBench *bench)
{
  HwReadingsFields *fields = g_object_new (HW_TYPE_READINGS_FIELDS, NULL);

  g_return_val_if_fail (HW_IS_BENCH (bench), GTK_WIDGET (fields));
  fields->bench = g_object_ref (bench);
  g_signal_connect_object (bench, "notify::unit", G_CALLBACK (unit_cb), fields, 0);
  return GTK_WIDGET (fields);
}
