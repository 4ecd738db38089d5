/**
 * A visit's prediction as one JSON document, for programs.
 *
 * In: what the text is made from. Out: a plain object as docs/schema/predict.schema.json describes
 * it. Lengths in metres, speeds in metres a second, bearings true; a figure that cannot be had is
 * `{ "undetermined": "reason" }`. Everything the text shows is in it.
 */
import type { DirectionPlan } from '../debrief/plan-directions.ts';
import type { Figure, Prediction } from '../performance/prediction.ts';
import { isUndetermined, undetermined } from '../result.ts';
import { ENDS_GUESSED, type StripBook } from '../strips/strip.ts';
import { CAUTION } from './caution.ts';
import { USUAL_UNITS } from './figure-text.ts';
import { ownLength, type OwnForVisit } from './pictures/visit-pictures.ts';
import { stripGround } from './pictures/strip-ground.ts';
import type { PredictReport } from './predict-tables.ts';
import { obstaclesAhead } from './story/obstacles-ahead.ts';
import { declaredAt, type Declared } from './story/visit-figures.ts';

/** The document. */
export function predictDocument(report: PredictReport): unknown {
  const { strip, aeroplane, factorSet, conditions, own, plans, book } = report;
  return {
    schema: 1,
    caution: CAUTION,
    strip: { id: strip.id, name: strip.name },
    aeroplane: { id: aeroplane.id, name: aeroplane.name },
    factorSet: { id: factorSet.id, name: factorSet.name },
    conditions,
    ownFactors: { landing: own.landingWhole, takeOff: own.takeOffWhole },
    directions: plans.map((plan, k) => ({
      ...directionJson(plan, own, book),
      ...(report.lengths ? { lengthNeeded: report.lengths[k] } : {}),
    })),
  };
}

function directionJson(
  { place, prediction, changes }: DirectionPlan,
  own: OwnForVisit,
  book: StripBook,
) {
  const { designator, use, ldaM, toraM, todaM, asdaM } = place.direction;
  const held = declaredAt(place);
  return {
    designator,
    use,
    trueBearingDeg: place.frame.trueBearingDeg,
    declared: { ldaM, toraM, todaM, asdaM },
    ...(isUndetermined(prediction)
      ? { landing: prediction, takeOff: prediction, obstaclesAhead: [] }
      : {
          day: prediction.day,
          speeds: prediction.speeds,
          landing: landingJson(prediction, own, held),
          takeOff: takeOffJson(prediction, own, held),
          obstaclesAhead: aheadJson(place, prediction, book),
          notes: prediction.notes,
        }),
    sensitivity: changes,
  };
}

function landingJson({ landing }: Prediction, own: OwnForVisit, held: Declared): unknown {
  if (isUndetermined(landing)) return landing;
  const ownM = ownLength(own.landingWhole, landing.expectedFrom50FtM);
  const { chain, ...figures } = landing;
  const ownFigures =
    ownM === null ? {} : { ownFrom50FtM: ownM, ownMarginM: leftOf(held, held.ldaM, ownM) };
  return { ...figures, ...ownFigures, chain };
}

function takeOffJson({ takeOff }: Prediction, own: OwnForVisit, held: Declared): unknown {
  if (isUndetermined(takeOff)) return takeOff;
  const ownM = ownLength(own.takeOffWhole, takeOff.expectedTo50FtM);
  const { chain, ...figures } = takeOff;
  const declaredM = takeOff.heldAgainst === 'TORA' ? held.toraM : held.todaM;
  const ownFigures =
    ownM === null ? {} : { ownTo50FtM: ownM, ownMarginM: leftOf(held, declaredM, ownM) };
  const rollM = takeOff.plannedRollM;
  const rollMarginM = isUndetermined(rollM) ? rollM : leftOf(held, held.toraM, rollM);
  return { ...figures, rollMarginM, ...ownFigures, chain };
}

/** Of a declared length; nothing is left of one whose ends are a guess. */
function leftOf({ endsGuessed }: Declared, declaredM: number, usedM: number): Figure {
  return endsGuessed ? undetermined(ENDS_GUESSED) : declaredM - usedM;
}

function aheadJson(
  place: DirectionPlan['place'],
  { takeOff }: Prediction,
  book: StripBook,
): unknown[] {
  if (isUndetermined(takeOff)) return [];
  const ground = stripGround(place, book, USUAL_UNITS);
  return obstaclesAhead(ground, ground.nearEndM, takeOff).map((ahead) => ({
    name: ahead.name,
    fromBrakeReleaseM: ahead.awayM,
    expectedOverTopM: ahead.expectedOverTopM,
    plannedOverTopM: ahead.plannedOverTopM,
  }));
}
