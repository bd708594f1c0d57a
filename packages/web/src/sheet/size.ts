import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** Width and height of an element in whole pixels, as it has them now. */
export function useSize<E extends Element>(): [RefObject<E | null>, { width: number; height: number } | undefined] {
  const ref = useRef<E>(null);
  const [size, setSize] = useState<{ width: number; height: number }>();
  useLayoutEffect(() => {
    const element = ref.current!;
    const measure = () => {
      const { width, height } = element.getBoundingClientRect();
      const next = { width: Math.floor(width), height: Math.floor(height) };
      setSize((last) => (last && last.width === next.width && last.height === next.height ? last : next));
    };
    measure();
    const watch = new ResizeObserver(measure);
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return [ref, size];
}
