import type { Factor, Hem, MeasureValue } from '../model/measure.ts';
import type { Size } from '../model/piece.ts';
import type { MakeOrder } from '../model/plan.ts';
import { type Ticks, ticks } from '../units/ticks.ts';

/**
 * An order's measures by kind. The plan was checked against the make's `MakeSpec` when it was read,
 * so a missing or ill-kinded measure is a fault of ours and throws.
 */
export interface Measures {
  readonly length: (name: string) => Ticks;
  readonly optionalLength: (name: string) => Ticks | undefined;
  readonly size: (name: string) => Size;
  readonly optionalSize: (name: string) => Size | undefined;
  readonly hem: (name: string) => Hem;
  readonly count: (name: string) => number;
  readonly optionalCount: (name: string) => number | undefined;
  readonly yesNo: (name: string) => boolean;
  readonly factor: (name: string) => Factor;
  readonly choice: <Choice extends string>(name: string, choices: readonly Choice[]) => Choice;
}

export function measuresOf(order: MakeOrder): Measures {
  const value = (name: string): MeasureValue | undefined =>
    Object.hasOwn(order.measures, name) ? order.measures[name] : undefined;
  const fail = (name: string, wanted: string): never => {
    throw new TypeError(`order "${order.name}": "${name}" is not ${wanted}: ${JSON.stringify(value(name))}`);
  };
  const number = (name: string): number => {
    const found = value(name);
    return typeof found === 'number' ? found : fail(name, 'a number');
  };
  const record = (name: string, key: string): object => {
    const found = value(name);
    return typeof found === 'object' && key in found ? found : fail(name, `a record with "${key}"`);
  };
  return {
    length: (name) => ticks(number(name)),
    optionalLength: (name) => (value(name) === undefined ? undefined : ticks(number(name))),
    size: (name) => record(name, 'width') as Size,
    optionalSize: (name) => (value(name) === undefined ? undefined : (record(name, 'width') as Size)),
    hem: (name) => record(name, 'visible') as Hem,
    count: number,
    optionalCount: (name) => (value(name) === undefined ? undefined : number(name)),
    yesNo: (name) => {
      const found = value(name);
      return typeof found === 'boolean' ? found : fail(name, 'yes or no');
    },
    factor: (name) => record(name, 'thousandths') as Factor,
    choice: (name, choices) =>
      choices.find((choice) => choice === value(name)) ?? fail(name, `one of ${choices.join(', ')}`),
  };
}
