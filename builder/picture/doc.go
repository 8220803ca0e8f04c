// Package picture makes a manual's pictures ready for an edition, and says in plain words what is wrong with those that cannot be shown.
//
// Prepare takes a picture as its author saved it and gives what the edition holds: no larger than a page can show, turned upright,
// with nothing in it that runs, loads or tells where and by whom it was taken. Check finds the same faults without decoding a
// photograph, for the proof-reader. Both are pure functions; the same bytes in give the same bytes out.
//
// # Size
//
// A page shows a picture at most 650 × 900 CSS pixels large: the text column is 34 em at 19 px, and 900 px is what a printed A4 or
// Letter page has below its head. Photographs are kept at up to twice that, 1300 × 1800, for sharp screens. Larger ones are made
// smaller with a Catmull-Rom filter in linear light and in whole numbers, so that every kind of computer gives the same bytes.
// A picture that would not become a smaller file that way (a plain line drawing) stays as it is, up to twice that size again.
//
// # Photographs and screenshots
//
// JPEG, PNG and WebP keep their picture data untouched wherever possible; the file is written anew around it from the parts that
// decoding needs. That removes Exif, XMP, IPTC, comments, thumbnails, further pictures and whatever follows the end. A GIF becomes
// a PNG with the same pixels. A picture is decoded and encoded again only if it is too large, if its Exif orientation turns it, or if its
// colours have to be converted: JPEG and lossy WebP then become JPEG, everything else PNG, unless JPEG needs a quarter of the room.
//
// A colour profile can name the camera or the screen, so none is passed on. What the common profiles describe (three primaries and
// their curves, or one grey curve) is converted to sRGB, which browsers assume without a profile; one that differs from
// sRGB by no more than one step of 255 is dropped. Profiles with tables only, and printing colours (CMYK), are refused:
// they cannot be converted faithfully here, and the colour of a tarnished part matters.
//
// A moving GIF, PNG or WebP is refused. Paper shows one image of it, nobody can stop it (WCAG 2.2, success criterion 2.2.2), and the first
// image is seldom the one that matters.
//
// # Drawings
//
// An SVG passes when each of its elements and attributes is one of a list for still drawings. What only describes the drawing or belongs to
// the program that made it (metadata, other namespaces, unknown attributes, a document type without declarations) is left
// out. What runs, moves, loads or links is refused, each with line and column. All that is kept is kept as written, so a clean
// drawing passes unchanged. Photographs inside a drawing are cleaned like any other.
//
// # What is done by hand, and why
//
// Decoding, encoding, compression and the reading of XML are left to the standard library and to golang.org/x/image. For the rest modules
// in pure Go were looked for; those that still get releases were tried on the same pictures and on damaged files.
//
//   - Writing files anew: the modules that take out metadata know Exif only, leave out WebP, decode and encode again, or have had no release
//     for years; and they take out what they know, whereas here only what decoding needs comes along. golang.org/x/image/riff could
//     go through the chunks of a WebP, but refuses one that lacks the last byte of padding, and saves no more than a few lines.
//   - Finding out whether a GIF moves: image/gif tells only after decoding every image, however many there are.
//   - Exif orientation: github.com/bep/imagemeta v1.0.1 gives up at a damaged entry beside the one that matters, so that the photograph would
//     lie on its side; of 20 000 damaged blocks it read 595 otherwise than the loop here, which needs that one entry only.
//   - Turning: it is where a pixel is set down; golang.org/x/image/draw would need the whole picture once more.
//   - Colour profiles: github.com/kovidgoyal/imaging v1.9.0 also converts tables, but a damaged profile of a few hundred bytes made it allocate
//     7 GB, and its sums are of floating-point numbers, which arm64 rounds otherwise than amd64.
//   - Making smaller: golang.org/x/image/draw v0.48.0 gives the same bytes on every computer too, but in light it took 4.6 s for
//     12 million pixels and 20.6 s for 50, where the code here took 2.6 s and 5.3 s; and it allocated 331 MiB for the latter, where this took 9.
//   - Drawings: github.com/microcosm-cc/bluemonday v1.0.27 reads HTML, which has no upper case in names such as viewBox, and says of nothing in
//     which line it was; the modules for SVG had no release, or look neither at references and styles nor at what is drawn many times.
//
// The choice between PNG and JPEG is this package's own; filters, palettes and compression of a PNG are those of image/png.
package picture
