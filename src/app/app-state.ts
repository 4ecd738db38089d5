/**
 * What does the page know, and what can be asked of it?
 *
 * The state is one frozen value, replaced as a whole. Pages get it as a property and ask for a change
 * by one event, `wr-action`, whose detail is an `AppAction`; the shell hands it to the store.
 */
import type { OtherLogs } from '../logbook/debrief-context.ts';
import type {
  AeroplaneRecord,
  EntryKey,
  FactorSetRecord,
  Feature,
  LogSummary,
  SettingsRecord,
  StripRecord,
  VisitRecord,
} from '../logbook/entry.ts';
import type { Conflict } from '../logbook/merge.ts';
import type { FlightSummary } from '../report/flight-summary.ts';
import type { Problem } from '../result.ts';
import type { Conditions } from '../weather/conditions.ts';

/** What the logbook remembers of an analysed log. */
export interface LogAnalysis {
  readonly flights: readonly FlightSummary[];
  readonly problems: readonly Problem[];
}

/** One file on its way into the logbook. */
export interface ImportJob {
  readonly number: number;
  readonly fileName: string;
  readonly stage: 'waiting' | 'reading' | 'measuring' | 'done' | 'failed' | 'cancelled';
  /** The log it became; null until it is kept. */
  readonly logId: string | null;
  /** Why it failed, or what was noted on the way. */
  readonly problems: readonly Problem[];
}

/** Of one logbook file that was taken in, the records of which something was not taken. */
export interface TakenFile {
  readonly fileName: string;
  readonly conflicts: readonly Conflict[];
}

/** One message at the foot of the page. */
export interface PageMessage {
  readonly number: number;
  readonly text: string;
  readonly isCaution: boolean;
  /** What brings the deleted records back; null: nothing to undo. */
  readonly deletion: number | null;
}

/** A visit that is being planned and was not kept yet; null: not chosen or not entered. */
export interface VisitDraft {
  readonly stripId: string | null;
  /** Designator of the direction to land in, and of the one to take off in. */
  readonly landing: string | null;
  readonly takeOff: string | null;
  /** `2025-06-14`. */
  readonly day: string;
  readonly aeroplaneId: string | null;
  readonly conditions: Conditions | null;
  /** Id of a factor set; null: the one of the settings. */
  readonly factorSet: string | null;
}

/** Everything that pages show. Records are as listed: logs without their bytes. */
export interface AppState {
  readonly phase: 'opening' | 'ready' | 'failed';
  /** Why the logbook did not open; null while it does or did. */
  readonly fault: string | null;
  readonly settings: SettingsRecord;
  readonly logs: readonly LogSummary[];
  readonly visits: readonly VisitRecord[];
  /** Strips, obstacles, avoid areas and approach paths: one feature each. */
  readonly strips: readonly StripRecord[];
  readonly aeroplanes: readonly AeroplaneRecord[];
  /** Factor sets of the pilot's own. */
  readonly factorSets: readonly FactorSetRecord[];
  /** By log id; a log that is not in it is still being measured, or cannot be. */
  readonly analyses: ReadonlyMap<string, LogAnalysis>;
  /** By log id, of logs whose flights other logs recorded too. */
  readonly otherLogs: ReadonlyMap<string, OtherLogs>;
  /** Logs that wait to be measured, because they or what they rest on changed. */
  readonly toMeasure: number;
  readonly imports: readonly ImportJob[];
  /** What of logbook files was not taken, until the pilot closes the list. */
  readonly notTaken: readonly TakenFile[];
  /** What the visit room holds while the pilot looks at another one; null: nothing yet. */
  readonly visitDraft: VisitDraft | null;
  readonly messages: readonly PageMessage[];
  /** True where any record is of the demonstration. */
  readonly hasDemo: boolean;
  /** The clock when the state was made, UTC seconds: for "three days ago". */
  readonly nowS: number;
}

/** What a page may ask for. */
export type AppAction =
  /** Reads, keeps and measures track files; other kinds are recognised and taken where they belong. */
  | { readonly type: 'import-files'; readonly files: readonly File[] }
  | { readonly type: 'cancel-imports' }
  | { readonly type: 'clear-imports' }
  /** Removes records together; `words` name them, for the message that offers to undo it. */
  | { readonly type: 'remove'; readonly keys: readonly EntryKey[]; readonly words: string }
  | { readonly type: 'undo'; readonly deletion: number }
  | { readonly type: 'dismiss'; readonly number: number }
  | { readonly type: 'save-settings'; readonly settings: SettingsRecord }
  /** Puts a visit: conditions, aeroplane, marks and remarks of one flight. Affected logs are measured anew. */
  | { readonly type: 'save-visit'; readonly visit: VisitRecord; readonly words?: string }
  /** What stands in the visit room; kept only while the page is open. */
  | { readonly type: 'draft-visit'; readonly draft: VisitDraft }
  /** Says which flight a planned visit was, and whether its conditions were as planned. */
  | {
      readonly type: 'join-visit';
      readonly visitId: string;
      readonly logId: string;
      readonly asPlanned: boolean;
    }
  /** An aeroplane document as the reader of aeroplane documents takes it. */
  | { readonly type: 'save-aeroplane'; readonly document: AeroplaneRecord['document'] }
  /** A factor set document as its reader takes it. */
  | { readonly type: 'save-factor-set'; readonly document: FactorSetRecord['document'] }
  /**
   * Features of a strips file, in force from `fromS` on (null: as long as anyone knows). A strip is
   * known by its own id; another feature with `recordId` replaces that record.
   */
  | {
      readonly type: 'save-features';
      readonly features: readonly {
        readonly feature: Feature;
        readonly recordId: string | null;
      }[];
      readonly fromS: number | null;
      readonly words: string;
    }
  /** A file handed to the browser to be saved. */
  | {
      readonly type: 'download';
      readonly fileName: string;
      readonly mediaType: string;
      readonly text: string;
    }
  | { readonly type: 'export-logbook' }
  | { readonly type: 'import-logbook'; readonly file: File }
  | { readonly type: 'clear-not-taken' }
  | { readonly type: 'load-demo' }
  | { readonly type: 'remove-demo' };

/** The event a page sends up. */
export type ActionEvent = CustomEvent<AppAction>;

/** Sends an action up from an element. */
export function sendAction(from: EventTarget, action: AppAction): void {
  from.dispatchEvent(new CustomEvent('wr-action', { detail: action, bubbles: true }));
}

declare global {
  interface HTMLElementEventMap {
    'wr-action': ActionEvent;
  }
}
