import type { EmbossedWidth } from "./embossed.ts";
import type { Sources } from "./figure.ts";

/** Where sources differ, what each prints, and what the catalogue takes. mm and degrees unless said. */
export interface Disagreement {
  readonly letters: readonly string[];
  /** Every width where absent. */
  readonly widths?: readonly EmbossedWidth[];
  readonly says: readonly { readonly value: string; readonly sources: Sources }[];
  readonly taken: string;
  readonly because: string;
}

export const disagreements: readonly Disagreement[] = [
  {
    letters: ["B1"],
    widths: [8],
    says: [
      { value: "4.35", sources: ["EIA-481-D p13", "C1003", "T2020", "EIA-B slides"] },
      { value: "4.55, and above 4.2 some machines may not feed it", sources: ["older EIA", "SO8", "SS-241"] },
    ],
    taken: "4.35",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["W"],
    widths: [8],
    says: [
      { value: "8.3 at most, no tolerance", sources: ["EIA-481-D p13", "C1003", "T2020", "older EIA", "EIA-B slides"] },
      { value: "±0.3", sources: ["SOT-23 rev C", "IEC 286-3 sheet"] },
      { value: "+0.3/-0.1", sources: ["SS-241", "28704"] },
      { value: "±0.2, paper", sources: ["IEC 286-3 sheet", "28704", "tantalum guide", "MLCC packaging page"] },
    ],
    taken: "8 nominal and 8.3 at most; the others stand in Wmakers",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["W"],
    widths: [72],
    says: [
      { value: "±0.3", sources: ["EIA-481-D p15", "EIA-481-C fragments"] },
      { value: "revised, figure not read", sources: ["IEC 60286-3:2022 abstract"] },
    ],
    taken: "±0.3",
    because: "the only figure read",
  },
  {
    letters: ["F"],
    widths: [8],
    says: [
      { value: "±0.05", sources: ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"] },
      { value: "±0.10", sources: ["SO8"] },
    ],
    taken: "±0.05",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["F"],
    widths: [16],
    says: [
      { value: "±0.1", sources: ["EIA-481-D p13", "older EIA", "SO8", "EIA-B slides"] },
      { value: "±0.05", sources: ["C1003"] },
    ],
    taken: "±0.1",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["P2"],
    widths: [16, 24],
    says: [
      { value: "±0.1", sources: ["EIA-481-D p13", "EIA-B slides"] },
      { value: "±0.05 at every width it lists (C1003 lists 8, 12 and 16)", sources: ["SO8", "C1003"] },
    ],
    taken: "±0.1",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["P2"],
    widths: [8],
    says: [
      { value: "2, punched", sources: ["capacitor table 7", "28704", "tantalum guide"] },
      { value: "2 or 0 where the pockets are 2 apart, punched", sources: ["IEC 286-3 sheet"] },
    ],
    taken: "2",
    because: "three sheets, and the embossed rows, agree",
  },
  {
    letters: ["P1"],
    widths: [8],
    says: [
      { value: "2 ±0.05", sources: ["EIA-481-D p13", "T2020", "EIA-B slides", "capacitor table 7", "28704"] },
      { value: "2 ±0.1, tape for 0402", sources: ["IEC 286-3 sheet"] },
    ],
    taken: "±0.05",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["tenPitchError"],
    says: [
      { value: "±0.2", sources: ["EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"] },
      { value: "+0.1/-0.3", sources: ["optocoupler sheet 2011"] },
      { value: "0.02, taken as a misprint of 0.2", sources: ["TSSOP drawing 1997"] },
    ],
    taken: "0.2 either way",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["E1"],
    widths: [8],
    says: [
      {
        value: "1.75 ±0.1",
        sources: ["EIA-481-D p13", "EIA-481-D p15", "C1003", "capacitor table 7", "SO8", "IEC 286-3 sheet"],
      },
      { value: "1.72, cardboard tape", sources: ["28704"] },
    ],
    taken: "1.75",
    because: "probably a misprint",
  },
  {
    letters: ["D1"],
    widths: [8, 12, 16, 24],
    says: [
      { value: "least", sources: ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"] },
      { value: "the same figures as most", sources: ["SO8"] },
    ],
    taken: "least",
    because: "a mislabel: every other source says least",
  },
  {
    letters: ["T2"],
    widths: [12],
    says: [
      { value: "6.5", sources: ["EIA-481-D p13", "SS-241", "EIA-B slides"] },
      { value: "4.6", sources: ["C1003", "T2020"] },
    ],
    taken: "6.5",
    because: "the two sheets give a maker's own limit",
  },
  {
    letters: ["T2"],
    widths: [120],
    says: [
      { value: "40.0, if the merged cell of the 200 row reaches up to it", sources: ["EIA-481-D p15"] },
      { value: "35.0, if that of the 104 row reaches down", sources: ["EIA-481-D p15"] },
    ],
    taken: "40.0, low confidence",
    because: "merged cells of one table; 136 to 184 rest on the same reading",
  },
  {
    letters: ["T"],
    widths: [8, 12, 16, 24],
    says: [
      { value: "0.6", sources: ["EIA-481-D p13", "C1003", "T2020", "older EIA", "SS-241", "EIA-B slides"] },
      { value: "0.40", sources: ["SO8"] },
      { value: "below 0.4", sources: ["tantalum taping 2014"] },
    ],
    taken: "0.6",
    because: "EIA-481-D as read comes first; the others are makers' own limits",
  },
  {
    letters: ["T"],
    widths: [8],
    says: [
      { value: "1.1 punched, in mm", sources: ["capacitor table 7", "MLCC packaging page"] },
      { value: "0.098 beside it, in inches (2.5 mm)", sources: ["capacitor table 7"] },
    ],
    taken: "1.1",
    because: "the metric figure, and a second sheet agrees",
  },
  {
    letters: ["R"],
    widths: [8, 12, 16, 24],
    says: [
      { value: "reference", sources: ["EIA-481-D p13", "C1003", "T2020"] },
      { value: "least", sources: ["older EIA", "SS-241"] },
    ],
    taken: "reference",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["S1"],
    widths: [8, 12, 16],
    says: [
      { value: "0.6 at least", sources: ["EIA-481-D p13", "C1003", "T2020"] },
      { value: "below 1.0 the land may be too narrow to seal well", sources: ["C1003", "T2020", "EIA-B slides"] },
    ],
    taken: "0.6 as the limit, 1.0 as advice (advisedS1)",
    because: "a limit and a caution, both kept",
  },
  {
    letters: ["rotation"],
    widths: [8, 12, 16, 24],
    says: [
      { value: "20, 20, 10, 10", sources: ["EIA-481-D p13", "EIA-B slides"] },
      { value: "10 for all", sources: ["older EIA"] },
      { value: "20 for 8 and 12", sources: ["SS-241", "40074"] },
    ],
    taken: "20, 20, 10, 10",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["lateral"],
    widths: [16, 24],
    says: [
      { value: "0.1, taken as a misprint of 1.0", sources: ["EIA-B slides"] },
      { value: "1.0", sources: ["memory"] },
    ],
    taken: "1.0, as memory",
    because: "0.1 would be tighter than at 8 mm; 32 mm and wider read 1.0",
  },
  {
    letters: ["camber"],
    says: [
      { value: "1 mm in 250 mm", sources: ["memory"] },
      { value: "1 mm in 100 mm, not building up over 250 mm", sources: ["older EIA"] },
      { value: "1 mm in 100 mm", sources: ["TSSOP drawing 1997"] },
    ],
    taken: "both: camber.per250 is EIA-481-D, camber.per100 the older form",
    because: "the drawing of EIA-481-D was not read; it is remembered with high confidence",
  },
  {
    letters: ["clearance"],
    says: [
      {
        value: "0.05 to 0.50 between part and pocket",
        sources: ["older EIA", "SS-241", "40074", "capacitor appendix B"],
      },
      { value: "enough within rotation and lateral shift", sources: ["EIA-481-D p13"] },
    ],
    taken: "no limit; the old one stands in olderForm",
    because: "EIA-481-D as read comes first",
  },
  {
    letters: ["reel"],
    says: [
      {
        value: "adds an optional drive hole, revises the tolerances of the reel hole, adds size 0201M; no figures",
        sources: ["IEC 60286-3:2022 abstract"],
      },
    ],
    taken: "nothing",
    because: "a list of changes only",
  },
  {
    letters: ["peel"],
    widths: [8, 12],
    says: [
      { value: "0.1 to 1.0 N (8), 0.1 to 1.3 N (12)", sources: ["forum 2010", "28704"] },
      { value: "0.1 to 0.7 N at 120 mm/min, 0.2 to 1.0 N at 300 mm/min", sources: ["IEC 286-3 sheet"] },
      { value: "0.1 to 1.4 N (12)", sources: ["memory"] },
      { value: "20 to 80 gf in practice", sources: ["carrier maker on cracks"] },
    ],
    taken: "0.1 to 1.0 and 0.1 to 1.3 N",
    because: "the clause and a sheet of IEC 60286-3 form agree; the second edition is older; the rest is practice",
  },
  {
    letters: ["peel angle"],
    says: [
      { value: "165 to 180 degrees", sources: ["IEC 286-3 sheet", "28704"] },
      { value: "165 ±10 degrees", sources: ["PSA film article"] },
    ],
    taken: "165 to 180 degrees",
    because: "sheets in IEC form before an article",
  },
  {
    letters: ["film break"],
    says: [
      { value: "5 N", sources: ["module sheet 2020"] },
      { value: "9.8 N, or 10 N in IEC 60286-3", sources: ["memory"] },
    ],
    taken: "all three stand in coverBreak",
    because: "only 5 N is read",
  },
  {
    letters: ["HIPS strength"],
    says: [
      { value: "15 to 32 MPa", sources: ["HIPS page", "HIPS description", "PS ASTM values", "HIPS ASTM ranges"] },
      { value: "35 to 100 MPa ultimate", sources: ["HIPS table"] },
    ],
    taken: "15 to 32 MPa",
    because: "the higher span is not credible beside its own yield of 25 MPa",
  },
  {
    letters: ["paper density", "paper E"],
    says: [
      { value: "0.48 to 0.86 g/cm3, 3000 to 8900 MPa", sources: ["paper data"] },
      { value: "0.75 to 0.95 g/cm3, 2000 to 5000 MPa, carrier board", sources: ["memory"] },
    ],
    taken: "both: paper and carrierBoard",
    because: "papers in general are read, carrier board is not",
  },
];
