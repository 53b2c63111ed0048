# Sourced by src/run.sh and tests/run.sh: installs what is missing on Debian 12 and builds into build/.
# Expects $root, the top of the source tree.

build_packages="gcc libc6-dev pkg-config meson ninja-build gettext libgtk-4-dev libjson-glib-dev libgeos-dev libgsl-dev
  libgdk-pixbuf-2.0-dev librsvg2-dev libpoppler-glib-dev librsvg2-common libxml2-utils desktop-file-utils shared-mime-info adwaita-icon-theme fonts-lato yelp-tools"
test_packages="xvfb xdotool openbox x11-utils dbus dbus-daemon dbus-x11 at-spi2-core gir1.2-atspi-2.0 gir1.2-json-1.0 python3-gi
  imagemagick poppler-utils qpdf libglpk-dev python3-shapely python3-skimage python3-pil appstream
  libgl1-mesa-dri fonts-noto-cjk clang-format man-db libasan8 libubsan1"

say () { printf '%s\n' "$*"; }

# install PACKAGE...: asks the package manager only for what is not there yet.
install_missing () {
  missing=""
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || missing="$missing $package"
  done
  [ -z "$missing" ] && return 0
  say "Installing:$missing"
  as_root=""
  if [ "$(id -u)" != 0 ]; then
    command -v sudo >/dev/null 2>&1 || { say "Please install these packages as the administrator:$missing"; exit 1; }
    as_root=sudo
  fi
  log=$(mktemp)
  if ! { $as_root apt-get update -qq &&
         $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing; } >"$log" 2>&1; then
    tail -n 15 "$log"
    say "The packages could not be installed."
    exit 1
  fi
  rm -f "$log"
}

# build FOLDER TARGET OPTION...: configures when new or when options are given that differ from last time's, compiles what changed.
build () {
  folder=$1
  target=$2
  shift 2
  log=$folder.log
  asked="$folder/options-asked-for"
  if [ ! -f "$folder/build.ninja" ] || { [ $# -gt 0 ] && [ "$(cat "$asked" 2>/dev/null)" != "$*" ]; }; then
    again=""
    [ -f "$folder/build.ninja" ] && again=--reconfigure
    meson setup $again "$folder" "$root" "$@" >"$log" 2>&1 ||
      { tail -n 20 "$log"; say "The build could not be set up."; exit 1; }
    printf '%s' "$*" >"$asked"
  fi
  ninja -C "$folder" "$target" >"$log" 2>&1 ||
    { grep -E 'error|FAILED' "$log" | head -n 20; tail -n 20 "$log"; say "The build failed."; exit 1; }
  rm -f "$log"
}
