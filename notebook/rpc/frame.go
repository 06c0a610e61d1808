package rpc

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// Framing says how messages are told apart on a stream.
type Framing uint8

// The framings: a header with the message's length before it, as editors speak, or a
// message a line.
const (
	ContentLength Framing = iota
	Lines
)

// MaxMessage is the longest message that is read, in bytes.
const MaxMessage = 64 << 20

// ErrTooLong says that a message is longer than MaxMessage.
var ErrTooLong = errors.New("the message is longer than 64 MiB")

// readMessage reads the bytes of one message.
func readMessage(r *bufio.Reader, f Framing) ([]byte, error) {
	if f == Lines {
		return readLine(r)
	}
	length := -1
	for {
		b, err := r.ReadSlice('\n')
		line := strings.TrimRight(string(b), "\r\n")
		switch {
		case err == bufio.ErrBufferFull:
			return nil, fmt.Errorf("%.60q is no header; a message begins with Content-Length: and its length", line)
		case err == io.EOF && len(b) == 0 && length < 0:
			return nil, io.EOF
		case err != nil:
			return nil, fmt.Errorf("the header of a message breaks off: %w", io.ErrUnexpectedEOF)
		}
		if line == "" {
			if length < 0 {
				continue // empty lines between messages do no harm
			}
			break
		}
		name, value, ok := strings.Cut(line, ":")
		if !ok {
			return nil, fmt.Errorf("%.60q is no header; a message begins with Content-Length: and its length", line)
		}
		if strings.EqualFold(strings.TrimSpace(name), "Content-Length") {
			n, err := strconv.Atoi(strings.TrimSpace(value))
			if err != nil || n < 0 {
				return nil, fmt.Errorf("%.60q is no length", value)
			}
			if n > MaxMessage {
				return nil, ErrTooLong
			}
			length = n
		}
	}
	b := make([]byte, length)
	if _, err := io.ReadFull(r, b); err != nil {
		return nil, fmt.Errorf("a message breaks off: %w", io.ErrUnexpectedEOF)
	}
	return b, nil
}

// readLine reads a message on a line of its own; empty lines are passed over.
func readLine(r *bufio.Reader) ([]byte, error) {
	for {
		var b []byte
		for {
			part, err := r.ReadSlice('\n')
			b = append(b, part...)
			if len(b) > MaxMessage {
				return nil, ErrTooLong
			}
			if err == bufio.ErrBufferFull {
				continue
			}
			if err == io.EOF && len(bytes.TrimSpace(b)) > 0 {
				break
			}
			if err != nil {
				return nil, err
			}
			break
		}
		if b = bytes.TrimSpace(b); len(b) > 0 {
			return b, nil
		}
	}
}

// writeMessage writes the bytes of one message.
func writeMessage(w io.Writer, f Framing, b []byte) error {
	if f == Lines {
		_, err := w.Write(append(b, '\n'))
		return err
	}
	head := "Content-Length: " + strconv.Itoa(len(b)) + "\r\n\r\n"
	_, err := w.Write(append([]byte(head), b...))
	return err
}
