package rename

import (
	"bytes"
	"path"
	"strings"

	"github.com/yuin/goldmark/ast"

	"tankside/builder/manual"
)

// retarget says how a link at an offset of an article's text, -1 for its header, is to be written afterwards, and whether that is another way than now.
type retarget func(a *manual.Article, offset int, written string) (string, bool)

// links has every link say where what has moved is found now.
func (p *Plan) links(to retarget) error {
	for a := range everyArticle(p.m) {
		if err := p.linksOf(a, to); err != nil {
			return err
		}
	}
	return nil
}

// linksOf does so in an article.
func (p *Plan) linksOf(a *manual.Article, to retarget) error {
	if len(a.Links) == 0 && len(a.Pictures) == 0 {
		return p.seeAlsoLinks(a, to)
	}
	t, err := p.text(a.Path)
	if err != nil {
		return err
	}
	body := t.starts[min(a.Start, len(t.starts))-1]
	err = ast.Walk(manual.Parse(a.Body), func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if !entering {
			return ast.WalkContinue, nil
		}
		var written []byte
		begins := 0
		marks := []byte("](")
		switch n := n.(type) {
		case *ast.Link:
			written, begins = n.Destination, behind(n)
			if n.Reference != nil { // its definition says where it leads
				return ast.WalkContinue, nil
			}
		case *ast.Image:
			written, begins = n.Destination, behind(n)
			if n.Reference != nil {
				return ast.WalkContinue, nil
			}
		case *ast.LinkReferenceDefinition:
			written, begins, marks = n.Destination, max(0, n.Pos()), []byte("]:")
		default:
			return ast.WalkContinue, nil
		}
		now, changed := to(a, begins, string(written))
		if !changed {
			return ast.WalkContinue, nil
		}
		start, found := placed(a.Body, begins, marks, written)
		if !found {
			p.refuse(t.place(body+begins), "The link to “"+string(written)+"” is written in a way that cannot be changed safely.", "Write it as [words](path), in one line.")
			return ast.WalkContinue, nil
		}
		p.edit(t, body+start, body+start+len(written), now)
		return ast.WalkContinue, nil
	})
	if err != nil {
		return err
	}
	return p.seeAlsoLinks(a, to)
}

// behind is an offset in the body at which the words of a link or picture have ended, or one before that where it is not known.
func behind(n ast.Node) int {
	end := max(0, n.Pos())
	_ = ast.Walk(n, func(c ast.Node, entering bool) (ast.WalkStatus, error) {
		if t, is := c.(*ast.Text); is && entering {
			end = max(end, t.Segment.Stop)
		}
		return ast.WalkContinue, nil
	})
	return end
}

// placed finds where the destination of a link stands in the body, from an offset on: behind the marks, blanks and a less-than sign.
func placed(body []byte, from int, marks, destination []byte) (start int, found bool) {
	for at := from; ; {
		n := bytes.Index(body[at:], marks)
		if n < 0 {
			return 0, false
		}
		at += n + len(marks)
		rest := bytes.TrimLeft(body[at:], " \t\n")
		rest = bytes.TrimPrefix(rest, []byte("<"))
		if bytes.HasPrefix(rest, destination) {
			return len(body) - len(rest), true
		}
		if bytes.Contains(body[from:at], []byte("\n\n")) { // in another paragraph
			return 0, false
		}
	}
}

// byAnchor has the links to headings of an article name them by other anchors.
func (p *Plan) byAnchor(to *manual.Article, now map[string]string) retarget {
	return func(a *manual.Article, _ int, written string) (string, bool) {
		dest, problem := p.m.Resolve(a, written)
		if problem != nil || dest.Article != to || dest.Section == nil || now[dest.Section.Anchor] == "" {
			return written, false
		}
		where, _, _ := strings.Cut(written, "#")
		return where + "#" + now[dest.Section.Anchor], true
	}
}

// byPath has links name articles and pictures by the paths that they get. A link that leads nowhere stays as it is.
func (p *Plan) byPath(a *manual.Article, _ int, written string) (string, bool) {
	to, problem := p.m.Resolve(a, written)
	if problem != nil || to.Outside != "" || to.Article == nil && to.Picture == nil {
		return written, false
	}
	where, at, has := strings.Cut(written, "#")
	there := ""
	if to.Article != nil {
		there = to.Article.Path
	} else {
		there = to.Picture.Path
	}
	if where == "" {
		return written, false
	}
	now := p.relative(a.Path, there, where)
	if has {
		now += "#" + at
	}
	return now, now != written
}

// relative is a path as an article would write it, when everything has moved. Where neither has another folder than before, only the last part of what was
// written changes.
func (p *Plan) relative(from, to, written string) string {
	newFrom, newTo := p.after(from), p.after(to)
	if path.Dir(newFrom) == path.Dir(from) && path.Dir(newTo) == path.Dir(to) {
		if newTo == to {
			return written
		}
		return written[:strings.LastIndexByte(written, '/')+1] + path.Base(newTo)
	}
	return manual.Relative(&manual.Article{Path: newFrom}, newTo)
}

func (p *Plan) after(file string) string {
	if to := p.Moves[file]; to != "" {
		return to
	}
	return file
}

// seeAlsoLinks corrects the links among the related articles of a header.
func (p *Plan) seeAlsoLinks(a *manual.Article, to retarget) error {
	if a.Language != "" { // they are the original's
		return nil
	}
	for _, ref := range a.Head.SeeAlso {
		if !strings.ContainsAny(ref.Name, "/#") && !strings.HasSuffix(ref.Name, ".md") {
			continue
		}
		now, changed := to(a, -1, ref.Name)
		if !changed {
			continue
		}
		if err := p.scalar(ref.At, ref.Name, now); err != nil {
			return err
		}
	}
	return nil
}

// seeAlso corrects the names among the related articles of headers.
func (p *Plan) seeAlso(a *manual.Article, name string) error {
	if name == a.Name {
		return nil
	}
	for from := range everyArticle(p.m) {
		if from.Language != "" { // they are the original's
			continue
		}
		for _, ref := range from.Head.SeeAlso {
			if strings.ContainsAny(ref.Name, "/#") || strings.HasSuffix(ref.Name, ".md") {
				continue
			}
			if meant, problem := p.m.Reference(from, ref.Name); problem != nil || meant != a {
				if ref.Name == name {
					p.refuse(ref.At, "“"+name+"” means another article here, and would mean two.", "Write the link to the other, or choose another name.")
				}
				continue
			}
			if others := p.m.Lookup(name); len(others) > 0 {
				p.refuse(ref.At, "“"+name+"” would mean "+others[0].Path+" here as well.", "Write "+manual.Relative(from, a.Path)+" here first, or choose another name.")
			}
			if err := p.scalar(ref.At, ref.Name, name); err != nil {
				return err
			}
		}
	}
	return nil
}
