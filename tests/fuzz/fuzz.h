/* What a fuzzed way in has: one function that takes bytes and must come back whatever they are. libFuzzer's name for it (LLVM, "libFuzzer – a library for
 * coverage-guided fuzz testing"), so that the same program runs under libFuzzer for hours and under driver.c for a fixed number of times. */
#pragma once

#include <glib.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

/* Bytes spent one after the other on choices; when none are left everything is 0. */
typedef struct
{
  const uint8_t *data;
  size_t left;
} FuzzBytes;

static inline guint
fuzz_byte (FuzzBytes *bytes)
{
  if (bytes->left == 0)
    return 0;
  bytes->left--;
  return *bytes->data++;
}

/* 0 <= it < n */
static inline guint
fuzz_choice (FuzzBytes *bytes, guint n)
{
  guint value = fuzz_byte (bytes);

  return (value << 8 | fuzz_byte (bytes)) % n;
}

static inline double
fuzz_between (FuzzBytes *bytes, double low, double high)
{
  guint value = fuzz_byte (bytes);

  return low + (high - low) * (value << 8 | fuzz_byte (bytes)) / 65535;
}

/* What was refused must say why, in one sentence that can be shown. */
static inline void
fuzz_assert_sentence (const GError *error)
{
  g_assert_nonnull (error);
  g_assert_cmpuint (strlen (error->message), >, 5);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_null (strchr (error->message, '\n'));
}
