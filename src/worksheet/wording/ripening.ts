import type { Sentences } from './sentence';

/** What can be wrong with ripening, beyond what any number, date or label can be. */
export const ripening: Sentences<
  | 'noGrowth'
  | 'noGrowthObserved'
  | 'noTemperature'
  | 'noStageYet'
  | 'stagesTogether'
  | 'noReadings'
  | 'noGrowthLately'
  | 'neverReady'
  | 'noDatedLot'
  | 'severalLots'
  | 'loadOfNothing'
  | 'moreThanLeft'
  | 'otherStrain'
  | 'strainsAlike'
  | 'loadedTwice'
> = {
  loadedTwice: ({ lot }, { subject, quoted }) =>
    `${subject}: ${quoted(lot)} has a number of blocks here and rows of its own in loads: keep one of the two`,
  noGrowth: (_, { subject }) => `${subject}: the strain does not grow at or beyond its min temp and max temp`,
  noGrowthObserved: ({ observedAt, min, max }, { subject, figure }) =>
    `${subject} must be between min temp (${figure(min)}) and max temp (${figure(max)}), where the strain grows; ` +
    `it is ${figure(observedAt)}`,
  noTemperature: ({ header, table }, { subject }) =>
    `${subject}: "${header}" in ${table} is blank or 0; for 0 degrees write 0.01`,
  noStageYet: ({ day, first }, { subject }) =>
    `${subject}: no stage of this strain has begun on day ${day}; the first begins on day ${first}`,
  stagesTogether: ({ day, stages }, { subject, quoted, listed }) =>
    `${subject} must have one stage from day ${day}; it has ${listed(stages.map(quoted))}`,
  noReadings: ({ from, to }, { subject, figure }) =>
    to === undefined
      ? `${subject}: there is no reading after inoculated (${figure(from)})`
      : `${subject}: there is no reading between inoculated (${figure(from)}) and as of (${figure(to)})`,
  noGrowthLately: ({ days }, { subject }) =>
    `${subject}: the strain did not grow in the last ${days} days of readings`,
  neverReady: (_, { subject }) =>
    `${subject}: at these temperatures the lot is not ready before the year 10000`,
  noDatedLot: ({ label, nearest }, { subject, quoted }) =>
    `${subject}: ${quoted(label)} is not in lots, or has no dates there` +
    (nearest === undefined ? '' : `; did you mean ${quoted(nearest)}?`),
  severalLots: ({ label }, { subject, quoted }) =>
    `${subject}: ${quoted(label)} must be in one row of lots; it is in several`,
  otherStrain: ({ lot, strain, given }, { subject, quoted }) =>
    `${subject}: ${quoted(lot)} is of ${quoted(strain)} in lots; the load says ${quoted(given)}`,
  strainsAlike: ({ strains }, { subject, quoted, listed }) =>
    `${subject}: ${listed(strains.map(quoted))} look like one strain: write it in one way`,
  loadOfNothing: (_, { subject }) => `${subject} needs a lot or a strain in each row; this row has neither`,
  moreThanLeft: ({ left, of, isStrain, date, given }, { subject, figure, quoted, ...say }) =>
    `${subject} must be at most ${left}, what ${quoted(of)} has ${isStrain ? 'ready' : 'left'} on ${figure(date)}; ` +
    `it is ${say.given(given)}`,
};
