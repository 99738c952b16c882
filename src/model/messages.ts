import { formatLength } from '../units/format.ts';
import type { RefusalReason } from '../units/refusal.ts';
import { ceilTo, type Ticks, ticks } from '../units/ticks.ts';
import type { Issue, IssueCode, IssueDetails, Path, YamlFault } from './issue.ts';
import type { PlanUnit } from './plan.ts';

/**
 * One problem, with its lengths in `unit`, as a line for the person who wrote the plan: where, what was found, what would work.
 * `layouts/hall.yaml:12:5 cloths.gull stripe.width: found "54 inn" ("inn" is no unit; likely "in"); write a length such as 54, 17 3/8 in, 1 1/4 yd.`
 */
export function wordIssue(issue: Issue, unit: PlanUnit): string {
  const { place } = issue;
  const where = place === undefined ? '' : `${place.file}:${place.line}:${place.column} `;
  const path = wordPath(issue.path);
  const remark = issue.severity === 'error' ? '' : `${issue.severity}: `;
  return `${where}${remark}${path === '' ? '' : `${path}: `}${wordDetails(issue, unit)}`;
}

/** `make[2].cloth.backs`: keys as they are written; positions in a list count from 1, as a person does. */
export function wordPath(path: Path): string {
  return path
    .map((segment) => (typeof segment === 'number' ? `[${segment + 1}]` : `.${short(segment)}`))
    .join('')
    .replace(/^\./, '');
}

/** The message alone, without place and path: for pages and tables that show those elsewhere. */
export function wordDetails(issue: Issue, unit: PlanUnit): string {
  const word = WORDING[issue.code] as (details: Issue['details'], write: WriteLength) => string;
  return word(issue.details, (length) => formatLength(length, { unit }));
}

type WriteLength = (length: Ticks) => string;

type Wording = { readonly [Code in IssueCode]: (details: IssueDetails[Code], write: WriteLength) => string };

const WHERE_MOTIFS_LIE = {
  repeat: 'that its print repeats',
  along: 'how far the print repeats along the length',
  across: 'how far the print repeats across the width',
  'from edge': 'how far the first motif is from the edge (from edge)',
} as const;

const WORDING: Wording = {
  'unknown-key': ({ key, known, likely }) =>
    `"${key}" is not known here; ${likely === undefined ? `known are ${list(known, 'and')}` : `likely "${likely}"`}.`,
  missing: ({ field, example }) => `missing; write ${field === '' ? '' : `${field}: `}${example}`,
  'not-understood': ({ found, wanted, likely, reason, part }) =>
    `found ${quoted(found)}${why(reason, part ?? found, likely)}; write ${wanted}.`,
  'out-of-range': ({ found, wanted }) => `found ${quoted(found)}; write ${wanted}.`,
  'yaml-syntax': ({ found, fault }) => `${YAML_FAULTS[fault ?? 'other']} Found: ${found}`,
  'not-text': ({ fault, found }) => TEXT_FAULTS[fault].replace('{found}', found),
  'yaml-feature': ({ found, feature }) => `${YAML_FEATURES[feature].replace('{found}', found)}`,
  'duplicate-key': ({ key, firstLine }) =>
    `"${short(key)}" stands here a second time, first in line ${firstLine}; keep one of the two.`,
  'duplicate-name': ({ name, firstLine }) =>
    `the name "${short(name)}" is taken already in line ${firstLine}; give this one a name of its own.`,
  'nothing-to-cut': ({ example }) =>
    `nothing to cut: neither make nor pieces says anything; write ${example}`,
  'no-cloth-source': ({ example }) =>
    `this cloth can neither be bought nor is any length of it in hand; write ${example}, or lengths: [2 yd, 1 m].`,
  'nothing-usable': ({ lost, takes, available }, write) => {
    if (lost === 'step')
      return `the shop sells in steps of ${write(takes)}, and longest allows ${write(available)}, which is no step at all; write a longest of ${write(takes)} or more, or a smaller step.`;
    if (lost === 'fold')
      return `a fold at ${write(takes)} folds more than half of the width over, and half of it is ${write(available)}; it is measured from the left edge, which is folded over: write at most ${write(available)}.`;
    if (lost === 'fold-edge')
      return `folded over at ${write(available)} lies nothing but the left selvedge of ${write(takes)}; fold further in.`;
    return `${LOSSES[lost]} ${write(takes)}, ${available === takes ? 'all of' : 'more than'} the ${write(available)} there is; check both figures.`;
  },
  'outside-cloth': ({ what, width, length }, write) =>
    `${what} lies wholly outside the cloth, which is ${write(width)} wide${length === undefined ? '' : ` and ${write(length)} long`}; measure it from the left outer edge${length === undefined ? '' : ' and from the near end'}.`,
  'nothing-stacked': ({ why, cloths: own }) =>
    `${
      why === 'laid' || why === 'no-saving'
        ? `${list(
            own.map((name) => `"${short(name)}"`),
            'and',
          )} want the same sizes, and nothing is stacked`
        : 'nothing is stacked'
    }: ${NO_STACK[why]}.`,
  'unlikely-width': ({ cloth, width, widest }, write) =>
    `"${cloth}" is ${write(width)} wide, wider than cloth is usually woven (${write(widest)}); if that is in centimetres, write unit: cm, or the width with its unit.`,
  'unused-cloth': ({ cloth }) =>
    `nothing is cut from "${cloth}"; name it under make or pieces, or leave it out.`,
  'unused-set': ({ set }) =>
    `no order belongs to the set "${short(set)}", so its rules bind nothing; write set: ${short(set)} at the orders that do, or leave it out.`,
  'unlikely-tool': ({ found, least, isMat }, write) =>
    `a ${isMat ? 'mat' : 'ruler'} of ${write(found)} guides hardly any cut; write what lies on the table, ${write(least)} at least${isMat ? '' : ' (its smallest mark stands under ruler)'}.`,
  'unknown-cloth': ({ found, known, likely }) =>
    `there is no cloth called "${short(found)}" in this plan; ${likely === undefined ? cloths(known) : `likely "${likely}"`}.`,
  'unknown-group': ({ found, known, likely }) =>
    `no cloth of this plan belongs to a group "${short(found)}"; ${likely === undefined ? (known.length === 0 ? 'write groups: under the cloths that do' : `there is ${list(known.map(short), 'and')}`) : `likely "${likely}"`}.`,
  'unknown-set': ({ found, known, likely }) =>
    `there is no set "${short(found)}" under sets; ${likely === undefined ? (known.length === 0 ? `write sets: { ${short(found)}: { } }` : `there is ${list(known.map(short), 'and')}`) : `likely "${likely}"`}.`,
  'rules-beside-set': ({ set }) =>
    `this order belongs to the set "${short(set)}", whose rules stand under sets; keep its rules there, or leave the set out.`,
  'no-cloth-holds': ({ piece, cloths: tried }) =>
    `"${short(piece)}" can be cut from none of ${list(tried.map(short), 'and')}; make it smaller or name another cloth.`,
  'no-choice': ({ sets }) =>
    `no choice of cloths keeps all rules${
      sets.length === 0
        ? ''
        : ` of ${list(
            sets.map((set) => `"${short(set)}"`),
            'and',
          )}`
    } and fits the lengths there are; name more cloths or drop a rule.`,
  'choice-by-length': ({ unpriced }) =>
    `${list(unpriced.map(short), 'and')} ${unpriced.length === 1 ? 'has' : 'have'} no price, so the choice of cloths buys the least length; give every cloth a price to pay the least money.`,
  'too-wide': ({ piece, cloth, needs, usable, side, besideCrease, acrossFold, foldAt }, write) => {
    const most = besideCrease
      ? `the ${write(usable)} beside the crease that is kept off of "${cloth}"`
      : acrossFold
        ? `the ${write(usable)} that "${cloth}" yields across its fold`
        : `the usable ${write(usable)} of "${cloth}"${foldAt === undefined ? '' : ` folded at ${write(foldAt)}`}`;
    const instead = besideCrease
      ? 'use the crease (crease: use), '
      : acrossFold === 'off-middle' || foldAt !== undefined
        ? 'fold elsewhere (fold at), '
        : '';
    return `"${piece}" needs ${write(needs)} of ${side}, more than ${most}; make it smaller, let it be joined, ${instead}or choose a ${side === 'width' ? 'wider' : 'longer'} cloth.`;
  },
  'join-takes-all': ({ takes, narrowest }, write) =>
    `a join takes up ${write(takes)}, and so all of a part of ${write(narrowest)}; join with less, or ask for wider parts.`,
  'part-upside-down': ({ piece, cloth }) =>
    `a part of "${short(piece)}" stands upside down once sewn, and "${short(cloth)}" has an up; write opening: upright, or choose another cloth.`,
  'cannot-join': ({ piece, cloth, mostJoins, lines, narrowest }, write) =>
    `"${short(piece)}" is larger than "${short(cloth)}" yields, and cannot be joined ${lines === 'either' ? '' : `by ${lines} lines alone `}with at most ${mostJoins === 1 ? '1 join' : `${mostJoins} joins`} of parts no narrower than ${write(narrowest)}; allow more joins, narrower parts${lines === 'either' ? '' : ', or lines: either'}.`,
  'grain-against-print': ({ piece, cloth, grain, printRuns }) =>
    `"${short(piece)}" is to lie ${grain}, and the print of "${short(cloth)}" runs ${printRuns} the cloth; leave its grain open, or choose another cloth.`,
  'will-shrink': ({ cloth, piece, size, washed }, write) =>
    `"${cloth}" is to be washed only after sewing: "${short(piece)}", cut ${write(size.width)} by ${write(size.length)}, will then come to ${write(washed.width)} by ${write(washed.length)}. Wash it before cutting (washed: before-cutting), or let it be cut larger (cut larger: yes).`,
  'cut-larger': ({ cloth, along, across, held }) =>
    `every piece of "${short(cloth)}" is cut larger, and comes to its finished size in the wash: finished ÷ (1 − ${along}) along the length, ÷ (1 − ${across}) across it, up to the ruler; seams and hems keep their depth.${held ? ' As these differ, no piece is turned to save cloth.' : ''} Try it on a washed swatch first.`,
  'shrinks-apart': ({ order, cloths: sewn }) =>
    `the parts of "${short(order)}" are cut from ${list(sewn.map(short), 'and')}, which do not shrink alike, and one is cut larger for it: what is sewn together will not be of one size, or pucker when washed. Wash every cloth before cutting (washed: before-cutting), or choose cloths with the same washing.`,
  'outline-crosses': ({ length, flaw }) =>
    `flaw ${flaw} of "${length}" has an outline that crosses or touches itself; give its corners in order, each once.`,
  'cannot-lie-on-fold': (details, write) => ON_FOLD[details.why](details, write),
  'fold-takes-stage': ({ cloth }) =>
    `"${cloth}" is folded off its middle, and the cut between double and single cloth takes a stage of its own; write stages: 3 or stages: any, or leave fold at out.`,
  'motif-near-edge': ({ piece, cloth, across }, write) =>
    `"${short(piece)}" takes ${write(across)} across, and nowhere on "${short(cloth)}" is a motif so far from the edges, and from a crease that is kept off, that it has room around it; ask for the motif at another point, ask for alike, make it smaller, or choose a wider cloth.`,
  'match-in-fold': ({ piece, cloth }) =>
    `"${short(piece)}" is matched across the width, and "${cloth}" is to be cut folded, which lays the print mirrored; write lay: flat.`,
  'match-without-repeat': ({ piece, cloth, missing }) =>
    `"${short(piece)}" is to be matched, and "${cloth}" does not say ${WHERE_MOTIFS_LIE[missing]}; add it under repeat, or leave the match out.`,
  'beyond-reach': ({ cloth, cuts, longest, welcome }, write) =>
    `${cuts === 1 ? 'one cut' : `${cuts} cuts`} of "${short(cloth)}", up to ${write(longest)} long, ${cuts === 1 ? 'is' : 'are'} beyond the ruler however the cloth is folded, and must be made with scissors; ${welcome === 'tear' ? 'write tears true: yes if it tears along a thread, or welcome scissors (long cuts: tear or scissors)' : 'welcome scissors or a tear under long cuts'}, or use a longer ruler.`,
  'panel-fault': (details, write) => PANEL_FAULTS[details.fault](details, write),
  'panel-creased': ({ panel, piece, cloth }) =>
    `the crease of "${short(cloth)}" runs through the panel "${short(panel)}" in "${short(piece)}"; press it out before cutting, or take another length.`,
  'panels-not-stacked': ({ cloth, other }) =>
    `"${short(cloth)}" wants the same sizes as "${short(other)}", and is not stacked with it: its panels lie where nothing of the other does, so each is cut by itself; to stack them, take no panel and write untaken: plain cloth.`,
  'thin-border': ({ piece, panel, shows }, write) =>
    `"${short(piece)}" shows only ${write(shows)} of border beside the panel "${short(panel)}"; make it larger, or do without the strips.`,
  'not-enough-cloth': ({ cloth, shortOf, measured, begins, foldAt, sold }, write) =>
    measured
      ? `"${cloth}", as it was measured, does not hold ${list(shortOf.map(short), 'and')}; \`laywright refit\` tells the least to join, shrink, drop or buy.`
      : `the lengths of "${cloth}" in hand${sold ? ' and what is sold of it' : ''}${foldAt === undefined ? '' : `, folded at ${write(foldAt)},`} do not hold ${list(shortOf.map(short), 'and')}; ${foldAt === undefined ? '' : 'fold elsewhere (fold at) or leave fold at out, '}add a length${sold ? '' : ', write buy: yes'}, or cut fewer.${begins === undefined ? '' : ` As long as it is not told where the first motif of a length lies, up to a repeat, ${write(begins)}, may go at its near end; measure it and write first motif.`}`,
  'longer-than-sold': ({ cloth, needs, longest }, write) =>
    `"${cloth}" is needed in one length of ${write(needs)}, and the longest to be had is ${write(longest)}; cut fewer or smaller pieces from it.`,
  'cupboard-draw': (details) => CUPBOARD_FAULTS[details.fault](details),
  'measured-unknown': ({ found, fault, known, likely }) =>
    fault === 'several'
      ? `there are several of "${short(found)}"; give each a name of its own under lengths, then measure them one by one.`
      : fault === 'name-taken'
        ? `"${short(found)}" is the name of a length in hand; write of: ${short(found)} if it is that one, or another name.`
        : `no length in hand is called "${short(found)}"; ${likely === undefined ? (known.length === 0 ? 'leave of out, since there is none' : `there is ${list(known.map(short), 'and')}`) : `likely "${likely}"`}.`,
  'fold-right-of-middle': ({ cloth, length, held }) =>
    `"${short(length)}" would be folded along its crease, which lies right of its middle, so it would have to be turned about first; with "${short(cloth)}" that cannot be, since ${HELD[held]}. Write lay: flat, or leave this length out.`,
  surplus: ({ piece, copies }) =>
    `"${piece}": ${copies} more than wanted will be cut, as the cloth is cut folded.`,
  'make-practice': ({ sentence, figures }, write) =>
    sentence.replace(/\{([^}]+)\}/g, (written, name: string) => {
      const figure = Object.hasOwn(figures, name) ? figures[name] : undefined;
      if (figure === undefined) return written;
      return typeof figure === 'string' ? figure : write(figure);
    }),
};

type PanelDetails = IssueDetails['panel-fault'];

const NO_STACK: Readonly<Record<IssueDetails['nothing-stacked']['why'], string>> = {
  'one-cloth': 'only one cloth is cut',
  sizes: 'no two cloths want the same sizes as often',
  laid: 'only flat cloth is, each from one length, without matched pieces, printed panels that matter, or flaws',
  'no-saving': 'no cuts were found that they could share with less work than each by itself',
};

const ON_FOLD: Readonly<
  Record<
    IssueDetails['cannot-lie-on-fold']['why'],
    (details: IssueDetails['cannot-lie-on-fold'], write: WriteLength) => string
  >
> = {
  'not-halved': ({ piece, across, mark, unasked }, write) =>
    `half of "${short(piece)}", ${write(across)} across, falls between two marks of the ruler (${write(mark)}), so it cannot be set from a fold${unasked ? ', and one ply is too narrow for it' : ''}; make it ${write(ceilTo(across, ticks(2 * mark)))} across, use a finer ruler, or ${unasked ? 'lay the cloth flat (lay: flat)' : 'leave on fold out'}.`,
  'crease-kept-off': ({ piece, cloth, across, most }, write) =>
    `"${short(piece)}" is to be cut on a fold, and "${cloth}" leaves no fold clear of its kept-off crease for it${atMost(across, most, write)}; write crease: use, or leave on fold out.`,
  matched: ({ piece, cloth }) =>
    `"${short(piece)}" is to be cut on a fold and matched across the width of "${cloth}", whose print a fold lays mirrored; leave on fold out, or the match.`,
  'too-large': ({ piece, cloth, across, most }, write) =>
    `"${short(piece)}" is to be cut on a fold, and half of it is larger than "${cloth}" yields folded${atMost(across, most, write)}; make it smaller, leave on fold out, or fold elsewhere with fold at.`,
};

function atMost(across: Ticks, most: Ticks | undefined, write: WriteLength): string {
  return most === undefined ? '' : ` (${write(across)} across, where at most ${write(most)} lies on a fold)`;
}

const PANEL_FAULTS: Readonly<
  Record<PanelDetails['fault'], (details: PanelDetails, write: WriteLength) => string>
> = {
  outside: ({ panel, room, length }, write) =>
    `the panel "${short(panel)}" lies outside its cloth, which has ${write(room!.width)} between the selvedges${length === undefined ? '' : ` and ${write(length)} of length`}; check where it begins and its size.`,
  overlaps: ({ panel, other }) =>
    `the panel "${short(panel)}" overlaps ${other === panel ? 'another of its name' : `"${short(other ?? '')}"`}; check where each begins and its size.`,
  'sizes-differ': ({ panel }) =>
    `panels called "${short(panel)}" are not all of one size and one way up; give those that differ a name of their own.`,
  unknown: ({ panel, cloth, known = [], other }) =>
    `"${short(cloth)}" has no panel called "${short(panel)}"; ${other === undefined ? `it has ${list(known.map(short), 'and')}` : `likely "${other}"`}.`,
  'no-panels': ({ cloth, panel }) =>
    `"${short(cloth)}" has no panels, and "${short(panel)}" is asked for; write panels: under the cloth, or leave the panel out.`,
  'with-match': ({ panel }) =>
    `the panel "${short(panel)}" settles where the piece lies, so it cannot be matched as well; leave one of the two out.`,
  'with-choice': ({ panel, known = [] }) =>
    known.length === 0
      ? `none of the cloths that this part may be cut from has the panel "${short(panel)}"; name the cloth that has it, or leave the panel out.`
      : `the panel "${short(panel)}" is printed on several of the cloths that this part may be cut from, ${list(
          known.map((name) => `"${short(name)}"`),
          'and',
        )}; name one of them alone.`,
  'without-every': ({ panel }) =>
    `the cloth can be bought, and how often "${short(panel)}" comes is not known; write every: and the length of a repeat, or buy: no.`,
  step: ({ length }, write) =>
    `the shop sells whole repeats of ${write(length!)}, and nothing less; leave step out, or write sold: anywhere.`,
  'too-large': ({ panel, piece, size, room }, write) =>
    `the panel "${short(panel)}" is ${write(size!.width)} by ${write(size!.length)}, more than the ${write(room!.width)} by ${write(room!.length)} that "${short(piece ?? '')}" has for it; make the piece larger, or take another panel.`,
  'too-few': ({ panel, cloth, piece, wanted, found }) =>
    `${wanted} of the panel "${short(panel)}" ${wanted === 1 ? 'is' : 'are'} asked for, by ${piece}, and ${found === 0 ? 'none' : `only ${found}`} can be had from "${short(cloth)}"; make fewer, or find another length.`,
  spoilt: ({ panel, cloth, piece, other }) =>
    `no panel "${short(panel)}" of "${short(cloth)}" can be cut around whole for "${short(piece ?? '')}": ${other}; make the piece smaller, or take another panel.`,
  crowded: ({ panel, piece, other }) =>
    `"${short(piece ?? '')}" around the panel "${short(panel)}" would cut into ${other === panel ? 'the next of its name' : `the panel "${short(other ?? '')}"`}; make the piece smaller, mount it, or write untaken: plain cloth where that one is not wanted.`,
  'off-grain': ({ panel, piece }) =>
    `the panel "${short(panel)}" lies across the grain that "${short(piece ?? '')}" asks for; leave its grain open, or take another panel.`,
  'in-fold': ({ panel, cloth }) =>
    `"${short(cloth)}" is to be cut folded, which would cut through the panel "${short(panel)}" of the other ply; write lay: flat, or untaken: plain cloth where no panel is taken.`,
  'on-fold': ({ panel, piece }) =>
    `"${short(piece!)}" is to be cut around the panel "${short(panel)}" and on a fold, which would run through the panel; leave on fold out, or the panel.`,
  'beside-match': ({ panel, piece, cloth }) =>
    `"${short(piece ?? '')}" is matched, and where its print starts beside the panel "${short(panel)}" of "${short(cloth)}" is not known; write first motif: under panels, or at each length in hand, or cut them from cloths of their own.`,
  'begun-apart': ({ panel, piece, cloth }) =>
    `"${short(piece ?? '')}" is matched, and the lengths of "${short(cloth)}" begin at different places of its print, so that to begin them alike would cut into panels such as "${short(panel)}"; use lengths that begin alike, or one alone.`,
  'wash-turns': ({ panel, other, cloth, piece }) =>
    `the panels "${short(panel)}" and "${short(other ?? '')}" lie different ways round on "${short(cloth)}", which loses more one way than the other in the wash to come, so "${short(piece ?? '')}" cannot be cut larger for both; ask for them in pieces of their own, or wash before cutting.`,
  'no-way': ({ cloth, panel }) =>
    `no straight edge-to-edge cuts free the pieces around the panels of "${short(cloth)}", "${short(panel)}" among them, and keep every panel whole; make the pieces smaller, or write untaken: plain cloth.`,
};

const HELD = {
  direction: 'it lies one way up',
  print: 'its print is told from the near end',
  panels: 'its panels are told from the near end',
} as const;

type DrawDetails = IssueDetails['cupboard-draw'];

const CUPBOARD_FAULTS: Readonly<Record<DrawDetails['fault'], (details: DrawDetails) => string>> = {
  'no-cupboard': ({ name }) =>
    `"${short(name)}" is to come from the cupboard, and no cupboard is named; write cupboard: cupboard.yaml beside plan:, or name its file when planning.`,
  'no-entry': ({ name, known, likely }) =>
    `no entry "${short(name)}" lies in the cupboard; ${lying(known, likely)}.`,
  'nothing-of-it': ({ name, known, likely }) =>
    `no "${short(name)}" lies in the cupboard; ${lying(known, likely)}.`,
  direction: ({ name, cloth, found }) =>
    `"${short(name)}" is ${found ?? 'not as the cloth'}, and "${short(cloth)}" is planned otherwise, so it is not used; change the direction of the cloth, or leave this length out.`,
  grain: ({ name }) =>
    `which grain "${short(name)}" runs along is not known, so it is not used; find out, and correct grain in the cupboard.`,
  'too-short': ({ name }) => `"${short(name)}" is used up by squaring both its ends, so it is not used.`,
  twice: ({ name, takenBy }) =>
    `"${short(name)}" is drawn on by "${short(takenBy ?? '')}" already; let one cloth draw on it.`,
  'name-taken': ({ name, cloth }) =>
    `"${short(cloth)}" has a length called "${short(name)}" already; give that one another name.`,
  currency: ({ name }) =>
    `plan and cupboard count in different currencies, so what using "${short(name)}" is worth is not weighed.`,
};

function lying(known: readonly string[], likely: string | undefined): string {
  if (likely !== undefined) return `likely "${likely}"`;
  return known.length === 0
    ? 'it is empty'
    : `there ${known.length === 1 ? 'is' : 'are'} ${list(known.map(short), 'and')}`;
}

const LOSSES = {
  selvedges: 'the selvedges take',
  crease: 'the strip kept off the crease takes',
  squaring: 'squaring both ends takes',
} as const;

const REASONS: Readonly<Record<RefusalReason, string>> = {
  empty: 'nothing is written',
  'not-a-number': 'no number can be read from it',
  negative: 'a minus has no meaning here',
  exponent: 'powers of ten are not read',
  'zero-denominator': 'a fraction over 0',
  'improper-fraction': 'the fraction beside a whole number must be below one',
  'decimal-and-fraction': 'a decimal and a fraction in one number',
  'two-numbers': 'two numbers side by side',
  'thousands-or-decimal': 'may mean thousands or a decimal',
  'too-many-digits': 'more digits than any cloth has',
  'unknown-unit': '{part} is no unit; in, ft, yd, mm, cm and m are',
  'missing-unit': '{part} has no unit while the other has',
  'unit-order': 'units of one system go from large to small, each once',
  'too-long': 'longer than a kilometre',
  'not-two-lengths': 'not two lengths with x between',
  'not-a-hem': 'not two depths with + between',
};

function why(reason: RefusalReason | undefined, part: string, likely: string | undefined): string {
  const parts = [
    ...(reason === undefined ? [] : [REASONS[reason].replace('{part}', quoted(part))]),
    ...(likely === undefined ? [] : [`likely ${likely.includes(' or ') ? likely : `"${likely}"`}`]),
  ];
  return parts.length === 0 ? '' : ` (${parts.join('; ')})`;
}

const TEXT_FAULTS: Readonly<Record<IssueDetails['not-text']['fault'], string>> = {
  empty: 'the file holds no plan; start with plan: and a name, or let `laywright new` write a first plan.',
  'empty-cupboard':
    'the file holds no cupboard; start with cupboard: and a name, then unit: and entries: [].',
  encoding: 'a character was lost here, so the file is not UTF-8; save it as UTF-8 text.',
  'control-character':
    'found the control character {found}, so this is no plain text; save it as UTF-8 text.',
  'too-large': 'the file has {found}, more than any plan needs; is it the right file?',
};

const YAML_FEATURES: Readonly<Record<IssueDetails['yaml-feature']['feature'], string>> = {
  anchor:
    'found the anchor "{found}"; do without it: write the value out, or put text that begins with & in quotes.',
  alias:
    'found the alias "{found}"; do without it: write the value out, or put text that begins with * in quotes.',
  tag: 'found the tag "{found}"; do without it: leave it out, or put text that begins with ! in quotes.',
  merge: 'found the merge key "{found}"; do without it: write the keys out.',
};

const YAML_FAULTS: Readonly<Record<YamlFault, string>> = {
  tab: 'a tab stands where spaces must; indent with spaces.',
  indent:
    'this line starts further left or right than its neighbours; give lines that belong together the same indent.',
  unclosed: 'a quote or bracket that opens here is not closed, or its lines are not indented; close it.',
  'two-colons':
    'a key and its value stand where only a value may; put text that holds ": " in quotes, and start each key on a line of its own, no further in than its neighbours.',
  'reserved-sign': 'a value may not begin with this sign; put it in quotes.',
  'second-document': 'a second plan begins here with ---; write one plan in a file.',
  'too-deep': 'brackets within brackets, deeper than any plan.',
  'no-colon': 'a key needs a colon and a space behind it, such as unit: in.',
  'after-quote':
    'nothing may stand behind a closing quote; put the whole value in one pair of quotes, or in none.',
  'comma-in-brackets':
    'inside [ ] and { } a comma parts two values; put a space behind it, or write decimals with a point, such as 1.5.',
  other: 'this cannot be read as YAML; look for a stray sign here.',
};

function cloths(known: readonly string[]): string {
  return known.length === 0 ? 'it has none yet' : `it has ${list(known.map(short), 'and')}`;
}

function list(words: readonly string[], joint: 'and' | 'or'): string {
  const shown = words.length > 24 ? [...words.slice(0, 24), `${words.length - 24} more`] : words;
  if (shown.length < 2) return shown.join('');
  return `${shown.slice(0, -1).join(', ')} ${joint} ${shown[shown.length - 1]}`;
}

/** Shapes (`a list`) are told as they are, text as it was written. */
function quoted(found: string): string {
  return /^(?:an? (?:empty )?(?:list|map)\b)/.test(found) ? found : `"${short(found)}"`;
}

function short(text: string): string {
  const oneLine = text.replace(/\s+/g, ' ');
  return oneLine.length <= 60 ? oneLine : `${oneLine.slice(0, 57)}...`;
}
