type Pair = readonly [code: number, value: string | number];

/** Lines of a DXF file from its groups. */
export const lines = (pairs: readonly Pair[]): string => pairs.map(([code, value]) => `${code}\n${value}\n`).join('');

/** One entity on a layer. */
export const entity = (type: string, layer: string | number, ...pairs: readonly Pair[]): readonly Pair[] => [
  [0, type],
  [8, layer],
  ...pairs,
];

/** A polyline as release 12 writes it. A vertex is x, y and the bulge to the next. */
export const polyline = (
  layer: string | number,
  vertices: readonly (readonly [x: number, y: number, bulge?: number])[],
  closed: 0 | 1 = 0,
): readonly Pair[] => [
  ...entity('POLYLINE', layer, [66, 1], [70, closed]),
  ...vertices.flatMap(([x, y, bulge = 0]) => entity('VERTEX', layer, [10, x], [20, y], [42, bulge])),
  ...entity('SEQEND', layer),
];

export const text = (layer: string | number, x: number, y: number, words: string): readonly Pair[] =>
  entity('TEXT', layer, [10, x], [20, y], [40, 5], [1, words]);

export const block = (name: string, ...inside: readonly (readonly Pair[])[]): readonly Pair[] => [
  ...entity('BLOCK', 0, [2, name], [70, 0], [10, 0], [20, 0]),
  ...inside.flat(),
  ...entity('ENDBLK', 0),
];

export const insert = (name: string, ...pairs: readonly Pair[]): readonly Pair[] =>
  entity('INSERT', 0, [2, name], [10, 0], [20, 0], ...pairs);

interface Sections {
  readonly header?: readonly Pair[];
  readonly blocks?: readonly (readonly Pair[])[];
  readonly entities?: readonly (readonly Pair[])[];
}

export function dxf({ header = [], blocks = [], entities = [] }: Sections): string {
  const section = (name: string, inside: readonly Pair[]): readonly Pair[] => [
    [0, 'SECTION'],
    [2, name],
    ...inside,
    [0, 'ENDSEC'],
  ];
  return lines([
    ...section('HEADER', header),
    ...section('BLOCKS', blocks.flat()),
    ...section('ENTITIES', entities.flat()),
    [0, 'EOF'],
  ]);
}

export const units = (number: number): readonly Pair[] => [
  [9, '$INSUNITS'],
  [70, number],
];

/** An invented pattern: a corner patch with a round corner, and a strap whose outline is four lines. In inches it is 25.4 times larger. */
export const PATCH_AND_STRAP = {
  blocks: [
    block(
      'BLOCK_1',
      polyline(1, [
        [0, 0],
        [60, 0, 0.41421356237309503],
        [70, 10],
        [70, 70],
        [0, 70],
        [0, 0],
      ]),
      entity('POINT', 2, [10, 0], [20, 0]),
      entity('POINT', 2, [10, 70], [20, 70]),
      entity('POINT', 4, [10, 0], [20, 40]),
      entity('LINE', 4, [10, 30], [20, 70], [11, 30], [21, 67]),
      polyline(14, [
        [10, 10],
        [60, 10],
        [60, 60],
      ]),
      entity('LINE', 7, [10, 35], [20, 20], [11, 35], [21, 50]),
      entity('CIRCLE', 13, [10, 35], [20, 35], [40, 2]),
      text(1, 20, 30, 'Piece Name: PT-L'),
      text(1, 20, 25, 'Quantity: 1'),
      text(15, 20, 20, 'wrong side <up>'),
    ),
    block(
      'ST',
      entity('LINE', 1, [10, 0], [20, 0], [11, 400], [21, 0]),
      entity('LINE', 1, [10, 0], [20, 25], [11, 400], [21, 25]),
      entity('LINE', 1, [10, 400], [20, 25], [11, 400], [21, 0]),
      entity('LINE', 1, [10, 0], [20, 0], [11, 0], [21, 25]),
      entity('LINE', 8, [10, 90], [20, 0], [11, 90], [21, 25]),
    ),
  ],
  entities: [insert('BLOCK_1'), insert('ST')],
};
