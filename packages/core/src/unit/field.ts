import type { Given } from "../quantity/given.ts";

/**
 * What a file may hold, described once: the static type, the loader and the JSON Schema all come from these descriptions.
 * `means` is what an editor shows beside the field.
 */
export type Field =
  | QuantityField
  | WordField
  | TextField
  | ListField<Field>
  | TupleField<readonly Field[]>
  | GroupField<Members>
  | MapField<Field>
  | EitherField<readonly Field[]>;

export interface QuantityField {
  readonly kind: "quantity";
  /** Unit whose dimension the value must have; "any" leaves it to the text. */
  readonly unit: string;
  readonly means: string;
  /** Bounds between which a cure may move it, in `unit`. */
  readonly lever?: readonly [low: number, high: number];
  /** True for what a person can set on a finished unit: a preload, a clutch. */
  readonly settable: boolean;
  /** True where `0.08..0.20 mm` without a status is a set (backlash, play). */
  readonly set: boolean;
  /** What a mark's name stands for in this field: its place along the tape, or its x in the side view. */
  readonly marks: "x" | "route";
  /** Smallest and greatest value that makes sense at all, in `unit`; outside is an error. */
  readonly least?: number;
  readonly most?: number;
  readonly example: string;
}
/** One word of a list; without a list any one-line word (a material, a part). */
export interface WordField<W extends string = string> {
  readonly kind: "word";
  readonly of: readonly W[] | undefined;
  readonly means: string;
}
export interface TextField {
  readonly kind: "text";
  readonly means: string;
}
export interface ListField<F extends Field> {
  readonly kind: "list";
  readonly of: F;
  readonly means: string;
  /** A single value stands for a list of one. */
  readonly orOne: boolean;
}
export interface TupleField<T extends readonly Field[]> {
  readonly kind: "tuple";
  readonly of: T;
  readonly means: string;
}
export type Members = Readonly<Record<string, Field | OptionalField<Field>>>;
export interface OptionalField<F extends Field> {
  readonly kind: "optional";
  readonly of: F;
}
export interface GroupField<M extends Members> {
  readonly kind: "group";
  readonly members: M;
  readonly means: string;
  /** Exactly one of these members must be there. */
  readonly oneOf: readonly string[] | undefined;
}
/** A group whose names are the user's own. */
export interface MapField<F extends Field> {
  readonly kind: "map";
  readonly of: F;
  readonly means: string;
}
export interface EitherField<T extends readonly Field[]> {
  readonly kind: "either";
  readonly of: T;
  readonly means: string;
}

type Flat<T> = { [K in keyof T]: T[K] };
type RequiredNames<M extends Members> = { [K in keyof M]: M[K] extends OptionalField<Field> ? never : K }[keyof M];
export type DataOf<F> = F extends QuantityField
  ? Given
  : F extends WordField<infer W>
    ? W
    : F extends TextField
      ? string
      : F extends ListField<infer I>
        ? readonly DataOf<I>[]
        : F extends TupleField<infer T>
          ? { readonly [K in keyof T]: DataOf<T[K]> }
          : F extends GroupField<infer M>
            ? Flat<
                { readonly [K in RequiredNames<M>]: DataOf<M[K]> } & {
                  readonly [K in Exclude<keyof M, RequiredNames<M>>]?: M[K] extends OptionalField<infer I>
                    ? DataOf<I>
                    : never;
                }
              >
            : F extends MapField<infer I>
              ? Readonly<Record<string, DataOf<I>>>
              : F extends EitherField<infer T>
                ? DataOf<T[number]>
                : never;

type QuantityMore = Partial<Pick<QuantityField, "lever" | "set" | "settable" | "marks" | "least" | "most" | "example">>;
const exampleOf: Readonly<Record<string, string>> = {
  mm: "4.00 ±0.10 mm",
  N: "6.0 ±0.5 N",
  "": "1.25",
  deg: "-20 deg",
  "N*mm": "22 ±3 N*mm",
  "N/mm": "1.5 N/mm",
  g: "40 g + 1.7 g*W/mm",
  h: "3.4 h + 0.1 h*W/mm",
};
export const quantity = (unit: string, means: string, more: QuantityMore = {}): QuantityField => ({
  kind: "quantity",
  unit,
  means,
  set: false,
  settable: false,
  marks: "x",
  example: exampleOf[unit] ?? `1 ${unit}`,
  ...more,
});
export const word = <const W extends readonly string[]>(
  means: string,
  ...of: W
): WordField<W extends readonly [] ? string : W[number]> => ({
  kind: "word",
  of: of.length === 0 ? undefined : (of as never),
  means,
});
export const text = (means: string): TextField => ({ kind: "text", means });
export const list = <F extends Field>(of: F, means: string): ListField<F> => ({
  kind: "list",
  of,
  means,
  orOne: false,
});
export const oneOrList = <F extends Field>(of: F, means: string): ListField<F> => ({
  kind: "list",
  of,
  means,
  orOne: true,
});
export const tuple = <const T extends readonly Field[]>(means: string, ...of: T): TupleField<T> => ({
  kind: "tuple",
  of,
  means,
});
export const group = <const M extends Members>(means: string, members: M): GroupField<M> => ({
  kind: "group",
  members,
  means,
  oneOf: undefined,
});
export const oneMemberOf = <const M extends Members>(means: string, members: M): GroupField<M> => ({
  kind: "group",
  members,
  means,
  oneOf: Object.keys(members),
});
export const map = <F extends Field>(of: F, means: string): MapField<F> => ({ kind: "map", of, means });
export const either = <const T extends readonly Field[]>(means: string, ...of: T): EitherField<T> => ({
  kind: "either",
  of,
  means,
});
export const optional = <F extends Field>(of: F): OptionalField<F> => ({ kind: "optional", of });
