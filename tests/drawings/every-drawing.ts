/** Every kind of drawing, of several demo flights, ready to be laid out at any width. */
import { bareRoll } from '../../src/app/drawings/bare-roll.ts';
import { chanceHeap } from '../../src/app/drawings/chance-heap.ts';
import { circuitPlan } from '../../src/app/drawings/circuit-plan.ts';
import type { Drawing } from '../../src/app/drawings/drawing.ts';
import { flightLine } from '../../src/app/drawings/flight-line.ts';
import { heightAndSpeed } from '../../src/app/drawings/height-and-speed.ts';
import { individualsChart } from '../../src/app/drawings/individuals-chart.ts';
import { laidOver } from '../../src/app/drawings/laid-over.ts';
import { landingBar } from '../../src/app/drawings/landing-bar.ts';
import { mownField } from '../../src/app/drawings/mown-field.ts';
import { ratioTape } from '../../src/app/drawings/ratio-tape.ts';
import { smallCircuits } from '../../src/app/drawings/small-circuits.ts';
import { stripRuler } from '../../src/app/drawings/strip-ruler.ts';
import { USUAL_UNITS, type PilotUnits } from '../../src/report/figure-text.ts';
import { bareLandingRoll, bareRun } from '../../src/report/pictures/bare-roll-picture.ts';
import { flightLinePicture } from '../../src/report/pictures/flight-line-picture.ts';
import type { Picture } from '../../src/report/pictures/picture.ts';
import {
  allFlights,
  approachOf,
  begunOverStrip,
  chanceOf,
  circuitOf,
  determined,
  factorOf,
  finalOf,
  flightOf,
  individualsOf,
  limitedFlightOf,
  logbookOf,
  sideBySideOf,
  smallCircuitsOf,
  takeOffOf,
  unkeptFlightOf,
  visitOf,
} from './demo-pictures.ts';

/** The widths that the page has room for: a desk, a tablet, a phone, the smallest phone. */
export const WIDTHS = [1216, 756, 358, 288];

/** A drawing by name. */
export interface NamedDrawing {
  readonly name: string;
  readonly picture: Picture;
  readonly draw: (widthPx: number) => Drawing;
}

const FEET: PilotUnits = { length: 'ft', height: 'ft', speed: 'mph' };
const CURSOR = [
  { text: '09:49:45', weight: 600 as const },
  { text: '20 kt', gap: 8 },
];

/** All of them. */
export async function everyDrawing(): Promise<NamedDrawing[]> {
  const circuits = await flightOf('2024-04-20-first-circuits-ternholm.gpx');
  const tail = await flightOf('2024-09-15-tail-wind-landing-sedge.gpx');
  const around = await flightOf('2024-07-14-gusty-go-around-sedge.gpx');
  const light = await flightOf('2024-05-19-microlight-circuits-mereling.igc');
  const uphill = await flightOf('2024-06-23-uphill-at-hollowmere.gpx');
  const turned = await flightOf('2024-05-12-home-from-sedge.igc');
  const short = await flightOf('2025-03-16-short-of-the-threshold.gpx');
  const three = await flightOf('2024-08-04-three-strips.igc');
  const logbook = await allFlights();
  const { bars } = logbookOf(logbook, { stripId: 'ternholm', designator: '25' });
  const found: NamedDrawing[] = [];
  const add = <P extends Picture>(
    name: string,
    picture: P,
    draw: (picture: P, widthPx: number) => Drawing,
  ): void => {
    found.push({ name, picture, draw: (widthPx) => draw(picture, widthPx) });
  };
  const rulers = {
    landing: approachOf(circuits, 2, { ownRollFactor: 1.62, aimM: 30 }),
    'touch-and-go': approachOf(circuits, 0),
    'too long': approachOf(tail, 0, { ownRollFactor: 1.62 }),
    'go-around': approachOf(around, 0),
    microlight: approachOf(light, 3),
    uphill: approachOf(uphill, 0),
    'turned off': approachOf(turned, 0),
    short: approachOf(short, 0, { ownRollFactor: 1.5 }),
    'take-off': takeOffOf(circuits, 0),
    'take-off downhill': takeOffOf(uphill, 1),
    'in feet': approachOf(circuits, 2, { ownRollFactor: 1.2, units: FEET }),
  };
  const begun = approachOf(begunOverStrip(circuits, 2), 2);
  add('ruler, log begun over the strip', begun, stripRuler);
  const soon = begun.unknown && { ...begun, unknown: { ...begun.unknown, toM: 60 } };
  if (soon) add('ruler, log begun over the strip, short', soon, stripRuler);
  for (const [name, picture] of Object.entries(rulers)) {
    add(`ruler, ${name}`, picture, stripRuler);
    add(`ruler with cursor, ${name}`, picture, (each, widthPx) =>
      stripRuler(each, widthPx, { at: 140, readOut: CURSOR }),
    );
  }
  const visits = {
    'all too long': visitOf(
      { stripId: 'sedge', landing: '20', takeOff: '20' },
      { own: { landingWhole: 1.2, landingRoll: 1.5, takeOffWhole: 1.2 } },
    ),
    'with room': visitOf({ stripId: 'ternholm', landing: '25', takeOff: '25' }, { windKt: 12 }),
    'one way': visitOf({ stripId: 'hollowmere', landing: '33', takeOff: '15' }),
    displaced: visitOf({ stripId: 'ternholm', landing: '25', takeOff: '25' }, { units: FEET }),
    'towards a hedge': visitOf(
      { stripId: 'ternholm', landing: '07', takeOff: '07' },
      { windKt: 3, own: { landingWhole: 1.2, landingRoll: 1.5, takeOffWhole: 1.2 } },
    ),
    'ends guessed': visitOf(
      { stripId: 'ternholm', landing: '25', takeOff: '07' },
      { windKt: 3, endsGuessed: true },
    ),
  };
  for (const [name, { landing, takeOff }] of Object.entries(visits)) {
    add(`visit in, ${name}`, landing, stripRuler);
    add(`visit out, ${name}`, takeOff, stripRuler);
  }
  const passes = await flightOf('2025-09-07-microlight-go-arounds-sedge.igc');
  const over = {
    circuits: sideBySideOf(circuits, [0, 1, 2]),
    'go-arounds': sideBySideOf(passes, [0, 1, 2]),
    one: sideBySideOf(uphill, [0]),
    six: sideBySideOf(light, [0, 1, 2, 3, 0, 1]),
    'in feet': sideBySideOf(circuits, [0, 2], FEET),
  };
  for (const [name, picture] of Object.entries(over)) {
    for (const chosen of [null, 1]) {
      add(`laid over, ${name}, ${chosen ?? 'all alike'}`, picture, (each, widthPx) =>
        laidOver(each, widthPx, chosen),
      );
    }
  }
  const small = {
    three: smallCircuitsOf(circuits, [0, 1, 2]),
    'go-arounds': smallCircuitsOf(passes, [0, 1, 2]),
    one: smallCircuitsOf(uphill, [0]),
    six: smallCircuitsOf(light, [0, 1, 2, 3, 0, 1]),
    'in feet': smallCircuitsOf(circuits, [0, 2], FEET),
  };
  for (const [name, picture] of Object.entries(small)) {
    add(`small circuits, ${name}`, picture, (each, widthPx) => smallCircuits(each, widthPx, 1));
  }
  for (const [name, flight] of Object.entries({ circuits, light, three, around })) {
    const picture = flightLinePicture(flight, USUAL_UNITS);
    for (const chosen of [null, picture.events[picture.events.length - 1].key]) {
      add(`flight line, ${name}, ${chosen ?? 'none chosen'}`, picture, (each, widthPx) =>
        flightLine(each, widthPx, { chosen }),
      );
    }
  }
  for (const [name, flight] of Object.entries({ tail, around, uphill, short })) {
    add(`height and speed, ${name}`, finalOf(flight, 0), heightAndSpeed);
    add(`plan, ${name}`, circuitOf(flight, 0), circuitPlan);
  }
  add('height and speed, circuits', finalOf(circuits, 2), heightAndSpeed);
  const valley = await flightOf('2025-05-18-wet-hollowmere.igc');
  for (const [name, flight] of Object.entries({
    circuits: await limitedFlightOf('2024-04-20-first-circuits-ternholm.gpx'),
    around: await limitedFlightOf('2024-07-14-gusty-go-around-sedge.gpx'),
  })) {
    add(`height and speed with limits, ${name}`, finalOf(flight, 0), heightAndSpeed);
  }
  add('height and speed, commit point', finalOf(valley, 0), heightAndSpeed);
  add('ruler, far go-around', approachOf(valley, 0), stripRuler);
  add('plan, commit point', circuitOf(valley, 0), circuitPlan);
  add('height and speed, light', finalOf(light, 3), heightAndSpeed);
  add('height and speed, in feet', finalOf(circuits, 2, FEET), heightAndSpeed);
  add('plan, circuits', circuitOf(circuits, 2), circuitPlan);
  add('plan, light', circuitOf(light, 3), circuitPlan);
  add('plan, in feet', circuitOf(circuits, 2, FEET), circuitPlan);
  for (const [name, flight] of Object.entries({ tail, uphill, short })) {
    add(`chance, ${name}`, chanceOf(flight, 0), chanceHeap);
  }
  add('chance, in feet', chanceOf(circuits, 2, FEET), chanceHeap);
  for (const bar of bars.bars) {
    add(`bar, ${bar.spoken}`, { spoken: bar.spoken, rows: [] }, (_, widthPx) =>
      landingBar(bar, bars.longestM, widthPx / 4),
    );
  }
  for (const place of ['ternholm 25', 'sedge 20', 'mereling 11', 'ternholm 07']) {
    const [stripId, designator] = place.split(' ');
    add(`field, ${place}`, logbookOf(logbook, { stripId, designator }).field, mownField);
  }
  for (const aeroplane of ['marram-160', 'eelgrass-450']) {
    for (const quantity of ['landing-from-50-ft', 'landing-roll'] as const) {
      const picture = factorOf(logbook, aeroplane, quantity);
      add(`ratios, ${aeroplane}, ${quantity}`, picture, ratioTape);
    }
  }
  const unkept = await unkeptFlightOf('2024-04-20-first-circuits-ternholm.gpx');
  const unkeptPasses = await unkeptFlightOf('2025-09-07-microlight-go-arounds-sedge.igc');
  for (const [name, units] of Object.entries({ metres: USUAL_UNITS, feet: FEET })) {
    for (const [kind, index] of Object.entries({ touched: 0, stopped: 2 })) {
      const roll = determined(bareLandingRoll(unkept.events.approaches[index], units));
      add(`bare roll, ${kind}, ${name}`, roll, bareRoll);
      add(`bare roll with cursor, ${kind}, ${name}`, roll, (each, widthPx) =>
        bareRoll(each, widthPx, { at: 60, readOut: CURSOR }),
      );
    }
    const run = determined(bareRun(unkept.events.takeOffs[0], units));
    add(`bare roll, run, ${name}`, run, bareRoll);
    for (const [kind, flight, index] of [
      ['landing', unkept, 2],
      ['go-around', unkeptPasses, 1],
    ] as const) {
      add(
        `height and speed, unkept ${kind}, ${name}`,
        finalOf(flight, index, units),
        heightAndSpeed,
      );
      add(`plan, unkept ${kind}, ${name}`, circuitOf(flight, index, units), circuitPlan);
    }
  }
  add('in the order flown', determined(individualsOf(logbook, 'marram-160')), individualsChart);
  return found;
}
