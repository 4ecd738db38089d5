/**
 * Where does the plumb line hang? By pointer on any drawing, by key and thumb on the slider.
 *
 * In: the event on show. Out: a moment of the flight, or none; the host is updated when it moves.
 */
import type { ReactiveController, ReactiveControllerHost } from 'lit';
import { isUndetermined } from '../../result.ts';
import { timeAtPlace } from '../../report/story/cursor-columns.ts';
import type { EventDebrief } from '../../report/story/event-debrief.ts';
import type { PointListener } from '../components/measured-figure.ts';
import { bareScale } from '../drawings/bare-roll.ts';
import { timeScale } from '../drawings/flight-line.ts';
import { layOutProfiles } from '../drawings/profile-layout.ts';
import { layOutLying, layOutStanding } from '../drawings/ruler-layout.ts';
import { STANDS_BELOW } from '../drawings/strip-ruler.ts';

/** What the controller needs of its host. */
export interface PlumbHost extends ReactiveControllerHost {
  readonly event: EventDebrief;
}

/** Holds the moment, UTC seconds. */
export class PlumbController implements ReactiveController {
  readonly #host: PlumbHost;
  #atS: number | null = null;
  #key: string | null = null;

  constructor(host: PlumbHost) {
    this.#host = host;
    host.addController(this);
  }

  /** Another event is on show: the line is taken down. */
  hostUpdate(): void {
    const { key } = this.#host.event;
    if (key === this.#key) return;
    this.#key = key;
    this.#atS = null;
  }

  /** Null: it hangs nowhere. */
  get atS(): number | null {
    return this.#atS;
  }

  /** Hangs it at a moment, or takes it down. */
  hang(atS: number | null): void {
    this.#atS = atS;
    this.#host.requestUpdate();
  }

  readonly onLine: PointListener = (at) =>
    this.hang(at ? timeScale(this.#host.event.line, at.widthPx).of(at.x) : null);

  readonly onRuler: PointListener = (at) => {
    const { ruler } = this.#host.event;
    if (isUndetermined(ruler)) return;
    if (!at) this.hang(null);
    else if (at.widthPx < STANDS_BELOW) {
      this.#hangAtPlace(layOutStanding(ruler, at.widthPx).axes.scale.of(at.y));
    } else this.#hangAtPlace(layOutLying(ruler, at.widthPx).axes.scale.of(at.x));
  };

  readonly onBareRoll: PointListener = (at) => {
    const { bareRoll } = this.#host.event;
    if (isUndetermined(bareRoll)) return;
    if (!at) this.hang(null);
    else this.#hangAtPlace(bareScale(bareRoll, at.widthPx).of(at.x));
  };

  readonly onProfiles: PointListener = (at) => {
    const { final } = this.#host.event;
    if (isUndetermined(final)) return;
    if (!at) this.hang(null);
    else this.#hangAtPlace(layOutProfiles(final, at.widthPx).along.of(at.x));
  };

  #hangAtPlace(alongM: number): void {
    this.hang(timeAtPlace(this.#host.event.cursor, alongM));
  }
}
