/** What a period in figures and the sheet of a sample are made of, as rules: a page is written of nothing else. */
import { sizings } from '../counts/checkCounts.ts';
import type { ListRule, NumberRule, ObjectRule, Rule, TextRule, WordRule } from '../rules/rule.ts';
import type { Source } from '../source.ts';
import { countRule } from '../state/rules.ts';
import type { ClassEnds, ClassFigures, CodeFigures } from './period/periodCodes.ts';
import type { CountFigure, CountFigures, FourOf, SizeFigures } from './period/periodCounts.ts';
import type { Moment, PeriodCoverage, PeriodGap } from './period/periodCoverage.ts';
import type { PeriodFigures, PeriodLeftOut, PeriodQualities } from './period/periodFigures.ts';
import type { MeasuredFigure, MeasuredFigures } from './period/periodMeasured.ts';
import type { TargetFigures } from './period/periodTarget.ts';
import type { SampleSheet, SheetCode, SheetColumn, SheetCount, SheetTarget } from './sheet/sampleSheet.ts';
import type { TakenErrors } from './takenErrors.ts';
import { englishSheetTexts } from './texts/englishPages.ts';
import { offsetSpan, writtenTimeRule } from './timeText.ts';

type RulesOf<T> = Readonly<Record<keyof T, Rule>>;

const text: TextRule = { kind: 'text', shortest: 0 };
const textOrNull: TextRule = { ...text, nullable: true };
const number: NumberRule = { kind: 'number' };
const unsigned: NumberRule = { kind: 'number', least: 0 };
const unsignedOrNull: NumberRule = { ...unsigned, nullable: true };
const share: NumberRule = { kind: 'number', least: 0, most: 1 };
const flagOrNull: Rule = { kind: 'flag', nullable: true };
const sizing: WordRule = { kind: 'word', words: sizings };

const moment: ObjectRule = /* @__PURE__ */ objectOf<Moment>({
  time: writtenTimeRule,
  utcOffsetMinutes: { kind: 'number', whole: true, ...offsetSpan },
});
const momentOrNull: Rule = /* @__PURE__ */ orNull(moment);
const errors: ObjectRule = /* @__PURE__ */ objectOf<TakenErrors>({
  volume: share,
  flow: share,
  sizing: share,
  certificate: share,
  coincidence: share,
  sampling: share,
  dilution: { ...share, optional: true },
});

function objectOf<T>(members: RulesOf<T>): ObjectRule {
  return { kind: 'object', members };
}

function orNull(rule: Rule): Rule {
  return { ...rule, nullable: true };
}

function listOf(of: Rule): ListRule {
  return { kind: 'list', of, shortest: 0, longest: 1e6 };
}

function fourOf(of: Rule): RulesOf<FourOf<unknown>> {
  return { lowest: of, median: of, highest: of, last: orNull(of) };
}

export function periodRule(): ObjectRule {
  const count = objectOf<CountFigure>({ perMl: unsigned, counted: unsignedOrNull });
  const size = objectOf<SizeFigures>({ size: unsigned, readings: countRule, ...fourOf(count) });
  const fourCodes = objectOf(fourOf(textOrNull));
  const counts = objectOf<CountFigures>({ readings: countRule, sizes: listOf(size), codes: orNull(fourCodes) });
  const span = objectOf<ClassEnds>({ low: textOrNull, high: textOrNull });
  const classes = objectOf<ClassFigures>({
    column: textOrNull,
    size: unsignedOrNull,
    readings: countRule,
    ...fourOf(span),
  });
  const codes = objectOf<CodeFigures>({ readings: countRule, classes: listOf(classes) });
  const figure = objectOf<MeasuredFigure>({
    figure: text,
    readings: countRule,
    bad: countRule,
    ...fourOf(orNull(number)),
  });
  const target = objectOf<TargetFigures>({
    code: text,
    met: countRule,
    metGood: countRule,
    judged: countRule,
    unjudged: countRule,
    last: flagOrNull,
    probability: { ...share, nullable: true, optional: true },
    errors: { ...errors, optional: true },
  });
  const happened = listOf(objectOf({ ...moment.members, text }));
  const measured = objectOf<MeasuredFigures>({ readings: countRule, figures: listOf(figure) });
  return objectOf<PeriodFigures>({
    title: textOrNull,
    from: momentOrNull,
    to: momentOrNull,
    zone: text,
    readings: objectOf<PeriodQualities>({ good: countRule, uncertain: countRule, bad: countRule }),
    leftOut: objectOf<PeriodLeftOut>({ setAside: countRule, repeated: countRule, withoutSample: countRule }),
    coverage: objectOf<PeriodCoverage>({
      first: momentOrNull,
      last: momentOrNull,
      usualMs: unsignedOrNull,
      longestGap: orNull(objectOf<PeriodGap>({ from: moment, to: moment })),
      longGaps: countRule,
      longGapsMs: unsigned,
      coveredShare: { ...share, nullable: true, optional: true },
    }),
    standard: text,
    sizing,
    columns: orNull(listOf(text)),
    target: orNull(target),
    counts: orNull(counts),
    codes: { ...orNull(codes), optional: true },
    measured: { ...orNull(measured), optional: true },
    verdicts: listOf(objectOf({ verdict: text, readings: countRule })),
    standing: { ...happened, optional: true },
    events: orNull(happened),
  });
}

export function sheetRule(): ObjectRule {
  const count = objectOf<SheetCount>({
    size: unsigned,
    perMl: unsigned,
    counted: unsignedOrNull,
    low: unsignedOrNull,
    high: unsignedOrNull,
  });
  const column = objectOf<SheetColumn>({
    column: text,
    class: text,
    count: number,
    above: number,
    upTo: orNull(number),
  });
  const optional: TextRule = { ...text, optional: true };
  const code = objectOf<SheetCode>({
    table: text,
    standard: text,
    source: objectOf<Source>({ document: optional, edition: optional, place: optional, standing: optional }),
    perVolumeMl: unsigned,
    text: textOrNull,
    columns: listOf(column),
    sure: orNull(objectOf({ mostProbable: text, low: text, high: text, confidence: share })),
  });
  const target = objectOf<SheetTarget>({
    standard: text,
    code: text,
    met: flagOrNull,
    missing: listOf(text),
    few: listOf(text),
    probability: orNull(share),
  });
  return objectOf<SampleSheet>({
    title: textOrNull,
    time: momentOrNull,
    zone: text,
    sizing,
    volumeMl: unsignedOrNull,
    dilution: unsignedOrNull,
    counts: listOf(count),
    codes: listOf(code),
    target: orNull(target),
    errors: orNull(errors),
    notLookedAt: listOf({ kind: 'word', words: Object.keys(englishSheetTexts.lookedAt) }),
    version: text,
  });
}
