import { z } from 'zod';
import { likelySpelling } from '../../units/spelling.ts';
import type { Cloth, ClothName } from '../cloth.ts';
import type { ClothRules } from '../collection.ts';
import {
  keyed,
  listOf,
  problem,
  type Read,
  type ReadingContext,
  readAs,
  saying,
  scalar,
  type Words,
} from './fields.ts';
import { choice, name, outOfRange, readClothName } from './scalars.ts';

/** One cloth by name, or every cloth of a group. */
export type ClothAsked = { readonly cloth: ClothName } | { readonly group: string };

const GROUP = /^group\s+(\S.*)$/;

/** `oat linen`, `group plains`, or a list of such: what a part may be cut from. */
export function clothsAsked(meaning: string, context: ReadingContext) {
  const [first, second] = context.clothNames ?? [];
  const names = [first ?? 'lime wash', second ?? 'oat linen'];
  const words: Words = {
    wanted: `the name of a cloth of this plan, a list of several to choose from, or group and its name`,
    example: names[0],
  };
  const entry = (own: string) =>
    scalar({ ...words, meaning: own, read: (text) => readAsked(text, names, context) });
  const one = entry(meaning).transform((asked) => [asked]);
  const several = listOf(entry('One of the cloths it may be cut from.'), {
    wanted: 'a list of cloths to choose from',
    example: `[${names.join(', ')}]`,
  }).superRefine((asked, issues) => {
    const seen = asked.map((own) => ('cloth' in own ? own.cloth : `group ${own.group}`));
    const twice = seen.find((own, index) => seen.indexOf(own) < index);
    if (seen.length > 0 && twice === undefined) return;
    const found = twice ?? 'an empty list';
    const wanted =
      twice === undefined ? `one cloth at least, such as [${names.join(', ')}]` : 'each cloth once';
    issues.addIssue({ code: 'custom', message: '', params: outOfRange(found, wanted) });
  });
  return z.union([one, several], saying(words)).meta({ description: meaning });
}

/** Text that no name matches may have been meant as a choice; say how one is written. */
function readAsked(text: string, names: readonly string[], context: ReadingContext): Read<ClothAsked> {
  const known = readClothName(text, context);
  if (known.ok && context.clothNames !== undefined) return readAs({ cloth: text });
  const group = GROUP.exec(text);
  if (group !== null) return readGroup(group[1]!, context);
  if (/^(?:any|one|either) of\b/i.test(text)) {
    const wanted = `the cloths to choose from as a list, such as [${names.join(', ')}]`;
    return problem({ code: 'not-understood', details: { found: text, wanted } });
  }
  return known.ok ? readAs({ cloth: text }) : known;
}

function readGroup(found: string, { groupNames }: ReadingContext): Read<ClothAsked> {
  if (groupNames === undefined || groupNames.includes(found)) return readAs({ group: found });
  const likely = likelySpelling(found, groupNames);
  const details = { found, known: groupNames, ...(likely === undefined ? {} : { likely }) };
  return problem({ code: 'unknown-group', details });
}

/** The groups that a cloth belongs to. */
export function groupNames() {
  return listOf(name('A group that the cloth belongs to.', 'plains', 'any'), {
    wanted: 'a list of names of groups, such as [plains]',
    example: '[plains]',
  }).meta({ description: 'Names of groups, so that a part may ask for any cloth of a group.' });
}

export const RULE_KEYS = ['one cloth', 'alike', 'unlike', 'no cloth twice'] as const;

/** Rules for the cloths of a set; `parts` are those that may be named. */
export function rulesDefinition(parts: readonly string[]) {
  const [first, second] = [parts[0]!, parts[1] ?? parts[0]!];
  const list = (meaning: string, least: 1 | 2) =>
    listOf(choice('A part.', parts), { wanted: 'a list of parts', example: `[${first}]` })
      .superRefine((named, issues) => {
        if (new Set(named).size >= least) return;
        const wanted =
          least === 1
            ? `one part at least, such as [${first}]`
            : `two parts at least, such as [${first}, ${second}]`;
        const found = named.length === 0 ? 'an empty list' : named.join(', ');
        issues.addIssue({ code: 'custom', message: '', params: outOfRange(found, wanted) });
      })
      .meta({ description: meaning })
      .optional();
  return keyed(
    {
      'one cloth': list('Each of these parts is cut from one cloth throughout the set.', 1),
      alike: list('Within one thing, these parts are cut from the same cloth.', 2),
      unlike: list('Within one thing, no two of these parts are cut from the same cloth.', 2),
      'no cloth twice': list(
        'No cloth serves twice for these parts in the set; a part under `one cloth` counts once.',
        1,
      ),
    },
    {
      wanted: 'keys such as one cloth, alike, unlike and no cloth twice',
      example: `{ one cloth: [${first}] }`,
    },
  ).meta({ description: 'What must hold of the cloths within a set.' });
}

export type WrittenRules = z.output<ReturnType<typeof rulesDefinition>>;

export function toRules(written: WrittenRules | undefined): ClothRules {
  return {
    oneCloth: written?.['one cloth'] ?? [],
    alike: written?.alike ?? [],
    unlike: written?.unlike ?? [],
    noClothTwice: written?.['no cloth twice'] ?? [],
  };
}

/** The cloths that are asked for, each once, in the order of the plan. */
export function resolved(asked: readonly ClothAsked[], cloths: readonly Cloth[]): readonly ClothName[] {
  const isAsked = ({ name: own, groups = [] }: Cloth) =>
    asked.some((one) => ('cloth' in one ? one.cloth === own : groups.includes(one.group)));
  return cloths.filter(isAsked).map((cloth) => cloth.name);
}
