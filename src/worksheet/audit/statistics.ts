// Comparisons of groups and of strains, control charts and the likeliest flushes: loaded once a sheet asks for one.

export { individualsChart, movingRangeChart, proportionsChart } from '../../maths/audit/controlChart';
export { classicalTest, groupComparison } from '../../maths/audit/groupComparison';
export { flushesFromDates } from '../../maths/harvest/flushNumbers';
export { strainRecord } from '../../maths/harvest/strainRecord';
