// A language client of the usual kind: asks a server every request it knows, through
// the published protocol package, and checks the form of each answer.
//
//   node client.cjs ENCODING FOLDER COMMAND [ARGUMENT …]
"use strict";
const { spawn } = require("node:child_process");
const { readFileSync, writeFileSync } = require("node:fs");
const { join } = require("node:path");
const { pathToFileURL } = require("node:url");
const p = require("vscode-languageserver-protocol/node");

const [encoding, folder, command, ...args] = process.argv.slice(2);
const server = spawn(command, args, { stdio: ["pipe", "pipe", "inherit"] });
const plain = p.createProtocolConnection(new p.StreamMessageReader(server.stdout), new p.StreamMessageWriter(server.stdin));


// what has been said to the server
const said = new Set();
const connection = {
  listen: () => plain.listen(),
  onRequest: (type, f) => plain.onRequest(type, f),
  onNotification: (type, f) => plain.onNotification(type, f),
  sendRequest: (type, ...rest) => (said.add(type.method ?? type), plain.sendRequest(type, ...rest)),
  sendNotification: (type, ...rest) => (said.add(type.method ?? type), plain.sendNotification(type, ...rest)),
};

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
// units counts a piece of a line in the encoding that was agreed on
const units = (text) => (encoding === "utf-8" ? Buffer.byteLength(text) : text.length);
function place(name, piece) {
  const i = texts[name].indexOf(piece.replace("¦", "")) + piece.indexOf("¦");
  const before = texts[name].slice(0, i);
  return { textDocument: { uri: uri(name) }, position: { line: before.split("\n").length - 1, character: units(before.slice(before.lastIndexOf("\n") + 1)) } };
}
function offset(text, at) {
  const lines = text.split("\n");
  const line = lines[at.line] ?? "";
  let n = 0;
  while (n < line.length && units(line.slice(0, n)) < at.character) n++;
  return lines.slice(0, at.line).join("\n").length + (at.line ? 1 : 0) + n;
}
// applied is a text with edits made in it
function applied(text, edits) {
  const sorted = [...edits].sort((a, b) => offset(text, b.range.start) - offset(text, a.range.start));
  return sorted.reduce((t, e) => t.slice(0, offset(text, e.range.start)) + e.newText + t.slice(offset(text, e.range.end)), text);
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
let refreshed = 0;
connection.onRequest(p.InlayHintRefreshRequest.type, () => {
  refreshed++;
  heard();
});
const written = [];
connection.onRequest(p.ApplyWorkspaceEditRequest.type, (r) => {
  written.push(r.edit);
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

// take puts the edits of an answer into the texts, as an editor does, and says so
async function take(edit) {
  for (const d of edit.documentChanges) {
    const name = d.textDocument.uri.slice(d.textDocument.uri.lastIndexOf("/") + 1);
    texts[name] = applied(texts[name], d.edits);
    await connection.sendNotification(p.DidChangeTextDocumentNotification.type, { textDocument: { uri: d.textDocument.uri, version: ++version }, contentChanges: [{ text: texts[name] }] });
  }
}
const problems = (name, code) => (diagnostics.get(uri(name)) ?? []).filter((d) => d.code === code);
async function fix(name, piece, title) {
  const at = place(name, piece).position;
  const context = { diagnostics: diagnostics.get(uri(name)) ?? [] };
  const actions = await connection.sendRequest(p.CodeActionRequest.type, { textDocument: { uri: uri(name) }, range: { start: at, end: at }, context });
  const action = (actions ?? []).find((a) => p.CodeAction.is(a) && a.title.startsWith(title));
  check(`code action: ${title}`, action, actions);
  if (action) await take(action.edit);
}
async function hovered(name, piece) {
  return (await connection.sendRequest(p.HoverRequest.type, place(name, piece)))?.contents.value ?? "";
}
async function hinted(name) {
  return (await connection.sendRequest(p.InlayHintRequest.type, whole(name))).map((h) => h.label).join("\n");
}
async function proposed(name, piece) {
  return (await connection.sendRequest(p.CompletionRequest.type, place(name, piece))).items.map((x) => x.label);
}

async function main() {
  connection.listen();
  const init = await connection.sendRequest(p.InitializeRequest.type, {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    workspaceFolders: null,
    capabilities: {
      general: { positionEncodings: encoding === "utf-8" ? ["utf-8", "utf-16"] : ["utf-16"] },
      workspace: { applyEdit: true, workspaceEdit: { documentChanges: true }, inlayHint: { refreshSupport: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
      textDocument: { hover: { contentFormat: ["markdown"] }, documentSymbol: { hierarchicalDocumentSymbolSupport: true }, completion: { completionItem: { snippetSupport: true } } },
    },
  });
  check("initialize", init.capabilities.positionEncoding === encoding && init.serverInfo.name === "scarph", init);
  await connection.sendNotification(p.InitializedNotification.type, {});
  await open("journal.md");
  await open("2027-05-02-measured.md");

  const hover = await connection.sendRequest(p.HoverRequest.type, place("journal.md", "in¦side = beam"));
  check("hover", p.Hover.is(hover) && hover.contents.value.includes("beam - 2 * planking"), hover);
  const hints = await connection.sendRequest(p.InlayHintRequest.type, whole("journal.md"));
  check("inlayHint", every(hints, p.InlayHint.is), hints);
  for (const [piece, ...has] of [
    ["drawn be¦am", "4' 1 3/4\" ± 1/16\"", "- drawn 4' 1 1/2\"", "three readings"],
    ["in¦side = beam", "= 4' 1 3/4\" ± 1/16\" - 2 * 7/16\"", "± comes from"],
    ["scarf_l¦ength(", "Source: ", "Caution"],
  ]) {
    const text = await hovered("journal.md", piece);
    check(`hover of ${piece}`, has.every((h) => text.includes(h)), text);
  }
  const labels = await hinted("journal.md");
  check("live values", labels.includes("4' 0 7/8\" ± 1/16\"") && labels.includes("✓ holds"), labels);
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


  const row = await connection.sendRequest(p.RenameRequest.type, { ...place("journal.md", "offsets.sheer_h¦alf.st_2"), newName: "rail_half" });
  check("rename of a table's row", row.documentChanges.some((d) => d.edits.some((e) => e.newText === "rail half")), row);

  const day = "2027-05-02-measured.md";
  // a place behind a sign that is two units, or four, wide
  await change(day, "gap = ", 'wide = "𝛼" == "°" ? 1 in : beem\ngap = ');
  await until("a name that nothing bears", () => problems(day, "unknown-name").length === 1);
  const { range } = problems(day, "unknown-name")[0] ?? { range: whole(day).range };
  const pointed = texts[day].slice(offset(texts[day], range.start), offset(texts[day], range.end));
  check("the diagnostic stands at the name", pointed === "beem", pointed);
  await change(day, 'wide = "𝛼" == "°" ? 1 in : beem\n', "");
  await until("it is gone", () => problems(day, "unknown-name").length === 0);

  await change(day, "gap = ", "planking = ");
  await until("diagnostics with related places", () => problems(day, "twice").some((d) => p.Diagnostic.is(d) && p.Location.is(d.relatedInformation[0].location)));
  await fix(day, "¦planking = ", "Write revise planking");
  check("a second naming became a revision", texts[day].includes("\nrevise planking = offsets"), texts[day]);
  await until("nothing is named twice", () => problems(day, "twice").length === 0);
  await change(day, "revise planking = ", "gap = ");

  await change(day, "gap = ", "room = beam + 19\ngap = ");
  await until("a number without a unit", () => problems(day, "bare-number").length > 0);
  await fix(day, "beam + 1¦9", "Write 19 in");
  await until("it has one", () => texts[day].includes("beam + 19 in") && problems(day, "bare-number").length === 0);
  await change(day, "room = beam", "room = beem");
  await until("a name that nothing bears, with a hint", () => problems(day, "unknown-name").some((d) => d.message.includes("beam")));
  await fix(day, "be¦em", "Write beam");
  await until("it is known", () => problems(day, "unknown-name").length === 0);
  await change(day, "She is {beam}", "The planks are 7/16\" thick. She is {beam}");
  await fix(day, "are 7/¦16", "Write {planking}");
  check("a figure became a slot", texts[day].includes("planks are {planking} thick"), texts[day]);

  for (const [typed, want] of [["room2 = 3 m", "mm"], ["room2 = offsets.sh", "sheer_half"], ["room2 = offsets.sheer_half.st_", "st_1"], ["room2 = scarf_l", "scarf_length"], ["rev", "revise"]]) {
    await change(day, "gap = ", `${typed}\ngap = `);
    const list = await proposed(day, `${typed}¦`);
    check(`completion of ${typed}`, list.includes(want), list);
    await change(day, `${typed}\ngap = `, "gap = ");
  }

  const was = refreshed;
  await change(day, "4' 1 3/4\"", "4' 1 7/8\"");
  const others = await hinted("journal.md");
  check("a change in one file reaches the other, unsaved", others.includes("4' 1\" ± 1/16\""), others);
  await until("hints are asked for again", () => refreshed > was);

  await change(day, "room = beam + 19 in", "room=beam  +19 in");
  const value = await hovered(day, "ro¦om=");
  const tidy = await connection.sendRequest(p.DocumentFormattingRequest.type, { textDocument: { uri: uri(day) }, options: { tabSize: 4, insertSpaces: true } });
  await take({ documentChanges: [{ textDocument: { uri: uri(day) }, edits: tidy }] });
  check("laid out", texts[day].includes("\nroom = beam + 19 in"), texts[day]);
  check("laying out changes no value", value.startsWith("**room** · derived · 5' 8 7/8") && (await hovered(day, "ro¦om =")).split("\n")[0] === value.split("\n")[0], value);

  check("registration of watched files", registered.some((r) => r.method === "workspace/didChangeWatchedFiles"), registered);
  writeFileSync(join(folder, "journal.md"), texts["journal.md"].replace("planking = 7/16\"", "planking = 3/8\""));
  await connection.sendNotification(p.DidChangeWatchedFilesNotification.type, { changes: [{ uri: uri("journal.md"), type: p.FileChangeType.Changed }] });
  await until("an edit for what was written to the file", () => written.length === 1 && p.WorkspaceEdit.is(written[0]));

  const unknown = await connection.sendRequest("scarph/nothing").catch((e) => e);
  check("an unknown request", unknown.code === p.ErrorCodes.MethodNotFound, unknown);
  await connection.sendNotification(p.DidSaveTextDocumentNotification.type, { textDocument: { uri: uri("journal.md") } });
  await connection.sendNotification(p.DidCloseTextDocumentNotification.type, { textDocument: { uri: uri("journal.md") } });
  await connection.sendRequest(p.ShutdownRequest.type);
  const code = new Promise((resolve) => server.on("exit", resolve));
  await connection.sendNotification(p.ExitNotification.type);
  check("exit status", (await code) === 0);
  console.log(`said ${[...said].join(" ")}`);
  console.log(`${checks} checks, ${failures} failures`);
  process.exit(failures ? 1 : 0);
}

main().catch((e) => {
  console.log("FAIL", e);
  process.exit(1);
});
