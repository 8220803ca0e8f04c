package picture

import "encoding/binary"

// orientation reads from an Exif block, which begins with its byte order, how the picture has to be turned: 1 to 8.
// It is 1, upright as stored, when the block does not say or is damaged.
//
// Source: Exif 2.32 (CIPA DC-008 / JEITA CP-3451E) 4.5.2 and 4.6.4, tag 274 = 0x0112, Orientation, type SHORT, count 1, in the
// 0th IFD; TIFF 6.0 section 2 for header and entries.
func orientation(exif []byte) int {
	if len(exif) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(exif[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := uint64(order.Uint32(exif[4:]))
	if at+2 > uint64(len(exif)) {
		return 1
	}
	entries := exif[at+2:]
	for range order.Uint16(exif[at:]) {
		if len(entries) < 12 {
			return 1
		}
		const tagOrientation, short = 0x0112, 3
		if order.Uint16(entries) == tagOrientation && order.Uint16(entries[2:]) == short && order.Uint32(entries[4:]) == 1 {
			if o := int(order.Uint16(entries[8:])); o >= 1 && o <= 8 {
				return o
			}
			return 1
		}
		entries = entries[12:]
	}
	return 1
}

// turned gives where pixel (x, y) of a w × h picture comes to stand when it is turned upright.
//
// Source: Exif 2.32, 4.6.4 A, Orientation: where the stored row 0 and column 0 belong in the picture as seen.
func turned(orientation, x, y, w, h int) (int, int) {
	switch orientation {
	case 2: // row 0 at the top, column 0 at the right
		return w - 1 - x, y
	case 3: // bottom, right
		return w - 1 - x, h - 1 - y
	case 4: // bottom, left
		return x, h - 1 - y
	case 5: // left, top
		return y, x
	case 6: // right, top
		return h - 1 - y, x
	case 7: // right, bottom
		return h - 1 - y, w - 1 - x
	case 8: // left, bottom
		return y, w - 1 - x
	}
	return x, y
}

// lies tells whether an orientation exchanges width and height.
func lies(orientation int) bool { return orientation >= 5 }
