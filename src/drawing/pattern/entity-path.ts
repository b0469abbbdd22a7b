import { ok, type Result, refuse } from '../../base/result.ts';
import { readNumber } from '../numbers.ts';
import { type Entity, hasFlag, numberOf } from './entities.ts';

/**
 * The path data of an entity that is a line of some kind, in the file's own units, y upward. Refused as `entity-unknown` for other types, and
 * as `entity-unreadable` with the reason.
 */
export function entityPath(entity: Entity): Result<string> {
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
      const circle = circleOf(entity);
      return circle ? ok(`${round(circle, 0, 2 * Math.PI)}Z`) : unreadable(NUMBER);
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
    const number = readNumber(value);
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

/** So flat, an arc is a parabola to a thousand-millionth of its length, and the radius of its circle may be beyond measure. */
const FLAT = 0.0025;

function segment(from: Vertex, to: Vertex): string {
  const { bulge } = from;
  const [across, up] = [to.x - from.x, to.y - from.y];
  const [middleX, middleY] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
  if (bulge === 0 || (across === 0 && up === 0)) return `L${to.x} ${to.y}`;
  if (Math.abs(bulge) < FLAT) return `Q${middleX + bulge * up} ${middleY - bulge * across} ${to.x} ${to.y}`;
  const away = (1 - bulge * bulge) / (4 * bulge);
  const [x, y] = [middleX - away * up, middleY + away * across];
  const radius = (Math.hypot(across, up) * (1 + bulge * bulge)) / (4 * Math.abs(bulge));
  const swept = 4 * Math.atan(bulge);
  const places = placesOn({ x, y, radius }, Math.atan2(from.y - y, from.x - x), swept);
  return arcs(radius, swept, [...places.slice(1, -1), `${to.x} ${to.y}`]);
}

interface Circle {
  readonly x: number;
  readonly y: number;
  readonly radius: number;
}

function circleOf(entity: Entity): Circle | undefined {
  const [middle, radius] = [pointOf(entity, 10), numberOf(entity, 40)];
  return middle && radius && radius > 0 ? { x: middle[0], y: middle[1], radius } : undefined;
}

/** Part of a circle, by angles in radians. */
function round(circle: Circle, start: number, swept: number): string {
  const [first, ...places] = placesOn(circle, start, swept);
  return `M${first}${arcs(circle.radius, swept, places)}`;
}

/** No more than a quarter apart: where half a circle is one stroke, the last digit of its ends moves its middle by much more than itself. */
function placesOn({ x, y, radius }: Circle, start: number, swept: number): readonly string[] {
  const strokes = Math.max(1, Math.ceil(Math.abs(swept) / (Math.PI / 2) - 1e-9));
  return Array.from({ length: strokes + 1 }, (_, nth) => {
    const angle = start + (swept * nth) / strokes;
    return `${x + radius * Math.cos(angle)} ${y + radius * Math.sin(angle)}`;
  });
}

const arcs = (radius: number, swept: number, places: readonly string[]): string =>
  places.map((place) => `A${radius} ${radius} 0 0 ${swept > 0 ? 1 : 0} ${place}`).join('');

function arc(entity: Entity): Result<string> {
  const circle = circleOf(entity);
  const [start, end] = [numberOf(entity, 50), numberOf(entity, 51)];
  if (circle === undefined || start === undefined || end === undefined) return unreadable(NUMBER);
  const swept = (((end - start) % 360) + 360) % 360 || 360;
  return ok(round(circle, (start * Math.PI) / 180, (swept * Math.PI) / 180));
}
