/** The next free name of a trial: T-01, T-02. */
export function nextTrial(texts: ReadonlyMap<string, string>): string {
  for (let n = 1; ; n++) {
    const name = `T-${`${n}`.padStart(2, "0")}`;
    if (!texts.has(`bench/${name}.yaml`)) return name;
  }
}
