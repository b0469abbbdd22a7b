/** A panel drawing as it was read. Every length and place is in millimetres; y grows downward, as in SVG. */
export interface Drawing {
  readonly title: string | null;
  /** What the drawing shows: its viewBox. */
  readonly box: Box;
  /** In the order they are drawn. */
  readonly parts: readonly Part[];
  /** Text of the drawing. */
  readonly labels: readonly Label[];
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface Part {
  /** Its own id. */
  readonly id: string | null;
  /** Ids of the groups it stands in, outermost first: a fragment may name a group. */
  readonly groups: readonly string[];
  readonly kind: 'piece' | 'edge' | 'mark' | 'seam' | 'notch' | 'other';
  /** Its <title>. */
  readonly title: string | null;
  /** Absolute path data in millimetres, transforms applied. */
  readonly path: string;
}

export interface Label {
  readonly words: string;
  readonly x: number;
  readonly y: number;
  readonly height: number;
  readonly anchor: 'start' | 'middle' | 'end';
}
