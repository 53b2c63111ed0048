/* What breaks a rule, live. Whatever lies past the edge line's margin is filled in madder; a motif no hoop takes is outlined
 * in it; each with a sign and a few words. Only the motifs in question are looked at, and only those partners whose bounds
 * they meet, so that it can be asked on every motion of the pointer. */

#include "canvas-rules.h"

#include <glib/gi18n.h>
#include <math.h>

#include "../drawing/cloth-drawing.h"
#include "../drawing/lettering.h"
#include "../geometry/region.h"
#include "../planning/sharing.h"

#define LEAST_COMMON 0.01 /* mm^2: less is a touch */
#define LEAST_PAST 0.05   /* mm */
#define SLIP_HEIGHT 28.0  /* px */
#define SLIP_LETTERS 13.0

typedef struct
{
  HwOutline *past;   /* what lies past the margin; or NULL */
  HwOutline *misfit; /* the placed outline when no hoop takes it; or NULL */
  HwPoint at;        /* where the sign stands, mm */
  char *words;
  double words_width, words_height; /* px */
} Breach;

struct _HwRules
{
  HwEdgeLine *edge; /* the edge line `within` was made for */
  HwOutline *within;
  GArray *breaches;
  GPtrArray *partners; /* HwOutline */
};

static void
breach_clear (gpointer data)
{
  Breach *breach = data;

  g_clear_pointer (&breach->past, hw_outline_unref);
  g_clear_pointer (&breach->misfit, hw_outline_unref);
  g_clear_pointer (&breach->words, g_free);
}

HwRules *
hw_rules_new (void)
{
  HwRules *rules = g_new0 (HwRules, 1);

  rules->breaches = g_array_new (FALSE, TRUE, sizeof (Breach));
  g_array_set_clear_func (rules->breaches, breach_clear);
  rules->partners = g_ptr_array_new_with_free_func ((GDestroyNotify)hw_outline_unref);
  return rules;
}

void
hw_rules_free (HwRules *rules)
{
  g_clear_pointer (&rules->edge, hw_edge_line_unref);
  g_clear_pointer (&rules->within, hw_outline_unref);
  g_array_unref (rules->breaches);
  g_ptr_array_unref (rules->partners);
  g_free (rules);
}

void
hw_rules_clear (HwRules *rules)
{
  g_array_set_size (rules->breaches, 0);
  g_ptr_array_set_size (rules->partners, 0);
}

gboolean
hw_rules_are_kept (const HwRules *rules)
{
  return rules->breaches->len == 0 && rules->partners->len == 0;
}

static void
add_breach (HwRules *rules, Breach *breach)
{
  HwLettering how = { .size = SLIP_LETTERS, .bold = TRUE };
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cairo_t *cr = cairo_create (surface);

  hw_letter_measure (cr, &how, breach->words, &breach->words_width, &breach->words_height);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  g_array_append_val (rules->breaches, *breach);
}

static void
learn_edge (HwRules *rules, const HwEdgeLine *edge)
{
  if (rules->edge == edge)
    return;
  g_clear_pointer (&rules->edge, hw_edge_line_unref);
  g_clear_pointer (&rules->within, hw_outline_unref);
  if (edge == NULL || edge->outline == NULL)
    return;
  rules->edge = hw_edge_line_ref (edge);
  rules->within
      = edge->margin > 0 ? hw_outline_grow (edge->outline, -edge->margin) : hw_outline_ref (edge->outline);
}

static void
look_at_edge (HwRules *rules, const HwOutline *placed, HwUnit unit)
{
  Breach breach = { NULL };
  g_autofree char *length = NULL;
  double past;

  if (rules->within == NULL)
    return;
  past = hw_outline_passes (placed, rules->within, &breach.at);
  if (past < LEAST_PAST)
    return;
  breach.past = hw_outline_minus (placed, rules->within);
  if (breach.past == NULL)
    return;
  length = hw_length_text (past, unit);
  /* The margin is part of the edge line's rule: what is measured is how far to move back. */
  breach.words = g_strdup_printf (_ ("%s too far out"), length);
  add_breach (rules, &breach);
}

static char *
misfit_words (const HwSnapshot *snapshot, const HwNearMiss *miss, HwUnit unit)
{
  const HwHoop *hoop = hw_snapshot_hoop (snapshot, miss->hoop);
  g_autofree char *length = hw_length_text (miss->miss, unit);
  int percent = (int)floor (miss->scale * 100);

  if (miss->too_wide)
    return g_strdup_printf (_ ("%s too wide for %s; fits at %d %%"), length, hoop->name, percent);
  return g_strdup_printf (_ ("%s too long for %s; fits at %d %%"), length, hoop->name, percent);
}

static void
look_at_hoops (HwRules *rules, const HwSnapshot *snapshot, const HwOutline *placed, HwUnit unit)
{
  Breach breach = { NULL };
  HwNearMiss miss;

  if (snapshot->hoops->len == 0)
    return;
  for (guint i = 0; i < snapshot->hoops->len; i++)
    if (hw_sharing_fits (placed->hull, placed->n_hull, hw_snapshot_hoop (snapshot, i), &snapshot->fabric))
      return;
  miss = hw_sharing_nearest (placed->hull, placed->n_hull, snapshot);
  breach.misfit = hw_outline_ref (placed);
  breach.at = (HwPoint){ (placed->box.x0 + placed->box.x1) / 2, placed->box.y0 };
  if (miss.miss > 0)
    breach.words = misfit_words (snapshot, &miss, unit);
  else
    breach.words = g_strdup (_ ("no hoop can lie here"));
  add_breach (rules, &breach);
}

static void
look_at_partners (HwRules *rules, const HwOutline *const *placed, guint n, guint motif, const gboolean *asked)
{
  for (guint i = 0; i < n; i++)
    if (!asked[i] && placed[i] != NULL && hw_box_overlaps (placed[motif]->box, placed[i]->box)
        && hw_outline_overlap_area (placed[motif], placed[i]) > LEAST_COMMON)
      g_ptr_array_add (rules->partners, hw_outline_ref (placed[i]));
}

void
hw_rules_look (HwRules *rules,
               const HwSnapshot *snapshot,
               const HwOutline *const *placed,
               const guint *motifs,
               guint n_motifs,
               gboolean partners,
               HwUnit unit)
{
  guint n = snapshot->motifs->len;
  g_autofree gboolean *asked = g_new0 (gboolean, n + 1);

  hw_rules_clear (rules);
  learn_edge (rules, snapshot->edge_line);
  for (guint i = 0; i < n_motifs; i++)
    asked[motifs[i]] = TRUE;
  for (guint i = 0; i < n_motifs; i++)
    {
      const HwOutline *outline = placed[motifs[i]];

      if (outline == NULL)
        continue;
      look_at_edge (rules, outline, unit);
      look_at_hoops (rules, snapshot, outline, unit);
      if (partners)
        look_at_partners (rules, placed, n, motifs[i], asked);
    }
}

static void
set_madder (cairo_t *cr, double alpha)
{
  cairo_set_source_rgba (cr, 0xb5 / 255.0, 0x48 / 255.0, 0x3a / 255.0, alpha);
}

static void
path_in_pixels (cairo_t *cr, const HwOutline *outline, const HwView *view)
{
  cairo_save (cr);
  cairo_translate (cr, view->x, view->y);
  cairo_scale (cr, view->zoom, view->zoom);
  hw_path_outline (cr, outline);
  cairo_restore (cr);
}

static void
draw_shape (cairo_t *cr, const Breach *breach, const HwView *view)
{
  if (breach->past != NULL)
    {
      path_in_pixels (cr, breach->past, view);
      cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
      set_madder (cr, 0.55);
      cairo_fill_preserve (cr);
    }
  else
    path_in_pixels (cr, breach->misfit, view);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_source_rgba (cr, 1, 1, 1, 0.6);
  cairo_set_line_width (cr, 4.5);
  cairo_stroke_preserve (cr);
  set_madder (cr, 1);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
}

/* Where the words of a breach stand, pixels: above it, or on another side when a handle is there; always on the table. */
static HwBox
words_box (const Breach *breach, const HwView *view, HwBox area, const GArray *avoid)
{
  HwPoint at = hw_view_to_pixels (view, breach->at);
  double w = breach->words_width + 42, h = SLIP_HEIGHT;
  const HwPoint corners[4] = { { at.x - w / 2, at.y - h - 14 },
                               { at.x - w / 2, at.y + 14 },
                               { at.x + 18, at.y - h / 2 },
                               { at.x - w - 18, at.y - h / 2 } };
  HwBox box = { 0 };

  for (int i = 0; i < 4; i++)
    {
      double x = CLAMP (corners[i].x, area.x0 + 6, MAX (area.x0 + 6, area.x1 - w - 6));
      double y = CLAMP (corners[i].y, area.y0 + 6, MAX (area.y0 + 6, area.y1 - h - 6));

      box = (HwBox){ x, y, x + w, y + h };
      if (!hw_view_covers (box, avoid))
        break;
    }
  return box;
}

HwBox
hw_rules_bounds (const HwRules *rules, const HwView *view)
{
  HwBox bounds = HW_BOX_EMPTY;

  for (guint i = 0; i < rules->partners->len; i++)
    {
      const HwOutline *partner = g_ptr_array_index (rules->partners, i);
      bounds = hw_box_union (bounds, hw_view_box_to_pixels (view, partner->box));
    }
  for (guint i = 0; i < rules->breaches->len; i++)
    {
      const Breach *breach = &g_array_index (rules->breaches, Breach, i);
      const HwOutline *shape = breach->past != NULL ? breach->past : breach->misfit;

      bounds = hw_box_union (bounds, hw_view_box_to_pixels (view, shape->box));
    }
  return (HwBox){ bounds.x0 - 4, bounds.y0 - 4, bounds.x1 + 4, bounds.y1 + 4 };
}

HwBox
hw_rules_words_bounds (const HwRules *rules, const HwView *view, HwBox area, const GArray *avoid)
{
  HwBox bounds = HW_BOX_EMPTY;

  for (guint i = 0; i < rules->breaches->len; i++)
    bounds
        = hw_box_union (bounds, words_box (&g_array_index (rules->breaches, Breach, i), view, area, avoid));
  return (HwBox){ bounds.x0 - 2, bounds.y0 - 2, bounds.x1 + 2, bounds.y1 + 2 };
}

/* A triangle with a stroke in it, and the words on a paper-coloured slip. */
static void
draw_words (cairo_t *cr, const Breach *breach, HwBox box)
{
  HwLettering how = { .size = SLIP_LETTERS, .bold = TRUE };
  double x = box.x0, y = box.y0, w = box.x1 - box.x0, h = box.y1 - box.y0;

  cairo_new_sub_path (cr);
  cairo_arc (cr, x + w - 6, y + 6, 6, -G_PI / 2, 0);
  cairo_arc (cr, x + w - 6, y + h - 6, 6, 0, G_PI / 2);
  cairo_arc (cr, x + 6, y + h - 6, 6, G_PI / 2, G_PI);
  cairo_arc (cr, x + 6, y + 6, 6, G_PI, 1.5 * G_PI);
  cairo_close_path (cr);
  cairo_set_source_rgba (cr, 1, 0.985, 0.97, 0.96);
  cairo_fill_preserve (cr);
  set_madder (cr, 1);
  cairo_set_line_width (cr, 1.25);
  cairo_stroke (cr);

  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_move_to (cr, x + 17, y + 6.5);
  cairo_line_to (cr, x + 26, y + 21);
  cairo_line_to (cr, x + 8, y + 21);
  cairo_close_path (cr);
  cairo_fill_preserve (cr);
  cairo_set_line_width (cr, 2);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_set_line_width (cr, 2.2);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_move_to (cr, x + 17, y + 11.5);
  cairo_line_to (cr, x + 17, y + 15);
  cairo_move_to (cr, x + 17, y + 19);
  cairo_line_to (cr, x + 17, y + 19);
  cairo_stroke (cr);
  cairo_set_source_rgb (cr, 0.55, 0.19, 0.14);
  hw_letter (cr, x + 33, y + (h - breach->words_height) / 2, &how, breach->words);
}

void
hw_rules_draw (cairo_t *cr, const HwRules *rules, const HwView *view)
{
  for (guint i = 0; i < rules->partners->len; i++)
    {
      path_in_pixels (cr, g_ptr_array_index (rules->partners, i), view);
      cairo_set_source_rgba (cr, 1, 1, 1, 0.55);
      cairo_set_line_width (cr, 3);
      cairo_stroke_preserve (cr);
      cairo_set_source_rgba (cr, 0.14, 0.15, 0.2, 0.55);
      cairo_set_line_width (cr, 1);
      cairo_stroke (cr);
    }
  for (guint i = 0; i < rules->breaches->len; i++)
    draw_shape (cr, &g_array_index (rules->breaches, Breach, i), view);
}

void
hw_rules_draw_words (cairo_t *cr, const HwRules *rules, const HwView *view, HwBox area, const GArray *avoid)
{
  for (guint i = 0; i < rules->breaches->len; i++)
    {
      const Breach *breach = &g_array_index (rules->breaches, Breach, i);
      draw_words (cr, breach, words_box (breach, view, area, avoid));
    }
}
