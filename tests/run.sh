#!/bin/sh
# Installs what is missing, builds, and runs every test. Arguments go to meson setup, such as -Dwerror=true;
# --sanitized runs the tests below the window once more with the address and undefined-behaviour sanitizers; before it, --counted builds what is tested for
# counting, and the last test then holds each room to its share of branches (tests/coverage.py). Not optimised, that build hides some of what the compiler
# warns of, so the program is compiled as it is used too.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/src/set-up.sh"

counted=""
plain=$root/build
if [ "${1:-}" = --counted ]; then
  counted="-Db_coverage=true -Doptimization=0"
  plain=$root/build-coverage
  shift
fi
sanitized=no
if [ "${1:-}" = --sanitized ]; then
  sanitized=yes
  shift
fi

say "Hoopwright tests: looking for what is missing ..."
install_missing $build_packages $test_packages
say "Building ..."
build "$plain" all -Dauto_features=enabled $counted "$@"
find "$plain" -name '*.gcda' -exec rm -f {} +
logs=$plain/meson-logs/testlog.json

# Further builds use what time the window's tests leave while they wait.
used_build=""
if [ -n "$counted" ]; then
  build "$root/build" program -Dauto_features=enabled "$@" &
  used_build=$!
  renice -n 15 -p $used_build >/dev/null
fi
if [ "$sanitized" = yes ]; then
  # Little optimised and with no more for a debugger than places in the source: it is compiled in two thirds of the time, and a finding is told as exactly.
  # What may be used before it is set, the compiler cannot tell between the checks; the plain build holds it to that.
  build "$root/build-sanitized" below-the-window -Doptimization=1 "-Dc_args=-g1 -Wno-maybe-uninitialized" -Dauto_features=enabled -Db_sanitize=address,undefined -Db_lundef=false "$@" &
  sanitized_build=$!
  renice -n 15 -p $sanitized_build >/dev/null
fi
say "Running the tests ..."
# Three at once on two cores: those that drive a window wait a good part of their time.
meson test -C "$plain" --no-rebuild --print-errorlogs --num-processes 3 ${counted:+--timeout-multiplier 6} || true

if [ "$sanitized" = yes ]; then
  say "Building with sanitizers ..."
  wait $sanitized_build || exit 1
  say "Running the tests with sanitizers ..."
  LSAN_OPTIONS="suppressions=$root/tests/leaks.supp:print_suppressions=0" G_SLICE=always-malloc \
    meson test -C "$root/build-sanitized" --no-rebuild --print-errorlogs --num-processes 2 --timeout-multiplier 6 \
      --no-suite window --no-suite widgets --no-suite outside --no-suite help --no-suite data --no-suite po --no-suite faults --no-suite safety || true
  logs="$logs $root/build-sanitized/meson-logs/testlog.json"
fi

[ -z "$used_build" ] || wait $used_build || exit 1

# A test of windows that failed beside others has another chance by itself; that it failed is told all the same (count.py).
/usr/bin/python3 "$root/tests/count.py" --to-repeat "$plain/meson-logs/testlog.json" >"$plain/to-repeat"
repeated=""
if [ -s "$plain/to-repeat" ]; then
  say "Running again, one by one: $(tr '\n' ' ' <"$plain/to-repeat")"
  (IFS='
'; exec meson test -C "$plain" --no-rebuild --logbase repeated --num-processes 1 ${counted:+--timeout-multiplier=6} $(cat "$plain/to-repeat")) || true
  repeated="--repeated $plain/meson-logs/repeated.json"
fi
# The table by room, whether or not a room lies under its bound.
[ -z "$counted" ] || /usr/bin/python3 "$root/tests/coverage.py" "$plain"
exec /usr/bin/python3 "$root/tests/count.py" $repeated $logs
