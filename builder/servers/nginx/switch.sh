#!/bin/sh
# Has readers of a manual get another edition, all of it at once: sh switch.sh MANUALS NAME EDITION
# MANUALS/now/NAME leads to the edition that is read, MANUALS/before/NAME to the one before it. Going back is the same with the older edition.
set -eu
manuals=$1 name=$2 edition=$(cd "$3" && pwd -P)
if [ ! -f "$edition/edition.json" ]; then
    echo "There is no edition in $3." >&2
    exit 1
fi

# lead LINK FOLDER: the link leads to another folder. At no moment is there none.
lead() {
    mkdir -p "$(dirname "$1")"
    rm -f "$1.next"
    ln -s "$2" "$1.next"
    mv -T "$1.next" "$1"
}

now=$manuals/now/$name
if [ -e "$now" ]; then
    served=$(cd "$now" && pwd -P)
    if [ "$served" = "$edition" ]; then
        echo "$name is that edition already."
        exit
    fi
    # nginx tells a browser that a file is the one which it has by its time and size. So what is the same gets the same time, and what is not
    # another one: a time of now, in a second in which nothing else was switched.
    sleep 1
    (cd "$edition" && find . -type f) | while IFS= read -r file; do
        if cmp -s "$served/$file" "$edition/$file"; then
            touch -r "$served/$file" "$edition/$file"
        else
            touch "$edition/$file"
        fi
    done
    lead "$manuals/before/$name" "$served"
fi
lead "$now" "$edition"
echo "$name is now the edition in $edition."
