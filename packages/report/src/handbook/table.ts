const cell = (text: string): string => text.replaceAll("|", "\\|").replaceAll("\n", " ");
/** Rows as a Markdown table; columns that hold nothing are left out. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const kept = head.map((_, i) => i).filter((i) => rows.some((row) => (row[i] ?? "") !== ""));
  const line = (cells: readonly string[]): string => `| ${kept.map((i) => cell(cells[i] ?? "")).join(" | ")} |`;
  return [line(head), line(head.map(() => "---")), ...rows.map(line)].join("\n");
}
