/**
 * Lethal rates of moist heat, reference 121.11 °C, z 10 °C, printed to three decimals, most of them cut rather than rounded: Reichert, J. E.
 * (1977), as printed in a laboratory autoclave manual (2021). The two entries marked as misprints do not lie on the
 * table's own law; `exact` is what that law gives.
 */
export const REICHERT_REFERENCE_C = 121.11;
export const REICHERT_Z_C = 10;

const PRINTED_FROM_100_C = [
  0.007, 0.009, 0.012, 0.015, 0.019, 0.024, 0.03, 0.038, 0.048, 0.061, 0.077, 0.097, 0.122, 0.154, 0.194,
  0.244, 0.303, 0.388, 0.488, 0.615, 0.774, 0.974, 1.227, 1.544, 1.944, 2.448, 3.082, 3.83, 4.885, 6.15,
  7.745,
];

export const REICHERT_MISPRINTS: ReadonlyMap<number, number> = new Map([
  [116, 0.3083],
  [127, 3.8815],
]);

export const REICHERT_RATES = PRINTED_FROM_100_C.map((printed, i) => ({ celsius: 100 + i, printed }));
