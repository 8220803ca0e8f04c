package languageserver

import (
	"fmt"
	"path/filepath"
)

// didOpen lays a text over its file. A text that belongs to no manual is left alone.
func didOpen(s *server, p didOpenParams) error {
	file, ok := fileOf(p.TextDocument.URI)
	if !ok {
		return nil
	}
	if s.open[file] != nil {
		s.forget(file)
	}
	d, err := s.deskOf(file)
	if d == nil || err != nil {
		return err
	}
	path, ok := within(d.folder, file)
	if !ok {
		return nil
	}
	doc := &document{uri: p.TextDocument.URI, path: path, desk: d, version: p.TextDocument.Version, text: p.TextDocument.Text}
	switch {
	case len(s.open) >= maxOpen:
		return fmt.Errorf("%s is not followed: more than %d texts are open", path, maxOpen)
	case len(doc.text) > maxText:
		return fmt.Errorf("%s is not followed: it has more than %d MiB", path, maxText>>20)
	case s.bytes+len(doc.text) > maxAllTexts:
		return fmt.Errorf("%s is not followed: the open texts have more than %d MiB", path, maxAllTexts>>20)
	}
	s.open[file] = doc
	s.lay(doc)
	return nil
}

// lay puts a text as it stands over its file.
func (s *server) lay(doc *document) {
	s.bytes += len(doc.text) - len(doc.desk.files.texts[doc.path])
	doc.desk.files.texts[doc.path] = doc.text
	doc.desk.touch(doc.path)
	s.later()
}

// forget takes a text away, so that its file counts again.
func (s *server) forget(file string) {
	doc := s.open[file]
	if doc == nil {
		return
	}
	s.bytes -= len(doc.desk.files.texts[doc.path])
	delete(s.open, file)
	delete(doc.desk.files.texts, doc.path)
	doc.desk.touch(doc.path)
	s.later()
}

// didChange changes a text. One that cannot be followed any more is taken away: what is on the disk counts until it is opened again.
func didChange(s *server, p didChangeParams) error {
	file, _ := fileOf(p.TextDocument.URI)
	doc := s.open[file]
	if doc == nil {
		return nil
	}
	err := doc.edit(s.encoding, p.ContentChanges)
	if err == nil && s.bytes+len(doc.text)-len(doc.desk.files.texts[doc.path]) > maxAllTexts {
		err = fmt.Errorf("the open texts have more than %d MiB", maxAllTexts>>20)
	}
	if err != nil {
		s.forget(file)
		return fmt.Errorf("%s is not followed any more, and what was saved counts: %w; close and open it again", doc.path, err)
	}
	doc.version = p.TextDocument.Version
	s.lay(doc)
	return nil
}

// didSave notes that the file on the disk is another, and that others may be, such as pictures that were put beside it.
func didSave(s *server, p documentParams) error {
	file, _ := fileOf(p.TextDocument.URI)
	if doc := s.open[file]; doc != nil {
		doc.desk.touch(doc.path)
		s.later()
	}
	return nil
}

func didClose(s *server, p documentParams) error {
	file, _ := fileOf(p.TextDocument.URI)
	s.forget(file)
	return nil
}

// didChangeWatchedFiles notes what has changed on the disk.
func didChangeWatchedFiles(s *server, p watchedFilesParams) error {
	for _, c := range p.Changes {
		file, ok := fileOf(c.URI)
		if !ok {
			continue
		}
		for _, d := range s.desks {
			if path, in := within(d.folder, file); in {
				d.touch(path)
				s.later()
			} else if filepath.Clean(file) == d.folder {
				d.read = false // the folder itself: everything may be otherwise
				s.later()
			}
		}
	}
	return nil
}
