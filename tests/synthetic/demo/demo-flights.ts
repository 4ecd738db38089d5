/**
 * What is common to the demo flights: the form of a story, and how it becomes a day.
 * The stories themselves stand in marram-stories.ts and eelgrass-stories.ts.
 */
import type { Receiver } from '../receiver-model.ts';
import type { DemoDay, DemoPilot } from './demo-pilot.ts';

/** One flight of the demo logbook. */
export interface DemoStory {
  /** File name: date and story; its end gives the format. */
  readonly file: string;
  /** Take-off time of day, UTC: hh:mm:ss. */
  readonly clock: string;
  readonly about: string;
  readonly massKg: number;
  readonly takeOffMassKg: number;
  /** Direction it blows from, degrees true, speed and gust, kt. */
  readonly wind: readonly [number, number, number | null];
  readonly tempC: number;
  readonly qnhHpa: number;
  readonly wet: boolean;
  readonly effort: DemoDay['effort'];
  readonly receiver?: Partial<Receiver>;
  /** Faults of the file itself. */
  readonly doubled?: readonly [number, number];
  readonly fly: (pilot: DemoPilot) => void;
}

/** The day of a story. */
export function dayOf(story: DemoStory, aeroplane: DemoDay['aeroplane'], seed: number): DemoDay {
  const [fromDeg, speedKt, gustKt] = story.wind;
  return {
    startTimeS: Date.parse(`${story.file.slice(0, 10)}T${story.clock}Z`) / 1000 + 0.37,
    aeroplane,
    massKg: story.massKg,
    windFromDeg: fromDeg,
    windKt: speedKt,
    gusty: gustKt !== null,
    wet: story.wet,
    effort: story.effort,
    seed,
  };
}
