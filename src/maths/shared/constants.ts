/** Mass of an international avoirdupois pound in kilograms, exact (international yard and pound agreement, 1959). */
export const KILOGRAMS_A_POUND = 0.45359237;

/** Length of an international foot in metres, exact (international yard and pound agreement, 1959). */
export const METRES_A_FOOT = 0.3048;

/**
 * Pressure of a pound-force per square inch in Pa: pound × standard gravity (9.80665 m/s², 3rd CGPM, 1901) over a
 * square inch (0.0254 m, squared).
 */
export const PASCALS_A_PSI = (KILOGRAMS_A_POUND * 9.80665) / 0.0254 ** 2;
