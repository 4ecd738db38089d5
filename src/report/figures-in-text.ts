/**
 * Text of the lower floors with its figures in the pilot's units.
 *
 * In: a note or a reason, whose figures stand in the units of handbooks and logs (kg, kt, hPa, degrees
 * Celsius, pressure altitudes in ft, heights in m); the pilot's units. Out: the same text. What is a name
 * and no figure of the day stays: 50 ft, 400 ft, a screen of 15 m. Every length in m in these texts is a height.
 */
import { isUndetermined, undetermined, type Undetermined } from '../result.ts';
import {
  KG_PER_POUND,
  METRES_PER_FOOT,
  MPS_PER_KMH,
  MPS_PER_KNOT,
  MPS_PER_MPH,
  PA_PER_HPA,
  PA_PER_INHG,
} from '../units/convert.ts';

/** What the pilot reads such figures in. */
export interface TextUnits {
  readonly height: 'm' | 'ft';
  readonly speed: 'kt' | 'mph' | 'km/h';
  /** Kilograms where not given. */
  readonly mass?: 'kg' | 'lb';
  /** Hectopascals where not given. */
  readonly pressure?: 'hPa' | 'inHg';
  /** Degrees Celsius where not given. */
  readonly temperature?: 'C' | 'F';
}

/** What each unit of the texts becomes: a multiple, what is added to it, its sign, decimals more or fewer. */
interface Turn {
  readonly times: number;
  readonly plus: number;
  readonly unit: string;
  readonly decimals: number;
}

const NUMBER = '(?<![\\d.,])[-\u2212]?\\d+(?:\\.\\d+)?';
/** `395 kg`, `15.0 degrees Celsius`, and the first of two that share a unit: `17.0 instead of 15.0 degrees Celsius`. */
const FIGURES = new RegExp(
  `(?:(${NUMBER})( to | instead of ))?(${NUMBER}) (kg|kt|m|hPa|degrees Celsius|°C)(?![\\w/]| figures)`,
  'g',
);
/** Feet are a figure of the day only where they are a pressure altitude. */
const ALTITUDES = new RegExp(
  `(pressure altitude (?:of )?|kg, )(${NUMBER}) ft( instead of )?(?:(${NUMBER}) ft)?`,
  'g',
);

/** The text with its figures in the pilot's units, as many decimals as they can mean. */
export function inPilotUnits(text: string, units: TextUnits): string {
  const turned = text.replace(
    FIGURES,
    (
      _all,
      first: string | undefined,
      between: string | undefined,
      second: string,
      unit: string,
    ) => {
      const turn = turnOf(unit, units);
      const head = first === undefined ? '' : `${converted(first, turn)}${between ?? ''}`;
      return `${head}${converted(second, turn)} ${turn.unit}`;
    },
  );
  if (units.height === 'ft') return turned;
  const toMetres: Turn = { times: METRES_PER_FOOT, plus: 0, unit: 'm', decimals: 0 };
  return turned.replace(
    ALTITUDES,
    (_all, lead: string, first: string, between?: string, second?: string) => {
      const rest = second === undefined ? '' : `${converted(second, toMetres)} m`;
      return `${lead}${converted(first, toMetres)} m${between ?? ''}${rest}`;
    },
  );
}

/** What cannot be had, its reason in the pilot's units; anything else as it is. */
export function reasonIn<T>(found: T | Undetermined, units: TextUnits): T | Undetermined {
  return isUndetermined(found) ? undetermined(inPilotUnits(found.undetermined, units)) : found;
}

/**
 * A line of the working. What the source says of it is quoted and stays as it is, and a figure in a
 * unit that the source counts in stays too, so that a pencil can follow: knots beside `for every 9 kt`.
 */
export function workingInPilotUnits(why: string, units: TextUnits): string {
  const [own] = /^(?:At |pressure altitude )?[-\u2212]?\d.*?(?:\.(?= [A-Z])|$)/.exec(why) ?? [''];
  const quoted = why.slice(own.length);
  const kept: Partial<TextUnits> = {
    ...(/\b(?:kt|knots?)\b/.test(quoted) ? { speed: 'kt' } : {}),
    ...(/\bft\b|\bfeet\b/.test(quoted) ? { height: 'ft' } : {}),
    ...(/\bkg\b|\bkilograms?\b/.test(quoted) ? { mass: 'kg' } : {}),
    ...(/\bdegrees?\b|°C/.test(quoted) ? { temperature: 'C' } : {}),
  };
  return inPilotUnits(own, { ...units, ...kept }) + quoted.replaceAll(/ degrees Celsius\b/g, ' °C');
}

const MPS = { kt: MPS_PER_KNOT, mph: MPS_PER_MPH, 'km/h': MPS_PER_KMH };

function turnOf(unit: string, units: TextUnits): Turn {
  const same: Turn = { times: 1, plus: 0, unit, decimals: 0 };
  if (unit === 'kg' && units.mass === 'lb') {
    return { ...same, times: 1 / KG_PER_POUND, unit: 'lb' };
  }
  if (unit === 'kt') {
    return { ...same, times: MPS_PER_KNOT / MPS[units.speed], unit: units.speed };
  }
  if (unit === 'm' && units.height === 'ft') {
    return { ...same, times: 1 / METRES_PER_FOOT, unit: 'ft', decimals: -1 };
  }
  if (unit === 'hPa' && units.pressure === 'inHg') {
    return { ...same, times: PA_PER_HPA / PA_PER_INHG, unit: 'inHg', decimals: 2 };
  }
  if (unit !== 'degrees Celsius' && unit !== '°C') return same;
  return units.temperature === 'F'
    ? { ...same, times: 9 / 5, plus: 32, unit: '°F' }
    : { ...same, unit: '°C' };
}

/** One that does not change keeps its digits as they were written. */
function converted(digits: string, { times, plus, decimals }: Turn): string {
  if (times === 1 && plus === 0) return digits;
  const given = digits.split('.').at(1)?.length ?? 0;
  const value = Number(digits.replace('\u2212', '-')) * times + plus;
  const text = value.toFixed(Math.max(0, given + decimals));
  return Number(text) === 0 ? text.replace('-', '') : text;
}
