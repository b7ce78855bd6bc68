#!/bin/sh
# Renders the PNG icons from the SVG ones with a headless Chromium. Needed only when the drawing changes.
set -eu
cd "$(dirname "$0")"
draw() {
  profile=$(mktemp -d)
  printf '<!doctype html><style>html,body{margin:0;background:transparent}img{display:block;width:%spx;height:%spx}</style><img src="%s">' \
    "$2" "$2" "file://$PWD/assets/$1" > "$profile/page.html"
  "${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking \
    --disable-component-update --disable-sync --user-data-dir="$profile/user" --allow-file-access-from-files --hide-scrollbars \
    --default-background-color=00000000 --force-device-scale-factor=1 --window-size="$2,$2" --screenshot="$PWD/assets/$3" "file://$profile/page.html" 2>/dev/null
  rm -rf "$profile"
}
draw icon.svg 192 icon-192.png
draw icon.svg 512 icon-512.png
draw icon-maskable.svg 512 icon-maskable-512.png
