/**
 * Twist at which the middle fibre of a free span first goes slack.
 *
 *     2 sin(phi/2) = sqrt(24 P/(Eh b)) L/b
 *
 * phi  turn between the two guides, rad             P   pull, N                       0.05 .. 20
 * Eh   stretching stiffness per width, N/m          60e3 .. 240e3
 * b    width of the film, m   0.003 .. 0.2          L   length of the span, m         0.005 .. 0.5
 *
 * Fibres that bear tension alone, small strains: all are taut while the mean strain P/(Eh b) is at least (2 sin(phi/2) b/L)^2/24. For a small
 * twist this is the threshold of the twisted ribbon (Green 1937; coefficient from memory, derived here again). A film of finite thickness
 * stays flat somewhat longer. It decides nothing: narrow film runs well at 1.4 times this twist. Above 2 no twist slackens the span.
 */
export function slackTwist({ P, Eh, b, L }: { P: number; Eh: number; b: number; L: number }): number {
  if (!(P >= 0)) throw new RangeError(`the pull is ${P} N; a film that is pushed has no taut fibre`);
  return (Math.sqrt((24 * P) / (Eh * b)) * L) / b;
}
