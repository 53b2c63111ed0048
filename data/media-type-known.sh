#!/bin/sh
# A desktop that has our media type installed knows a scene by its ending, and by its first line without one.
# Usage: media-type-known.sh MIME-FILE
set -eu
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
mkdir -p "$folder/mime/packages"
cp "$1" "$folder/mime/packages/org.hoopwright.Hoopwright.xml"
update-mime-database "$folder/mime"
printf '{"format": "hoopwright-scene", "version": 1}\n' >"$folder/plain"
cp "$folder/plain" "$folder/harbour.hoopscene"

checked=0
echo 1..2
for name in harbour.hoopscene plain; do
  checked=$((checked + 1))
  found=$(env XDG_DATA_HOME="$folder" gio info -a standard::content-type "$folder/$name" | sed -n 's/.*content-type: //p')
  if [ "$found" = application/x-hoopscene+json ]; then
    echo "ok $checked - $name is a scene"
  else
    echo "not ok $checked - $name is taken for '$found'"
  fi
done
