/* The true size of a page of a PDF: a unit of it is 1/72 inch, or UserUnit times that (ISO 32000-1, 8.3.2.3 and table 30). The files are written here by hand. */
#include "artwork-desk.h"

#define INCH 25.4

/* Begins object `number`, and notes where. */
static void
begin_object (GString *pdf, guint number, gsize *places)
{
  places[number] = pdf->len;
  g_string_append_printf (pdf, "%u 0 obj\n", number);
}

/* One page of 4 x 2 units and a filled box of 2 x 1 inside it, for each of units: what the page's dictionary says of its unit. */
static GString *
pdf_with_units (const char *const *units)
{
  static const char box[] = "1 0.5 2 1 re f";
  guint n = g_strv_length ((char **)units), n_objects = 4 + n;
  g_autofree gsize *places = g_new0 (gsize, n_objects);
  GString *pdf = g_string_new ("%PDF-1.7\n");
  gsize table;

  begin_object (pdf, 1, places);
  g_string_append (pdf, "<< /Type /Catalog /Pages 2 0 R >>\nendobj\n");
  begin_object (pdf, 2, places);
  g_string_append_printf (pdf, "<< /Type /Pages /Count %u /Kids [", n);
  for (guint i = 0; i < n; i++)
    g_string_append_printf (pdf, " %u 0 R", 4 + i);
  g_string_append (pdf, " ] >>\nendobj\n");
  begin_object (pdf, 3, places);
  g_string_append_printf (pdf, "<< /Length %zu >>\nstream\n%s\nendstream\nendobj\n", sizeof box - 1, box);
  for (guint i = 0; i < n; i++)
    {
      begin_object (pdf, 4 + i, places);
      g_string_append_printf (
          pdf, "<< /Type /Page /Parent 2 0 R /MediaBox [0 0 4 2] /Contents 3 0 R %s >>\nendobj\n", units[i]);
    }
  table = pdf->len;
  g_string_append_printf (pdf, "xref\n0 %u\n0000000000 65535 f \n", n_objects);
  for (guint i = 1; i < n_objects; i++)
    g_string_append_printf (pdf, "%010zu 00000 n \n", places[i]);
  g_string_append_printf (pdf, "trailer\n<< /Size %u /Root 1 0 R >>\nstartxref\n%zu\n%%%%EOF\n", n_objects,
                          table);
  return pdf;
}

static GByteArray *
packed (const char *text)
{
  g_autoptr (GZlibCompressor) zlib = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB, 9);
  GByteArray *out = g_byte_array_new ();
  gsize read, written;

  g_byte_array_set_size (out, 4096);
  g_assert_cmpint (g_converter_convert (G_CONVERTER (zlib), text, strlen (text), out->data, out->len,
                                        G_CONVERTER_INPUT_AT_END, &read, &written, NULL),
                   ==, G_CONVERTER_FINISHED);
  g_byte_array_set_size (out, (guint)written);
  return out;
}

static void
append_entry (GString *table, guint kind, gsize place, guint index)
{
  const char entry[4] = { (char)kind, (char)(place >> 8), (char)place, (char)index };

  g_string_append_len (table, entry, sizeof entry);
}

/* The same with the catalogue and the page in a packed stream of objects (7.5.7), found through a cross-reference stream (7.5.8). */
static GString *
packed_pdf (const char *unit)
{
  static const char catalogue[] = "<< /Type /Catalog /Pages 2 0 R >> ";
  static const char tree[] = "<< /Type /Pages /Count 1 /Kids [3 0 R] >> ";
  g_autofree char *head
      = g_strdup_printf ("1 0 2 %zu 3 %zu ", sizeof catalogue - 1, sizeof catalogue + sizeof tree - 2);
  g_autofree char *objects
      = g_strdup_printf ("%s%s%s<< /Type /Page /Parent 2 0 R /MediaBox [0 0 4 2] /Contents 4 0 R %s >>", head,
                         catalogue, tree, unit);
  g_autoptr (GByteArray) bytes = packed (objects);
  g_autoptr (GString) table = g_string_new (NULL);
  GString *pdf = g_string_new ("%PDF-1.7\n");
  gsize places[7];

  begin_object (pdf, 4, places);
  g_string_append (pdf, "<< /Length 14 >>\nstream\n1 0.5 2 1 re f\nendstream\nendobj\n");
  begin_object (pdf, 5, places);
  g_string_append_printf (pdf,
                          "<< /Type /ObjStm /N 3 /First %zu /Filter /FlateDecode /Length %u >>\nstream\n",
                          strlen (head), bytes->len);
  g_string_append_len (pdf, (const char *)bytes->data, bytes->len);
  g_string_append (pdf, "\nendstream\nendobj\n");
  begin_object (pdf, 6, places);
  append_entry (table, 0, 0, 0);
  for (guint i = 0; i < 3; i++)
    append_entry (table, 2, 5, i);
  for (guint i = 4; i < 7; i++)
    append_entry (table, 1, places[i], 0);
  g_string_append_printf (pdf, "<< /Type /XRef /Size 7 /W [1 2 1] /Root 1 0 R /Length %zu >>\nstream\n",
                          table->len);
  g_string_append_len (pdf, table->str, (gssize)table->len);
  g_string_append_printf (pdf, "\nendstream\nendobj\nstartxref\n%zu\n%%%%EOF\n", places[6]);
  return pdf;
}

static void
assert_page_is (Desk *desk, guint number, double unit)
{
  HwArtworkWishes wishes = { .page = number };
  g_autoptr (HwArtwork) artwork = load (desk, &wishes);
  double mm = unit * INCH / 72;

  g_assert_cmpfloat_with_epsilon (artwork->width, 4 * mm, 1e-6);
  g_assert_cmpfloat_with_epsilon (artwork->height, 2 * mm, 1e-6);
  assert_area (artwork, 2 * mm * mm);
}

static void
test_pages_unit_makes_its_size (Desk *desk, gconstpointer data)
{
  static const struct
  {
    const char *said;
    double unit;
  } pages[] = {
    { "/UserUnit 72", 72 },
    { "/UserUnit 36.5", 36.5 },
    { "/UserUnit\n50.", 50 },
    { "/UserUnitary 9 /UserUnit 100", 100 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      g_autoptr (GString) plain = pdf_with_units ((const char *const[]){ pages[i].said, NULL });
      g_autoptr (GString) small = packed_pdf (pages[i].said);

      put (desk, "gate.pdf", plain->str, (gssize)plain->len);
      assert_page_is (desk, 1, pages[i].unit);
      put (desk, "packed.pdf", small->str, (gssize)small->len);
      assert_page_is (desk, 1, pages[i].unit);
    }
}

static void
test_pages_of_one_unit (Desk *desk, gconstpointer data)
{
  const char *const units[] = { "/UserUnit 72", "/UserUnit 72.0", NULL };
  g_autoptr (GString) pdf = pdf_with_units (units);

  put (desk, "gates.pdf", pdf->str, (gssize)pdf->len);
  assert_page_is (desk, 1, 72);
  assert_page_is (desk, 2, 72);
}

/* Rather none than a wrong size. */
static void
test_pages_of_different_units_are_refused (Desk *desk, gconstpointer data)
{
  const char *const mixed[][3] = {
    { "/UserUnit 72", "/UserUnit 36", NULL },
    { "/UserUnit 72", "", NULL },
    { "/UserUnit 3 0 R", NULL },
    { "/UserUnit -2", NULL },
    { "/UserUnit 0", NULL },
    { "/UserUnit 1e3", NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (mixed); i++)
    {
      g_autoptr (GString) pdf = pdf_with_units (mixed[i]);

      put (desk, "mixed.pdf", pdf->str, (gssize)pdf->len);
      assert_refused (desk, NULL, HW_ARTWORK_ERROR_SIZE);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  ADD ("/artwork-pdf/pages-unit-makes-its-size", NULL, test_pages_unit_makes_its_size);
  ADD ("/artwork-pdf/pages-of-one-unit", NULL, test_pages_of_one_unit);
  ADD ("/artwork-pdf/pages-of-different-units-are-refused", NULL, test_pages_of_different_units_are_refused);
  return g_test_run ();
}
