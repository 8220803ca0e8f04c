package languageserver

import "encoding/json"

// message is a request, a notification or a response of JSON-RPC 2.0, as it comes.
type message struct {
	JSONRPC string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id"` // absent of a notification
	Method  string          `json:"method"`
	Params  json.RawMessage `json:"params"`
}

// Codes of errors: JSON-RPC 2.0, section 5.1, and LSP 3.17, ErrorCodes and LSPErrorCodes.
const (
	codeParse          = -32700
	codeInvalidRequest = -32600
	codeUnknownMethod  = -32601
	codeInvalidParams  = -32602
	codeNotInitialized = -32002
	codeRequestFailed  = -32803
)

// problem is the error of a response.
type problem struct {
	Code    int    `json:"code"`
	Message string `json:"message"`
}

// Error gives the sentence.
func (p *problem) Error() string { return p.Message }

type response struct {
	JSONRPC string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id"`
	Result  any             `json:"result"`
}

type failure struct {
	JSONRPC string          `json:"jsonrpc"`
	ID      json.RawMessage `json:"id"`
	Error   *problem        `json:"error"`
}

type notification struct {
	JSONRPC string `json:"jsonrpc"`
	Method  string `json:"method"`
	Params  any    `json:"params"`
}

type request struct {
	JSONRPC string `json:"jsonrpc"`
	ID      int    `json:"id"`
	Method  string `json:"method"`
	Params  any    `json:"params"`
}

// null is the id of a response to what could not be read.
var null = json.RawMessage("null")
