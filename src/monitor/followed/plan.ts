/** A figure to follow: what the configuration may say of it, and its plan. */
import type { ObjectRule } from '../../rules/rule.ts';
import { nameRule, spanAbove0Rule } from '../../state/rules.ts';
import { changePlan } from '../../trend/change/advance.ts';
import { figureRule, followDefaults, mostBlocks, shortestBlockMs } from '../rules.ts';
import type { FollowedFigure, FollowPlan } from '../types.ts';
import { figureWords } from '../words.ts';

export function followRule(): ObjectRule {
  const amount = 'an amount in the unit of the figure';
  return {
    kind: 'object',
    expected: 'a figure to follow { id, figure }',
    members: {
      id: nameRule,
      figure: figureRule(),
      blockMs: { ...spanAbove0Rule, least: shortestBlockMs, optional: true },
      blocks: { kind: 'number', whole: true, least: 8, most: mostBlocks, optional: true },
      least: { kind: 'number', least: 1e-12, most: 1e12, expected: amount, optional: true },
      season: { kind: 'number', least: 0, most: 1e12, expected: amount, optional: true },
      resolution: { kind: 'number', least: 0, most: 1e12, expected: amount, optional: true },
    },
  };
}

/** A step that no figure takes: where nothing is worth telling. */
export const beyondAll = 1e30;

/** The plan, with what it leaves out. */
export function followPlan({ id, figure, blockMs, blocks, least, season, resolution }: FollowedFigure): FollowPlan {
  const scale = 'scaleNumberAt' in figure || 'continuousScaleNumberAt' in figure;
  const smallest = least ?? (scale ? undefined : beyondAll);
  const whole = resolution ?? ('scaleNumberAt' in figure ? 1 : undefined);
  const width = blockMs ?? followDefaults.blockMs;
  return {
    id,
    figure: { ...figure },
    blockMs: width,
    blocks: blocks ?? followDefaults.blocks,
    of: `${figureWords(figure)} in blocks of ${width} ms`,
    detector: changePlan({ least: smallest, season, resolution: whole }),
  };
}
