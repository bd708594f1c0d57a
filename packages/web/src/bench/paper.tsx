import { theme } from "@tapeworthy/drawing";
import { cardStyle } from "@tapeworthy/report";
import { useLayoutEffect, useRef } from "react";

/** Rules of the card's paper: its own, and those of its drawings; nothing of them reaches the page, and nothing of the page's reaches in. */
let rules: CSSStyleSheet | undefined;
function paperRules(): CSSStyleSheet {
  if (rules) return rules;
  rules = new CSSStyleSheet();
  rules.replaceSync(
    `${theme()}\n${cardStyle.replace(/@page\{[^}]*\}/, "").replace(/\bbody\{/, ":host{display:block;")}
:host{background:none}.page{background:var(--paper)}`,
  );
  return rules;
}
/** A card as a page of paper: white in the dark too. */
export function Paper({ html }: { readonly html: string }) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const root = host.current!.shadowRoot ?? host.current!.attachShadow({ mode: "open" });
    root.adoptedStyleSheets = [paperRules()];
    root.innerHTML = `<div data-theme="light">${html}</div>`;
  }, [html]);
  return <div className="paper-card" ref={host} />;
}
