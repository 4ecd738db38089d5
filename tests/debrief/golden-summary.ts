/**
 * A flight in short: what the golden files hold.
 *
 * Whole metres; null where the data cannot tell or nothing was predicted.
 */
import type { ComparedEvent } from '../../src/debrief/compare-events.ts';
import type { Flight } from '../../src/debrief/debrief.ts';
import type { Approach, TakeOff } from '../../src/events/flight-event.ts';
import { isUndetermined, type Measured, type Undetermined } from '../../src/result.ts';

/** How to renew the golden files; the first line of each. */
export const HOW_TO_RENEW =
  'Renew with: node tests/tools/run-tool.mjs tests/tools/make-golden.ts. Review every line that moved; a renewal is a "Results change" in docs/CHANGELOG.md.';

/** One event: words that must agree, and metres that may differ by one. */
export interface GoldenEvent {
  readonly what: string;
  readonly strip: string | null;
  readonly direction: string | null;
  readonly metres: Readonly<Record<string, number | null>>;
}

/** One golden file. */
export interface Golden {
  readonly about: string;
  readonly takeOffs: readonly GoldenEvent[];
  readonly approaches: readonly GoldenEvent[];
  readonly circuits: readonly string[];
  readonly joins: readonly string[];
}

/** A golden file's text: one event a line, so that a review sees what moved. */
export function goldenText(goldens: readonly Golden[]): string {
  const list = (values: readonly unknown[]): string =>
    values.length === 0
      ? '[]'
      : `[\n${values.map((value) => `      ${JSON.stringify(value)}`).join(',\n')}\n    ]`;
  const flights = goldens.map(({ about, takeOffs, approaches, circuits, joins }) => {
    const fields = [
      `"about": ${JSON.stringify(about)}`,
      ...Object.entries({ takeOffs, approaches, circuits, joins }).map(
        ([name, values]) => `${JSON.stringify(name)}: ${list(values)}`,
      ),
    ];
    return `  {\n    ${fields.join(',\n    ')}\n  }`;
  });
  return `[\n${flights.join(',\n')}\n]\n`;
}

/** Sums up a flight. */
export function summarise({ events, compared, circuits }: Flight): Golden {
  return {
    about: HOW_TO_RENEW,
    takeOffs: events.takeOffs.map((takeOff, k) => takeOffInShort(takeOff, compared.takeOffs[k])),
    approaches: events.approaches.map((approach, k) =>
      approachInShort(approach, compared.approaches[k]),
    ),
    circuits: circuits.circuits.map(
      ({ side, strip, direction, legs }) =>
        `${side} ${strip ?? '?'} ${direction ?? '?'}: ${legs.map(({ leg }) => leg).join(', ')}`,
    ),
    joins: circuits.joins.map(
      ({ kind, strip, direction }) => `${kind} ${strip ?? '?'} ${direction ?? '?'}`,
    ),
  };
}

function takeOffInShort(takeOff: TakeOff, { prediction }: ComparedEvent): GoldenEvent {
  const { kind, strip, direction, brakeRelease, liftOff } = takeOff;
  const run = isUndetermined(prediction) ? prediction : prediction.takeOff;
  return {
    what: kind,
    strip,
    direction,
    metres: {
      brakeRelease: part(brakeRelease, ({ alongM }) => alongM),
      liftOff: part(liftOff, ({ alongM }) => alongM),
      roll: whole(takeOff.groundRollM),
      left: whole(takeOff.stripLeftM),
      expectedRoll: isUndetermined(run) ? null : whole(run.expectedRollM),
      expectedTo50Ft: isUndetermined(run) ? null : whole(run.expectedTo50FtM),
      plannedTo50Ft: isUndetermined(run) ? null : whole(run.plannedTo50FtM),
    },
  };
}

function approachInShort(approach: Approach, { prediction }: ComparedEvent): GoldenEvent {
  const { outcome, strip, direction, touchdown, rollEnd, goAround } = approach;
  const landing = isUndetermined(prediction) ? prediction : prediction.landing;
  const end = isUndetermined(rollEnd) ? '' : `, ${rollEnd.kind}`;
  return {
    what: `${isUndetermined(outcome) ? 'undetermined' : outcome}${end}`,
    strip,
    direction,
    metres: {
      touchdown: part(touchdown, ({ alongM }) => alongM),
      roll: whole(approach.groundRollM),
      fullStopRoll: whole(approach.fullStopRollM),
      end: part(rollEnd, ({ alongM }) => alongM),
      left: whole(approach.stripLeftM),
      lowest: goAround === null ? null : whole(goAround.lowestAboveM),
      expectedRoll: isUndetermined(landing) ? null : whole(landing.expectedRollM),
      expectedFrom50Ft: isUndetermined(landing) ? null : whole(landing.expectedFrom50FtM),
      plannedFrom50Ft: isUndetermined(landing) ? null : whole(landing.plannedFrom50FtM),
    },
  };
}

function part<T extends object>(
  value: T | Undetermined,
  pick: (value: T) => Measured,
): number | null {
  return isUndetermined(value) ? null : whole(pick(value));
}

/** Whole metres, without a minus before zero. */
function whole(quantity: Measured | number): number | null {
  if (typeof quantity === 'number') return Math.round(quantity) + 0;
  return isUndetermined(quantity) ? null : Math.round(quantity.value) + 0;
}
