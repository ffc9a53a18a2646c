import type { BuiltIn } from '../builtIn';
import { DIVIDED_BY_ZERO, NOT_AVAILABLE, NUM, type Value } from '../values';
import { define, named, type Given } from './define';
import { meanOf, numbersOf, squaresOf } from './numbers';
import { studentBothTails } from './probability';

// How likely two samples differ by chance alone. Definitions: ISO/IEC 29500-1:2016, 18.17.7, TTEST.

/** What a sample's numbers come to. */
const sampleOf = (numbers: readonly number[]) => ({
  size: numbers.length,
  mean: meanOf(numbers),
  variance: squaresOf(numbers) / (numbers.length - 1),
});

/** Pairs of numbers only. @throws ErrorValue #N/A where the lists differ in length */
function differences(given: Given): number[] {
  const [left, right] = [given.list(0), given.list(1)];
  if (left.length !== right.length) throw NOT_AVAILABLE;
  numbersOf([...left, ...right]);
  return left.flatMap((one, at) => {
    const other = right[at];
    return typeof one === 'number' && typeof other === 'number' ? [one - other] : [];
  });
}

/** Student's t of two samples and its degrees of freedom: in pairs, of equal variances, of any. */
function studentOf(given: Given, type: number): { t: number; freedom: number } {
  if (type === 1) {
    const { size, mean, variance } = sampleOf(differences(given));
    return { t: mean / Math.sqrt(variance / size), freedom: size - 1 };
  }
  const [a, b] = [sampleOf(numbersOf(given.list(0))), sampleOf(numbersOf(given.list(1)))];
  const freedom = a.size + b.size - 2;
  if (type === 2) {
    const pooled = ((a.size - 1) * a.variance + (b.size - 1) * b.variance) / freedom;
    return { t: (a.mean - b.mean) / Math.sqrt(pooled / a.size + pooled / b.size), freedom };
  }
  const [partA, partB] = [a.variance / a.size, b.variance / b.size];
  return {
    t: (a.mean - b.mean) / Math.sqrt(partA + partB),
    freedom: (partA + partB) ** 2 / (partA ** 2 / (a.size - 1) + partB ** 2 / (b.size - 1)),
  };
}

const studentTest = (given: Given): Value => {
  const [tails, type] = [given.whole(2), given.whole(3)];
  if (![1, 2].includes(tails) || ![1, 2, 3].includes(type)) return NUM;
  const { t, freedom } = studentOf(given, type);
  if (!Number.isFinite(t) || !(freedom >= 1)) return DIVIDED_BY_ZERO;
  return (studentBothTails(Math.abs(t), freedom) / 2) * tails;
};

export const hypotheses: readonly BuiltIn[] = named(
  define('T.TEST', [4, 4], 'array array value value', studentTest),
  'T.TEST',
  'TTEST',
);
