/* The text of a formula: CodeMirror in the house's own look, with the program's diagnostics under the words that they are about. */
import { autocompletion, completionKeymap } from '@codemirror/autocomplete';
import { defaultKeymap, history, historyKeymap, insertNewlineKeepIndent } from '@codemirror/commands';
import { HighlightStyle, StreamLanguage, syntaxHighlighting } from '@codemirror/language';
import { lintKeymap, nextDiagnostic, setDiagnostics } from '@codemirror/lint';
import { EditorState } from '@codemirror/state';
import { drawSelection, EditorView, keymap } from '@codemirror/view';
import { tags } from '@lezer/highlight';

/* What can be told without the grammar, so that nothing here has to follow it: a line that starts at the margin opens a declaration. */
const notation = StreamLanguage.define({
  token(stream) {
    if (stream.sol() && stream.match(/[a-z]\S*/i)) return 'heading';
    if (stream.eatSpace()) return null;
    if (stream.match(/#.*/)) return 'comment';
    if (stream.match(/"[^"]*"?/)) return 'string';
    if (stream.match(/[\d½¼¾⅓⅔⅛][\d.,/½¼¾⅓⅔⅛]*(\+\d+)?/)) return 'number';
    stream.match(/[\p{L}\d-]+/u) || stream.next();
    return null;
  },
  tokenTable: {},
});

const look = HighlightStyle.define([
  { tag: tags.heading, color: 'var(--mark)', fontWeight: '650' },
  { tag: tags.comment, color: 'var(--faint)', fontStyle: 'italic' },
  { tag: tags.string, color: 'var(--ink)', fontStyle: 'italic' },
  { tag: tags.number, color: 'var(--ink)', fontWeight: '650' },
]);

const theme = EditorView.theme({
  '&': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', fontSize: '1.0625rem' },
  '&.cm-focused': { outline: 'none' },
  '&.cm-focused .cm-content': { boxShadow: 'inset 3px 0 0 var(--mark)' },
  '.cm-scroller': { fontFamily: 'ui-monospace, "DejaVu Sans Mono", monospace', lineHeight: '1.65' },
  '.cm-content': { padding: '1rem 0', caretColor: 'var(--ink)' },
  '.cm-line': { padding: '0 1.25rem' },
  '.cm-cursor': { borderLeftColor: 'var(--ink)', borderLeftWidth: '2px' },
  '.cm-selectionBackground, &.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground': { backgroundColor: 'var(--wash)' },
  '.cm-lintRange': { backgroundImage: 'none', paddingBottom: '1px' },
  '.cm-lintRange-error': { textDecoration: 'underline wavy var(--strong) 2px', textUnderlineOffset: '4px', textDecorationSkipInk: 'none' },
  '.cm-lintRange-warning': { textDecoration: 'underline dotted var(--doubt) 3px', textUnderlineOffset: '4px', textDecorationSkipInk: 'none' },
  '.cm-lintRange-active': { backgroundColor: 'var(--wash)' },
  '.cm-lintPoint:after': { borderBottomColor: 'var(--strong)' },
  '.cm-tooltip': { backgroundColor: 'var(--sheet)', color: 'var(--ink)', border: '1px solid var(--line)', borderRadius: '0.4rem', maxWidth: 'min(30rem, 90vw)', boxShadow: '0 4px 16px rgb(0 0 0 / 0.18)', fontFamily: 'system-ui, sans-serif', fontSize: '1rem' },
  '.cm-diagnostic': { padding: '0.6rem 0.9rem', borderLeft: '0.35rem solid var(--strong)' },
  '.cm-diagnostic-warning': { borderLeftColor: 'var(--doubt)' },
  '.cm-diagnosticAction': { font: 'inherit', color: 'var(--ink)', backgroundColor: 'transparent', border: '1px solid var(--mark)', borderRadius: '0.4rem', padding: '0.2rem 0.7rem', minHeight: '2.5rem', margin: '0.4rem 0.4rem 0 0' },
  '.cm-tooltip-autocomplete ul': { fontFamily: 'system-ui, sans-serif' },
  '.cm-tooltip-autocomplete ul li[aria-selected]': { backgroundColor: 'var(--mark)', color: 'var(--sheet)' },
  '.cm-tooltip.cm-tooltip-autocomplete > ul > li': { padding: '0.35rem 0.8rem' },
  '.cm-completionMatchedText': { textDecoration: 'none', fontWeight: '650' },
});

/* Columns count characters, from 1; offsets count what JavaScript's strings are made of. */
function offsetOf(text, line, column) {
  if (line > text.lines) return text.length;
  const { from, text: words } = text.line(line);
  return from + [...words].slice(0, column - 1).join('').length;
}

/* A repair of the program as a change of the text. */
export function changesOf(state, fix) {
  return (fix.edits ?? [fix]).map((edit) => ({
    from: offsetOf(state.doc, edit.line, edit.column),
    to: offsetOf(state.doc, edit.line, edit.end_column),
    insert: edit.text,
  }));
}

/* `changed` is called after every change; `names` gives the names of materials once they are asked for. */
export function makeEditor(parent, nonce, changed, names) {
  const complete = (context) => {
    const typed = context.matchBefore(/(?<=^\s+)[\p{L}][\p{L}\d -]*/u);
    if (typed === null || (typed.to - typed.from < 2 && !context.explicit)) return null;
    return { from: typed.from, options: names().map((label) => ({ label })), validFor: /^[\p{L}\d -]*$/u };
  };
  const extensions = [
    history(),
    drawSelection(),
    notation,
    syntaxHighlighting(look),
    theme,
    EditorView.cspNonce.of(nonce),
    EditorView.lineWrapping,
    EditorView.contentAttributes.of({ 'aria-label': 'Text of the formula', spellcheck: 'false', autocapitalize: 'off', autocorrect: 'off' }),
    autocompletion({ override: [complete], icons: false, defaultKeymap: true }),
    keymap.of([{ key: 'F8', run: nextDiagnostic }, { key: 'Enter', run: insertNewlineKeepIndent }, ...completionKeymap, ...lintKeymap, ...historyKeymap, ...defaultKeymap]),
    EditorView.updateListener.of((update) => update.docChanged && changed()),
  ];
  const view = new EditorView({ parent, state: EditorState.create({ doc: '', extensions }) });
  const repair = (fix) => {
    view.dispatch({ changes: changesOf(view.state, fix), userEvent: 'input.repair', scrollIntoView: true });
  };
  return {
    view,
    get text() {
      return view.state.doc.toString();
    },
    open(text) {
      view.setState(EditorState.create({ doc: text, extensions }));
    },
    repair,
    goTo(found) {
      const anchor = offsetOf(view.state.doc, found.line, found.column);
      const head = offsetOf(view.state.doc, found.end_line, found.end_column);
      view.dispatch({ selection: { anchor, head }, effects: EditorView.scrollIntoView(anchor, { y: 'center' }) });
      view.focus();
    },
    mark(diagnostics) {
      const marks = diagnostics.map((found) => {
        const from = offsetOf(view.state.doc, found.line, found.column);
        const to = Math.max(from, offsetOf(view.state.doc, found.end_line, found.end_column));
        return {
          from,
          to,
          severity: found.severity,
          message: found.help === null ? found.message : `${found.message}\n${found.help}`,
          actions: found.fixes.slice(0, 4).map((fix) => ({ name: fix.title, apply: () => repair(fix) })),
        };
      });
      view.dispatch(setDiagnostics(view.state, marks));
    },
    };
}
