#!/bin/sh
# Fuzzes every way in with libFuzzer and the address and undefined-behaviour sanitizers: hours.sh FOLDER [SECONDS each, 3600]. Needs clang and its
# runtime (Debian: clang, libclang-rt-14-dev). Builds into FOLDER/build; what is found lands in FOLDER, what is learnt in FOLDER/learnt.
set -eu
root=$(cd "$(dirname "$0")/../.." && pwd)
folder=${1:?Name a folder for the build and what is found.}
seconds=${2:-3600}
mkdir -p "$folder"
folder=$(cd "$folder" && pwd)
if [ ! -f "$folder/build/build.ninja" ]; then
  CC=clang CFLAGS="-fsanitize=fuzzer-no-link" meson setup "$folder/build" "$root" -Db_sanitize=address,undefined -Db_lundef=false \
    -Dbuildtype=debugoptimized
fi
ninja -C "$folder/build" data/gschemas.compiled $(ninja -C "$folder/build" -t targets all | sed -n 's|^\(tests/fuzz/fuzz-[a-z-]*\):.*|\1|p')
for program in "$folder"/build/tests/fuzz/fuzz-*; do
  [ -x "$program" ] && [ -f "$program" ] || continue
  name=$(basename "$program" | sed 's/^fuzz-//')
  mkdir -p "$folder/learnt/$name"
  echo "== $name"
  G_DEBUG=fatal-criticals G_SLICE=always-malloc GSETTINGS_BACKEND=memory GSETTINGS_SCHEMA_DIR="$folder/build/data" LC_ALL=C.UTF-8 \
    "$program" -max_total_time="$seconds" -timeout=120 -rss_limit_mb=2048 -artifact_prefix="$folder/$name-" -print_final_stats=1 \
    "$folder/learnt/$name" "$root/tests/fuzz/corpus/$name" 2>&1 | grep -E "stat::|ERROR|SUMMARY|DONE|BINGO" || true
done
