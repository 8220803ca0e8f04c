#!/bin/sh
# Builds a copy of the source with the newest bleve there is, and asks the search the same questions as with the present one: natively, in the
# browser's module, and opened by bleve itself. The copy goes when it is done; nothing here changes.
set -eu

present=$(pwd)
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
questions=$copy/questions
mkdir "$copy/source"
git ls-files -z | xargs -0 tar -cf - | tar -xf - -C "$copy/source"
for module in "$present"/themes/wasm/*.gz; do
    [ ! -f "$module" ] || cp "$module" "$copy/source/themes/wasm/"
done

# answers FOLDER NAME: what the tests of the search answer there.
answers() {
    (cd "$1" && TANKSIDE_ANSWERS="$questions.$2" ${GO:-go} test -count=1 ./search -run '^(TestAnswersRepeat|TestBrowserAnswersTheSame|TestBleveOpensTheIndex|TestAsk|TestIndexIsTheSameToTheByte)$')
}

echo "With the present bleve:"
answers "$copy/source" present
cd "$copy/source"
before=$(${GO:-go} list -m all | grep -E 'blevesearch|RoaringBitmap|bbolt')
if ! { ${GO:-go} get -u github.com/blevesearch/bleve/v2 github.com/blevesearch/zapx/v17 && ${GO:-go} mod tidy; } >"$copy/said" 2>&1; then
    cat "$copy/said" >&2
    echo "The newest bleve cannot be had. Where Go's module proxy does not answer, run make newest again with a network; nothing was changed here." >&2
    exit 1
fi
after=$(${GO:-go} list -m all | grep -E 'blevesearch|RoaringBitmap|bbolt')
echo "With the newest:"
echo "$after" | sed 's/^/    /'
[ "$before" != "$after" ] || echo "These are the ones that we have."
${GO:-go} build -o /dev/null ./cmd/tankside
make GO="${GO:-go}" themes/wasm/search.wasm.gz
answers "$copy/source" newest
cmp "$questions.present" "$questions.newest"
echo "The newest bleve builds, natively and for the browser, and gives the same answers to the last bit of each score."
