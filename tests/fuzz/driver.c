/* Runs a fuzzed way in a fixed number of times from a fixed seed, without libFuzzer: driver CORPUS [RUNS [SEED]]. Each file of the corpus goes in as it is;
 * then files are spoiled as storage, transfer and people spoil them: bits flipped, pieces cut out, doubled, moved in from another file, numbers made extreme,
 * words of the format put elsewhere. Before it ends badly it leaves what went in beside, as "spoiled-input". Prints TAP. */
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "../rounds.h"
#include "fuzz.h"

#define MOST_BYTES 65536
#define MOST_CHANGES 8

static const char *const extremes[] = { "-1",
                                        "0",
                                        "1e308",
                                        "-1e308",
                                        "1e-320",
                                        "4294967296",
                                        "2147483648",
                                        "NaN",
                                        "null",
                                        "true",
                                        "\"\"",
                                        "[]",
                                        "{}",
                                        "99999999999999999999",
                                        "-0",
                                        "0.1",
                                        "\\u0000",
                                        "\xff\xfe",
                                        "\xf0\x9f\xa7\xb5" };

static const uint8_t *now;
static size_t now_size;

/* Only what may be called in a signal handler. */
static void
leave_input_cb (int number)
{
  int out = open ("spoiled-input", O_WRONLY | O_CREAT | O_TRUNC, 0644);
  ssize_t written = out >= 0 ? write (out, now, now_size) : -1;

  (void)written;
  signal (number, SIG_DFL);
  raise (number);
}

static void
try_one (const GByteArray *bytes)
{
  /* Of just that size, so that a byte beyond the end is noticed. */
  g_autofree uint8_t *exact = g_malloc (MAX (bytes->len, 1));

  memcpy (exact, bytes->data, bytes->len);
  now = exact;
  now_size = bytes->len;
  LLVMFuzzerTestOneInput (exact, bytes->len);
}

static int
compare_names (gconstpointer a, gconstpointer b)
{
  return strcmp (*(char *const *)a, *(char *const *)b);
}

static GPtrArray *
read_corpus (const char *folder)
{
  GPtrArray *corpus = g_ptr_array_new_with_free_func ((GDestroyNotify)g_byte_array_unref);
  g_autoptr (GPtrArray) names = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);

  for (const char *name; dir != NULL && (name = g_dir_read_name (dir)) != NULL;)
    g_ptr_array_add (names, g_build_filename (folder, name, NULL));
  g_ptr_array_sort (names, compare_names);
  for (guint i = 0; i < names->len; i++)
    {
      char *text;
      gsize length;

      if (g_file_get_contents (names->pdata[i], &text, &length, NULL))
        g_ptr_array_add (corpus, g_byte_array_new_take ((guint8 *)text, length));
    }
  return corpus;
}

static guint
place_in (GRand *rand, const GByteArray *bytes)
{
  return bytes->len > 0 ? (guint)g_rand_int_range (rand, 0, (gint32)bytes->len) : 0;
}

static void
insert (GByteArray *bytes, guint at, const uint8_t *piece, guint length)
{
  guint before = bytes->len;

  if (before + length > MOST_BYTES)
    return;
  g_byte_array_set_size (bytes, before + length);
  memmove (bytes->data + at + length, bytes->data + at, before - at);
  memcpy (bytes->data + at, piece, length);
}

/* A number where one stands, else anywhere. */
static void
make_extreme (GRand *rand, GByteArray *bytes)
{
  const char *extreme = extremes[g_rand_int_range (rand, 0, G_N_ELEMENTS (extremes))];
  guint at = place_in (rand, bytes), end;

  while (at < bytes->len && !g_ascii_isdigit (bytes->data[at]))
    at++;
  for (end = at;
       end < bytes->len && strchr ("0123456789.+-eE", bytes->data[end]) != NULL && bytes->data[end] != 0;)
    end++;
  if (end > at)
    g_byte_array_remove_range (bytes, at, end - at);
  insert (bytes, MIN (at, bytes->len), (const uint8_t *)extreme, (guint)strlen (extreme));
}

static void
spoil (GRand *rand, GByteArray *bytes, const GByteArray *other)
{
  guint at = place_in (rand, bytes), length = (guint)g_rand_int_range (rand, 1, 33);
  g_autofree uint8_t *piece = NULL;

  switch (g_rand_int_range (rand, 0, 7))
    {
    case 0:
      if (bytes->len > 0)
        bytes->data[at] ^= (uint8_t)(1u << g_rand_int_range (rand, 0, 8));
      break;
    case 1:
      if (bytes->len > 0)
        bytes->data[at] = (uint8_t)g_rand_int_range (rand, 0, 256);
      break;
    case 2:
      if (bytes->len > 0)
        g_byte_array_remove_range (bytes, at, MIN (length, bytes->len - at));
      break;
    case 3:
      length = MIN (length * 8, bytes->len - MIN (at, bytes->len));
      piece = g_memdup2 (bytes->data + at, length);
      insert (bytes, place_in (rand, bytes), piece, length);
      break;
    case 4:
      if (other->len > 0)
        {
          guint from = place_in (rand, other);

          piece = g_memdup2 (other->data + from, MIN (length, other->len - from));
          insert (bytes, at, piece, MIN (length, other->len - from));
        }
      break;
    case 5:
      make_extreme (rand, bytes);
      break;
    default:
      if (g_rand_int_range (rand, 0, 4) == 0)
        g_byte_array_set_size (bytes, at);
      break;
    }
}

static void
try_spoiled (const GPtrArray *corpus, GRand *rand)
{
  const GByteArray *from = corpus->pdata[g_rand_int_range (rand, 0, (gint32)corpus->len)];
  const GByteArray *other = corpus->pdata[g_rand_int_range (rand, 0, (gint32)corpus->len)];
  g_autoptr (GByteArray) bytes = g_byte_array_new ();

  g_byte_array_append (bytes, from->data, MIN (from->len, MOST_BYTES));
  for (int n = g_rand_int_range (rand, 1, MOST_CHANGES + 1); n > 0; n--)
    spoil (rand, bytes, other);
  try_one (bytes);
}

int
main (int argc, char **argv)
{
  guint64 runs = (argc > 2 ? g_ascii_strtoull (argv[2], NULL, 10) : 2000) / rounds_one_in ();
  g_autoptr (GRand) rand
      = g_rand_new_with_seed (argc > 3 ? (guint32)g_ascii_strtoull (argv[3], NULL, 10) : 20261126);
  g_autoptr (GPtrArray) corpus = argc > 1 ? read_corpus (argv[1]) : NULL;

  if (corpus == NULL || corpus->len == 0)
    {
      g_print ("Bail out! Name a folder with a corpus.\n");
      return 2;
    }
  signal (SIGABRT, leave_input_cb);
  signal (SIGSEGV, leave_input_cb);
  signal (SIGFPE, leave_input_cb);
  g_print ("1..2\n");
  for (guint i = 0; i < corpus->len; i++)
    try_one (corpus->pdata[i]);
  g_print ("ok 1 - the corpus as it is, %u files\n", corpus->len);
  for (guint64 i = 0; i < runs; i++)
    try_spoiled (corpus, rand);
  g_print ("ok 2 - %" G_GUINT64_FORMAT " spoiled inputs\n", runs);
  return 0;
}
