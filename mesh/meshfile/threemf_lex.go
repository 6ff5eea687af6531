package meshfile

import "bytes"

// attribute reads an attribute.
func (s *screen) attribute() (key, value []byte, reason string) {
	key = s.name()
	s.space()
	if len(key) == 0 || s.peek() != '=' {
		return nil, nil, "a tag has an attribute without a value"
	}
	s.at++
	s.space()
	mark := s.peek()
	if mark != '"' && mark != '\'' {
		return nil, nil, "the attribute " + quote(key) + " is not in quotes"
	}
	s.at++
	end := bytes.IndexByte(s.data[s.at:], mark)
	if end < 0 {
		return nil, nil, "the attribute " + quote(key) + " is not closed"
	}
	value = s.data[s.at : s.at+end]
	s.at += end + 1
	return key, value, ""
}

// name reads a name, empty when there is none.
func (s *screen) name() []byte {
	from := s.at
	for ; s.at < len(s.data); s.at++ {
		switch c := s.data[s.at]; c {
		case '>', '/', '=', '<', '"', '\'':
			return s.data[from:s.at]
		default:
			if isSpaceTable[c] {
				return s.data[from:s.at]
			}
		}
	}
	return s.data[from:s.at]
}

// space passes blanks.
func (s *screen) space() {
	for s.at < len(s.data) && isSpaceTable[s.data[s.at]] {
		s.at++
	}
}

// peek returns the next byte, zero at the end.
func (s *screen) peek() byte {
	if s.at < len(s.data) {
		return s.data[s.at]
	}
	return 0
}
