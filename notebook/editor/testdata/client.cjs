// A language client of the usual kind: asks a server every request it knows, through
// the published protocol package, and checks the form of each answer.
//
//   node client.cjs FOLDER COMMAND [ARGUMENT …]
"use strict";
const { spawn } = require("node:child_process");
const { readFileSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { pathToFileURL } = require("node:url");
const p = require("vscode-languageserver-protocol/node");

const [folder, command, ...args] = process.argv.slice(2);
const server = spawn(command, args, { stdio: ["pipe", "pipe", "inherit"] });
const connection = p.createProtocolConnection(new p.StreamMessageReader(server.stdout), new p.StreamMessageWriter(server.stdin));

let failures = 0;
let checks = 0;
function check(what, ok, got) {
  checks++;
  if (!ok) {
    failures++;
    console.log(`FAIL ${what}: ${JSON.stringify(got)}`);
  }
}
const every = (list, is) => Array.isArray(list) && list.length > 0 && list.every(is);

const uri = (name) => pathToFileURL(join(folder, name)).href;
const texts = {};
function place(name, piece) {
  const i = texts[name].indexOf(piece.replace("¦", "")) + piece.indexOf("¦");
  const before = texts[name].slice(0, i);
  return { textDocument: { uri: uri(name) }, position: { line: before.split("\n").length - 1, character: i - before.lastIndexOf("\n") - 1 } };
}
const whole = (name) => ({ textDocument: { uri: uri(name) }, range: { start: { line: 0, character: 0 }, end: { line: 999, character: 0 } } });

const diagnostics = new Map();
let heard = () => {};
connection.onNotification(p.PublishDiagnosticsNotification.type, (d) => {
  diagnostics.set(d.uri, d.diagnostics);
  heard();
});
const registered = [];
connection.onRequest(p.RegistrationRequest.type, (r) => void registered.push(...r.registrations));
connection.onRequest(p.InlayHintRefreshRequest.type, () => {});
const applied = [];
connection.onRequest(p.ApplyWorkspaceEditRequest.type, (r) => {
  applied.push(r.edit);
  heard();
  return { applied: true };
});
function until(what, ok) {
  return new Promise((resolve) => {
    const timer = setTimeout(() => {
      check(what, false, [...diagnostics]);
      resolve();
    }, 20000);
    heard = () => {
      if (ok()) {
        clearTimeout(timer);
        check(what, true);
        heard = () => {};
        resolve();
      }
    };
    heard();
  });
}

let version = 1;
function open(name) {
  texts[name] = readFileSync(join(folder, name), "utf8");
  return connection.sendNotification(p.DidOpenTextDocumentNotification.type, { textDocument: { uri: uri(name), languageId: "markdown", version, text: texts[name] } });
}
function change(name, old, text) {
  const start = place(name, "¦" + old).position;
  const end = place(name, old + "¦").position;
  texts[name] = texts[name].replace(old, text);
  return connection.sendNotification(p.DidChangeTextDocumentNotification.type, { textDocument: { uri: uri(name), version: ++version }, contentChanges: [{ range: { start, end }, text }] });
}

async function main() {
  connection.listen();
  const init = await connection.sendRequest(p.InitializeRequest.type, {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    workspaceFolders: null,
    capabilities: {
      general: { positionEncodings: ["utf-16"] },
      workspace: { applyEdit: true, workspaceEdit: { documentChanges: true }, inlayHint: { refreshSupport: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
      textDocument: { hover: { contentFormat: ["markdown"] }, documentSymbol: { hierarchicalDocumentSymbolSupport: true }, completion: { completionItem: { snippetSupport: true } } },
    },
  });
  check("initialize", init.capabilities.positionEncoding === "utf-16" && init.serverInfo.name === "scarph", init);
  await connection.sendNotification(p.InitializedNotification.type, {});
  await open("journal.md");
  await open("2027-05-02-measured.md");

  const hover = await connection.sendRequest(p.HoverRequest.type, place("journal.md", "in¦side = beam"));
  check("hover", p.Hover.is(hover) && hover.contents.value.includes("beam - 2 * planking"), hover);
  const hints = await connection.sendRequest(p.InlayHintRequest.type, whole("journal.md"));
  check("inlayHint", every(hints, p.InlayHint.is), hints);
  const completion = await connection.sendRequest(p.CompletionRequest.type, place("journal.md", "inside = be¦am"));
  check("completion", every(completion.items, (x) => x.label && p.TextEdit.is(x.textEdit)), completion);
  const item = completion.items.find((x) => x.kind === p.CompletionItemKind.Function);
  const resolved = await connection.sendRequest(p.CompletionResolveRequest.type, item ?? completion.items[0]);
  check("completionItem/resolve", resolved.label, resolved);
  const help = await connection.sendRequest(p.SignatureHelpRequest.type, place("journal.md", "scarf_length(planking, ¦8)"));
  check("signatureHelp", help.activeParameter === 1 && help.signatures[0].parameters.length > 1, help);
  for (const [what, type] of [["definition", p.DefinitionRequest.type], ["declaration", p.DeclarationRequest.type], ["implementation", p.ImplementationRequest.type]]) {
    const places = await connection.sendRequest(type, place("journal.md", "She is {be¦am}"));
    check(what, every(places, p.Location.is), places);
  }
  const references = await connection.sendRequest(p.ReferencesRequest.type, { ...place("journal.md", "in¦side = beam"), context: { includeDeclaration: true } });
  check("references", every(references, p.Location.is) && references.length > 1, references);
  const highlights = await connection.sendRequest(p.DocumentHighlightRequest.type, place("journal.md", "in¦side = beam"));
  check("documentHighlight", every(highlights, (x) => p.Range.is(x.range)), highlights);
  const ready = await connection.sendRequest(p.PrepareRenameRequest.type, place("journal.md", "in¦side = beam"));
  check("prepareRename", p.Range.is(ready.range) && ready.placeholder === "inside", ready);
  const renamed = await connection.sendRequest(p.RenameRequest.type, { ...place("journal.md", "in¦side = beam"), newName: "clear" });
  check("rename", p.WorkspaceEdit.is(renamed) && renamed.documentChanges.length === 3, renamed);
  const refused = await connection.sendRequest(p.RenameRequest.type, { ...place("journal.md", "in¦side = beam"), newName: "mm" }).catch((e) => e);
  check("rename refused", refused instanceof p.ResponseError && refused.code === p.LSPErrorCodes.RequestFailed, refused);
  const symbols = await connection.sendRequest(p.DocumentSymbolRequest.type, { textDocument: { uri: uri("journal.md") } });
  check("documentSymbol", every(symbols, p.DocumentSymbol.is) && symbols[0].children.length > 5, symbols);
  const found = await connection.sendRequest(p.WorkspaceSymbolRequest.type, { query: "ins" });
  check("workspace/symbol", every(found, (x) => x.name === "inside" && p.Location.is(x.location)), found);
  const folds = await connection.sendRequest(p.FoldingRangeRequest.type, { textDocument: { uri: uri("journal.md") } });
  check("foldingRange", every(folds, p.FoldingRange.is), folds);
  const tokens = await connection.sendRequest(p.SemanticTokensRequest.type, { textDocument: { uri: uri("journal.md") } });
  const legend = init.capabilities.semanticTokensProvider.legend.tokenTypes;
  check("semanticTokens", p.SemanticTokens.is(tokens) && tokens.data.length % 5 === 0 && tokens.data.every((x, i) => i % 5 !== 3 || x < legend.length), tokens);
  const some = await connection.sendRequest(p.SemanticTokensRangeRequest.type, whole("journal.md"));
  check("semanticTokens/range", p.SemanticTokens.is(some), some);
  const laid = await connection.sendRequest(p.DocumentFormattingRequest.type, { textDocument: { uri: uri("journal.md") }, options: { tabSize: 4, insertSpaces: true } });
  check("formatting", every(laid, p.TextEdit.is), laid);
  const part = await connection.sendRequest(p.DocumentRangeFormattingRequest.type, { ...whole("journal.md"), options: { tabSize: 4, insertSpaces: true } });
  check("rangeFormatting", every(part, p.TextEdit.is), part);

  await change("2027-05-02-measured.md", "gap = ", "planking = ");
  await until("diagnostics with related places", () => (diagnostics.get(uri("2027-05-02-measured.md")) ?? []).some((d) => p.Diagnostic.is(d) && d.code === "twice" && p.Location.is(d.relatedInformation[0].location)));
  const at = place("2027-05-02-measured.md", "¦planking = ").position;
  const actions = await connection.sendRequest(p.CodeActionRequest.type, { textDocument: { uri: uri("2027-05-02-measured.md") }, range: { start: at, end: at }, context: { diagnostics: diagnostics.get(uri("2027-05-02-measured.md")) } });
  check("codeAction", every(actions, p.CodeAction.is) && actions.some((a) => a.title.includes("revise")), actions);
  await change("2027-05-02-measured.md", "planking = ", "gap = ");
  await until("diagnostics gone", () => !(diagnostics.get(uri("2027-05-02-measured.md")) ?? []).some((d) => d.code === "twice"));

  check("registration of watched files", registered.some((r) => r.method === "workspace/didChangeWatchedFiles"), registered);
  writeFileSync(join(folder, "journal.md"), texts["journal.md"].replace("planking = 7/16\"", "planking = 3/8\""));
  await connection.sendNotification(p.DidChangeWatchedFilesNotification.type, { changes: [{ uri: uri("journal.md"), type: p.FileChangeType.Changed }] });
  await until("an edit for what was written to the file", () => applied.length === 1 && p.WorkspaceEdit.is(applied[0]));

  const unknown = await connection.sendRequest("scarph/nothing").catch((e) => e);
  check("an unknown request", unknown.code === p.ErrorCodes.MethodNotFound, unknown);
  await connection.sendNotification(p.DidSaveTextDocumentNotification.type, { textDocument: { uri: uri("journal.md") } });
  await connection.sendNotification(p.DidCloseTextDocumentNotification.type, { textDocument: { uri: uri("journal.md") } });
  await connection.sendRequest(p.ShutdownRequest.type);
  const code = new Promise((resolve) => server.on("exit", resolve));
  await connection.sendNotification(p.ExitNotification.type);
  check("exit status", (await code) === 0);
  console.log(`${checks} checks, ${failures} failures`);
  process.exit(failures ? 1 : 0);
}

main().catch((e) => {
  console.log("FAIL", e);
  process.exit(1);
});
