const INDENT = '  ';
const LEAST_SECOND_COLUMN = 24;

/** Two columns, the second wrapped beside the first; below it where the terminal is too narrow for both. */
export function rowsInColumns(rows: readonly (readonly [string, string])[], columns: number): string[] {
  const widest = Math.max(0, ...rows.map(([first]) => first.length));
  const left = INDENT.length + widest + (widest === 0 ? 0 : 2);
  const beside = columns - left >= LEAST_SECOND_COLUMN;
  return rows.flatMap(([first, second]) => {
    if (!beside) {
      const under = wrapWords(second, columns - 2 * INDENT.length).map((line) => INDENT + INDENT + line);
      return first === '' ? under : [INDENT + first, ...under];
    }
    return wrapWords(second, columns - left).map((line, index) =>
      index === 0 ? (INDENT + first).padEnd(left) + line : ' '.repeat(left) + line,
    );
  });
}

/** Breaks a text at its spaces; a word longer than the line stands alone. */
export function wrapWords(text: string, columns: number): string[] {
  const lines: string[] = [''];
  for (const word of text.split(' ')) {
    const line = lines.at(-1)!;
    if (line === '') lines[lines.length - 1] = word;
    else if (line.length + 1 + word.length <= columns) lines[lines.length - 1] = `${line} ${word}`;
    else lines.push(word);
  }
  return lines;
}
