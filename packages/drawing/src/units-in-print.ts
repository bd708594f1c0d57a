/** Words with units as a file writes them, in print: "12 um, 3 N/mm^2" as "12 µm, 3 N/mm²". Only what follows a number, a sign or stands alone is a unit. */
export const unitsInPrint = (words: string): string =>
  words
    .replace(/(?<![\p{L}\p{N}_])um(?![\p{L}\p{N}_])/gu, "µm")
    .replace(/(?<=\b(?:k?g|k?N|[munkc]?m|s|deg|rad)\b)\^2\b/g, "²")
    .replace(/(?<=\b(?:k?g|k?N|[munkc]?m|s|deg|rad)\b)\^3\b/g, "³")
    .replace(/(?<![\p{L}\p{N}_])degC(?![\p{L}\p{N}_])/gu, "°C");
