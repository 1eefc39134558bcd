/** Where the buckets of a roll-up begin and end: at one distance, or at edges of the caller's own. */
import { requireArray, requireBoolean, requireFinite, requireObject } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { firstWhere } from '../numeric/firstWhere.ts';
import type { RollUpOptions } from './types.ts';

export interface RollUpSettings {
  readonly holdMs: number;
  /** Of no use where there are edges. */
  readonly widthMs: number;
  readonly originMs: number;
  /** Ascending; null where all buckets have one width. */
  readonly edges: readonly number[] | null;
  readonly levels: boolean;
}

const mostEdges = 100001;

export function requireSettings(options: RollUpOptions): RollUpSettings {
  requireObject(options, 'options', 'an object', ['widthMs', 'holdMs', 'originMs', 'edges', 'levels']);
  const { edges, widthMs, originMs } = options as object as { readonly [name: string]: unknown };
  const holdMs = requireMs(options.holdMs, 'options.holdMs', 1);
  const levels = requireBoolean(options.levels ?? false, 'options.levels');
  if (edges === undefined) {
    const origin = requireMs(originMs ?? 0, 'options.originMs');
    return { holdMs, widthMs: requireMs(widthMs, 'options.widthMs', 1), originMs: origin, edges: null, levels };
  }
  if (widthMs !== undefined || originMs !== undefined) {
    const name = widthMs === undefined ? 'originMs' : 'widthMs';
    throw motescaleError('bad_configuration', `options.${name}`, widthMs ?? originMs, 'nothing, where there are edges');
  }
  return { holdMs, widthMs: 0, originMs: 0, edges: requireEdges(edges), levels };
}

function requireEdges(edges: unknown): readonly number[] {
  const expected = 'an array of two edges or more, ascending, whole ms since 1970';
  requireArray(edges, 'options.edges', expected);
  if (edges.length < 2) throw motescaleError('too_few', 'options.edges', edges, expected);
  if (edges.length > mostEdges)
    throw motescaleError('out_of_range', 'options.edges', edges.length, 'at most 100,001 edges');
  const checked: number[] = [];
  for (let i = 0; i < edges.length; i += 1) {
    const edge = requireMs(edges[i], `options.edges[${i}]`);
    if (edge <= (checked[i - 1] ?? -Infinity)) {
      const expected = `a time after ${checked[i - 1]}, the edge before`;
      throw motescaleError('out_of_range', `options.edges[${i}]`, edge, expected);
    }
    checked.push(edge);
  }
  return checked;
}

/** The place of the last edge that is not after the moment; -1 before the first. */
export function placeOf(time: number, edges: readonly number[]): number {
  return firstWhere(edges, (edge) => edge > time) - 1;
}

/** The width of the bucket that begins there. Beyond the last edge none begins. */
export function widthAt(start: number, { widthMs, edges }: RollUpSettings): number {
  if (edges === null) return widthMs;
  const next = placeOf(start, edges) + 1;
  return (edges[next] as number) - start;
}

/** Where the bucket of a moment begins; null outside the edges. */
export function startAt(time: number, { widthMs, originMs, edges }: RollUpSettings): number | null {
  if (edges === null) return originMs + Math.floor((time - originMs) / widthMs) * widthMs;
  const place = placeOf(time, edges);
  return place >= 0 && place < edges.length - 1 ? (edges[place] as number) : null;
}

/** Whether a bucket is one of those of the settings, or lies within one of them. */
export function isWithinBucket(start: number, width: unknown, settings: RollUpSettings): boolean {
  const from = startAt(start, settings);
  if (from === null || typeof width !== 'number' || !(width >= 1) || width !== Math.floor(width)) return false;
  return start + width <= from + widthAt(from, settings);
}

const farthest = 4e15;

/** Whole ms, within 4e15 of 0 (some 126,000 years), so that no difference is rounded. */
export function requireMs(value: unknown, parameter: string, least: number = -farthest): number {
  // asked first, so that no words are made for a time that passes
  if (typeof value === 'number' && value === Math.floor(value) && value >= least && value <= farthest) return value + 0;
  const expected = `whole milliseconds from ${least} to ${farthest}`;
  const ms = requireFinite(value, parameter, expected);
  throw motescaleError(ms === Math.floor(ms) ? 'out_of_range' : 'not_an_integer', parameter, value, expected);
}
