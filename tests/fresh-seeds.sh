#!/bin/sh
# Runs the random tests of a build folder again and again from new seeds: sh tests/fresh-seeds.sh BUILD ROUNDS [PATTERN].
# A failure prints its seed; run that test with --seed to see it again.
set -eu
build=${1:?which build folder}
rounds=${2:?how many rounds}
pattern=${3:-}
here=$(cd "$(dirname "$0")" && pwd)
failed=0
for round in $(seq "$rounds"); do
  for test in "$build"/tests/test-*"$pattern"*; do
    [ -x "$test" ] && [ ! -d "$test" ] || continue
    grep -q g_test_rand "$here"/*/"$(basename "$test" | sed 's/^test-[a-z]*-/test-/')".c || continue
    if ! G_DEBUG=fatal-criticals GSETTINGS_BACKEND=memory G_TEST_SRCDIR=$here LC_ALL=C.UTF-8 "$test" >/tmp/fresh-seed.$$ 2>&1; then
      failed=$((failed + 1))
      echo "round $round: $(basename "$test"): $(grep -a 'random seed' /tmp/fresh-seed.$$)"
      grep -a 'ERROR\|Bail\|not ok' /tmp/fresh-seed.$$ | head -3
    fi
  done
done
rm -f /tmp/fresh-seed.$$
echo "$rounds rounds, $failed failed"
[ "$failed" = 0 ]
