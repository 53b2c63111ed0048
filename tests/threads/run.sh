#!/bin/sh
# Builds with ThreadSanitizer and runs what has threads: sh tests/threads/run.sh [FOLDER]. First that the sanitizer sees what is planted and nothing else.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
. "$root/src/set-up.sh"
folder=${1:-$root/build-threads}

install_missing $build_packages $test_packages
say "Building ..."
build "$folder" below-the-window -Dauto_features=enabled -Db_sanitize=thread -Db_lundef=false
say "Running the tests ..."
failed=0
try () {
  meson test -C "$folder" --no-rebuild --print-errorlogs --num-processes 2 --timeout-multiplier 20 "$@" || failed=1
}
try --suite threads --suite workbench --suite paper
try 'planning / plan-runner' 'planning / advice'
exit $failed
