/**
 * What was planned in each direction used, against the length declared there.
 *
 * In: a flight. Out: a table: planned distance over 50 ft, what is declared, the margin (negative as
 * plainly as positive), the planned roll and the latest touchdown point that it leaves.
 */
import type { ComparedEvent } from '../debrief/compare-events.ts';
import type { Flight } from '../debrief/debrief.ts';
import type { Prediction } from '../performance/prediction.ts';
import { isUndetermined } from '../result.ts';
import { SHORT_CAUTION } from './caution.ts';
import { placeText } from './event-table.ts';
import { metresOnly } from './format-quantity.ts';
import { textTable } from './text-table.ts';

const HEADING = [
  'planned',
  'strip',
  'over 50 ft',
  'declared',
  'margin',
  'roll',
  'latest touchdown point',
];

/** The table under its heading; no lines where nothing was predicted. */
export function plannedTable(flight: Flight): string[] {
  const rows = [...takeOffRows(flight), ...landingRows(flight)];
  if (rows.length === 0) return [];
  const { conditions } = flight;
  const set = isUndetermined(conditions) ? null : conditions.factorSet;
  const by = set === null ? 'the usual factors' : `the ${set} factors`;
  return ['', `  Planned by ${by} (${SHORT_CAUTION})`, ...textTable(HEADING, rows)];
}

function takeOffRows({ events, compared }: Flight): string[][] {
  const used = firstOfEach(events.takeOffs, compared.takeOffs);
  return used.flatMap(({ event, prediction }) => {
    const run = prediction.takeOff;
    if (isUndetermined(run)) return [];
    const against = run.heldAgainst ?? 'TODA';
    const direction = declared(events.views, event);
    const lengthM = (against === 'TORA' ? direction?.toraM : direction?.todaM) ?? NaN;
    return [
      [
        'take-off',
        placeText(event),
        metresOnly(run.plannedTo50FtM),
        `${against} ${metresOnly(lengthM)}`,
        metresOnly(run.marginM),
        metresOnly(run.plannedRollM),
        '',
      ],
    ];
  });
}

function landingRows({ events, compared }: Flight): string[][] {
  const used = firstOfEach(events.approaches, compared.approaches);
  return used.flatMap(({ event, prediction }) => {
    const { landing } = prediction;
    if (isUndetermined(landing)) return [];
    const ldaM = declared(events.views, event)?.ldaM ?? NaN;
    return [
      [
        'landing',
        placeText(event),
        metresOnly(landing.plannedFrom50FtM),
        `LDA ${metresOnly(ldaM)}`,
        metresOnly(landing.marginM),
        metresOnly(landing.plannedRollM),
        metresOnly(landing.latestTouchdownAlongM),
      ],
    ];
  });
}

interface Place {
  readonly strip: string | null;
  readonly direction: string | null;
}

/** The first event in each direction, with its prediction: those of one flight do not differ. */
function firstOfEach<T extends Place>(
  events: readonly T[],
  compared: readonly ComparedEvent[],
): { event: T; prediction: Prediction }[] {
  return events.flatMap((event, k) => {
    const { prediction } = compared[k];
    const isFirst = events.findIndex((other) => sameDirection(other, event)) === k;
    return isFirst && !isUndetermined(prediction) ? [{ event, prediction }] : [];
  });
}

function sameDirection(a: Place, b: Place): boolean {
  return a.strip === b.strip && a.direction === b.direction;
}

function declared(
  views: Flight['events']['views'],
  { strip, direction }: Place,
): { readonly ldaM: number; readonly toraM: number; readonly todaM: number } | undefined {
  return views.find((view) => view.stripId === strip && view.direction.designator === direction)
    ?.direction;
}
