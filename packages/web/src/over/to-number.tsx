import { sayAddress } from "@tapeworthy/drawing";

/** Where a number stands in the text beside the drawing; undefined for one that no file holds. */
export type Link = (address: string) => string | undefined;

/** A number by its address; one that a file holds can be gone to. */
export function ToNumber({ address, link }: { readonly address: string; readonly link: Link }) {
  const href = link(address);
  return href === undefined ? <span>{sayAddress(address)}</span> : <a href={`./${href}`}>{sayAddress(address)}</a>;
}
