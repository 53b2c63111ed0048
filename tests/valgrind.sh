#!/bin/sh
# Runs tests under valgrind's memcheck: sh tests/valgrind.sh BUILD [SUITE | window/NAME ...]. BUILD is a folder that is built already, without sanitizers,
# such as build/; named without suites, all that need no window are run. window/opening drives the real window with the program under memcheck.
# Reported are reads and writes out of place, values never set, and memory that nothing points to any more. What is suppressed stands in valgrind.supp.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
build=$(cd "${1:?which build folder}" && pwd)
shift
# The tests in Python start no program of ours (data, help, po), or are under window/. Programs of the system that a test starts are none of ours.
[ $# -gt 0 ] || set -- geometry scene registration planning formats drawing paper commands workbench outside fuzz faults
memcheck="valgrind -q --error-exitcode=99 --leak-check=full --show-leak-kinds=definite --errors-for-leak-kinds=definite --num-callers=40
  --suppressions=$root/tests/valgrind.supp --trace-children=yes --trace-children-skip=/usr/*,/bin/*"
export G_SLICE=always-malloc
failed=0
for suite in "$@"; do
  began=$(date +%s)
  case $suite in
  window/*)
    . "$root/tests/window/watched.sh"
    watched "${suite#window/}" "$build" 20 "$(echo $memcheck) --log-file=$build/watched/said-${suite#window/}.%p" || { failed=1; echo "$suite: NOT CLEAN"; }
    ;;
  *)
    meson test -C "$build" --no-rebuild --logbase "valgrind-$suite" --num-processes "${PROCESSES:-1}" --timeout-multiplier 60 --suite "$suite" \
      --wrapper "$(echo $memcheck)" --print-errorlogs || { failed=1; echo "$suite: NOT CLEAN"; }
    ;;
  esac
  echo "$suite: $(($(date +%s) - began)) s"
done
exit $failed
