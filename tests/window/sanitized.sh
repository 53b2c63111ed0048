#!/bin/sh
# Drives the window with the program under the address and undefined-behaviour sanitizers: sh tests/window/sanitized.sh BUILD [NAME ...]. BUILD is a
# folder set up with them, such as the build-sanitized/ of tests/run.sh, and is brought up to date; NAME is one of tests/window/test-NAME.py, and
# without names all are run. A report fails the test.
# Lost memory is looked for where LEAKS=1 is set. Stacks are then walked by what the libraries say of their frames, which is slower and sees through GLib; what
# GTK's file dialogs lose themselves is told apart by lost.awk; the program's end therefore tells nothing of it.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "${1:?which build folder}" && pwd)
shift
. "$root/tests/window/watched.sh"
ninja -C "$build" program tests/window/libwitness.so tests/safety/libquiet.so >"$build/ninja.log" || { tail -n 20 "$build/ninja.log"; exit 1; }
[ $# -gt 0 ] || set -- $(cd "$root/tests/window" && ls test-*.py | sed 's/^test-\(.*\)\.py$/\1/')
export G_SLICE=always-malloc LSAN_OPTIONS="suppressions=$root/tests/leaks.supp:print_suppressions=0:exitcode=0"
failed=0
for name in "$@"; do
  began=$(date +%s)
  export ASAN_OPTIONS="detect_leaks=${LEAKS:-0}:fast_unwind_on_malloc=$((1 - ${LEAKS:-0})):malloc_context_size=50:log_path=$build/watched/said-$name" UBSAN_OPTIONS="print_stacktrace=1:log_path=$build/watched/said-$name"
  watched "$name" "$build" 6 "" || { failed=1; echo "window/$name: NOT CLEAN"; }
  echo "window/$name: $(($(date +%s) - began)) s"
done
exit $failed
