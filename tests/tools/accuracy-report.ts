/** The counted cells as the words and tables of docs/accuracy.md. */
import { boundOf, confusionOf, type Cell } from './accuracy-cells.ts';
import { LOGS, USUAL_LOG } from './accuracy-logs.ts';
import type { IndependentCell } from './accuracy-independent.ts';
import { tableHead, tableRow, type Tally, type WithDoubt } from './accuracy-tally.ts';
import { QUANTITIES, type QuantityName, type TrialResult } from './accuracy-trials.ts';

const OUTCOMES = [
  'full-stop',
  'touch-and-go',
  'stop-and-go',
  'go-around',
  'low-pass',
  'overflight',
  'undetermined',
];

/** What was run, for the reader who wants to run it again. */
export interface RunFigures {
  readonly landings: number;
  readonly learn: number;
  readonly minutes: string;
  readonly threads: number;
  /** Logs of each landing that the bound learned from; flights of every other kind. */
  readonly logsEach: number;
  readonly others: number;
}

/** Tables of flights that are drawn apart from the others. */
export interface ApartTables {
  readonly contact: string;
  readonly heldOff: string;
}

/** The whole of docs/accuracy.md. */
export function accuracyText(
  byLog: readonly Cell[],
  groups: readonly { readonly heading: string; readonly cells: readonly Cell[] }[],
  judged: readonly TrialResult[],
  tables: ApartTables,
  independent: readonly string[],
  { landings, learn, minutes, threads, logsEach, others }: RunFigures,
): string {
  const full = judged.filter(({ truth }) => truth === 'full-stop');
  const lost = full.filter(({ found }) => found !== 'full-stop').length;
  return `# How exact the measurements are

${inShort(byLog)}

Made by \`npm run accuracy -- --landings ${landings} --learn ${learn}\` in ${minutes} minutes on ${threads} threads. Errors are median / 90th percentile with their standard errors, in metres, those of speeds in m/s; "holds" is how often the 90 % band holds the truth; the penalty is the mean of the band's width plus 20 m for every metre by which the truth lies outside, for speeds 20 m/s for every m/s (lower is better); "und." counts what was left undetermined.

All flights here are invented: drawn by seed from the project's own simulator (\`tests/synthetic\`), with touchdown speeds of 10 to 34 m/s, firm, flown-on, held-off and floated arrivals, no braking to hard braking, slopes, gusts, and receivers with a wandering bias, white noise, smoothing, heights that are late (one in seven, by up to two seconds) and rounding. The same ${landings} flights stand behind every row; no choice in the program was made by looking at them. These are figures of a simulator. They say how well the measuring works where flights are like that, not how long anybody's landing is.

Strips are looked at as somebody might have entered them: moved as a whole by what their position error of 5 m allows (95 times in 100), and raised or lowered by 3 m (one standard deviation). Places and heights count from where the strip truly lies.

## Touchdown

![How far off the touchdown is, by log: dots are medians, ticks 90th percentiles, orange the bound](accuracy/by-log.svg)

${touchdownTable('log', byLog)}

Full stops not found, found twice or misnamed: ${lost} of ${full.length}.

${learn > 0 ? boundText(learn, logsEach) : 'No bound was learned in this run.'}

![Share of landings whose touchdown is found at least so near](accuracy/shares.svg)

## By kind of landing

The landings logged as ${LOGS[USUAL_LOG].name}: by the mean deceleration from the brakes to 10 kt (drag and friction in it), by true airspeed at touchdown, and by how long the wheels were below 0.7 m before they touched. The bound does not know the class; it is the same estimator, judged on the landings of the class.

![How far off the touchdown is, by kind of landing](accuracy/by-class.svg)

${groups
  .map(({ heading, cells }) =>
    touchdownTable(
      heading,
      cells.filter(({ tallies }) => tallies.touchdown.count > 0),
    ),
  )
  .join('\n\n')}

![How often the 90 % band of the touchdown holds the truth, by log and by kind of landing](accuracy/coverage.svg)

Bands of a class can hold more or less often than nine times in ten although they hold on the whole: no band can know the class. Where they hold less, read them as that much weaker.

## Held off long

Landings drawn apart from all others: arrived faster, flown on level within half a metre of the ground until the speed is gone. In the log such a float looks like a roll; only how seldom it happens and when the brakes come on speak of it. **It is told too early, by much, and its bands do not hold**; a quiet receiver helps little. Where the aircraft stopped, and the whole distance from 50 ft to the stop, are as right as ever; the roll comes out too long by what the touchdown is too early. Whoever floats like that should not read a touchdown or its spread from a log, and has the marks of the wheels to put in its place (\`--touchdowns\`, or by hand on the page).

${tables.heldOff}

## The other quantities

The ground speed at touchdown, the roll of full stops that ended in a standstill, the place where it ended, where others turned off or went on at a taxi, where touch-and-goes touched and opened the throttle, lift-off from a standing start and out of a touch-and-go, and the lowest height of a go-around (flown in one approach with nothing else that ties the heights: harder than in a whole flight). The drawn aeroplanes leave the ground at 0.70 to 0.87 of the speed at which they climb, near what is held to be usual: one that is held down longer is found to lift off too early (decision 0072).

${quantityTables(byLog, ['speed', 'roll', 'stop', 'rolled out', 'touch', 'power', 'lift-off', 'lift-off again', 'lowest'])}

## The final, and whole distances

Height and ground speed over the threshold; at the gates of 500, 300, 200, 100 and 50 ft together where the aircraft passed each, what it did there: a gate found too early or too late counts with the speed that the aircraft truly had at that height. The gates of one final share their luck, so their standard errors are too small. The landing distance of full stops that ended in a standstill, from the later of threshold and 50 ft; of take-offs from standing the place of brake release and the distance from there to 50 ft.

${quantityTables(byLog, ['threshold height', 'threshold speed', 'gate place', 'gate speed', 'gate descent', 'landing distance', 'release', '50 ft'])}

## Outcomes

${others} drawn flights for each other outcome, as ${LOGS[USUAL_LOG].name}, one approach each with nothing else that ties the heights. Go-arounds begin 0.8 to 60 m up, low passes are 3 to 30 m high; a go-around begun too low to stay off the ground counts as the touch-and-go that it was, and a touch-and-go braked to a standstill is rightly found as a stop-and-go.

${confusionTable(confusionOf(judged, USUAL_LOG))}

## Contact probability

Among passes whose wheels are said to have touched with some probability, that share should have touched. Drawn passes of other seeds: touch-and-goes, some of them with the throttle opened at once; go-arounds begun 5 cm to 10 m up, of which the low ones skim the ground; low passes 0.5 to 5 m up, of which some brush it; a few higher ones. About half touch. The ± is the standard error if what is stated is right. How many of the low passes in somebody's own flying truly touch nobody knows: a probability in the middle says that the data cannot tell, not how often it happens.

${tables.contact}

## Independent flights

Flown in an independent flight-dynamics model (one type of aeroplane), not by our own simulator. Several receivers of one flight are not several landings: the standard errors are too small. The flights of \`tests/truth\` are some of those on which the priors were looked at (decision 0060), so they are no blind test.

${independent.join('\n\n')}
`;
}

/** What a pilot wants to know of all this. */
function inShort(byLog: readonly Cell[]): string {
  const pressure = byLog.find(({ name }) => name === PRESSURE_LOG);
  if (!pressure) throw new Error(`no log is named "${PRESSURE_LOG}"`);
  const usual = byLog[USUAL_LOG];
  const within = ({ tallies }: Cell, name: QuantityName): string => {
    const [half, most] = ([0.5, 0.9] as const).map((share) => tallies[name].error(share).value);
    return `${half.toFixed(0)} m in half of all cases, ${most.toFixed(0)} m in nine of ten`;
  };
  const held = (100 * usual.tallies.touchdown.coverage().value).toFixed(0);
  return `In short, for ${LOGS[USUAL_LOG].name}:

- A touchdown is off by at most ${within(usual, 'touchdown')}; its band, ${usual.tallies.touchdown.width().toFixed(0)} m wide in the middle, holds in ${held} of 100. In an IGC file with pressure height: ${within(pressure, 'touchdown')}.
- Where the aircraft stopped: ${within(usual, 'stop')}. Lift-off from standing: ${within(usual, 'lift-off')}.
- **Not to be relied on**: the touchdown after a level hold-off of some seconds ([held off long](#held-off-long)); anything that rests on heights which come late by more than two seconds or wander by tens of metres, as some phones write them; ground between the ends of a strip that is not as entered.
- A touchdown that was paced from the threshold and put in is exact, and sharpens the others of that pilot ([what marks teach](accuracy-pilots.md)).`;
}

const PRESSURE_LOG = 'IGC with pressure height, every 1 s';

function boundText(learn: number, logsEach: number): string {
  return `**The bound** is the median error of an estimator that was shown landings of this very population (${learn} others, none of them judged here, in ${logsEach} logs each) and is given the log and our own posterior. Every receiver, aeroplane, hand and braking was drawn anew each time, so it has to live with the same ignorance. A still better one may exist, so the true bound is at most this. Nobody can have it for real flights, whose population nobody knows. A ratio of 1 would mean that nothing is left to gain here; below 1 there is chance in it.`;
}

/** Touchdown, cell by cell: error, bound, coverage, width, penalty. */
function touchdownTable(what: string, cells: readonly Cell[]): string {
  const heads = ['landings', 'error', 'bound', 'ours / bound', 'holds', 'width', 'penalty', 'und.'];
  const lines = cells.map((cell) => {
    const tally = cell.tallies.touchdown;
    const bound = boundOf(cell);
    return tableRow([
      cell.name,
      String(tally.count),
      errorText(tally),
      bound ? `${bound.median.value.toFixed(1)} ± ${bound.median.doubt.toFixed(1)} m` : '-',
      bound ? `${bound.ratio.value.toFixed(2)} ± ${bound.ratio.doubt.toFixed(2)}` : '-',
      coverageText(tally),
      tally.count ? `${tally.width().toFixed(0)} m` : '-',
      tally.count ? tally.penalty().toFixed(0) : '-',
      String(tally.undetermined),
    ]);
  });
  return [tableHead([what, ...heads]), ...lines].join('\n');
}

const NAMES: Readonly<Record<QuantityName, string>> = {
  touchdown: 'touchdown',
  speed: 'ground speed at touchdown',
  roll: 'ground roll',
  stop: 'stop',
  'rolled out': 'end of a roll by turning off or taxiing',
  touch: 'touchdown of a touch-and-go',
  power: 'power in a touch-and-go',
  'lift-off': 'lift-off',
  'lift-off again': 'lift-off of a touch-and-go',
  lowest: 'lowest height of a go-around',
  'threshold height': 'height over the threshold',
  'threshold speed': 'ground speed at the threshold',
  'gate speed': 'ground speed at the gates',
  'gate descent': 'descent rate at the gates',
  'gate place': 'place of the gates',
  'landing distance': 'landing distance',
  release: 'brake release',
  '50 ft': 'distance to 50 ft',
};

/** Quantities in m/s; all others are in metres. */
const SPEEDS: readonly QuantityName[] = ['speed', 'threshold speed', 'gate speed', 'gate descent'];

/** The other quantities, one table for each: error, coverage, width, penalty. */
function quantityTables(cells: readonly Cell[], names: readonly QuantityName[]): string {
  return names
    .map((name) => {
      const lines = cells.map(({ name: log, tallies }) =>
        tableRow([log, ...quantityCells(name, tallies[name])]),
      );
      const heads = [NAMES[name], 'measured', 'error', 'holds', 'width', 'penalty', 'und.'];
      return [tableHead(heads), ...lines].join('\n');
    })
    .join('\n\n');
}

/** All quantities of independent flights, one line for each log and quantity. */
export function independentTable(cells: readonly IndependentCell[]): string {
  const heads = ['log', 'quantity', 'measured', 'error', 'holds', 'width', 'penalty', 'und.'];
  const lines = cells.flatMap((cell) =>
    QUANTITIES.filter((name) => cell.tallies[name].count > 0).map((name) =>
      tableRow([cell.name, NAMES[name], ...quantityCells(name, cell.tallies[name])]),
    ),
  );
  return [tableHead(heads), ...lines].join('\n');
}

/** What went wrong with independent flights, in one sentence a log. */
export function independentWrongs(cells: readonly IndependentCell[]): string {
  return cells
    .map(({ name, events, wrong }) => {
      const list = wrong.length > 0 ? ` (${[...new Set(wrong)].join('; ')})` : '';
      return `${name}: ${wrong.length} of ${events} events missed, misnamed or invented${list}.`;
    })
    .join(' ');
}

/** How each true outcome was named. */
function confusionTable(counts: ReadonlyMap<string, ReadonlyMap<string, number>>): string {
  const truths = OUTCOMES.filter((truth) => counts.has(truth));
  const lines = truths.map((truth) => {
    const row = counts.get(truth) ?? new Map<string, number>();
    const named = OUTCOMES.map((name) => row.get(name) ?? 0);
    const all = [...row.values()].reduce((sum, each) => sum + each, 0);
    const rest = all - named.reduce((sum, each) => sum + each, 0);
    const share = (named[OUTCOMES.indexOf(truth)] / all) * 100;
    return tableRow([truth, ...named.map(String), String(rest), `${share.toFixed(1)} %`]);
  });
  return [tableHead(['truth, found as', ...OUTCOMES, 'none or two', 'right']), ...lines].join('\n');
}

function quantityCells(name: QuantityName, tally: Tally): string[] {
  const { count } = tally;
  const unit = SPEEDS.includes(name) ? 'm/s' : 'm';
  return [
    String(count),
    errorText(tally, unit),
    coverageText(tally),
    count ? `${digits(tally.width())} ${unit}` : '-',
    count ? digits(tally.penalty()) : '-',
    String(tally.undetermined),
  ];
}

function errorText(tally: Tally, unit = 'm'): string {
  if (tally.count === 0) return '-';
  const places = unit === 'm' ? 1 : 2;
  const [middle, tail] = ([0.5, 0.9] as const).map((share) => tally.error(share));
  return `${doubtful(middle, places)} / ${doubtful(tail, places)} ${unit}`;
}

function doubtful({ value, doubt }: WithDoubt, places: number): string {
  return `${value.toFixed(places)} ± ${doubt.toFixed(places)}`;
}

function coverageText(tally: Tally): string {
  if (tally.count === 0) return '-';
  const { value, doubt } = tally.coverage();
  return `${(100 * value).toFixed(1)} % ± ${(100 * doubt).toFixed(1)}`;
}

function digits(value: number): string {
  return value.toFixed(value < 20 ? 1 : 0);
}
