/** Random orders of every make in the catalogue, drawn from what its own record says of its measures. */
import fc from 'fast-check';
import { makes } from '../../src/makes/catalogue.ts';
import type { MakeSpec, MeasureSpec, MeasureValue } from '../../src/model/measure.ts';
import type { MakeOrder, PlanUnit } from '../../src/model/plan.ts';
import { type Parsed, parseHem, parseLength } from '../../src/units/parse.ts';
import { randomLength } from './random-cloth.ts';

/** One order; its parts are cut from any of `cloths`, and an optional part is left out now and then. */
export function randomOrder(
  unit: PlanUnit,
  name: string,
  cloths: readonly string[],
): fc.Arbitrary<MakeOrder> {
  return fc.constantFrom(...makes).chain(({ spec }) =>
    fc.record({
      name: fc.constant(name),
      make: fc.constant(spec.kind),
      count: fc.integer({ min: 1, max: 5 }),
      measures: fc.record(measuresOf(spec, unit)) as fc.Arbitrary<Record<string, MeasureValue>>,
      cloths: clothsOf(spec, cloths),
    }),
  );
}

function measuresOf({ measures }: MakeSpec, unit: PlanUnit): Record<string, fc.Arbitrary<MeasureValue>> {
  const wanted = Object.entries(measures).filter(([, measure]) => !measure.optional);
  return Object.fromEntries(wanted.map(([name, measure]) => [name, measureOf(measure, unit)]));
}

function measureOf(measure: MeasureSpec, unit: PlanUnit): fc.Arbitrary<MeasureValue> {
  const text = measure.default?.[unit === 'in' ? 'inches' : 'metric'];
  const reading = { unit, round: 'up' } as const;
  switch (measure.kind) {
    case 'size':
      return fc.record({ width: randomLength(unit, 60, 170), length: randomLength(unit, 70, 190) });
    case 'length':
      return text === undefined
        ? randomLength(unit, 10, 90)
        : fc.constant(readDefault(parseLength(text, reading)));
    case 'hem':
      return text === undefined
        ? fc.record({ visible: randomLength(unit, 4, 12), under: randomLength(unit, 2, 4) })
        : fc.constant(readDefault(parseHem(text, reading)));
    case 'count':
      return fc.integer({ min: measure.least, max: measure.least + 2 });
    case 'factor': {
      const [least, most] = [Number(measure.least), Number(measure.most)];
      return fc
        .integer({ min: Math.ceil(1000 * least), max: Math.floor(1000 * Math.min(most, 3)) })
        .map((thousandths) => ({ thousandths }));
    }
    case 'choice':
      return fc.constantFrom(...measure.choices);
    case 'yes-no':
      return fc.boolean();
  }
}

function clothsOf({ parts }: MakeSpec, cloths: readonly string[]): fc.Arbitrary<Record<string, string>> {
  const required = Object.keys(parts).filter((part) => !parts[part]!.optional);
  const choices = Object.fromEntries(Object.keys(parts).map((part) => [part, fc.constantFrom(...cloths)]));
  return fc.record(choices, { requiredKeys: required }) as fc.Arbitrary<Record<string, string>>;
}

function readDefault<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(`a default that cannot be read: ${JSON.stringify(parsed)}`);
  return parsed.value;
}
