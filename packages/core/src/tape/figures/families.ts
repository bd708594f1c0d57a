import type { EmbossedWidth } from "./embossed.ts";
import type { Confidence, Sources } from "./figure.ts";

/**
 * Component families and the tape they usually come in: a starter demand list. Lengths and reel diameter in mm,
 * quantity in parts a reel. The width follows the maker as much as the package: never infer W from a name without
 * showing both candidates.
 *
 * "read" means that W, P1 and the pocket were seen in the first source named; fieldsRead narrows that where only part
 * was, or where the quantity is memory.
 */
export interface Family {
  readonly family: string;
  readonly kind: "embossed" | "punched";
  readonly W: EmbossedWidth;
  readonly P1: number;
  /** Pocket: along the tape, across it, deep. A punched pocket is as deep as the tape is thick (T). */
  readonly A0?: number;
  readonly B0?: number;
  readonly K0?: number;
  readonly T?: number;
  /** Whole height of the tape, most. */
  readonly T2max?: number;
  readonly quantity?: number;
  readonly reel?: number;
  readonly how: "read" | "memory";
  readonly sources: Sources;
  readonly fieldsRead?: readonly ("W" | "P1" | "pocket")[];
  readonly confidence?: Confidence;
  readonly note?: string;
}

type Size = Omit<Family, "family" | "kind" | keyof Known>;
type Known = Pick<Family, "how" | "sources" | "fieldsRead" | "confidence" | "note">;

const embossed = (family: string, size: Size, known: Known): Family => ({
  family,
  kind: "embossed",
  ...size,
  ...known,
});
const punched = (family: string, size: Size, known: Known): Family => ({ family, kind: "punched", ...size, ...known });
const seen = (sources: Sources, more: Pick<Family, "fieldsRead" | "note"> = {}): Known => ({
  how: "read",
  sources,
  ...more,
});
const remembered = (confidence: Confidence, more: Partial<Pick<Family, "note" | "sources">> = {}): Known => ({
  how: "memory",
  sources: ["memory"],
  confidence,
  ...more,
});

const allButQuantity = { fieldsRead: ["W", "P1", "pocket"], note: "quantity from memory" } as const;
const sheets1 = seen(["package sheets 1"]);
const sheets2 = seen(["package sheets 2"]);
const sheets3 = seen(["package sheets 3"]);
const mlcc = seen(["MLCC packaging page"]);
const mlccSize = seen(["MLCC packaging page", "memory"], allButQuantity);
const resistorSize = seen(["IEC 286-3 sheet", "memory"], allButQuantity);
const melfSize = seen(["28704", "memory"], allButQuantity);
const capacitors = seen(["capacitor table 5"]);
const high = remembered("high");
const medium = remembered("medium");
const low = remembered("low");
const lowTooDeep = remembered("low", { note: "K0 + 0.4 mm exceeds T2 max of this width" });
const smaSheet = seen(["SMA taping sheet", "derived"], {
  note: "columns of the sheet ran together; assigned by body size",
});

export const families: readonly Family[] = [
  // Chips
  punched(
    "chip 0201",
    { W: 8, P1: 2, A0: 0.38, B0: 0.68, T: 0.42, quantity: 10000, reel: 178 },
    remembered("medium", { note: "body 0.60 x 0.30 x 0.23 mm", sources: ["memory", "chip resistor 2016"] }),
  ),
  punched(
    "chip R 0402",
    { W: 8, P1: 2, A0: 0.7, B0: 1.2, T: 0.6, quantity: 10000, reel: 178 },
    seen(["IEC 286-3 sheet", "capacitor table 5", "memory"], {
      ...allButQuantity,
      note: "quantity from memory; width and pitch also in the capacitor table",
    }),
  ),
  punched(
    "chip R 0603",
    { W: 8, P1: 4, A0: 1, B0: 1.8, T: 0.6, quantity: 5000, reel: 178 },
    seen(["IEC 286-3 sheet", "capacitor table 5", "memory"], {
      ...allButQuantity,
      note: "quantity from memory; a 0603 capacitor may come at P1 2",
    }),
  ),
  punched("chip C 0603", { W: 8, P1: 4, A0: 1.05, B0: 1.85, quantity: 4000, reel: 178 }, mlcc),
  punched("chip R 0805", { W: 8, P1: 4, A0: 1.5, B0: 2.25, T: 0.75, quantity: 5000, reel: 178 }, resistorSize),
  punched("chip C 0805 thin", { W: 8, P1: 4, A0: 1.65, B0: 2.4, quantity: 4000, reel: 178 }, mlcc),
  embossed("chip C 0805 thick", { W: 8, P1: 4, A0: 1.6, B0: 2.4, T2max: 2, quantity: 3000, reel: 178 }, mlccSize),
  punched("chip R 1206", { W: 8, P1: 4, A0: 1.85, B0: 3.45, T: 0.75, quantity: 5000, reel: 178 }, resistorSize),
  embossed("chip C 1206 thick", { W: 8, P1: 4, A0: 2, B0: 3.6, T2max: 2, quantity: 2500, reel: 178 }, mlccSize),
  embossed("chip C 1210", { W: 8, P1: 4, A0: 2.8, B0: 3.7, T2max: 2, quantity: 2500, reel: 178 }, mlcc),
  embossed("chip C 1808", { W: 12, P1: 4, reel: 178 }, capacitors),
  embossed(
    "chip C 1812",
    { W: 12, P1: 8, A0: 3.6, B0: 4.9, quantity: 1000, reel: 178 },
    seen(["capacitor table 5", "memory"], { fieldsRead: ["W", "P1"], note: "pocket and quantity from memory" }),
  ),
  embossed("stacked C 1812/2220", { W: 16, P1: 12 }, capacitors),
  embossed(
    "chip R 2010",
    { W: 12, P1: 4, A0: 2.8, B0: 5.5, K0: 0.9, quantity: 4000, reel: 178 },
    remembered("medium", { note: "body 5.0 x 2.5 x 0.55 mm", sources: ["memory", "chip resistor 2016"] }),
  ),
  embossed(
    "chip R 2512",
    { W: 12, P1: 8, A0: 3.5, B0: 6.8, K0: 0.9, quantity: 2000, reel: 178 },
    remembered("low", {
      note: "body 6.35 x 3.2 x 0.55 mm; makers differ: P1 4 or 8",
      sources: ["memory", "chip resistor 2016"],
    }),
  ),

  // Round chips (MELF)
  embossed("MELF 0102", { W: 8, P1: 4, A0: 1.3, B0: 2.47, T2max: 1.65, quantity: 3000, reel: 178 }, melfSize),
  embossed("MELF 0204", { W: 8, P1: 4, A0: 1.55, B0: 3.7, T2max: 1.8, quantity: 3000, reel: 178 }, melfSize),
  embossed("MELF 0207", { W: 12, P1: 4, A0: 2.4, B0: 6, T2max: 2.7, quantity: 2000, reel: 178 }, melfSize),

  // Small outlines, diodes, power
  embossed("SOT-23-3", { W: 8, P1: 4, A0: 3.15, B0: 2.77, K0: 1.22, quantity: 3000, reel: 178 }, sheets2),
  embossed("SOT-23-5", { W: 8, P1: 4, A0: 3.2, B0: 3.2, K0: 1.4, quantity: 3000, reel: 180 }, sheets2),
  embossed("SC-70", { W: 8, P1: 4, A0: 2.4, B0: 2.5, K0: 1.2, quantity: 3000, reel: 178 }, sheets2),
  embossed("SOT-23-8 thin", { W: 8, P1: 4, A0: 3.2, B0: 3.2, K0: 1.4, quantity: 3000, reel: 180 }, sheets2),
  embossed(
    "SOT-223",
    { W: 12, P1: 8, A0: 7.05, B0: 7.4, K0: 1.9, quantity: 2500, reel: 330 },
    seen(["package sheets 3", "SOT-223 2017"], { note: "also seen with A0 6.55, B0 7.25; 1000 on a 178 reel" }),
  ),
  embossed("SMA", { W: 12, P1: 4, A0: 3, B0: 5.4, K0: 2.4, reel: 178 }, smaSheet),
  embossed("SMB", { W: 12, P1: 8, A0: 3.65, B0: 5.69, K0: 2.67, reel: 178 }, smaSheet),
  embossed("TO-252", { W: 16, P1: 8, A0: 6.9, B0: 10.5, K0: 2.7, quantity: 2500, reel: 330 }, sheets3),
  embossed("TO-263", { W: 24, P1: 16, A0: 10.75, B0: 14.85, K0: 5, quantity: 500, reel: 330 }, sheets3),
  embossed(
    "DO-218",
    { W: 24, P1: 16, quantity: 750, reel: 330 },
    seen(["diode packaging list", "memory"], { fieldsRead: ["W"], note: "pitch and quantity from memory" }),
  ),

  // Outlines with two rows of leads
  embossed("SOIC-8", { W: 12, P1: 8, A0: 6.4, B0: 5.2, K0: 2.1, quantity: 2500, reel: 330 }, sheets1),
  embossed("SOIC-14", { W: 16, P1: 8, A0: 6.5, B0: 9, K0: 2.1, quantity: 2500, reel: 330 }, sheets1),
  embossed("SOIC-16 wide", { W: 16, P1: 12, A0: 10.75, B0: 10.7, K0: 2.7, quantity: 2000, reel: 330 }, sheets1),
  embossed("SOIC-20 wide", { W: 24, P1: 12, A0: 10.8, B0: 13.3, K0: 2.7, quantity: 2000, reel: 330 }, sheets1),
  embossed("SO-8 5.3 mm", { W: 16, P1: 12, A0: 8.35, B0: 6.6, K0: 2.4, quantity: 2000, reel: 330 }, sheets1),
  embossed("SO-14 5.3 mm", { W: 16, P1: 12, A0: 8.2, B0: 10.5, K0: 2.5, quantity: 2000, reel: 330 }, sheets1),
  embossed("SSOP-14", { W: 16, P1: 12, A0: 8.35, B0: 6.6, K0: 2.4, quantity: 2000, reel: 330 }, sheets1),
  embossed("TSSOP-8", { W: 12, P1: 8, A0: 7, B0: 3.6, K0: 1.6, quantity: 2000, reel: 330 }, sheets1),
  embossed("TSSOP-14/16", { W: 12, P1: 8, A0: 6.9, B0: 5.6, K0: 1.6, quantity: 2000, reel: 330 }, sheets1),
  embossed("TSSOP-20", { W: 16, P1: 8, A0: 6.95, B0: 7.1, K0: 1.6, quantity: 2000, reel: 330 }, sheets1),
  embossed("TVSOP-20", { W: 12, P1: 8, A0: 6.9, B0: 5.6, K0: 1.6, quantity: 2000, reel: 330 }, sheets1),
  embossed("VSSOP-8", { W: 12, P1: 8, A0: 5.3, B0: 3.4, K0: 1.4, quantity: 2500, reel: 330 }, sheets1),
  embossed("VSSOP-20", { W: 16, P1: 8, A0: 5.4, B0: 5.4, K0: 1.45, quantity: 5000, reel: 330 }, sheets1),
  embossed("QFN 3.5x3.5", { W: 12, P1: 8, A0: 3.75, B0: 3.75, K0: 1.15, quantity: 3000, reel: 330 }, sheets1),
  embossed("SOIC-16 narrow", { W: 16, P1: 8, A0: 6.5, B0: 10.3, K0: 2.1, quantity: 2500, reel: 330 }, high),
  embossed(
    "SOIC-28 wide",
    { W: 32, P1: 16, A0: 11.35, B0: 18.67, K0: 3.1, quantity: 1000, reel: 330 },
    remembered("medium", { note: "another maker uses 24 mm: width goes by maker, not by package" }),
  ),
  embossed("TSSOP-28", { W: 16, P1: 12, A0: 6.9, B0: 10.2, K0: 1.8, quantity: 2000, reel: 330 }, medium),
  embossed("isolator SO-4 wide", { W: 12, P1: 12, A0: 8, B0: 3.8, K0: 2.7, quantity: 2000, reel: 330 }, sheets2),
  embossed("VSSOP-28", { W: 16, P1: 8, A0: 5.5, B0: 7.4, K0: 1.45, quantity: 5000, reel: 330 }, sheets2),
  embossed("SOT-23-16 thin", { W: 12, P1: 8, A0: 4.8, B0: 3.6, K0: 1.6, quantity: 3000, reel: 330 }, sheets2),

  // Leadless, oscillators, balls
  embossed("QFN 3x3", { W: 12, P1: 8, A0: 3.3, B0: 3.3, K0: 1.1, quantity: 3000, reel: 330 }, sheets2),
  embossed("QFN 4x4", { W: 12, P1: 8, A0: 4.25, B0: 4.25, K0: 1.15, quantity: 3000, reel: 330 }, sheets2),
  embossed("QFN 5x5", { W: 12, P1: 8, A0: 5.3, B0: 5.3, K0: 1.1, quantity: 3000, reel: 330 }, sheets2),
  embossed("thin QFN 5x5", { W: 12, P1: 8, A0: 5.3, B0: 5.3, K0: 0.75, quantity: 3000, reel: 330 }, sheets2),
  embossed("QFN 2.5x4.5", { W: 12, P1: 4, A0: 2.8, B0: 4.8, K0: 1.2, quantity: 3000, reel: 180 }, sheets2),
  embossed("QFN 2x3", { W: 8, P1: 4, A0: 2.25, B0: 3.25, K0: 1.05, quantity: 3000, reel: 180 }, sheets2),
  embossed("oscillator 2.5x2.0", { W: 8, P1: 4, A0: 2.25, B0: 2.8, K0: 1.1, quantity: 3000, reel: 180 }, sheets2),
  embossed("oscillator 3.2x2.5", { W: 12, P1: 4, A0: 2.8, B0: 3.5, K0: 1.2, quantity: 3000, reel: 330 }, sheets2),
  embossed("BGA 2.0x2.5", { W: 8, P1: 4, A0: 2.3, B0: 2.8, K0: 1.15, quantity: 2500, reel: 180 }, sheets2),
  embossed("wafer-level 0.84x1.25", { W: 8, P1: 4, A0: 0.84, B0: 1.25, K0: 0.5, quantity: 3000, reel: 180 }, sheets2),

  // Large leadless and flat packs
  embossed("QFN 7x7", { W: 16, P1: 12, A0: 7.3, B0: 7.3, K0: 1.1, quantity: 2500, reel: 330 }, high),
  embossed("QFN 9x9", { W: 16, P1: 12, A0: 9.3, B0: 9.3, K0: 1.1, quantity: 2000, reel: 330 }, medium),
  embossed("LQFP 7x7", { W: 16, P1: 12, A0: 9.6, B0: 9.6, K0: 1.9, quantity: 1000, reel: 330 }, medium),
  embossed("LQFP 10x10", { W: 24, P1: 16, A0: 12.35, B0: 12.35, K0: 2.2, quantity: 1000, reel: 330 }, medium),
  embossed(
    "LQFP 14x14",
    { W: 24, P1: 24, A0: 16.6, B0: 16.6, K0: 2.1, quantity: 1000, reel: 330 },
    remembered("low", { note: "24 or 32 mm by maker" }),
  ),

  // Electrolytic cans
  embossed("can 4 dia x 5.4", { W: 12, P1: 8, A0: 4.7, B0: 4.7, K0: 5.8, quantity: 2000, reel: 330 }, low),
  embossed("can 5 dia x 5.4", { W: 12, P1: 12, A0: 5.7, B0: 5.7, K0: 5.8, quantity: 1000, reel: 330 }, low),
  embossed("can 6.3 dia x 5.4", { W: 16, P1: 12, A0: 7, B0: 7, K0: 5.8, quantity: 1000, reel: 330 }, low),
  embossed("can 6.3 dia x 7.7", { W: 16, P1: 12, A0: 7, B0: 7, K0: 8.2, quantity: 900, reel: 330 }, lowTooDeep),
  embossed("can 8 dia x 6.2", { W: 16, P1: 12, A0: 8.7, B0: 8.7, K0: 6.8, quantity: 1000, reel: 330 }, low),
  embossed("can 8 dia x 10.2", { W: 24, P1: 16, A0: 8.7, B0: 8.7, K0: 11, quantity: 500, reel: 330 }, low),
  embossed("can 10 dia x 10.2", { W: 24, P1: 16, A0: 10.7, B0: 10.7, K0: 11, quantity: 500, reel: 330 }, low),
  embossed("can 12.5 dia x 13.5", { W: 32, P1: 24, A0: 13.7, B0: 13.7, K0: 14, quantity: 200, reel: 330 }, lowTooDeep),
  embossed("can 16 dia x 16.5", { W: 44, P1: 28, A0: 17.5, B0: 17.5, K0: 17.5, quantity: 125, reel: 330 }, lowTooDeep),

  // Coils
  embossed("coil 4x4x1.8", { W: 12, P1: 8, A0: 4.3, B0: 4.3, K0: 2.1, quantity: 2000, reel: 330 }, low),
  embossed("coil 6x6x3", { W: 16, P1: 12, A0: 6.3, B0: 6.3, K0: 3.3, quantity: 1500, reel: 330 }, low),
  embossed("coil 8x8x4", { W: 16, P1: 12, A0: 8.4, B0: 8.4, K0: 4.4, quantity: 1000, reel: 330 }, low),
  embossed("coil 10x10x4", { W: 24, P1: 16, A0: 10.5, B0: 10.5, K0: 4.4, quantity: 700, reel: 330 }, low),
  embossed("coil 12x12x8", { W: 24, P1: 16, A0: 12.7, B0: 12.7, K0: 8.5, quantity: 500, reel: 330 }, low),

  // Crystals and lamps
  embossed("crystal 3.2x2.5", { W: 8, P1: 4, A0: 2.7, B0: 3.4, K0: 1, quantity: 3000, reel: 330 }, low),
  embossed("crystal 5x3.2", { W: 12, P1: 8, A0: 3.5, B0: 5.3, K0: 1.3, quantity: 1000, reel: 330 }, low),
  embossed("crystal can, long", { W: 24, P1: 12, A0: 5.2, B0: 13.5, K0: 4.5, quantity: 1000, reel: 330 }, low),
  embossed("LED 5x5", { W: 12, P1: 8, A0: 5.4, B0: 5.4, K0: 1.9, quantity: 1000, reel: 330 }, low),

  // Switches, sockets, headers, modules
  embossed("tact switch 6x6", { W: 16, P1: 12, A0: 6.5, B0: 9.2, K0: 4.5, quantity: 1000, reel: 330 }, low),
  embossed("USB receptacle small", { W: 16, P1: 12, A0: 6, B0: 9.5, K0: 3.2, quantity: 1000, reel: 330 }, low),
  embossed("USB receptacle C, 16 way", { W: 24, P1: 12, A0: 8, B0: 9.6, K0: 3.6, quantity: 1000, reel: 330 }, low),
  embossed("card socket", { W: 32, P1: 20, A0: 15, B0: 16, K0: 2.2, quantity: 900, reel: 330 }, low),
  embossed("flat-flex socket 10..20 way", { W: 24, P1: 12, A0: 6, B0: 16, K0: 2.5, quantity: 1000, reel: 330 }, low),
  embossed("flat-flex socket 30..40 way", { W: 44, P1: 12, A0: 6, B0: 28, K0: 2.5, quantity: 1000, reel: 330 }, low),
  embossed("pin header 2x10", { W: 44, P1: 16, A0: 8, B0: 27, K0: 9, quantity: 400, reel: 330 }, low),
  embossed("wire-to-board 2..4 way", { W: 16, P1: 12, A0: 6, B0: 9.5, K0: 6.5, quantity: 1000, reel: 330 }, low),
  embossed("signal relay", { W: 24, P1: 16, A0: 8, B0: 10.7, K0: 6, quantity: 900, reel: 330 }, low),
  embossed("coin-cell holder", { W: 44, P1: 32, A0: 17, B0: 29, K0: 5.5, quantity: 300, reel: 330 }, low),
  embossed("RJ45 jack", { W: 56, P1: 28, A0: 17, B0: 23, K0: 14, quantity: 120, reel: 330 }, low),
  embossed("GNSS module 16x12", { W: 32, P1: 24, A0: 12.6, B0: 16.6, K0: 2.8, quantity: 500, reel: 330 }, low),
  embossed(
    "wireless module 18x25.5",
    { W: 44, P1: 24, A0: 18.5, B0: 26, K0: 3.6, quantity: 650, reel: 330 },
    seen(["module packing page", "memory"], {
      fieldsRead: ["W", "P1"],
      note: "pocket by the rule of the sheet from a remembered module size; quantity from memory",
    }),
  ),
];
