/** The client of a worker that answers late, out of order, or from beyond its end. */
import { describe, expect, test } from 'vitest';
import { AnalysisClient, type WorkerLike } from '../../src/app/analysis-client.ts';
import type { WorkAnswer, WorkRequest } from '../../src/app/analysis-messages.ts';
import { problem, success, type Result } from '../../src/result.ts';

/** A worker whose every word is the test's. */
class Puppet implements WorkerLike {
  readonly asked: WorkRequest[] = [];
  isEnded = false;
  onmessage: WorkerLike['onmessage'] = null;
  onerror: WorkerLike['onerror'] = null;
  postMessage(message: WorkRequest): void {
    this.asked.push(message);
  }
  terminate(): void {
    this.isEnded = true;
  }
  say(data: WorkAnswer): void {
    this.onmessage?.({ data } as MessageEvent<WorkAnswer>);
  }
  fall(message?: string): void {
    this.onerror?.({ message } as ErrorEvent);
  }
}

function puppets(): { readonly client: AnalysisClient; readonly made: Puppet[] } {
  const made: Puppet[] = [];
  const client = new AnalysisClient(() => {
    made.push(new Puppet());
    return made[made.length - 1];
  });
  return { client, made };
}

const NOTHING = { strips: [], aeroplanes: [], visits: [] };
const measure = (client: AnalysisClient, stages: string[] = []) =>
  client.measure({} as never, new Uint8Array(), NOTHING, (stage) => stages.push(stage));
const question = { logId: 'a', flight: 0, key: null, options: {} as never };
const measured = (number: number, inputsSha256: string): WorkAnswer => {
  const value = { analysis: { flights: [], problems: [] }, inputsSha256 };
  return { kind: 'measured', number, result: success(value) };
};
const code = (result: Result<unknown>): string | null =>
  result.ok ? null : result.problems[0].code;

describe('answers', () => {
  test('[AC5] reach the one who asked, in whatever order they come', async () => {
    const { client, made } = puppets();
    const [stagesA, stagesB]: [string[], string[]] = [[], []];
    const a = measure(client, stagesA);
    const b = measure(client, stagesB);
    const [worker] = made;
    const [first, second] = worker.asked.map(({ number }) => number);
    worker.say({ kind: 'stage', number: second, stage: 'measuring' });
    worker.say(measured(second, 'b'));
    worker.say({ kind: 'stage', number: first, stage: 'reading' });
    worker.say(measured(first, 'a'));
    const [answerA, answerB] = await Promise.all([a, b]);
    expect(answerA.ok && answerA.value.inputsSha256).toBe('a');
    expect(answerB.ok && answerB.value.inputsSha256).toBe('b');
    expect([stagesA, stagesB]).toEqual([['reading'], ['measuring']]);
  });

  test('[AC6] that are a fault of ours fail in its own words, for a log and for an event', async () => {
    const { client, made } = puppets();
    const asked = [measure(client), client.event(question)];
    const fault = problem('fault', 'error', 'program', 'found a mistake, expected none');
    for (const { number } of made[0].asked) made[0].say({ kind: 'fault', number, problem: fault });
    for (const answer of await Promise.all(asked)) expect(answer.problems).toEqual([fault]);
    // The worker lives on: a mistake in one log is none in the next.
    const next = measure(client);
    made[0].say(measured(made[0].asked[2].number, 'next'));
    expect((await next).ok).toBe(true);
    expect(made.length).toBe(1);
  });
});

describe('a worker that was ended', () => {
  test('[AC7] and answers all the same is not heard', async () => {
    const { client, made } = puppets();
    const stages: string[] = [];
    const first = measure(client, stages);
    client.cancelAll();
    expect(code(await first)).toBe('cancelled');
    expect(made[0].isEnded).toBe(true);
    const second = measure(client, stages);
    made[0].say({ kind: 'stage', number: made[0].asked[0].number, stage: 'measuring' });
    made[0].say(measured(made[0].asked[0].number, 'late'));
    made[1].say(measured(made[1].asked[0].number, 'new'));
    const answer = await second;
    expect(answer.ok && answer.value.inputsSha256).toBe('new');
    expect(stages).toEqual([]);
  });

  test('[AC8] and breaks down afterwards takes nobody with it', async () => {
    const { client, made } = puppets();
    const first = measure(client);
    client.cancelAll();
    await first;
    const second = measure(client);
    made[0].fall('out of memory');
    made[1].say(measured(made[1].asked[0].number, 'new'));
    expect((await second).ok).toBe(true);
    void measure(client);
    expect(made.length).toBe(2);
  });
});

describe('a worker that breaks down', () => {
  test('[AC9] is ended, everybody who waits is told why, and a new one takes over', async () => {
    const { client, made } = puppets();
    const waiting = [measure(client), client.event(question)];
    made[0].fall('out of memory');
    for (const answer of await Promise.all(waiting)) {
      expect(code(answer)).toBe('fault');
      expect(answer.problems[0].message).toMatch(/\(out of memory\), expected it to finish/);
    }
    expect(made[0].isEnded).toBe(true);
    const next = measure(client);
    made[1].say(measured(made[1].asked[0].number, 'new'));
    expect((await next).ok).toBe(true);
  });

  test('[AC10] without a reason, as one whose file does not load, says no empty word', async () => {
    const { client, made } = puppets();
    const waiting = measure(client);
    made[0].fall();
    const { problems } = await waiting;
    expect(problems[0].message).toMatch(/expected/);
    expect(problems[0].message).not.toMatch(/undefined|\(\)/);
  });
});

describe('cancelling', () => {
  test('[AC11] with nobody asking starts no worker and ends nothing', () => {
    const { client, made } = puppets();
    client.cancelAll();
    expect(made).toEqual([]);
  });
});
