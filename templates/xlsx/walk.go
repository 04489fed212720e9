package xlsx

import (
	"bufio"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
)

// walker goes through a part element by element. It checks that tags pair
// (which the decoder does only in Token), that no one piece is so long and no
// nesting so deep that memory runs away, and that there is no document type,
// in which entities could be declared.
type walker struct {
	part  string
	dec   *xml.Decoder
	meter *pieceMeter
	depth int // of the element last started: the root is 1
	from  int // where in the part the token last read begins
	ended bool
}

// walk calls start for every element of a part. Start may read on with the
// walker's next; the end of the part before its root is closed is an error.
func walk(pack *bundle, part string, start func(*walker, xml.StartElement) error) error {
	r, err := pack.open(part)
	if err != nil {
		return err
	}
	defer r.Close()
	meter := &pieceMeter{src: bufio.NewReaderSize(r, 32<<10)}
	w := &walker{part: part, dec: xml.NewDecoder(meter), meter: meter}
	for {
		t, err := w.next()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
		if t, ok := t.(xml.StartElement); ok {
			if err := start(w, t); err != nil {
				return err
			}
		}
	}
}

// next is the next token of the part, io.EOF when the part is properly at its
// end. Character data is only good until the next call.
func (w *walker) next() (xml.Token, error) {
	w.meter.piece = 0
	w.from = w.to()
	t, err := w.dec.Token()
	switch {
	case err == io.EOF:
		if !w.ended {
			return nil, damaged("its part %q is empty", clip(w.part))
		}
		return nil, io.EOF
	case w.meter.spent:
		return nil, fmt.Errorf("%w: its part %q holds a piece of text longer than %d kB", ErrTooBig, clip(w.part), maxToken>>10)
	case err != nil:
		return nil, w.bad(err)
	}
	switch t := t.(type) {
	case xml.StartElement:
		if w.ended {
			return nil, damaged("its part %q goes on after its end", clip(w.part))
		}
		if w.depth++; w.depth > maxDepth {
			return nil, damaged("its part %q is nested too deep", clip(w.part))
		}
	case xml.EndElement:
		w.depth--
		w.ended = w.depth == 0
	case xml.Directive:
		return nil, damaged("its part %q declares a document type, which no workbook does", clip(w.part))
	case xml.CharData:
		if w.depth == 0 && len(bytes.Trim(t, " \t\r\n\uFEFF")) > 0 {
			return nil, damaged("its part %q has text outside its elements", clip(w.part))
		}
	}
	return t, nil
}

// to is where in the part the token last read ends. An end that belongs to a
// self-closing tag begins and ends there.
func (w *walker) to() int { return int(w.dec.InputOffset()) }

// bad is a part that does not parse, or broke off.
func (w *walker) bad(err error) error {
	var syntax *xml.SyntaxError
	if errors.As(err, &syntax) {
		if syntax.Msg == "unexpected EOF" {
			return damaged("its part %q ends in the middle", clip(w.part))
		}
		return damaged("its part %q is garbled at line %d (%s)", clip(w.part), syntax.Line, clip(syntax.Msg))
	}
	return damaged("its part %q cannot be read (%s)", clip(w.part), clip(err.Error()))
}

// pieceMeter counts the bytes of the piece being read, so that one endless
// text or tag cannot fill the memory.
type pieceMeter struct {
	src   *bufio.Reader
	piece int
	spent bool
}

// ReadByte is what the decoder reads with.
func (m *pieceMeter) ReadByte() (byte, error) {
	if m.piece++; m.piece > maxToken {
		m.spent = true
		return 0, io.ErrUnexpectedEOF
	}
	return m.src.ReadByte()
}

// Read completes the io.Reader the decoder asks for; it reads by ReadByte.
func (m *pieceMeter) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	b, err := m.ReadByte()
	if err != nil {
		return 0, err
	}
	p[0] = b
	return 1, nil
}
