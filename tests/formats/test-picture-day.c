/* The day a photograph was taken, as its camera noted it. */
#include <string.h>

#include "formats/picture-load.h"

static void
put (GByteArray *to, guint32 value, guint size, gboolean little)
{
  for (guint i = 0; i < size; i++)
    {
      guint8 byte = (guint8)(value >> 8 * (little ? i : size - 1 - i));

      g_byte_array_append (to, &byte, 1);
    }
}

/* CIPA DC-008: 0x0132 (changed) in the first directory, 0x9003 (taken) in the camera's own, which 0x8769 points to; each 20 characters. NULL: left out. */
static GByteArray *
make_dated_tiff (const char *changed, const char *taken, gboolean little)
{
  GByteArray *tiff = g_byte_array_new ();

  g_byte_array_append (tiff, (const guint8 *)(little ? "II" : "MM"), 2);
  put (tiff, 42, 2, little);
  put (tiff, 8, 4, little);
  put (tiff, 2, 2, little);
  put (tiff, changed != NULL ? 0x0132 : 0x0131, 2, little);
  put (tiff, 2, 2, little);
  put (tiff, 20, 4, little);
  put (tiff, 56, 4, little);
  put (tiff, 0x8769, 2, little);
  put (tiff, 4, 2, little);
  put (tiff, 1, 4, little);
  put (tiff, 38, 4, little);
  put (tiff, 0, 4, little);
  put (tiff, 1, 2, little);
  put (tiff, taken != NULL ? 0x9003 : 0x9004, 2, little);
  put (tiff, 2, 2, little);
  put (tiff, 20, 4, little);
  put (tiff, 76, 4, little);
  put (tiff, 0, 4, little);
  g_byte_array_append (tiff, (const guint8 *)(changed != NULL ? changed : "2001:01:01 01:01:01"), 20);
  g_byte_array_append (tiff, (const guint8 *)(taken != NULL ? taken : "2001:01:01 01:01:01"), 20);
  return tiff;
}

/* Of a JPEG that holds the note and no picture. */
static char *
day_of (GByteArray *tiff)
{
  g_autoptr (GByteArray) jpeg = g_byte_array_new ();
  g_autoptr (GBytes) bytes = NULL;

  put (jpeg, 0xffd8ffe1, 4, FALSE);
  put (jpeg, tiff->len + 8, 2, FALSE);
  g_byte_array_append (jpeg, (const guint8 *)"Exif\0", 6);
  g_byte_array_append (jpeg, tiff->data, tiff->len);
  put (jpeg, 0xffd9, 2, FALSE);
  bytes = g_bytes_new (jpeg->data, jpeg->len);
  return hw_picture_day (bytes);
}

static void
test_day_of_exif (void)
{
  static const struct
  {
    const char *changed, *taken, *day;
  } cases[] = {
    { "2026:05:04 10:20:30", "2026:05:03 23:59:59", "2026-05-03" },
    { "2026:05:04 10:20:30", NULL, "2026-05-04" },
    { NULL, "2024:02:29 00:00:00", "2024-02-29" },
    { NULL, "2026:02:29 00:00:00", NULL },
    { "2026:05:04 10:20:30", "    :  :     :  :  ", "2026-05-04" },
    { "0000:00:00 00:00:00", "0000:00:00 00:00:00", NULL },
    { NULL, NULL, NULL },
  };

  for (guint i = 0; i < 2 * G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GByteArray) tiff = make_dated_tiff (cases[i / 2].changed, cases[i / 2].taken, i % 2);
      g_autofree char *day = day_of (tiff);

      g_assert_cmpstr (day, ==, cases[i / 2].day);
    }
}

/* A note that ends anywhere, or points anywhere, is read no further than it goes. */
static void
test_broken_days_of_exif (void)
{
  for (guint length = 0; length < 96; length++)
    {
      g_autoptr (GByteArray) tiff = make_dated_tiff ("2026:05:04 10:20:30", "2026:05:03 23:59:59", TRUE);
      g_autofree char *day = NULL;

      g_byte_array_set_size (tiff, length);
      day = day_of (tiff);
      g_assert_cmpstr (day, ==, length >= 86 ? "2026-05-03" : length >= 66 ? "2026-05-04" : NULL);
    }
  for (guint pointer = 0; pointer < 4; pointer++)
    {
      g_autoptr (GByteArray) tiff = make_dated_tiff (NULL, "2026:05:03 23:59:59", TRUE);
      g_autofree char *day = NULL;

      memset (tiff->data + (const guint[]){ 4, 30, 48, 18 }[pointer], 0xff, 4);
      day = day_of (tiff);
      g_assert_cmpstr (day, ==, pointer == 3 ? "2026-05-03" : NULL);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/picture-day/of-exif", test_day_of_exif);
  g_test_add_func ("/picture-day/broken-notes", test_broken_days_of_exif);
  return g_test_run ();
}
