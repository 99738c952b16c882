/**
 * The known word that was most likely meant, or undefined when none is near.
 * Letters dropped, added, changed or swapped count one each (Damerau 1964, optimal string alignment, O(n·m));
 * a word is near when at most a third of its letters differ. Case, spaces, hyphens and underscores do not count.
 */
export function likelySpelling(found: string, known: readonly string[]): string | undefined {
  const wanted = plain(found);
  if (wanted.length === 0) return undefined;
  let best: { readonly word: string; readonly distance: number } | undefined;
  for (const word of known) {
    // Of two words equally near, the one with the right first letter is the likelier.
    const distance = editDistance(wanted, plain(word)) + (plain(word)[0] === wanted[0] ? 0 : 0.5);
    if (best === undefined || distance < best.distance) best = { word, distance };
  }
  if (best === undefined) return undefined;
  const allowed = Math.max(1, Math.floor(Math.max(wanted.length, best.word.length) / 3));
  return best.distance < allowed + 1 && !(wanted.length <= 2 && best.distance > 1) ? best.word : undefined;
}

function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]/g, '');
}

function editDistance(a: string, b: string): number {
  // Words far apart in length are never near, and pasted walls of text must not cost time.
  if (Math.abs(a.length - b.length) > 8 || a.length > 80 || b.length > 80) return Number.POSITIVE_INFINITY;
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= b.length; column += 1) {
      const changed = last[column - 1] + (a[row - 1] === b[column - 1] ? 0 : 1);
      let distance = Math.min(changed, last[column] + 1, current[column - 1] + 1);
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1]) {
        distance = Math.min(distance, beforeLast[column - 2] + 1);
      }
      current.push(distance);
    }
    [beforeLast, last] = [last, current];
  }
  return last[b.length];
}
