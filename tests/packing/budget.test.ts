import { describe, expect, it } from 'vitest';
import { Budget } from '../../src/packing/search/budget.ts';

/** How often the caller is asked whether to end while so many nodes are spent in the given way. */
function asked(nodes: number, spend: (budget: Budget) => void): number {
  let times = 0;
  const budget = new Budget({
    effort: Infinity,
    seed: 1,
    stop: () => {
      times++;
      return false;
    },
  });
  while (budget.nodes < nodes) spend(budget);
  return times;
}

describe('Budget', () => {
  it('asks as often for a few nodes at once as for as many single ones', () => {
    const single = asked(7 * 4096, (budget) => budget.spend());
    expect(single).toBeGreaterThan(0);
    expect(asked(7 * 4096, (budget) => budget.spendFew(7))).toBe(single);
  });

  it('asks each time when many are spent at once', () => {
    expect(asked(700, (budget) => budget.spendMany(7))).toBe(100);
  });

  it.each([
    ['spend', (budget: Budget) => budget.spend()],
    ['spendFew', (budget: Budget) => budget.spendFew(3)],
    ['spendMany', (budget: Budget) => budget.spendMany(3)],
  ] as const)('ends with the effort, by %s', (_, spend) => {
    const budget = new Budget({ effort: 100, seed: 1 });
    while (!budget.ended) spend(budget);
    expect(budget.nodes).toBeGreaterThanOrEqual(100);
    expect(budget.nodes).toBeLessThan(103);
    expect(spend(budget)).toBe(true);
  });

  it('ends as soon as the caller says so when asked', () => {
    const budget = new Budget({ effort: Infinity, seed: 1, stop: () => true });
    expect(budget.spendMany(0)).toBe(true);
    const slow = new Budget({ effort: Infinity, seed: 1, stop: () => true });
    while (!slow.spendFew(5)) expect(slow.nodes).toBeLessThan(1000);
  });
});
