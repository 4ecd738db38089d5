/**
 * What the ruler of an approach says aloud and in its table.
 *
 * In: the approach and its model. Out: a sentence, and rows for a reader who does not see it.
 */
import type { Approach, RollEndKind } from '../../events/flight-event.ts';
import { isUndetermined } from '../../result.ts';
import {
  figureLine,
  figureValue,
  hasFigure,
  heightFigure,
  lengthFigure,
  speedFigure,
  type PilotUnits,
} from '../figure-text.ts';
import { OUTCOME_WORDS } from '../outcome-words.ts';
import { twinRow, type TwinRow } from './picture.ts';
import { BY_OWN } from './rods.ts';
import type { Rope, StripPicture } from './strip-picture.ts';

/** How the roll ended, after `until`. */
export const ROLL_END_WORDS: Readonly<Record<RollEndKind, string>> = {
  stopped: 'stopped',
  taxi: 'taxiing on',
  vacated: 'turned off',
  power: 'power opened',
};

/** What the roll's figure is where the roll was not seen to its end; null where it was. */
export function rollWords(approach: Approach, units: PilotUnits): string | null {
  const { rollEnd, fullStopRollM } = approach;
  if (isUndetermined(rollEnd)) return null;
  if (rollEnd.kind === 'stopped') return null;
  const full = lengthFigure(fullStopRollM, units);
  const until = `until ${ROLL_END_WORDS[rollEnd.kind]}`;
  return hasFigure(full) ? `${until}; to a stop about ${figureValue(full)}` : until;
}

type Model = Omit<StripPicture, 'spoken' | 'rows'>;

/** Read out in place of the picture. */
export function approachSpoken(approach: Approach, model: Model): string {
  const place = `${model.ground.name} ${model.ground.designator}`;
  const sentences = [`${place}, ${outcomeWords(approach)}.`];
  for (const { label, figure } of model.places) sentences.push(`${label} ${figure.spoken} in.`);
  if (model.roll) sentences.push(`Rolled ${model.roll.spoken}.`);
  if (model.rollWords !== null) sentences.push(`${model.rollWords}.`);
  if (model.left) sentences.push(`${model.left.figure.spoken}, ${model.left.words}.`);
  for (const rod of model.rods) {
    sentences.push(`${rod.label} ${rod.figure.spoken}, ${rod.leftText}.`);
  }
  if (model.rope) {
    sentences.push(`${capital(ropeName(model.rope))} ${model.rope.figure.spoken} in.`);
  }
  if (model.noRope !== null) sentences.push(`${model.noRope}.`);
  if (model.unknown) sentences.push(`Undetermined: ${model.unknown.reason}.`);
  return sentences.map(capital).join(' ');
}

function ropeName({ of }: Rope): string {
  return `latest touchdown point${of === 'own' ? BY_OWN : ''}`;
}

function outcomeWords({ outcome }: Approach): string {
  return isUndetermined(outcome) ? 'outcome undetermined' : OUTCOME_WORDS[outcome];
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** All of the ruler in rows. */
export function approachRows(approach: Approach, model: Model, units: PilotUnits): TwinRow[] {
  const { touchdown, stripLeftM, goAround } = approach;
  const touched = isUndetermined(touchdown) ? null : touchdown;
  const isRoll = model.kind === 'landing' || model.kind === 'touch-and-go';
  return [
    { label: 'strip', value: `${model.ground.name} ${model.ground.designator}` },
    { label: 'outcome', value: outcomeWords(approach) },
    ...model.places.map(({ label, figure }) => ({ label, value: figureLine(figure) })),
    ...(touched ? [twinRow('speed at touchdown', speedFigure(touched.groundSpeedMps, units))] : []),
    ...(isRoll ? [twinRow('ground roll', lengthFigure(approach.groundRollM, units))] : []),
    ...(model.rollWords === null ? [] : [{ label: 'roll measured', value: model.rollWords }]),
    ...(isRoll ? [twinRow('strip left', lengthFigure(stripLeftM, units))] : []),
    ...(goAround ? [twinRow('lowest height', heightFigure(goAround.lowestAboveM, units))] : []),
    ...model.rods.map(({ label, figure, leftText }) => ({
      label: `${label} roll`,
      value: `${figureLine(figure)}, ${leftText}`,
    })),
    ...(model.rope ? [{ label: ropeName(model.rope), value: figureLine(model.rope.figure) }] : []),
    ...(model.noRope === null ? [] : [{ label: 'latest touchdown point', value: model.noRope }]),
    { label: 'length', value: model.end.label },
    ...groundRows(model),
    ...(model.unknown ? [{ label: 'undetermined', value: model.unknown.reason }] : []),
  ];
}

/** Slope and obstacles. */
export function groundRows({ ground }: Model): TwinRow[] {
  return [
    ...(ground.slopeText === null ? [] : [{ label: 'slope', value: ground.slopeText }]),
    ...ground.obstacles.map(({ label }) => ({ label: 'obstacle', value: label })),
  ];
}
