package builder

import (
	"context"
	"fmt"
	"sync"

	"tankside/builder/decide/relate"
	"tankside/builder/edition"
	"tankside/builder/finding"
	"tankside/builder/manual"
	"tankside/builder/page"
	"tankside/themes"
)

// preview is what is shown to whoever writes while findings keep the manual from being published: every page that can be made, with what is wrong on
// the page of the article that it is about. It never lies in the edition's folder.
type preview struct {
	memo  page.Memo
	files map[string][]byte
	wrong map[string]bool // pages that say what is wrong
}

// make makes the files. The search has no index of its own: it goes on with that of the edition in place. What is wrong with a manual may be anything, so a
// page that cannot be made is one that says so; where not even that can be, there is an error.
func (p *preview) make(ctx context.Context, o Options, m *manual.Manual, used relate.Uses, theme themes.Theme, findings []finding.Finding) (_ map[string][]byte, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			*p, err = preview{}, fmt.Errorf("as the manual is now, no page of it can be shown (%v)", fault)
		}
	}()
	look, err := theme.Digest()
	if err != nil {
		return nil, err
	}
	wrong := map[string]bool{}
	for _, f := range findings {
		if a := m.At(f.File); a != nil {
			wrong[page.Path(a)] = true
		}
	}
	mark, since := edition.Mark{Draft: true}, page.Since{} // with what the edition before said it is compared when it can be published
	if e, some := m.Ledger.Newest(); some {
		mark.After, since.Entry = e.Number, e
	}
	var mu sync.Mutex
	files := make(map[string][]byte, len(p.files))
	add := func(path string, data []byte) error {
		mu.Lock()
		defer mu.Unlock()
		files[path] = data
		return nil
	}
	keep := func(path string) (bool, error) {
		data, has := p.files[path]
		if !has || wrong[path] || p.wrong[path] {
			return false, nil
		}
		return true, add(path, data)
	}
	in := inputOf(m, theme, used, mark, o.Now)
	in.Since, in.Ledger, in.Preview = since, m.Ledger, &page.Preview{Findings: findings}
	in.Look, in.Memo, in.Keep, in.First, in.Ready = look, &p.memo, keep, waitedFor(m, o.Changed), o.Ready
	in.Progress = func(done, total int) { o.progress("making pages to look at", done, total) }
	_, err = page.Render(ctx, in, add)
	if err != nil {
		*p = preview{}
		return nil, err
	}
	p.files, p.wrong = files, wrong
	return files, nil
}
