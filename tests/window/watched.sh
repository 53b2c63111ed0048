# Sourced: a test of the window with the program watched by valgrind, which makes it slow.

# watched NAME BUILD TIMES WORDS: runs test-NAME.py, or those of its checks that CHECKS names, with BUILD's program started by WORDS; all is waited for
# TIMES as long. The program is asked to end, so that what watches it can look for memory that is lost. Succeeds when the test does and what the watch
# wrote, kept in BUILD/watched, is nothing.
watched () {
  program=$2/watched/hoopwright
  mkdir -p "$2/watched"
  rm -f "$2/watched/said-$1".*
  printf '#!/bin/sh\nexec %s --log-file=%s %s/src/hoopwright "$@"\n' "$4" "$2/watched/said-$1.%p" "$2" >"$program-$1"
  chmod +x "$program-$1"
  status=0
  HOOPWRIGHT=$program-$1 HOOPWRIGHT_PATIENCE=$3 HOOPWRIGHT_FAILURES=$2/watched HOOPWRIGHT_CATALOGUES=$2/po PYTHONDONTWRITEBYTECODE=1 \
    HOOPWRIGHT_WITNESS_LIBRARY=$2/tests/window/libwitness.so HOOPWRIGHT_QUIET_LIBRARY=$2/tests/safety/libquiet.so \
    /usr/bin/python3 "$root/tests/window/test-$1.py" ${CHECKS:-} || status=1
  for said in "$2/watched/said-$1".*; do
    [ -s "$said" ] || continue
    status=1
    sed "s|^|# |" "$said"
  done
  return $status
}
