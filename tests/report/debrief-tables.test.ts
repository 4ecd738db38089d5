/** What a pilot reads about one flight: made-up figures in, lines out. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Debrief, Flight } from '../../src/debrief/debrief.ts';
import type { Approach } from '../../src/events/flight-event.ts';
import { debriefLines, problemLines } from '../../src/report/debrief-tables.ts';
import { isUndetermined, problem, undetermined } from '../../src/result.ts';
import { about, demoFlight, landingLike } from './demo-flight.ts';

const NONE = undetermined('not part of this test');
let debrief: Debrief;
let flight: Flight;

beforeAll(async () => {
  ({ debrief, flight } = await demoFlight('2024-05-12-first-visit-sedge.gpx'));
});

/** Lines of the flight with parts replaced. */
function linesOf(changes: Partial<Flight>): string[] {
  return debriefLines({ ...debrief, flights: [{ ...flight, ...changes }] }, []);
}

/** Lines of a flight with these approaches alone, compared like its last landing. */
function linesWith(approaches: readonly Approach[], changes: Partial<Flight> = {}): string[] {
  const model = flight.compared.approaches[flight.compared.approaches.length - 1];
  return linesOf({
    events: { ...flight.events, takeOffs: [], approaches },
    compared: { takeOffs: [], approaches: approaches.map(() => model) },
    circuits: { circuits: [], joins: [] },
    finals: approaches.map(({ gates }) => ({
      ...{ airspeedWind: null, preferredPath: null, float: NONE, commitPoint: null },
      gates: gates.map(() => ({ estimatedAirspeedMps: NONE, limits: [] })),
    })),
    ...changes,
  });
}

function model(): Approach {
  return flight.events.approaches[flight.events.approaches.length - 1];
}

/** The line that begins like this, its columns one space apart. */
function line(lines: readonly string[], start: string): string {
  const single = lines.map((each) => each.trim().replace(/ +/g, ' '));
  const found = single.find((each) => each.startsWith(start));
  if (found === undefined) throw new Error(`no line begins with ${start}:\n${single.join('\n')}`);
  return found;
}

describe('[DT1] the head of a flight', () => {
  test('[DT1] names the file, the day in words, UTC times and how often it was recorded', () => {
    expect(linesOf({})[0]).toBe(
      '2024-05-12-first-visit-sedge.gpx   12 May 2024, 13:05:01 to 13:17:31 UTC, 751 fixes, one every 1 s',
    );
  });

  test('[DT2] gives the conditions as entered', () => {
    expect(linesOf({})[1]).toBe(
      '  Marram 160, wind 200° true 7 kt, grass dry, 16 °C, QNH 1021 hPa, 940 kg, 960 kg at take-off, flap full',
    );
  });

  test('[DT2] shows what nobody entered as missing; calm, variable and frost only where said', () => {
    const { conditions } = flight;
    if (isUndetermined(conditions) || !conditions.wind) throw new Error('the demo has a wind');
    const { wind } = conditions;
    const shown = (changes: Partial<typeof conditions>): string =>
      linesOf({ conditions: { ...conditions, ...changes } })[1];
    const none = shown({
      ...{ wind: null, surface: null, tempC: null, qnhHpa: null },
      ...{ massKg: null, takeOffMassKg: null, flap: null },
    });
    expect(none).toBe(
      '  Marram 160, wind not entered, surface not entered, temperature not entered, QNH not entered, mass not entered',
    );
    expect(shown({ wind: { ...wind, fromDeg: null, speedKt: 0 } })).toContain(', calm,');
    expect(shown({ wind: { ...wind, fromDeg: null } })).toContain('wind variable 7 kt,');
    expect(shown({ wind: { ...wind, fromDeg: 5, gustKt: 14 } })).toContain(
      'wind 005° true 7 kt gusting 14,',
    );
    expect(shown({ tempC: -3 })).toContain('−3 °C');
  });

  test('[DT2] says once why nothing was predicted', () => {
    const compared = {
      approaches: flight.compared.approaches.map((each) => ({ ...each, prediction: NONE })),
      takeOffs: flight.compared.takeOffs.map((each) => ({ ...each, prediction: NONE })),
    };
    const lines = linesOf({ conditions: undetermined('no conditions were entered'), compared });
    expect(lines[1]).toBe('  Marram 160, no prediction: no conditions were entered');
    expect(lines.filter((each) => each.includes('no prediction'))).toHaveLength(1);
    const known = linesOf({ compared });
    expect(known.filter((each) => each.includes('no prediction'))).toEqual([
      '  note: no prediction: not part of this test',
    ]);
    expect(lines.join()).not.toContain('Planned');
  });
});

describe('[DT3] the table of events', () => {
  test('[DT3] a landing: touchdown, roll end and why, speed, roll, strip left', () => {
    // 20 m/s is 38.9 kt, 19 and 21 m/s are 36.9 and 40.8: 1 kt is 1852 m an hour.
    const lines = linesWith([landingLike(model(), {})]);
    expect(line(lines, '10:00:00 full stop')).toContain(
      '10:00:00 full stop sedge 20 40 m 35–45 220 m 215–225 stopped 39 kt 36–41 180 m 175–185 135 m 130–140',
    );
    expect(lines.join('\n')).not.toContain('lowest');
  });

  test('[DT3] an overrun is printed as plainly as strip left', () => {
    const lines = linesWith([landingLike(model(), { stripLeftM: about(-12) })]);
    expect(line(lines, '10:00:00 full stop')).toContain(' −12 m −17 to −7 ');
  });

  test('[DT3] what the data cannot tell is a dash, and what did not happen is empty', () => {
    const unknown = landingLike(model(), { groundRollM: NONE, stripLeftM: NONE, strip: null });
    expect(line(linesWith([unknown]), '10:00:00 full stop')).toContain(
      'unknown place 40 m 35–45 220 m 215–225 stopped 39 kt 36–41 – –',
    );
    const pass = landingLike(model(), {
      outcome: 'go-around',
      touchdown: NONE,
      rollEnd: NONE,
      goAround: {
        initiationTimeS: about(0),
        lowestTimeS: about(Date.UTC(2025, 5, 1, 11, 0, 0) / 1000),
        lowestAboveM: { value: 3.4, low: 0.6, high: 12.4 },
        lowestAlongM: about(80),
        contactProbability: 0.02,
      },
      contactProbability: 0.02,
    });
    const lines = linesWith([pass]);
    expect(line(lines, '11:00:00 go-around')).toBe('11:00:00 go-around sedge 20 3.5 m 0.5–13');
    expect(lines.join('\n')).not.toContain('may have touched');
    const doubtful = linesWith([{ ...pass, contactProbability: 0.3 }]);
    expect(line(doubtful, 'note: 11:00:00')).toBe(
      'note: 11:00:00 the wheels may have touched (probability 30 %)',
    );
    const either = linesWith([{ ...pass, outcome: NONE, contactProbability: 0.4 }]);
    expect(line(either, '11:00:00 touch or pass?')).toContain('sedge 20');
  });

  test('[DT3] expected figure and ratio are those of the roll, or of the whole distance where marked', () => {
    const [, landing] = flight.compared.approaches;
    if (isUndetermined(landing.prediction)) throw new Error('the demo predicts');
    if (isUndetermined(landing.prediction.landing)) throw new Error('the demo predicts a landing');
    const figures = { ...landing.prediction.landing, expectedRollM: 200, expectedFrom50FtM: 389 };
    const rolls = {
      ...landing,
      prediction: { ...landing.prediction, landing: figures },
      roll: { ...landing.roll, ratio: { value: 0.9, low: 0.8, high: 1 } },
      whole: { ...landing.whole, ratio: { value: 0.6, low: 0.5, high: 0.7 } },
    };
    const noRoll = { ...figures, expectedRollM: NONE };
    const wholes = { ...rolls, prediction: { ...rolls.prediction, landing: noRoll } };
    const shown = (compared: typeof landing): string =>
      line(
        linesWith([landingLike(model(), {})], {
          compared: { takeOffs: [], approaches: [compared] },
        }),
        '10:00:00 full stop',
      );
    expect(shown(rolls)).toMatch(/ 200 m 0\.90 0\.80–1\.00$/);
    expect(shown(wholes)).toMatch(/ 389 m over 50 ft 0\.60 0\.50–0\.70$/);
  });

  test('[DT3] events stand in order of time, take-offs among landings', () => {
    const times = linesOf({}).flatMap(
      (each) =>
        /^ {2}(\d\d:\d\d:\d\d) +(take-off|low pass|full stop)/.exec(each)?.slice(1, 3).join(' ') ??
        [],
    );
    expect(times).toHaveLength(3);
    expect(times).toEqual(times.toSorted());
    expect(times[0]).toContain('take-off');
  });

  test('[DT3] a recording in which nothing used a strip says so', () => {
    const surroundings = { approaches: [], takeOffs: [], areas: [] };
    const lines = linesWith([], { wind: NONE, surroundings });
    expect(lines.slice(2)).toEqual(['  no take-off or landing was found in this recording']);
  });

  test('[CO1] a recording too slow to show events does not claim that there were none', () => {
    const surroundings = { approaches: [], takeOffs: [], areas: [] };
    const source = { ...flight.source, medianIntervalS: 12 };
    const lines = linesWith([], { wind: NONE, surroundings, source });
    expect(lines.slice(2)).toEqual([
      '  no take-off or landing was found in this recording; one fix every 12 s may not show them',
    ]);
  });
});

describe('[DT4] how the approach ended', () => {
  test('[DT4] height and speed at the threshold, offset, bounces and distances', () => {
    const crossing = {
      timeS: about(0),
      aboveM: { value: 8.2, low: 6.1, high: 11.2 },
      crossM: about(1),
      groundSpeedMps: { value: 25, low: 24.5, high: 25.5 },
    };
    const finals = [
      {
        ...{ gates: [], airspeedWind: null, preferredPath: null, commitPoint: null },
        float: { durationS: about(2), distanceM: about(31) },
      },
    ];
    // 25 m/s is 48.6 kt.
    const landing = { ...landingLike(model(), { thresholdCrossing: crossing }), gates: [] };
    expect(line(linesWith([landing], { finals }), '10:00:00 sedge')).toMatch(
      /^10:00:00 sedge 20 8\.0 m 6\.0–12 49 kt 47–50 −2 m −7 to 3 \d+ m past it 1 31 m 26–36 40 m 35–45 220 m 215–225$/,
    );
  });

  test('[DT4] a touchdown short of the threshold is flagged with its probability', () => {
    const { touchdown } = landingLike(model(), {});
    if (isUndetermined(touchdown)) throw new Error('made up with a touchdown');
    const short = { ...touchdown, alongM: about(-9), shortProbability: 0.996 };
    const lines = linesWith([landingLike(model(), { touchdown: short })]);
    expect(line(lines, 'note: 10:00:00')).toBe(
      'note: 10:00:00 touchdown short of the threshold (probability over 99 %)',
    );
    const long = linesWith([landingLike(model(), {})]).join('\n');
    expect(long).not.toContain('short of the threshold');
  });
});

describe('[DT5] what was planned', () => {
  test('[DT5] against the declared length, the margin below zero as plainly as above, with the caution', () => {
    const [, landing] = flight.compared.approaches;
    if (isUndetermined(landing.prediction)) throw new Error('the demo predicts');
    const { prediction } = landing;
    if (isUndetermined(prediction.landing)) throw new Error('the demo predicts a landing');
    const plan = (plannedFrom50FtM: number, plannedRollM: number): string[] => {
      const figures = {
        ...prediction.landing,
        ...{ plannedFrom50FtM, plannedRollM, marginM: 355 - plannedFrom50FtM },
        latestTouchdownAlongM: 355 - plannedRollM,
      } as typeof prediction.landing;
      const compared = { ...landing, prediction: { ...prediction, landing: figures } };
      const approaches = [landingLike(model(), {}), landingLike(model(), {})];
      return linesWith(approaches, {
        compared: { takeOffs: [], approaches: [compared, compared] },
      });
    };
    const long = plan(580, 391);
    expect(long.filter((each) => each.startsWith('  landing '))).toHaveLength(1);
    expect(line(long, 'landing')).toBe('landing sedge 20 580 m LDA 355 m −225 m 391 m −36 m');
    expect(line(long, '10:00:00 sedge')).toContain(' 76 m past it ');
    expect(line(long, 'Planned by')).toContain('the flight manual comes first');
    const short = plan(300, 200);
    expect(line(short, 'landing')).toBe('landing sedge 20 300 m LDA 355 m 55 m 200 m 155 m');
    expect(line(short, '10:00:00 sedge')).toContain(' 115 m before it ');
  });
});

describe('[DT5] what was planned for taking off', () => {
  test('[DT5] stands against the TODA', () => {
    // The demo's Ternholm declares 560 m of TODA for direction 25 (tracks-sample/strips.geojson).
    const [{ prediction }] = flight.compared.takeOffs;
    if (isUndetermined(prediction) || isUndetermined(prediction.takeOff)) throw new Error('none');
    const { plannedTo50FtM } = prediction.takeOff;
    if (isUndetermined(plannedTo50FtM)) throw new Error('the demo plans a take-off');
    const planned = Math.round(plannedTo50FtM);
    const left = Math.round(560 - plannedTo50FtM);
    expect(line(linesOf({}), 'take-off ternholm')).toContain(
      `take-off ternholm 25 ${planned} m TODA 560 m ${left} m`,
    );
  });
});

describe('[DT7] circuits, joins and the wind', () => {
  test('[DT7] a circuit has its side, figures and time; a join its kind; the wind its direction', () => {
    const startTimeS = Date.UTC(2025, 5, 1, 9, 0, 0) / 1000;
    const leg = {
      ...{ startTimeS, endTimeS: startTimeS + 30, groundSpeedMps: about(30) },
      ...{ startAboveM: about(200), endAboveM: about(200) },
    };
    const place = { strip: 'sedge', direction: '20' };
    const circuit = {
      ...{ ...place, side: 'right', startTimeS, endTimeS: startTimeS + 185 },
      legs: [
        { ...leg, leg: 'downwind' },
        { ...leg, leg: 'final' },
      ],
      orbits: [],
      ...{ downwindSpacingM: about(900), baseTurnPastThresholdM: about(-40) },
      ...{ finalLengthM: NONE, steepestBankDeg: about(28) },
    } as Flight['circuits']['circuits'][number];
    const join = { ...place, kind: 'straight-in', timeS: startTimeS + 3600 } as const;
    // 5 m/s is 9.7 kt.
    const wind = { fromDeg: about(3), speedMps: { value: 5, low: 4, high: 6 } };
    const lines = linesOf({ circuits: { circuits: [circuit], joins: [join] }, wind });
    expect(line(lines, '09:00:00')).toBe(
      '09:00:00 right-hand sedge 20 downwind 900 m 895–905 −40 m −45 to −35 – 28° 23–33 3 min 05 s',
    );
    expect(line(lines, '10:00:00 joined')).toBe('10:00:00 joined sedge 20: straight in');
    expect(line(lines, 'wind that')).toContain('from 003° 358–008 true, 10 kt 7–12');
    const calm = linesOf({ wind: { ...wind, fromDeg: NONE } });
    expect(line(calm, 'wind that')).not.toContain('from 0');
    expect(linesOf({ wind: NONE }).join('\n')).not.toContain('wind that the track implies');
  });
});

describe('[DT8] finals: own limits, preferred path, commit point', () => {
  const place = { strip: 'sedge', direction: '20' };
  const timeS = Date.UTC(2025, 5, 1, 9, 30, 0) / 1000;
  const gate = {
    ...{ heightFt: 200, timeS, alongM: about(-700), crossM: about(-12) },
    // 25 m/s is 48.6 kt, 3 m/s 591 ft/min.
    ...{ groundSpeedMps: { value: 25, low: 24, high: 26 }, pathDeg: about(7) },
    descentRateMps: { value: 3, low: 2, high: 4 },
  };
  const final: Flight['finals'][number] = {
    gates: [
      {
        estimatedAirspeedMps: { value: 28, low: 26, high: 30 },
        limits: [
          { of: 'estimatedAirspeedMps', least: 25, most: 31, found: 'in' },
          { of: 'descentRateMps', least: 0, most: 1, found: 'out' },
          { of: 'pathDeg', least: 3, most: 5, found: 'cannot-tell' },
        ],
      },
    ],
    ...{ airspeedWind: 'track', preferredPath: null, float: NONE, commitPoint: null },
  };
  const shown = (changes: Partial<Flight['finals'][number]>): string[] =>
    linesWith([{ ...model(), ...place, gates: [gate] }], { finals: [{ ...final, ...changes }] });

  test('[DT8] a gate has its figures and where each stood against its limits', () => {
    expect(line(shown({}), '09:30:00')).toBe(
      '09:30:00 sedge 20 200 ft 54 kt 50–59 in 49 kt 46–51 590 390–790 out 7° 2–12 cannot tell −12 m −17 to −7',
    );
    expect(line(shown({}), 'airspeeds are estimated by the wind that')).toContain(
      'nothing about a margin over the stall',
    );
    expect(line(shown({ airspeedWind: 'entered' }), 'airspeeds')).toContain('the wind entered');
    expect(line(shown({ airspeedWind: 'both' }), 'airspeeds')).toContain(
      'by the wind that the track implies and the one entered, each by its error, to about 5 kt',
    );
    expect(line(shown({ airspeedWind: null }), 'no airspeed')).toContain('tell a wind');
  });

  test('[DT8] without limits there is no table, and no word on airspeed', () => {
    const text = shown({ gates: [{ ...final.gates[0], limits: [] }] }).join('\n');
    expect(text).not.toContain('200 ft');
    expect(text).not.toContain('airspeed');
  });

  test('[DT8] a path says how far off; one left is said as plainly', () => {
    const path = {
      ...{ withinM: 100, parts: [], greatestOffM: about(250), meanOffM: about(60) },
      found: 'left',
    } as const;
    expect(line(shown({ preferredPath: path }), 'preferred path')).toBe(
      'preferred path of sedge 20 not kept to within 100 m: at most 250 m 245–255 off, 60 m 55–65 on the mean',
    );
    const unknown = { ...path, found: 'cannot-tell', greatestOffM: NONE, meanOffM: NONE } as const;
    expect(line(shown({ preferredPath: unknown }), 'preferred path')).toBe(
      'preferred path of sedge 20 perhaps kept to within 100 m: not part of this test',
    );
  });

  test('[DT8] a go-around past the commit point is printed as plainly as one before it', () => {
    const check = { commitM: -300, initiationAlongM: about(-420), beforeProbability: 1 };
    const before = { ...check, beforeM: { value: 120, low: 80, high: 160 } };
    expect(line(shown({ commitPoint: before }), 'go-around at')).toBe(
      'go-around at sedge 20 begun 120 m 80–160 before the commit point',
    );
    const past = {
      ...{ ...check, beforeM: { value: -20, low: -60, high: 20 } },
      beforeProbability: 0.2,
    };
    expect(line(shown({ commitPoint: past }), 'go-around at')).toBe(
      'go-around at sedge 20 begun 20 m −20 to 60 past the commit point; before it with 20 %',
    );
  });
});

describe('[DT6] notes', () => {
  test('[DT6] refused credits stand in one line a use, each reason once, with a true minus, and only those of the use flown', () => {
    const credit = (phase: 'landing' | 'take-off', text: string) => ({
      code: 'credit-not-taken',
      text: `${phase}, ${text}`,
      phase,
    });
    const notes = [
      credit(
        'landing',
        'altitude: no credit is taken for pressure altitude -169 ft instead of 0 ft',
      ),
      credit('landing', 'slope: no credit is taken for 0.2 % uphill'),
      credit('take-off', 'slope: no credit is taken for 0.2 % downhill'),
      { code: 'other', text: 'the moon was full' },
    ];
    const compared = {
      takeOffs: [],
      approaches: flight.compared.approaches.map((each) => ({
        ...each,
        prediction: isUndetermined(each.prediction)
          ? each.prediction
          : { ...each.prediction, notes },
      })),
    };
    const lines = linesWith(flight.events.approaches, { compared });
    expect(lines.filter((each) => each.includes('note:'))).toEqual([
      '  note: the moon was full',
      '  note: the planned landing takes no credit for altitude (pressure altitude −169 ft instead of 0 ft), slope (0.2 %',
    ]);
    expect(lines.filter((each) => each.includes('credit'))).toHaveLength(1);
  });

  test('[DT6] a slow half way is a reason to stop; a fast one is no word at all', () => {
    const [takeOff] = flight.events.takeOffs;
    const withShare = (value: number): string => {
      const halfway = { groundSpeedMps: about(12), shareOfLiftOff: { value, low: 0.1, high: 1 } };
      const events = { ...flight.events, takeOffs: [{ ...takeOff, halfway }] };
      return linesOf({ events }).join('\n');
    };
    expect(withShare(0.62)).toContain(
      'at half the TORA the ground speed was 62 % of that at lift-off',
    );
    expect(withShare(0.62)).not.toContain('reason to go');
    expect(withShare(0.7)).not.toContain('half the TORA');
  });

  test('[DT6] problems of the file come last, the grave ones first, long ones in several lines', () => {
    const problems = [
      problem('a', 'note', 'line 3', 'a small thing'),
      problem('b', 'error', 'line 9', Array.from({ length: 40 }, () => 'word').join(' ')),
      problem('c', 'warning', 'file', 'a middling thing'),
    ];
    const lines = problemLines(problems);
    expect(lines[0]).toMatch(/^ {2}error: line 9: word word/);
    expect(lines[1]).toMatch(/^ {4}word/);
    expect(lines.slice(-2)).toEqual([
      '  warning: file: a middling thing',
      '  note: line 3: a small thing',
    ]);
    expect(Math.max(...lines.map(({ length }) => length))).toBeLessThanOrEqual(120);
    expect(lines.join(' ').match(/word/g)).toHaveLength(40);
    const whole = debriefLines({ ...debrief, flights: [] }, problems);
    expect(whole[0]).toBe('2024-05-12-first-visit-sedge.gpx');
    expect(whole.slice(1)).toEqual(lines);
  });
});
