import { fontFaces, theme } from "@tapeworthy/drawing";
import greek400 from "@tapeworthy/drawing/fonts/sofia-sc-greek-400.woff2?url";
import greek600 from "@tapeworthy/drawing/fonts/sofia-sc-greek-600.woff2?url";
import latin400 from "@tapeworthy/drawing/fonts/sofia-sc-latin-400.woff2?url";
import latin500 from "@tapeworthy/drawing/fonts/sofia-sc-latin-500.woff2?url";
import latin600 from "@tapeworthy/drawing/fonts/sofia-sc-latin-600.woff2?url";
import latin700 from "@tapeworthy/drawing/fonts/sofia-sc-latin-700.woff2?url";

const addresses: Readonly<Record<string, string>> = {
  "sofia-sc-greek-400.woff2": greek400,
  "sofia-sc-greek-600.woff2": greek600,
  "sofia-sc-latin-400.woff2": latin400,
  "sofia-sc-latin-500.woff2": latin500,
  "sofia-sc-latin-600.woff2": latin600,
  "sofia-sc-latin-700.woff2": latin700,
};

/** Lettering and the theme of drawings and panels, as rules of the page. Adopted, so a page that allows no inline style takes them too. */
export function adoptTheme(page: Document): void {
  const rules = new CSSStyleSheet();
  rules.replaceSync(`${fontFaces((file) => new URL(addresses[file]!, page.baseURI).href)}\n${theme()}`);
  page.adoptedStyleSheets = [...page.adoptedStyleSheets, rules];
}
