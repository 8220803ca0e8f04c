package themes

import (
	"crypto/sha256"
	"debug/buildinfo"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// linkedInto gives the modules, as “path version”, that packages link on a system.
func linkedInto(t *testing.T, system, machine string, packages ...string) map[string]bool {
	t.Helper()
	c := exec.Command("go", append([]string{"list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}{{end}}{{end}}"}, packages...)...)
	c.Env = append(os.Environ(), "GOOS="+system, "GOARCH="+machine)
	out, err := c.Output()
	if err != nil {
		t.Skip("the go command does not list modules here: ", err)
	}
	modules := map[string]bool{}
	for m := range strings.FieldsFuncSeq(string(out), func(r rune) bool { return r == '\n' }) {
		modules[m] = true
	}
	if len(modules) < 5 {
		t.Fatalf("only %v are linked", modules)
	}
	return modules
}

const mendParts = "go run ./testdata/notices -parts > testdata/parts.spdx.json"

// The list of parts names what is linked, in the version that is linked, and nothing else: into the command on each system, also as the command that was
// built says of itself, and into the modules of an edition. It has what SPDX 2.3 asks of a document (clauses 6, 7 and 11).
func TestListOfParts(t *testing.T) {
	data, err := os.ReadFile("../testdata/parts.spdx.json")
	if err != nil {
		t.Fatal(err)
	}
	var d struct {
		SPDXVersion, DataLicense, SPDXID, Name, DocumentNamespace string
		CreationInfo                                              struct {
			Created  time.Time
			Creators []string
		}
		Packages []struct {
			SPDXID, Name, VersionInfo, DownloadLocation, LicenseConcluded, LicenseDeclared, CopyrightText string
			FilesAnalyzed                                                                                 bool
			ExternalRefs                                                                                  []struct{ ReferenceCategory, ReferenceType, ReferenceLocator string }
		}
		Relationships []struct{ SPDXElementID, RelationshipType, RelatedSPDXElement string }
	}
	if err := json.Unmarshal(data, &d); err != nil {
		t.Fatal(err)
	}
	if d.SPDXVersion != "SPDX-2.3" || d.DataLicense != "CC0-1.0" || d.SPDXID != "SPDXRef-DOCUMENT" || d.Name == "" || d.DocumentNamespace == "" ||
		strings.Contains(d.DocumentNamespace, "#") || d.CreationInfo.Created.IsZero() || len(d.CreationInfo.Creators) == 0 {
		t.Error("the document's own fields are not as clause 6 asks")
	}
	id := regexp.MustCompile(`^SPDXRef-[A-Za-z0-9.-]+$`)
	licence := regexp.MustCompile(`^(NOASSERTION|(MIT|BSD-[23]-Clause|Apache-2\.0|MPL-2\.0)( AND (MIT|BSD-[23]-Clause|Apache-2\.0|MPL-2\.0))*)$`)
	ids, listed := map[string]string{"SPDXRef-DOCUMENT": ""}, map[string]bool{}
	for _, p := range d.Packages {
		name := p.Name + " " + p.VersionInfo
		if _, twice := ids[p.SPDXID]; twice || !id.MatchString(p.SPDXID) || p.Name == "" || p.DownloadLocation == "" || !licence.MatchString(p.LicenseConcluded) ||
			!licence.MatchString(p.LicenseDeclared) || p.CopyrightText == "" || p.FilesAnalyzed {
			t.Errorf("%s is not as clause 7 asks", name)
		}
		ids[p.SPDXID] = name
		if own := strings.HasPrefix(p.Name, "tankside"); own {
			continue
		}
		if p.LicenseConcluded == "NOASSERTION" || len(p.ExternalRefs) != 1 || p.ExternalRefs[0].ReferenceLocator != "pkg:golang/"+p.Name+"@"+p.VersionInfo {
			t.Errorf("%s has no licence, or no address of its package", name)
		}
		if p.Name != "stdlib" { // of the standard library the version is that of whoever builds
			listed[name] = true
		}
	}
	inEdition, described := map[string]bool{}, 0
	for _, r := range d.Relationships {
		_, from := ids[r.SPDXElementID]
		name, to := ids[r.RelatedSPDXElement]
		if !from || !to {
			t.Errorf("%v is about what is not listed (clause 11)", r)
		}
		if r.RelationshipType == "DESCRIBES" {
			described++
		}
		if r.SPDXElementID == "SPDXRef-tankside-edition" && !strings.HasPrefix(name, "stdlib ") {
			inEdition[name] = true
		}
	}
	if described != 2 {
		t.Errorf("%d parts are described, not command and edition", described)
	}

	edition := linkedInto(t, "wasip1", "wasm", "tankside/builder/wasm", "tankside/search/wasm")
	all := map[string]bool{}
	for _, system := range [][2]string{{"linux", "amd64"}, {"windows", "amd64"}, {"darwin", "arm64"}} {
		for m := range linkedInto(t, system[0], system[1], "tankside/cmd/tankside") {
			all[m] = true
		}
	}
	for m := range edition {
		all[m] = true
		if !inEdition[m] {
			t.Errorf("%s is in an edition and not listed so: %s", m, mendParts)
		}
	}
	for m := range all {
		if !listed[m] || !strings.Contains(string(Notices), "\n"+m+"\n") {
			t.Errorf("%s is linked, and is not listed or has no notice: %s", m, mendParts)
		}
	}
	for m := range listed {
		if !all[m] || inEdition[m] && !edition[m] {
			t.Errorf("%s is listed and not linked: %s", m, mendParts)
		}
	}
	for _, m := range ownModules(t) {
		if !listed[m] {
			t.Errorf("the command that was built says that it has %s, which is not listed", m)
		}
	}
}

// ownModules is what the command says of itself, as go version -m tells it.
func ownModules(t *testing.T) (list []string) {
	t.Helper()
	program := filepath.Join(t.TempDir(), "tankside")
	if out, err := exec.Command("go", "build", "-o", program, "tankside/cmd/tankside").CombinedOutput(); err != nil {
		t.Skipf("the command is not built here: %v %s", err, out)
	}
	info, err := buildinfo.ReadFile(program)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range info.Deps {
		list = append(list, m.Path+" "+m.Version)
	}
	if len(list) < 10 {
		t.Fatalf("the command names only %v", list)
	}
	return list
}

// The npm tools are for tests alone: no package of the command or of the browser's modules lies in testdata or takes a file from it, and no file that is
// taken is one of theirs.
func TestNpmToolsReachNothing(t *testing.T) {
	taken := map[[sha256.Size]byte]string{}
	for _, of := range [][]string{{"linux", "amd64", "tankside/cmd/tankside"}, {"wasip1", "wasm", "tankside/builder/wasm"}, {"wasip1", "wasm", "tankside/search/wasm"}} {
		c := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if .Main}}{{$.Dir}}{{range $.EmbedFiles}}\t{{.}}{{end}}{{end}}{{end}}", of[2])
		c.Env = append(os.Environ(), "GOOS="+of[0], "GOARCH="+of[1])
		out, err := c.Output()
		if err != nil {
			t.Skip("the go command does not list packages here: ", err)
		}
		for line := range strings.FieldsFuncSeq(string(out), func(r rune) bool { return r == '\n' }) {
			fields := strings.Split(line, "\t")
			for _, name := range append([]string{""}, fields[1:]...) {
				at := filepath.ToSlash(filepath.Join(fields[0], name))
				if strings.Contains(at, "/testdata/") || strings.Contains(at, "node_modules") {
					t.Errorf("%s reaches %s", at, of[2])
				}
				if name == "" {
					continue
				}
				data, err := os.ReadFile(at)
				if err != nil {
					t.Fatal(err)
				}
				taken[sha256.Sum256(data)] = at
			}
		}
	}
	if len(taken) < 100 {
		t.Fatalf("only %d files are taken into the command", len(taken))
	}
	tools := "../testdata/npm/node_modules"
	if _, err := os.Stat(tools); err != nil {
		t.Log("the npm tools are not installed here, so that no file is compared with theirs")
		return
	}
	if to, err := filepath.EvalSymlinks(tools); err == nil {
		tools = to
	}
	if err := filepath.WalkDir(tools, func(name string, e fs.DirEntry, err error) error {
		if err != nil || !e.Type().IsRegular() {
			return err
		}
		data, err := os.ReadFile(name)
		if own := taken[sha256.Sum256(data)]; own != "" && len(data) > 0 {
			t.Errorf("%s is a file of the npm tools: %s", own, name)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}
