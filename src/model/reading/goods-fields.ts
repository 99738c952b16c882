import { type Ticks, ticks } from '../../units/ticks.ts';
import type { Price } from '../cloth.ts';
import type { GoodsLine } from '../goods.ts';
import { readPrice } from './cloth-scalars.ts';
import { keyed, type Read, type ReadingContext, readAs, scalar } from './fields.ts';
import { readMoney } from './money-scalars.ts';
import { count, length, name, outOfRange } from './scalars.ts';

type GoodsPrice = { readonly each: number } | { readonly byLength: Price };

interface WrittenGoods {
  readonly name: string;
  readonly count?: number | undefined;
  readonly length?: Ticks | undefined;
  readonly have?: number | undefined;
  readonly 'have length'?: Ticks | undefined;
  readonly step?: Ticks | undefined;
  readonly price?: GoodsPrice | undefined;
  readonly shop?: string | undefined;
  readonly note?: string | undefined;
}

/** Something besides cloth: so many of it, or so much by length. */
export function goodsDefinition(context: ReadingContext) {
  const [some, step] = context.unit === 'in' ? ['2 1/2 yd', '1/8 yd'] : ['2.4 m', '10 cm'];
  const words = {
    wanted: 'keys such as name, count and price',
    example: '{ name: zip of 14 in, count: 8, price: 1.20, shop: harbour stores }',
  };
  return keyed(
    {
      name: name('What to get.', 'zip', 'any'),
      count: count('How many; either this or `length`.').optional(),
      length: length(
        { meaning: 'How much, for what is sold by length.', positive: true, example: some },
        context,
      ).optional(),
      have: count('How many of them are at hand already; none unless said.', 0, '2').optional(),
      'have length': length(
        {
          meaning: 'How much of the length is at hand already; none unless said.',
          round: 'down',
          example: some,
        },
        context,
      ).optional(),
      step: length(
        {
          meaning: 'What is sold by length is cut in whole multiples of this; to the length unless said.',
          positive: true,
          example: step,
        },
        context,
      ).optional(),
      price: goodsPrice(context).optional(),
      shop: name('Where it is bought.', 'harbour stores', 'any').optional(),
      note: name('A remark for the shopping list.', 'in off-white', 'any').optional(),
    },
    words,
  ).superRefine((written, issues) => {
    const fault = goodsFault(written);
    if (fault)
      issues.addIssue({ code: 'custom', path: [fault.key], message: '', params: { problem: fault.problem } });
  });
}

/** A price for one, or for a length. */
function goodsPrice(context: ReadingContext) {
  const example = '1.20';
  const wanted = `what one costs, such as ${example}, or a length of it, such as 2.40 per ${context.unit === 'in' ? 'yd' : 'm'}`;
  const read = (text: string): Read<GoodsPrice> => {
    if (/\bper\b|\/\s*[a-z]/i.test(text)) {
      const price = readPrice(text, context);
      return price.ok ? readAs({ byLength: price.value }) : price;
    }
    const each = readMoney(text, context);
    return each.ok ? readAs({ each: each.value }) : each;
  };
  return scalar({ wanted, example, meaning: 'What one costs, or a length of it.', read });
}

function goodsFault(written: WrittenGoods) {
  const { price, have = 0 } = written;
  const refuse = (key: keyof WrittenGoods, found: string, wanted: string) => ({
    key,
    problem: outOfRange(found, wanted).problem,
  });
  if (written.count === undefined && written.length === undefined)
    return refuse('count', 'neither count nor length', 'one of them, such as count: 8');
  if (written.count !== undefined && written.length !== undefined)
    return refuse('length', 'count and length', 'one of the two');
  const byLength = written.length !== undefined;
  for (const key of byLength ? (['have'] as const) : (['have length', 'step'] as const)) {
    if (written[key] !== undefined)
      return refuse(key, key, byLength ? 'have length: for what is sold by length' : 'count and have alone');
  }
  if (price !== undefined && 'each' in price === byLength) {
    return byLength
      ? refuse('price', 'a price for one', 'a price for a length, such as 2.40 per m')
      : refuse('price', 'a price for a length', 'a price for one, such as 1.20');
  }
  const tooMany = byLength ? (written['have length'] ?? 0) > written.length! : have > written.count!;
  if (tooMany)
    return refuse(byLength ? 'have length' : 'have', 'more than is needed', 'at most what is needed');
  return undefined;
}

export function toGoods(written: WrittenGoods): GoodsLine {
  const { price, shop, note } = written;
  const common = {
    name: written.name,
    ...(shop !== undefined && { shop }),
    ...(note !== undefined && { note }),
  };
  if (written.length === undefined) {
    return {
      ...common,
      sold: 'each',
      count: written.count!,
      have: written.have ?? 0,
      ...(price !== undefined && 'each' in price && { price: price.each }),
    };
  }
  return {
    ...common,
    sold: 'by length',
    length: written.length,
    have: written['have length'] ?? ticks(0),
    step: written.step ?? ticks(1),
    ...(price !== undefined && 'byLength' in price && { price: price.byLength }),
  };
}
