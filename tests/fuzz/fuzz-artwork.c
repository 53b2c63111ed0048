/* Artwork files of one kind, which the build names: KIND is its ending. The file is written, since the reader takes a path as a person gives one. */
#include <glib/gstdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "../../src/formats/artwork.h"
#include "fuzz.h"

static char *path;

static void
remove_cb (void)
{
  g_unlink (path);
}

static void
write_file (const uint8_t *data, size_t size)
{
  if (path == NULL)
    {
      path = g_strdup_printf ("%s/spoiled-%d." KIND, g_get_tmp_dir (), (int)getpid ());
      atexit (remove_cb);
    }
  FILE *out = g_fopen (path, "wb");

  g_assert_nonnull (out);
  fwrite (data, 1, size, out);
  fclose (out);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (HwArtwork) artwork = NULL;

  write_file (data, size);
  artwork = hw_artwork_load (path, &(HwArtworkWishes){ 0 }, &error);
  if (artwork == NULL)
    fuzz_assert_sentence (error);
  else
    {
      g_assert_nonnull (artwork->outline);
      g_assert_cmpfloat (artwork->width, >, 0);
      g_assert_cmpfloat (artwork->height, >, 0);
    }
  return 0;
}
