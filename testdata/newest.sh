#!/bin/sh
# Builds a copy of the source with the newest bleve there is, and asks the search the same questions as with the present one: natively, in the
# browser's module, and opened by bleve itself. The copy goes when it is done; nothing here changes.
set -eu

go=${GO:-go}
present=$(pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
trap 'exit 1' HUP INT TERM

# answers FOLDER NAME: what the tests of the search answer there.
answers() {
    (cd "$1" && TANKSIDE_ANSWERS="$copy/$2" "$go" test -count=1 -timeout 30m ./search -run '^(TestAnswersRepeat|TestBrowserAnswersTheSame|TestBleveOpensTheIndex|TestAsk|TestIndexIsTheSameToTheByte)$')
}

versions() { "$go" list -m all | grep -E 'blevesearch|RoaringBitmap|bbolt'; }

mkdir "$copy/source"
git ls-files -z | xargs -0 tar -cf - | tar -xf - -C "$copy/source"
cd "$copy/source"
before=$(versions)
if ! { "$go" get -u github.com/blevesearch/bleve/v2 github.com/blevesearch/zapx/v17 && "$go" mod tidy; } >"$copy/said" 2>&1; then
    cat "$copy/said" >&2
    echo "The newest bleve cannot be had. Where Go's module proxy does not answer, run make newest again with a network; nothing was changed here." >&2
    exit 1
fi
after=$(versions)
if [ "$before" = "$after" ]; then
    echo "The newest are the ones that we have."
else
    echo "$before" >"$copy/before"
    echo "Newer than ours:"
    echo "$after" | grep -vxFf "$copy/before" | sed 's/^/    /'
fi
echo "With ours:"
answers "$present" ours
echo "With the newest:"
"$go" build -o "$copy/tankside" ./cmd/tankside
answers "$copy/source" newest
cmp "$copy/ours" "$copy/newest"
echo "The newest bleve builds, natively and for the browser, and gives the same answers to the last bit of each score."
