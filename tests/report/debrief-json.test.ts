/** The document: what the debrief holds passes through, rounded far below any error. */
import { beforeAll, describe, expect, test } from 'vitest';
import type { Debrief, Flight } from '../../src/debrief/debrief.ts';
import { debriefDocument, debriefJsonText } from '../../src/report/debrief-json.ts';
import { isUndetermined, problem, undetermined } from '../../src/result.ts';
import { expectNear } from '../expect-near.ts';
import { about, demoFlight, landingLike } from './demo-flight.ts';

interface Written {
  readonly flights: readonly {
    readonly approaches: readonly {
      readonly touchdown: Record<string, unknown>;
      readonly groundRollM: unknown;
      readonly prediction: { readonly chain: readonly { of: string; runningM: number }[] } & Record<
        string,
        number
      >;
      readonly ratio: { readonly value: number };
      readonly ratioOf: string;
      readonly touchdownPastLatestM: Record<'value' | 'low' | 'high', number>;
    }[];
  }[];
  readonly files: readonly { file: string; read: boolean; flights: number; problems: unknown[] }[];
}

let debrief: Debrief;
let flight: Flight;
beforeAll(async () => {
  ({ debrief, flight } = await demoFlight('2024-05-12-first-visit-sedge.gpx'));
});

function written(flights: readonly Flight[]): Written {
  const read = [{ debrief: { ...debrief, flights }, problems: [] }];
  return JSON.parse(debriefJsonText(debriefDocument(read, [], []))) as Written;
}

describe('[DJ1] rounding', () => {
  test('[DJ1] numbers keep four decimals; whole ones stay whole, and minus zero is zero', () => {
    const text = debriefJsonText({
      a: 1.23456789,
      b: -0.00001,
      c: 1715519812.43214,
      d: 3,
      e: 1e-9,
    });
    expect(text).toBe('{"a":1.2346,"b":0,"c":1715519812.4321,"d":3,"e":0}');
  });

  test('[DJ1] what has no value passes through with its reason, and is never a number', () => {
    const model = flight.events.approaches[1];
    const approach = landingLike(model, { groundRollM: undetermined('the log ends in the roll') });
    const [only] = written([
      {
        ...flight,
        events: { ...flight.events, takeOffs: [], approaches: [approach] },
        compared: { takeOffs: [], approaches: [flight.compared.approaches[1]] },
      },
    ]).flights;
    expect(only.approaches[0].groundRollM).toEqual({ undetermined: 'the log ends in the roll' });
    expect(only.approaches[0].touchdown.alongM).toEqual(about(40));
  });
});

describe('[DJ2] predictions and ratios', () => {
  test('[DJ2] the working holds both figures in order, and ends at the figures given', () => {
    const { prediction } = written([flight]).flights[0].approaches[1];
    const labels = prediction.chain.map((step) => step.of);
    expect(new Set(labels)).toEqual(new Set(['expected', 'planned']));
    expect(labels).toEqual(labels.toSorted());
    const lastOf = (of: string): number =>
      prediction.chain.findLast((step) => step.of === of)?.runningM ?? NaN;
    // The last line of each working is the roll: the whole less the air part, in metres to 0.1 mm.
    expectNear(lastOf('expected'), prediction.expectedRollM, 2e-4, 'expected');
    expectNear(lastOf('planned'), prediction.plannedRollM, 2e-4, 'planned');
    expectNear(prediction.marginM, 355 - prediction.plannedFrom50FtM, 2e-4, 'margin to the LDA');
    expectNear(
      prediction.latestTouchdownAlongM,
      355 - prediction.plannedRollM,
      2e-4,
      'latest touchdown',
    );
  });

  test('[DJ2] the ratio is measured over expected, and the touchdown is set against the latest point', () => {
    const [, approach] = written([flight]).flights[0].approaches;
    const [, { fullStopRollM, touchdown }] = flight.events.approaches;
    if (isUndetermined(fullStopRollM) || isUndetermined(touchdown)) throw new Error('measured');
    if (isUndetermined(touchdown.alongM)) throw new Error('measured');
    expect(approach.ratioOf).toBe('ground-roll');
    expectNear(
      approach.ratio.value,
      fullStopRollM.value / approach.prediction.expectedRollM,
      1e-4,
      'ratio',
    );
    for (const end of ['value', 'low', 'high'] as const) {
      const past = touchdown.alongM[end] - approach.prediction.latestTouchdownAlongM;
      expectNear(approach.touchdownPastLatestM[end], past, 2e-4, `${end} past the latest point`);
    }
  });

  test('[DJ2] a pass without contact has no place against the latest touchdown point', () => {
    const [pass] = written([flight]).flights[0].approaches;
    expect(pass.touchdownPastLatestM).toEqual({ undetermined: 'the wheels did not touch' });
  });
});

describe('[DJ3] files', () => {
  test('[DJ3] lists every file, the unread with their reasons, and writes no flight for them', () => {
    const why = problem('not-readable', 'error', 'file', 'no such file');
    const document = debriefDocument(
      [{ debrief, problems: [problem('x', 'note', 'line 1', 'y')] }],
      [{ file: 'gone.igc', problems: [why] }],
      [],
    ) as Written;
    expect(document.files).toEqual([
      expect.objectContaining({ file: debrief.source.file, read: true, flights: 1 }),
      expect.objectContaining({ file: 'gone.igc', read: false, flights: 0, problems: [why] }),
    ]);
    expect(document.flights).toHaveLength(1);
  });
});
