package editor

import "encoding/json"

// The parts of the Language Server Protocol 3.17 that are used here, under its own
// names. Positions count lines from 0 and, in a line, units of the agreed encoding.

type position struct {
	Line      int `json:"line"`
	Character int `json:"character"`
}

type textRange struct {
	Start position `json:"start"`
	End   position `json:"end"`
}

type location struct {
	URI   string    `json:"uri"`
	Range textRange `json:"range"`
}

type textEdit struct {
	Range   textRange `json:"range"`
	NewText string    `json:"newText"`
}

type documentID struct {
	URI string `json:"uri"`
}

type versionedID struct {
	URI     string `json:"uri"`
	Version *int   `json:"version"`
}

type documentEdit struct {
	TextDocument versionedID `json:"textDocument"`
	Edits        []textEdit  `json:"edits"`
}

type workspaceEdit struct {
	Changes         map[string][]textEdit `json:"changes,omitempty"`
	DocumentChanges []documentEdit        `json:"documentChanges,omitempty"`
}

// at are the parameters of every request that speaks of a place.
type at struct {
	TextDocument documentID `json:"textDocument"`
	Position     position   `json:"position"`
}

type initializeParams struct {
	RootURI          string `json:"rootUri"`
	WorkspaceFolders []struct {
		URI string `json:"uri"`
	} `json:"workspaceFolders"`
	Capabilities capabilities `json:"capabilities"`
}

// capabilities are those of the client that change what is sent.
type capabilities struct {
	General struct {
		PositionEncodings []string `json:"positionEncodings"`
	} `json:"general"`
	Workspace struct {
		ApplyEdit     bool `json:"applyEdit"`
		WorkspaceEdit struct {
			DocumentChanges bool `json:"documentChanges"`
		} `json:"workspaceEdit"`
		DidChangeWatchedFiles struct {
			DynamicRegistration bool `json:"dynamicRegistration"`
		} `json:"didChangeWatchedFiles"`
		InlayHint struct {
			RefreshSupport bool `json:"refreshSupport"`
		} `json:"inlayHint"`
	} `json:"workspace"`
	TextDocument struct {
		Completion struct {
			CompletionItem struct {
				SnippetSupport bool `json:"snippetSupport"`
			} `json:"completionItem"`
		} `json:"completion"`
		Hover struct {
			ContentFormat []string `json:"contentFormat"`
		} `json:"hover"`
		SignatureHelp struct {
			SignatureInformation struct {
				ParameterInformation struct {
					LabelOffsetSupport bool `json:"labelOffsetSupport"`
				} `json:"parameterInformation"`
			} `json:"signatureInformation"`
		} `json:"signatureHelp"`
		DocumentSymbol struct {
			Hierarchical bool `json:"hierarchicalDocumentSymbolSupport"`
		} `json:"documentSymbol"`
		CodeAction struct {
			Literal json.RawMessage `json:"codeActionLiteralSupport"`
		} `json:"codeAction"`
	} `json:"textDocument"`
}

type didOpenParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version int    `json:"version"`
		Text    string `json:"text"`
	} `json:"textDocument"`
}

type didChangeParams struct {
	TextDocument   versionedID     `json:"textDocument"`
	ContentChanges []contentChange `json:"contentChanges"`
}

// contentChange replaces a range, or the whole text when it has none.
type contentChange struct {
	Range *textRange `json:"range"`
	Text  string     `json:"text"`
}

type didSaveParams struct {
	TextDocument documentID `json:"textDocument"`
	Text         *string    `json:"text"`
}

type didCloseParams struct {
	TextDocument documentID `json:"textDocument"`
}

type watchedFilesParams struct {
	Changes []struct {
		URI string `json:"uri"`
	} `json:"changes"`
}

// Severities of diagnostics.
const (
	severityError       = 1
	severityWarning     = 2
	severityInformation = 3
)

type diagnostic struct {
	Range    textRange     `json:"range"`
	Severity int           `json:"severity"`
	Code     string        `json:"code"`
	Source   string        `json:"source"`
	Message  string        `json:"message"`
	Related  []relatedInfo `json:"relatedInformation,omitempty"`
}

type relatedInfo struct {
	Location location `json:"location"`
	Message  string   `json:"message"`
}

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type markup struct {
	Kind  string `json:"kind"`
	Value string `json:"value"`
}

type hover struct {
	Contents markup    `json:"contents"`
	Range    textRange `json:"range"`
}

type inlayHintParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        textRange  `json:"range"`
}

type inlayHint struct {
	Position    position `json:"position"`
	Label       string   `json:"label"`
	Tooltip     *markup  `json:"tooltip,omitempty"`
	PaddingLeft bool     `json:"paddingLeft"`
}

// Kinds of completion items.
const (
	itemFunction = 3
	itemField    = 5
	itemVariable = 6
	itemUnit     = 11
	itemKeyword  = 14
	itemConstant = 21
	itemSnippet  = 2 // insertTextFormat
)

type completionItem struct {
	Label            string    `json:"label"`
	Kind             int       `json:"kind"`
	Detail           string    `json:"detail,omitempty"`
	Documentation    *markup   `json:"documentation,omitempty"`
	SortText         string    `json:"sortText,omitempty"`
	FilterText       string    `json:"filterText,omitempty"`
	InsertTextFormat int       `json:"insertTextFormat,omitempty"`
	TextEdit         *textEdit `json:"textEdit,omitempty"`
}

type completionList struct {
	IsIncomplete bool             `json:"isIncomplete"`
	Items        []completionItem `json:"items"`
}

type signatureHelp struct {
	Signatures      []signature `json:"signatures"`
	ActiveSignature int         `json:"activeSignature"`
	ActiveParameter int         `json:"activeParameter"`
}

type signature struct {
	Label         string      `json:"label"`
	Documentation *markup     `json:"documentation,omitempty"`
	Parameters    []parameter `json:"parameters"`
}

type parameter struct {
	Label         any     `json:"label"` // the text, or its place in the signature's label
	Documentation *markup `json:"documentation,omitempty"`
}

type referenceParams struct {
	at
	Context struct {
		IncludeDeclaration bool `json:"includeDeclaration"`
	} `json:"context"`
}

type renameParams struct {
	at
	NewName string `json:"newName"`
}

type highlight struct {
	Range textRange `json:"range"`
	Kind  int       `json:"kind"` // 2 reads, 3 writes
}

// Kinds of symbols.
const (
	symbolNamespace = 3
	symbolField     = 8
	symbolFunction  = 12
	symbolVariable  = 13
	symbolBoolean   = 17
	symbolArray     = 18
	symbolObject    = 19
	symbolStruct    = 23
	symbolEvent     = 24
)

type documentSymbol struct {
	Name           string           `json:"name"`
	Detail         string           `json:"detail,omitempty"`
	Kind           int              `json:"kind"`
	Range          textRange        `json:"range"`
	SelectionRange textRange        `json:"selectionRange"`
	Children       []documentSymbol `json:"children,omitempty"`
}

type symbolInformation struct {
	Name          string   `json:"name"`
	Kind          int      `json:"kind"`
	Location      location `json:"location"`
	ContainerName string   `json:"containerName,omitempty"`
}

type foldingRange struct {
	StartLine int    `json:"startLine"`
	EndLine   int    `json:"endLine"`
	Kind      string `json:"kind,omitempty"`
}

type semanticTokens struct {
	Data []int `json:"data"`
}

type codeActionParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        textRange  `json:"range"`
	Context      struct {
		Only []string `json:"only"`
	} `json:"context"`
}

type codeAction struct {
	Title       string        `json:"title"`
	Kind        string        `json:"kind"`
	Diagnostics []diagnostic  `json:"diagnostics,omitempty"`
	IsPreferred bool          `json:"isPreferred,omitempty"`
	Edit        workspaceEdit `json:"edit"`
}
