#!/bin/sh
# Installs what is missing, builds, and opens the workbench on the demo scene. Without a display it plans the demo and
# writes its templates and bench sheet.
set -eu
root=$(cd "$(dirname "$0")/.." && pwd)
. "$root/src/set-up.sh"

say "Hoopwright: looking for what is missing ..."
install_missing $build_packages
say "Building ..."
build "$root/build" program
program=$root/build/src/hoopwright
scene=$root/data/demo/walled-garden.hoopscene

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  say "Opening the workbench."
  [ $# -gt 0 ] || set -- "$scene"
  exec "$program" "$@"
fi

out=$root/build/demo
mkdir -p "$out"
say "There is no display: planning the demo scene and writing its papers."
"$program" plan "$scene" >"$out/plan.json"
"$program" templates "$scene" -o "$out/templates.pdf"
"$program" sheet "$scene" -o "$out/bench-sheet.pdf"
"$program" check "$scene"
say "Plan:        $out/plan.json"
say "Templates:   $out/templates.pdf"
say "Bench sheet: $out/bench-sheet.pdf"
