import { ok, type Result, refuse } from '../../base/result.ts';
import { type Entity, hasFlag, numberOf } from './entities.ts';

/**
 * The path data of an entity that is a line of some kind, in the file's own units, y upward. Refused as `entity-unknown` for other types, and
 * as `entity-unreadable` with the reason.
 */
export function entityPath(entity: Entity): Result<string> {
  if (numberOf(entity, 230, 1) === -1) return unreadable('it is drawn from behind');
  switch (entity.type) {
    case 'LINE': {
      const [from, to] = [pointOf(entity, 10), pointOf(entity, 11)];
      return from && to ? ok(`M${from.join(' ')}L${to.join(' ')}`) : unreadable(NUMBER);
    }
    case 'POLYLINE':
      return polyline(entity);
    case 'LWPOLYLINE':
      return light(entity);
    case 'CIRCLE': {
      const [middle, radius] = [pointOf(entity, 10), numberOf(entity, 40)];
      if (!middle || !radius || radius < 0) return unreadable(NUMBER);
      const [x, y] = middle;
      const to = (toX: number, toY: number): string => `A${radius} ${radius} 0 0 1 ${toX} ${toY}`;
      return ok(`M${x + radius} ${y}${to(x, y + radius)}${to(x - radius, y)}${to(x, y - radius)}${to(x + radius, y)}Z`);
    }
    case 'ARC':
      return arc(entity);
    default:
      return refuse('entity-unknown', 'it is of a type that is not read');
  }
}

/** The place of a group of coordinates: 10 and 20, 11 and 21. */
export function pointOf(entity: Entity, code: 10 | 11): readonly [number, number] | undefined {
  const [x, y] = [numberOf(entity, code), numberOf(entity, code + 10)];
  return x === undefined || y === undefined ? undefined : [x, y];
}

const NUMBER = 'a number of it cannot be read';
const unreadable = (why: string): Result<never> => refuse('entity-unreadable', why);

interface Vertex {
  readonly x: number;
  readonly y: number;
  /** Tangent of a quarter of the angle of the arc to the next vertex; 0 for a straight line. */
  readonly bulge: number;
}

function polyline(entity: Entity): Result<string> {
  if (entity.vertices === null) return unreadable('the end of its points is missing');
  if (hasFlag(entity, 16) || hasFlag(entity, 64)) return unreadable('it is a surface in space');
  const vertices: Vertex[] = [];
  for (const vertex of entity.vertices) {
    // A curve was fitted to these; what is drawn stands between them.
    if (hasFlag(vertex, 16)) continue;
    const [place, bulge] = [pointOf(vertex, 10), numberOf(vertex, 42, 0)];
    if (place === undefined || bulge === undefined) return unreadable(NUMBER);
    vertices.push({ x: place[0], y: place[1], bulge });
  }
  return throughPoints(vertices, hasFlag(entity, 1));
}

function light(entity: Entity): Result<string> {
  const vertices: { x: number; y: number; bulge: number }[] = [];
  for (const { code, value } of entity.tags) {
    if (code !== 10 && code !== 20 && code !== 42) continue;
    const number = numberOf({ ...entity, tags: [{ code, value, line: 0 }] }, code);
    if (number === undefined) return unreadable(NUMBER);
    const last = vertices.at(-1);
    if (code === 10) vertices.push({ x: number, y: Number.NaN, bulge: 0 });
    else if (last && code === 20) last.y = number;
    else if (last) last.bulge = number;
  }
  return vertices.some(({ y }) => Number.isNaN(y)) ? unreadable(NUMBER) : throughPoints(vertices, hasFlag(entity, 1));
}

function throughPoints(vertices: readonly Vertex[], closed: boolean): Result<string> {
  const [first] = vertices;
  if (first === undefined || vertices.length < 2) return unreadable('it has fewer than two points');
  const last = vertices.at(-1) ?? first;
  const rest = vertices.slice(1).map((vertex, index) => segment(vertices[index] ?? first, vertex));
  const back = closed && last.bulge !== 0 ? segment(last, first) : '';
  return ok(`M${first.x} ${first.y}${rest.join('')}${back}${closed ? 'Z' : ''}`);
}

function segment(from: Vertex, to: Vertex): string {
  const { bulge } = from;
  if (bulge === 0) return `L${to.x} ${to.y}`;
  const radius = (Math.hypot(to.x - from.x, to.y - from.y) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  return `A${radius} ${radius} 0 ${Math.abs(bulge) > 1 ? 1 : 0} ${bulge > 0 ? 1 : 0} ${to.x} ${to.y}`;
}

function arc(entity: Entity): Result<string> {
  const [middle, radius] = [pointOf(entity, 10), numberOf(entity, 40)];
  const [start, end] = [numberOf(entity, 50), numberOf(entity, 51)];
  if (!middle || !radius || radius < 0 || start === undefined || end === undefined) return unreadable(NUMBER);
  const swept = (((end - start) % 360) + 360) % 360 || 360;
  const at = (degrees: number): string => {
    const angle = (degrees * Math.PI) / 180;
    return `${middle[0] + radius * Math.cos(angle)} ${middle[1] + radius * Math.sin(angle)}`;
  };
  // Two halves: an arc from a point to itself would be nothing.
  const to = (degrees: number): string => `A${radius} ${radius} 0 0 1 ${at(degrees)}`;
  return ok(`M${at(start)}${to(start + swept / 2)}${to(start + swept)}`);
}
