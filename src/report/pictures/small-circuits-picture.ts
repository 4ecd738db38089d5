/**
 * The circuits of several approaches, small, at one scale.
 *
 * In: debriefs of events at one strip and direction, in the order of their numbers, the pilot's
 * units. Out: for each its line, the strip, three figures; and the ground that all of them need.
 */
import { isUndetermined, undetermined, type Undetermined } from '../../result.ts';
import {
  figureLine,
  figureValue,
  hasFigure,
  NBSP,
  type FigureText,
  type NoFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { duration } from '../format-quantity.ts';
import { whenText } from '../local-time.ts';
import type { EventDebrief } from '../story/event-debrief.ts';
import type { CircuitPicture, PlanLine } from './circuit-picture.ts';
import type { Picture } from './picture.ts';

/** One circuit. */
export interface SmallCircuit {
  readonly number: number;
  readonly track: PlanLine;
  /** `spacing`, `820 m`; empty where no circuit was found. */
  readonly figures: readonly { readonly label: string; readonly value: string }[];
  /** Why there are no figures; null where there are. */
  readonly reason: string | null;
}

/** All of them; metres along and right of the centreline. */
export interface SmallCircuitsPicture extends Picture {
  readonly circuits: readonly SmallCircuit[];
  readonly strip: Pick<CircuitPicture['ground'], 'nearEndM' | 'farEndM' | 'ldaM'>;
  readonly extent: {
    readonly alongM: readonly [number, number];
    readonly crossM: readonly [number, number];
  };
  readonly lengthUnit: 'm' | 'ft';
}

/** Undetermined where none of them has a plan. */
export function smallCircuitsPicture(
  events: readonly EventDebrief[],
  { timeZone }: PilotUnits,
): SmallCircuitsPicture | Undetermined {
  const planned = events.flatMap(({ plan, timeS }, k) =>
    isUndetermined(plan) ? [] : [{ plan, timeS, number: k + 1 }],
  );
  if (planned.length === 0) return undetermined('none of these approaches can be drawn on a plan');
  const [{ plan: first }] = planned;
  const { nearEndM, farEndM, ldaM } = first.ground;
  // A straight-in from far out would make every circuit small: it is cut at the edge instead.
  const flown = planned.filter(({ plan }) => plan.flown !== null);
  const lines = (flown.length > 0 ? flown : planned).map(({ plan }) => plan.track);
  const rows = planned.map(({ plan, timeS, number }) => ({
    label: `${number}, ${whenText(timeS, timeZone)}`,
    value: plan.flown
      ? figuresOf(plan.flown, figureLine)
          .map(({ label, value }) => `${label} ${value}`)
          .join(', ')
      : NO_CIRCUIT,
  }));
  const heard = rows.map(({ label, value }) => `${label}: ${value}.`).join(' ');
  return {
    circuits: planned.map(({ plan: { track, flown: figures }, number }) => ({
      number,
      track,
      figures: figures ? figuresOf(figures, figureValue) : [],
      reason: figures ? null : NO_CIRCUIT,
    })),
    strip: { nearEndM, farEndM, ldaM },
    extent: {
      alongM: rangeOf([...lines.flatMap(({ alongM }) => [...alongM]), nearEndM, farEndM]),
      crossM: rangeOf([...lines.flatMap(({ crossM }) => [...crossM]), 0]),
    },
    lengthUnit: first.lengthUnit,
    rows,
    spoken: `${planned.length} circuits at one scale, landing direction up. ${heard}`,
  };
}

const NO_CIRCUIT = 'no circuit found';

function figuresOf(
  { spacing, bank, durationS }: NonNullable<CircuitPicture['flown']>,
  show: (figure: FigureText | NoFigure) => string,
): SmallCircuit['figures'] {
  // A reason would fill the picture; it stands in the debrief.
  const text = (figure: FigureText | NoFigure): string =>
    hasFigure(figure) ? show(figure) : '· · ·';
  return [
    { label: 'spacing', value: text(spacing) },
    { label: 'bank', value: text(bank) },
    { label: 'time', value: duration(durationS).replaceAll(' ', NBSP) },
  ];
}

function rangeOf(values: readonly number[]): [number, number] {
  let [from, to] = [Infinity, -Infinity];
  for (const value of values) {
    if (value < from) from = value;
    if (value > to) to = value;
  }
  return [from, to];
}
