/**
 * A number from 0 up to 1 that depends on a label alone: FNV-1a over its characters. The finaliser of MurmurHash3
 * mixes it, so that neighbouring days do not get neighbouring numbers.
 */
export function tieBreak(label: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < label.length; i++) hash = Math.imul(hash ^ label.charCodeAt(i), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x85ebca6b);
  hash = Math.imul(hash ^ (hash >>> 13), 0xc2b2ae35);
  return ((hash ^ (hash >>> 16)) >>> 0) / 2 ** 32;
}
