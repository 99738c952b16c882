import type { RefusalReason } from '../units/refusal.ts';
import type { Ticks } from '../units/ticks.ts';
import type { PanelFault } from './panel.ts';
import type { Size } from './piece.ts';

/** Where a value sits in a plan file: keys and list positions from the root. */
export type Path = readonly (string | number)[];

/** Line and column count from 1. */
export interface Place {
  readonly file: string;
  readonly line: number;
  readonly column: number;
}

export type Severity = 'error' | 'warning' | 'note';

/**
 * What each kind of problem carries. Codes and figures live here; their wording lives in `messages.ts` alone.
 * Lengths are ticks and are worded in the plan's own unit.
 */
export interface IssueDetails {
  'unknown-key': { readonly key: string; readonly known: readonly string[]; readonly likely?: string };
  /** `field` is empty for an entry of a list. */
  missing: { readonly field: string; readonly example: string };
  'not-understood': {
    readonly found: string;
    readonly wanted: string;
    readonly likely?: string;
    /** Where a length or number was refused: why, and the part of the text that caused it. */
    readonly reason?: RefusalReason;
    readonly part?: string;
  };
  'out-of-range': { readonly found: string; readonly wanted: string };
  'yaml-syntax': { readonly found: string; readonly fault?: YamlFault };
  /** The file is no text, or none that a plan can be read from. */
  'not-text': {
    readonly fault: 'empty' | 'empty-cupboard' | 'encoding' | 'control-character' | 'too-large';
    readonly found: string;
  };
  /** YAML allows it; a plan file keeps to plain keys, lists and text. */
  'yaml-feature': { readonly found: string; readonly feature: 'anchor' | 'alias' | 'tag' | 'merge' };
  'duplicate-key': { readonly key: string; readonly firstLine: number };
  'duplicate-name': { readonly name: string; readonly firstLine: number };
  'nothing-to-cut': { readonly example: string };
  /** A cloth with neither a shop nor a length in hand. */
  'no-cloth-source': { readonly example: string };
  /** What is lost takes up all there is. */
  'nothing-usable': {
    readonly lost: 'selvedges' | 'crease' | 'squaring' | 'step' | 'fold' | 'fold-edge';
    readonly takes: Ticks;
    readonly available: Ticks;
  };
  /** A place that is told of a cloth or of a length, and lies nowhere on it. */
  'outside-cloth': { readonly what: string; readonly width: Ticks; readonly length?: Ticks };
  /** Stacks are asked for wherever they can be, and there are none. */
  'nothing-stacked': {
    readonly why: 'one-cloth' | 'sizes' | 'laid' | 'no-saving';
    readonly cloths: readonly string[];
  };
  'unused-cloth': { readonly cloth: string };
  /** A set that no order belongs to. */
  'unused-set': { readonly set: string };
  /** A ruler, or a side of a mat, shorter than any is. */
  'unlikely-tool': { readonly found: Ticks; readonly least: Ticks; readonly isMat: boolean };
  /** Wider than cloth is woven, as a width in centimetres is that is read as inches. */
  'unlikely-width': { readonly cloth: string; readonly width: Ticks; readonly widest: Ticks };
  'unknown-cloth': { readonly found: string; readonly known: readonly string[]; readonly likely?: string };
  'unknown-group': { readonly found: string; readonly known: readonly string[]; readonly likely?: string };
  'unknown-set': { readonly found: string; readonly known: readonly string[]; readonly likely?: string };
  /** An order with rules of its own that belongs to a set, which has its rules under `sets`. */
  'rules-beside-set': { readonly set: string };
  /** None of the cloths that a piece may be cut from can hold it. */
  'no-cloth-holds': { readonly piece: string; readonly cloths: readonly string[] };
  /** No way to choose the cloths keeps all rules. */
  'no-choice': { readonly sets: readonly string[] };
  /** Some cloth that may be bought has no price, so lengths are compared in place of money. */
  'choice-by-length': { readonly unpriced: readonly string[] };
  'too-wide': {
    readonly piece: string;
    readonly cloth: string;
    readonly needs: Ticks;
    readonly usable: Ticks;
    readonly side: 'width' | 'length';
    /** The crease that is kept off leaves no wider stretch. */
    readonly besideCrease?: true;
    /** As much as lies double on both sides of the fold, which a piece may lie across. */
    readonly acrossFold?: 'middle' | 'off-middle';
    /** The plan folds it off its middle, and folded otherwise it may yield more. */
    readonly foldAt?: Ticks;
  };
  /** Joins that use up the narrowest part they may join. */
  'join-takes-all': { readonly takes: Ticks; readonly narrowest: Ticks };
  /** Cut from a cloth with an up, and some of it stands upside down when sewn. */
  'part-upside-down': { readonly piece: string; readonly cloth: string };
  /** Larger than its cloth, and its rule for joins is too strict for any way to join it. */
  'cannot-join': {
    readonly piece: string;
    readonly cloth: string;
    readonly mostJoins: number;
    readonly lines: 'upright' | 'level' | 'either';
    readonly narrowest: Ticks;
  };
  /** The grain asked for would lay the print on its side. */
  'grain-against-print': {
    readonly piece: string;
    readonly cloth: string;
    readonly grain: string;
    readonly printRuns: string;
  };
  /** Cut as if it did not shrink, and washed only when it is sewn. */
  'will-shrink': {
    readonly cloth: string;
    readonly piece: string;
    readonly size: Size;
    readonly washed: Size;
  };
  /** Cut larger, so that it comes to size in a wash to come. */
  'cut-larger': {
    readonly cloth: string;
    readonly along: string;
    readonly across: string;
    /** The losses differ, so pieces that could lie either way are held along the length. */
    readonly held: boolean;
  };
  /** Parts of one thing that are cut for different washes. */
  'shrinks-apart': { readonly order: string; readonly cloths: readonly string[] };
  /** An outline of a flaw that crosses or touches itself bounds nothing certain. */
  'outline-crosses': { readonly length: string; readonly flaw: number };
  /** A folded lay lays the print mirrored, so nothing can be matched across it. */
  /** No motif lies so far from the edges, and from a crease that is kept off, that the piece has room around it. */
  'motif-near-edge': { readonly piece: string; readonly cloth: string; readonly across: Ticks };
  'match-in-fold': { readonly piece: string; readonly cloth: string };
  /** A piece that is asked for across a fold: its half falls between ruler marks, the crease is kept off, or it is too large. */
  'cannot-lie-on-fold': {
    readonly piece: string;
    readonly cloth: string;
    readonly across: Ticks;
    readonly mark: Ticks;
    readonly why: 'not-halved' | 'crease-kept-off' | 'too-large' | 'matched';
    /** It is too wide for a ply, and was not asked for on the fold. */
    readonly unasked?: true;
    /** The widest piece that any fold of the cloth yields. */
    readonly most?: Ticks;
  };
  /** Cut stages are limited to two, and a fold off the middle takes one for itself. */
  'fold-takes-stage': { readonly cloth: string };
  /** A motif cannot be placed: the cloth does not say where its motifs lie. */
  'match-without-repeat': {
    readonly piece: string;
    readonly cloth: string;
    readonly missing: 'repeat' | 'along' | 'across' | 'from edge';
  };
  /** Cuts that neither ruler nor fold reaches, made in a way the maker would rather not. */
  'beyond-reach': {
    readonly cloth: string;
    readonly cuts: number;
    readonly longest: Ticks;
    readonly welcome: 'tear' | 'neither';
  };
  /** A printed panel that cannot be had as it is asked for, or that cannot be where it is said to be. */
  'panel-fault': {
    readonly fault: PanelFault;
    readonly panel: string;
    readonly cloth: string;
    readonly piece?: string;
    /** Another panel, piece or flaw that stands in the way, or what would be likely. */
    readonly other?: string;
    readonly known?: readonly string[];
    readonly size?: Size;
    readonly room?: Size;
    readonly length?: Ticks;
    readonly wanted?: number;
    readonly found?: number;
  };
  /** The bolt fold runs through a panel that is taken. */
  'panel-creased': { readonly panel: string; readonly piece: string; readonly cloth: string };
  /** A mounted panel whose border hardly shows. */
  'thin-border': { readonly piece: string; readonly panel: string; readonly shows: Ticks };
  /** Panels settle where the pieces of a cloth lie, so that it is cut by itself although another wants the same. */
  'panels-not-stacked': { readonly cloth: string; readonly other: string };
  'not-enough-cloth': {
    readonly cloth: string;
    readonly shortOf: readonly string[];
    /** It has been washed and measured: then something has to give. */
    readonly measured?: true;
    /** So much of a length in hand may go until its print begins, since nobody measured its first motif. */
    readonly begins?: Ticks;
    /** The plan folds it off its middle, and folded otherwise it may hold more. */
    readonly foldAt?: Ticks;
    /** More of it can be bought, and that does not hold them either. */
    readonly sold?: true;
  };
  'longer-than-sold': { readonly cloth: string; readonly needs: Ticks; readonly longest: Ticks };
  /** A length that was to come from the cupboard and does not. */
  'cupboard-draw': {
    readonly fault:
      | 'no-cupboard'
      | 'no-entry'
      | 'nothing-of-it'
      | 'direction'
      | 'grain'
      | 'too-short'
      | 'twice'
      | 'name-taken'
      | 'currency';
    /** The entry, or the cloth, that was asked for. */
    readonly name: string;
    readonly cloth: string;
    readonly known: readonly string[];
    readonly likely?: string;
    readonly takenBy?: string;
    readonly found?: string;
  };
  /** A measured length that is to be one in hand, and no such length is. */
  'measured-unknown': {
    readonly found: string;
    readonly fault: 'no-length' | 'several' | 'name-taken';
    readonly known: readonly string[];
    readonly likely?: string;
  };
  /** A length is to be folded along a crease right of its middle, and cannot be turned about first. */
  'fold-right-of-middle': {
    readonly cloth: string;
    readonly length: string;
    readonly held: 'direction' | 'print' | 'panels';
  };
  surplus: { readonly piece: string; readonly copies: number };
  'make-practice': {
    /** The whole sentence apart from the figures, with {name} where a figure stands. */
    readonly sentence: string;
    readonly figures: Readonly<Record<string, Ticks | string>>;
  };
}

/** What is wrong with the writing itself, apart from its meaning. */
export type YamlFault =
  | 'tab'
  | 'indent'
  | 'unclosed'
  | 'two-colons'
  | 'reserved-sign'
  | 'second-document'
  | 'too-deep'
  | 'no-colon'
  | 'after-quote'
  | 'comma-in-brackets'
  | 'other';

export type IssueCode = keyof IssueDetails;

export type Issue = {
  [Code in IssueCode]: {
    readonly code: Code;
    readonly severity: Severity;
    readonly path: Path;
    readonly place?: Place;
    readonly details: IssueDetails[Code];
  };
}[IssueCode];

/** Either a value with the remarks it earned, or all the problems that stood in its way. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly issues: readonly Issue[] }
  | { readonly ok: false; readonly issues: readonly Issue[] };
