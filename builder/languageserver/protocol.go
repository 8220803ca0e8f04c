package languageserver

// The structures of LSP 3.17 that are used here, with the members that are.

// Position is a place in a text: line from 0, and column from 0 in the units of the position encoding.
type Position struct {
	Line      uint32 `json:"line"`
	Character uint32 `json:"character"`
}

// Range is from a position to another, which is not in it.
type Range struct {
	Start Position `json:"start"`
	End   Position `json:"end"`
}

type location struct {
	URI   string `json:"uri"`
	Range Range  `json:"range"`
}

type initializeParams struct {
	RootURI          *string  `json:"rootUri"`
	WorkspaceFolders []folder `json:"workspaceFolders"`
	Capabilities     struct {
		General struct {
			PositionEncodings []string `json:"positionEncodings"`
		} `json:"general"`
		Workspace struct {
			DidChangeWatchedFiles struct {
				DynamicRegistration bool `json:"dynamicRegistration"`
			} `json:"didChangeWatchedFiles"`
			WorkspaceEdit struct {
				DocumentChanges    bool     `json:"documentChanges"`
				ResourceOperations []string `json:"resourceOperations"`
			} `json:"workspaceEdit"`
		} `json:"workspace"`
		TextDocument struct {
			PublishDiagnostics struct {
				RelatedInformation bool `json:"relatedInformation"`
			} `json:"publishDiagnostics"`
		} `json:"textDocument"`
	} `json:"capabilities"`
}

type folder struct {
	URI string `json:"uri"`
}

type initializeResult struct {
	Capabilities capabilities `json:"capabilities"`
	ServerInfo   serverInfo   `json:"serverInfo"`
}

type serverInfo struct {
	Name string `json:"name"`
}

type capabilities struct {
	PositionEncoding string      `json:"positionEncoding"`
	TextDocumentSync syncOptions `json:"textDocumentSync"`

	Completion completionOptions `json:"completionProvider"`
	Definition bool              `json:"definitionProvider"`
	References bool              `json:"referencesProvider"`
	Hover      bool              `json:"hoverProvider"`
	Rename     renameOptions     `json:"renameProvider"`
	Mends      bool              `json:"codeActionProvider"`
	Symbols    bool              `json:"documentSymbolProvider"`
	Formatting bool              `json:"documentFormattingProvider"`
}

type syncOptions struct {
	OpenClose bool        `json:"openClose"`
	Change    int         `json:"change"` // TextDocumentSyncKind
	Save      saveOptions `json:"save"`
}

type saveOptions struct {
	IncludeText bool `json:"includeText"`
}

// incremental is TextDocumentSyncKind.Incremental.
const incremental = 2

type documentItem struct {
	URI     string `json:"uri"`
	Version int    `json:"version"`
	Text    string `json:"text"`
}

type didOpenParams struct {
	TextDocument documentItem `json:"textDocument"`
}

type documentID struct {
	URI     string `json:"uri"`
	Version int    `json:"version"`
}

type documentParams struct {
	TextDocument documentID `json:"textDocument"`
}

type didChangeParams struct {
	TextDocument   documentID `json:"textDocument"`
	ContentChanges []change   `json:"contentChanges"`
}

// change replaces a range of a text, or all of it where it has no range.
type change struct {
	Range *Range `json:"range"`
	Text  string `json:"text"`
}

type watchedFilesParams struct {
	Changes []struct {
		URI string `json:"uri"`
	} `json:"changes"`
}

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type diagnostic struct {
	Range    Range     `json:"range"`
	Severity int       `json:"severity"`
	Code     string    `json:"code"`
	Source   string    `json:"source"`
	Message  string    `json:"message"`
	Related  []related `json:"relatedInformation,omitempty"`
}

type related struct {
	Location location `json:"location"`
	Message  string   `json:"message"`
}

// The severities of a diagnostic.
const (
	severityError   = 1
	severityWarning = 2
)

type showMessageParams struct {
	Type    int    `json:"type"` // 1 error, 2 warning
	Message string `json:"message"`
}

type registrationParams struct {
	Registrations []registration `json:"registrations"`
}

type registration struct {
	ID              string `json:"id"`
	Method          string `json:"method"`
	RegisterOptions any    `json:"registerOptions"`
}

type watchOptions struct {
	Watchers []watcher `json:"watchers"`
}

type watcher struct {
	GlobPattern string `json:"globPattern"`
}

type positionParams struct {
	TextDocument documentID `json:"textDocument"`
	Position     Position   `json:"position"`
}

type referenceParams struct {
	positionParams
	Context struct {
		IncludeDeclaration bool `json:"includeDeclaration"`
	} `json:"context"`
}

type textEdit struct {
	Range   Range  `json:"range"`
	NewText string `json:"newText"`
}

type completionList struct {
	IsIncomplete bool       `json:"isIncomplete"`
	Items        []proposal `json:"items"`
}

type proposal struct {
	Label         string   `json:"label"`
	Kind          int      `json:"kind"`
	Detail        string   `json:"detail,omitempty"`
	Documentation string   `json:"documentation,omitempty"`
	FilterText    string   `json:"filterText"`
	SortText      string   `json:"sortText"`
	TextEdit      textEdit `json:"textEdit"`
}

type completionOptions struct {
	TriggerCharacters []string `json:"triggerCharacters"`
}

type renameOptions struct {
	PrepareProvider bool `json:"prepareProvider"`
}

type hoverResult struct {
	Contents markup `json:"contents"`
	Range    *Range `json:"range,omitempty"`
}

type markup struct {
	Kind  string `json:"kind"`
	Value string `json:"value"`
}
