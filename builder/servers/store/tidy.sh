#!/bin/sh
# Takes away what no edition that is named needs any more: sh tidy.sh PLACE EDITION…
# Name the edition that people read and the one before it, and wait until nobody has a page of an older one open, such as a day.
set -eu
place=$1
shift
lists=$(mktemp -d)
trap 'rm -rf "$lists"' EXIT
for edition; do
    tankside verify "$edition" --paths all >>"$lists/needed"
done
rclone lsf --recursive --files-only "$place" >"$lists/there"
LC_ALL=C sort -u "$lists/needed" -o "$lists/needed" # without an edition there is no such file, and nothing is taken away
LC_ALL=C sort "$lists/there" -o "$lists/there"
LC_ALL=C comm -13 "$lists/needed" "$lists/there" >"$lists/gone"
if [ -s "$lists/gone" ]; then
    rclone delete "$place" --files-from-raw "$lists/gone"
fi
echo "$(wc -l <"$lists/gone") files were taken away."
