import { readNumber } from '../numbers.ts';
import type { Tag } from './tags.ts';

/** One thing that is drawn in a DXF file. */
export interface Entity {
  readonly type: string;
  readonly layer: string;
  /** Its own groups, its type left out. */
  readonly tags: readonly Tag[];
  /** Of a POLYLINE its vertices; `null` when their end is missing. */
  readonly vertices: readonly Entity[] | null;
  readonly line: number;
}

export interface Block {
  readonly name: string;
  /** NaN where a number of it cannot be read. */
  readonly base: readonly [number, number];
  readonly entities: readonly Entity[];
}

export interface DxfFile {
  /** The header's `$INSUNITS`; `null` where it is not said. */
  readonly units: number | null;
  /** In their order; a name may be there twice. */
  readonly blocks: readonly Block[];
  readonly entities: readonly Entity[];
  /** What stands where nothing is drawn: between sections, in a section of another name, or before the first block. */
  readonly stray: readonly Entity[];
}

/** Sorts the pairs of lines of a DXF file into its blocks and entities. Other sections hold nothing that is drawn. */
export function entitiesOf(tags: readonly Tag[]): DxfFile {
  const sections = sectionsOf(tags);
  const inside = (name: string): readonly Tag[] => sections.flatMap((each) => (each.name === name ? each.tags : []));
  const { blocks, stray } = blocksOf(grouped(inside('BLOCKS')));
  const between = sections.filter(({ name }) => !SECTIONS.has(name)).flatMap((section) => grouped(section.tags));
  return {
    units: headerUnits(inside('HEADER')),
    blocks,
    entities: withVertices(grouped(inside('ENTITIES'))),
    stray: withVertices([...stray, ...between]),
  };
}

/** Those of release 12 and what later ones added; from memory. */
const SECTIONS: ReadonlySet<string> = new Set([
  'HEADER',
  'CLASSES',
  'TABLES',
  'BLOCKS',
  'ENTITIES',
  'OBJECTS',
  'THUMBNAILIMAGE',
  'ACDSDATA',
]);

/** The value of the first group with this code. */
export const textOf = ({ tags }: Entity, code: number): string | undefined =>
  tags.find((tag) => tag.code === code)?.value;

/** The number of a group; `otherwise` where there is none, `undefined` where it is none that can be used. */
export function numberOf(entity: Entity, code: number, otherwise?: number): number | undefined {
  const value = textOf(entity, code);
  return value === undefined ? otherwise : readNumber(value);
}

/** Whether a bit of the flags (group 70) is set. */
export const hasFlag = (entity: Entity, bit: number): boolean => ((numberOf(entity, 70, 0) ?? 0) & bit) !== 0;

interface Section {
  /** Empty for what stands between sections. */
  readonly name: string;
  readonly tags: Tag[];
}

function sectionsOf(tags: readonly Tag[]): readonly Section[] {
  const sections: Section[] = [{ name: '', tags: [] }];
  for (const [index, tag] of tags.entries()) {
    if (tag.code === 0 && tag.value === 'SECTION') {
      const name = tags[index + 1];
      sections.push({ name: name?.code === 2 ? name.value.toUpperCase() : '', tags: [] });
    } else if (tag.code === 0 && tag.value === 'ENDSEC') sections.push({ name: '', tags: [] });
    else if (tag.code !== 0 || tag.value !== 'EOF') sections.at(-1)?.tags.push(tag);
  }
  return sections;
}

function headerUnits(tags: readonly Tag[]): number | null {
  const at = tags.findIndex(({ code, value }) => code === 9 && value === '$INSUNITS');
  const units = tags[at + 1];
  return at < 0 || units?.code !== 70 ? null : (readNumber(units.value) ?? null);
}

function grouped(tags: readonly Tag[]): readonly Entity[] {
  const groups: { type: string; line: number; tags: Tag[] }[] = [];
  for (const tag of tags) {
    if (tag.code === 0) groups.push({ type: tag.value, line: tag.line, tags: [] });
    else groups.at(-1)?.tags.push(tag);
  }
  return groups.map((group) => ({
    ...group,
    layer: group.tags.find(({ code }) => code === 8)?.value ?? '0',
    vertices: [],
  }));
}

/** Puts the vertices that follow a POLYLINE into it. */
function withVertices(entities: readonly Entity[]): readonly Entity[] {
  const whole: Entity[] = [];
  for (let at = 0; at < entities.length; at++) {
    const entity = entities[at];
    if (entity === undefined) break;
    if (entity.type !== 'POLYLINE') {
      whole.push(entity);
      continue;
    }
    let end = at + 1;
    while (entities[end]?.type === 'VERTEX') end++;
    const isWhole = entities[end]?.type === 'SEQEND';
    whole.push({ ...entity, vertices: isWhole ? entities.slice(at + 1, end) : null });
    at = isWhole ? end : end - 1;
  }
  return whole;
}

/** A block ends where the next begins, too: what is in one without its end is not lost. */
function blocksOf(entities: readonly Entity[]): Pick<DxfFile, 'blocks' | 'stray'> {
  const blocks: { readonly head: Entity; readonly inside: Entity[] }[] = [];
  const stray: Entity[] = [];
  for (const entity of entities) {
    if (entity.type === 'BLOCK') blocks.push({ head: entity, inside: [] });
    else if (entity.type !== 'ENDBLK') (blocks.at(-1)?.inside ?? stray).push(entity);
  }
  const whole = blocks.map(
    ({ head, inside }): Block => ({
      name: textOf(head, 2) ?? '',
      base: [numberOf(head, 10, 0) ?? Number.NaN, numberOf(head, 20, 0) ?? Number.NaN],
      entities: withVertices(inside),
    }),
  );
  return { blocks: whole, stray };
}
