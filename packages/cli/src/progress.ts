/** Says on stderr how far a longer piece of work is, from the first second on. On a terminal one line that is rewritten. */
export class Progress {
  private readonly begun = Date.now();
  private last = 0;
  private open = false;
  private readonly stream: NodeJS.WriteStream;
  private readonly quiet: boolean;
  constructor(stream: NodeJS.WriteStream, quiet = false) {
    this.stream = stream;
    this.quiet = quiet;
  }
  say = (what: string, done: number, of: number): void => {
    const now = Date.now();
    if (this.quiet || now - this.begun < 1000) return;
    if (this.stream.isTTY) {
      this.stream.write(`\r\u001b[K${what}: ${done} of ${of}`);
      this.open = true;
    } else if (now - this.last >= 5000) {
      this.stream.write(`${what}: ${done} of ${of}\n`);
    } else return;
    this.last = now;
  };
  end(): void {
    if (this.open) this.stream.write("\r\u001b[K");
    this.open = false;
  }
}
