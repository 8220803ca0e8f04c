#!/bin/sh
# Puts an edition where people read it, one file after another: sh put.sh EDITION PLACE
# PLACE is one of rclone's, such as store:manuals/pumps. Going back is the same with the older edition.
# First what pages load, under names that no other edition has for other content; then the pages; then what tells devices that there is a newer
# edition; the list last. Nothing is taken away: pages of the edition before are open somewhere. tidy.sh does that, later.
set -eu
edition=$1 place=$2
lists=$(mktemp -d)
trap 'rm -rf "$lists"' EXIT

# put PART KEPT: how long browsers keep a file without asking. What is there already, to the byte, is not sent.
put() {
    tankside verify "$edition" --paths "$1" >"$lists/part" # ends here where the edition is damaged
    copy "$2" '\.css$' "text/css; charset=utf-8"
    copy "$2" '\.gif$' "image/gif"
    copy "$2" '\.html$' "text/html; charset=utf-8"
    copy "$2" '\.ics$' "text/calendar; charset=utf-8"
    copy "$2" '\.jpe?g$' "image/jpeg"
    copy "$2" '\.js$' "text/javascript; charset=utf-8"
    copy "$2" '\.json$' "application/json"
    copy "$2" '\.pdf$' "application/pdf"
    copy "$2" '\.png$' "image/png"
    copy "$2" '\.svg$' "image/svg+xml"
    copy "$2" '\.txt$' "text/plain; charset=utf-8"
    copy "$2" '\.wasm$' "application/wasm"
    copy "$2" '\.webmanifest$' "application/manifest+json"
    copy "$2" '\.webp$' "image/webp"
    copy "$2" '\.zip$' "application/zip"
    copy "$2" '\.zst$' "application/zstd"
    copy "$2" '' "application/octet-stream" # whatever is left
}
# copy KEPT NAMES TYPE: the files of the part that have such names. What a system takes an ending for differs, so it is told.
copy() {
    grep -E "$2" "$lists/part" >"$lists/files" || return 0
    grep -vE "$2" "$lists/part" >"$lists/rest" || true
    mv "$lists/rest" "$lists/part"
    rclone copy "$edition" "$place" --files-from-raw "$lists/files" --checksum --header-upload "Cache-Control: $1" --header-upload "Content-Type: $3"
}

put assets "public, max-age=31536000, immutable"
put pages "no-cache"
put worker "no-store"
put list "no-store"
