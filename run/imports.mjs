// Reads the import statements of a source file without a compiler: enough of the grammar to know code from comments,
// strings and regular expressions.

const comment = String.raw`\/\/.*|\/\*[\s\S]*?\*\/`;
const string = String.raw`"(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*'`;
const template = String.raw`\x60(?:\\[\s\S]|[^\x60\\])*\x60`;
const regularExpression = String.raw`(?<=(?:^|[(,=:[!&|?{};>]|\breturn)\s*)\/(?![*\/])(?:\\.|\[(?:\\.|[^\]\\\n])*\]|[^\/\\\n[])+\/`;
const token = new RegExp(`${comment}|(${string})|${template}|${regularExpression}|[\\w$]+|\\S`, "g");

/**
 * What a source imports, in order: `import ... from`, `export ... from`, a bare `import`, `import(...)` of a value or a
 * type, and `require(...)`.
 * @param {string} source
 */
export function importsOf(source) {
  const imports = [];
  let [beforeLast, last] = ["", ""];
  for (const [text, literal] of source.matchAll(token)) {
    if (text.startsWith("//") || text.startsWith("/*")) continue;
    const called = last === "(" && (beforeLast === "import" || beforeLast === "require");
    if (literal && (last === "from" || last === "import" || called)) imports.push(literal.slice(1, -1));
    [beforeLast, last] = [last, text];
  }
  return imports;
}

/**
 * The package an import names, without the path inside it; undefined for a relative path.
 * @param {string} specifier
 */
export function packageOf(specifier) {
  if (specifier.startsWith(".") || specifier.startsWith("/") || specifier.startsWith("node:")) return undefined;
  return specifier
    .split("/")
    .slice(0, specifier.startsWith("@") ? 2 : 1)
    .join("/");
}
