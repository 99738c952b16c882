import { floorTo, TICKS_PER_INCH, TICKS_PER_MM, type Ticks, ticks } from '../../units/ticks.ts';

type Unit = 'in' | 'cm';

/** Remnants are told down to an eighth of an inch, or a millimetre. */
const COARSE = { in: ticks(TICKS_PER_INCH / 8), cm: ticks(TICKS_PER_MM) } as const;
/** Places on the cloth that fall on no mark, as washed edges do, are told to the finest that is ever printed. */
const FINE = { in: ticks(TICKS_PER_INCH / 64), cm: ticks(TICKS_PER_MM / 10) } as const;

export const toldRemnant = (length: number, unit: Unit): Ticks => floorTo(ticks(length), COARSE[unit]);
export const toldPlace = (length: number, unit: Unit): Ticks => floorTo(ticks(length), FINE[unit]);
