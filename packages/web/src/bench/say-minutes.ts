/** Minutes of hands at the bench, as a person says them. */
export const sayMinutes = (minutes: number): string =>
  minutes < 120 ? `${minutes} min` : `${Number((minutes / 60).toPrecision(2))} h`;
