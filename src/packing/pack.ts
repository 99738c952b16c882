/**
 * The packing engine's three questions, and the decision that lies under them. Integers and rectangles only.
 *
 * Each answers with cut trees, a proven bound and whether the two meet; each is anytime, can be stopped, and gives
 * the same answer for the same question, seed and effort on any machine.
 */
export { fewestSheets } from './fewest.ts';
export { mostFromSheet } from './most.ts';
export { shortestLength } from './shortest.ts';
