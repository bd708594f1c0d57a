/** Where the figures come from: titles, numbers and pages. Makers and addresses are left out. */
export interface Source {
  readonly title: string;
  readonly number?: string;
  readonly page?: string;
  readonly kind:
    | "standard"
    | "standard, second hand"
    | "maker's sheet"
    | "trade"
    | "handbook"
    | "paper"
    | "patent"
    | "memory"
    | "derived";
}

const table = {
  // Standards, and texts that repeat them
  "EIA-481-D p13": {
    title: "Embossed carrier tape, 8 to 24 mm (bilingual copy)",
    number: "EIA-481-D",
    page: "13, Table 2 and note 1(a) to (c)",
    kind: "standard",
  },
  "EIA-481-D p15": {
    title: "Embossed carrier tape, 32 to 200 mm (bilingual copy)",
    number: "EIA-481-D",
    page: "14, Figure 7, and 15, Table 3",
    kind: "standard",
  },
  "EIA-481-C fragments": {
    title: "Wide-tape table and its notes, 2003 (fragments of machine-read text)",
    number: "EIA-481-C",
    kind: "standard",
  },
  "EIA-B slides": {
    title: "Packing-material slides that repeat the tables of EIA-481-B (text partly scrambled)",
    number: "EIA-481-B",
    kind: "standard, second hand",
  },
  "IEC 60286-3:2022 abstract": {
    title: "Catalogue abstract: a list of changes, no figures",
    number: "IEC 60286-3:2022",
    kind: "standard",
  },
  "forum 2010": {
    title: "Trade forum thread of 2010 in which a user quotes clause 4.11, cover film peel force",
    number: "EIA-481, clause 4.11",
    kind: "standard, second hand",
  },

  // Makers' data sheets and packaging sheets
  C1003: {
    title: "A ceramic capacitor maker's data sheet (2016)",
    number: "C1003",
    page: "15, Table 6",
    kind: "maker's sheet",
  },
  "capacitor table 7": {
    title: "The same ceramic capacitor maker's sheets, punched paper tape, 8 mm",
    page: "Table 7",
    kind: "maker's sheet",
  },
  "capacitor table 5": {
    title: "A ceramic capacitor maker's packaging table, width and pitch by case (2018)",
    page: "Table 5",
    kind: "maker's sheet",
  },
  T2020: {
    title: "An aluminium polymer capacitor maker's data sheet (2019)",
    number: "T2020",
    page: "15, Table 4",
    kind: "maker's sheet",
  },
  "older EIA": {
    title: "A diode and transistor maker's embossed tape sheet in an older EIA-481 form, 8 to 24 mm",
    kind: "maker's sheet",
  },
  SO8: { title: "SO8 package information (2007), embossed tape, 8 to 24 mm", kind: "maker's sheet" },
  "SS-241": {
    title: "A ceramic capacitor maker's packaging specification in EIA-481-1 form, 8 and 12 mm",
    number: "SS-241 R5",
    kind: "maker's sheet",
  },
  "IEC 286-3 sheet": {
    title: "Chip resistor packaging sheet (1996) after IEC 286-3, second edition",
    kind: "maker's sheet",
  },
  "28704": {
    title: "Packaging of chip and MELF resistors (2009), IEC 60286-3 types I and II",
    number: "28704",
    kind: "maker's sheet",
  },
  "chip resistor 2016": { title: "Chip resistor data sheet (2016), body sizes", page: "2", kind: "maker's sheet" },
  "SOT-23 rev C": {
    title: "SOT-23 tape and reel data, revision C (1999)",
    page: "Figures 3.0 and 4.0",
    kind: "maker's sheet",
  },
  "SOT-223 2017": { title: "SOT-223 package document (2017)", kind: "maker's sheet" },
  "logic package sheets": {
    title: "A logic and analogue maker's package-materials sheets, nominal figures",
    kind: "maker's sheet",
  },
  "package sheets 1": {
    title: "A component maker's package-materials sheets, nominal figures: gates, op amps, references",
    kind: "maker's sheet",
  },
  "package sheets 2": {
    title: "A component maker's package-materials sheets, nominal figures: small outlines, QFN, oscillators",
    kind: "maker's sheet",
  },
  "package sheets 3": {
    title: "A component maker's package-materials sheets, nominal figures: regulators",
    kind: "maker's sheet",
  },
  "28-pin SOP 2008": {
    title: "28-pin SOP package information (2008): reel, carrier, cover width",
    kind: "maker's sheet",
  },
  "tantalum guide": {
    title: "Polymer tantalum capacitor guide, carrier tape and paper tape tables",
    kind: "maker's sheet",
  },
  "40074": {
    title: "Moulded tantalum capacitor guide (2018), notes",
    number: "40074",
    page: "5",
    kind: "maker's sheet",
  },
  "tantalum taping 2014": { title: "Tantalum capacitor taping sheet (2014), carrier thickness", kind: "maker's sheet" },
  "capacitor appendix B": { title: "Chip capacitor packaging, appendix B, notes", kind: "maker's sheet" },
  "MLCC packaging page": { title: "MLCC packaging page", kind: "maker's sheet" },
  "TSSOP drawing 1997": { title: "Carrier tape drawing for a TSSOP-14/16 (1997)", kind: "maker's sheet" },
  "optocoupler sheet 2011": {
    title: "Optocoupler data sheet (2011), tape",
    page: "section 3.5",
    kind: "maker's sheet",
  },
  "SMT trimmer sheet": { title: "SMT trimmer packaging sheet (2014)", kind: "maker's sheet" },
  "chip capacitor sheet": {
    title: "Chip capacitor packaging sheet: paper and embossed tape, reels",
    kind: "maker's sheet",
  },
  "SMA taping sheet": { title: "Taping sheet for SMA, SMB and SMC diodes", kind: "maker's sheet" },
  "SOD-123 taping sheet": { title: "Taping sheet for SOD-123 diodes", kind: "maker's sheet" },
  "diode packaging list": { title: "Diode packaging list, widths by case", kind: "maker's sheet" },
  "module packing page": { title: "Wireless module packing page, 44 mm tape", kind: "maker's sheet" },
  "module sheet 2020": { title: "Wireless module data sheet (2020)", page: "section 8.4", kind: "maker's sheet" },
  "resistor note 2022": { title: "Resistor note (2022) on static and small parts", kind: "maker's sheet" },

  "packing tutorial": { title: "Tutorial page on packing types of parts", kind: "trade" },

  // Cover film: trade texts and patents
  "PSA film article": {
    title: "Article on pressure-sensitive cover film: peel force, film types, static",
    kind: "trade",
  },
  "PSA film page": { title: "Product page on pressure-sensitive cover film", kind: "trade" },
  "forum 2002": { title: "Trade forum thread of 2002 on cover film breakage", kind: "trade" },
  "film defect guide": { title: "Guide to cover film defects", kind: "trade" },
  "film suppliers on charge": {
    title: "Cover film suppliers' pages on kinds of film and antistatic level",
    kind: "trade",
  },
  "carrier maker on cracks": { title: "Carrier tape page on seal cracks", kind: "trade" },
  "JP2006-182418": { title: "Cover tape patent, abstract and claim", number: "JP2006-182418", kind: "patent" },
  "JP2007-326602": { title: "Cover tape base film patent, abstract", number: "JP2007-326602", kind: "patent" },
  US5208103: {
    title: "Cover tape patents, abstracts (1989 application)",
    number: "US5208103, EP0372728",
    kind: "patent",
  },
  "JP2024-143146": { title: "Cover tape patent on curl, abstract", number: "JP2024-143146", kind: "patent" },

  // Film: properties, friction, peeling
  "film comparison": { title: "A polyester film maker's comparison of plastic films", kind: "maker's sheet" },
  "polyester film page": { title: "A polyester film maker's page on its 12 um film", kind: "maker's sheet" },
  "H-37232-3": { title: "Polyester film bulletin, 92 gauge", number: "H-37232-3", kind: "maker's sheet" },
  "BOPET maker table": { title: "A BOPET maker's property table, 100 and 150 um", kind: "maker's sheet" },
  "BOPET 8 um listing": { title: "Trade listing of an 8 um BOPET film", kind: "trade" },
  "PET friction page": { title: "Reference page on friction of PET film", kind: "trade" },
  "PMC4554610 table 1": {
    title: "Open paper with tear strengths of BOPP and LDPE film",
    number: "PMC4554610",
    page: "Table 1",
    kind: "paper",
  },
  "PR Applied 13 014031": { title: "Physical Review Applied 13 014031, opening of folds, abstract", kind: "paper" },
  "label article": { title: "Article on peel adhesion of labels: angle and speed", kind: "trade" },
  "peel angle article": { title: "Article on the effect of angle on peel adhesion of tapes and labels", kind: "trade" },
  "peel angle abstract": { title: "Effect of peel angle upon peel force, abstract", kind: "paper" },
  "Kendall 1975": { title: "Kendall, J. Phys. D 8 1449 (1975), abstract", kind: "paper" },
  "Thoroddsen 2010": { title: "Thoroddsen et al., Phys. Rev. E 82 046107 (2010), abstract", kind: "paper" },
  "Cortet 1301.7594": { title: "Cortet et al., arXiv 1301.7594, abstract", kind: "paper" },
  "Dalbe 1509.02799": { title: "Dalbe et al., arXiv 1509.02799, opening", kind: "paper" },

  // Carrier materials and friction of bodies
  "PS page": { title: "Property page on polystyrene (general-purpose values)", kind: "trade" },
  "PS ASTM values": { title: "ASTM values of general-purpose and high-impact polystyrene", kind: "trade" },
  "HIPS table": { title: "HIPS property table", kind: "trade" },
  "HIPS page": { title: "HIPS property page", kind: "trade" },
  "HIPS description": { title: "HIPS description", kind: "trade" },
  "HIPS ASTM ranges": { title: "HIPS mechanical properties, ASTM ranges", kind: "trade" },
  "PC UV grade": { title: "Polycarbonate UV grade, creep modulus", kind: "trade" },
  "paper data": {
    title: "Paper and cardboard data, from a text on eco-informed choice of materials",
    kind: "handbook",
  },
  "Hutchings 1997": { title: "de Silveira and Hutchings (1997), friction of paper and board", kind: "paper" },
  "Shackelford table 399": {
    title: "Shackelford, Materials Science and Engineering Handbook (2001)",
    page: "Table 399",
    kind: "handbook",
  },
  "plastic friction article": { title: "Trade article that quotes Burke and Malloy (1991)", kind: "trade" },
  "ABS sheet": { title: "ABS sheet data", kind: "trade" },
  "filled bearing plastic": { title: "Data page of a filled bearing plastic", kind: "trade" },
  "soft bearing plastic": { title: "Data page of a soft bearing plastic", kind: "trade" },
  "printed PLA friction 2025": {
    title: "Abrasion and friction of printed PLA and PA6 (2025)",
    number: "msp-2025-0039",
    kind: "paper",
  },
  "PLA PETG wear": { title: "Wear of printed PLA and PETG, abstract, JKSPE", kind: "paper" },
  "Cho 2024": { title: "Cho and Lee, JKSPE 41:145 (2024), abstract", kind: "paper" },

  // Spring and structural materials: material/figures.ts
  "1.4310 strip page": { title: "Data page of 1.4310 strip", number: "EN 10151, ISO 9445", kind: "trade" },
  "301 full hard page": { title: "Property page of 301 full hard", kind: "trade" },
  "ASTM A666 table": { title: "Table of 301 by temper", number: "ASTM A666", kind: "standard, second hand" },
  "Johansson and Nordberg": { title: "Johansson and Nordberg, fatigue properties of stainless steel", kind: "paper" },
  "cold-work table": { title: "Endurance of cold-worked stainless steel, table", kind: "handbook" },
  "301 full hard, AMS": { title: "Page of 301 full hard", number: "AMS 5519", kind: "trade" },
  "polyamide data page": { title: "Data page of a conditioned polyamide, melting at 262 degC", kind: "trade" },
  "high-carbon strip page": { title: "Page of high-carbon strip", number: "EN 10132-4, EN 10140", kind: "trade" },
  "C75S guide": { title: "Guide to C75S: properties, hardening, use", kind: "trade" },
  "laser service pages": { title: "Laser cutting services, pages on tolerance and on least web", kind: "trade" },
  "printed PLA page": { title: "Property page of printed PLA", kind: "trade" },
  "printed PETG page": { title: "Property page of printed PETG", kind: "trade" },
  "printed PA12 page": { title: "Property page of laser-sintered PA12", kind: "trade" },
  "PA12 fact sheet": { title: "Fact sheet of powder-bed PA12, fused by lamp", kind: "maker's sheet" },
  "Polymers 17:2075": {
    title: "Creep of printed PETG, abstract (2025)",
    number: "Polymers 17:2075",
    kind: "paper",
  },
  "IJB 9:756": { title: "Int J Bioprinting (2023), makers' table", number: "9:756", page: "Table 2", kind: "paper" },
  "ABS moulding grade": { title: "Data page of an ABS moulding grade", kind: "trade" },
  "resin data sheet": { title: "Data sheet of a durable printing resin, post-cured", kind: "maker's sheet" },
  "plastics handbook": { title: "Engineering Plastics Handbook", page: "Table 5.5", kind: "handbook" },

  // Not a source
  memory: { title: "Remembered, not read in any source: verify before use", kind: "memory" },
  derived: { title: "Worked out by arithmetic from the figures named in the note", kind: "derived" },
} as const satisfies Readonly<Record<string, Source>>;

export type SourceId = keyof typeof table;
export const sources: Readonly<Record<SourceId, Source>> = table;
