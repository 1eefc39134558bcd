/**
 * Every word that a person reads, as one table per language: templates with named places in braces. English is
 * `englishTexts`; another language is another object of this type, and one that lacks a text does not compile.
 */
import type { AcceptanceRun, AcceptanceTexts } from '../../acceptance/index.ts';
import type { ErrorCode } from '../../errors.ts';
import type { FigureName, FindingTexts, Quality } from '../../reading/index.ts';
import type { FlowControlTexts } from '../../sampling/index.ts';
import type { englishExpectedTexts } from './englishExpected.ts';
import type { EventTexts } from './eventTypes.ts';
import type { monthNames } from './monthNames.ts';

/** What charts say. */
export interface ChartTexts {
  /** Titles where none is given. */
  readonly titles: {
    readonly trend: string;
    readonly size: string;
    readonly cleanUp: string;
    readonly probability: string;
  };
  /** Joins the notes of one line. */
  readonly separator: string;
  /** `{from}`, `{to}`, `{zone}`. */
  readonly period: string;
  /** `{day}`, `{zone}`. */
  readonly day: string;
  readonly particles: string;
  /** Of a table whose columns are ranges, such as NAS 1638. */
  readonly rangeParticles: string;
  /** `{size}`. */
  readonly panel: string;
  /** `{standard}`. */
  readonly classes: string;
  /** `{code}`. */
  readonly target: string;
  readonly alarm: string;
  /** Of a size that the target says nothing of. */
  readonly noTarget: string;
  /** Beside the limit of a class, `{class}`; `bothClass` where target and alarm have one limit. */
  readonly targetClass: string;
  readonly alarmClass: string;
  readonly bothClass: string;
  readonly uncertainMark: string;
  readonly badMark: string;
  readonly badSpan: string;
  readonly zeroMark: string;
  readonly codeBand: string;
  /** Of `*` in a code: what its bar is, and beside a size, of all readings or of some. */
  readonly tooManyMark: string;
  readonly tooMany: string;
  readonly tooManyAtTimes: string;
  /** `{width}`: how long a bucket is. */
  readonly buckets: string;
  readonly codeBuckets: string;
  /** Of buckets, shares of the time that they last: `{bad}`, `{unknown}`. */
  readonly notKnown: string;
  /** The marks of a bucket known for less than half of its time, and of the newest reading. */
  readonly thinMark: string;
  readonly newestMark: string;
  /** `{number}` of readings. */
  readonly otherCodes: string;
  readonly otherCounts: string;
  /** `{sizes}` that the target asks for, and no reading has. */
  readonly notCounted: string;
  /** `{sizes}` of forecasts that have no panel. */
  readonly otherForecasts: string;
  readonly forecast: string;
  /** When a forecast reaches its level: `{size}`, `{level}`, `{date}`, `{earliest}`, `{latest}`; without a latest. */
  readonly crossing: string;
  readonly crossingOpen: string;
  /** Below the chart: `{period}` of the readings, and until when a forecast is drawn, `{to}`. */
  readonly forecastPeriod: string;
  /** A forecast that goes on beyond the picture; one without a latest crossing: `{size}`, `{to}`. */
  readonly forecastCut: string;
  readonly forecastOpen: string;
  readonly noReadings: string;
  /** There are readings, and none that says anything of a size. */
  readonly nothingDrawn: string;
  /** At the axis of time: months in short, and a day, `{day}`, `{month}`. */
  readonly months: Readonly<Record<(typeof monthNames)[number], string>>;
  readonly dayOfMonth: string;
  /** `{number}`. */
  readonly moreEvents: string;
  readonly size: {
    /** `{unit}`. */
    readonly axis: string;
    readonly bar: string;
    readonly target: string;
    readonly counting: string;
    readonly errors: string;
    /** Heads of the rows below. */
    readonly sizeHead: string;
    readonly perMlHead: string;
    readonly classHead: string;
    readonly targetHead: string;
  };
  readonly cleanUp: {
    readonly minutes: string;
    readonly hours: string;
    readonly assumes: string;
    readonly marks: string;
    readonly zero: string;
    readonly targetMarks: string;
    /** Beside the line of a target: `{size}`. */
    readonly targetAt: string;
    /** `{standard}`, `{code}`, `{outcome}`. */
    readonly target: string;
    /** `{size}`. */
    readonly never: string;
    readonly metFromStart: string;
    /** `{duration}`. */
    readonly reached: string;
    /** `{reached}`, `{duration}`. */
    readonly lostAgain: string;
    /** `{outcome}`, `{sizes}`: met as counted by few particles. */
    readonly unsure: string;
    readonly headSize: string;
    readonly headTarget: string;
    readonly headReached: string;
    readonly notReached: string;
  };
  readonly probability: {
    /** `{code}`. */
    readonly mostProbable: string;
    /** `{number}`: per cent; `{low}`, `{high}`. */
    readonly limits: string;
    /** The same of a class for all sizes together. */
    readonly limitsOfClass: string;
  };
  /** What is read aloud for the picture. */
  readonly alternative: {
    /** `{title}`. */
    readonly title: string;
    /** `{readings}`, `{period}`. */
    readonly readings: string;
    /** `{total}`, `{good}`, `{uncertain}`, `{bad}`. */
    readonly qualities: string;
    /** `{size}`, `{low}`, `{high}`, `{last}`. */
    readonly counts: string;
    /** `{value}`, `{time}`; where later readings lack the size; of a bucket that ends bad, the mean. */
    readonly last: string;
    readonly lastDrawn: string;
    readonly lastMean: string;
    /** `{figure}`, `{low}`, `{high}`, `{last}`. */
    readonly measured: string;
    /** `{figure}`. */
    readonly noneMeasured: string;
    /** `{size}`. */
    readonly noCounts: string;
    /** `{size}`, `{low}`, `{high}`: readings with a code only. */
    readonly codes: string;
    /** `{size}`, `{perMl}`, `{class}`. */
    readonly sample: string;
    /** `{events}`. */
    readonly events: string;
    /** `{size}`, `{from}`, `{to}`, `{minutes}`. */
    readonly cleanUp: string;
    /** `{column}`, `{classes}`. */
    readonly probability: string;
  };
}

/** What a period says. Places: `{number}`, `{total}`, `{percent}`, `{code}`, `{standard}`. */
export interface PeriodTexts {
  readonly title: string;
  readonly fromTo: string;
  readonly from: string;
  readonly until: string;
  /** `{period}`, `{zone}`. */
  readonly zoned: string;
  readonly heads: {
    readonly readings: string;
    readonly judged: string;
    readonly target: string;
    readonly verdicts: string;
    /** Of alarms that were raised before the period and stood at its beginning. */
    readonly standing: string;
    readonly events: string;
    readonly perMl: string;
    /** Of readings with a code and no counts. */
    readonly codes: string;
    /** What was measured beside the particles. */
    readonly measured: string;
  };
  readonly columns: {
    readonly lowest: string;
    readonly median: string;
    readonly highest: string;
    readonly last: string;
  };
  readonly noReadings: string;
  /** `{total}`, `{good}`, `{uncertain}`, `{bad}`. */
  readonly qualities: string;
  readonly noneUsable: string;
  /** `{reasons}`, each with `{number}`. */
  readonly leftOut: string;
  readonly setAside: string;
  readonly repeated: string;
  readonly withoutSample: string;
  /** How often readings usually come, `{usual}`, and how much of the period they cover so, `{percent}`. */
  readonly covered: string;
  /** Without a reading: `{duration}`, `{from}`, `{to}`; of several stretches also `{number}`. */
  readonly gap: string;
  readonly gaps: string;
  /** `{standard}`, `{columns}`. */
  readonly judged: string;
  /** `{standard}`, `{code}`, `{outcome}`. */
  readonly target: string;
  readonly notJudged: string;
  /** `{met}`, `{judged}`. */
  readonly met: string;
  readonly oneMet: string;
  readonly allGood: string;
  readonly noneGood: string;
  /** `{number}`. */
  readonly someGood: string;
  /** Sentences of their own. */
  readonly lastMet: string;
  readonly lastMissed: string;
  /** `{number}`. */
  readonly unjudged: string;
  readonly lastUnjudged: string;
  /** `{percent}`: of the last reading, a sentence of its own. */
  readonly probability: string;
  readonly unknownCode: string;
  /** Of sizes that not all readings have: `{sizes}`, each `{size}`, `{number}`, `{total}`. */
  readonly partly: string;
  readonly partlyAt: string;
  /** The same of what was measured: `{figures}`, each `{name}`, `{number}`, `{total}`, of some `{bad}`. */
  readonly partlyMeasured: string;
  readonly measuredIn: string;
  readonly measuredWithout: string;
  /** That none began in the period: what goes on from before is not among them. */
  readonly noEvents: string;
}

/** Words and notes in the sources of the library's tables. */
type SourceWord =
  | 'table'
  | 'exact'
  | 'twoPart'
  | 'january'
  | 'level'
  | 'clause'
  | 'slope'
  | 'gost'
  | 'gostRest'
  | 'proposal'
  | 'sae749d'
  | 'printed'
  | 'byClass';

/** What the page of one sample says. */
export interface SheetTexts {
  readonly title: string;
  readonly heads: {
    readonly counts: string;
    readonly codes: string;
    readonly certainty: string;
    readonly target: string;
    readonly notLooked: string;
    readonly method: string;
  };
  readonly columns: {
    readonly size: string;
    readonly perMl: string;
    readonly counted: string;
    readonly low: string;
    readonly high: string;
    readonly column: string;
    readonly class: string;
    readonly count: string;
    readonly above: string;
    readonly upTo: string;
  };
  /** `{time}`, `{zone}`. */
  readonly sampled: string;
  /** `{volume}`, `{dilution}`. */
  readonly volume: string;
  readonly dilution: string;
  readonly noVolume: string;
  readonly rawNotGiven: string;
  /** `{standard}`, `{reason}`. */
  readonly noCode: string;
  readonly noLimit: string;
  /** `{standard}`, `{code}`, `{low}`, `{high}`, `{percent}`. */
  readonly sure: string;
  /** The same of a class for all sizes together. */
  readonly sureOfClass: string;
  readonly notSure: string;
  /** `{standard}`, `{code}`. */
  readonly met: string;
  readonly missed: string;
  /** Also `{columns}`: those the counts lack, or those of too few particles. */
  readonly open: string;
  readonly openByFew: string;
  readonly metByFew: string;
  /** `{percent}`. */
  readonly probability: string;
  readonly noProbability: string;
  readonly few: string;
  readonly sizing: Readonly<Record<'iso11171' | 'iso11171b' | 'iso4402' | 'microscope', string>>;
  /** `{standard}`, `{source}`, `{volume}`. */
  readonly standard: string;
  /** Of a source recalled and not seen in print: `{source}`. */
  readonly fromMemory: string;
  /** What the sources of the tables say beside names and numbers: the English of it is recognized. */
  readonly sourceWords: Readonly<Record<SourceWord, string>>;
  readonly rounding: string;
  /** `{version}`. */
  readonly version: string;
  readonly errors: string;
  /** Names of errors, `{percent}` each. */
  readonly errorParts: Readonly<
    Record<'volume' | 'flow' | 'sizing' | 'certificate' | 'coincidence' | 'sampling' | 'dilution', string>
  >;
  readonly lookedAt: Readonly<Record<NotLookedAt, string>>;
  readonly disclaimer: string;
}

/** What the counts of one sample cannot tell. */
export type NotLookedAt =
  | 'sampling'
  | 'dilution'
  | 'diluent'
  | 'flow'
  | 'certificate'
  | 'coincidence'
  | 'water_and_air'
  | 'blank'
  | 'fields'
  | 'membrane'
  | 'reader'
  | 'particle_nature'
  | 'raw_counts'
  | 'larger_sizes';

/** What the page of a proof says. */
export interface AcceptanceSheetTexts {
  readonly title: string;
  /** `{time}`, `{zone}`. */
  readonly shown: string;
  readonly heads: { readonly target: string; readonly run: string; readonly tries: string; readonly unchecked: string };
  /** `{table}`, and of a table that names its editions `{edition}`. */
  readonly table: string;
  readonly tableOfEdition: string;
  /** `{code}`, `{columns}`. */
  readonly target: string;
  readonly leftOut: string;
  /** `{number}`, `{duration}`, `{litres}`. */
  readonly readingsAsked: string;
  readonly timeAsked: string;
  readonly litresAsked: string;
  /** `{number}`, `{from}`, `{to}`. */
  readonly counted: string;
  /** `{duration}` and `{proved}`. */
  readonly time: string;
  /** `{litres}`, `{from}`, `{to}`. */
  readonly litres: string;
  /** `{code}`. */
  readonly worst: string;
  readonly last: string;
  /** `{column}`, `{classes}`; and `{margins}`, all of these. */
  readonly margin: string;
  readonly margins: string;
  /** `{time}`, `{number}`. */
  readonly given: string;
  readonly unknown: string;
  /** `{number}`. */
  readonly notCounted: string;
  readonly notCountedInRun: string;
  readonly sameAsLast: string;
  readonly restarts: string;
  /** `{time}`, and `{why}`: a sentence. */
  readonly lastRestart: string;
  /** `{number}`. */
  readonly fewParticles: string;
  readonly withoutCounts: string;
  readonly withoutVolume: string;
  /** What each check looks for, where it could not be made. */
  readonly checks: Readonly<Record<AcceptanceRun['unchecked'][number], string>>;
  readonly contradicted: string;
  readonly separately: string;
  readonly disclaimer: string;
}

/** All words of one language. */
export interface Texts extends FindingTexts {
  /** Its tag, such as `en`. */
  readonly language: string;
  /** Between thousands. */
  readonly groupSign: string;
  /** `{number}`. */
  readonly percent: string;
  readonly qualities: Readonly<Record<Quality, string>>;
  /** In tables, of readings that came twice or were set aside. */
  readonly arrivals: { readonly set_aside: string; readonly repeated: string };
  readonly verdicts: {
    readonly in_target: string;
    readonly above_target: string;
    readonly not_judged: string;
    readonly not_relied_on: string;
  };
  /** `{number}`. */
  readonly durations: {
    readonly seconds: string;
    readonly minutes: string;
    readonly hours: string;
    readonly days: string;
    readonly centuries: string;
  };
  /** After a class that a size not counted could make worse. */
  readonly orDirtier: string;
  /** Of counts that are 0 at every size. */
  readonly noParticles: string;
  /** Heads of the columns of a file. */
  readonly rows: {
    readonly time: string;
    /** Beside times that have more than one UTC offset. */
    readonly offset: string;
    readonly perMl: string;
    readonly quality: string;
    readonly verdict: string;
    /** Which of the other figures are uncertain or bad. */
    readonly doubts: string;
    readonly arrival: string;
  };
  /** What is measured beside the particles with its unit, for a column or a panel: `temperature (°C)`. */
  readonly measured: Readonly<Record<Exclude<FigureName, 'counts'>, string>>;
  readonly charts: ChartTexts;
  readonly period: PeriodTexts;
  readonly sheet: SheetTexts;
  readonly events: EventTexts;
  readonly flowControl: FlowControlTexts;
  readonly acceptance: AcceptanceTexts;
  readonly acceptanceSheet: AcceptanceSheetTexts;
  /** By the code of an error: `{parameter}`, `{received}`. */
  readonly errors: Readonly<Record<ErrorCode, string>>;
  /** The parameter where the error names a line: `{parameter}`, `{number}`. */
  readonly errorLine: string;
  /** Of one mistake, or of what was told: where it is, and what was made of it. */
  readonly problems: {
    /** The input itself, where no part of it is named. */
    readonly whole: string;
    /** In a file: `{number}` of the line, `{column}`. */
    readonly line: string;
    readonly cell: string;
    readonly column: string;
    /** `{parameter}`: before what was made of it. */
    readonly absent: string;
    readonly leftOut: string;
    readonly kept: string;
    /** `{value}`, `{why}`. */
    readonly readAs: string;
    readonly readBecause: string;
  };
  /** The sentence after it: `{expected}`. */
  readonly expectation: string;
  /** What is expected: the places are those of English. */
  readonly expected: Readonly<Record<keyof typeof englishExpectedTexts, string>>;
}
