package rename

import (
	"slices"
	"strings"

	"go.yaml.in/yaml/v3"

	"tankside/builder/finding"
	"tankside/builder/manual"
)

// remark stands at the head of the file of old addresses.
const remark = "# Addresses that lead on: where an article, a heading or a tank was, and where it is. An edition has a page at each old one."

// lead is an old address and the one to which it leads on.
type lead struct{ old, now string }

// forward notes where old addresses lead on. Where a new one was itself left for the old, that renaming is taken back and its line goes. What led
// to an old address leads to the new one. An old address that is one of the new ones leads to itself, and has no line. The first is what was asked for.
func (p *Plan) forward(leads ...lead) error {
	p.Old, p.New = leads[0].old, leads[0].now
	leads = slices.DeleteFunc(leads, func(l lead) bool { return strings.EqualFold(l.old, l.now) }) // on many computers the address is the same
	if len(leads) == 0 {
		p.Old = p.New
		return nil
	}
	again := map[string]string{} // new address → old one
	for _, l := range leads {
		again[l.now] = l.old
	}
	t, doc, err := p.oldAddresses()
	if err != nil {
		return err
	}
	back, lines := map[string]bool{}, 0 // old addresses that were new once
	for i := 0; doc != nil && i+1 < len(doc.Content); i += 2 {
		from, to := doc.Content[i], doc.Content[i+1]
		lines++
		was, is := again[from.Value]
		switch {
		case is && to.Value == was:
			if back[was] = true; !p.takeOut(t, from) {
				p.refuse(t.nodePlace(from), "This line cannot be taken out safely.", "Write it as "+line(from.Value, to.Value)+" in a line of its own.")
			}
		case is:
			p.refuse(t.nodePlace(from), "“"+from.Value+"” is an old address, which leads on to “"+to.Value+"”.", "Take the line out if nobody has the old address any more, or choose another name.")
		default:
			if err := p.follow(t, to, leads); err != nil {
				return err
			}
		}
	}
	var more []string
	for _, l := range leads {
		if _, is := again[l.old]; !is && !back[l.old] {
			more = append(more, line(l.old, l.now))
			p.Kept = p.Kept || l.old == p.Old
		}
	}
	p.lines(t, more)
	if len(more) == 0 && lines > 0 && lines == len(back) && strings.HasPrefix(string(t.read), remark+"\n") && len(t.starts) == lines+2 { // as it was made: the file goes with its only lines
		p.Edits = keepOut(p.Edits, manual.MovedFile)
		p.Edits = append(p.Edits, Edit{File: manual.MovedFile, At: finding.Place{File: manual.MovedFile}, End: len(t.disk)})
	}
	return nil
}

// oldAddresses gives the file of old addresses, empty where there is none.
func (p *Plan) oldAddresses() (*text, *yaml.Node, error) {
	there, err := p.exists(manual.MovedFile)
	if err != nil {
		return nil, nil, err
	}
	if there == "" {
		p.texts[manual.MovedFile] = newText(manual.MovedFile, nil)
	}
	return p.yaml(manual.MovedFile)
}

// follow has an old address lead to where that is now to which it led.
func (p *Plan) follow(t *text, to *yaml.Node, leads []lead) error {
	for _, l := range leads {
		if to.Value == l.old || strings.HasPrefix(to.Value, l.old+"#") {
			return p.scalar(t.nodePlace(to), to.Value, l.now+strings.TrimPrefix(to.Value, l.old))
		}
	}
	return nil
}

// lines adds lines to the end of the file of old addresses.
func (p *Plan) lines(t *text, more []string) {
	if len(more) == 0 {
		return
	}
	end, words := len(t.read), strings.Join(more, t.lineEnd())
	switch {
	case end > 0 && t.read[end-1] != '\n':
		words = t.lineEnd() + words
	case end == 0:
		words = remark + "\n" + words + "\n"
	default:
		words += t.lineEnd()
	}
	if t.disk == nil { // there is no such file yet
		p.Edits = append(p.Edits, Edit{File: manual.MovedFile, At: finding.Place{File: manual.MovedFile}, Text: words})
		return
	}
	p.edit(t, end, end, words)
}

func keepOut(edits []Edit, file string) []Edit {
	var kept []Edit
	for _, e := range edits {
		if e.File != file {
			kept = append(kept, e)
		}
	}
	return kept
}

// takeOut takes the line of an entry out, if it stands in one by itself.
func (p *Plan) takeOut(t *text, from *yaml.Node) bool {
	start, end := t.starts[from.Line-1], len(t.read)
	if from.Line < len(t.starts) {
		end = t.starts[from.Line]
	}
	if from.Column != 1 || strings.ContainsAny(string(t.read[start:end]), "{}") {
		return false
	}
	if end == len(t.read) && start > 0 && t.read[end-1] != '\n' { // the last line, without an end of its own
		start--
	}
	p.edit(t, start, end, "")
	return true
}

// line is an entry of the file. An address of a heading has a number sign in it, which begins a remark in YAML only behind a blank.
func line(old, now string) string { return old + ": " + now }
