# Sourced: a test of the window with the program watched by valgrind or by sanitizers, which make it slow.

# watched NAME BUILD TIMES WORDS: runs test-NAME.py, or those of its checks that CHECKS names, with BUILD's program, started by WORDS if there are any;
# all is waited for TIMES as long. The program is asked to end, so that what watches it can look for memory that is lost. Succeeds when the test does and
# what the watch wrote into BUILD/watched/said-NAME.* is nothing.
watched () {
  mkdir -p "$2/watched"
  rm -f "$2/watched/said-$1".*
  program=$2/src/hoopwright
  if [ -n "$4" ]; then
    program=$2/watched/hoopwright-$1
    printf '#!/bin/sh\nexec %s %s/src/hoopwright "$@"\n' "$4" "$2" >"$program"
    chmod +x "$program"
  fi
  # The address sanitizer has to come before whatever a test puts into the program.
  first=$(ldd "$2/src/hoopwright" | sed -n 's/.*libasan.* => \(.*\) (.*/\1 /p')
  status=0
  HOOPWRIGHT=$program HOOPWRIGHT_PATIENCE=$3 HOOPWRIGHT_FAILURES=$2/watched HOOPWRIGHT_CATALOGUES=$2/po PYTHONDONTWRITEBYTECODE=1 \
    HOOPWRIGHT_WITNESS_LIBRARY=$first$2/tests/window/libwitness.so HOOPWRIGHT_QUIET_LIBRARY=$first$2/tests/safety/libquiet.so \
    /usr/bin/python3 "$root/tests/window/test-$1.py" ${CHECKS:-} || status=1
  for said in "$2/watched/said-$1".*; do
    [ -s "$said" ] || continue
    awk -f "$root/tests/window/lost.awk" "$said" >"$2/watched/left" && mv "$2/watched/left" "$said"
    [ -s "$said" ] || continue
    status=1
    sed "s|^|# |" "$said"
  done
  return $status
}
