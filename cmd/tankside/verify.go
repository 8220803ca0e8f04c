package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"tankside/builder"
	"tankside/builder/carry"
	"tankside/builder/edition"
	"tankside/builder/manual"
	"tankside/builder/signature"
)

var verifyCommand = command{
	name: "verify",
	args: "[EDITION|FILE.zip|MANUAL|FOLDER]",
	does: "compare every file of an edition, or of many, with its checksums, and say who signed it",
	more: `Compares every file of the edition with the list that was written when it was published, as after copying it to a stick or a tablet. An edition that is carried as one file is compared in it, unopened.
It says the number of the edition and its code. Where the list is signed, by edition.json.sig beside it, it says by whom and whether that still holds. Of the folder of a manual it says so of every signed
article: wax.md.sig beside wax.md. Exit status 1 where a file is damaged, missing or was put there by somebody else, or a
signature does not hold.

Of a FOLDER that holds many editions, of one shop or of many, it says in a table which shop has which edition, which is damaged, and which is behind: by number and code behind the newest
of the same shop, known by its name, in the folder, or with --base behind that edition, and of other shops than the base's by the revisions of the articles that both have. What cannot be compared is called so.
Links and folders whose names begin with a dot are not followed; signatures are not looked at. Exit status 1 where an edition is damaged, not known, missing or behind.

Signatures are those of OpenSSH, and ssh-keygen makes and checks them without tankside:
  ssh-keygen -Y sign -f KEY -n tankside-edition edition/edition.json
  ssh-keygen -Y sign -f KEY -n tankside-approval content/soils/wax.md
  ssh-keygen -Y verify -f allowed_signers -I WHO -n tankside-approval -s wax.md.sig < wax.md
Who may sign stands in the manual's file allowed_signers (see ssh-keygen's own manual), which keys may no longer in revoked_keys.`,
	setUp: func(o *options) action {
		signers := o.text("signers", "FILE", "who may sign; without it allowed_signers of the manual, “"+usualManual+"” for an edition", "")
		revoked := o.text("revoked", "FILE", "public keys that may no longer sign; without it revoked_keys beside that file", "")
		base := o.text("base", "EDITION", "with a folder of many editions: what they are compared with, in place of the newest of the same shop", "")
		asJSON := o.yes("json", "the result for programs: ok, damaged, missing, extra, and signature where there is one; of a manual, a list of article, state, who, key, says; "+
			"of many editions, ok, links and a list of path, shop, edition, date, code, state, standing and more")
		paths := o.text("paths", "PART", "the files of an edition that is whole, one a line, for programs that copy them: assets, pages, worker, list, in the order in which "+
			"they are copied to where people read, or all", "")
		return func(ctx context.Context, c *console, args []string) error {
			folder, err := atMostOne(args, usualEdition)
			if err != nil {
				return err
			}
			if *paths != "" {
				if *signers != "" || *revoked != "" || *base != "" || *asJSON {
					return errors.New("--paths goes with no other option")
				}
				return c.writePaths(ctx, folder, edition.Part(*paths))
			}
			v := verifying{folder: folder, signers: *signers, revoked: *revoked, asJSON: *asJSON}
			if v.now, err = c.now(); err != nil {
				return err
			}
			if _, err := os.Stat(filepath.Join(folder, manual.ShopFile)); err == nil {
				if *base != "" {
					return errBaseOfOne
				}
				return c.verifyManual(&v)
			}
			if *base != "" || c.holdsEditions(ctx, folder) {
				return c.verifyMany(ctx, folder, *base, *asJSON)
			}
			return c.verifyEdition(ctx, &v)
		}
	},
}

// verifying is what is asked of verify.
type verifying struct {
	folder, signers, revoked string
	asJSON                   bool
	now                      time.Time
}

// lists reads who may sign: the files that are named, or those of a manual.
func (v *verifying) lists(of string) (*signature.Signers, error) {
	allowed, revoked := builder.SignersOf(of)
	if v.signers != "" {
		allowed, revoked = v.signers, filepath.Join(filepath.Dir(v.signers), signature.RevokedFile)
	}
	if v.revoked != "" {
		revoked = v.revoked
		if _, err := os.Stat(revoked); err != nil {
			return nil, err
		}
	}
	return builder.Signers(allowed, revoked, v.now.Location())
}

// compared compares an edition in a folder or in a file with its list. fsys is the edition, until done is called.
func compared(ctx context.Context, at string) (r edition.Report, fsys fs.FS, done func() error, err error) {
	if !carry.IsArchive(at) {
		fsys = os.DirFS(at)
		r, err = edition.Verify(ctx, fsys)
		return r, fsys, func() error { return nil }, err
	}
	a, err := carry.Open(at)
	if err != nil {
		return r, nil, nil, err
	}
	if r, err = a.Verify(ctx); err != nil {
		return r, nil, nil, errors.Join(err, a.Close())
	}
	return r, a.FS(), a.Close, nil
}

func (c *console) verifyEdition(ctx context.Context, v *verifying) (err error) {
	c.tell("Comparing "+v.folder, 0, 0)
	r, fsys, done, err := compared(ctx, v.folder)
	if err != nil {
		return noEdition(v.folder, err)
	}
	defer func() { err = errors.Join(err, done()) }()
	c.endProgress()
	var signed *signature.Verdict
	if builder.IsSigned(fsys) {
		verdict := signature.Verdict{State: signature.UnknownKey, Says: "The list is signed, but not checked: name the file of those who may sign with --signers."}
		s, err := v.lists(usualManual)
		if err == nil {
			verdict, err = builder.CheckEdition(fsys, s, v.now)
		}
		if err != nil && !(errors.Is(err, builder.ErrNoSigners) && v.signers == "") {
			return err
		}
		signed = &verdict
	}
	if v.asJSON {
		err = c.json(struct {
			OK        bool               `json:"ok"`
			Damaged   []string           `json:"damaged"`
			Missing   []string           `json:"missing"`
			Extra     []string           `json:"extra"`
			Signature *signature.Verdict `json:"signature,omitempty"`
		}{r.OK, orEmpty(r.Damaged), orEmpty(r.Missing), orEmpty(r.Extra), signed})
	} else {
		c.tellVerified(r)
		if signed != nil {
			fmt.Fprintf(c.out, "%s\n", shown(signed.Says))
		}
	}
	if err == nil && (!r.OK || signed != nil && signed.State != signature.Holds) {
		err = status(exitFindings)
	}
	return err
}

func (c *console) verifyManual(v *verifying) error {
	s, err := v.lists(v.folder)
	if err != nil {
		return err
	}
	list, err := builder.CheckArticles(v.folder, s, v.now)
	if err != nil {
		return err
	}
	if v.asJSON {
		err = c.json(orEmpty(list))
	}
	hold := 0
	for _, one := range list {
		if one.State == signature.Holds {
			hold++
		}
		if !v.asJSON {
			fmt.Fprintf(c.out, "%s: %s\n", shown(one.Article), shown(one.Says))
		}
	}
	if !v.asJSON {
		fmt.Fprintf(c.out, "%s; %d hold, %d do not.\n", count(len(list), "signature", "signatures"), hold, len(list)-hold)
	}
	if err == nil && hold < len(list) {
		err = status(exitFindings)
	}
	return err
}

func (c *console) tellVerified(r edition.Report) {
	for _, part := range []struct {
		what  string
		files []string
	}{
		{"Damaged", r.Damaged}, {"Missing", r.Missing}, {"Not of this edition", r.Extra},
	} {
		for _, f := range part.files {
			fmt.Fprintf(c.out, "%s: %s\n", part.what, shown(f))
		}
	}
	which := r.Mark.String()
	if r.OK {
		fmt.Fprintf(c.out, "%s: %s, all as they were published.\n", which, count(r.Files, "file", "files"))
		return
	}
	fmt.Fprintf(c.out, "%s: %d damaged, %d missing, %d not of this edition, of %s.\n", which, len(r.Damaged), len(r.Missing), len(r.Extra), count(r.Files, "file", "files"))
	if len(r.Damaged)+len(r.Missing) > 0 {
		c.note("Do not work from it. Copy the edition anew to an empty folder, or publish it to another one with --to: whoever changed a file here may still want it.")
		return
	}
	c.note("The edition itself is whole. What is not of it stays where it is when the manual is published again.")
}

// noEdition says where there is no edition, and what to do.
func noEdition(folder string, err error) error {
	if errors.Is(err, edition.ErrNotEdition) {
		return fmt.Errorf("there is no edition in %q: publish first, with tankside publish, or name the folder that holds %s", folder, edition.ListName)
	}
	var foreign *carry.RefusedError
	if errors.As(err, &foreign) {
		return fmt.Errorf("%q: %w. Do not work from it, and do not unpack it; have the edition carried anew, with tankside publish --carry", folder, err)
	}
	var damaged *edition.DamagedListError
	if errors.As(err, &damaged) {
		return fmt.Errorf("the edition in %q cannot be compared: %w. Do not work from it; copy the edition anew to an empty folder, or publish it to another one with --to", folder, err)
	}
	return err
}
