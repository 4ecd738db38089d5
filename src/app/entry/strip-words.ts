/**
 * A strip and what stands around it, in words and in the pilot's units.
 *
 * In: decoded strips and surroundings. Out: short texts for lists.
 */
import type { ShownUnits } from '../../logbook/entry.ts';
import { NBSP } from '../../report/figure-text.ts';
import type { Strip, StripDirection } from '../../strips/strip.ts';
import { heightUnit, lengthUnit, showQuantity, type FieldUnit } from './shown-unit.ts';
import type { StripRow, SurroundRow } from './strip-list.ts';

/** A length in whole units: `355 m`. */
export function lengthWords(metres: number, units: ShownUnits): string {
  return whole(metres, lengthUnit(units));
}

/** A height in whole units: `27 ft`. */
export function heightWords(metres: number, units: ShownUnits): string {
  return whole(metres, heightUnit(units));
}

/** One strip in a sentence: `Sedgeholt, 355 m of grass.` */
export function stripSentence(row: StripRow | null, units: ShownUnits): string {
  if (row === null) return 'A new strip.';
  if (row.strip === null || row.lengthM === null) return `${row.name}, which cannot be read.`;
  const length = lengthWords(row.lengthM, units);
  const guess = row.strip.endsGuessed ? ', where it ends a guess' : '';
  return `${row.name}, ${length} of ${GROUND[row.strip.surface]}${guess}.`;
}

const GROUND = { grass: 'grass', hard: 'hard surface', gravel: 'gravel', earth: 'earth' } as const;

/** Both directions with what they are for: `33 landing only, 15 take-off only`. */
export function directionWords({ directions }: Strip): string {
  const use = (each: StripDirection) => (each.use === 'both' ? '' : ` ${each.use} only`);
  return directions.map((each) => `${each.designator}${use(each)}`).join(', ');
}

/** Surface and elevation: `grass, 6 to 7 m above the sea`, and where its ends are a guess that they are. */
export function groundWords(
  { surface, elevationM, endsGuessed }: Strip,
  units: ShownUnits,
): string {
  const ends = endsGuessed ? ', ends guessed' : '';
  if (elevationM === null) return `${surface}, elevation not entered${ends}`;
  const [low, high] = [...elevationM].sort((a, b) => a - b).map((each) => heightWords(each, units));
  const span = low === high ? low : `${low.replace(/\D+$/, '')} to ${high}`;
  return `${surface}, ${span} above the sea${ends}`;
}

/** What belongs to a strip: `2 obstacles, 1 approach path`; empty for nothing. */
export function aroundWords(around: readonly SurroundRow[]): string {
  const names = {
    obstacle: 'obstacle',
    avoid: 'avoid area',
    'approach-path': 'approach path',
    other: 'other feature',
  };
  return Object.entries(names)
    .map(([kind, name]) => ({ name, count: around.filter((each) => each.kind === kind).length }))
    .filter(({ count }) => count > 0)
    .map(({ name, count }) => `${count} ${name}${count === 1 ? '' : 's'}`)
    .join(', ');
}

/** Kind and height of one: `obstacle, 9 m above the ground`. */
export function surroundWords(row: SurroundRow, units: ShownUnits): string {
  if (row.fault !== '') return row.fault;
  if (row.obstacle) {
    const { topMslM, topAboveThresholdM, heightM } = row.obstacle;
    const height = (metres: number, over: string) =>
      `obstacle, ${heightWords(metres, units)} above ${over}`;
    if (topMslM !== null) return height(topMslM, 'the sea');
    if (topAboveThresholdM !== null) return height(topAboveThresholdM, 'the nearer threshold');
    return height(heightM ?? Number.NaN, 'the ground');
  }
  if (row.avoid) {
    const { belowMslM } = row.avoid;
    const below =
      belowMslM === null ? 'at any height' : `below ${heightWords(belowMslM, units)} above the sea`;
    return `area to avoid, ${below}`;
  }
  if (row.path) return `approach path to ${row.path.designator}`;
  return 'kept as it came, not used';
}

function whole(metres: number, unit: FieldUnit): string {
  return `${showQuantity(metres, { ...unit, decimals: 0 })}${NBSP}${unit.symbol}`;
}
