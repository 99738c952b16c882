/** A file of src/: its path from there with forward slashes, and its text. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** Low to high. Rooms of one row do not import each other, except that model may use units. */
const ROWS: readonly (readonly string[])[] = [
  ['units', 'model'],
  ['geometry', 'check'],
  ['packing', 'makes', 'cloth'],
  ['planning'],
  ['rendering'],
  ['cli', 'page'],
];

/** Rooms that take even less than their row allows. */
const ONLY: Readonly<Record<string, readonly string[]>> = {
  check: ['units', 'model'],
  // Integers and rectangles only; of model, the type of the tree and no more.
  packing: ['geometry', 'model'],
  rendering: ['units', 'model', 'geometry', 'check', 'makes', 'cloth', 'planning'],
};

/** Where each library may be imported; any other library has no place in src/. */
const LIBRARIES: readonly (readonly [library: RegExp, home: RegExp])[] = [
  [/^pdfkit$/, /^rendering\/pdf/],
  [/^@svgdotjs\/svg\.js$/, /^rendering\/svg/],
  [/^commander$/, /^cli\//],
  [/^svgdom$/, /^cli\//],
  [/^@flatten-js\/core$/, /^geometry\/outline\.ts$/],
  // Beside the reader: what `new` writes is quoted by the same library that will read it.
  [/^yaml$/, /^(?:model\/|cli\/new-plan-text\.ts$)/],
  // Beside the plan file: the schema of the plan that is written.
  [/^zod$/, /^(?:model\/|rendering\/plan-json-schema\.ts$)/],
];

/** Names of the machine, the clock, chance and the page, none of which the engine may touch. */
const MACHINE =
  /(?<![.\w$])(?:(process|performance|console|require|globalThis|window|document|navigator|localStorage|fetch|setTimeout|setInterval|setImmediate|queueMicrotask|__dirname|__filename|Buffer|crypto)\s*[.([]|Date\.now\b|Date\(\s*\)|Math\.random\b)/g;

/** What a file does that its room may not; one line each. Empty when all is well. */
export function violations({ path, text }: SourceFile): readonly string[] {
  const code = withoutComments(text);
  const imports = importsOf(code).flatMap((found) => importViolation(path, found) ?? []);
  return [...imports, ...machineViolations(path, withoutText(code))].map((what) => `${path}: ${what}`);
}

interface Import {
  readonly from: string;
  readonly typesOnly: boolean;
}

function importsOf(code: string): readonly Import[] {
  const statements = code.matchAll(
    /\b(?:import|export)\s+(type\s)?(?:[\w$*\s{},]*?\s*from\s*)?(['"])([^'"]+)\2|\bimport\s*\(\s*(['"])([^'"]+)\4/g,
  );
  return [...statements].map((found) => ({ from: found[3] ?? found[5], typesOnly: found[1] !== undefined }));
}

function importViolation(path: string, { from, typesOnly }: Import): string | undefined {
  const room = path.split('/')[0];
  const row = rowOf(room);
  // The doorway of the house: files straight in src/ belong to no room.
  if (row < 0) return `is in the unknown room ${room}`;
  if (!from.startsWith('.')) return libraryViolation(path, room, from);
  if (!/\.(?:ts|json)$/.test(from)) return `imports ${from} without its ending`;
  const target = resolved(path, from);
  const other = target.split('/')[0];
  if (other === room) return undefined;
  const allowed = ONLY[room]?.includes(other) ?? true;
  const lower = rowOf(other) >= 0 && (rowOf(other) < row || (room === 'model' && other === 'units'));
  if (!lower || !allowed) return `imports ${target}, which lies above or beside it`;
  const treeOnly = room !== 'packing' || other !== 'model' || (typesOnly && target === 'model/cut-tree.ts');
  return treeOnly ? undefined : `imports ${target}; of model, packing takes the type of the cut tree only`;
}

function libraryViolation(path: string, room: string, from: string): string | undefined {
  const isHome = LIBRARIES.find(([library]) => library.test(from))?.[1].test(path);
  if (isHome !== undefined) return isHome ? undefined : `imports ${from}, which has its home elsewhere`;
  if (from.startsWith('node:') && room === 'cli') return undefined;
  return `imports ${from}, which has no place here`;
}

function machineViolations(path: string, code: string): readonly string[] {
  if (/^(?:cli|page)\//.test(path)) return [];
  const found = [...code.matchAll(MACHINE)].filter((use) => use[1] === undefined || !declares(code, use[1]));
  return [...new Set(found.map((use) => `uses ${use[1] ?? use[0]}`))];
}

/** Whether the file has a variable or parameter of its own of that name (a PDF `document`, a `window` to search in). */
function declares(code: string, name: string): boolean {
  return new RegExp(`(?:const|let|function)\\s+${name}\\b|[({,]\\s*${name}\\s*[:,)}=]|\\b${name}\\s*=>`).test(
    code,
  );
}

function rowOf(room: string): number {
  return ROWS.findIndex((rooms) => rooms.includes(room));
}

/** The path from src/ that a relative import leads to. */
function resolved(path: string, from: string): string {
  const parts = path.split('/').slice(0, -1);
  for (const step of from.split('/')) {
    if (step === '..') parts.pop();
    else if (step !== '.') parts.push(step);
  }
  return parts.join('/');
}

function withoutComments(text: string): string {
  return text.replace(
    /("(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'|`(?:[^`\\]|\\.)*`)|\/\*[\s\S]*?\*\/|\/\/[^\n]*/g,
    '$1',
  );
}

/** Text in quotes says nothing of what the code does; code inside a template does, and stays. */
function withoutText(code: string): string {
  return code
    .replace(/"(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*'/g, "''")
    .replace(/`(?:[^`\\]|\\.)*`/g, (template) =>
      [...template.matchAll(/\$\{([^}]*)\}/g)].map((hole) => hole[1]).join(';'),
    );
}
