/** The moment of an index that is shown, s: one number that slider, drawing and story look at together, a frame at a time. */
export class Playhead {
  private t = 0;
  private readonly listeners = new Set<() => void>();

  readonly time = (): number => this.t;
  readonly subscribe = (heard: () => void): (() => void) => {
    this.listeners.add(heard);
    return () => void this.listeners.delete(heard);
  };
  set(t: number): void {
    if (!Number.isFinite(t) || t === this.t) return;
    this.t = t;
    for (const heard of this.listeners) heard();
  }
}
