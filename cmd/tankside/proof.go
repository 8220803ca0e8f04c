package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"tankside/builder"
	"tankside/builder/decide/rules"
	"tankside/builder/edition"
	"tankside/builder/finding"
)

var proofCommand = command{
	name: "proof",
	args: "[MANUAL]",
	does: "what is wrong with a manual, and what to do about it",
	more: `Reads the manual and says what could hurt somebody, damage parts, mislead a reader or is untidy: where it stands, why it matters and
what to do. What has changed since an edition without a new revision is found too, where there is an edition to compare with: the one named
with --since, or one of the same shop in the folder “edition” beside the manual's. EDITION is what tankside changes takes: the folder of an edition or of
a manual, a number or code of the ledger, or a revision of the git checkout. Exit status 1 where a finding stops publication.

With --kind, --rule or --file only some findings are shown, with --json and --sarif too. All are looked for all the same: the last line says how many there
are in all, and the exit status is the whole manual's.

  tankside proof --kind soil --rule orphan
  tankside proof --file soils/wax.md`,
	setUp: func(o *options) action {
		asJSON := o.yes("json", "the findings for programs: a list of rule, severity, file, line, column, message, why, remedy")
		asSARIF := o.yes("sarif", "the findings for editors and build servers, in SARIF 2.1.0 (an OASIS standard)")
		list := o.yes("rules", "every rule: what it finds, which harm it prevents, where its limit comes from")
		var only selection
		only.options(o)
		named := o.text("since", "EDITION", "number, code or folder of the edition that the revisions are compared with; without it “"+usualEdition+"” beside the manual's folder, if there is one", "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualManual)
			switch {
			case err != nil:
				return err
			case *asJSON && *asSARIF:
				return errTwoForms
			case *list && (*asSARIF || len(args) > 0):
				return errors.New("--rules lists the rules themselves; it takes no folder and no --sarif")
			case *list && only.narrow():
				return errors.New("--rules lists the rules themselves; it takes no --kind, --rule or --file")
			case *list && *asJSON:
				return c.json(rules.All())
			case *list:
				writeRules(c.out, rules.All(), c.strong)
				return nil
			}
			if err := c.finishRenaming(folder); err != nil {
				return err
			}
			now, err := c.now()
			if err != nil {
				return err
			}
			collectLate()
			c.tell("Proof-reading "+folder, 0, 0)
			since, err := c.since(ctx, folder, *named)
			if err != nil {
				return err
			}
			m, findings, err := builder.Proof(ctx, folder, now)
			if err != nil {
				return err
			}
			if since != nil && *named == "" && since.Shop != m.Shop.Name { // of another manual that stands in the same folder
				since = nil
			}
			if since != nil {
				findings = builder.Against(m, findings, since, now)
			}
			c.endProgress()
			all := findings
			if findings, err = only.of(folder, all); err != nil {
				return err
			}
			switch {
			case *asJSON:
				err = c.json(orEmpty(findings))
			case *asSARIF:
				err = c.json(sarif(folder, findings, rules.All()))
			case only.narrow():
				c.writeSelected(folder, findings, all)
			case len(findings) == 0:
				fmt.Fprintf(c.out, "No findings: %s read%s.\n", count(m.Count(), "article", "articles"), comparedWith(since))
			default:
				c.writeFindings(folder, findings)
			}
			if err == nil && finding.Stopping(all) > 0 {
				err = status(exitFindings)
			}
			return err
		}
	},
}

// writeFindings writes findings for people.
func (c *console) writeFindings(folder string, list []finding.Finding) {
	most := mostOfARule
	if len(list) > long {
		most = mostInLong
	}
	writeSome(c.out, folder, list, most, c.ofSeverity)
}

// writeSelected writes those findings that are selected, each, and how many there are in all.
func (c *console) writeSelected(folder string, list, all []finding.Finding) {
	if len(list) > 0 {
		writeSome(c.out, folder, list, len(list), c.ofSeverity)
	} else {
		fmt.Fprintln(c.out, "None of these findings.")
	}
	if len(all) > len(list) {
		fmt.Fprintf(c.out, "In the whole manual: %s\n", closing(all))
	}
}

// since gives the list of the edition that revisions are compared with, or nil where none is named and none stands beside the manual.
func (c *console) since(ctx context.Context, folder, named string) (*edition.List, error) {
	if named != "" {
		return sinceNamed(ctx, folder, named)
	}
	at, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	beside := filepath.Join(filepath.Dir(at), usualEdition)
	l, err := edition.ReadList(os.DirFS(beside))
	if errors.Is(err, edition.ErrNotEdition) || errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		c.note("Revisions were not compared with the edition in %s: %s", quoted(beside), sentence(err))
		return nil, nil
	}
	return l, nil
}

// sinceNamed finds an edition as tankside changes does, and what it tells of its articles.
func sinceNamed(ctx context.Context, folder, named string) (*edition.List, error) {
	if l, err := edition.ReadList(os.DirFS(named)); err == nil { // also of one whose pages are not all there, or that an older program has written
		return l, nil
	} else if !errors.Is(err, edition.ErrNotEdition) && !errors.Is(err, fs.ErrNotExist) {
		return nil, noEdition(named, err)
	}
	q := question{ctx: ctx, folder: folder, articles: true}
	if err := q.open(nil); err != nil {
		return nil, err
	}
	s, err := q.find(named)
	if err == nil && s.told == nil {
		err = fmt.Errorf("of %s what has changed can be told, with tankside changes, but not which revision each article had: name the folder of that edition%s", s.name, q.noGit())
	}
	return s.told, err
}

func comparedWith(l *edition.List) string {
	if l == nil {
		return ""
	}
	if l.Edition == 0 {
		return ", compared with the edition with the code " + l.Code
	}
	return fmt.Sprintf(", compared with edition %d of %s", l.Edition, l.Date)
}

// orEmpty has an empty list written as one.
func orEmpty[T any](list []T) []T {
	if list == nil {
		return []T{}
	}
	return list
}

func writeRules(w io.Writer, all []finding.Rule, strong func(string) string) {
	for _, s := range finding.Severities {
		n := 0
		for _, r := range all {
			if r.Severity != s {
				continue
			}
			if n++; n == 1 {
				fmt.Fprintf(w, "%s\n\n", strong(s.Heading()))
			}
			fmt.Fprintf(w, "%s finds %s.\n  %s\n  Source: %s\n\n", strong(string(r.Name)), r.Finds, r.Why, r.Source)
		}
	}
	fmt.Fprintf(w, "%s.\n", count(len(all), "rule", "rules"))
}
