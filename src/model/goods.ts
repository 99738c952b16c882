import type { Ticks } from '../units/ticks.ts';
import type { Price } from './cloth.ts';

/** Something besides cloth that the plan needs: zips, thread, wadding by the length. */
export type GoodsLine = {
  readonly name: string;
  readonly shop?: string;
  readonly note?: string;
} & (
  | {
      readonly sold: 'each';
      readonly count: number;
      /** Of them already at hand. */
      readonly have: number;
      /** In hundredths, for one. */
      readonly price?: number;
    }
  | {
      readonly sold: 'by length';
      /** All that is needed. */
      readonly length: Ticks;
      readonly have: Ticks;
      /** The shop cuts whole multiples of this. */
      readonly step: Ticks;
      readonly price?: Price;
    }
);
