/**
 * A share in per cent as a person would round it, to the nearest tenth; but never as 100.0 what is not all, nor as 0.0 what is
 * not nothing.
 */
export function perCentTold(value: number): string {
  const rounded = Math.round(value * 10) / 10;
  if (rounded >= 100 && value < 100) return '99.9';
  return (rounded === 0 && value > 0 ? 0.1 : rounded).toFixed(1);
}
