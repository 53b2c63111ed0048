/* Private to this room: writes running matter (headings, tables, paragraphs) down a column and on to
 * further pages. The same code first counts the pages, when the job is laid out, and later draws the one
 * that is asked for; so a writer only draws while it is on that page. */
#pragma once

#include "../drawing/lettering.h"
#include "page.h"

G_BEGIN_DECLS

typedef struct
{
  const HwPrintJob *job;
  cairo_t *cr;         /* the page asked for; NULL while counting */
  cairo_t *measure;    /* to measure on, alike for counting and drawing */
  guint target;        /* the page asked for */
  guint page;          /* the page being written */
  guint last_page;     /* the furthest page written on */
  double top, bottom;  /* of the matter on a page */
  double x, width;     /* the column */
  double y;            /* where to go on */
  const char *running; /* stands at the top of every page but the first; or NULL */
  gboolean running_drawn;
} HwWriter;

/* A subject's pages: writes all of it, from page 0. */
typedef void (*HwWriterMatter) (HwWriter *writer, guint subject);

/* White between columns of matter side by side, mm. */
#define HW_GUTTER 6.0

/* What the running title takes at the top of a further page, mm. */
#define HW_RUNNING_HEIGHT 9.0

/* How many pages the matter takes. */
guint
hw_writer_count (const HwPrintJob *job, guint subject, HwWriterMatter matter);
/* Draws one of them. */
void
hw_writer_draw (const HwPrintJob *job, guint subject, HwWriterMatter matter, guint page, cairo_t *cr);

/* The margins of running matter on the job's sheet. */
double
hw_writer_margin (const HwPrintJob *job);

/* How far above the sheet's lower edge the footer stands under running matter. */
double
hw_writer_foot (const HwPrintJob *job);

/* Where the matter on a page ends, mm from the sheet's upper edge. */
double
hw_writer_bottom (const HwPrintJob *job);

/* The context to draw on now, or NULL. */
cairo_t *
hw_writer_cr (const HwWriter *writer);

/* Takes height mm of the column, on the next page if this one is full; returns its top. */
double
hw_writer_take (HwWriter *writer, double height);
/* Goes to the next page unless height mm are left on this one. */
void
hw_writer_need (HwWriter *writer, double height);
void
hw_writer_skip (HwWriter *writer, double height); /* white, never at the top of a page */

/* How high the matter comes out that `write` writes for the subject from the writer on, in its width, on a page without end. */
typedef void (*HwWriterPart) (HwWriter *writer, guint subject, gpointer user_data);
double
hw_writer_height (
    const HwWriter *writer, double width, guint subject, HwWriterPart write, gpointer user_data);

/* One heading of a part; keeps `with` mm of what follows on its page. */
void
hw_writer_heading (HwWriter *writer, const char *text, double with);
/* Wrapped text. A paragraph is never divided; one longer than a page is cut. */
void
hw_writer_paragraph (HwWriter *writer, double size, gboolean bold, const char *text);
double
hw_writer_measure (const HwWriter *writer, double width, double size, gboolean bold, const char *text);

/* Tables: hairlines between rows, the head repeated on each page. */
typedef struct
{
  const char *title; /* NULL: none */
  double width;      /* mm; 0: what is left */
  HwLetterAlign align;
  gboolean
      title_left; /* the title begins at the column's left and may reach over untitled columns after it */
} HwColumn;

typedef struct
{
  const char *text;       /* NULL: empty */
  const HwColour *swatch; /* instead of text */
  gboolean tick;          /* a tick box instead of text */
  gboolean ring;          /* the text is a number in a ring */
  gboolean blank;         /* a box to write in */
  gboolean wrap;          /* over several lines; else shortened */
  gboolean small;         /* in the small size */
  gboolean bold;
  const guint *chip; /* the hatch of this hooping (from 0) instead of text */
} HwCell;

typedef struct
{
  HwWriter *writer;
  const HwColumn *columns;
  guint n_columns;
  gboolean begun;
  double gap; /* mm between columns; 0: 3 mm */
} HwTable;

#define HW_TABLE_ROW 5.4
#define HW_TABLE_MOST_COLUMNS 12

void
hw_table_row (HwTable *table, const HwCell *cells);

G_END_DECLS
