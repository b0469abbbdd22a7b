import { sheetLanguage } from '../../base/language.ts';
import en from './words/en.json' with { type: 'json' };
import es from './words/es.json' with { type: 'json' };
import hazards from './words/hazards.json' with { type: 'json' };

export type Language = 'en' | 'es';

/** Words to look for as whole words, capitals or not. */
export interface WordList {
  readonly test: (text: string) => boolean;
  readonly exec: (text: string) => RegExpExecArray | null;
  /** Whether any of them could be in a text that has these words in small letters: quick, and never wrong when it says no. */
  readonly mayBeIn: (known: ReadonlySet<string>) => boolean;
}

/** The words of one language that rules look for. */
export interface Words {
  readonly verbs: ReadonlySet<string>;
  readonly numbers: ReadonlyMap<string, number>;
  readonly abbreviations: ReadonlySet<string>;
  /** Groups of names for one thing. */
  readonly oneName: readonly (readonly WordList[])[];
  readonly joins: RegExp;
  readonly together: WordList;
  /** At the beginning of a sentence. */
  readonly negatives: WordList;
  readonly pronouns: WordList;
  readonly verify: WordList;
  readonly forGood: WordList;
  /** Anywhere. */
  readonly ambiguous: WordList;
  readonly injury: WordList;
  readonly injuryOnly: WordList;
  readonly colouredThing: RegExp;
  readonly conditions: WordList;
  readonly reasons: WordList;
  readonly places: WordList;
  readonly countedPlaces: RegExp;
  readonly kitOfBundle: WordList;
  readonly kitOfSet: WordList;
  readonly needle: WordList;
  readonly thread: WordList;
  readonly stitch: WordList;
  readonly offcut: WordList;
  readonly vinyl: WordList;
  readonly hazards: readonly Hazard[];
}

/** A hazard of the trade: the words by which a step is seen to have it, and those by which a caution is seen to name it. */
export interface Hazard {
  readonly id: string;
  /** Its number, or numbers, in the table of hazards. */
  readonly row: string;
  readonly hazard: string;
  readonly word: string;
  readonly source: string;
  /** A step with seams to be sewn has it, whatever its words. */
  readonly sewing: boolean;
  /** Whether a caution in an earlier step is enough, or each step that has the hazard has its own. */
  readonly warned: 'once' | 'each step';
  readonly works: WordList;
  readonly named: WordList;
}

/** The language of a file by its name: `LIN-2207.es.md` is Spanish, `LIN-2207.md` English. Others have no lists here, and are read as English. */
export function languageOf(file: string): Language {
  return sheetLanguage(file) === 'es' ? 'es' : 'en';
}

/** The words of a language, made ready once. */
export function wordsOf(language: Language): Words {
  const known = READY.get(language);
  if (known) return known;
  const words = ready(language === 'es' ? es : en, language);
  READY.set(language, words);
  return words;
}

const READY = new Map<Language, Words>();

function ready(list: typeof en | typeof es, language: Language): Words {
  return {
    verbs: new Set(list.verbs),
    numbers: new Map(Object.entries(list.numbers)),
    abbreviations: new Set(list.abbreviations),
    oneName: list.oneName.map((names) => names.map((name) => anyOf([name]))),
    joins: new RegExp(`[,;]? (?:${list.joins.join('|')}) |[,;] `, 'iu'),
    together: anyOf(list.together),
    negatives: atStart(list.negatives),
    pronouns: atStart(list.pronouns),
    verify: atStart(list.verify),
    forGood: atStart(list.forGood),
    ambiguous: anyOf(list.ambiguous),
    injury: anyOf(list.injury),
    injuryOnly: anyOf(list.injuryOnly),
    colouredThing:
      list.coloured.length === 0
        ? NEVER
        : new RegExp(`\\b(?:${list.colours.join('|')}) (?:${list.coloured.join('|')})\\b(?! *[(,])`, 'iu'),
    conditions: anyOf(list.conditions),
    reasons: anyOf(list.reasons),
    places: anyOf(list.places),
    countedPlaces: new RegExp(`\\b(${Object.keys(list.numbers).join('|')}) (?:${list.placeNouns.join('|')})\\b`, 'iu'),
    kitOfBundle: anyOf(list.kitOfBundle),
    kitOfSet: anyOf(list.kitOfSet),
    needle: anyOf(list.needle),
    thread: anyOf(list.thread),
    stitch: anyOf(list.stitch),
    offcut: anyOf(list.offcut),
    vinyl: anyOf(list.vinyl),
    hazards: hazards.map(({ works, named, warned, ...hazard }) => ({
      ...hazard,
      warned: warned === 'once' ? 'once' : 'each step',
      works: anyOf(works[language]),
      named: anyOf(named[language]),
    })),
  };
}

const NEVER = /(?!)/;

/** In a list ` … ` stands for whatever a sentence says between two words. */
const alternatives = (words: readonly string[]): string =>
  words.map((word) => word.split(' … ').map(RegExp.escape).join(' (?:[^.:;!?\\n]{0,60} )?')).join('|');

const anyOf = (words: readonly string[]): WordList => listOf(words, '(?<![\\p{L}\\p{N}-])', '(?![\\p{L}\\p{N}])');

const atStart = (words: readonly string[]): WordList => listOf(words, '^', '(?![\\p{L}\\p{N}-])');

function listOf(words: readonly string[], before: string, behind: string): WordList {
  const pattern = words.length === 0 ? NEVER : new RegExp(`${before}(?:${alternatives(words)})${behind}`, 'iu');
  const parts = words.map((word) => [...smallWords(word)]);
  return {
    test: (text) => pattern.test(text),
    exec: (text) => pattern.exec(text),
    mayBeIn: (known) => parts.some((part) => part.every((word) => known.has(word))),
  };
}

/** The words of two and more letters of a text, small and each once: what the lists are made of is written in Latin letters. */
export function smallWords(text: string): ReadonlySet<string> {
  return new Set(text.toLowerCase().match(/[a-zÀ-ɏ]{2,}/g));
}
