#!/bin/sh
# Runs tests under valgrind's memcheck: sh tests/valgrind.sh BUILD [SUITE | SUITE/NAME | window/NAME ...]. BUILD is a folder that is built already, without
# sanitizers, such as build/; named without suites, all are run but the real window. planning/order runs one program of a suite, window/opening drives the
# real window with the program under memcheck. What is tried by chance is tried a tenth as often (rounds.h).
# Reported are reads and writes out of place, values never set, and memory that nothing points to any more; the last not of the real window, where LEAKS=1
# tests/window/sanitized.sh tells it in a small part of the time. What is suppressed stands in valgrind.supp.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
build=$(cd "${1:?which build folder}" && pwd)
shift
# The tests in Python start no program of ours (data, help, po), or are under window/. Programs of the system that a test starts are none of ours.
[ $# -gt 0 ] || set -- geometry scene registration planning formats drawing paper commands workbench outside fuzz faults widgets
memcheck="valgrind -q --error-exitcode=99 --suppressions=$root/tests/valgrind.supp --trace-children=yes --trace-children-skip=/usr/*,/bin/*"
memory="--leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite --num-callers=40"
in_window="--leak-check=no --num-callers=20"
export G_SLICE=always-malloc HOOPWRIGHT_ONE_ROUND_IN="${HOOPWRIGHT_ONE_ROUND_IN:-10}"
failed=0
for suite in "$@"; do
  began=$(date +%s)
  case $suite in
  window/*)
    . "$root/tests/window/watched.sh"
    watched "${suite#window/}" "$build" 20 "$memcheck $in_window --log-file=$build/watched/said-${suite#window/}.%p" || { failed=1; echo "$suite: NOT CLEAN"; }
    ;;
  *)
    case $suite in
    */*) which="${suite%%/*} / ${suite#*/}" by= ;;
    *) which=$suite by=--suite ;;
    esac
    # A program of widgets is started by a script of Python, which is not watched (on-desk.py).
    case $suite in
    widgets*) wrapper=env watched_by="$memcheck $memory" ;;
    *) wrapper="$memcheck $memory" watched_by= ;;
    esac
    HOOPWRIGHT_WATCHED_BY=$watched_by meson test -C "$build" --no-rebuild --logbase "valgrind-$(echo "$suite" | tr / -)" --num-processes "${PROCESSES:-1}" \
      --timeout-multiplier 60 $by "$which" --wrapper "$wrapper" --print-errorlogs || { failed=1; echo "$suite: NOT CLEAN"; }
    ;;
  esac
  echo "$suite: $(($(date +%s) - began)) s"
done
exit $failed
