package languageserver

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// errTooLong says that a message was passed over.
var errTooLong = fmt.Errorf("a message has more than %d MiB and was passed over", maxMessage>>20)

// readFrame gives the content of the next message (base protocol: header fields, an empty line, content). The error is io.EOF at the end of
// the stream, errTooLong after a message that was passed over, and otherwise one after which the stream cannot be read on.
func readFrame(r *bufio.Reader) ([]byte, error) {
	length, err := readFields(r)
	if err != nil {
		return nil, err
	}
	if length > maxMessage {
		if _, err := io.CopyN(io.Discard, r, length); err != nil {
			return nil, io.ErrUnexpectedEOF
		}
		return nil, errTooLong
	}
	var content bytes.Buffer // grows with what comes, not with what was promised
	if n, err := content.ReadFrom(io.LimitReader(r, length)); err != nil {
		return nil, err
	} else if n < length {
		return nil, io.ErrUnexpectedEOF
	}
	return content.Bytes(), nil
}

// readFields reads the header fields and gives the length of the content in bytes.
func readFields(r *bufio.Reader) (int64, error) {
	length, left := int64(-1), maxFields
	for first := true; ; first = false {
		line, err := readLine(r, &left)
		if err != nil {
			if first && errors.Is(err, io.EOF) && line == "" {
				return 0, io.EOF
			}
			if errors.Is(err, io.EOF) {
				err = io.ErrUnexpectedEOF
			}
			return 0, err
		}
		if line == "" {
			break
		}
		name, value, found := strings.Cut(line, ":")
		if !found {
			return 0, errors.New("a header field of a message has no colon")
		}
		if strings.EqualFold(strings.TrimSpace(name), "Content-Length") {
			length, err = strconv.ParseInt(strings.TrimSpace(value), 10, 64)
			if err != nil || length < 0 {
				return 0, errors.New("the Content-Length of a message is no number")
			}
		}
	}
	if length < 0 {
		return 0, errors.New("a message has no Content-Length")
	}
	return length, nil
}

// readLine reads a line of the header fields, of which so many bytes are left to be read.
func readLine(r *bufio.Reader, left *int) (string, error) {
	var line []byte
	for {
		c, err := r.ReadByte()
		if err != nil {
			return string(line), err
		}
		if *left--; *left < 0 {
			return "", fmt.Errorf("the header fields of a message have more than %d bytes", maxFields)
		}
		if c == '\n' {
			return string(bytes.TrimSuffix(line, []byte("\r"))), nil
		}
		line = append(line, c)
	}
}

// writeFrame writes a message.
func writeFrame(w io.Writer, content []byte) error {
	frame := append(fmt.Appendf(nil, "Content-Length: %d\r\n\r\n", len(content)), content...)
	_, err := w.Write(frame)
	return err
}
