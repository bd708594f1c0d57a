import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/**
 * Room for a drawing, in its own pixels. Where the browser's letters are larger than usual the whole drawing is shown so many times as large,
 * `zoom`, and has so much less room.
 */
export interface Size {
  readonly width: number;
  readonly height: number;
  readonly zoom: number;
}
/** A drawing never has less room than this for the sake of large letters. */
const least = 320;
const usualLetters = 16;

export function sizeOf(width: number, height: number, letters: number): Size {
  const zoom = Math.max(1, Math.min(letters / usualLetters, width / least));
  return { width: Math.floor(width / zoom), height: Math.floor(height / zoom), zoom };
}

/** The room of an element, as it is now. */
export function useSize<E extends Element>(): [RefObject<E | null>, Size | undefined] {
  const ref = useRef<E>(null);
  const [size, setSize] = useState<Size>();
  useLayoutEffect(() => {
    const element = ref.current!;
    const measure = () => {
      const { width, height } = element.getBoundingClientRect();
      const next = sizeOf(width, height, Number.parseFloat(getComputedStyle(document.documentElement).fontSize));
      setSize((last) =>
        last && last.width === next.width && last.height === next.height && last.zoom === next.zoom ? last : next,
      );
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [ref, size];
}
