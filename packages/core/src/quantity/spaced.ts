/** A count as it is read: a whole number with a space before every three digits, from a thousand on. */
export const spaced = (n: number): string => `${Math.round(n)}`.replace(/\B(?=(\d{3})+$)/g, " ");
