#!/bin/sh
# Builds for counting, runs the tests below the window and tells what of each room they ran: sh tests/coverage.sh [FOLDER].
# The last test holds the rooms to their bounds; what is missing is printed by python3 tests/coverage.py FOLDER --missing ROOM.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/src/set-up.sh"
folder=${1:-$root/build-coverage}

install_missing $build_packages $test_packages
say "Building ..."
build "$folder" below-the-window -Dauto_features=enabled -Db_coverage=true -Doptimization=0
find "$folder" -name '*.gcda' -exec rm -f {} +
say "Running the tests ..."
failed=0
meson test -C "$folder" --no-rebuild --print-errorlogs --num-processes 2 --timeout-multiplier 6 \
  --no-suite window --no-suite widgets --no-suite help --no-suite data --no-suite po || failed=1
/usr/bin/python3 "$root/tests/coverage.py" "$folder"
exit $failed
