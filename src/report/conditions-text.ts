/**
 * Conditions as entered, in words; what nobody entered is named as missing.
 *
 * In: conditions. Out: short texts, in the order in which they are asked for.
 */
import type { Conditions } from '../weather/conditions.ts';
import { entered } from './format-quantity.ts';

/** Wind, surface, temperature, QNH, masses, flap. */
export function enteredTexts(conditions: Conditions): string[] {
  const { surface, tempC, qnhHpa, massKg, takeOffMassKg, flap } = conditions;
  return [
    windText(conditions),
    surface === null ? 'surface not entered' : surface.replaceAll('-', ' '),
    tempC === null ? 'temperature not entered' : `${entered(tempC)} °C`,
    qnhHpa === null ? 'QNH not entered' : `QNH ${qnhHpa} hPa`,
    massKg === null ? 'mass not entered' : `${massKg} kg`,
    ...(takeOffMassKg === null ? [] : [`${takeOffMassKg} kg at take-off`]),
    ...(flap === null ? [] : [`flap ${flap}`]),
  ];
}

function windText({ wind, windReportedAt }: Conditions): string {
  if (wind === null) return 'wind not entered';
  const { fromDeg, reference, speedKt, gustKt } = wind;
  const where = typeof windReportedAt === 'string' ? `, reported at ${windReportedAt}` : '';
  // A gust in calm air was entered too, and is not hidden.
  if (speedKt === 0 && (gustKt ?? 0) === 0) return `calm${where}`;
  const from = fromDeg === null ? 'variable' : `${String(fromDeg).padStart(3, '0')}° ${reference}`;
  return `wind ${from} ${speedKt} kt${gustKt === null ? '' : ` gusting ${gustKt}`}${where}`;
}
