import {
  autocompletion,
  type CompletionContext,
  type CompletionResult,
  completionKeymap,
} from "@codemirror/autocomplete";
import { defaultKeymap, indentWithTab } from "@codemirror/commands";
import { yaml } from "@codemirror/lang-yaml";
import { HighlightStyle, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { type Diagnostic, lintGutter, setDiagnostics } from "@codemirror/lint";
import { highlightSelectionMatches, search, searchKeymap } from "@codemirror/search";
import { Annotation, type ChangeSet, EditorState, type Extension, StateEffect, StateField } from "@codemirror/state";
import {
  Decoration,
  type DecorationSet,
  drawSelection,
  EditorView,
  highlightActiveLine,
  hoverTooltip,
  keymap,
  lineNumbers,
} from "@codemirror/view";
import { tags } from "@lezer/highlight";
import { type JsonSchema, jsonSchema, schemaKindOf } from "@tapeworthy/project";
import type { FileError } from "../engine/engine.ts";
import { difference } from "./difference.ts";
import { keysAt, meaningAt, valuesAt } from "./schema-at.ts";
import { yamlPlace } from "./yaml-place.ts";

/** What an editor of one file tells the page. */
export interface EditorEvents {
  /** The reader changed the text. */
  edited(changes: ChangeSet): void;
  /** The cursor came to stand in another line, by the reader's own hand. */
  moved(line: number, column: number): void;
  undo(): void;
  redo(): void;
}

/** A change that comes from the page: it is not told back to it. */
const fromPage = Annotation.define<true>();
const setPointed = StateEffect.define<{ from: number; to: number } | undefined>();
/** The stretch of text of the number that is chosen on the drawing. */
const pointed = StateField.define<DecorationSet>({
  create: () => Decoration.none,
  update(marks, tr) {
    let next = marks.map(tr.changes);
    for (const e of tr.effects)
      if (e.is(setPointed))
        next =
          e.value && e.value.to > e.value.from
            ? Decoration.set(pointedMark.range(e.value.from, e.value.to))
            : Decoration.none;
    return next;
  },
  provide: (field) => EditorView.decorations.from(field),
});
const pointedMark = Decoration.mark({ class: "cm-pointed" });

/**
 * The text of one file, with completion and meanings from our own schema and the same diagnostics as everywhere. It has no history of its own:
 * undo is the project's. It lives in a shadow root, where its rules are adopted and need no inline style.
 */
export class Editor {
  private readonly view: EditorView;

  constructor(parent: HTMLElement, file: string, text: string, events: EditorEvents) {
    const root = parent.shadowRoot ?? parent.attachShadow({ mode: "open" });
    root.replaceChildren();
    this.view = new EditorView({
      root,
      parent: root,
      state: EditorState.create({ doc: text, extensions: extensions(file, events) }),
    });
  }
  destroy(): void {
    this.view.destroy();
  }
  focus(): void {
    this.view.focus();
  }

  /** Shows a text that may differ in one stretch: the cursor stays where it was. */
  show(text: string): void {
    const now = this.view.state.doc.toString();
    if (now === text) return;
    const change = difference(now, text);
    this.view.dispatch({ changes: change, annotations: fromPage.of(true) });
  }
  /** Marks a stretch of the text and brings it into sight; nothing, where there is none. */
  point(
    at: { readonly line: number; readonly column: number; readonly length: number } | undefined,
    scroll: boolean,
  ): void {
    const { doc } = this.view.state;
    if (!at || at.line > doc.lines) {
      this.view.dispatch({ effects: setPointed.of(undefined) });
      return;
    }
    const line = doc.line(at.line);
    const from = Math.min(line.to, line.from + at.column - 1);
    const to = Math.min(line.to, from + at.length);
    this.view.dispatch({
      effects: [setPointed.of({ from, to }), ...(scroll ? [EditorView.scrollIntoView(from, { y: "center" })] : [])],
      ...(scroll ? { selection: { anchor: from, head: to } } : {}),
      annotations: fromPage.of(true),
    });
  }
  diagnose(errors: readonly FileError[]): void {
    const { doc } = this.view.state;
    const list = errors.flatMap(({ place, found, expected, hint }): Diagnostic[] => {
      if (place.line > doc.lines) return [];
      const line = doc.line(place.line);
      const from = Math.min(line.to, line.from + place.column - 1);
      const message = `Found ${found}, expected ${expected}.${hint === undefined ? "" : ` ${hint}`}`;
      return [{ from, to: Math.min(line.to, from + place.length), severity: "error", message }];
    });
    this.view.dispatch(setDiagnostics(this.view.state, list));
  }
}

function extensions(file: string, events: EditorEvents): Extension {
  const schema = jsonSchema(schemaKindOf(file));
  const act = (f: () => void) => () => {
    f();
    return true;
  };
  return [
    lineNumbers(),
    lintGutter(),
    drawSelection(),
    highlightActiveLine(),
    highlightSelectionMatches(),
    search({ top: true }),
    indentUnit.of("  "),
    yaml(),
    syntaxHighlighting(highlight),
    pointed,
    autocompletion({ override: [completionFrom(schema)], icons: false }),
    hoverTooltip((view, pos) => {
      const { text, from, to } = view.state.doc.lineAt(pos);
      const column = pos - from;
      // The place after the word under the pointer, so that the whole of a key is known.
      const after = from + column + (/^[^:,{}[\]]*/.exec(text.slice(column))?.[0].length ?? 0);
      const place = yamlPlace(view.state.doc.sliceString(0, to), Math.min(to, after));
      if (!place) return null;
      const path = place.writes === "key" ? [...place.path, place.begun.trim()] : place.path;
      const found = meaningAt(schema, path);
      if (!found) return null;
      return { pos, above: true, create: () => ({ dom: hoverOf(path, found) }) };
    }),
    keymap.of([
      { key: "Mod-z", run: act(() => events.undo()), preventDefault: true },
      { key: "Mod-y", mac: "Mod-Shift-z", run: act(() => events.redo()), preventDefault: true },
      { key: "Mod-Shift-z", run: act(() => events.redo()), preventDefault: true },
      ...completionKeymap,
      ...searchKeymap,
      ...defaultKeymap,
      indentWithTab,
    ]),
    EditorView.contentAttributes.of({ "aria-label": `Text of ${file}`, tabindex: "0" }),
    look,
    EditorView.updateListener.of((update) => {
      const own = update.transactions.filter((tr) => !tr.annotation(fromPage));
      if (own.some((tr) => tr.docChanged)) events.edited(update.changes);
      if (own.length > 0 && update.selectionSet && !update.docChanged) {
        const line = update.state.doc.lineAt(update.state.selection.main.head);
        events.moved(line.number, update.state.selection.main.head - line.from + 1);
      }
    }),
  ];
}

function completionFrom(schema: JsonSchema) {
  return (context: CompletionContext): CompletionResult | null => {
    const text = context.state.doc.sliceString(0, context.pos);
    const place = yamlPlace(text, context.pos);
    if (!place || (!context.explicit && place.begun === "" && place.writes === "key")) return null;
    const options = place.writes === "key" ? keysAt(schema, place.path) : valuesAt(schema, place.path);
    if (options.length === 0) return null;
    return {
      from: context.pos - place.begun.length,
      options: options.map(({ label, insert, means, example, required }) => ({
        label,
        apply: insert,
        detail: required ? "needed" : "",
        info: example === "" ? means : `${means}. For example ${example}`,
      })),
      validFor: /^[^:{}[\],#]*$/,
    };
  };
}
function hoverOf(
  path: readonly (string | number)[],
  { means, example }: { means: string; example: string },
): HTMLElement {
  const dom = document.createElement("div");
  dom.className = "cm-means";
  const name = document.createElement("b");
  name.textContent = path.filter((step) => typeof step === "string").join(".");
  const words = document.createElement("p");
  words.textContent = `${means}.`;
  dom.append(name, words);
  if (example !== "") {
    const shown = document.createElement("p");
    shown.textContent = `For example ${example}`;
    dom.append(shown);
  }
  return dom;
}

const highlight = HighlightStyle.define([
  { tag: tags.comment, color: "var(--ink3)" },
  { tag: [tags.definition(tags.propertyName), tags.propertyName], color: "var(--ink)", fontWeight: "600" },
  { tag: [tags.string, tags.content], color: "var(--ink2)" },
  { tag: [tags.number, tags.bool, tags.keyword], color: "var(--ink)" },
  { tag: [tags.separator, tags.punctuation, tags.squareBracket, tags.brace], color: "var(--ink3)" },
]);
const look = EditorView.theme({
  "&": { height: "100%", backgroundColor: "var(--paper)", color: "var(--ink)", fontSize: "var(--t1)" },
  "&.cm-focused": { outline: "none" },
  ".cm-scroller": {
    fontFamily: '"Noto Sans Mono","DejaVu Sans Mono",ui-monospace,monospace',
    lineHeight: "1.5",
    scrollbarWidth: "thin",
  },
  ".cm-content": { caretColor: "var(--hand)" },
  ".cm-cursor": { borderLeftColor: "var(--hand)", borderLeftWidth: "2px" },
  "&.cm-focused > .cm-scroller > .cm-selectionLayer .cm-selectionBackground, .cm-selectionBackground": {
    backgroundColor: "var(--handbg)",
  },
  ".cm-gutters": {
    backgroundColor: "var(--paper)",
    color: "var(--ink3)",
    border: "0",
    borderRight: "1px solid var(--hair)",
  },
  ".cm-activeLine": { backgroundColor: "transparent", boxShadow: "inset 2px 0 var(--hand)" },
  ".cm-activeLineGutter": { backgroundColor: "transparent", color: "var(--ink)" },
  ".cm-pointed": { backgroundColor: "var(--handbg)", outline: "1px solid var(--hand)" },
  ".cm-selectionMatch": { backgroundColor: "var(--askbg)" },
  ".cm-lintRange-error": {
    backgroundImage: "none",
    textDecoration: "underline wavy var(--fail) 1px",
    textUnderlineOffset: "3px",
  },
  ".cm-tooltip": {
    backgroundColor: "var(--raise)",
    color: "var(--ink)",
    border: "1px solid var(--ink2)",
    fontFamily: "var(--face)",
    fontSize: "var(--t1)",
    maxWidth: "26rem",
  },
  ".cm-tooltip.cm-tooltip-autocomplete > ul": { fontFamily: "var(--face)", maxHeight: "16em" },
  ".cm-tooltip.cm-tooltip-autocomplete > ul > li": { padding: "3px 8px", lineHeight: "1.4" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": { backgroundColor: "var(--hand)", color: "var(--onhand)" },
  ".cm-completionDetail": { color: "inherit", fontStyle: "normal" },
  ".cm-tooltip.cm-completionInfo": { padding: "6px 9px" },
  ".cm-means": { padding: "6px 9px" },
  ".cm-means p": { margin: "2px 0 0" },
  ".cm-diagnostic": { padding: "5px 9px", borderLeft: "4px solid var(--fail)" },
  ".cm-panels": { backgroundColor: "var(--well)", color: "var(--ink)", borderBottom: "1px solid var(--rule)" },
  ".cm-panel.cm-search": { padding: "6px 8px", fontFamily: "var(--face)" },
  ".cm-panel.cm-search [name=close]": { minWidth: "24px", minHeight: "24px", color: "var(--ink)" },
  ".cm-textfield": { backgroundColor: "var(--paper)", color: "var(--ink)", border: "1px solid var(--rule)" },
  ".cm-button": {
    backgroundImage: "none",
    backgroundColor: "var(--paper)",
    color: "var(--ink)",
    border: "1px solid var(--rule)",
  },
});
