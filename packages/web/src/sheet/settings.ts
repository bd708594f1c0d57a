import { useCallback, useState } from "react";

/** What a reader likes, kept by the browser and not by the project. */
export interface Settings {
  readonly theme: "light" | "dark" | undefined;
  readonly singleKeys: boolean;
}
const name = "tapeworthy";

export function settingsFrom(text: string | null): Settings {
  try {
    const { theme, singleKeys } = JSON.parse(text ?? "{}") as Partial<Settings>;
    return { theme: theme === "light" || theme === "dark" ? theme : undefined, singleKeys: singleKeys !== false };
  } catch {
    return { theme: undefined, singleKeys: true };
  }
}
/** A browser that keeps nothing is no reason not to work. */
const stored = (): string | null => {
  try {
    return localStorage.getItem(name);
  } catch {
    return null;
  }
};

export function useSettings(): readonly [Settings, (part: Partial<Settings>) => void] {
  const [settings, set] = useState(() => {
    const first = settingsFrom(stored());
    show(first);
    return first;
  });
  const change = useCallback((part: Partial<Settings>) => {
    set((last) => {
      const next = { ...last, ...part };
      show(next);
      try {
        localStorage.setItem(name, JSON.stringify(next));
      } catch {
        // It holds as long as the page is open.
      }
      return next;
    });
  }, []);
  return [settings, change];
}
function show({ theme }: Settings): void {
  if (theme) document.documentElement.dataset.theme = theme;
  else delete document.documentElement.dataset.theme;
}
/** Whether the page is dark now, by its own setting or the system's. */
export const isDark = ({ theme }: Settings): boolean =>
  theme === undefined ? matchMedia("(prefers-color-scheme: dark)").matches : theme === "dark";
