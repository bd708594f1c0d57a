import { type ComponentProps, useLayoutEffect, useRef } from "react";
import { Retold } from "./retold.ts";

/** Holds a text of HTML or SVG from the drawing package, shown so many times as large. Its nodes stay while their text changes. */
export function Written({
  html,
  zoom = 1,
  ...more
}: { readonly html: string; readonly zoom?: number | undefined } & ComponentProps<"div">) {
  const host = useRef<HTMLDivElement>(null);
  const told = useRef<Retold>(undefined);
  useLayoutEffect(() => {
    told.current ??= new Retold(host.current!);
    told.current.show(html);
  }, [html]);
  return <div ref={host} style={zoom === 1 ? undefined : { zoom }} {...more} />;
}
