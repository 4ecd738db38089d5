/**
 * Gates in the panel of speeds: the estimated airspeed with its error, the pilot's limits to scale.
 *
 * In: the gates, the axes. Out: SVG, the boxes it fills, and words wanted beside it. The gate's mark
 * lies on its side here: its posts stand at the limits themselves.
 */
import { nothing, svg, type SVGTemplateResult } from 'lit';
import type { GatePicture } from '../../report/pictures/gate-picture.ts';
import { px, type Scale } from './scale.ts';
import { figureParts, labelBox, type Box, type Label, type Part } from './text.ts';

/** Half the length of a post and the radius of the dot, as in the other gates, pixels. */
const POST = 7;
const DOT = 3.6;
/** Over a gate its words stand, pixels. */
const OVER = 24;
const NAME: Part = { text: 'airspeed', gap: 6, ink: 'ink2' };

/** Gates with something to show on an axis of speed. */
export function paceGates(gates: readonly GatePicture[], along: Scale): readonly GatePicture[] {
  return gates.filter(
    ({ alongM, airspeed, paceLimit }) => alongM >= along.from && (airspeed ?? paceLimit) !== null,
  );
}

/** The greatest speed among them, m/s. */
export function mostPace(gates: readonly GatePicture[]): number {
  return Math.max(
    0,
    ...gates.flatMap(({ airspeed, paceLimit }) => [airspeed?.high ?? 0, paceLimit?.mostMps ?? 0]),
  );
}

/** Bars of the errors, posts and dots. */
export function paceGateMarks(
  gates: readonly GatePicture[],
  along: Scale,
  pace: Scale,
): SVGTemplateResult {
  return svg`${gates.map((gate) => {
    const x = along.at(gate.alongM);
    const { airspeed, paceLimit } = gate;
    const bar = airspeed
      ? `M${px(x)} ${px(pace.at(airspeed.low))}V${px(pace.at(airspeed.high))}`
      : '';
    return svg`${paceLimit ? posts(x, paceLimit, pace) : nothing}
      <path class="bar-90" d=${bar}/>
      ${airspeed ? dot(x, pace.at(airspeed.value), verdictOf(gate, 'airspeed')) : nothing}
      ${paceLimit?.of === 'groundSpeed' ? dot(x, pace.at(gate.groundSpeedMps), paceLimit.verdict) : nothing}`;
  })}`;
}

function posts(
  x: number,
  { leastMps, mostMps }: NonNullable<GatePicture['paceLimit']>,
  pace: Scale,
): SVGTemplateResult {
  const [low, high] = [pace.at(Math.max(leastMps, pace.from)), pace.at(mostMps)];
  const post = (y: number): string => `M${px(x - POST)} ${px(y)}H${px(x + POST)}`;
  const bars = [-3, 3].map((dx) => `M${px(x + dx)} ${px(low)}V${px(high)}`).join('');
  return svg`<path class="gate-bar" d=${bars}/><path class="mark-line" d=${post(low) + post(high)}/>`;
}

function verdictOf({ paceLimit }: GatePicture, of: 'airspeed'): string | null {
  return paceLimit?.of === of ? paceLimit.verdict : null;
}

function dot(x: number, y: number, verdict: string | null): SVGTemplateResult {
  const style = verdict === 'out' ? 'dot-out' : verdict === 'cannot tell' ? 'dot-open' : 'dot';
  return svg`<circle class=${style} cx=${px(x)} cy=${px(y)} r=${DOT}/>`;
}

/** What they fill, so that words keep clear of it. */
export function paceGateWalls(gates: readonly GatePicture[], along: Scale, pace: Scale): Box[] {
  return gates.map(({ alongM, airspeed, paceLimit, groundSpeedMps }) => {
    const x = along.at(alongM);
    const half = paceLimit ? POST : DOT;
    const speeds = [
      ...(airspeed ? [airspeed.low, airspeed.high] : []),
      ...(paceLimit ? [paceLimit.leastMps, paceLimit.mostMps] : []),
      ...(paceLimit?.of === 'groundSpeed' ? [groundSpeedMps] : []),
    ];
    const ys = speeds.map((each) => pace.at(Math.max(each, pace.from)));
    return {
      left: x - half,
      right: x + half,
      top: Math.min(...ys) - 1,
      bottom: Math.max(...ys) + 1,
    };
  });
}

/**
 * Words of the gates that find room, the lowest first and in full. Where its name would take the
 * place of a higher gate's figure, figures go before the name, and that stands in a corner.
 *
 * @param place the first of several places that is free beside the boxes given, null where none is
 * @param corner where the name may end that stands alone, the best place first
 */
export function paceGateWords(
  gates: readonly GatePicture[],
  walls: readonly Box[],
  place: (tries: readonly Label[], beside: readonly Box[]) => Label | null,
  corner: readonly { readonly x: number; readonly y: number }[],
): Label[] {
  const inFull = placed(gates, walls, place, true);
  const bare = inFull.length < gates.length ? placed(gates, walls, place, false) : inFull;
  const found = bare.length > inFull.length ? bare : inFull;
  const isNamed = found.some(({ parts }) => parts.some(({ text }) => text === NAME.text));
  if (isNamed || !gates.some(({ airspeed }) => airspeed)) return found;
  const parts: Part[] = [{ text: `dots: ${NAME.text}`, ink: 'ink2' }];
  const name = place(
    corner.map((at): Label => ({ ...at, anchor: 'end', parts, halo: true })),
    [...walls, ...found.map(labelBox)],
  );
  return name ? [...found, name] : found;
}

function placed(
  gates: readonly GatePicture[],
  walls: readonly Box[],
  place: (tries: readonly Label[], beside: readonly Box[]) => Label | null,
  isNamed: boolean,
): Label[] {
  const found: Label[] = [];
  for (const [k, gate] of [...gates.entries()].toReversed()) {
    const isLowest = k === gates.length - 1;
    // Over another gate's dot they would be taken for its own.
    const others = walls.toSpliced(k, 1).map((wall) => ({ ...wall, top: wall.top - OVER }));
    const beside = [...others, ...found.map(labelBox)];
    const label = place(tries(gate, walls[k], isLowest, isNamed), beside);
    if (label) found.push(label);
  }
  return found;
}

function tries(
  { airspeedWords, paceLimit }: GatePicture,
  wall: Box,
  isLowest: boolean,
  isNamed: boolean,
): Label[] {
  const verdict = paceLimit?.verdict === 'out' ? 'out' : '';
  const out: Part[] =
    verdict === '' ? [] : [{ text: verdict, ink: 'caution', serif: true, gap: 6 }];
  if (!airspeedWords) return out.length > 0 ? around(out, wall) : [];
  const figure = (withBand: boolean): Part[] =>
    figureParts(airspeedWords, { size: isLowest ? 15 : 13, withBand });
  const forms: Part[][] = [
    ...(isLowest && isNamed
      ? [
          [...figure(true), NAME, ...out],
          [...figure(false), NAME, ...out],
        ]
      : []),
    [...figure(false), ...out],
    // The axis has the unit.
    [figure(false)[0], ...out],
    ...(out.length > 0 ? [out] : []),
  ];
  return forms.flatMap((parts) => around(parts, wall));
}

function around(parts: readonly Part[], { left, right, top, bottom }: Box): Label[] {
  const middle = (left + right) / 2;
  const y = (top + bottom) / 2 + 5;
  return [
    { x: middle, y: top - 7, anchor: 'middle', parts, halo: true },
    { x: left, y: top - 7, anchor: 'start', parts, halo: true },
    { x: right, y: top - 7, anchor: 'end', parts, halo: true },
    { x: right + 5, y, anchor: 'start', parts, halo: true },
    { x: left - 5, y, anchor: 'end', parts, halo: true },
  ];
}
