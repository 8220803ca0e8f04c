package languageserver

import (
	"context"
	"encoding/json"
	"slices"
)

// requests are the methods that are answered, notifications those that are heeded.
var (
	requests = map[string]func(context.Context, *server, json.RawMessage) (any, error){
		"initialize":                  reading(initialize),
		"textDocument/completion":     reading(completion),
		"textDocument/definition":     reading(definition),
		"textDocument/references":     reading(references),
		"textDocument/hover":          reading(hover),
		"textDocument/prepareRename":  reading(prepareRename),
		"textDocument/rename":         reading(renameRequest),
		"textDocument/codeAction":     reading(codeActions),
		"textDocument/documentSymbol": reading(documentSymbols),
		"textDocument/formatting":     reading(formatting),
		"shutdown":                    func(_ context.Context, s *server, _ json.RawMessage) (any, error) { s.ending = true; return nil, nil },
	}
	notifications = map[string]func(context.Context, *server, json.RawMessage) error{
		"initialized":                     func(_ context.Context, s *server, _ json.RawMessage) error { return s.initialized() },
		"textDocument/didOpen":            heeding(didOpen),
		"textDocument/didChange":          heeding(didChange),
		"textDocument/didSave":            heeding(didSave),
		"textDocument/didClose":           heeding(didClose),
		"workspace/didChangeWatchedFiles": heeding(didChangeWatchedFiles),
	}
)

// reading reads the parameters of a request before it is answered.
func reading[P any](answer func(context.Context, *server, P) (any, error)) func(context.Context, *server, json.RawMessage) (any, error) {
	return func(ctx context.Context, s *server, params json.RawMessage) (any, error) {
		var p P
		if err := json.Unmarshal(params, &p); err != nil {
			return nil, &problem{codeInvalidParams, "the parameters cannot be read: " + err.Error()}
		}
		return answer(ctx, s, p)
	}
}

// heeding reads the parameters of a notification before it is heeded.
func heeding[P any](act func(*server, P) error) func(context.Context, *server, json.RawMessage) error {
	return func(_ context.Context, s *server, params json.RawMessage) error {
		var p P
		if err := json.Unmarshal(params, &p); err != nil {
			return err
		}
		return act(s, p)
	}
}

func initialize(_ context.Context, s *server, p initializeParams) (any, error) {
	if s.begun {
		return nil, &problem{codeInvalidRequest, "“initialize” comes once"}
	}
	s.begun = true
	s.encoding = chosen(p.Capabilities.General.PositionEncodings)
	s.related = p.Capabilities.TextDocument.PublishDiagnostics.RelatedInformation
	s.watches = p.Capabilities.Workspace.DidChangeWatchedFiles.DynamicRegistration
	edits := p.Capabilities.Workspace.WorkspaceEdit
	s.versions = edits.DocumentChanges
	s.makes = edits.DocumentChanges && slices.Contains(edits.ResourceOperations, "create")
	s.renames = edits.DocumentChanges && slices.Contains(edits.ResourceOperations, "rename")
	uris := []string{}
	for _, f := range p.WorkspaceFolders {
		uris = append(uris, f.URI)
	}
	if len(uris) == 0 && p.RootURI != nil {
		uris = append(uris, *p.RootURI)
	}
	for _, uri := range uris {
		if file, ok := fileOf(uri); ok {
			s.folders = append(s.folders, file)
		}
	}
	if s.options.Manual != "" {
		s.folders = append(s.folders, s.options.Manual)
	}
	return initializeResult{capable(s.encoding), serverInfo{source}}, nil
}

// capable is what the server does.
func capable(e encoding) capabilities {
	return capabilities{
		PositionEncoding: string(e),
		TextDocumentSync: syncOptions{OpenClose: true, Change: incremental},
		Completion:       completionOptions{[]string{":", " ", "(", "#", "[", ",", "/"}},
		Definition:       true, References: true, Hover: true,
		Rename: renameOptions{true}, Mends: true, Symbols: true, Formatting: true,
	}
}

// initialized opens the manuals of the workspace, and asks to be told when their files change.
func (s *server) initialized() error {
	for _, folder := range s.folders {
		if _, err := s.deskOf(folder); err != nil {
			return err
		}
	}
	s.later()
	if !s.watches {
		return nil
	}
	return s.request("client/registerCapability", registrationParams{[]registration{{
		ID: "files", Method: "workspace/didChangeWatchedFiles", RegisterOptions: watchOptions{[]watcher{{GlobPattern: "**/*"}}},
	}}})
}
