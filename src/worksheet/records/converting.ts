// What reads records as a sheet has them, loaded once a sheet asks for it.

export { matchedLabels } from '../../maths/records/matchedLabels';
export { textDates } from '../../maths/records/textDates';
export { shareOfFigure, textNumberOrRange } from '../../maths/records/textNumber';
export { renamedTable } from './renamedTable';
