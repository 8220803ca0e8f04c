package languageserver

import (
	"path"
	"regexp"
	"slices"
	"strings"

	"tankside/builder/manual"
)

// spot is where in the YAML of a header, the shop file or the glossary a position is. It is read from the lines as they stand, since a header
// in which somebody types can seldom be parsed.
type spot struct {
	keys     []string     // around it, the outermost first; the last is the one whose value it is in
	key      *manual.Key  // the declaration of the last of them, or nil
	may      []manual.Key // the keys that may stand where it is; nil where none may
	token    string       // the word or value that it is in, without quotation marks
	from, to int          // of the token in the line, in bytes
	onKey    bool         // the token is a key with its colon
}

var yamlKey = regexp.MustCompile(`^("[^"]*"|'[^']*'|[^\s:#,{}\[\]"'][^:#,{}\[\]]*?)[ \t]*:(?:[ \t]|$)`)

// headerOf gives the lines of a file that are YAML, from a first to one that is not among them; none of an article's text.
func headerOf(file string, text []string) (first, end int) {
	if path.Ext(file) != ".md" {
		return 0, len(text)
	}
	if strings.TrimRight(strings.TrimPrefix(text[0], mark), " \t") != "---" {
		return 0, 0
	}
	for i := 1; i < len(text); i++ {
		if strings.TrimRight(text[i], " \t") == "---" {
			return 1, i
		}
	}
	return 1, len(text)
}

// keysFor are the keys that the YAML of a file may have.
func keysFor(file string) []manual.Key {
	switch file {
	case manual.ShopFile:
		return manual.ShopKeys()
	case manual.VocabularyFile:
		return manual.VocabularyKeys()
	case manual.GlossaryFile:
		return nil // terms, under which stand manual.GlossaryKeys
	}
	kind, ok := kindOf(file)
	if !ok {
		return nil
	}
	if translated(file) {
		return slices.Concat(manual.TranslationKeys(), manual.TranslationKindKeys(kind))
	}
	return slices.Concat(manual.HeadKeys(), manual.Keys(kind))
}

// translated tells whether a file is called as a translation is: wax.es.md.
func translated(file string) bool {
	stem := strings.TrimSuffix(path.Base(file), path.Ext(file))
	dot := strings.LastIndexByte(stem, '.')
	if dot <= 0 {
		return false
	}
	_, ok := manual.Language(stem[dot+1:])
	return ok
}

func kindOf(file string) (manual.Kind, bool) {
	folder, _, _ := strings.Cut(file, "/")
	for _, k := range manual.Kinds {
		if k.Folder() == folder {
			return k, true
		}
	}
	return "", false
}

// spotAt reads where a byte of a line is; ok is false outside the YAML.
func spotAt(file string, text []string, line, column int) (spot, bool) {
	first, end := headerOf(file, text)
	if line < first || line >= end {
		return spot{}, false
	}
	s := spot{}
	indent, content := contentOf(text[line])
	inLine := s.readLine(text[line], content, min(column, len(text[line])))
	for i, bound := line-1, indent; i >= first && bound > 0; i-- {
		above, at := contentOf(text[i])
		if m := yamlKey.FindStringSubmatch(text[i][at:]); m != nil && above < bound {
			s.keys = append([]string{unquoted(m[1])}, s.keys...)
			bound = above
		}
	}
	s.keys = append(s.keys, inLine...)
	s.declare(file)
	return s, true
}

// contentOf gives the column at which what a line says begins, behind blanks and the hyphens of list items; 0 of an empty line too.
func contentOf(line string) (indent, at int) {
	for at < len(line) {
		switch {
		case line[at] == ' ' || line[at] == '\t':
			at++
		case line[at] == '-' && (at+1 == len(line) || line[at+1] == ' '):
			at++
		default:
			return at, at
		}
	}
	return at, at
}

// readLine reads one line up to a column: which keys of it are around the column, and the token there.
func (s *spot) readLine(line string, at, column int) (keys []string) {
	type frame struct {
		list bool
		key  string // whose value is read; "" before it
	}
	frames := []frame{{}}
	begin := at
	quote := byte(0)
	for i := at; i < column; i++ {
		c, top := line[i], &frames[len(frames)-1]
		switch {
		case quote != 0:
			if c == quote {
				quote = 0
			}
		case (c == '"' || c == '\'') && strings.TrimSpace(line[begin:i]) == "":
			quote = c
		case c == '{' || c == '[':
			if strings.TrimSpace(line[begin:i]) == "" {
				frames = append(frames, frame{list: c == '['})
				begin = i + 1
			}
		case (c == '}' || c == ']') && len(frames) > 1:
			frames = frames[:len(frames)-1]
			begin = i + 1
		case c == ',' && len(frames) > 1:
			if !top.list {
				top.key = ""
			}
			begin = i + 1
		case c == ':' && top.key == "" && !top.list && (i+1 == len(line) || line[i+1] == ' ' || line[i+1] == '\t'):
			top.key = unquoted(strings.TrimSpace(line[begin:i]))
			begin = i + 1
		}
	}
	for _, f := range frames {
		if f.key != "" {
			keys = append(keys, f.key)
		}
	}
	for begin < len(line) && begin < column && (line[begin] == ' ' || line[begin] == '\t') {
		begin++
	}
	top := frames[len(frames)-1]
	s.from, s.to = begin, tokenEnd(line, begin, column, len(frames) > 1)
	s.token = unquoted(line[s.from:s.to])
	if top.key == "" && !top.list {
		s.may = []manual.Key{} // filled by declare
		if m := yamlKey.FindStringSubmatchIndex(line[begin:]); m != nil {
			s.onKey, s.from, s.to = true, begin, begin+m[3]
			s.token = unquoted(line[s.from:s.to])
		}
	}
	return keys
}

// tokenEnd is where the token ends that begins at a byte and has the column in it.
func tokenEnd(line string, begin, column int, flow bool) int {
	end := len(line)
	if i := strings.Index(line[column:], " #"); i >= 0 {
		end = column + i
	}
	if flow {
		if i := strings.IndexAny(line[column:end], ",]}"); i >= 0 {
			end = column + i
		}
	}
	for end > begin && end > column && (line[end-1] == ' ' || line[end-1] == '\t') {
		end--
	}
	return max(begin, end)
}

func unquoted(text string) string {
	text = strings.TrimSpace(text)
	if n := len(text); n >= 2 && (text[0] == '"' || text[0] == '\'') && text[n-1] == text[0] {
		return text[1 : n-1]
	}
	return text
}

// declare looks up what the keys around a spot are declared as.
func (s *spot) declare(file string) {
	may, keys := keysFor(file), s.keys
	if file == manual.GlossaryFile && len(keys) > 0 {
		may, keys = manual.GlossaryKeys(), keys[1:]
	}
	for _, name := range keys {
		i := slices.IndexFunc(may, func(k manual.Key) bool { return k.Name == name })
		if i < 0 {
			s.key, s.may = nil, nil
			return
		}
		s.key, may = &may[i], may[i].Under
	}
	if s.may != nil {
		s.may = may
	}
	if s.onKey {
		if i := slices.IndexFunc(may, func(k manual.Key) bool { return k.Name == s.token }); i >= 0 {
			s.key = &may[i]
		}
	}
}
