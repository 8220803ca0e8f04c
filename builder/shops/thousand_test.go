//go:build unix

package shops

import (
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

const plainWords = `water tank part bath basket load hole thread drain filter lid meter reading record check look wipe cloth drop ring pit edge corner
gasket pump valve seal shaft sleeve housing cover spring gear before after during between under over slowly quickly again first last bench shelf label`

// generate makes a base of so many articles and so many shops over it. Fourteen articles are of the small manual, with chemistries, materials and soils that are compared with the
// shop's tanks; the others are procedures of some 4 kB. Shops differ in name, height, water, units and a tank; each has an article of its own and replaces one of the base's.
// The same numbers make the same.
func (y *yard) generate(articles, shops int) {
	y.t.Helper()
	r := rand.New(rand.NewPCG(7, 11))
	words := strings.Fields(plainWords)
	text := func(n int) string {
		var b strings.Builder
		for section := range 5 {
			fmt.Fprintf(&b, "## Section %d of %s\n\n", section+1, words[r.IntN(len(words))])
			for range 2 {
				for w := range 70 {
					b.WriteString(words[r.IntN(len(words))])
					b.WriteString(map[bool]string{true: ". ", false: " "}[w%12 == 11])
				}
				fmt.Fprintf(&b, "See [another](article-%d.md).\n\n", r.IntN(n))
			}
		}
		return b.String()
	}
	const small = 14
	for i := range articles - small {
		at := filepath.Join(y.base, fmt.Sprintf("procedures/article-%d.md", i))
		if err := os.WriteFile(at, []byte(header(fmt.Sprintf("Article %d about %s", i, words[r.IntN(len(words))]), "A", "")+text(articles-small)), 0o600); err != nil {
			y.t.Fatal(err)
		}
	}
	shop := y.read(filepath.Join(y.base, "shop.yaml"))
	for i := range shops {
		name := fmt.Sprintf("shop-%04d", i+1)
		y.write(name+"/shop.yaml", strings.NewReplacer("name: Invented shop", "name: Shop "+strconv.Itoa(i+1), "altitude: 240 m", fmt.Sprintf("altitude: %d m", 10+i),
			"hardness: 260 mg/L", fmt.Sprintf("hardness: %d mg/L", 200+i%90), "units: SI", []string{"units: SI", "units: US"}[i%2]).Replace(shop))
		y.write(name+"/procedures/ours.md", header("What this shop adds", "A", "")+"This is how shop "+strconv.Itoa(i+1)+" does it: see [another](article-1.md).\n")
		y.write(name+"/soils/chips.md", strings.NewReplacer("revision: A", "revision: A\nreplaces: A, 96a3d8713e6beb6a", "Turn the part over.", "Turn the part over, as shop "+strconv.Itoa(i+1)+" does.").Replace(y.read(article)))
	}
}

func header(title, revision, more string) string {
	return "---\ntitle: " + title + "\nsummary: What to do.\nstation: wash\nrevision: " + revision + "\n" + more +
		"approved: not yet\nreview-by: 2027-09-14\nsources: [common practice, no source]\n---\n\n"
}

// cost is what a shop took.
type cost struct {
	cpu   time.Duration // of this process, for the whole machine
	clock time.Duration
	heap  uint64 // bytes that live, after it
	taken uint64 // bytes that Go has from the system
}

func processors(t *testing.T) time.Duration {
	t.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// stored is what the editions take on the disk: each file once, however many names it has. packed are the compressed neighbours among it.
func stored(t *testing.T, root string, seen map[uint64]bool) (bytes, packed int64, files int) {
	t.Helper()
	err := filepath.WalkDir(root, func(_ string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		info, err := e.Info()
		if err != nil {
			return err
		}
		if at := info.Sys().(*syscall.Stat_t).Ino; !seen[at] {
			seen[at] = true
			bytes += info.Size()
			files++
			if ext := filepath.Ext(e.Name()); ext == ".gz" || ext == ".br" {
				packed += info.Size()
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return bytes, packed, files
}

// Many generated shops: the memory does not grow with their number, and assets are stored once. TANKSIDE_SHOPS says how many shops, 6 without it, and TANKSIDE_SHOPS_ARTICLES how many articles the base has;
// make shops publishes 1,000 shops of 150. What a further shop takes beside the first is printed, for README.md.
func TestManyShops(t *testing.T) {
	count, articles := 6, 20
	for name, n := range map[string]*int{"TANKSIDE_SHOPS": &count, "TANKSIDE_SHOPS_ARTICLES": &articles} {
		if text := os.Getenv(name); text != "" {
			var err error
			if *n, err = strconv.Atoi(text); err != nil || *n < 2 {
				t.Fatalf("%s=%s", name, text)
			}
		}
	}
	y := newYard(t, 0)
	y.generate(articles, count)
	defer debug.SetGCPercent(debug.SetGCPercent(GarbagePercent))
	var costs []cost
	cpu, begin := processors(t), time.Now()
	got, sum := y.publish(Options{Done: func(Result) {
		var m runtime.MemStats
		runtime.GC()
		runtime.ReadMemStats(&m)
		costs = append(costs, cost{processors(t) - cpu, time.Since(begin), m.HeapAlloc, m.Sys})
		cpu, begin = processors(t), time.Now()
	}})
	if !sum.Fine() || sum.Count[Published] != count {
		for _, r := range got {
			if r.State != Published {
				t.Fatalf("%s is %s: %v %v", r.Shop, r.State, r.Err, r.Own)
			}
		}
	}
	seen := map[uint64]bool{}
	first, firstPacked, firstFiles := stored(t, filepath.Join(y.into, "shop-0001"), seen)
	second, secondPacked, secondFiles := stored(t, filepath.Join(y.into, "shop-0002"), seen)
	var further, clock time.Duration
	for _, c := range costs[1:] {
		further += c.cpu
		clock += c.clock
	}
	n := time.Duration(count - 1)
	t.Logf("%d shops of %d articles: the first %v of processor time (%v), a further one %v (%v), 1/%.1f; on the disk %.1f MB in %d files (%.1f MB compressed neighbours), and %.1f MB in %d (%.1f MB), 1/%.1f; heap %.0f MB after the second, %.0f MB after the last, %.0f MB from the system",
		count, articles, costs[0].cpu.Round(time.Millisecond), costs[0].clock.Round(time.Millisecond), (further / n).Round(time.Millisecond), (clock / n).Round(time.Millisecond), float64(costs[0].cpu)/float64(further/n),
		float64(first)/1e6, firstFiles, float64(firstPacked)/1e6, float64(second)/1e6, secondFiles, float64(secondPacked)/1e6, float64(first)/float64(second), float64(costs[1].heap)/1e6, float64(costs[count-1].heap)/1e6, float64(costs[count-1].taken)/1e6)
	if half := costs[count/2].heap; float64(costs[count-1].heap) > 1.25*float64(half)+4e6 {
		t.Errorf("the heap grows with the shops: %d bytes after half of them, %d after all", half, costs[count-1].heap)
	}
	if second*3 > first*2 {
		t.Errorf("a further shop takes %d bytes on the disk, the first %d", second, first)
	}
}
