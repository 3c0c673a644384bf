// The language server before a client that speaks the protocol with the code of vscode-languageserver-protocol: every capability is asked
// for, a mistake is typed, found and repaired, a title renamed over three files, a faulty message survived.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import * as lsp from "vscode-languageserver-protocol/node.js";

const program = process.env.POTASH;
const folder = mkdtempSync(join(tmpdir(), "potash-editor-"));
const uri = (name) => pathToFileURL(join(folder, name)).href;

const developer = `formula "Tern"
    kind developer
    for film
    water 750 mL at 50 °C
    metol 3 g
    sodium sulfite (anhydrous) 100 g
    sodium carbonate (anhydrous) 30 g
    water to make 1 L
    use for film
        dilute 1+9
        time 9 min
`;
const files = {
    "tern.bath": developer,
    "cold.bath": 'read "tern.bath"\nvariant "Tern, cold"\n    of "Tern"\n    change metol to 2.5 g\n',
    "diary.bath": 'read "tern.bath"\nbatch "T-1" of "Tern"\n    mixed 2026-03-04\n    made 1 L\n',
};
for (const [name, text] of Object.entries(files)) {
    writeFileSync(join(folder, name), text);
}

/** A text as the client has it, with the place of some words in it. */
function position(text, words, behind = 0) {
    const at = text.indexOf(words) + behind;
    assert.ok(text.includes(words), words);
    const before = text.slice(0, at).split("\n");
    return { line: before.length - 1, character: before.at(-1).length };
}

function apply(text, edits) {
    const offset = ({ line, character }) => text.split("\n").slice(0, line).reduce((sum, row) => sum + row.length + 1, 0) + character;
    return [...edits].sort((a, b) => offset(b.range.start) - offset(a.range.start))
        .reduce((all, edit) => all.slice(0, offset(edit.range.start)) + edit.newText + all.slice(offset(edit.range.end)), text);
}

class Client {
    constructor(encodings) {
        this.server = spawn(program, ["editor"], { stdio: ["pipe", "pipe", "inherit"] });
        this.connection = lsp.createProtocolConnection(new lsp.StreamMessageReader(this.server.stdout), new lsp.StreamMessageWriter(this.server.stdin));
        this.published = new Map();
        this.waiting = [];
        this.logged = [];
        this.registered = [];
        this.connection.onNotification(lsp.PublishDiagnosticsNotification.type, (told) => {
            this.published.set(told.uri, told);
            this.waiting = this.waiting.filter((waiter) => !waiter(told));
        });
        this.connection.onNotification(lsp.LogMessageNotification.type, (told) => this.logged.push(told.message));
        this.connection.onRequest(lsp.RegistrationRequest.type, ({ registrations }) => { this.registered.push(...registrations); });
        this.connection.listen();
        this.encodings = encodings;
    }
    async start() {
        const { capabilities } = await this.connection.sendRequest(lsp.InitializeRequest.type, {
            processId: process.pid, rootUri: null, workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "club" }],
            capabilities: {
                general: { positionEncodings: this.encodings },
                workspace: { workspaceEdit: { documentChanges: true }, didChangeWatchedFiles: { dynamicRegistration: true } },
                textDocument: { publishDiagnostics: { relatedInformation: true } },
            },
        });
        await this.connection.sendNotification(lsp.InitializedNotification.type, {});
        return capabilities;
    }
    /** The next diagnostics of a document. */
    told(name) {
        return new Promise((resolve, reject) => {
            const late = setTimeout(() => reject(new Error(`nothing was said of ${name}`)), 20000);
            this.waiting.push((told) => told.uri === uri(name) && (clearTimeout(late), resolve(told.diagnostics), true));
        });
    }
    async open(name, text = files[name]) {
        const told = this.told(name);
        await this.connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: { uri: uri(name), languageId: "bath", version: 1, text } });
        return told;
    }
    async change(name, version, contentChanges) {
        const told = this.told(name);
        await this.connection.sendNotification(lsp.DidChangeTextDocumentNotification.type, { textDocument: { uri: uri(name), version }, contentChanges });
        return told;
    }
    ask(type, parameters) {
        return this.connection.sendRequest(type, parameters);
    }
    async stop() {
        const gone = new Promise((resolve) => this.server.on("exit", resolve));
        await this.ask(lsp.ShutdownRequest.type);
        await this.connection.sendNotification(lsp.ExitNotification.type);
        return gone;
    }
}

let passed = 0;
async function test(name, body) {
    await body().catch((error) => { console.error(`${name}: ${error.stack}`); process.exit(1); });
    passed++;
}

await test("a ratio with a colon is found, repaired and laid out", async () => {
    const client = new Client(["utf-16"]);
    const capabilities = await client.start();
    assert.equal(capabilities.positionEncoding, "utf-16");
    assert.deepEqual(await client.open("tern.bath"), []);
    assert.equal(client.registered[0]?.method, "workspace/didChangeWatchedFiles");
    let text = developer;
    const plus = position(text, "1+9", 1);
    const typed = { range: { start: plus, end: { ...plus, character: plus.character + 1 } }, text: ":2" };
    const [mistake, ...others] = await client.change("tern.bath", 2, [typed]);
    text = text.replace("1+9", "1:29");
    assert.deepEqual(others, []);
    assert.equal(mistake.code, "ratio-with-colon");
    assert.equal(mistake.severity, lsp.DiagnosticSeverity.Error);
    assert.deepEqual(mistake.range.start, position(text, "1:29"));
    const textDocument = { uri: uri("tern.bath") };
    const actions = await client.ask(lsp.CodeActionRequest.type, { textDocument, range: mistake.range, context: { diagnostics: [mistake], only: ["quickfix"] } });
    assert.equal(actions.length, 2);
    assert.ok(actions.every((action) => action.kind === "quickfix" && action.diagnostics[0].code === "ratio-with-colon"));
    const [{ textDocument: edited, edits }] = actions[0].edit.documentChanges;
    assert.deepEqual(edited, { uri: uri("tern.bath"), version: 2 });
    text = apply(text, edits);
    assert.equal(text, developer.replace("1+9", "1+29"));
    assert.ok((await client.change("tern.bath", 3, [{ text }])).every((said) => said.severity === lsp.DiagnosticSeverity.Warning));
    // Layout of the whole, and of one line.
    const options = { tabSize: 4, insertSpaces: true };
    const line = position(text, "metol").line;
    const one = await client.ask(lsp.DocumentRangeFormattingRequest.type,
        { textDocument, options, range: { start: { line, character: 0 }, end: { line: line + 1, character: 0 } } });
    assert.ok(one.length > 0 && one.every((edit) => edit.range.end.line === line));
    const tidied = apply(text, await client.ask(lsp.DocumentFormattingRequest.type, { textDocument, options }));
    writeFileSync(join(folder, "check.bath"), text);
    const tidy = await new Promise((resolve) => {
        const run = spawn(program, ["tidy", join(folder, "check.bath")]);
        let out = "";
        run.stdout.on("data", (piece) => { out += piece; }).on("end", () => resolve(out));
    });
    rmSync(join(folder, "check.bath"));
    assert.equal(tidied, tidy);
    assert.equal(await client.stop(), 0);
});

await test("every capability is answered", async () => {
    const client = new Client(undefined);
    const capabilities = await client.start();
    assert.equal(capabilities.positionEncoding, "utf-16");
    await client.open("tern.bath");
    await client.open("cold.bath");
    const textDocument = { uri: uri("tern.bath") };
    const at = (words, behind) => ({ textDocument, position: position(developer, words, behind) });
    const hover = await client.ask(lsp.HoverRequest.type, at("metol"));
    assert.equal(hover.contents.kind, "markdown");
    assert.match(hover.contents.value, /metol/);
    const completion = await client.ask(lsp.CompletionRequest.type, at("sodium sulfite (", "sodium sulfite (".length));
    assert.ok(completion.items.some((item) => item.label === "heptahydrate" && item.textEdit.range));
    assert.deepEqual((await client.ask(lsp.DefinitionRequest.type, { textDocument: { uri: uri("cold.bath") }, position: { line: 2, character: 8 } }))
        .map((place) => [place.uri, place.range.start.line]), [[uri("tern.bath"), 0]]);
    const references = await client.ask(lsp.ReferencesRequest.type, { ...at("Tern"), context: { includeDeclaration: false } });
    assert.deepEqual(references.map((place) => place.uri), [uri("cold.bath"), uri("diary.bath")]);
    assert.equal((await client.ask(lsp.DocumentHighlightRequest.type, at("metol"))).length, 1);
    const [symbol] = await client.ask(lsp.DocumentSymbolRequest.type, { textDocument });
    assert.equal(symbol.name, "Tern");
    assert.equal(symbol.children[0].name, "film");
    assert.ok((await client.ask(lsp.WorkspaceSymbolRequest.type, { query: "t-1" })).some((found) => found.location.uri === uri("diary.bath")));
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const all = await client.ask(lsp.CodeActionRequest.type, { textDocument, range: { start: position(developer, "sodium carb"), end: position(developer, "sodium carb") }, context: { diagnostics: [] } });
    for (const title of ["write the weight as decahydrate: 80.99 g", "double the formula", "make a variant"]) {
        assert.ok(all.some((action) => action.title === title), title);
    }
    assert.ok(all.some((action) => action.title.startsWith("record a batch mixed on 2")));
    assert.ok((await client.ask(lsp.FoldingRangeRequest.type, { textDocument })).length >= 2);
    assert.deepEqual(await client.ask(lsp.InlayHintRequest.type, { textDocument, range: whole }), []); /* a litre: its grams are those in a litre */
    const { data } = await client.ask(lsp.SemanticTokensRequest.type, { textDocument });
    const { tokenTypes } = capabilities.semanticTokensProvider.legend;
    assert.deepEqual(data.slice(0, 10), [0, 0, 7, tokenTypes.indexOf("keyword"), 0, 0, 8, 6, tokenTypes.indexOf("class"), 1]);
    assert.equal((await client.ask(lsp.PrepareRenameRequest.type, at("Tern"))).placeholder, "Tern");
    // What is said of one text changes with another that it reads.
    const told = client.told("cold.bath");
    await client.connection.sendNotification(lsp.DidChangeTextDocumentNotification.type,
        { textDocument: { uri: uri("tern.bath"), version: 2 }, contentChanges: [{ range: { start: { line: 0, character: 9 }, end: { line: 0, character: 13 } }, text: "Gull" }] });
    assert.equal((await told)[0].code, "formula-unknown");
    assert.equal(await client.stop(), 0);
});

await test("a title is renamed over three files", async () => {
    const client = new Client(["utf-8", "utf-16"]);
    assert.equal((await client.start()).positionEncoding, "utf-8");
    await client.open("cold.bath");
    const edit = await client.ask(lsp.RenameRequest.type, { textDocument: { uri: uri("cold.bath") }, position: { line: 2, character: 9 }, newName: "Little tern" });
    const changed = Object.fromEntries(edit.documentChanges.map(({ textDocument, edits }) => [textDocument.uri, edits]));
    assert.deepEqual(Object.keys(changed).sort(), ["cold.bath", "diary.bath", "tern.bath"].map(uri));
    assert.equal(edit.documentChanges.find(({ textDocument }) => textDocument.uri === uri("tern.bath")).textDocument.version, null);
    for (const name of Object.keys(files)) {
        writeFileSync(join(folder, name), apply(files[name], changed[uri(name)]));
    }
    const told = client.told("cold.bath");
    await client.connection.sendNotification(lsp.DidChangeTextDocumentNotification.type,
        { textDocument: { uri: uri("cold.bath"), version: 2 }, contentChanges: [{ text: readFileSync(join(folder, "cold.bath"), "utf8") }] });
    await client.connection.sendNotification(lsp.DidChangeWatchedFilesNotification.type, { changes: [{ uri: uri("tern.bath"), type: lsp.FileChangeType.Changed }] });
    assert.deepEqual(await told, []);
    await assert.rejects(client.ask(lsp.RenameRequest.type, { textDocument: { uri: uri("cold.bath") }, position: { line: 2, character: 9 }, newName: 'a "b"' }), /without quotes/);
    assert.equal(await client.stop(), 0);
    for (const [name, text] of Object.entries(files)) {
        writeFileSync(join(folder, name), text);
    }
});

await test("columns count bytes or units of UTF-16, as was agreed", async () => {
    const line = 'formula "°𝛼"\n    note "°𝛼" gr\n';
    for (const [encoding, column] of [["utf-16", 15], ["utf-8", 18]]) { /* ° is 1 unit or 2 bytes, 𝛼 2 units or 4 bytes */
        const client = new Client([encoding]);
        await client.start();
        const [mistake] = await client.open("signs.bath", line);
        assert.deepEqual(mistake.range.start, { line: 1, character: column });
        await client.stop();
    }
});

await test("what is cancelled, unknown or no message is answered, and the server goes on", async () => {
    const client = new Client(undefined);
    await assert.rejects(client.ask(lsp.HoverRequest.type, {}), { code: lsp.ErrorCodes.ServerNotInitialized });
    await client.start();
    await client.open("tern.bath");
    await assert.rejects(client.ask("textDocument/none", {}), { code: lsp.ErrorCodes.MethodNotFound });
    await assert.rejects(client.ask(lsp.HoverRequest.type, { textDocument: { uri: uri("tern.bath") } }), { code: lsp.ErrorCodes.InvalidParams });
    const source = new lsp.CancellationTokenSource();
    const asked = client.connection.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: "" }, source.token);
    source.cancel();
    await asked.catch((error) => assert.equal(error.code, lsp.LSPErrorCodes.RequestCancelled));
    client.server.stdin.write("Content-Length: 9\r\n\r\nno JSON {");
    client.server.stdin.write("Content-Type: nothing\r\n\r\n");
    assert.ok(await client.ask(lsp.HoverRequest.type, { textDocument: { uri: uri("tern.bath") }, position: position(developer, "metol") }));
    assert.equal(await client.stop(), 0);
});

rmSync(folder, { recursive: true });
console.log(`[  PASSED  ] ${passed} test(s).`);
