/**
 * The form in which two labels (strain, lot, ingredient) are the same: outer spaces and letter case do not count,
 * as in a worksheet's own lookups.
 */
export function labelKey(label: string): string {
  return label.trim().normalize('NFC').toLowerCase();
}
