import { type ComponentProps, useLayoutEffect, useRef } from "react";
import { morph } from "./morph.ts";

/** Holds a text of HTML or SVG from the drawing package. Its nodes stay while their text changes. */
export function Written({ html, ...more }: { readonly html: string } & ComponentProps<"div">) {
  const host = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => morph(host.current!, html), [html]);
  return <div ref={host} {...more} />;
}
