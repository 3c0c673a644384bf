// The TextMate grammar on every sample: what it takes for comments, texts and keywords is what the language server's lexer takes for them.
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import * as lsp from "vscode-languageserver-protocol/node.js";
import oniguruma from "vscode-oniguruma";
import textmate from "vscode-textmate";

const require = createRequire(import.meta.url);
const wasm = readFileSync(require.resolve("vscode-oniguruma/release/onig.wasm"));
await oniguruma.loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
const path = "docs/editors/vscode/syntaxes/bath.tmLanguage.json";
const registry = new textmate.Registry({
    onigLib: Promise.resolve({ createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns), createOnigString: (text) => new oniguruma.OnigString(text) }),
    loadGrammar: async () => textmate.parseRawGrammar(readFileSync(path, "utf8"), path),
});
const grammar = await registry.loadGrammar("source.bath");

const server = spawn(process.env.POTASH, ["editor"], { stdio: ["pipe", "pipe", "inherit"] });
const connection = lsp.createProtocolConnection(new lsp.StreamMessageReader(server.stdout), new lsp.StreamMessageWriter(server.stdin));
connection.listen();
const { capabilities } = await connection.sendRequest(lsp.InitializeRequest.type, { processId: process.pid, rootUri: null, capabilities: {} });
const types = capabilities.semanticTokensProvider.legend.tokenTypes;

/** What each kind of token must be in the grammar: a scope that begins so; and those that no other kind may have. */
const scopes = { keyword: "keyword.", string: "string.", class: "string.", comment: "comment.", number: "constant.numeric" };

let compared = 0;
const wrong = [];
for (const name of readdirSync("samples").filter((file) => file.endsWith(".bath"))) {
    const text = readFileSync(`samples/${name}`, "utf8");
    const uri = `file:///samples/${name}`;
    await connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, { textDocument: { uri, languageId: "bath", version: 1, text } });
    const { data } = await connection.sendRequest(lsp.SemanticTokensRequest.type, { textDocument: { uri } });
    const rows = text.split(/\r?\n/);
    let state = textmate.INITIAL;
    const coloured = rows.map((row) => {
        const line = grammar.tokenizeLine(row, state);
        state = line.ruleStack;
        return line.tokens;
    });
    let line = 0;
    let column = 0;
    for (let i = 0; i < data.length; i += 5) {
        column = data[i] > 0 ? data[i + 1] : column + data[i + 1];
        line += data[i];
        const type = types[data[i + 3]];
        const token = coloured[line].find((found) => found.startIndex <= column && column < found.endIndex);
        const wanted = scopes[type];
        const got = token.scopes.at(-1);
        compared++;
        if (wanted ? !got.startsWith(wanted) && !got.startsWith("invalid.illegal.ratio") : /^(comment|string)\./.test(got)) {
            wrong.push(`${name}:${line + 1}:${column + 1}: ${type} "${rows[line].slice(column, column + data[i + 2])}" is ${got}`);
        }
    }
}
await connection.sendRequest(lsp.ShutdownRequest.type);
await connection.sendNotification(lsp.ExitNotification.type);
assert.equal(wrong.length, 0, wrong.join("\n"));
assert.ok(compared > 2000);
console.log("[  PASSED  ] 1 test(s).");
