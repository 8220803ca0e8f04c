// Package safety holds limits that several parts of the program must agree on, each in one place with its source. It imports nothing.
package safety

// FlashMargin is how far below its flash point a heated liquid has to stay, in K: 30 °F, 16.7 K. U.S. OSHA, 29 CFR 1910.106(a)(19)(iii) and
// (iv): a liquid "heated for use to within 30 °F (16.7 °C) of its flashpoint" is handled by the rules of the next more dangerous category.
//
// The margin is one of vapour. No margin covers mist: what sound throws up as fine drops can catch fire far below the flash point (common
// practice, no source), so that a flammable bath with sound wants a tank built and approved for it at any temperature.
const FlashMargin = 30 * 5. / 9
