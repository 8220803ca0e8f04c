# Everything that people need is one of: make run, make test. Both set up what they need and say what they are doing.
# The commands stand in full here; nothing is hidden in scripts but what needs a condition.

GO      ?= go
WASM    := themes/wasm
MODULES := search answers
NAMED   := bin/named
export GOWORK := off

say = @printf '\n\033[1m%s\033[0m\n' "$(1)"

.PHONY: run build release test ordeal bench size audit book crowd shops parts weak newest clean tools vet FORCE

run: build
	$(call say,Publishing the demo manual: content/ → edition/)
	bin/tankside publish content --to edition
ifdef CI
	@printf 'Open %s/edition/index.html, or serve it with bin/tankside host edition\n' "$(CURDIR)"
else
	$(call say,Serving it on this machine until you press Ctrl-C. It also opens by double-click: $(CURDIR)/edition/index.html)
	bin/tankside host edition
endif

build: $(MODULES:%=$(WASM)/%.wasm.gz)
	$(call say,Building the command: bin/tankside)
	$(GO) build -trimpath -o bin/tankside ./cmd/tankside

# Without inlining a module is a tenth smaller, and quick enough. For the search a stand-in has the place of one module that does not compile
# for WebAssembly; DEVELOPERS.md has the measurements.
BROWSER := bin/browser.mod
wasm = GOOS=wasip1 GOARCH=wasm $(GO) $(1) -modfile=$(BROWSER) -gcflags=all=-l -trimpath
wasm_package = ./$(if $(filter answers,$(1)),builder,$(1))/wasm

# The go command knows best what has changed, so it is always asked; the module is packed anew only when it differs.
$(WASM)/%.wasm.gz: FORCE $(BROWSER)
	$(call say,Building the browser's part: $* (the first time takes a minute or two))
	$(call wasm,build,$*) -buildmode=c-shared -buildvcs=false -ldflags='-s -w' -o $(WASM)/$*.new $(call wasm_package,$*)
	$(GO) run ./builder/wasm/pack $(WASM)/$*.new
	@if cmp -s $(WASM)/$*.new $(WASM)/$*.wasm && [ -f $@ ]; then rm $(WASM)/$*.new; else mv $(WASM)/$*.new $(WASM)/$*.wasm && gzip -9nc $(WASM)/$*.wasm > $@; fi

$(BROWSER): go.mod go.sum
	@mkdir -p bin
	@cp go.sum $(BROWSER:.mod=.sum)
	@$(GO) mod edit -replace=go.etcd.io/bbolt=./search/wasm/absent -print go.mod > $@

# What is handed out: an archive for each system and machine with the command, README, licence, notices and list of parts, and SHA256SUMS. Two clones of one
# revision make the same bytes, for paths, times, owners, the state of version control and a compiler for C have no part in it.
VERSION  = $(shell git describe --tags --always --dirty --abbrev=12)
RELEASED := $(foreach system,darwin linux windows,$(system)-amd64 $(system)-arm64)

release: $(RELEASED:%=release-%)
	$(call say,Packing: bin/release)
	rm -rf bin/release
	$(GO) run ./builder/release '$(VERSION)' bin/built bin/release
	$(call say,Trying what was built: the demo manual on Linux and where this machine can play Windows and ARM)
	TANKSIDE_BUILT=$(CURDIR)/bin/built $(GO) test ./builder/release -run TestReleasedProgramsPublishTheDemo -count=1 -v -timeout 30m
	@cat bin/release/SHA256SUMS

release-%: $(MODULES:%=$(WASM)/%.wasm.gz)
	$(call say,Building the command for $*)
	CGO_ENABLED=0 GOOS=$(firstword $(subst -, ,$*)) GOARCH=$(lastword $(subst -, ,$*)) GOAMD64=v1 GOARM64=v8.0 \
		$(GO) build -trimpath -buildvcs=false -ldflags='-s -w -X main.releasedAs=$(VERSION)' -o bin/built/$*/ ./cmd/tankside

# Everything that CI runs. Half as much collecting of garbage as usual: the tests' processes live for a minute each.
test: build tools vet
	$(call say,Testing (the browser tests take a few minutes))
	GOGC=200 $(GO) test -timeout 70m ./...

# What writes is killed while it does, 500 times, and the disk fails at every step: what was whole has to be whole. SEED=… draws the same moments again.
ordeal: build
	$(call say,Killing publish and watch and host and filling up the disk (at most ten minutes))
	TANKSIDE_ORDEAL=500 TANKSIDE_SEED=$(SEED) $(GO) test ./builder/edition ./builder/logbook ./builder ./cmd/tankside -run 'TestOrdeal|TestEveryWrite' -p 1 -parallel 4 -count=1 -v -timeout 15m

# What the tests need and a fresh machine lacks. Each is asked for before it is installed.
tools:
	$(call say,Looking for the browsers and npm tools of the tests)
	@sh testdata/tools.sh

# The command runs where trainers and technicians sit.
vet: $(BROWSER)
	$(call say,Vetting for Linux and Windows and macOS)
	@test -z "$$(gofmt -l builder calculators cmd search themes)" || { echo 'Not formatted; run gofmt -w on:'; gofmt -l builder calculators cmd search themes; exit 1; }
	$(GO) vet ./...
	GOOS=windows $(GO) vet ./...
	GOOS=darwin $(GO) vet ./...
	GOOS=windows $(GO) build -o /dev/null ./cmd/tankside
	GOOS=darwin $(GO) build -o /dev/null ./cmd/tankside
	$(GO) tool staticcheck ./...
	$(call say,Looking for functions that no program reaches)
	GOBIN=$(CURDIR)/bin $(GO) install golang.org/x/tools/cmd/deadcode@v0.52.0
	$(GO) run ./testdata/deadcode bin/deadcode $(BROWSER)

# The whole book, printed with Chromium and read back by other programs.
book: build tools
	$(call say,Printing the book and reading it back)
	TANKSIDE_BOOK=1 $(GO) test ./builder/press -count=1 -v

# Ratios against floors measured in the same run.
bench: build
	$(call say,Measuring)
	$(GO) test -run='^$$' -bench=. -benchmem -benchtime=1x -timeout 60m ./builder/... ./search/... ./calculators/...

# Every asset of an edition, raw and compressed, and what the browser's modules are made of; for that they are built once more, with names.
size: build $(MODULES:%=size-%)
	@bin/tankside publish content --to edition
	@$(GO) run ./testdata/size edition $(NAMED)

size-%: FORCE $(BROWSER)
	$(call say,Building the browser's part once more with the names of its functions: $*)
	@mkdir -p $(NAMED)
	$(call wasm,build,$*) -buildmode=c-shared -buildvcs=false -ldflags=-w -o $(NAMED)/$*.wasm $(call wasm_package,$*)
	@$(call wasm,list,$*) -deps -f '{{.ImportPath}} {{with .Module}}{{.Path}}{{end}}' $(call wasm_package,$*) > $(NAMED)/$*.packages

# The page auditor's scores on a page of each important kind; at least 95 of 100 in every category.
audit: build tools
	$(call say,Auditing pages)
	TANKSIDE_AUDIT=1 $(GO) test ./builder/browser -count=1 -run TestPageAudit -v

# 100,000 requests of honest readers beside 500 slow ones: no error, at most 100 MB. The tests have a smaller crowd.
crowd:
	$(call say,Serving a crowd)
	TANKSIDE_CROWD=1 $(GO) test ./builder/host -count=1 -run TestACrowd -v

# A thousand generated shops over a base of 150 articles: what a further one takes, and whether memory grows. 8 GB below TMPDIR.
SHOPS ?= 1000
shops: build
	$(call say,Publishing $(SHOPS) shops)
	TANKSIDE_SHOPS=$(SHOPS) TANKSIDE_SHOPS_ARTICLES=150 $(GO) test ./builder/shops -count=1 -run TestManyShops -v -timeout 180m

# What is linked into the command and into editions: notices that editions carry, and the list of parts (SPDX 2.3). Tests compare both.
parts:
	$(call say,Writing notices and the list of parts)
	$(GO) run ./testdata/notices > bin/notices.txt && mv bin/notices.txt themes/notices.txt
	$(GO) run ./testdata/notices -parts > bin/parts.spdx.json && mv bin/parts.spdx.json testdata/parts.spdx.json

# Weaknesses that are known of what is linked. govulncheck asks a data base for them; where that cannot be had it ends with an error, and nothing is shown.
weak:
	$(call say,Asking for known weaknesses of what is linked)
	$(GO) run golang.org/x/vuln/cmd/govulncheck@v1.9.0 ./...

# Whether the newest bleve would do: it is tried in a copy of the source, which asks the registry; nothing changes here.
newest:
	$(call say,Trying the newest bleve in a copy)
	@GO='$(GO)' sh testdata/newest.sh

clean:
	rm -rf bin edition .edition.* $(WASM)/*.wasm $(WASM)/*.gz node_modules
