package picture

import "strings"

// set makes a set of the words in a text.
func set(text string) map[string]bool {
	all := make(map[string]bool)
	for _, word := range strings.Fields(text) {
		all[word] = true
	}
	return all
}

// elements are those of still drawings that load nothing.
//
// Sources: SVG 2 (W3C Candidate Recommendation 2018), appendix F, element index, without those that link, move, run or embed; Filter
// Effects 1, without those that load (feImage) or keep a tablet busy (lighting, turbulence, convolution, displacement); CSS Masking 1.
var elements = set(`
	svg g defs symbol use switch title desc style
	path rect circle ellipse line polyline polygon
	text tspan textPath image
	linearGradient radialGradient stop pattern marker clipPath mask
	filter feBlend feColorMatrix feComponentTransfer feComposite feDropShadow feFlood feFuncA feFuncB feFuncG feFuncR
	feGaussianBlur feMerge feMergeNode feMorphology feOffset`)

// refusedElements are those, in lower case and of any namespace, that an author has to know about, with what the drawing does by them.
// Sources: SVG 2, 13, 15 and 16; SVG Animations Level 2; HTML Living Standard, 4.8, for what loads.
var refusedElements = map[string]string{
	"script": "runs a program", "handler": "runs a program", "listener": "runs a program",
	"foreignobject": "holds a part of a web page", "html": "holds a part of a web page", "body": "holds a part of a web page",
	"iframe": "holds another page", "object": "holds another file", "embed": "holds another file",
	"audio": "plays something", "video": "plays something", "canvas": "runs a program",
	"link": "loads something from elsewhere", "meta": "holds a part of a web page", "base": "holds a part of a web page",
	"img": "loads something from elsewhere", "feimage": "loads something from elsewhere", "font-face-uri": "loads something from elsewhere",
	"animate": "moves", "animatemotion": "moves", "animatetransform": "moves", "animatecolor": "moves", "set": "moves", "mpath": "moves", "discard": "moves",
	"a": "holds a link, which cannot be followed in a picture",
}

// attributes are those of the elements above, in no namespace. All that refer to something are looked at.
//
// Sources: SVG 2, appendix G, attribute index, and 6.6, presentation attributes; Filter Effects 1; CSS Masking 1; WAI-ARIA 1.2 for role.
var attributes = set(`
	id class style lang role viewBox preserveAspectRatio version baseProfile type media
	x y x1 y1 x2 y2 cx cy r rx ry fx fy fr width height d points pathLength transform transform-origin transform-box
	dx dy rotate textLength lengthAdjust startOffset method spacing side
	systemLanguage requiredFeatures requiredExtensions
	offset gradientUnits gradientTransform spreadMethod patternUnits patternContentUnits patternTransform
	clipPathUnits maskUnits maskContentUnits markerUnits markerWidth markerHeight orient refX refY
	filterUnits primitiveUnits in in2 result stdDeviation edgeMode mode operator k1 k2 k3 k4 values tableValues slope
	intercept amplitude exponent radius
	alignment-baseline baseline-shift clip clip-path clip-rule color color-interpolation color-interpolation-filters color-rendering
	direction display dominant-baseline fill fill-opacity fill-rule filter flood-color flood-opacity font font-family font-size
	font-size-adjust font-stretch font-style font-variant font-weight glyph-orientation-horizontal glyph-orientation-vertical
	image-rendering isolation letter-spacing line-height marker marker-end marker-mid marker-start mask mask-type mix-blend-mode
	opacity overflow paint-order shape-rendering stop-color stop-opacity stroke stroke-dasharray stroke-dashoffset stroke-linecap
	stroke-linejoin stroke-miterlimit stroke-opacity stroke-width text-anchor text-decoration text-orientation text-overflow
	text-rendering unicode-bidi vector-effect visibility white-space word-spacing writing-mode`)
