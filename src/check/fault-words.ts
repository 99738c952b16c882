import type { Size } from '../model/piece.ts';
import { type Ticks, ticks } from '../units/ticks.ts';
import type { FaultCode, FaultFigures, FaultPlace, PlanFault } from './plan-fault.ts';

/** Writes a length in the reader's own unit. */
export type SayLength = (length: Ticks) => string;

/** One fault in a sentence: where, what was found, what it ought to be. Lengths are written by `say`. */
export function wordFault({ code, where, figures }: PlanFault, say: SayLength): string {
  const sentence = sentences[code] as (figures: FaultFigures[FaultCode], say: SayLength) => string;
  return `${wordPlace(where, say)}${sentence(figures, say)}`;
}

function wordPlace({ cloth, length, piece, box }: FaultPlace, say: SayLength): string {
  const names = [cloth, length, piece].filter((name) => name !== undefined).map((name) => `"${name}"`);
  const spot = box ? [`at ${say(box.x0)} across, ${say(box.y0)} along`] : [];
  const words = [...names, ...spot];
  return words.length === 0 ? '' : `${words.join(', ')}: `;
}

type Sentences = { readonly [Code in FaultCode]: (figures: FaultFigures[Code], say: SayLength) => string };

const sentences: Sentences = {
  'cloth-unknown': () => 'cut from, but the plan has no such cloth.',
  'cloth-repeated': () => 'listed more than once.',
  'cloth-out-of-order': () => "not listed in the order of the plan's cloths.",
  'cloth-left-out': ({ wanted }) =>
    `${count(wanted, 'piece')} wanted from this cloth, but it is not cut at all.`,
  'piece-repeated': () => 'two pieces wanted bear this name.',
  'piece-off-marks': ({ size, mark }, say) =>
    `the cut size ${both(size, say)} does not lie on the ruler's marks of ${say(mark)}.`,
  'piece-under-size': ({ size, exactSize }, say) =>
    `the cut size ${both(size, say)} is smaller than the ${both(exactSize, say)} that is needed.`,
  'loose-piece-unmet': ({ wanted }) =>
    `${count(wanted, 'piece')} of this size, cloth and grain asked for, but not planned.`,
  'order-unmet': ({ count: ordered }) => `${ordered} ordered, but no piece is planned for them.`,
  'order-misread': ({ copies, count: ordered }) =>
    `${copies} of it do not serve an order of ${ordered}, or the order names another cloth.`,
  'piece-unasked': () => 'planned, but nothing in the plan asks for it.',
  'choice-missing': () => 'its cloth is open, but no choice is told.',
  'choice-unasked': () => 'a choice of cloths is told, though the plan leaves none open.',
  'choice-lots': ({ found, wanted }) => `cloths are chosen for ${found} of ${wanted}.`,
  'choice-part': ({ part }) => `its part "${part}" is missing from the choice, or is none of its parts.`,
  'choice-cloth': ({ part }) => `chosen for the part "${part}", which may not be cut from it.`,
  'choice-rule': ({ rule, set }) => `breaks the rule "${rule}" of the set "${set}".`,
  'choice-pieces': ({ found, wanted }) =>
    `${count(found, 'piece')} wanted where the choice of cloths comes to ${wanted}.`,
  'choice-total': ({ found, wanted }) =>
    `the choice of cloths is said to come to ${found}; what is bought comes to ${wanted}.`,
  'choice-bound': ({ bound, total }) =>
    `no choice of cloths is said to come to less than ${bound}, but this one comes to ${total}.`,
  'opening-unasked': () => 'the plan chooses which way it closes, though the order says.',
  'opening-counts': ({ level, upright, count: ordered }) =>
    `${level} close level and ${upright} upright, which is no allowed way to close ${ordered}.`,
  'opening-backs': ({ opening, covers }) =>
    covers === 0
      ? `has backs for covers that close ${opening}, though none do.`
      : `has no backs for the ${count(covers, 'cover')} that close ${opening}.`,
  'opening-turned': ({ opening }) => `is not hemmed for a cover that closes ${opening}.`,
  'joined-piece-cut': () => 'cut whole although it is joined from parts.',
  'join-parts': ({ found, wanted }) =>
    `joined from ${count(wanted, 'part')}, but ${found} are cut as they must be.`,
  'join-extents': ({ found, wanted }, say) =>
    `the parts come to ${say(found)}; with what the joins take up, ${say(wanted)} are needed.`,
  'join-copies': ({ found, wanted }) => `${found} of it are joined where ${wanted} are wanted.`,
  'join-lines': ({ found, wanted, part }) =>
    `${found} of the ${count(wanted, 'join')} of "${part}" are drawn where they lie.`,
  'join-against-rule': ({ joins }) => `is not allowed to be joined so, with ${count(joins, 'join')}.`,
  'part-of-nothing': () => 'a part that no piece is joined from.',
  'length-unknown': ({ known }) =>
    known.length === 0
      ? 'no such length is in hand.'
      : `no such length is in hand; there is ${known.join(', ')}.`,
  'length-repeated': ({ times }) => `listed ${times} times.`,
  'length-width': ({ found, wanted }, say) =>
    `planned ${say(found)} wide; on the table it is ${say(wanted)}.`,
  'length-length': ({ found, wanted }, say) =>
    `planned ${say(found)} long; on the table it is ${say(wanted)}.`,
  'length-uncut': () => 'no piece is cut from it.',
  'length-not-as-measured': ({ found, measured }, say) =>
    `cut as ${say(found.width)} by ${say(found.length)}; at the mat it measured ${say(measured.width)} by ${say(measured.length)}.`,
  'cut-parts': ({ cuts, parts }) => `${count(cuts, 'cut')} cannot make ${count(parts, 'part')}.`,
  'cut-position': ({ at, after, before }, say) =>
    `a cut at ${sayAny(at, say)} does not lie between ${sayAny(after, say)} and ${sayAny(before, say)}.`,
  'cloth-lost': ({ found, whole }) =>
    `the parts come to ${((100 * found) / whole).toFixed(2)} % of the cloth, not to the whole of it.`,
  'cut-off-marks': ({ direction, at, from, mark }, say) =>
    `a ${wordCut(direction)} at ${say(at)}, measured from ${say(from)}, misses the ruler's marks of ${say(mark)}.`,
  'too-many-stages': ({ found, most }) => `needs ${found} cut stages, but at most ${most} are allowed.`,
  'piece-unknown': () => 'is cut, but no such piece is wanted.',
  'piece-of-another-cloth': ({ belongs }) => `ought to be cut from "${belongs}".`,
  'piece-size': ({ found, wanted }, say) =>
    `comes out as ${both(found, say)} instead of ${both(wanted, say)}.`,
  'piece-over-selvedge': ({ side, over }, say) => `lies ${say(over)} over the ${side} selvedge.`,
  'piece-over-crease': ({ over, each }, say) =>
    `lies ${say(over)} over the strip of ${say(each)} that is kept off either side of the crease.`,
  'piece-in-squaring': ({ end, over }, say) =>
    `lies ${say(over)} within what is lost in squaring the ${end} end.`,
  'piece-against-print': ({ quarterTurns }) =>
    `lies across the print (${count(quarterTurns, 'quarter turn')}).`,
  'piece-off-grain': ({ quarterTurns, grain }) =>
    `lies off its ${grain} grain (${count(quarterTurns, 'quarter turn')}).`,
  'piece-over-flaw': ({ flaw }) => `lies over flaw ${flaw}.`,
  'remnant-over-flaw': ({ flaw }) => `a leftover to keep holds flaw ${flaw}.`,
  'match-missed': ({ at, from }, say) =>
    `lies at ${say(ticks(at[0]))} across and ${say(ticks(at[1]))} along, which is no place of the print that starts at ${say(ticks(from[0]))} and ${say(ticks(from[1]))}.`,
  'match-turned': ({ found, wanted }) =>
    `lies ${count(found, 'quarter turn')} round, and its print asks for ${wanted}.`,
  'begin-wrong': ({ found, wanted }, say) =>
    `gives up to ${say(found)} at its near end to begin its print; it has to be ${say(wanted)}.`,
  'begin-untold': () => 'is begun in its print, but where the first motif then lies is not told.',
  'begins-apart': () => 'does not lie in the print as its fellows on another length do.',
  'match-without-repeat': () => 'is to be matched on a cloth without a repeat.',
  'panel-missing': ({ panel }) => `does not hold the panel "${panel}" whole.`,
  'panel-off-centre': ({ panel, at }, say) =>
    `does not have the panel "${panel}", from ${say(at.x0)} across and ${say(at.y0)} along, in its middle.`,
  'panel-turned': ({ panel, found, wanted }) =>
    `lies ${count(found, 'quarter turn')} round, and its panel "${panel}" ${wanted}.`,
  'panel-margin': ({ found, wanted }, say) =>
    `has ${say(found)} of cloth beside its panel where ${say(wanted)} is sewn or turned.`,
  'panel-cut': ({ panel }) => `the panel "${panel}", which no piece takes, is not left whole.`,
  'panel-folded': () => 'is cut folded, over panels that are to stay whole.',
  'panel-dealt': ({ panel, found, wanted }) =>
    `${found} are cut around the panel "${panel}" in place of ${wanted}.`,
  'mount-wrong': ({ what }) => `${what} is not as the plan asks for around panels.`,
  'remnant-too-small': ({ found, keep }, say) =>
    `a remnant of ${both(found, say)} is smaller than the ${both(keep, say)} worth keeping.`,
  'remnant-counts-trim': ({ found }, say) =>
    `a remnant of ${both(found, say)} counts selvedge, crease strip or a squared end as cloth.`,
  'scrap-keepable': ({ found, keep }, say) =>
    `${both(found, say)} is called scrap, but ${both(keep, say)} is worth keeping.`,
  'scrap-counts-trim': ({ found }, say) =>
    `${both(found, say)} is called scrap, but it is all selvedge, crease strip or squared end.`,
  'trim-misplaced': ({ of, found }, say) =>
    `${both(found, say)} is called ${of} trim, but it lies elsewhere.`,
  'trim-keepable': ({ found, keep }, say) =>
    `${both(found, say)} of usable cloth is called trim, but ${both(keep, say)} is worth keeping.`,
  'fold-missing': () => 'ought to be cut folded, but lies flat.',
  'fold-misplaced': ({ foldAt, width }, say) =>
    `a fold at ${say(foldAt)} of ${say(width)} is neither at the crease nor clear of it.`,
  'fold-not-as-asked': ({ foldAt, asked }, say) =>
    `it is folded at ${say(foldAt)}, and the plan asks for a fold at ${say(asked)}.`,
  'piece-off-fold': ({ middle }, say) =>
    `is to be cut on a fold, and its middle line lies at ${say(ticks(Math.floor(middle)))}, on none.`,
  'fold-piece-alone': ({ foldAt }, say) => `has no piece of its size mirrored at the fold at ${say(foldAt)}.`,
  'fold-cut-alone': ({ direction, at, foldAt }, say) =>
    `the ${wordCut(direction)} at ${say(at)} is not the same in both plies of the fold at ${say(foldAt)}.`,
  'stack-unasked': ({ edge }) => `stacked at its ${edge} edge, which the plan does not ask for.`,
  'stack-plies': ({ plies, most }) =>
    `${plies} cloths lie on each other, but at most ${count(most, 'ply', 'plies')} may be cut at once.`,
  'stack-not-free': () => 'stacked at a price, but the plan takes only stacks that cost nothing.',
  'stack-layers': ({ layers, sound }) =>
    `only ${sound} of the ${count(layers, 'layer')} stacked are lengths of their own that are cut.`,
  'stack-folded': () => 'folded, so that it cannot lie in a stack of flat cloths.',
  'stack-sections': () => 'told to be cut into sections before it is stacked, but cut lengthwise first.',
  'stack-disagrees': ({ cuts }) =>
    `${count(cuts, 'cut')} of it or of the first layer of its stack, but not of both.`,
  'pieces-short': ({ found, wanted }) => `only ${found} of ${wanted} are cut.`,
  'surplus-undeclared': ({ found, wanted, declared }) =>
    `${found} are cut where ${wanted} are wanted, with ${declared} declared as surplus.`,
  'surplus-unreal': ({ declared, found }) => `${declared} declared as surplus, but the surplus is ${found}.`,
  'surplus-misdeclared': ({ copies, times }) =>
    `a surplus of ${copies}, declared ${times} times, is no surplus of a piece of this cloth.`,
  'purchase-missing': () => 'cut from cloth to buy, but nothing is bought.',
  'purchase-lengths': ({ listed, cut }) =>
    `${count(listed, 'length')} listed as bought, but ${cut} of those cut.`,
  'purchase-total': ({ of, found, wanted }, say) =>
    `${say(found)} given as ${of} in all; the lengths come to ${say(wanted)}.`,
  'purchase-not-sold': () => 'cloth is bought that the plan does not offer for sale.',
  'needed-wrong': ({ found, wanted }, say) => `said to need ${say(found)}; the cuts need ${say(wanted)}.`,
  'bought-wrong': ({ found, wanted }, say) =>
    `${say(found)} are bought; what is needed, in whole steps of the shop, is ${say(wanted)}.`,
  'bought-apart': ({ lengths, bought }, say) =>
    `${say(bought)} are bought in ${lengths} lengths, though the shop sells that in one.`,
  'bought-too-long': ({ found, longest }, say) =>
    `${say(found)} are bought, but the longest length sold is ${say(longest)}.`,
  'cost-wrong': ({ found, wanted }) => `the cost is given as ${money(found)}; it comes to ${money(wanted)}.`,
  'bound-missing': () => 'no least length is stated for what is bought.',
  'bound-without-purchase': ({ bound }, say) =>
    `a least length of ${say(bound)} is stated, but nothing is bought.`,
  'bound-over-needed': ({ bound, needed }, say) =>
    `no plan is said to need less than ${say(bound)}, but this one needs ${say(needed)}.`,
  'best-unproven': ({ bound, needed, bought }, say) =>
    `called best with ${say(needed)} needed and ${say(bought)} bought, but ${say(bound)} might do.`,
  'left-of-nothing': () => 'offered as a leftover, but the plan leaves no such length.',
  'left-twice': () => 'offered as a leftover, though some of it is offered under another name.',
  'left-size': () => 'offered as a leftover of another size than the place it lies in.',
  'washed-size-unasked': () => 'is cut larger for a wash that its cloth does not ask it for.',
  'washed-size-missing': () => 'is not told to what size the wash is to bring it.',
  'washed-size-misread': ({ found, wanted }, say) =>
    `is to come to ${both(found, say)} in the wash, not to the ${both(wanted, say)} that is asked for.`,
  'washed-grain-open': () => 'may lie either way of the cloth, which does not shrink alike both ways.',
  'washed-too-small': ({ side, found, wanted }, say) =>
    `is sewn ${say(found)} in ${side}, which the wash leaves under ${say(wanted)}.`,
  'washed-too-large': ({ side, found, wanted }, say) =>
    `is sewn ${say(found)} in ${side}, more than it takes to come to ${say(wanted)} in the wash.`,
  'left-outside': () => 'offered as a leftover, but some of it lies beyond the squared length.',
  'left-over-piece': () => 'offered as a leftover, though a piece is cut there.',
  'left-over-flaw': () => 'offered as a leftover, though a flaw lies in it.',
  'left-selvedge': () => 'offered as a leftover, and a selvedge in it counted as cloth.',
  'left-crease': () => 'offered as a leftover, though the crease that is kept off runs in it unsaid.',
  'left-too-small': () => 'offered as a leftover, but too small to keep.',
  'left-cloth': () => 'its leftovers are not told as the same cloth.',
  'left-print': () => 'offered as a leftover whose print does not lie as it is told.',
  'use-parts': () => 'a part of it is cut from a cloth that it may not be cut from.',
  'use-cloth': () => 'offered, but not planned on that cloth alone.',
  'use-count': () => 'offered otherwise than it is planned, or than it is of use.',
  'use-worth': () => 'said to be worth something else than so many are worth.',
  'more-wants': () => 'planned with more cloth, but without all that was wanted.',
  'more-bought': () => 'said to need another addition than it is planned with.',
  'more-cost': () => 'said to cost something else than the addition costs.',
};

function both({ width, length }: Size, say: SayLength): string {
  return `${say(width)} × ${say(length)}`;
}

function count(found: number, noun: string, many = `${noun}s`): string {
  return `${found} ${found === 1 ? noun : many}`;
}

/** A position that may be no whole number of ticks at all, since it was found at fault. */
function sayAny(length: number, say: SayLength): string {
  return Number.isSafeInteger(length) ? say(length as Ticks) : String(length);
}

function wordCut(direction: 'crosscut' | 'lengthwise'): string {
  return direction === 'crosscut' ? 'crosscut' : 'lengthwise cut';
}

function money(hundredths: number | undefined): string {
  return hundredths === undefined ? 'nothing' : (hundredths / 100).toFixed(2);
}

/** Every kind of fault that the checker knows. */
export const faultCodes = Object.keys(sentences) as readonly FaultCode[];
